/* palette.h: the colours of a layout on a screen or in a picture, by what a mark is for. */
#pragma once

#include "drawing/play-cairo.h"

/* On light and on dark ground. The editor may colour by its own
 * style and ask palette_colour for what it leaves alone. */
extern const PlayStyle palette_light, palette_dark;

Colour palette_ground(bool dark);
Colour palette_colour(const Mark *mark, bool dark);
