/* Positions in the plate's nests: the part or its blank in a recess that it nearly fills, four ways
 * round and either side up. There it lies where edge clamps push it, or in the middle where none
 * do; and, as far as the nest lets it, with each of its holes on each hole of the plate that the
 * play allows. */
#include "checks/clamp-contact.h"
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

static Shape inner_shape(const Nesting *nesting, Pose pose)
{
    Shape inner = shape_outline(nesting->refit->outline, pose, 0);
    if (nesting->inner_is_blank) {
        Point middle = pose_point(pose, box_middle(nesting->inner));
        Pose at = {middle.x, middle.y, pose.cosine, pose.sine, pose.turned_over};
        inner = shape_rectangle(at, nesting->inner.x1 - nesting->inner.x0,
                                nesting->inner.y1 - nesting->inner.y0, 0);
    }
    return inner;
}

static double room_in(const Nesting *nesting, const Feature *nest, Pose pose)
{
    Gap room;
    Shape inner = inner_shape(nesting, pose);
    shape_room(&nest->shape, &inner, &room);
    return room.distance;
}

/* To a nanometre, to which places are rounded. */
static bool lies_in(const Nesting *nesting, const Feature *nest, Pose pose)
{
    return room_in(nesting, nest, pose) >= -1e-6;
}

/* Where an answer on the plate's holes has the part there already, the nest adds nothing. */
static bool is_known(const Refit *refit, FeatureId face, Pose pose)
{
    for (guint i = 0; i < refit->answers->len; i++) {
        const RefitAnswer *answer = refit->answers->pdata[i];
        if (answer->way == REFIT_IN_NEST)
            continue;
        Pose other =
            pose_from_model(answer->at.x, answer->at.y, answer->rotation, answer->turned_over);
        bool alike = other.cosine * pose.cosine + other.sine * pose.sine > cos(0.01);
        if (answer->face == face && alike && other.turned_over == pose.turned_over &&
            hypot(other.x - pose.x, other.y - pose.y) < NEST_CLEARANCE_MOST)
            return true;
    }
    return false;
}

/* --- where in the nest ---------------------------------------------------------------------- */

static Pose pose_shifted(Pose pose, Point by)
{
    pose.x += by.x;
    pose.y += by.y;
    return pose;
}

/* The share of a shift that the part can go before it leaves the nest, by halving. */
static double share_within(const Nesting *nesting, const Feature *nest, Pose pose, Point by)
{
    double in = 0, out = 1;
    if (room_in(nesting, nest, pose_shifted(pose, by)) >= 0)
        return 1;
    while (out - in > 1e-7) {
        double middle = (in + out) / 2;
        if (room_in(nesting, nest, pose_shifted(pose, point_times(by, middle))) >= 0)
            in = middle;
        else
            out = middle;
    }
    return in;
}

/* What pushes at the part or blank as it lies. */
typedef struct Pushing {
    FeatureId face;
    Shape inner;
    const Placed *placed;
    Point way; /* the sum of all */
    int count;
} Pushing;

/* The jaw is a line across the front of the clamp's body, and has to reach. */
static bool add_push(const Feature *feature, void *data)
{
    Pushing *pushing = data;
    if (feature->kind != FEATURE_FITTING || feature->face != pushing->face)
        return true;
    const Fitting *clamp = &placed_record(pushing->placed, feature->id)->fitting;
    if (clamp->kind != FITTING_EDGE_CLAMP || clamp->width <= 0)
        return true;
    Point way = pose_direction(feature->shape.pose, (Point){1, 0});
    double half = length_to_mm(clamp->length) / 2, reach = length_to_mm(clamp->travel_greatest);
    Pose pose = feature->shape.pose;
    Pose across = {pose.x + way.x * half, pose.y + way.y * half, -way.y, way.x, false};
    Shape jaw = {CORE_SEGMENT, across, 0, length_to_mm(clamp->width) / 2, 0, NULL};
    if (way_to_touch(&jaw, way, &pushing->inner, reach) > reach)
        return true;
    pushing->way = point_plus(pushing->way, way);
    pushing->count++;
    return true;
}

