/* curve.c: see curve.h. What is straight or round is settled here; the rest is a rational cubic,
 * which biarc.c follows with arcs. */
#include "geometry/biarc.h"

#include "geometry/length.h"

#include <stdlib.h>

#define PI 3.14159265358979323846
#define GREATEST_MM ((double)LENGTH_GREATEST / (double)LENGTH_MM)
/* Points nearer than this are the same but for rounding: a thousandth of a nanometre, in mm. */
#define SAME 1e-9

/* ---- the chain ---- */

static bool is_fine(Point p)
{
    return fabs(p.x) <= GREATEST_MM && fabs(p.y) <= GREATEST_MM; /* false for NaN */
}

static bool refuse_number(Error *error)
{
    return error_set(error, ERROR_GEOMETRY, NULL,
                     "a point is not a number or lies more than 10 m away; check the units");
}

static bool append(Curve *curve, Point p, Error *error)
{
    size_t most = curve->sides_most ? curve->sides_most : OUTLINE_SIDES_MOST;
    if (!is_fine(p))
        return refuse_number(error);
    if (curve->count > most)
        return error_set(error, ERROR_LIMIT, NULL,
                         "a curve needs more than %zu sides; simplify the drawing", most);
    if (curve->count == curve->room) {
        size_t room = curve->room ? 2 * curve->room : 16;
        Vertex *vertices = realloc(curve->vertices, room * sizeof *vertices);
        if (!vertices)
            return error_set(error, ERROR_INTERNAL, NULL, "there is not enough memory");
        curve->vertices = vertices;
        curve->room = room;
    }
    curve->vertices[curve->count++] = (Vertex){p.x, p.y, 0};
    return true;
}

static Point last_point(const Curve *curve)
{
    const Vertex *last = &curve->vertices[curve->count - 1];
    return (Point){last->x, last->y};
}

bool curve_begin(Curve *curve, Point p, Error *error)
{
    curve->count = 0;
    return append(curve, p, error);
}

bool curve_arc_to(Curve *curve, Point p, double sagitta, Error *error)
{
    Point from = last_point(curve);
    if (from.x == p.x && from.y == p.y)
        return true;
    if (!(fabs(sagitta) <= GREATEST_MM))
        return refuse_number(error);
    if (!append(curve, p, error))
        return false;
    curve->vertices[curve->count - 2].sagitta = sagitta;
    return true;
}

bool curve_line_to(Curve *curve, Point p, Error *error)
{
    return curve_arc_to(curve, p, 0, error);
}

void curve_clear(Curve *curve)
{
    free(curve->vertices);
    curve->vertices = NULL;
    curve->count = curve->room = 0;
}

/* ---- Bézier curves ---- */

/* Adds to `found` the parameters strictly between 0 and 1 where the quadratic with these Bernstein
 * coefficients is 0. */
static int add_roots(const double q[3], double *found, int count)
{
    double a = q[0] - 2 * q[1] + q[2], b = q[1] - q[0], c = q[0];
    double inside = b * b - a * c;
    double size = fabs(q[0]) + fabs(q[1]) + fabs(q[2]);
    if (size == 0 || inside < -1e-14 * size * size)
        return count;
    double root = sqrt(fmax(0, inside));
    double sum = -(b + (b < 0 ? -root : root));
    double roots[2] = {a != 0 ? sum / a : NAN, sum != 0 ? c / sum : NAN};
    for (int i = 0; i < 2; i++)
        if (roots[i] > 1e-9 && roots[i] < 1 - 1e-9)
            found[count++] = roots[i];
    return count;
}

static double value_of(const double q[3], double t)
{
    double s = 1 - t;
    return s * s * q[0] + 2 * s * t * q[1] + t * t * q[2];
}

/* A curve whose control points lie on one line runs along it, perhaps back and forth. */
static bool is_straight(const Rational *r, double tolerance, Point *direction)
{
    double furthest = 0;
    Point a = rational_control(r, 0), d = {0, 0};
    for (int i = 0; i < 4; i++)
        for (int j = i + 1; j < 4; j++) {
            Point between = point_minus(rational_control(r, j), rational_control(r, i));
            if (point_length(between) > furthest) {
                furthest = point_length(between);
                d = between;
            }
        }
    if (furthest == 0)
        return false;
    *direction = point_times(d, 1 / furthest);
    for (int i = 1; i < 4; i++)
        if (fabs(point_cross(*direction, point_minus(rational_control(r, i), a))) >
            0.5e-3 * tolerance)
            return false;
    return true;
}

