/* pressed-pin.h: a dowel or relieved pin that is pressed into its hole, and spreads the metal round
 * it. */
#pragma once

#include "checks/rule.h"

typedef struct PressedPin {
    const Feature *hole;
    Shape bore;      /* of the pin's diameter, on the hole's axis */
    double diameter; /* mm */
} PressedPin;

/* False for what is no such pin: other hardware, a pin of no stated size, and one that is never
 * tight: its greatest diameter is less than the least of the bore it stands in. */
bool pressed_pin(const Placed *placed, const Feature *fitting, PressedPin *pin);

/* mm: the diameter of the largest dowel or relieved pin on the plate; 0 without any. */
double pressed_pin_largest(const Placed *placed);
