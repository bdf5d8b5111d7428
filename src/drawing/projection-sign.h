/* projection-sign.h: the truncated cone that says which way views are arranged, ISO 5456-2. */
#pragma once

#include "drawing/drawing.h"

/* Draws the sign about `centre`. In first angle the cone stands left of its end view, in third
 * angle right of it; its small end looks left in both (ISO 5456-2, proportions from memory: ends 1
 * and 2, length 2). */
void projection_sign_draw(Drawing *drawing, Point centre, double size, bool first_angle);
