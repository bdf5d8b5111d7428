#include "session/guide.h"

#include <stdlib.h>
#include <string.h>

uint32_t guides_add(Guides *guides, Guide guide)
{
    for (uint32_t i = 0; i < guides->count; i++) {
        const Guide *there = &guides->items[i];
        if (there->face == guide.face && there->upright == guide.upright && there->at == guide.at)
            return i;
    }
    if (guides->count == GUIDES_MOST)
        guides_remove(guides, 0);
    guides->items[guides->count] = guide;
    return guides->count++;
}

void guides_remove(Guides *guides, uint32_t number)
{
    guides->count--;
    memmove(&guides->items[number], &guides->items[number + 1],
            (guides->count - number) * sizeof(Guide));
}

int guides_near(const Guides *guides, FeatureId face, Place at, Length reach)
{
    int nearest = -1;
    Length best = reach;
    for (uint32_t i = 0; i < guides->count; i++) {
        const Guide *guide = &guides->items[i];
        Length away = (Length)llabs((guide->upright ? at.x : at.y) - guide->at);
        if (guide->face == face && away <= best) {
            best = away;
            nearest = (int)i;
        }
    }
    return nearest;
}
