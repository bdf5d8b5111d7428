/* What cutters go through against a second opinion: the way of the cutter's axis is sampled from
 * the part's corners alone, each place of it that GEOS finds at its distance from the part is kept,
 * and the nearest of those is compared. */
#include "placed/placed-seat.h"
#include "placed/sweep.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>
#include <geos_c.h>

#define CORNERS 9
#define STEP 0.02 /* mm between places of the way */
#define TOLERANCE 0.021

typedef struct Corners {
    Point at[CORNERS];
} Corners;

/* Star-shaped about the middle, counter-clockwise. */
static Corners random_corners(uint32_t *seed, Point middle, double least, double most)
{
    Corners corners;
    for (int i = 0; i < CORNERS; i++) {
        double angle = 2 * M_PI * (i + random_between(seed, 0, 0.6)) / CORNERS;
        double far = random_between(seed, least, most);
        corners.at[i] = (Point){round((middle.x + far * cos(angle)) * 1e6) / 1e6,
                                round((middle.y + far * sin(angle)) * 1e6) / 1e6};
    }
    return corners;
}

static void add_ring(Part *part, const Corners *corners)
{
    PartRing *ring = list_append(&part->rings, PartRing);
    for (int i = 0; i < CORNERS; i++)
        *list_append(&ring->nodes, OutlineNode) =
            (OutlineNode){MM(corners->at[i].x), MM(corners->at[i].y), 0};
}

static GEOSGeometry *polygon(const Corners *corners)
{
    GEOSCoordSequence *points = GEOSCoordSeq_create(CORNERS + 1, 2);
    for (unsigned i = 0; i <= CORNERS; i++)
        GEOSCoordSeq_setXY(points, i, corners->at[i % CORNERS].x, corners->at[i % CORNERS].y);
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(points), NULL, 0);
}

/* The places that are `away` from the border, on its outside or its inside. */
typedef struct Way {
    const GEOSPreparedGeometry *border;
    double away;
    GArray *places; /* Point */
} Way;

static void try_place(Way *way, Point p)
{
    double distance;
    GEOSGeometry *place = GEOSGeom_createPointFromXY(p.x, p.y);
    assert_true(GEOSPreparedDistance(way->border, place, &distance));
    GEOSGeom_destroy(place);
    if (distance > way->away - 1e-9)
        g_array_append_val(way->places, p);
}

/* Along each side moved out, and round each corner. `side` is 1 for the outside, -1 for the inside.
 */
static GArray *sample_way(const Corners *corners, double away, double side)
{
    GEOSGeometry *area = polygon(corners), *border = GEOSBoundary(area);
    Way way = {GEOSPrepare(border), away, g_array_new(FALSE, FALSE, sizeof(Point))};
    for (int i = 0; i < CORNERS; i++) {
        Point a = corners->at[i], b = corners->at[(i + 1) % CORNERS], along = point_minus(b, a);
        double length = point_length(along);
        Point out = {along.y / length * side * away, -along.x / length * side * away};
        for (double t = 0; t <= length; t += STEP)
            try_place(&way, point_plus(point_plus(a, point_times(along, t / length)), out));
        try_place(&way, point_plus(b, out));
        for (double angle = 0; angle < 2 * M_PI; angle += STEP / away) {
            Point p = {b.x + away * cos(angle), b.y + away * sin(angle)};
            GEOSGeometry *place = GEOSGeom_createPointFromXY(p.x, p.y);
            bool inside = GEOSContains(area, place);
            GEOSGeom_destroy(place);
            if (inside == (side < 0))
                try_place(&way, p);
        }
    }
    GEOSPreparedGeom_destroy(way.border);
    GEOSGeom_destroy(border);
    GEOSGeom_destroy(area);
    return way.places;
}

static double nearest_place(const GArray *places, Point p)
{
    double least = INFINITY;
    for (guint i = 0; i < places->len; i++)
        least = fmin(least, point_distance(g_array_index(places, Point, i), p));
    return least;
}

static Feature post(Point at, double radius)
{
    Feature feature = {.kind = FEATURE_FITTING, .face = ID_TOP, .slice_count = 1};
    feature.shape = shape_circle(at, 2 * radius);
    feature.box = shape_box(&feature.shape);
    feature.slices[0] = (Slice){radius, 20, -5, -5};
    feature.top = 20;
    feature.bottom = feature.tip = -5;
    return feature;
}

typedef struct Trial {
    const Placed *placed;
    const GArray *way;
    Sweep sweep;
    int apart, meeting;
} Trial;

static bool keep_sweep(const Sweep *sweep, void *data)
{
    ((Trial *)data)->sweep = *sweep;
    return true;
}

/* Within an opening a place between the way and the border is taken for met, so `exact` is not
 * asked there. */
static void compare(Trial *trial, Point at, double radius, bool exact)
{
    Feature feature = post(at, radius);
    SweepGap gap = {.distance = NAN};
    assert_true(sweep_gap_within(trial->placed, &trial->sweep, &feature, 1000, &gap));
    double theirs = nearest_place(trial->way, at) - radius - trial->sweep.radius;
    if (theirs < -1e-6) {
        assert_true(gap.distance < 0);
        trial->meeting++;
        return;
    }
    if (gap.distance > theirs + 1e-6)
        fail_msg("%g, %g: the gap is %.6f, but a place of the way is at %.6f", at.x, at.y,
                 gap.distance, theirs);
    if (exact && theirs > TOLERANCE) {
        if (gap.distance < theirs - TOLERANCE)
            fail_msg("%g, %g: the gap is %.6f, but nothing is nearer than %.6f", at.x, at.y,
                     gap.distance, theirs - TOLERANCE);
        trial->apart++;
    }
}

