/* The chain that stands for a curve lies within the tolerance of it, and the curve within the
 * tolerance of the chain. Both are measured by sampling, with distances written out here from the
 * definitions (de Casteljau, cosine and sine, centre and angle of an arc) and not taken from the
 * code. */
#include "geometry/curve.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define PI 3.14159265358979323846

typedef struct Bezier {
    Point p[4];
} Bezier;

typedef Point (*Evaluate)(const void *curve, double t);

static uint64_t state = 20240607;

static double random_between(double low, double high)
{
    state = state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static Point random_point(double size)
{
    double x = random_between(-size, size);
    return (Point){x, random_between(-size, size)};
}

static Point between(Point a, Point b, double t)
{
    return (Point){a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
}

static Point bezier_at(const void *curve, double t)
{
    const Point *p = ((const Bezier *)curve)->p;
    Point a = between(p[0], p[1], t), b = between(p[1], p[2], t), c = between(p[2], p[3], t);
    return between(between(a, b, t), between(b, c, t), t);
}

static Point ellipse_at(const void *curve, double t)
{
    const EllipseArc *e = curve;
    double a = e->from + e->sweep * t;
    return (Point){e->centre.x + cos(a) * e->u.x + sin(a) * e->v.x,
                   e->centre.y + cos(a) * e->u.y + sin(a) * e->v.y};
}

/* ---- one side ---- */

typedef struct Side {
    Point a, b, centre;
    double radius, from, sweep; /* radius 0: a line */
} Side;

static Side side_of(const Vertex *v)
{
    Side s = {.a = {v[0].x, v[0].y}, .b = {v[1].x, v[1].y}};
    double h = v[0].sagitta, half = point_distance(s.a, s.b) / 2;
    if (fabs(h) < 1e-13)
        return s;
    /* The sagitta points to the right of the way for a positive one. */
    Point along = point_times(point_minus(s.b, s.a), 0.5 / half);
    Point right = {along.y, -along.x};
    double offset = (half * half - h * h) / (2 * h); /* centre from the chord, to the left */
    s.radius = (half * half + h * h) / (2 * fabs(h));
    s.centre = point_plus(between(s.a, s.b, 0.5), point_times(right, -offset));
    s.from = atan2(s.a.y - s.centre.y, s.a.x - s.centre.x);
    s.sweep = 4 * atan2(h, half);
    return s;
}

static Point side_at(const Side *s, double t)
{
    if (s->radius == 0)
        return between(s->a, s->b, t);
    double a = s->from + s->sweep * t;
    return (Point){s->centre.x + s->radius * cos(a), s->centre.y + s->radius * sin(a)};
}

static double side_distance(const Side *s, Point p)
{
    double ends = fmin(point_distance(p, s->a), point_distance(p, s->b));
    Point chord = point_minus(s->b, s->a);
    if (s->radius == 0 || s->radius > 1e7) {
        double t = point_dot(point_minus(p, s->a), chord) / point_dot(chord, chord);
        return t > 0 && t < 1 ? point_distance(p, between(s->a, s->b, t)) : ends;
    }
    double a = atan2(p.y - s->centre.y, p.x - s->centre.x) - s->from;
    if (s->sweep < 0)
        a = -a;
    while (a < 0)
        a += 2 * PI;
    while (a >= 2 * PI)
        a -= 2 * PI;
    if (a <= fabs(s->sweep))
        return fmin(ends, fabs(point_distance(p, s->centre) - s->radius));
    return ends;
}

/* ---- both directions ---- */

enum { SAMPLES = 600, SIDES_MOST = 4000 };

static double curve_to_chain(Evaluate at, const void *curve, const Side *sides, size_t count)
{
    double worst = 0;
    for (int i = 0; i <= SAMPLES; i++) {
        Point p = at(curve, (double)i / SAMPLES);
        double nearest = INFINITY;
        for (size_t k = 0; k < count; k++)
            nearest = fmin(nearest, side_distance(&sides[k], p));
        worst = fmax(worst, nearest);
    }
    return worst;
}

/* The least distance between two parameters, by thirds. */
static double by_thirds(Evaluate at, const void *curve, Point p, double low, double high)
{
    for (int i = 0; i < 32; i++) {
        double a = low + (high - low) / 3, b = high - (high - low) / 3;
        if (point_distance(p, at(curve, a)) < point_distance(p, at(curve, b)))
            high = b;
        else
            low = a;
    }
    return point_distance(p, at(curve, (low + high) / 2));
}

/* The least distance from p to the curve, or anything up to `enough`. First about each near sample
 * that is nearer than both its neighbours; then, where that is not enough, finely in each stretch
 * between two samples that may come nearer still, such as one with a tip in it. */
static double point_to_curve(Evaluate at, const void *curve, const Point *samples, Point p,
                             double enough)
{
    double distances[SAMPLES + 3], nearest = INFINITY;
    distances[0] = distances[SAMPLES + 2] = INFINITY;
    for (int i = 0; i <= SAMPLES; i++)
        distances[i + 1] = point_distance(p, samples[i]);
    for (int i = 0; i <= SAMPLES && nearest > enough; i++) {
        double here = distances[i + 1];
        if (here <= distances[i] && here <= distances[i + 2])
            nearest = fmin(nearest, by_thirds(at, curve, p, fmax(0, (i - 1.0) / SAMPLES),
                                              fmin(1, (i + 1.0) / SAMPLES)));
    }
    for (int i = 0; i < SAMPLES && nearest > enough; i++) {
        /* The stretches beside it say how far it may run out and back. */
        Point before = samples[i > 0 ? i - 1 : 0],
              after = samples[i + 2 <= SAMPLES ? i + 2 : i + 1];
        double run =
            2 * (point_distance(before, samples[i]) + point_distance(samples[i + 1], after) +
                 point_distance(samples[i], samples[i + 1]));
        for (int k = 0; distances[i + 1] + distances[i + 2] < run + 2 * enough && k < 200; k++)
            nearest = fmin(nearest, by_thirds(at, curve, p, (i + k / 200.0) / SAMPLES,
                                              (i + (k + 1) / 200.0) / SAMPLES));
    }
    return nearest;
}

static double chain_to_curve(Evaluate at, const void *curve, const Side *sides, size_t count,
                             double enough)
{
    Point samples[SAMPLES + 1];
    for (int i = 0; i <= SAMPLES; i++)
        samples[i] = at(curve, (double)i / SAMPLES);
    double worst = 0;
    int each = count > 20 ? 2 : 6;
    for (size_t k = 0; k < count; k++)
        for (int i = 0; i < each; i++) {
            Point p = side_at(&sides[k], (i + 0.5) / each);
            worst = fmax(worst, point_to_curve(at, curve, samples, p, enough));
        }
    return worst;
}

/* Checks ends, bound in both directions, and returns the number of sides. */
static size_t check(Evaluate at, const void *curve, const Curve *chain, double tolerance)
{
    static Side sides[SIDES_MOST];
    size_t count = chain->count - 1;
    assert_true(count >= 1 && count <= SIDES_MOST);
    for (size_t i = 0; i < count; i++)
        sides[i] = side_of(&chain->vertices[i]);
    assert_true(point_distance(sides[0].a, at(curve, 0)) < 1e-9);
    assert_true(point_distance(sides[count - 1].b, at(curve, 1)) < 1e-9);
    double out = curve_to_chain(at, curve, sides, count);
    double back = chain_to_curve(at, curve, sides, count, tolerance);
    if (out > tolerance * (1 + 1e-6) || back > tolerance * (1 + 1e-6))
        fail_msg("%.9g and %.9g mm off at a tolerance of %g", out, back, tolerance);
    return count;
}

/* The largest turn of the tangent between one side and the next, in radians. */
static double worst_corner(const Curve *chain)
{
    double worst = 0;
    for (size_t i = 0; i + 2 < chain->count; i++) {
        const Vertex *v = &chain->vertices[i];
        Point c = {v[1].x - v[0].x, v[1].y - v[0].y}, d = {v[2].x - v[1].x, v[2].y - v[1].y};
        double leaves = atan2(c.y, c.x) + 2 * atan2(v[0].sagitta, point_length(c) / 2);
        double enters = atan2(d.y, d.x) - 2 * atan2(v[1].sagitta, point_length(d) / 2);
        double turn = remainder(enters - leaves, 2 * PI);
        worst = fmax(worst, fabs(turn));
    }
    return worst;
}

static size_t add_bezier(Curve *chain, const Bezier *b, double tolerance)
{
    Error error;
    assert_true(curve_begin(chain, b->p[0], &error));
    assert_true(curve_cubic_to(chain, b->p[1], b->p[2], b->p[3], tolerance, &error));
    return check(bezier_at, b, chain, tolerance);
}

/* ---- cases ---- */

static const double sizes[] = {0.02, 1, 10, 100};
static const double tolerances[] = {0.0001, 0.001, 0.01};

/* How many of each kind; the long suite tries twenty times as many. */
static int times(int usual)
{
    return getenv("PINPLATE_LONG") ? 20 * usual : usual;
}

static void test_random_cubics(void **unused)
{
    Curve chain = {0};
    size_t sides = 0, smooth = 0, most = 0, count_all = times(1500);
    for (size_t i = 0; i < count_all; i++) {
        double size = sizes[i % 4], tolerance = tolerances[i / 4 % 3];
        Bezier b;
        for (int k = 0; k < 4; k++)
            b.p[k] = random_point(size);
        size_t count = add_bezier(&chain, &b, tolerance);
        sides += count;
        most = count > most ? count : most;
        smooth += worst_corner(&chain) < 1e-3;
    }
    print_message("# %zu cubics: %zu sides, most %zu, %zu without a corner\n", count_all, sides,
                  most, smooth);
    /* Some random cubics turn in less than the tolerance, and have a corner for it. */
    assert_true(smooth > count_all * 95 / 100);
    curve_clear(&chain);
}

static void test_gentle_cubics(void **unused)
{
    /* What outlines are drawn with: few turns, and a tangent that never jumps. */
    Curve chain = {0};
    size_t sides = 0;
    enum { COUNT = 500 };
    for (int i = 0; i < COUNT; i++) {
        double size = sizes[1 + i % 3];
        Point a = random_point(size), b = random_point(size);
        double length = point_distance(a, b), heading = atan2(b.y - a.y, b.x - a.x);
        double first = heading + random_between(-1, 1), last = heading + random_between(-1, 1);
        double leg = length * random_between(0.25, 0.45);
        Bezier curve = {{a,
                         {a.x + leg * cos(first), a.y + leg * sin(first)},
                         {b.x - leg * cos(last), b.y - leg * sin(last)},
                         b}};
        sides += add_bezier(&chain, &curve, CURVE_TOLERANCE);
        assert_true(worst_corner(&chain) < 1e-6);
    }
    print_message("# %.1f sides for a gentle cubic at 1 um\n", (double)sides / COUNT);
    curve_clear(&chain);
}

static void test_random_quadratics(void **unused)
{
    Curve chain = {0};
    Error error;
    for (int i = 0; i < times(750); i++) {
        double size = sizes[i % 4], tolerance = tolerances[i / 4 % 3];
        Point a = random_point(size), c = random_point(size), b = random_point(size);
        /* The same curve one degree up. */
        Bezier same = {{a, between(a, c, 2.0 / 3), between(b, c, 2.0 / 3), b}};
        assert_true(curve_begin(&chain, a, &error));
        assert_true(curve_quadratic_to(&chain, c, b, tolerance, &error));
        check(bezier_at, &same, &chain, tolerance);
    }
    curve_clear(&chain);
}

static void test_random_ellipses(void **unused)
{
    Curve chain = {0};
    Error error;
    for (int i = 0; i < times(750); i++) {
        double size = sizes[i % 4], tolerance = tolerances[i / 4 % 3];
        EllipseArc e = {random_point(size), random_point(size), random_point(size),
                        random_between(-7, 7), random_between(-2 * PI, 2 * PI)};
        assert_true(curve_begin(&chain, ellipse_arc_point(&e, e.from), &error));
        assert_true(curve_ellipse_to(&chain, &e, tolerance, &error));
        check(ellipse_at, &e, &chain, tolerance);
    }
    curve_clear(&chain);
}

static void test_degenerate_cubics(void **unused)
{
    Curve chain = {0};
    const Bezier cases[] = {
        {{{0, 0}, {0, 0}, {10, 5}, {10, 0}}},              /* first control on its end */
        {{{0, 0}, {3, 8}, {10, 0}, {10, 0}}},              /* last control on its end */
        {{{0, 0}, {0, 0}, {10, 0}, {10, 0}}},              /* both: a line */
        {{{0, 0}, {10, 10}, {0, 10}, {10, 0}}},            /* a cusp */
        {{{0, 0}, {10, 10}, {0, 10.0001}, {10, 0}}},       /* nearly a cusp, with a little loop */
        {{{0, 0}, {10, 10}, {0, 9.9999}, {10, 0}}},        /* nearly a cusp, without one */
        {{{0, 0}, {20, 10}, {-10, 10}, {10, 0}}},          /* a loop */
        {{{0, 0}, {5, 5}, {-5, 5}, {0, 0}}},               /* a loop that closes */
        {{{0, 0}, {20, 0}, {-10, 0}, {10, 0}}},            /* a line, back and forth */
        {{{0, 0}, {10, 0}, {10, 0}, {0, 0}}},              /* there and back on a line */
        {{{0, 0}, {10, 1e-9}, {5, -1e-9}, {15, 0}}},       /* a line but for rounding */
        {{{0, 0}, {1e-5, 1e-5}, {2e-5, 1e-5}, {3e-5, 0}}}, /* smaller than the tolerance */
        {{{1000, 1000}, {1000, 1000.1}, {1000.1, 1000.2}, {1000.2, 1000.2}}},
        {{{-9999, -9999}, {9999, -9999}, {-9999, 9999}, {9999, 9999}}},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        add_bezier(&chain, &cases[i], CURVE_TOLERANCE);

    Error error;
    assert_true(curve_begin(&chain, (Point){2, 3}, &error));
    assert_true(curve_cubic_to(&chain, (Point){2, 3}, (Point){2, 3}, (Point){2, 3}, 0.001, &error));
    assert_int_equal(chain.count, 1); /* nothing to draw */
    curve_clear(&chain);
}

static void test_straight_and_circular_are_exact(void **unused)
{
    Curve chain = {0};
    Error error;
    Bezier line = {{{0, 0}, {1, 0.5}, {2, 1}, {3, 1.5}}};
    assert_int_equal(add_bezier(&chain, &line, CURVE_TOLERANCE), 1);
    assert_true(chain.vertices[0].sagitta == 0);
    Bezier overshoot = {{{0, 0}, {20, 0}, {-10, 0}, {10, 0}}};
    assert_int_equal(add_bezier(&chain, &overshoot, CURVE_TOLERANCE), 3);

    EllipseArc circle = {{5, 6}, {2.54, 0}, {0, 2.54}, 0, 2 * PI};
    assert_true(curve_begin(&chain, (Point){7.54, 6}, &error));
    assert_true(curve_ellipse_to(&chain, &circle, CURVE_TOLERANCE, &error));
    assert_int_equal(chain.count, 3);
    for (int i = 0; i < 2; i++)
        assert_true(fabs(chain.vertices[i].sagitta - 2.54) < 1e-12);

    /* Turned over it runs clockwise. */
    EllipseArc mirrored = {{5, 6}, {2.54, 0}, {0, -2.54}, 0, PI / 2};
    assert_true(curve_begin(&chain, (Point){7.54, 6}, &error));
    assert_true(curve_ellipse_to(&chain, &mirrored, CURVE_TOLERANCE, &error));
    assert_int_equal(chain.count, 2);
    assert_true(fabs(chain.vertices[0].sagitta + 2.54 * (1 - sqrt(0.5))) < 1e-12);
    curve_clear(&chain);
}

static void test_flat_ellipses(void **unused)
{
    Curve chain = {0};
    Error error;
    EllipseArc flat = {{0, 0}, {3, 4}, {6, 8}, 0.3, 6};
    assert_true(curve_begin(&chain, ellipse_arc_point(&flat, 0.3), &error));
    assert_true(curve_ellipse_to(&chain, &flat, CURVE_TOLERANCE, &error));
    check(ellipse_at, &flat, &chain, CURVE_TOLERANCE);
    flat.sweep = -6;
    assert_true(curve_begin(&chain, ellipse_arc_point(&flat, 0.3), &error));
    assert_true(curve_ellipse_to(&chain, &flat, CURVE_TOLERANCE, &error));
    check(ellipse_at, &flat, &chain, CURVE_TOLERANCE);
    EllipseArc thin = {{0, 0}, {30, 40}, {0.008, -0.006}, 0, 2 * PI};
    assert_true(curve_begin(&chain, (Point){30, 40}, &error));
    assert_true(curve_ellipse_to(&chain, &thin, CURVE_TOLERANCE, &error));
    check(ellipse_at, &thin, &chain, CURVE_TOLERANCE);
    curve_clear(&chain);
}

static void test_arcs_from_ends(void **unused)
{
    EllipseArc arc;
    /* SVG 1.1 (second edition) section 8.3.8's four arcs have the same ends and radii, and differ
     * in the flags; the ends and the flags are what the standard promises. */
    for (int i = 0; i < 4; i++) {
        bool large = i & 1, positive = i & 2;
        Point from = {275, 125}, to = {375, 75};
        assert_true(ellipse_arc_from_ends(from, to, 100, 50, 0, large, positive, &arc));
        assert_true(point_distance(ellipse_arc_point(&arc, arc.from), from) < 1e-9);
        assert_true(point_distance(ellipse_arc_point(&arc, arc.from + arc.sweep), to) < 1e-9);
        assert_true((fabs(arc.sweep) > PI) == large);
        assert_true((arc.sweep > 0) == positive);
        assert_true(fabs(point_length(arc.u) - 100) < 1e-9);
        assert_true(fabs(point_length(arc.v) - 50) < 1e-9);
    }
    for (int i = 0; i < 1000; i++) {
        Point from = random_point(50), to = random_point(50);
        bool large = i & 1, positive = i & 2;
        double rx = random_between(0.1, 60), ry = random_between(0.1, 60);
        double turn = random_between(-400, 400);
        assert_true(ellipse_arc_from_ends(from, to, rx, ry, turn, large, positive, &arc));
        assert_true(point_distance(ellipse_arc_point(&arc, arc.from), from) < 1e-6);
        assert_true(point_distance(ellipse_arc_point(&arc, arc.from + arc.sweep), to) < 1e-6);
        assert_true((arc.sweep > 0) == positive);
        double grown = point_length(arc.u) / rx;
        assert_true(grown > 1 - 1e-9);
        if (grown < 1 + 1e-9) /* large enough as given */
            assert_true((fabs(arc.sweep) > PI) == large);
        else /* just large enough: half a turn */
            assert_true(fabs(fabs(arc.sweep) - PI) < 1e-3);
    }
    assert_false(ellipse_arc_from_ends((Point){1, 1}, (Point){1, 1}, 2, 2, 0, 0, 0, &arc));
    assert_false(ellipse_arc_from_ends((Point){1, 1}, (Point){2, 1}, 0, 2, 0, 0, 0, &arc));
    assert_false(ellipse_arc_from_ends((Point){1, 1}, (Point){2, 1}, NAN, 2, 0, 0, 0, &arc));
}

static void test_refusals(void **unused)
{
    Curve chain = {.sides_most = 3};
    Error error;
    assert_false(curve_begin(&chain, (Point){NAN, 0}, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
    assert_true(curve_begin(&chain, (Point){0, 0}, &error));
    assert_false(curve_line_to(&chain, (Point){1e9, 0}, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
    assert_false(
        curve_cubic_to(&chain, (Point){INFINITY, 0}, (Point){0, 0}, (Point){1, 0}, 0.001, &error));
    assert_false(curve_quadratic_to(&chain, (Point){NAN, 0}, (Point){1, 0}, 0.001, &error));
    EllipseArc bad = {{0, 0}, {1, 0}, {0, NAN}, 0, 1};
    assert_false(curve_ellipse_to(&chain, &bad, 0.001, &error));
    for (int i = 1; i <= 3; i++)
        assert_true(curve_line_to(&chain, (Point){i, i * i}, &error));
    assert_false(curve_line_to(&chain, (Point){4, 16}, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_int_equal(chain.count, 4);
    curve_clear(&chain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_cubics),
        cmocka_unit_test(test_gentle_cubics),
        cmocka_unit_test(test_random_quadratics),
        cmocka_unit_test(test_random_ellipses),
        cmocka_unit_test(test_degenerate_cubics),
        cmocka_unit_test(test_straight_and_circular_are_exact),
        cmocka_unit_test(test_flat_ellipses),
        cmocka_unit_test(test_arcs_from_ends),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests_name("geometry-curve", tests, NULL, NULL);
}
