/* pose.h: how a thing's own coordinates lie on a face.
 *
 * First turned over about its own X axis where asked (y becomes -y), then rotated, then shifted.
 */
#pragma once

#include "geometry/angle.h"
#include "geometry/length.h"
#include "geometry/point.h"

typedef struct Pose {
    double x, y;         /* mm */
    double cosine, sine; /* of the rotation */
    bool turned_over;
} Pose;

#define POSE_IDENTITY ((Pose){0, 0, 1, 0, false})

/* From the model's exact numbers; whole quarter turns stay exact. */
Pose pose_from_model(Length x, Length y, Angle rotation, bool turned_over);

/* The pose that does `inner` first and then `outer`. */
Pose pose_after(Pose outer, Pose inner);

/* The pose that takes back `pose`. */
Pose pose_inverse(Pose pose);

static inline Point pose_direction(Pose pose, Point d)
{
    double y = pose.turned_over ? -d.y : d.y;
    return (Point){pose.cosine * d.x - pose.sine * y, pose.sine * d.x + pose.cosine * y};
}

static inline Point pose_point(Pose pose, Point p)
{
    Point d = pose_direction(pose, p);
    return (Point){d.x + pose.x, d.y + pose.y};
}
