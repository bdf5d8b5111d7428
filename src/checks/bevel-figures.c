#include "checks/bevel-figures.h"

#include "trade/bevel.h"

double blade_bevel_height(double thickness, double edge, double angle, int sides)
{
    const Bevel bevel = {thickness, edge, angle, sides};
    return bevel_height(&bevel);
}

double blade_height_for_thicker(double thicker, double angle)
{
    return bevel_height_for_thicker(thicker, angle);
}

double blade_edge_beyond(double edge, double angle, int sides, double beyond)
{
    const Bevel bevel = {0, edge, angle, sides};
    return bevel_edge_beyond(&bevel, beyond);
}