static bool add_straight(Curve *curve, const Rational *r, Point direction, Error *error)
{
    double along[4], speed[3], turns[2] = {0};
    for (int i = 0; i < 4; i++)
        along[i] = point_dot(direction, rational_control(r, i));
    rational_derive(along, speed);
    int count = add_roots(speed, turns, 0);
    if (count == 2 && turns[0] > turns[1]) {
        double swap = turns[0];
        turns[0] = turns[1];
        turns[1] = swap;
    }
    for (int i = 0; i < count; i++) {
        Rational before, after;
        rational_split(r, turns[i], &before, &after);
        if (!curve_line_to(curve, rational_control(&before, 3), error))
            return false;
    }
    return curve_line_to(curve, rational_control(r, 3), error);
}

/* The parameter of a cusp, where the curve stops and turns back, or -1. */
static double find_cusp(const Rational *r, double tolerance)
{
    double speed_x[3], speed_y[3], found[4];
    rational_derive(r->x, speed_x);
    rational_derive(r->y, speed_y);
    double slow = fmin(1e-7 * rational_size(r), 0.01 * tolerance);
    int count = add_roots(speed_x, found, 0);
    count = add_roots(speed_y, found, count);
    for (int i = 0; i < count; i++)
        if (hypot(value_of(speed_x, found[i]), value_of(speed_y, found[i])) < slow)
            return found[i];
    return -1;
}

bool curve_cubic_to(Curve *curve, Point c1, Point c2, Point p, double tolerance, Error *error)
{
    Point from = last_point(curve), direction;
    if (!is_fine(c1) || !is_fine(c2) || !is_fine(p))
        return refuse_number(error);
    Rational r = {{from.x, c1.x, c2.x, p.x}, {from.y, c1.y, c2.y, p.y}, {1, 1, 1, 1}};
    if (rational_size(&r) == 0)
        return true;
    if (is_straight(&r, tolerance, &direction))
        return add_straight(curve, &r, direction, error);
    double cusp = find_cusp(&r, tolerance);
    if (cusp < 0)
        return curve_add_rational(curve, &r, tolerance, error);
    Rational before, after;
    rational_split(&r, cusp, &before, &after);
    /* The control points nearest to a cusp lie on it but for rounding, which would turn the tangent
     * round; put there (a hundredth of the tolerance at most), the next ones speak. */
    before.x[2] = before.x[3], before.y[2] = before.y[3];
    after.x[1] = after.x[0], after.y[1] = after.y[0];
    return curve_add_rational(curve, &before, 0.99 * tolerance, error) &&
           curve_add_rational(curve, &after, 0.99 * tolerance, error);
}

bool curve_quadratic_to(Curve *curve, Point c, Point p, double tolerance, Error *error)
{
    Point from = last_point(curve);
    Point c1 = {from.x + (c.x - from.x) * 2 / 3, from.y + (c.y - from.y) * 2 / 3};
    Point c2 = {p.x + (c.x - p.x) * 2 / 3, p.y + (c.y - p.y) * 2 / 3};
    if (!is_fine(c))
        return refuse_number(error);
    return curve_cubic_to(curve, c1, c2, p, tolerance, error);
}

/* ---- ellipses ---- */

Point ellipse_arc_point(const EllipseArc *arc, double a)
{
    double c = cos(a), s = sin(a);
    return (Point){arc->centre.x + arc->u.x * c + arc->v.x * s,
                   arc->centre.y + arc->u.y * c + arc->v.y * s};
}

/* Half the longest and the shortest diameter: the singular values of the matrix (u v). */
static void half_axes(const EllipseArc *arc, double *longest, double *shortest)
{
    double sum = hypot(arc->u.x + arc->v.y, arc->u.y - arc->v.x) / 2;
    double difference = hypot(arc->u.x - arc->v.y, arc->u.y + arc->v.x) / 2;
    *longest = sum + difference;
    *shortest = fabs(sum - difference);
}

/* Arcs through the beginning, middle and end of each part of at most half a turn. Of a circle these
 * are exact. */
static bool add_circular(Curve *curve, const EllipseArc *arc, Error *error)
{
    /* Half a turn and a little is one part still: it is half a turn but for rounding. */
    int parts = (int)ceil(fabs(arc->sweep) / PI - 1e-6);
    for (int i = 0; i < parts; i++) {
        double from = arc->from + arc->sweep * i / parts, half = arc->sweep / parts / 2;
        Point a = ellipse_arc_point(arc, from), b = ellipse_arc_point(arc, from + 2 * half);
        Point middle = ellipse_arc_point(arc, from + half), chord = point_minus(b, a);
        double length = point_length(chord);
        if (length == 0)
            continue;
        double sagitta = -point_cross(chord, point_minus(middle, a)) / length;
        if (!curve_arc_to(curve, b, sagitta, error))
            return false;
    }
    return true;
}

/* The part from a of the given sweep, less than half a turn, as a rational quadratic raised to a
 * cubic; its middle control point is where the tangents meet. */
