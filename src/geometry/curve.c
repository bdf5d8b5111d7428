/* curve.c: see curve.h.
 *
 * Everything that is not a line or a circle is handled as one kind of curve, a rational cubic
 * Bézier: a cubic has weights of 1, and a part of an ellipse is a rational quadratic raised by one
 * degree. A circle through `at` with unit tangent t, left normal n and signed curvature k is kept
 * as
 *
 *     F(p) = k/2 |p - at|^2 - n.(p - at)
 *
 * which is 0 on the circle, also where k is 0 and the circle is a line. A point at the distance d
 * outside has F = d + k d^2 / 2 (for a positive k). Along a rational curve P/W, F W^2 is a
 * polynomial of degree 6, and the largest of its Bernstein coefficients bounds it: that is the
 * whole proof.
 */
#include "geometry/curve.h"

#include "geometry/length.h"

#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979323846
#define GREATEST_MM ((double)LENGTH_GREATEST / (double)LENGTH_MM)

/* Points nearer than this are the same but for rounding: a thousandth of a nanometre, in mm. */
#define SAME 1e-9

/* A rational cubic Bézier in homogeneous coordinates: the point is (x/w, y/w). */
typedef struct Rational {
    double x[4], y[4], w[4];
} Rational;

/* Two tangent arcs from the first end by way of the joint to the last end. */
typedef struct Biarc {
    Point joint, end;
    double sagitta_first, sagitta_last;
    double bound;  /* the distance from the curve that is proved */
    bool straight; /* a line to `end`, nothing else */
} Biarc;

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

/* ---- rational cubics ---- */

static Point control(const Rational *r, int i)
{
    return (Point){r->x[i] / r->w[i], r->y[i] / r->w[i]};
}

static void split_one(const double in[4], double t, double left[4], double right[4])
{
    double s = 1 - t;
    double ab = s * in[0] + t * in[1], bc = s * in[1] + t * in[2], cd = s * in[2] + t * in[3];
    double abc = s * ab + t * bc, bcd = s * bc + t * cd;
    double middle = s * abc + t * bcd;
    left[0] = in[0], left[1] = ab, left[2] = abc, left[3] = middle;
    right[0] = middle, right[1] = bcd, right[2] = cd, right[3] = in[3];
}

static void split(const Rational *r, double t, Rational *left, Rational *right)
{
    Rational whole = *r; /* left or right may be r itself */
    split_one(whole.x, t, left->x, right->x);
    split_one(whole.y, t, left->y, right->y);
    split_one(whole.w, t, left->w, right->w);
}

static Rational part(const Rational *r, double from, double to)
{
    Rational piece = *r, rest;
    if (to < 1)
        split(&piece, to, &piece, &rest);
    if (from > 0)
        split(&piece, from / to, &rest, &piece);
    return piece;
}

/* The product of two polynomials in Bernstein form, of degrees 3 and m; into degree 3 + m. */
static void multiply(const double a[4], const double *b, int m, double *product)
{
    static const double binomial[7][7] = {
        {1},
        {1, 1},
        {1, 2, 1},
        {1, 3, 3, 1},
        {1, 4, 6, 4, 1},
        {1, 5, 10, 10, 5, 1},
        {1, 6, 15, 20, 15, 6, 1},
    };
    for (int k = 0; k <= 3 + m; k++) {
        double sum = 0;
        for (int i = k > m ? k - m : 0; i <= 3 && i <= k; i++)
            sum += binomial[3][i] * binomial[m][k - i] * a[i] * b[k - i];
        product[k] = sum / binomial[3 + m][k];
    }
}

static void derive(const double a[4], double derivative[3])
{
    for (int i = 0; i < 3; i++)
        derivative[i] = 3 * (a[i + 1] - a[i]);
}

static double size_of(const Rational *r)
{
    double size = 0;
    for (int i = 1; i < 4; i++)
        size = fmax(size, point_distance(control(r, 0), control(r, i)));
    return size;
}

static double polygon_length(const Rational *r)
{
    double length = 0;
    for (int i = 0; i < 3; i++)
        length += point_distance(control(r, i), control(r, i + 1));
    return length;
}

/* The unit tangent at the beginning (step 1) or the end (step -1); the next control point speaks
 * where the nearest one lies on the end itself. */
