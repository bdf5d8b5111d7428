/* The rigid fit of least greatest deviation.
 *
 * With the rotation held, what is left is to find the shift t that makes the greatest
 * |d_i - t| / play_i least, d_i being what the shift has to make up: a smallest circle round points
 * where the plays are alike. Two or three points decide it, and with them come multipliers m_i,
 * not negative, such that no shift at all can make the sum of m_i |d_i - t|2 smaller than the
 * square of that greatest ratio. As a function of the rotation the least such sum is a plain
 * sinusoid; it touches the wanted function at this rotation and lies nowhere above it. So the
 * sinusoids collected at the rotations tried so far bound the whole circle from below: the next
 * rotation to try is where their upper envelope is lowest, and when the wanted function has come
 * down to the envelope there, the answer is proved. */
#include "refit/rigid-fit.h"

#define CUTS_MOST 96

/* From the pose of least squares on: how far each pair still is apart, and its arm. */
typedef struct Problem {
    const Point *from, *to;
    const double *plays;
    size_t count;
    Pose start;
    Point about; /* on `to`'s side: what is turned about */
} Problem;

/* 1 - cosine and sine of a turn, worked out so that small turns lose nothing. */
typedef struct Turn {
    double versine, sine;
} Turn;

typedef struct Cut {
    double constant, versine, sine; /* value = constant + versine * v + sine * s */
} Cut;

/* The shift for one rotation, and the pairs that decide it. */
typedef struct Shift {
    Point at;
    double square; /* of the greatest ratio */
    int count;
    size_t support[4];
} Shift;

static double play_of(const Problem *problem, size_t i)
{
    return problem->plays ? problem->plays[i] : 1;
}

static Turn turn_of(double angle)
{
    double half = sin(angle / 2);
    return (Turn){2 * half * half, sin(angle)};
}

static void arm_and_apart(const Problem *problem, size_t i, Point *arm, Point *apart)
{
    Point laid = pose_point(problem->start, problem->from[i]);
    *arm = point_minus(laid, problem->about);
    *apart = point_minus(problem->to[i], laid);
}

/* d_i: what the shift has to make up when all is turned by `turn` from the start. */
static Point left_over(const Problem *problem, size_t i, Turn turn)
{
    Point arm, apart;
    arm_and_apart(problem, i, &arm, &apart);
    return (Point){apart.x + turn.versine * arm.x + turn.sine * arm.y,
                   apart.y + turn.versine * arm.y - turn.sine * arm.x};
}

static double square_ratio(const Problem *problem, size_t i, Turn turn, Point at)
{
    Point e = point_minus(left_over(problem, i, turn), at);
    double play = play_of(problem, i);
    return point_dot(e, e) / (play * play);
}

/* --- the shift for one rotation ------------------------------------------------------------- */

static Point shift_for_two(Point a, Point b, double play_a, double play_b)
{
    double share = play_a / (play_a + play_b);
    return point_plus(a, point_times(point_minus(b, a), share));
}

/* The place whose distances to three points are as their plays. Taking the equation of the first
 * from those of the others leaves two lines that move with the square of the ratio; back in the
 * first equation they give a quadratic. False when the points lie in a line or there is none. */
static bool shift_for_three(const Point d[3], const double plays[3], Point *at)
{
    Point b = point_minus(d[1], d[0]), c = point_minus(d[2], d[0]);
    double area = 2 * point_cross(b, c);
    if (area == 0)
        return false;
    double first = plays[0] * plays[0];
    double by_b = plays[1] * plays[1] - first, by_c = plays[2] * plays[2] - first;
    double bb = point_dot(b, b), cc = point_dot(c, c);
    /* Relative to d[0]: at = u + square * v. */
    Point u = {(bb * c.y - cc * b.y) / area, (b.x * cc - c.x * bb) / area};
    Point v = {(by_c * b.y - by_b * c.y) / area, (c.x * by_b - b.x * by_c) / area};
    double q2 = point_dot(v, v), q1 = 2 * point_dot(u, v) - first, q0 = point_dot(u, u);
    double inner = q1 * q1 - 4 * q2 * q0;
    if (inner < 0 || q1 >= 0)
        return false;
    double square = 2 * q0 / (-q1 + sqrt(inner)); /* the smaller root */
    *at = point_plus(d[0], point_plus(u, point_times(v, square)));
    return isfinite(at->x) && isfinite(at->y);
}

