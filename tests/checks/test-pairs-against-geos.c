/* Which pairs of a random plate fail web, overlap, parts-overlap and keep-clear: the checker
 * against GEOS, which measures every pair, flattened. No index, no reach and none of our distances.
 */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <geos_c.h>

/* Chords of a quarter circle: an arc of 10 mm radius is flat to 0.2 um. */
#define CHORDS 128
/* What lies this near to a limit may be told either way from flattened arcs, mm and mm2. */
#define DOUBTFUL 1e-3

static void say(const char *format, ...)
{
}

/* --- shapes as polygons ---------------------------------------------------------------------- */

static GEOSGeometry *line_of(const Point *points, unsigned count, bool ring)
{
    GEOSCoordSequence *places = GEOSCoordSeq_create(count, 2);
    for (unsigned i = 0; i < count; i++)
        GEOSCoordSeq_setXY(places, i, points[i].x, points[i].y);
    return ring ? GEOSGeom_createLinearRing(places) : GEOSGeom_createLineString(places);
}

static GEOSGeometry *rectangle_of(const Shape *shape)
{
    double x = shape->half_length, y = shape->half_width;
    const Point own[] = {{-x, -y}, {x, -y}, {x, y}, {-x, y}, {-x, -y}};
    Point corners[5];
    for (int i = 0; i < 5; i++)
        corners[i] = pose_point(shape->pose, own[i]);
    /* A rectangle of no width is a line, one of no size a point: GEOS grows those as well. */
    if (x <= 0 && y <= 0)
        return GEOSGeom_createPointFromXY(corners[0].x, corners[0].y);
    if (x <= 0 || y <= 0)
        return line_of(corners + (x <= 0 ? 1 : 0), 2, false);
    return GEOSGeom_createPolygon(line_of(corners, 5, true), NULL, 0);
}

/* Random plates' parts are all straight-sided. */
static GEOSGeometry *ring_of(const Shape *shape, size_t number)
{
    size_t count;
    const Vertex *ring = outline_ring(shape->outline, number, &count);
    Point *points = g_new(Point, count + 1);
    for (size_t i = 0; i <= count; i++) {
        assert_true(ring[i % count].sagitta == 0);
        points[i] = pose_point(shape->pose, (Point){ring[i % count].x, ring[i % count].y});
    }
    GEOSGeometry *closed = line_of(points, (unsigned)count + 1, true);
    g_free(points);
    return closed;
}

static GEOSGeometry *outline_of(const Shape *shape)
{
    GEOSGeometry *openings[4];
    size_t count = outline_ring_count(shape->outline) - 1;
    assert_true(count <= G_N_ELEMENTS(openings));
    for (size_t i = 0; i < count; i++)
        openings[i] = ring_of(shape, i + 1);
    return GEOSGeom_createPolygon(ring_of(shape, 0), openings, (unsigned)count);
}

static GEOSGeometry *core_of(const Shape *shape)
{
    const Point ends[] = {pose_point(shape->pose, (Point){-shape->half_length, 0}),
                          pose_point(shape->pose, (Point){shape->half_length, 0})};
    switch (shape->core) {
    case CORE_POINT:
        return GEOSGeom_createPointFromXY(shape->pose.x, shape->pose.y);
    case CORE_SEGMENT:
        return line_of(ends, 2, false);
    case CORE_RECTANGLE:
        return rectangle_of(shape);
    case CORE_OUTLINE:
    default:
        return outline_of(shape);
    }
}

static GEOSGeometry *grown(const Shape *shape, double growth)
{
    GEOSGeometry *core = core_of(shape);
    if (growth == 0)
        return core;
    GEOSGeometry *polygon = GEOSBuffer(core, growth, CHORDS);
    GEOSGeom_destroy(core);
    return polygon;
}

/* --- what GEOS says of a pair ----------------------------------------------------------------- */

typedef struct Flat {
    const Feature *feature;
    GEOSGeometry *slices[SLICES_MOST];
    GEOSGeometry *widest, *blank, *envelope;
} Flat;

typedef struct Pair {
    double distance; /* at heights that both have; infinite when there are none */
    double shared;   /* mm2 */
    bool within;     /* one of them is wholly in a recess */
    bool doubtful;
} Pair;

static double shared_area(const GEOSGeometry *a, const GEOSGeometry *b)
{
    double area = 0;
    GEOSGeometry *both = GEOSIntersection(a, b);
    GEOSArea(both, &area);
    GEOSGeom_destroy(both);
    return area;
}

