/* tray-nest.h: nests and what they are offered, as things of a tray. */
#pragma once

#include "editor/tray-item.h"
#include "session/nest-offers.h"

/* Adds a shallow nest with room all round: the pins locate, the nest keeps chips and turning away.
 * Depths are from the face, so the station's holes, those of the edit and those of the plate that
 * don't stand in metal yet, become as much deeper. */
void tray_nest_add(Session *session, FeatureId station, const Part *part, Edit *edit);

/* A nest for the station that it is dropped on. */
PinTrayItem *tray_nest_item_new(void);
/* What a nest is offered, for the station's nest that it suits. */
PinTrayItem *tray_offer_item_new(NestOffer offer);
