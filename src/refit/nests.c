/* Positions in the plate's nests: the part or its blank in the middle of a recess that it nearly
 * fills, four ways round and either side up. */
#include "refit/refit-private.h"

/* A recess wider than the part by more than this on a side does not place it, in mm (common
 * practice, no source). */
#define NEST_CLEARANCE_MOST 2.0

typedef struct Nesting {
    const Refit *refit;
    Box inner; /* of what lies in the nest, in the part's coordinates */
    bool inner_is_blank;
    GPtrArray *nests; /* const Feature */
} Nesting;

static bool gather_nest(const Feature *feature, void *data)
{
    Nesting *nesting = data;
    if (feature->kind == FEATURE_RECESS &&
        (feature->shape.core == CORE_OUTLINE || feature->shape.core == CORE_RECTANGLE))
        g_ptr_array_add(nesting->nests, (gpointer)feature);
    return true;
}

static gint compare_nests(gconstpointer a, gconstpointer b)
{
    FeatureId one = (*(const Feature *const *)a)->id, other = (*(const Feature *const *)b)->id;
    return (one > other) - (one < other);
}

/* The recess's area in its own coordinates. */
static Box own_box(const Shape *shape)
{
    Shape own = *shape;
    own.pose = POSE_IDENTITY;
    return shape_box(&own);
}

static Point box_middle(Box box)
{
    return (Point){(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
}

static bool fills(Box outer, Box inner, bool across)
{
    double length = across ? inner.y1 - inner.y0 : inner.x1 - inner.x0;
    double width = across ? inner.x1 - inner.x0 : inner.y1 - inner.y0;
    double along = outer.x1 - outer.x0 - length, beside = outer.y1 - outer.y0 - width;
    return along >= -1e-6 && beside >= -1e-6 && along <= 2 * NEST_CLEARANCE_MOST &&
           beside <= 2 * NEST_CLEARANCE_MOST;
}

static bool lies_in(const Nesting *nesting, const Feature *nest, Pose pose)
{
    Gap room;
    Shape inner = shape_outline(nesting->refit->outline, pose, 0);
    if (nesting->inner_is_blank) {
        Point middle = pose_point(pose, box_middle(nesting->inner));
        Pose at = {middle.x, middle.y, pose.cosine, pose.sine, pose.turned_over};
        inner = shape_rectangle(at, nesting->inner.x1 - nesting->inner.x0,
                                nesting->inner.y1 - nesting->inner.y0, 0);
    }
    shape_room(&nest->shape, &inner, &room);
    return room.distance >= -1e-6;
}

/* Where an answer has the part there already, the nest adds nothing. */
static bool is_known(const Refit *refit, FeatureId face, Pose pose)
{
    for (guint i = 0; i < refit->answers->len; i++) {
        const RefitAnswer *answer = refit->answers->pdata[i];
        Pose other =
            pose_from_model(answer->at.x, answer->at.y, answer->rotation, answer->turned_over);
        bool alike = other.cosine * pose.cosine + other.sine * pose.sine > cos(0.01);
        if (answer->face == face && alike && other.turned_over == pose.turned_over &&
            hypot(other.x - pose.x, other.y - pose.y) < NEST_CLEARANCE_MOST)
            return true;
    }
    return false;
}

static void try_nest(Refit *refit, const Nesting *nesting, const Feature *nest, int quarter,
                     bool turned_over)
{
    Box outer = own_box(&nest->shape);
    double c, s;
    angle_cos_sin(quarter * 90 * ANGLE_DEGREE, &c, &s);
    Pose in_nest = {0, 0, c, s, turned_over};
    Point laid = pose_point(in_nest, box_middle(nesting->inner)), middle = box_middle(outer);
    in_nest.x = middle.x - laid.x;
    in_nest.y = middle.y - laid.y;
    Pose pose = pose_after(nest->shape.pose, in_nest);
    if (!fills(outer, nesting->inner, quarter % 2) || !lies_in(nesting, nest, pose) ||
        is_known(refit, nest->face, pose))
        return;
    RefitAnswer *answer = refit_answer_new(REFIT_IN_NEST, nest->face);
    refit_answer_place(answer, pose);
    answer->about = nest->id;
    refit_judge(refit, answer);
    g_ptr_array_add(refit->answers, answer);
}

/* A blank lies in a rectangle, the part itself in a nest of its shape or where it has no blank. */
static void choose_inner(Nesting *nesting, const Feature *nest)
{
    const Blank *blank = &nesting->refit->part->blank;
    nesting->inner_is_blank = blank->length > 0 && nest->shape.core == CORE_RECTANGLE;
    nesting->inner = outline_box(nesting->refit->outline);
    if (nesting->inner_is_blank) {
        Point low = {length_to_mm(blank->at.x), length_to_mm(blank->at.y)};
        nesting->inner = (Box){low.x, low.y, low.x + length_to_mm(blank->length),
                               low.y + length_to_mm(blank->width)};
    }
}

/* --- what a nest shuts out ------------------------------------------------------------------ */

typedef struct ShutOut {
    Nesting nesting;
    Pose pose;
    Point hole;
    FeatureId nest;
} ShutOut;

static bool find_shut_out(const Feature *feature, void *data)
{
    ShutOut *search = data;
    if (feature->kind != FEATURE_RECESS || !shape_contains(&feature->shape, search->hole))
        return true;
    int kind = placed_record(search->nesting.refit->placed, feature->id)->recess.kind;
    if (kind != RECESS_NEST && kind != RECESS_BLANK_NEST)
        return true;
    choose_inner(&search->nesting, feature);
    if (!lies_in(&search->nesting, feature, search->pose))
        search->nest = feature->id;
    return search->nest == ID_NONE;
}

FeatureId refit_shut_out(const Refit *refit, const RefitAnswer *answer)
{
    ShutOut search = {.nesting = {.refit = refit}, .pose = refit_answer_pose(answer)};
    for (guint i = 0; refit->outline && i < answer->uses->len && !search.nest; i++) {
        const RefitUse *use = &g_array_index(answer->uses, RefitUse, i);
        const Feature *hole = use->hole ? placed_find(refit->placed, use->hole) : NULL;
        Place own = LIST_AT(&refit->part->holes, PartHole, use->part_hole - 1)->at;
        Point laid = pose_point(search.pose, (Point){length_to_mm(own.x), length_to_mm(own.y)});
        search.hole = hole ? feature_at(hole) : laid;
        Box box = box_with_point(BOX_EMPTY, search.hole);
        placed_each_near(refit->placed, answer->face, box, find_shut_out, &search);
    }
    return search.nest;
}

/* --- the nests ------------------------------------------------------------------------------ */

bool refit_search_nests(Refit *refit, double from, double to)
{
    Nesting nesting = {.refit = refit, .nests = g_ptr_array_new()};
    bool goes_on = true;
    placed_each(refit->placed, gather_nest, &nesting);
    g_ptr_array_sort(nesting.nests, compare_nests);
    for (guint i = 0; refit->outline && goes_on && i < nesting.nests->len; i++) {
        const Feature *nest = nesting.nests->pdata[i];
        choose_inner(&nesting, nest);
        for (int way = 0; way < 8; way++)
            try_nest(refit, &nesting, nest, way % 4, way >= 4);
        goes_on = refit_goes_on(refit, from + (to - from) * (i + 1) / nesting.nests->len);
    }
    g_ptr_array_unref(nesting.nests);
    return goes_on;
}
