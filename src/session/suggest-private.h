/* suggest-private.h: what the two searches share. */
#pragma once

#include "session/suggest.h"

typedef struct Search {
    SuggestGoOn go_on;
    void *data;
    double from, to; /* the part of the whole that is under way */
    bool stopped;
} Search;

/* How many stops the session has, or would have with what it is trying. */
uint32_t suggest_stops(const Session *session);
/* Tells how far it is; false when it is to stop, from then on. */
bool suggest_go_on(Search *search, double fraction, uint32_t found);
