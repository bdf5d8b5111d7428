#include "checks/nests.h"

#include "checks/locators.h"

#include <stdlib.h>

#define NESTS_MOST 8

typedef struct Gathering {
    const Placed *placed;
    const Feature *nests[NESTS_MOST];
    int count;
} Gathering;

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind != FEATURE_RECESS || feature->through || gathering->count == NESTS_MOST)
        return true;
    int kind = placed_record(gathering->placed, feature->id)->recess.kind;
    if (kind == RECESS_NEST || kind == RECESS_BLANK_NEST)
        gathering->nests[gathering->count++] = feature;
    return true;
}

static int compare_features(const void *a, const void *b)
{
    FeatureId one = (*(const Feature *const *)a)->id, other = (*(const Feature *const *)b)->id;
    return (one > other) - (one < other);
}

void each_nest(RuleContext *context, const Feature *station, NestCheck check)
{
    Gathering gathering = {.placed = context->placed};
    const Part *part = station_part(context->placed, station);
    if (!part)
        return;
    placed_each_on(context->placed, station->id, gather, &gathering);
    qsort(gathering.nests, (size_t)gathering.count, sizeof *gathering.nests, compare_features);
    for (int i = 0; i < gathering.count; i++) {
        const Recess *recess = &placed_record(context->placed, gathering.nests[i]->id)->recess;
        bool for_blank = recess->kind == RECESS_BLANK_NEST;
        bool own = for_blank && part->blank.thickness > 0;
        NestLook look = {gathering.nests[i],
                         recess,
                         station,
                         part,
                         for_blank,
                         length_to_mm(own ? part->blank.thickness : part->thickness)};
        check(context, &look);
    }
}

typedef struct Near {
    const NestLook *look;
    const Shape *lying; /* the part, or its blank */
    FeatureVisit visit;
    void *data;
} Near;

static bool visit_near(const Feature *feature, void *data)
{
    Gap gap;
    const Near *near = data;
    if (!(feature->kind & FEATURE_CUT) || feature->id == near->look->nest->id)
        return true;
    shape_gap(near->lying, &feature->shape, &gap);
    return gap.distance > 0 || near->visit(feature, near->data);
}

void each_cut_near_part(const RuleContext *context, const NestLook *look, FeatureVisit visit,
                        void *data)
{
    const Feature *station = look->station;
    bool blank = look->for_blank && station->has_blank;
    Near near = {look, blank ? &station->blank : &station->shape, visit, data};
    placed_each_near(context->placed, station->face, shape_box(near.lying), visit_near, &near);
}
