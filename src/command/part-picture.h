/* part-picture.h: a part by itself, as its file's thumbnail shows it. */
#pragma once

#include "drawing/drawing.h"
#include "plate/part.h"

/* Draws the part on one sheet whose longer side is `sheet` mm, with `margin` mm left free round it:
 * its outline with its openings, its holes with their centre marks, and in phantom lines the blank
 * that it is cut from. False with an error when its rings make no
 * outline. */
bool part_picture_draw(Drawing *drawing, const Part *part, double sheet, double margin,
                       Error *error);
