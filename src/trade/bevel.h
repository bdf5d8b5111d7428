/* bevel.h: the figures of a blade's bevel and of the inclined face it is milled on.
 *
 * All lengths in mm, angles in degrees: more than 0 and less than 45. The bevel's angle is the one
 * between the bevelled face and the blade's flat, on one side.
 */
#pragma once

typedef struct Bevel {
    double thickness; /* of the blade */
    double edge;      /* thickness left at the edge */
    double angle;     /* a side */
    int sides;        /* 1 or 2 */
} Bevel;

/* Height of the bevel, along the flat: (t - e) / (sides tan(angle)). */
double bevel_height(const Bevel *bevel);

/* The angle that gives a height more than 0: atan((t - e) / (sides height)). */
double bevel_angle(double thickness, double edge, int sides, double height);

/* How much higher a bevel gets on stock that is `thicker` mm more, the part lying on the face and
 * the cutter's height kept: thicker / tan(angle), on the side that is cut. */
double bevel_height_for_thicker(double thicker, double angle);

/* The thickness left where the outline lies `beyond` mm further from the bevel's upper line than
 * the edge was meant to (negative: nearer): e - sides beyond tan(angle). Less than 0: there is no
 * metal there, the edge has moved in. */
double bevel_edge_beyond(const Bevel *bevel, double beyond);

/* How far above its lowest line an inclined face stands after `width` mm of the plan:
 * width tan(angle). */
double bevel_face_rise(double width, double angle);

/* How far from the plunge line (where the bevel ends across the blade) the cutter's axis must stay,
 * for a cutter of `diameter` with corners of `corner` radius (0: flat end, half the diameter: ball)
 * cutting `depth` mm: (R - r) + sqrt(2 r depth - depth2), R once depth reaches r. */
double bevel_plunge_offset(double diameter, double corner, double depth);

/* With the second side up, the first bevel lies at twice the bevel's angle to the top of the plate:
 * once for the inclined face, once for the bevel itself. This is the gap between the inclined face
 * and the blade under the edge: height tan(angle), at right angles to the face. */
double bevel_gap_under_edge(const Bevel *bevel);
double bevel_support_angle(double angle);

/* The cusp left by a ball cutter of `diameter` between paths `step` mm apart on a flat face:
 * R - sqrt(R2 - step2/4); and the step for a cusp: 2 sqrt(2 R cusp - cusp2). The step must be no
 * more than the diameter, the cusp no more than the radius. */
double cusp_height(double diameter, double step);
double cusp_step(double diameter, double cusp);
