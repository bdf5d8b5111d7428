/* nest-offers.h: what a nest is offered: each is a hole or recess of its own on the nest's station,
 * so that it is drawn, checked, listed and milled as what it is. */
#pragma once

#include "session/session.h"

typedef enum NestOffer {
    NEST_OFFER_CORNERS, /* round relief at the corners of a square blank */
    NEST_OFFER_BURR,    /* grooves in the floor under the blank's sawn edges */
    NEST_OFFER_DRAIN,   /* a hole through the floor for chips and coolant */
    NEST_OFFER_NOTCH,   /* room for a finger beside the part */
    NEST_OFFERS
} NestOffer;

/* What is offered, in a few words, as "Corner relief". */
const char *nest_offer_name(NestOffer offer);

/* True when the record is a nest that the offer suits and that does not have it yet. Corner relief
 * and burr grooves suit nests for blanks alone: profiled parts have neither. */
bool nest_offered(const Session *session, FeatureId nest, NestOffer offer);

/* Adds it. Drain and notch go where they bring no new stop or caution. False with an error when it
 * is not offered, or there is no room. */
bool nest_take_offer(Session *session, FeatureId nest, NestOffer offer, Edit *edit, Error *error);