static Rational ellipse_piece(const EllipseArc *arc, double a, double sweep)
{
    double w = cos(sweep / 2), middle = a + sweep / 2;
    Point p0 = ellipse_arc_point(arc, a), p2 = ellipse_arc_point(arc, a + sweep);
    double c = cos(middle), s = sin(middle);
    Point p1 = {arc->centre.x * w + arc->u.x * c + arc->v.x * s,
                arc->centre.y * w + arc->u.y * c + arc->v.y * s}; /* times its weight */
    return (Rational){
        {p0.x, (p0.x + 2 * p1.x) / 3, (2 * p1.x + p2.x) / 3, p2.x},
        {p0.y, (p0.y + 2 * p1.y) / 3, (2 * p1.y + p2.y) / 3, p2.y},
        {1, (1 + 2 * w) / 3, (1 + 2 * w) / 3, 1},
    };
}

/* An ellipse of no width runs along a line and turns where it is furthest out. */
static bool add_flat(Curve *curve, const EllipseArc *arc, Error *error)
{
    Point d = point_length(arc->u) >= point_length(arc->v) ? arc->u : arc->v;
    double turn = atan2(point_dot(arc->v, d), point_dot(arc->u, d)); /* and every half turn on */
    double low = fmin(arc->from, arc->from + arc->sweep), high = low + fabs(arc->sweep);
    double first = turn + ceil((low - turn) / PI) * PI;
    int count = first > high ? 0 : (int)floor((high - first) / PI) + 1;
    for (int i = 0; i < count; i++) {
        double a = arc->sweep > 0 ? first + i * PI : first + (count - 1 - i) * PI;
        if (!curve_line_to(curve, ellipse_arc_point(arc, a), error))
            return false;
    }
    return curve_line_to(curve, ellipse_arc_point(arc, arc->from + arc->sweep), error);
}

bool curve_ellipse_to(Curve *curve, const EllipseArc *arc, double tolerance, Error *error)
{
    double longest, shortest;
    if (!is_fine(arc->centre) || !is_fine(arc->u) || !is_fine(arc->v) ||
        !(fabs(arc->sweep) <= 2 * PI + 1e-9) || !(fabs(arc->from) <= 1e6))
        return refuse_number(error);
    Point first = ellipse_arc_point(arc, arc->from);
    if (point_distance(first, last_point(curve)) > SAME && !curve_line_to(curve, first, error))
        return false;
    half_axes(arc, &longest, &shortest);
    if (longest - shortest <= tolerance / 100)
        return add_circular(curve, arc, error);
    if (shortest <= 1e-3 * tolerance)
        return add_flat(curve, arc, error);
    /* Quarters of a turn at most, so that the weights stay well above 0. */
    int parts = (int)ceil(fabs(arc->sweep) / (PI / 2) - 1e-9);
    for (int i = 0; i < parts; i++) {
        double sweep = arc->sweep / parts;
        Rational piece = ellipse_piece(arc, arc->from + i * sweep, sweep);
        if (!curve_add_rational(curve, &piece, tolerance, error))
            return false;
    }
    return true;
}

bool ellipse_arc_from_ends(Point from, Point to, double radius_x, double radius_y, double turn,
                           bool large, bool positive, EllipseArc *arc)
{
    double rx = fabs(radius_x), ry = fabs(radius_y);
    if (!(rx > 0 && ry > 0) || (from.x == to.x && from.y == to.y))
        return false;
    double c = cos(fmod(turn, 360) * PI / 180), s = sin(fmod(turn, 360) * PI / 180);
    Point half = point_times(point_minus(from, to), 0.5);
    /* In the ellipse's own axes, where it is a circle of radius 1. */
    Point a = {(c * half.x + s * half.y) / rx, (c * half.y - s * half.x) / ry};
    double square = point_dot(a, a);
    if (square > 1) {
        double grow = sqrt(square);
        rx *= grow;
        ry *= grow;
        a = point_times(a, 1 / grow);
        square = 1;
    }
    /* Ends a whole diameter apart, but for rounding, whose square root would be much more. */
    double away = square > 1 - 1e-14 ? 0 : sqrt((1 - square) / square);
    if (large == positive)
        away = -away;
    Point m = {away * a.y, -away * a.x};
    arc->u = (Point){c * rx, s * rx};
    arc->v = (Point){-s * ry, c * ry};
    Point middle = point_times(point_plus(from, to), 0.5);
    arc->centre =
        point_plus(middle, point_plus(point_times(arc->u, m.x), point_times(arc->v, m.y)));
    arc->from = atan2(a.y - m.y, a.x - m.x);
    double last = atan2(-a.y - m.y, -a.x - m.x);
    arc->sweep = last - arc->from;
    if (positive && arc->sweep < 0)
        arc->sweep += 2 * PI;
    if (!positive && arc->sweep > 0)
        arc->sweep -= 2 * PI;
    return true;
}