/* Told surely when it would be told the same of a recess a little smaller and a little larger. */
static bool lies_in(const Flat *outer, const Flat *inner, bool *doubtful)
{
    if (outer->feature->kind != FEATURE_RECESS)
        return false;
    const Shape *shape = &outer->feature->shape;
    GEOSGeometry *smaller = grown(shape, fmax(0, shape->growth - DOUBTFUL));
    GEOSGeometry *larger = grown(shape, shape->growth + DOUBTFUL);
    bool surely = GEOSCovers(smaller, inner->widest) == 1;
    bool perhaps = GEOSCovers(larger, inner->widest) == 1;
    GEOSGeom_destroy(smaller);
    GEOSGeom_destroy(larger);
    *doubtful = *doubtful || surely != perhaps;
    return surely;
}

/* Of no more than 3 apart: the others pass all that is compared. */
static Pair measure(const Flat *a, const Flat *b)
{
    Pair pair = {.distance = INFINITY};
    double apart;
    GEOSDistance(a->envelope, b->envelope, &apart);
    if (apart > 3)
        return pair;
    for (int i = 0; i < a->feature->slice_count; i++) {
        for (int k = 0; k < b->feature->slice_count; k++) {
            const Slice *one = &a->feature->slices[i], *other = &b->feature->slices[k];
            double distance;
            if (fmin(one->top, other->top) <= fmax(one->bottom, other->bottom))
                continue;
            GEOSDistance(a->slices[i], b->slices[k], &distance);
            pair.distance = fmin(pair.distance, distance);
            if (distance == 0)
                pair.shared = fmax(pair.shared, shared_area(a->slices[i], b->slices[k]));
        }
    }
    bool touch = pair.distance < DOUBTFUL;
    pair.doubtful = touch && pair.shared < DOUBTFUL;
    if (pair.distance < 3) {
        bool first = lies_in(a, b, &pair.doubtful), second = lies_in(b, a, &pair.doubtful);
        pair.within = first || second;
    }
    return pair;
}

/* --- the checker's findings ------------------------------------------------------------------- */

typedef struct Scene {
    uint32_t seed;
    Plate *plate;
    Placed *placed;
    FindingList findings;
    GArray *flats; /* Flat */
    int failing[4], passing[4];
} Scene;

static const char *const slugs[4] = {"web", "overlap", "parts-overlap", "keep-clear"};

static bool has_finding(const Scene *scene, const char *slug, FeatureId a, FeatureId b)
{
    for (uint32_t i = 0; i < scene->findings.count; i++) {
        const Finding *finding = &scene->findings.items[i];
        const FeatureId *of = finding->features;
        if (finding->feature_count == 2 && strcmp(finding->rule->slug, slug) == 0 &&
            ((of[0] == a && of[1] == b) || (of[0] == b && of[1] == a)))
            return true;
    }
    return false;
}

static void compare(Scene *scene, int rule, const Flat *a, const Flat *b, bool fails)
{
    FeatureId one = a->feature->id, other = b->feature->id;
    if (has_finding(scene, slugs[rule], one, other) != fails)
        fail_msg("seed %u, %s of %u and %u: GEOS says it %s", scene->seed, slugs[rule], one, other,
                 fails ? "fails" : "passes");
    (fails ? scene->failing : scene->passing)[rule]++;
}

static void compare_cut(Scene *scene, const Flat *a, const Flat *b)
{
    const double wall = 2; /* the plate is of aluminium */
    Pair pair = measure(a, b);
    if (pair.doubtful)
        return;
    bool meets = pair.distance == 0;
    compare(scene, 1, a, b, meets && !pair.within);
    if (fabs(pair.distance - wall) > DOUBTFUL)
        compare(scene, 0, a, b, !meets && pair.distance < wall && !pair.within);
}

static void compare_parts(Scene *scene, const Flat *a, const Flat *b)
{
    double distance, shared = 0;
    GEOSDistance(a->blank, b->blank, &distance);
    if (distance == 0)
        shared = shared_area(a->blank, b->blank);
    if (distance > DOUBTFUL || shared > DOUBTFUL)
        compare(scene, 2, a, b, shared > 0);
}

static void compare_keep_clear(Scene *scene, const Flat *area, const Flat *other)
{
    Pair pair = measure(area, other);
    if (pair.distance > DOUBTFUL || pair.shared > DOUBTFUL)
        compare(scene, 3, area, other, pair.shared > 0);
}

static void compare_pair(Scene *scene, const Flat *a, const Flat *b)
{
    bool both_cut = (a->feature->kind & FEATURE_CUT) && (b->feature->kind & FEATURE_CUT);
    if (a->feature->face != b->feature->face)
        return;
    if (both_cut)
        compare_cut(scene, a, b);
    else if (a->feature->kind == FEATURE_PART && b->feature->kind == FEATURE_PART)
        compare_parts(scene, a, b);
    else if (a->feature->kind == FEATURE_KEEP_CLEAR && b->feature->kind != FEATURE_KEEP_CLEAR)
        compare_keep_clear(scene, a, b);
    else if (b->feature->kind == FEATURE_KEEP_CLEAR && a->feature->kind != FEATURE_KEEP_CLEAR)
        compare_keep_clear(scene, b, a);
}

