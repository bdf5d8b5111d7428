/* answer-picture.h: a plate as it would be with a refit's answer on it. */
#pragma once

#include "drawing/view.h"
#include "refit/refit.h"

/* Draws the answer's face in `room`: the new part unbroken, with its name, the parts that it
 * displaces by dashes, holes that it goes on and holes to be made with their labels, and the first
 * `findings` of its findings with their numbers. Where that is smaller than life and there is room,
 * what is round the part stands below it at a larger scale, with the labels. Returns the scale of
 * the face. */
double answer_picture_draw(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i,
                           uint32_t findings, Box room);
