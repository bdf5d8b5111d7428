#include "trade/holding.h"

#include <math.h>

static double chip_thickness(const MillingCut *cut)
{
    double share = cut->width / cut->diameter;
    if (share >= 0.5)
        return cut->feed;
    return 2 * cut->feed * sqrt(share * (1 - share));
}

void cutting_force(const Material *material, const MillingCut *cut, CuttingForce *result)
{
    double share = fmin(cut->width / cut->diameter, 1);
    double engaged = acos(1 - 2 * share) / (2 * M_PI) * cut->teeth;
    result->chip = chip_thickness(cut);
    result->teeth_engaged = fmax(1, engaged);
    result->specific_force = material->cutting_force * pow(result->chip, -material->chip_exponent);
    result->force = result->specific_force * cut->depth * result->chip * result->teeth_engaged;
}

#define NUT_FACTOR 0.2

double screw_preload(double torque, double diameter)
{
    return torque * 1000 / (NUT_FACTOR * diameter);
}

double friction_hold(double clamping, double friction, int faces)
{
    return clamping * friction * faces;
}

#define POISSON 0.3

double edge_deflection(const Material *material, double force, double overhang, double thickness,
                       double strip)
{
    double second_moment = strip * thickness * thickness * thickness / 12;
    double modulus = material->modulus * 1000;
    return force * overhang * overhang * overhang * (1 - POISSON * POISSON) /
           (3 * modulus * second_moment);
}
