/* guide.h: temporary lines across the faces, for things to be drawn to. They are no part of the
 * plate and go with the window. */
#pragma once

#include "plate/plate.h"

typedef struct Guide {
    FeatureId face;
    bool upright; /* at one X; else at one Y */
    Length at;    /* from the face's origin */
} Guide;

/* No more guides than this are kept: more say nothing more. */
#define GUIDES_MOST 64

typedef struct Guides {
    uint32_t count;
    Guide items[GUIDES_MOST];
} Guides;

/* Adds one, unless there is one in that place; its number. The oldest gives way to one too many. */
uint32_t guides_add(Guides *guides, Guide guide);
void guides_remove(Guides *guides, uint32_t number);
/* The guide of the face within `reach` of the place; -1: none. */
int guides_near(const Guides *guides, FeatureId face, Place at, Length reach);
