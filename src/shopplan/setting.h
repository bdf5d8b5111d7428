/* setting.h: the steps of one setting put into order. Private to src/shopplan. */
#pragma once

#include "shopplan/shopplan.h"

/* A hole's spot and all its own steps. */
#define JOB_STEPS_MOST (STEPS_MOST + 1)

/* All that one hole or recess needs, in its own order. */
typedef struct PlanJob {
    FeatureId operation, face;
    PlanStep steps[JOB_STEPS_MOST];
    uint32_t count;
} PlanJob;

/* Fills the setting's steps and counts from its jobs. `jobs` stand in the order of their features'
 * numbers; `start` is where the way begins. */
void setting_arrange(Setting *setting, PlanJob *const *jobs, uint32_t count, uint32_t tool_count,
                     Point start);