static bool end_tangent(const Rational *r, int step, Point *tangent)
{
    int end = step > 0 ? 0 : 3;
    double enough = 1e-9 * size_of(r);
    for (int i = 1; i < 4; i++) {
        Point d = point_times(point_minus(control(r, end + i * step), control(r, end)), step);
        double length = point_length(d);
        if (length > enough) {
            *tangent = point_times(d, 1 / length);
            return true;
        }
    }
    return false;
}

/* ---- the bound ---- */

typedef struct Circle {
    Point at, tangent;
    double curvature; /* signed, positive to the left of the tangent */
} Circle;

/* True when all of `r` is proved to lie within `tolerance` of the circle and to move forward round
 * it; *bound then grows to the distance proved. Halves `r` up to `depth` times where the
 * coefficients alone are too coarse. */
static bool follows_circle(const Rational *r, const Circle *c, double tolerance, int depth,
                           double *bound)
{
    double dx[4], dy[4], along[4], across[4];
    double least_weight = INFINITY, reach = 0;
    for (int i = 0; i < 4; i++) {
        dx[i] = r->x[i] - c->at.x * r->w[i];
        dy[i] = r->y[i] - c->at.y * r->w[i];
        along[i] = c->tangent.x * dx[i] + c->tangent.y * dy[i];
        across[i] = c->tangent.x * dy[i] - c->tangent.y * dx[i];
        least_weight = fmin(least_weight, r->w[i]);
        reach = fmax(reach, fabs(dx[i]) + fabs(dy[i]));
    }
    double k = c->curvature;
    double xx[7], yy[7], nw[7];
    multiply(dx, dx, 3, xx);
    multiply(dy, dy, 3, yy);
    multiply(across, r->w, 3, nw);
    double most = 0, at_ends = 0;
    for (int i = 0; i < 7; i++) {
        double f = fabs(k / 2 * (xx[i] + yy[i]) - nw[i]) / (least_weight * least_weight);
        most = fmax(most, f);
        if (i == 0 || i == 6)
            at_ends = fmax(at_ends, f);
    }

    /* Forward motion round the centre: t.D' W - t.D W' + k D x D' >= 0. */
    double along_1[3], w_1[3], dx_1[3], dy_1[3];
    derive(along, along_1), derive(r->w, w_1), derive(dx, dx_1), derive(dy, dy_1);
    double a[6], b[6], e[6], f[6];
    multiply(r->w, along_1, 2, a), multiply(along, w_1, 2, b);
    multiply(dx, dy_1, 2, e), multiply(dy, dx_1, 2, f);
    bool forward = true;
    double rounding = 1e-13 * reach;
    for (int i = 0; i < 6; i++)
        forward &= a[i] - b[i] + k * (e[i] - f[i]) >= -rounding;

    if (most <= tolerance && fabs(k) * most < 0.25) {
        double distance = 2 * most / (1 + sqrt(1 - 2 * fabs(k) * most));
        if (distance <= tolerance && forward) {
            *bound = fmax(*bound, distance);
            return true;
        }
    }
    if (depth == 0 || at_ends > 2 * tolerance)
        return false;
    Rational left, right;
    split(r, 0.5, &left, &right);
    return follows_circle(&left, c, tolerance, depth - 1, bound) &&
           follows_circle(&right, c, tolerance, depth - 1, bound);
}

/* The parameter at which `r` crosses the line through p square to `tangent`, or a negative number
 * where its ends do not lie on both sides of it. */
