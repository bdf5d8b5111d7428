/* shopplan.h: how the plate is made: its tools, and for each setting the ordered steps. The
 * drawing, the operation sheets and the drilling program all say what stands here. */
#pragma once

#include "placed/hole-tolerance.h"
#include "shopplan/step.h"
#include "shopplan/tool.h"

/* One setting at the machine: what one making operation does on one face. */
typedef struct Setting {
    FeatureId operation; /* ID_NONE: for what no making operation claims */
    FeatureId face;
    PlanStep *steps; /* in order */
    uint32_t step_count;
    uint32_t tool_count;  /* different tools */
    uint32_t changes;     /* from one tool to another; the first is not counted */
    bool fewest;          /* no order has fewer changes */
    uint32_t close_count; /* close-tolerance holes */
    double way;           /* mm sideways, from the face's datum on */
} Setting;

typedef struct Shopplan {
    Tool *tools; /* by tool_rank; numbered from 1 */
    uint32_t tool_count;
    Setting *settings; /* making operations in their order, then what none claims, face by face */
    uint32_t setting_count;
    GPtrArray *remarks; /* char *: what the maker should know of it, a plain sentence each */
} Shopplan;

/* Works the plan out from a plate and its Placed, which is up to date with it. Keeps no reference
 * to either. What is `made` already is left out.
 *
 * A hole that begins with no spot of its own gets one. Each hole's steps keep the order that the
 * hole has them in. In a setting the tools are changed as seldom as can be; where that leaves a
 * choice: spot drill, drills by size, tap drills, counterbores, countersinks, boring bars, reamers,
 * taps, cutters. With each tool close-tolerance holes are made first and one after the other, so
 * that the plate has one temperature meanwhile, each lot by a short way. Free with shopplan_free.
 */
Shopplan *shopplan_new(const Plate *plate, const Placed *placed);
void shopplan_free(Shopplan *plan);

/* NULL when nothing is made there. */
const Setting *shopplan_setting(const Shopplan *plan, FeatureId operation, FeatureId face);

/* Where a face's coordinates are counted from, mm on the face: the plate's datum on the top, an
 * inclined face's own origin. */
Point shopplan_datum(const Plate *plate, FeatureId face);

#define NAME_TEXT 48
/* The maker's label of a feature, or "hole 12". Returns `text`. */
const char *shopplan_name(const Record *record, char text[NAME_TEXT]);
