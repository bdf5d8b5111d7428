#include "checks/recess-pair.h"

static bool lies_within(const Feature *outer, const Feature *inner)
{
    Gap room;
    if (outer->kind != FEATURE_RECESS)
        return false;
    shape_room(&outer->shape, &inner->shape, &room);
    return !falls_short(room.distance, 0);
}

bool recess_lies_within(const Feature *a, const Feature *b)
{
    return lies_within(a, b) || lies_within(b, a);
}
