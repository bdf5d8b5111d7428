/* recess-pair.h: what the rules of two recesses share. */
#pragma once

#include "checks/rule.h"

/* True when one of the two lies wholly within the other's area, as a hole in the floor of a nest
 * does: the deeper one then begins on the other's floor, and there is no wall between them. Two
 * holes never count as this. */
bool recess_lies_within(const Feature *a, const Feature *b);
