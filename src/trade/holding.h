/* holding.h: whether what holds a part is stronger than what the cutter does to it. Estimates, all
 * of them: a worn cutter, a dry chip or an oily face change them by half.
 *
 * Lengths in mm, forces in N, stresses in N/mm2, torque in Nm.
 */
#pragma once

#include "trade/material.h"

/* Common practice: friction of wet metal on metal, and the factor of safety that holding is asked
 * for. Both are shown and can be changed. */
#define HOLDING_FRICTION 0.1
#define HOLDING_FACTOR 2.5

typedef struct MillingCut {
    double diameter; /* of the cutter */
    int teeth;
    double width; /* of engagement across the feed: the radial depth */
    double depth; /* along the cutter's axis */
    double feed;  /* a tooth */
} MillingCut;

typedef struct CuttingForce {
    double chip;           /* greatest chip thickness: 2 fz sqrt(ae/D (1 - ae/D)), fz from half the
                              diameter on */
    double teeth_engaged;  /* no fewer than one */
    double specific_force; /* kc1.1 h^-m, Kienzle */
    double force;          /* specific force x depth x chip x teeth engaged */
} CuttingForce;

/* The tangential force of a pass, by the chip section (handbook). All figures more than 0, the
 * width no more than the diameter. */
void cutting_force(const Material *material, const MillingCut *cut, CuttingForce *result);

/* The preload of a screw tightened with `torque` Nm: torque / (0.2 d), the handbook's nut factor.
 */
double screw_preload(double torque, double diameter);

/* What friction holds against a sideways force: `clamping` N in all, rubbing at `faces` faces. */
double friction_hold(double clamping, double friction, int faces);

/* The bending of a thin edge that stands `overhang` mm out from its support under `force` at its
 * end, as a strip `strip` mm wide and `thickness` thick clamped at one end (handbook case of the
 * plate strip): F L3 (1 - 0.3^2) / (3 E I), I = strip thickness3 / 12. */
double edge_deflection(const Material *material, double force, double overhang, double thickness,
                       double strip);
