/* hardware.h: the locators and hold-downs that go through a part's holes, and the plate's holes
 * that they stand in. Chosen here for new stations and for parts that are put on old plates. */
#pragma once

#include "plate/fitting.h"
#include "plate/hole.h"
#include "plate/part.h"
#include "trade/thread.h"

/* How much smaller than the part's hole a shoulder screw may be and still locate (common practice,
 * no source). */
#define LOCATOR_CLEARANCE_MOST (LENGTH_MM / 4)

typedef struct Hardware {
    int kind; /* FittingKind */
    char size[48];
    Length diameter;     /* of the shoulder, pin or screw's body */
    Length upper, lower; /* limits of size: added to the diameter */
    Length head_diameter, head_height;
    const Thread *thread;                           /* that it screws into; NULL: a pin */
    Length thread_depth;                            /* of full thread, from the face */
    Length hole_nominal, hole_greatest, hole_least; /* that a pin is fitted in */
} Hardware;

/* The largest shoulder screw that always goes into the part's hole and is not far smaller; where
 * there is none, the largest dowel that does; where there is none, a plain pin 0.01 mm smaller than
 * the hole. */
Hardware hardware_for_locating(const PartHole *hole);
/* The largest socket-head screw whose close clearance hole is no larger than the part's hole. A
 * shop that works in inches has inch screws, and the other way round. False when there is none. */
bool hardware_for_holding(const PartHole *hole, bool metric, Hardware *hardware);

/* Adds the steps of a new plate hole that the hardware stands in. */
void hardware_make_steps(const Hardware *hardware, Hole *hole);
/* Fills the fitting's figures (not its references) for a part of this thickness. */
void hardware_make_fitting(const Hardware *hardware, Length part_thickness, Fitting *fitting);

/* The diametral clearance of the part's hole over the hardware at the limits of size, in mm;
 * negative: it need not go on. */
double hardware_clearance_least(const Hardware *hardware, const PartHole *hole);
double hardware_clearance_greatest(const Hardware *hardware, const PartHole *hole);
