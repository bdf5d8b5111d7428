/* Shapes on a grid, where sides run along each other and corners touch all the time, against GEOS.
 *
 * What only touches has a gap of 0 and no overlap; what has area in common has an overlap, also
 * where no two sides cross through each other.
 */
#include "flat.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define CHORD 1e-6

static size_t case_count(void)
{
    return getenv("PINPLATE_LONG") ? 100000 : 3000;
}

/* Corners of some rings on a grid, closed by going back to the first. */
static const Point letters[][8] = {
    {{0, 0}, {4, 0}, {4, 4}, {0, 4}, {NAN, 0}},
    {{0, 0}, {2, 0}, {2, 2}, {0, 2}, {NAN, 0}},
    {{0, 0}, {4, 0}, {0, 4}, {NAN, 0}},
    {{2, 0}, {4, 2}, {2, 4}, {0, 2}, {NAN, 0}},
    {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}, {NAN, 0}},
    {{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 2}, {3, 2}, {3, 3}, {0, 3}},
    {{0, 0}, {2, 0}, {4, 0}, {4, 2}, {2, 1}, {0, 2}, {NAN, 0}},
};

/* A letter, with round sides in some of its places when asked. */
static Outline *random_letter(Random *random, bool arcs)
{
    for (;;) {
        const Point *corners = letters[random_below(random, sizeof letters / sizeof *letters)];
        Vertex vertices[8];
        size_t count = 0;
        for (; count < 8 && !isnan(corners[count].x); count++) {
            vertices[count] = (Vertex){corners[count].x, corners[count].y, 0};
        }
        for (size_t i = 0; arcs && i < count; i++) {
            Point a = corners[i], b = corners[(i + 1) % count];
            double half = point_distance(a, b) / 2;
            const double heights[] = {0, 0, half, -half, half * (sqrt(2) - 1)};
            vertices[i].sagitta = heights[random_below(random, 5)];
        }
        const size_t starts[] = {0, count};
        Outline *outline = outline_new(vertices, starts, 1, NULL);
        if (outline) {
            return outline;
        }
    }
}

/* On a grid point, turned by some eighths of a turn, or `frame` on top. */
static Pose grid_pose(Random *random, size_t eighths)
{
    return pose_from_model((Length)(random_below(random, 9) * LENGTH_MM),
                           (Length)(random_below(random, 9) * LENGTH_MM),
                           (Angle)random_below(random, 8 / eighths) * (Angle)eighths * 45 *
                               ANGLE_DEGREE,
                           random_below(random, 2));
}

typedef struct Pair {
    Shape shapes[2];
    Outline *outlines[2];
    GEOSGeometry *flat[2];
} Pair;

static Pair random_pair(Random *random, bool arcs)
{
    Pair pair = {0};
    for (int i = 0; i < 2; i++) {
        Pose pose = grid_pose(random, arcs || random_below(random, 2) ? 2 : 1);
        if (random_below(random, 3) == 0) {
            double length = 2 * (1 + (double)random_below(random, 3));
            double width = 2 * (1 + (double)random_below(random, 2));
            pair.shapes[i] = shape_rectangle(pose, length, width, 0);
        } else {
            pair.outlines[i] = random_letter(random, arcs);
            pair.shapes[i] = shape_outline(pair.outlines[i], pose, 0);
        }
        pair.flat[i] = flat_core(&pair.shapes[i], CHORD);
    }
    return pair;
}

static void pair_free(Pair *pair)
{
    for (int i = 0; i < 2; i++) {
        GEOSGeom_destroy(pair->flat[i]);
        outline_unref(pair->outlines[i]);
    }
}

static double common_area(const Pair *pair)
{
    /* On a fine grid: turned by an eighth, corners are no whole numbers, and on sides that lie
     * along each other but for the last place GEOS's exact way has been seen to go wrong. */
    GEOSGeometry *common = GEOSIntersectionPrec(pair->flat[0], pair->flat[1], 1e-7);
    double area = 0;
    assert_non_null(common);
    assert_true(GEOSArea(common, &area));
    GEOSGeom_destroy(common);
    return area;
}

