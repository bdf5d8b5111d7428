/* hole-tolerance.h: how closely a hole's place is held. What the drawing says, what the plan makes
 * first and what a measured plate is held to are all this one rule. */
#pragma once

#include "placed/placed.h"

/* True for a hole that others go by: reamed or bored, with a position tolerance of its own, or with
 * a locator standing in it. */
bool hole_is_close(const Placed *placed, const Record *hole);

/* The diameter of the zone that such a hole's axis lies in: its own, or else 0.02 mm or 0.001 in
 * (common practice, no source). */
Length hole_zone(const Hole *hole, PlateUnit unit);