static double greatest_of(const Problem *problem, Turn turn, Point at, const size_t *set, int count)
{
    double greatest = 0;
    for (int i = 0; i < count; i++)
        greatest = fmax(greatest, square_ratio(problem, set[i], turn, at));
    return greatest;
}

static void offer(const Problem *problem, Turn turn, const size_t *set, int set_count, Point at,
                  const size_t *support, int count, Shift *best)
{
    double square = greatest_of(problem, turn, at, set, set_count);
    if (square >= best->square)
        return;
    best->square = square;
    best->at = at;
    best->count = count;
    for (int i = 0; i < count; i++)
        best->support[i] = support[i];
}

/* The best shift for at most four pairs, by trying every two and every three of them. */
static Shift shift_for_few(const Problem *problem, Turn turn, const size_t *set, int count)
{
    Point d[4], at;
    double plays[4];
    Shift best = {.square = INFINITY};
    for (int i = 0; i < count; i++) {
        d[i] = left_over(problem, set[i], turn);
        plays[i] = play_of(problem, set[i]);
    }
    for (int i = 0; i < count; i++) {
        for (int k = i + 1; k < count; k++) {
            const size_t two[2] = {set[i], set[k]};
            at = shift_for_two(d[i], d[k], plays[i], plays[k]);
            offer(problem, turn, set, count, at, two, 2, &best);
            for (int n = k + 1; n < count; n++) {
                const size_t three[3] = {set[i], set[k], set[n]};
                const Point of_three[3] = {d[i], d[k], d[n]};
                const double their_plays[3] = {plays[i], plays[k], plays[n]};
                if (shift_for_three(of_three, their_plays, &at))
                    offer(problem, turn, set, count, at, three, 3, &best);
            }
        }
    }
    return best;
}

static size_t furthest(const Problem *problem, Turn turn, Point at, double *square)
{
    size_t worst = 0;
    *square = -1;
    for (size_t i = 0; i < problem->count; i++) {
        double here = square_ratio(problem, i, turn, at);
        if (here > *square) {
            *square = here;
            worst = i;
        }
    }
    return worst;
}

/* Adds the pair that is furthest out to those that decide, until none is out. The ratio grows with
 * each, so no set of them comes twice. */
static Shift shift_for(const Problem *problem, Turn turn)
{
    Shift shift = {.at = left_over(problem, 0, turn), .square = 0, .count = 1, .support = {0}};
    for (;;) {
        double square;
        size_t worst = furthest(problem, turn, shift.at, &square);
        if (square <= shift.square * (1 + 1e-13))
            break;
        size_t set[4];
        for (int i = 0; i < shift.count; i++)
            set[i] = shift.support[i];
        set[shift.count] = worst;
        Shift next = shift_for_few(problem, turn, set, shift.count + 1);
        if (!(next.square > shift.square))
            break;
        shift = next;
    }
    return shift;
}

/* --- the bound ------------------------------------------------------------------------------ */

/* The multipliers: where two pairs decide, they pull the shift with equal force from both sides;
 * where three do, their weighted middle is the shift. Scaled so that the sum of m play2 is 1. */
static void multipliers(const Problem *problem, Turn turn, const Shift *shift, double m[3])
{
    Point d[3];
    double sum = 0;
    for (int i = 0; i < shift->count; i++)
        d[i] = point_minus(left_over(problem, shift->support[i], turn), shift->at);
    if (shift->count == 1)
        m[0] = 1;
    if (shift->count == 2) {
        m[0] = 1 / play_of(problem, shift->support[0]);
        m[1] = 1 / play_of(problem, shift->support[1]);
    }
    if (shift->count == 3) {
        double side = point_cross(point_minus(d[1], d[0]), point_minus(d[2], d[0])) < 0 ? -1 : 1;
        m[0] = fmax(0, side * point_cross(d[1], d[2]));
        m[1] = fmax(0, side * point_cross(d[2], d[0]));
        m[2] = fmax(0, side * point_cross(d[0], d[1]));
    }
    for (int i = 0; i < shift->count; i++) {
        double play = play_of(problem, shift->support[i]);
        sum += m[i] * play * play;
    }
    for (int i = 0; i < shift->count; i++)
        m[i] = sum > 0 ? m[i] / sum : 0;
}