static void check_pair(const Pair *pair, size_t number, double within, double area_least)
{
    double distance, area = common_area(pair);
    assert_true(GEOSDistance(pair->flat[0], pair->flat[1], &distance));
    Random random = {number};
    const Pose frames[] = {POSE_IDENTITY, random_pose(&random, 300)};
    for (int i = 0; i < 2; i++) {
        Shape a = pair->shapes[0], b = pair->shapes[1];
        a.pose = pose_after(frames[i], a.pose);
        b.pose = pose_after(frames[i], b.pose);
        Gap gap;
        shape_gap(&a, &b, &gap);
        bool good =
            area > area_least ? gap.distance < -1e-9 : fabs(gap.distance - distance) < within;
        if (!good) {
            fail_msg("pair %zu, frame %d: gap %.12g; by GEOS distance %.12g, common area %.12g",
                     number, i, gap.distance, distance, area);
        }
    }
}

static void test_aligned_lines(void **state)
{
    Random random = {31};
    size_t touching = 0, overlapping = 0;
    for (size_t i = 0; i < case_count(); i++) {
        Pair pair = random_pair(&random, false);
        check_pair(&pair, i, 1e-9, 1e-5);
        Gap gap;
        shape_gap(&pair.shapes[0], &pair.shapes[1], &gap);
        touching += fabs(gap.distance) < 1e-9;
        overlapping += gap.distance < -1e-9;
        pair_free(&pair);
    }
    /* The cases are what they are meant to be. */
    assert_true(touching > case_count() / 50 && overlapping > case_count() / 5);
}

/* A polygon of chords lies up to a chord's height inside or outside of what it stands for, so a
 * touch of arcs may come out a little apart or with a sliver in common. */
static void test_aligned_arcs(void **state)
{
    Random random = {32};
    for (size_t i = 0; i < case_count() / 3; i++) {
        Pair pair = random_pair(&random, true);
        check_pair(&pair, i, 3e-6, 1e-3);
        pair_free(&pair);
    }
}

/* The room of each letter in itself and in larger ones: 0 where it fits exactly. */
static void test_aligned_rooms(void **state)
{
    Random random = {33};
    for (size_t i = 0; i < case_count(); i++) {
        Pair pair = random_pair(&random, false);
        GEOSGeometry *border = GEOSBoundary(pair.flat[0]);
        double distance;
        assert_true(GEOSDistance(border, pair.flat[1], &distance));
        GEOSGeometry *somewhat_more = GEOSBuffer(pair.flat[0], 1e-7, 8);
        bool inside = GEOSCovers(somewhat_more, pair.flat[1]);
        GEOSGeom_destroy(somewhat_more);
        Pose frame = random_pose(&random, 300);
        Shape outer = pair.shapes[0], inner = pair.shapes[1];
        for (int j = 0; j < 2; j++) {
            Gap gap;
            shape_room(&outer, &inner, &gap);
            bool good = inside ? fabs(gap.distance - distance) < 1e-9 : gap.distance < -1e-9;
            if (!good) {
                fail_msg("pair %zu, frame %d: room %.12g; by GEOS %s, distance %.12g", i, j,
                         gap.distance, inside ? "inside" : "outside", distance);
            }
            outer.pose = pose_after(frame, outer.pose);
            inner.pose = pose_after(frame, inner.pose);
        }
        GEOSGeom_destroy(border);
        pair_free(&pair);
    }
}

static void be_quiet(const char *format, ...)
{
}

int main(void)
{
    initGEOS(be_quiet, be_quiet);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_aligned_lines),
        cmocka_unit_test(test_aligned_arcs),
        cmocka_unit_test(test_aligned_rooms),
    };
    int failed = cmocka_run_group_tests_name("aligned", tests, NULL, NULL);
    finishGEOS();
    return failed;
}
