/* frame.h: how a face lies in the plate's space.
 *
 * The plate's space has its origin at the stock's front left corner on the TOP, X to the right, Y
 * to the back, Z up, so that everything in the plate has a Z of 0 or less. */
#pragma once

#include "geometry/shape.h"
#include "geometry/space.h"
#include "plate/plate.h"

typedef struct Frame {
    FeatureId face;
    Space origin;
    Space along, up, normal; /* of length 1: the face's own X and Y, and out of the metal */
    Shape extent;            /* the face's area, in its own coordinates; a rectangle */
    double depth;            /* mm of metal below the face: the stock's thickness for the top; of an
                                inclined face about that, and frame_depth_at exactly */
} Frame;

/* Works a face's frame out from its record and the plate's stock. */
Frame frame_of(const Stock *stock, const Record *face);

/* The face's own coordinates, with the height over it as Z, in the plate's space. */
static inline Placement frame_placement(const Frame *frame)
{
    return (Placement){frame->origin, frame->along, frame->up, frame->normal};
}

/* mm from a place on the face, square to it, down to the stock's underside: of an inclined face it
 * is less the further down the slope. */
double frame_depth_at(const Frame *frame, Point p);

/* The height (mm, 0 or less) of the face over a place of the plan that is in its area; else 0. */
double frame_height_over(const Frame *frame, Point at);

/* From the face's own coordinates and a height over it to the plate's space. */
Space frame_to_space(const Frame *frame, Point p, double height);
/* The other way: the point on the face, and the height over it. */
Point frame_from_space(const Frame *frame, Space p, double *height);
