/* fastener.h: a screw or pin in its hole, with the part it goes through and the place where that
 * part lies.
 *
 * A rule that looks at these has the scope SCOPE_FEATURE and the kinds FASTENER_KINDS: for a part
 * it looks at all that stands on its station, for a fitting of no station at that one alone. A
 * nest's depth counts, so such a rule must hear of every change on the station. */
#pragma once

#include "checks/rule.h"

#define FASTENER_KINDS (FEATURE_PART | FEATURE_FITTING)

typedef struct Fastener {
    const Feature *feature;
    const Feature *station; /* NULL for one of no station */
    const Fitting *fitting;
    const Hole *hole;
    const Frame *frame; /* of the hole's face */
    const Part *part;   /* NULL for one of no station */
    double seat;        /* mm below the face: what the part lies on, the face or its nest's floor */
} Fastener;

typedef void (*FastenerCheck)(RuleContext *context, const Fastener *fastener, void *data);

/* Calls `check` for each screw and pin that rule_… was given the feature `a` for. */
void each_fastener(RuleContext *context, const Feature *a, FastenerCheck check, void *data);

/* Where it stands: its hole's axis, on the face. */
static inline Point fastener_at(const Fastener *fastener)
{
    return feature_at(fastener->feature);
}

/* Reports it as {a}, at its place, with its station as {b} where it has one. */
Finding *fastener_report(RuleContext *context, int which, const Fastener *fastener, double value,
                         double limit);

/* Where a shoulder ends, mm below the face: on what the part lies on, or on the floor of the
 * deepest step that is wide enough to take it. Infinite when such a step goes right through. */
double fastener_shoulder_end(const Fastener *fastener);

/* How long a screw's shoulder is all told: what stands above the part's seat, and what a counterbore
 * or bore below takes of it. Of other hardware, and where the shoulder has no seat, its own length.
 */
Length fastener_whole_length(const Placed *placed, const Fitting *fitting);