/* The least sum of m |d - t|2 over all shifts t, as a function of the turn. */
static Cut cut_at(const Problem *problem, Turn turn, const Shift *shift)
{
    double m[3] = {0, 0, 0}, weight = 0;
    Point arms[3], aparts[3], arm = {0, 0}, apart = {0, 0};
    multipliers(problem, turn, shift, m);
    for (int i = 0; i < shift->count; i++) {
        arm_and_apart(problem, shift->support[i], &arms[i], &aparts[i]);
        weight += m[i];
        arm = point_plus(arm, point_times(arms[i], m[i]));
        apart = point_plus(apart, point_times(aparts[i], m[i]));
    }
    Cut cut = {0, 0, 0};
    for (int i = 0; weight > 0 && i < shift->count; i++) {
        Point a = point_minus(arms[i], point_times(arm, 1 / weight));
        Point e = point_minus(aparts[i], point_times(apart, 1 / weight));
        cut.constant += m[i] * point_dot(e, e);
        cut.versine += 2 * m[i] * (point_dot(a, a) + point_dot(e, a));
        cut.sine += 2 * m[i] * point_cross(e, a);
    }
    return cut;
}

static double envelope(const Cut *cuts, int count, double angle)
{
    Turn turn = turn_of(angle);
    double value = -INFINITY;
    for (int i = 0; i < count; i++)
        value = fmax(value,
                     cuts[i].constant + cuts[i].versine * turn.versine + cuts[i].sine * turn.sine);
    return value;
}

static void offer_angle(const Cut *cuts, int count, double angle, double *least, double *at)
{
    double value = envelope(cuts, count, angle);
    if (value < *least) {
        *least = value;
        *at = angle;
    }
}

/* Where two sinusoids cross. With w the tangent of half the angle, v = 2 w2 / (1 + w2) and
 * s = 2 w / (1 + w2), so they cross where (c + 2 v) w2 + 2 s w + c = 0. */
static void offer_crossings(const Cut *cuts, int count, Cut a, Cut b, double *least, double *at)
{
    double c = a.constant - b.constant, v = a.versine - b.versine, s = a.sine - b.sine;
    double inner = s * s - c * (c + 2 * v);
    if (inner < 0)
        return;
    double q = -(s + copysign(sqrt(inner), s));
    offer_angle(cuts, count, 2 * atan2(q, c + 2 * v), least, at);
    offer_angle(cuts, count, 2 * atan2(c, q), least, at);
}

/* The lowest place of the upper envelope: at the foot of a sinusoid, or where two cross. */
static double lowest(const Cut *cuts, int count, double *at)
{
    double least = INFINITY;
    *at = 0;
    for (int i = 0; i < count; i++) {
        offer_angle(cuts, count, atan2(-cuts[i].sine, cuts[i].versine), &least, at);
        for (int k = 0; k < i; k++)
            offer_crossings(cuts, count, cuts[i], cuts[k], &least, at);
    }
    return least;
}

static Pose pose_turned(const Problem *problem, double angle, Point shift)
{
    Pose start = problem->start, pose = start;
    double c = cos(angle), s = sin(angle);
    pose.cosine = c * start.cosine - s * start.sine;
    pose.sine = s * start.cosine + c * start.sine;
    Point own = pose_point(pose_inverse(start), problem->about);
    Point laid = pose_direction(pose, own);
    pose.x = problem->about.x - laid.x + shift.x;
    pose.y = problem->about.y - laid.y + shift.y;
    return pose;
}

bool rigid_fit_greatest(const Point *from, const Point *to, const double *plays, size_t count,
                        bool turned_over, RigidFit *fit, double *share)
{
    if (!rigid_fit_squares(from, to, count, turned_over, fit))
        return false;
    Problem problem = {from, to, plays, count, fit->pose, {0, 0}};
    for (size_t i = 0; i < count; i++)
        problem.about = point_plus(problem.about, point_times(to[i], 1.0 / (double)count));
    Cut cuts[CUTS_MOST];
    double angle = 0, best_angle = 0;
    Shift best = {.square = INFINITY};
    for (int i = 0; i < CUTS_MOST; i++) {
        Turn turn = turn_of(angle);
        Shift shift = shift_for(&problem, turn);
        if (shift.square < best.square) {
            best = shift;
            best_angle = angle;
        }
        cuts[i] = cut_at(&problem, turn, &shift);
        double bound = lowest(cuts, i + 1, &angle);
        if (best.square - bound <= 1e-7 * best.square + 1e-18)
            break;
    }
    fit->pose = pose_turned(&problem, best_angle, best.at);
    rigid_fit_measure(fit, from, to, count);
    if (share)
        *share = sqrt(best.square);
    return true;
}
