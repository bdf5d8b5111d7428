/* svg-pen.h: draws SVG's shapes, in their own coordinates, into loops in mm. */
#pragma once

#include "exchange/loops.h"
#include "exchange/svg-transform.h"

typedef struct SvgPen {
    Transform transform; /* from the shape's coordinates to mm, Y up */
    double tolerance;    /* mm */
    long line;           /* of the file */
    Loops *loops;        /* borrowed */
    Curve curve;         /* the chain being drawn, mm */
    GArray *nodes;       /* Point, mm */
    Point start, at;     /* shape's coordinates */
    bool drawing;        /* a chain has been begun */
} SvgPen;

void svg_pen_init(SvgPen *pen, Loops *loops, double tolerance);
void svg_pen_clear(SvgPen *pen);

/* Coordinates are the shape's own and absolute. All return false with an Error as curve.h has it.
 */
bool svg_pen_move(SvgPen *pen, Point p, Error *error);
bool svg_pen_line(SvgPen *pen, Point p, Error *error);
bool svg_pen_quadratic(SvgPen *pen, Point c, Point p, Error *error);
bool svg_pen_cubic(SvgPen *pen, Point c1, Point c2, Point p, Error *error);
bool svg_pen_arc(SvgPen *pen, Point radii, double turn, bool large, bool positive, Point p,
                 Error *error);
bool svg_pen_close(SvgPen *pen, Error *error);
/* Leaves off; a chain that was not closed stays open. */
bool svg_pen_end(SvgPen *pen, Error *error);

/* Whole shapes. */
bool svg_pen_rectangle(SvgPen *pen, Point corner, Point size, Point radii, Error *error);
bool svg_pen_ellipse(SvgPen *pen, Point centre, Point radii, Error *error);

/* Draws path data (SVG 1.1 section 8.3). A mistake in it is an ERROR_FORMAT that says after how
 * many characters, and what was expected. */
bool svg_path_draw(SvgPen *pen, const char *data, Error *error);
