#include "trade/bevel.h"

#include <math.h>

static double radians(double degrees)
{
    return degrees * M_PI / 180;
}

double bevel_height(const Bevel *bevel)
{
    return (bevel->thickness - bevel->edge) / (bevel->sides * tan(radians(bevel->angle)));
}

double bevel_angle(double thickness, double edge, int sides, double height)
{
    return atan((thickness - edge) / (sides * height)) * 180 / M_PI;
}

double bevel_height_for_thicker(double thicker, double angle)
{
    return thicker / tan(radians(angle));
}

double bevel_edge_beyond(const Bevel *bevel, double beyond)
{
    return bevel->edge - bevel->sides * beyond * tan(radians(bevel->angle));
}

double bevel_face_rise(double width, double angle)
{
    return width * tan(radians(angle));
}

double bevel_plunge_offset(double diameter, double corner, double depth)
{
    double radius = diameter / 2;
    if (depth >= corner)
        return radius;
    return radius - corner + sqrt(2 * corner * depth - depth * depth);
}

double bevel_gap_under_edge(const Bevel *bevel)
{
    return bevel_height(bevel) * tan(radians(bevel->angle));
}

double bevel_support_angle(double angle)
{
    return 2 * angle;
}

double cusp_height(double diameter, double step)
{
    double radius = diameter / 2;
    return radius - sqrt(radius * radius - step * step / 4);
}

double cusp_step(double diameter, double cusp)
{
    return 2 * sqrt(diameter * cusp - cusp * cusp);
}
