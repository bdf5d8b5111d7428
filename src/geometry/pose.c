/* pose.c: poses made, joined and taken back. */
#include "geometry/pose.h"

Pose pose_from_model(Length x, Length y, Angle rotation, bool turned_over)
{
    Pose pose = {.x = length_to_mm(x), .y = length_to_mm(y), .turned_over = turned_over};
    angle_cos_sin(rotation, &pose.cosine, &pose.sine);
    return pose;
}

Pose pose_after(Pose outer, Pose inner)
{
    /* With M the turning over, M R(a) = R(-a) M: an outer M turns the inner rotation round. */
    double sine = outer.turned_over ? -inner.sine : inner.sine;
    Point place = pose_point(outer, (Point){inner.x, inner.y});
    return (Pose){
        .x = place.x,
        .y = place.y,
        .cosine = outer.cosine * inner.cosine - outer.sine * sine,
        .sine = outer.sine * inner.cosine + outer.cosine * sine,
        .turned_over = outer.turned_over != inner.turned_over,
    };
}

Pose pose_inverse(Pose pose)
{
    /* The inverse of R(a) M is M R(-a) = R(a) M; of R(a) alone it is R(-a). */
    Pose inverse = {
        .cosine = pose.cosine,
        .sine = pose.turned_over ? pose.sine : -pose.sine,
        .turned_over = pose.turned_over,
    };
    Point back = pose_direction(inverse, (Point){pose.x, pose.y});
    inverse.x = -back.x;
    inverse.y = -back.y;
    return inverse;
}