typedef struct Bench {
    Plate *plate;
    Placed *placed;
    const Feature *station;
} Bench;

static Bench make_bench(const Corners *outside, const Corners *opening)
{
    Bench made = {.plate = plate_new(MM(200), MM(200), MM(20), PLATE_MM)};
    Record *part = record_new(plate_new_id(made.plate), RECORD_PART);
    part->part.thickness = MM(3);
    add_ring(&part->part, outside);
    if (opening)
        add_ring(&part->part, opening);
    FeatureId part_id = put_record(made.plate, part);
    FeatureId station = put_station(made.plate, part_id, 0, 0);
    made.placed = placed_new(made.plate);
    made.station = placed_find(made.placed, station);
    return made;
}

static void free_bench(Bench *made)
{
    placed_free(made->placed);
    plate_free(made->plate);
}

static void test_outside(void **state)
{
    uint32_t seed = 20011;
    int apart = 0, meeting = 0, rounds = getenv("PINPLATE_LONG") ? 100 : 12;
    for (int i = 0; i < rounds; i++) {
        Corners corners = random_corners(&seed, (Point){100, 100}, 15, 45);
        Pass pass = {.where = PASS_OUTLINE_OUTSIDE,
                     .cutter_diameter = MM(random_between(&seed, 2, 12)),
                     .stock_left = MM(random_between(&seed, 0, 0.5))};
        double away = length_to_mm(pass.cutter_diameter) / 2 + length_to_mm(pass.stock_left);
        Bench made = make_bench(&corners, NULL);
        GArray *way = sample_way(&corners, away, 1);
        Trial trial = {.placed = made.placed, .way = way};
        sweeps_each(made.placed, made.station, &pass, keep_sweep, &trial);
        for (int k = 0; k < 60; k++) {
            Point at = {random_between(&seed, 40, 160), random_between(&seed, 40, 160)};
            compare(&trial, at, random_between(&seed, 1, 4), true);
        }
        apart += trial.apart;
        meeting += trial.meeting;
        g_array_unref(way);
        free_bench(&made);
    }
    assert_true(apart > 20 * rounds && meeting > 5 * rounds);
}

static void test_inside(void **state)
{
    uint32_t seed = 40031;
    int apart = 0, meeting = 0, rounds = getenv("PINPLATE_LONG") ? 100 : 12;
    for (int i = 0; i < rounds; i++) {
        Corners outside = random_corners(&seed, (Point){100, 100}, 70, 80);
        Corners opening = random_corners(&seed, (Point){100, 100}, 20, 45);
        Pass pass = {.where = PASS_OUTLINE_INSIDE,
                     .cutter_diameter = MM(random_between(&seed, 2, 8)),
                     .stock_left = MM(random_between(&seed, 0, 0.5))};
        double away = length_to_mm(pass.cutter_diameter) / 2 + length_to_mm(pass.stock_left);
        Bench made = make_bench(&outside, &opening);
        GArray *way = sample_way(&opening, away, -1);
        Trial trial = {.placed = made.placed, .way = way};
        sweeps_each(made.placed, made.station, &pass, keep_sweep, &trial);
        for (int k = 0; k < 60; k++) {
            double radius = random_between(&seed, 0.5, 2);
            Point at = {random_between(&seed, 60, 140), random_between(&seed, 60, 140)};
            Gap room;
            Shape round = shape_circle(at, 2 * radius);
            shape_room(&trial.sweep.path, &round, &room);
            compare(&trial, at, radius, room.distance >= trial.sweep.inset);
        }
        apart += trial.apart;
        meeting += trial.meeting;
        g_array_unref(way);
        free_bench(&made);
    }
    assert_true(apart > 2 * rounds && meeting > 2 * rounds);
}

/* A square of 40, a cutter of 6 at 2 below it and 30 out of its holder of 20: the cutter from -2 to
 * 28, the holder from 28 on. A post that ends 3 below and stands 4 beside either is 5 from it. */
static void test_heights(void **state)
{
    Plate *plate = plate_new(MM(200), MM(200), MM(20), PLATE_MM);
    FeatureId station = put_station(plate, put_part(plate, 40, 40, 3, 0, NULL), 50, 50);
    Placed *placed = placed_new(plate);
    Trial trial = {.placed = placed};
    Pass pass = {.where = PASS_OUTLINE_OUTSIDE,
                 .cutter_diameter = MM(6),
                 .holder_diameter = MM(20),
                 .gauge_length = MM(30),
                 .depth_below = MM(2)};
    sweeps_each(placed, placed_find(placed, station), &pass, keep_sweep, &trial);
    Sweep holder;
    SweepGap gap;
    assert_true(sweep_holder(&trial.sweep, &pass, &holder));
    Feature low = post((Point){90 + 6 + 4 + 2, 70}, 2);
    low.slices[0] = (Slice){2, -5, -15, -15};
    assert_true(sweep_gap_within(placed, &trial.sweep, &low, 10, &gap));
    assert_true(fabs(gap.distance - 5) < 1e-9);
    Feature high = post((Point){90 + 3 + 10 + 4 + 2, 70}, 2);
    high.slices[0] = (Slice){2, 25, 0, 0};
    assert_true(sweep_gap_within(placed, &holder, &high, 10, &gap));
    assert_true(fabs(gap.distance - 5) < 1e-9);
    assert_false(sweep_gap_within(placed, &holder, &high, 4.9, &gap));
    placed_free(placed);
    plate_free(plate);
}

static void be_quiet(const char *format, ...)
{
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_outside),
                                       cmocka_unit_test(test_inside),
                                       cmocka_unit_test(test_heights)};
    initGEOS(be_quiet, be_quiet);
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    finishGEOS();
    return failed;
}
