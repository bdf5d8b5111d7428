/* nests.h: the nests that a station's part lies in, as the rules about nests see them.
 *
 * Such a rule has the scope SCOPE_STATION, so that it hears of all that is cut near the part, and
 * names the nest as {a} and the station as {b}. */
#pragma once

#include "checks/rule.h"

typedef struct NestLook {
    const Feature *nest;
    const Recess *recess;
    const Feature *station;
    const Part *part;
    bool for_blank;
    double thickness; /* mm of what lies in it */
} NestLook;

typedef void (*NestCheck)(RuleContext *context, const NestLook *look);
/* Calls `check` for each blind nest on the station, by rising number. */
void each_nest(RuleContext *context, const Feature *station, NestCheck check);

/* Calls `visit` for each other hole and recess of the face that meets the part, or its blank, until
 * it returns false. */
void each_cut_near_part(const RuleContext *context, const NestLook *look, FeatureVisit visit,
                        void *data);
