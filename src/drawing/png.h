/* png.h: one sheet of a drawing as a PNG picture. */
#pragma once

#include "drawing/play-cairo.h"

/* No picture may be larger than this either way, in pixels. */
#define PNG_PIXELS_MOST 16384

/* Writes a sheet on white (or on `ground`, where its alpha is more than 0) at so many pixels a
 * millimetre, in `style`. */
bool png_write(const Drawing *drawing, size_t sheet, double pixels_per_mm, const PlayStyle *style,
               Colour ground, const char *file, Error *error);
