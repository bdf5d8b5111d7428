/* shape-private.h: cores taken apart into sides, for what measures shapes. Private to geometry. */
#pragma once

#include "geometry/outline-private.h"
#include "geometry/shape.h"

/* The border of a core that is no outline, as sides on the face: one for a point (of no length) and
 * a segment, four for a rectangle, counter-clockwise. Returns their number. */
int shape_core_sides(const Shape *shape, Side sides[4]);

/* How deep p, on the face, lies in the core's area, mm; 0 or less outside and for cores of no area.
 */
double shape_core_depth(const Shape *shape, Point p);

/* True when p lies in the core's area; either for a place of the border. */
bool shape_core_covers(const Shape *shape, Point p);

/* Places of the core that tell an overlap from a touch, 0 up to the count. The first one lies on
 * the outside of the border. */
size_t shape_core_sample_count(const Shape *shape);
Point shape_core_sample(const Shape *shape, size_t index);

static inline bool shape_core_has_area(const Shape *shape)
{
    return shape->core == CORE_RECTANGLE || shape->core == CORE_OUTLINE;
}

static inline bool pose_is_identity(Pose pose)
{
    return pose.x == 0 && pose.y == 0 && pose.cosine == 1 && pose.sine == 0 && !pose.turned_over;
}

/* The nearest points of the borders of the two cores, on the face, when they are nearer than the
 * square root of `within`; their areas are not looked at. */
Near shape_core_near(const Shape *a, const Shape *b, double within);

/* shape_room where the outer core is an outline. `outer` has the identity pose. */
void shape_room_in_outline(const Shape *outer, const Shape *inner, Gap *gap);
