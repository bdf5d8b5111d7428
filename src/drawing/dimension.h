/* dimension.h: dimension lines, ordinates, leaders and centre marks, by ISO 129-1 or ASME Y14.5.
 *
 * All places are mm on the sheet. The two standards differ here in where the figure stands: above
 * an unbroken line and readable from below and from the right (ISO), or upright in a gap of the
 * line (ASME). Sizes of arrowheads, gaps and overshoots are within what both allow, from memory.
 */
#pragma once

#include "drawing/drawing.h"

typedef enum DimensionStandard { DIMENSION_ISO, DIMENSION_ASME } DimensionStandard;

#define DIMENSION_ARROW 3.0     /* length of an arrowhead, mm; a third as wide */
#define DIMENSION_GAP 1.0       /* from the feature to its witness line */
#define DIMENSION_OVERSHOOT 2.0 /* of a witness line beyond the dimension line */
#define DIMENSION_SHOULDER 3.0  /* the level end of a leader, before its text */

/* A filled arrowhead with its tip at `tip`, pointing along `direction` (of any length). */
void dimension_arrow(Drawing *drawing, Point tip, Point direction);

/* A dimension between two places, along X or along Y. */
typedef struct LinearDimension {
    Point from, to;
    bool upright;  /* it measures along Y */
    double line;   /* the dimension line's Y, or its X when upright */
    double height; /* of the lettering */
    const char *text;
    DimensionStandard standard;
    bool chained; /* its witness lines are drawn already, and it has room between them */
} LinearDimension;

/* Whether the arrows and the figure have room between the two places. */
bool dimension_has_room(const Drawing *drawing, const LinearDimension *dimension);

/* How far a figure that has no room between the two places reaches beyond the upper one; 0 for one
 * that has. mm. */
double dimension_overhang(const Drawing *drawing, const LinearDimension *dimension);

/* Draws it and returns the box of its text. Arrows and text go outside where there is no room. */
Box dimension_linear(Drawing *drawing, const LinearDimension *dimension);

/* One ordinate: a witness line from its feature to a figure at the edge. */
typedef struct Ordinate {
    Point from;      /* where the witness line begins, on the feature */
    double position; /* of its figure along the edge: X below or above, Y beside */
    const char *text;
    uint32_t feature;
} Ordinate;

typedef enum OrdinateSide {
    ORDINATE_BELOW,
    ORDINATE_ABOVE,
    ORDINATE_LEFT,
    ORDINATE_RIGHT
} OrdinateSide;

typedef struct OrdinateRow {
    OrdinateSide side;
    double jog_start; /* the coordinate across the edge where witness lines leave straight */
    double jog_end;   /* where they have come to their figures' positions */
    double line_end;  /* where they end and the figures begin */
    double height;    /* of the lettering */
} OrdinateRow;

/* The least distance of two figures of an ordinate row, mm, for a lettering height. */
#define ORDINATE_PITCH 1.5

/* Draws the witness line, straight or with one jog, and the figure along it. Returns the text's
 * box. */
Box dimension_ordinate(Drawing *drawing, const OrdinateRow *row, const Ordinate *ordinate);

/* A leader from `tip` over `knee` to a level shoulder, and the text behind it. The shoulder goes
 * right when the knee lies right of the tip. Returns the text's box. */
Box dimension_leader(Drawing *drawing, Point tip, Point knee, double height, const char *text);
/* The same without an arrowhead, for a leader that ends inside an area. */
Box dimension_leader_to_area(Drawing *drawing, Point tip, Point knee, double height,
                             const char *text);
/* The centre mark of a circle: a cross that reaches `DIMENSION_OVERSHOOT` out of it, with dashes
 * where it is long enough to show them. */
void dimension_centre_mark(Drawing *drawing, Point centre, double radius);
