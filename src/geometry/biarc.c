/* biarc.c: see biarc.h.
 *
 * A circle through `at` with unit tangent t, left normal n and signed curvature k is kept as
 *
 *     F(p) = k/2 |p - at|^2 - n.(p - at)
 *
 * which is 0 on the circle, also where k is 0 and the circle is a line. A point at the distance d
 * outside has F = d + k d^2 / 2 (for a positive k). Along a rational curve P/W, F W^2 is a
 * polynomial of degree 6, and the largest of its Bernstein coefficients bounds it: that is the
 * whole proof.
 */
#include "geometry/biarc.h"

#define PI 3.14159265358979323846

/* Two tangent arcs from the first end by way of the joint to the last end. */
typedef struct Biarc {
    Point joint, end;
    double sagitta_first, sagitta_last;
    double bound;  /* the distance from the curve that is proved */
    bool straight; /* a line to `end`, nothing else */
} Biarc;

static void split_one(const double in[4], double t, double left[4], double right[4])
{
    double s = 1 - t;
    double ab = s * in[0] + t * in[1], bc = s * in[1] + t * in[2], cd = s * in[2] + t * in[3];
    double abc = s * ab + t * bc, bcd = s * bc + t * cd;
    double middle = s * abc + t * bcd;
    left[0] = in[0], left[1] = ab, left[2] = abc, left[3] = middle;
    right[0] = middle, right[1] = bcd, right[2] = cd, right[3] = in[3];
}

void rational_split(const Rational *r, double t, Rational *left, Rational *right)
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
        rational_split(&piece, to, &piece, &rest);
    if (from > 0)
        rational_split(&piece, from / to, &rest, &piece);
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

void rational_derive(const double a[4], double derivative[3])
{
    for (int i = 0; i < 3; i++)
        derivative[i] = 3 * (a[i + 1] - a[i]);
}

double rational_size(const Rational *r)
{
    double size = 0;
    for (int i = 1; i < 4; i++)
        size = fmax(size, point_distance(rational_control(r, 0), rational_control(r, i)));
    return size;
}

static double polygon_length(const Rational *r)
{
    double length = 0;
    for (int i = 0; i < 3; i++)
        length += point_distance(rational_control(r, i), rational_control(r, i + 1));
    return length;
}

/* The unit tangent at the beginning (step 1) or the end (step -1); the next control point speaks
 * where the nearest one lies on the end itself. */
static bool end_tangent(const Rational *r, int step, Point *tangent)
{
    int end = step > 0 ? 0 : 3;
    double enough = 1e-9 * rational_size(r);
    for (int i = 1; i < 4; i++) {
        Point d = point_times(
            point_minus(rational_control(r, end + i * step), rational_control(r, end)), step);
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
    rational_derive(along, along_1), rational_derive(r->w, w_1), rational_derive(dx, dx_1),
        rational_derive(dy, dy_1);
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
    rational_split(r, 0.5, &left, &right);
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
    Point a = rational_control(r, 0), chord = point_minus(rational_control(r, 3), a);
    double square = point_dot(chord, chord);
    for (int i = 1; i < 3; i++) {
        Point p = point_minus(rational_control(r, i), a);
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
    Point a = rational_control(r, 0), b = rational_control(r, 3), ta, tb;
    biarc->end = b;
    biarc->straight = true;
    biarc->bound = 0;
    /* Straight to a thousandth of the tolerance; or so small that no arc can be told from a line.
     */
    if (follows_chord(r, 1e-3 * tolerance) || rational_size(r) <= 0.25 * tolerance)
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
    rational_split(r, s, &before, &after);
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
            *biarc = (Biarc){.end = rational_control(&piece, 3), .straight = true};
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
bool curve_add_rational(Curve *curve, const Rational *r, double tolerance, Error *error)
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
            biarc.end = rational_control(r, 3);
        if (!biarc.straight && !curve_arc_to(curve, biarc.joint, biarc.sagitta_first, error))
            return false;
        if (!curve_arc_to(curve, biarc.end, biarc.straight ? 0 : biarc.sagitta_last, error))
            return false;
    }
    return true;
}
