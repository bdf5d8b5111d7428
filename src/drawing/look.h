/* look.h: the colours of a picture of a layout, by what a mark is for. */
#pragma once

#include "drawing/play-cairo.h"

/* On light and on dark ground. */
extern const PlayStyle look_light, look_dark;

Colour look_ground(bool dark);
Colour look_colour(const Mark *mark, bool dark);