static Pushing pushing_at(const Nesting *nesting, const Feature *nest, Pose pose)
{
    Pushing pushing = {nest->face, inner_shape(nesting, pose), nesting->refit->placed, {0, 0}, 0};
    placed_each(nesting->refit->placed, add_push, &pushing);
    return pushing;
}

/* Takes the pose to the wall that the clamps push to; false where none reaches, they push against
 * each other, or one of them would no longer reach it there. */
static bool press(const Nesting *nesting, const Feature *nest, Pose *pose)
{
    Pushing pushing = pushing_at(nesting, nest, *pose);
    double length = point_length(pushing.way);
    if (length < 0.1)
        return false;
    Point by = point_times(pushing.way, 4 * NEST_CLEARANCE_MOST / length);
    double share = share_within(nesting, nest, *pose, by);
    Pose pressed = pose_shifted(*pose, point_times(by, share));
    if (pushing_at(nesting, nest, pressed).count < pushing.count)
        return false;
    *pose = pressed;
    return true;
}

static bool is_tried(const Refit *refit, const RefitAnswer *answer)
{
    for (guint i = 0; i < refit->answers->len; i++) {
        const RefitAnswer *other = refit->answers->pdata[i];
        if (other->way == REFIT_IN_NEST && other->about == answer->about &&
            other->rotation == answer->rotation && other->turned_over == answer->turned_over &&
            ABS(other->at.x - answer->at.x) <= 1000 && ABS(other->at.y - answer->at.y) <= 1000)
            return true;
    }
    return false;
}

static void try_pose(Refit *refit, const Feature *nest, Pose pose, NestLie lie)
{
    RefitAnswer *answer = refit_answer_new(REFIT_IN_NEST, nest->face);
    refit_answer_place(answer, pose);
    answer->about = nest->id;
    answer->lie = lie;
    if (is_known(refit, nest->face, pose) || is_tried(refit, answer)) {
        refit_answer_free(answer);
        return;
    }
    refit_use_holes_below(refit, answer);
    refit_judge(refit, answer);
    g_ptr_array_add(refit->answers, answer);
}

/* With one of its holes on one of the plate's, as well as the nest lets it. */
static void try_on_hole(Refit *refit, const Nesting *nesting, const Feature *nest, Pose pose,
                        int part_hole, const MatchHole *hole)
{
    const HoleOptions *options = match_options(&refit->query, hole->use, part_hole);
    double play = fmax(options->locate.serves ? options->locate.play : -1,
                       options->hold.serves ? options->hold.play : -1);
    Point by = point_minus(hole->at, pose_point(pose, refit->query.part[part_hole]));
    double length = point_length(by);
    if (play < 0 || length > play + 2 * M_SQRT2 * NEST_CLEARANCE_MOST)
        return;
    double share = share_within(nesting, nest, pose, by);
    if ((1 - share) * length <= play)
        try_pose(refit, nest, pose_shifted(pose, point_times(by, share)), LIE_ON_HOLE);
}

static void try_on_holes(Refit *refit, const Nesting *nesting, const Feature *nest, Pose pose)
{
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        if (face->face != nest->face)
            continue;
        for (int i = 0; i < refit->query.part_count; i++)
            for (uint32_t k = 0; k < face->count; k++)
                try_on_hole(refit, nesting, nest, pose, i,
                            &g_array_index(refit->holes.holes, MatchHole, face->first + k));
    }
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
    if (!fills(outer, nesting->inner, quarter % 2) || !lies_in(nesting, nest, pose))
        return;
    try_on_holes(refit, nesting, nest, pose);
    NestLie lie = press(nesting, nest, &pose) ? LIE_PRESSED : LIE_MIDDLE;
    try_pose(refit, nest, pose, lie);
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