static double crossing(const Rational *r, Point p, Point tangent)
{
    double g[4], left[4], right[4];
    for (int i = 0; i < 4; i++)
        g[i] = tangent.x * (r->x[i] - p.x * r->w[i]) + tangent.y * (r->y[i] - p.y * r->w[i]);
    if (!(g[0] < 0 && g[3] > 0))
        return -1;
    double low = 0, high = 1;
    for (int i = 0; i < 60 && high - low > 1e-16; i++) {
        double middle = (low + high) / 2;
        split_one(g, middle, left, right);
        if (left[3] < 0)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

static double angle_between(Point a, Point b)
{
    return atan2(point_cross(a, b), point_dot(a, b));
}

/* True when the whole piece lies within `tolerance` of its chord's line and of its chord. The
 * distance to a segment is convex, so the control points bound it; and a curve that runs from one
 * end of the chord to the other passes over every point of the chord. */
static bool follows_chord(const Rational *r, double tolerance)
{
    Point a = control(r, 0), chord = point_minus(control(r, 3), a);
    double square = point_dot(chord, chord);
    for (int i = 1; i < 3; i++) {
        Point p = point_minus(control(r, i), a);
        double s = square > 0 ? point_dot(p, chord) / square : 0;
        s = fmin(1, fmax(0, s));
        if (!(point_distance(p, point_times(chord, s)) <= tolerance))
            return false;
    }
    return true;
}

/* Makes the biarc with equal legs for the piece and proves it to lie within `tolerance`. */
static bool fit_biarc(const Rational *r, double tolerance, Biarc *biarc)
{
    Point a = control(r, 0), b = control(r, 3), ta, tb;
    biarc->end = b;
    biarc->straight = true;
    biarc->bound = 0;
    /* Straight to a thousandth of the tolerance; or so small that no arc can be told from a line.
     */
    if (follows_chord(r, 1e-3 * tolerance) || size_of(r) <= 0.25 * tolerance)
        return true;
    biarc->straight = false;
    if (!end_tangent(r, 1, &ta) || !end_tangent(r, -1, &tb))
        return false;

    /* Legs of length d from both ends: |v - d (ta + tb)| = 2 d. */
    Point v = point_minus(b, a), t = point_plus(ta, tb);
    double vt = point_dot(v, t), vv = point_dot(v, v);
    double below = vt + sqrt(vt * vt + 2 * (1 - point_dot(ta, tb)) * vv);
    if (!(below > 0.5 * sqrt(vv)))
        return false;
    double d = vv / below;
    Point p = point_plus(a, point_times(ta, d)), q = point_minus(b, point_times(tb, d));
    Point joint = point_times(point_plus(p, q), 0.5), tj = point_minus(q, p);
    double leg = point_length(tj);
    if (!(leg > 0))
        return false;
    tj = point_times(tj, 1 / leg);

    Point first = point_minus(joint, a), last = point_minus(b, joint);
    double length_first = point_length(first), length_last = point_length(last);
    double turn_first = angle_between(ta, first), turn_last = angle_between(last, tb);
    if (fabs(turn_first) > PI / 3 || fabs(turn_last) > PI / 3)
        return false;
    /* A curve that went once more round a centre would be longer than this. */
    if (polygon_length(r) > 2 * (length_first + length_last))
        return false;
    double s = crossing(r, joint, tj);
    if (s < 0)
        return false;
    Rational before, after;
    split(r, s, &before, &after);
    Circle circle_first = {a, ta, 2 * sin(turn_first) / length_first};
    Circle circle_last = {b, tb, 2 * sin(turn_last) / length_last};
    if (!follows_circle(&before, &circle_first, tolerance, 3, &biarc->bound) ||
        !follows_circle(&after, &circle_last, tolerance, 3, &biarc->bound))
        return false;
    biarc->joint = joint;
    biarc->sagitta_first = length_first / 2 * tan(turn_first / 2);
    biarc->sagitta_last = length_last / 2 * tan(turn_last / 2);
    return true;
}

/* ---- pieces ---- */

/* The longest piece from `from` that one biarc can follow, near enough; returns its end. How far a
 * biarc is off grows with the cube of the piece, which says where to try next. */
static double longest_piece(const Rational *r, double from, double guess, double tolerance,
                            Biarc *biarc)
{
    Biarc trial;
    double good = from, bad = 1, to = fmin(1, from + guess);
    bool failed = false;
    for (;;) {
        Rational piece = part(r, from, to);
        if (fit_biarc(&piece, tolerance, &trial)) {
            good = to;
            *biarc = trial;
            if (good >= 1 || trial.bound > 0.9 * tolerance)
                return good;
            double grow = 0.98 * cbrt(tolerance / fmax(trial.bound, 0.01 * tolerance));
            to = from + (good - from) * fmax(grow, 1.02);
        } else {
            bad = to;
            failed = true;
            to = from + 0.6 * (bad - from);
        }
        if (good > from && failed && bad - good < 0.03 * (good - from))
            return good;
        if (failed && good > from && (to >= bad || to <= good))
            to = (good + bad) / 2;
        to = fmin(to, 1);
        if (good == from && to - from < 1e-14) { /* double has no room for a smaller piece */
            to = fmin(1, from + 1e-13);
            piece = part(r, from, to);
            *biarc = (Biarc){.end = control(&piece, 3), .straight = true};
            return to;
        }
    }
}

/* How many biarcs the longest pieces at this tolerance come to, or more than `most`. */
static size_t count_pieces(const Rational *r, double tolerance, size_t most)
{
    size_t count = 0;
    double at = 0, step = 1;
    Biarc biarc;
    while (at < 1 && count <= most) {
        double to = longest_piece(r, at, step, tolerance, &biarc);
        step = to - at;
        at = to;
        count++;
    }
    return count;
}

/* Adds the curve from its first to its last control point. Longest pieces first leave a short one
 * at the end; the same number of pieces at the least tolerance that they can reach shares it out.
 */
static bool add_rational(Curve *curve, const Rational *r, double tolerance, Error *error)
{
    size_t most = curve->sides_most ? curve->sides_most : OUTLINE_SIDES_MOST;
    size_t pieces = count_pieces(r, tolerance, most);
    if (pieces > 1 && pieces <= 64) {
        double low = tolerance / 16, high = tolerance;
        for (int i = 0; i < 4; i++) {
            double middle = sqrt(low * high);
            if (count_pieces(r, middle, pieces) <= pieces)
                high = middle;
            else
                low = middle;
        }
        tolerance = high;
    }
    double at = 0, step = 1;
    while (at < 1) {
        Biarc biarc;
        double to = longest_piece(r, at, step, tolerance, &biarc);
        step = to - at;
        at = to;
        if (at >= 1)
            biarc.end = control(r, 3);
        if (!biarc.straight && !curve_arc_to(curve, biarc.joint, biarc.sagitta_first, error))
            return false;
        if (!curve_arc_to(curve, biarc.end, biarc.straight ? 0 : biarc.sagitta_last, error))
            return false;
    }
    return true;
}

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
    Point a = control(r, 0), d = {0, 0};
    for (int i = 0; i < 4; i++)
        for (int j = i + 1; j < 4; j++) {
            Point between = point_minus(control(r, j), control(r, i));
            if (point_length(between) > furthest) {
                furthest = point_length(between);
                d = between;
            }
        }
    if (furthest == 0)
        return false;
    *direction = point_times(d, 1 / furthest);
    for (int i = 1; i < 4; i++)
        if (fabs(point_cross(*direction, point_minus(control(r, i), a))) > 0.5e-3 * tolerance)
            return false;
    return true;
}

static bool add_straight(Curve *curve, const Rational *r, Point direction, Error *error)
{
    double along[4], speed[3], turns[2] = {0};
    for (int i = 0; i < 4; i++)
        along[i] = point_dot(direction, control(r, i));
    derive(along, speed);
    int count = add_roots(speed, turns, 0);
    if (count == 2 && turns[0] > turns[1]) {
        double swap = turns[0];
        turns[0] = turns[1];
        turns[1] = swap;
    }
    for (int i = 0; i < count; i++) {
        Rational before, after;
        split(r, turns[i], &before, &after);
        if (!curve_line_to(curve, control(&before, 3), error))
            return false;
    }
    return curve_line_to(curve, control(r, 3), error);
}

/* The parameter of a cusp, where the curve stops and turns back, or -1. */
static double find_cusp(const Rational *r, double tolerance)
{
    double speed_x[3], speed_y[3], found[4];
    derive(r->x, speed_x);
    derive(r->y, speed_y);
    double slow = fmin(1e-7 * size_of(r), 0.01 * tolerance);
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
    if (size_of(&r) == 0)
        return true;
    if (is_straight(&r, tolerance, &direction))
        return add_straight(curve, &r, direction, error);
    double cusp = find_cusp(&r, tolerance);
    if (cusp < 0)
        return add_rational(curve, &r, tolerance, error);
    Rational before, after;
    split(&r, cusp, &before, &after);
    /* The control points nearest to a cusp lie on it but for rounding, which would turn the tangent
     * round; put there (a hundredth of the tolerance at most), the next ones speak. */
    before.x[2] = before.x[3], before.y[2] = before.y[3];
    after.x[1] = after.x[0], after.y[1] = after.y[0];
    return add_rational(curve, &before, 0.99 * tolerance, error) &&
           add_rational(curve, &after, 0.99 * tolerance, error);
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
        if (!add_rational(curve, &piece, tolerance, error))
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