/* --- scenes ----------------------------------------------------------------------------------- */

static bool flatten(const Feature *feature, void *data)
{
    Scene *scene = data;
    Flat flat = {.feature = feature, .widest = grown(&feature->shape, feature->shape.growth)};
    const Shape *blank = feature->has_blank ? &feature->blank : &feature->shape;
    flat.blank = grown(blank, blank->growth);
    flat.envelope = GEOSEnvelope(flat.widest);
    for (int i = 0; i < feature->slice_count; i++)
        flat.slices[i] = grown(&feature->shape, feature->slices[i].growth);
    g_array_append_val(scene->flats, flat);
    return true;
}

static void put_random_keep_clear(Plate *plate, uint32_t *seed)
{
    Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
    KeepClear *area = &record->keep_clear;
    area->face = ID_TOP;
    area->at = (Place){MM(random_between(seed, 0, 200)), MM(random_between(seed, 0, 150))};
    area->rotation = angle_from_degrees(random_between(seed, 0, 180));
    area->length = MM(random_between(seed, 10, 40));
    area->width = MM(random_between(seed, 10, 40));
    area->corner_radius = MM(random_between(seed, 0, 5));
    area->height = MM(random_between(seed, 0.5, 10));
    area->depth = MM(random_between(seed, 0, 10));
    put_record(plate, record);
}

/* Stations and slots at any angle, counterbores of any depth. */
static void turn_and_deepen(Plate *plate, uint32_t *seed)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        Record *copy = record_copy(record, record->id);
        Angle turn = angle_from_degrees(random_between(seed, 0, 360));
        if (copy->kind == RECORD_STATION) {
            copy->station.rotation = turn;
            copy->station.turned_over = random_between(seed, 0, 1) < 0.5;
        } else if (copy->kind == RECORD_RECESS) {
            copy->recess.rotation = turn;
        } else if (copy->kind == RECORD_HOLE && copy->hole.steps.count == 1 &&
                   random_between(seed, 0, 1) < 0.3) {
            Step *step = list_append(&copy->hole.steps, Step);
            *step = (Step){.kind = STEP_COUNTERBORE};
            step->diameter = MM(random_between(seed, 6, 14));
            step->depth = MM(random_between(seed, 1, 8));
        } else {
            record_unref(copy);
            continue;
        }
        change_record(plate, copy);
    }
}

static void compare_scene(uint32_t start, int failing[4], int passing[4])
{
    uint32_t seed = start;
    Scene scene = {.seed = start, .plate = random_plate(start, 45)};
    for (int i = 0; i < 5; i++)
        put_random_keep_clear(scene.plate, &seed);
    turn_and_deepen(scene.plate, &seed);
    scene.placed = placed_new(scene.plate);
    scene.findings = findings_of(scene.plate);
    scene.flats = g_array_new(FALSE, FALSE, sizeof(Flat));
    placed_each(scene.placed, flatten, &scene);
    for (guint i = 0; i < scene.flats->len; i++)
        for (guint k = i + 1; k < scene.flats->len; k++)
            compare_pair(&scene, &g_array_index(scene.flats, Flat, i),
                         &g_array_index(scene.flats, Flat, k));
    for (int r = 0; r < 4; r++) {
        failing[r] += scene.failing[r];
        passing[r] += scene.passing[r];
    }
    for (guint i = 0; i < scene.flats->len; i++) {
        Flat *flat = &g_array_index(scene.flats, Flat, i);
        for (int s = 0; s < flat->feature->slice_count; s++)
            GEOSGeom_destroy(flat->slices[s]);
        GEOSGeom_destroy(flat->widest);
        GEOSGeom_destroy(flat->blank);
        GEOSGeom_destroy(flat->envelope);
    }
    g_array_unref(scene.flats);
    finding_list_clear(&scene.findings);
    placed_free(scene.placed);
    plate_free(scene.plate);
}

static void test_pairs(void **state)
{
    int scenes = getenv("PINPLATE_LONG") ? 300 : 12, failing[4] = {0}, passing[4] = {0};
    for (int i = 1; i <= scenes; i++)
        compare_scene((uint32_t)i * 2654435761u, failing, passing);
    for (int r = 0; r < 4; r++) {
        print_message("# %s: %d pairs fail, %d pass\n", slugs[r], failing[r], passing[r]);
        assert_true(failing[r] >= scenes && passing[r] >= scenes);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_pairs)};
    initGEOS(say, say);
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    finishGEOS();
    return failed;
}
