#include "checks/nests.h"

#include "checks/locators.h"

#define NESTS_MOST 8

typedef struct Gathering {
    const Placed *placed;
    const Feature *nests[NESTS_MOST];
    int count;
} Gathering;

/* By rising number, the lowest of them when there are too many: the same whatever was edited. */
static void add_nest(Gathering *gathering, const Feature *nest)
{
    int at = gathering->count;
    while (at > 0 && gathering->nests[at - 1]->id > nest->id)
        at--;
    if (at == NESTS_MOST)
        return;
    if (gathering->count < NESTS_MOST)
        gathering->count++;
    for (int i = gathering->count - 1; i > at; i--)
        gathering->nests[i] = gathering->nests[i - 1];
    gathering->nests[at] = nest;
}

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind != FEATURE_RECESS || feature->through)
        return true;
    int kind = placed_record(gathering->placed, feature->id)->recess.kind;
    if (kind == RECESS_NEST || kind == RECESS_BLANK_NEST)
        add_nest(gathering, feature);
    return true;
}

void each_nest(RuleContext *context, const Feature *station, NestCheck check)
{
    Gathering gathering = {.placed = context->placed};
    const Part *part = station_part(context->placed, station);
    if (!part)
        return;
    placed_each_on(context->placed, station->id, gather, &gathering);
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
