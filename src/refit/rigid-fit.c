#include "refit/rigid-fit.h"

static Point turned(Point p, bool turned_over)
{
    return (Point){p.x, turned_over ? -p.y : p.y};
}

static Point middle(const Point *points, size_t count)
{
    Point sum = {0, 0};
    for (size_t i = 0; i < count; i++)
        sum = point_plus(sum, points[i]);
    return point_times(sum, 1.0 / (double)count);
}

void rigid_fit_measure(RigidFit *fit, const Point *from, const Point *to, size_t count)
{
    double sum = 0;
    fit->greatest = 0;
    fit->worst = 0;
    for (size_t i = 0; i < count; i++) {
        double deviation = point_distance(pose_point(fit->pose, from[i]), to[i]);
        sum += deviation * deviation;
        if (deviation > fit->greatest) {
            fit->greatest = deviation;
            fit->worst = i;
        }
    }
    fit->rms = sqrt(sum / (double)count);
}

bool rigid_fit_squares(const Point *from, const Point *to, size_t count, bool turned_over,
                       RigidFit *fit)
{
    *fit = (RigidFit){.pose = POSE_IDENTITY};
    if (count == 0)
        return false;
    Point p = middle(from, count), q = middle(to, count);
    double along = 0, across = 0;
    for (size_t i = 0; i < count; i++) {
        Point a = turned(point_minus(from[i], p), turned_over), b = point_minus(to[i], q);
        along += point_dot(a, b);
        across += point_cross(a, b);
    }
    double length = sqrt(along * along + across * across);
    Pose pose = {0, 0, 1, 0, turned_over};
    if (length > 0) {
        pose.cosine = along / length;
        pose.sine = across / length;
    }
    Point laid = pose_direction(pose, p);
    pose.x = q.x - laid.x;
    pose.y = q.y - laid.y;
    fit->pose = pose;
    rigid_fit_measure(fit, from, to, count);
    return true;
}

/* --- within the plays ------------------------------------------------------------------------
 *
 * Least squares with every deviation kept below its play, by an interior-point method: the sum of
 * squares less `weight` times the sum of log(play2 - deviation2) is smooth inside, and its least
 * place tends to the wanted one as the weight goes to 0. Three unknowns: a turn and a shift. */

typedef struct Inside {
    const Point *from, *to;
    const double *plays;
    size_t count;
    Point about; /* on `from`: what is turned about */
} Inside;

static Pose moved(const Inside *inside, Pose pose, const double step[3])
{
    Pose next = pose;
    double c = cos(step[0]), s = sin(step[0]);
    Point centre = pose_point(pose, inside->about);
    next.cosine = c * pose.cosine - s * pose.sine;
    next.sine = s * pose.cosine + c * pose.sine;
    Point laid = pose_direction(next, inside->about);
    next.x = centre.x - laid.x + step[1];
    next.y = centre.y - laid.y + step[2];
    return next;
}

/* Infinite outside. */
static double inside_value(const Inside *inside, Pose pose, double weight)
{
    double value = 0;
    for (size_t i = 0; i < inside->count; i++) {
        Point e = point_minus(inside->to[i], pose_point(pose, inside->from[i]));
        double square = point_dot(e, e), room = inside->plays[i] * inside->plays[i] - square;
        if (!(room > 0))
            return INFINITY;
        value += square - weight * log(room);
    }
    return value;
}

static void add_pair(const Inside *inside, Pose pose, size_t i, double weight, double gradient[3],
                     double curvature[3][3])
{
    Point laid = pose_point(pose, inside->from[i]), e = point_minus(inside->to[i], laid);
    Point arm = point_minus(laid, pose_point(pose, inside->about));
    double room = inside->plays[i] * inside->plays[i] - point_dot(e, e);
    double pull = 2 + 2 * weight / room, wall = 4 * weight / (room * room);
    /* How the deviation changes with the turn and the two shifts. */
    const Point ways[3] = {{arm.y, -arm.x}, {-1, 0}, {0, -1}};
    for (int a = 0; a < 3; a++) {
        double slope = point_dot(ways[a], e);
        gradient[a] += pull * slope;
        for (int b = 0; b < 3; b++)
            curvature[a][b] +=
                pull * point_dot(ways[a], ways[b]) + wall * slope * point_dot(ways[b], e);
    }
}

/* Solves a symmetric positive definite system by Cholesky's square roots; false when it is not one.
 */
static bool solve_three(double m[3][3], const double right[3], double x[3])
{
    double l[3][3] = {{0}};
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k <= i; k++) {
            double sum = m[i][k];
            for (int n = 0; n < k; n++)
                sum -= l[i][n] * l[k][n];
            if (i == k && !(sum > 0))
                return false;
            l[i][k] = i == k ? sqrt(sum) : sum / l[k][k];
        }
    }
    for (int i = 0; i < 3; i++) {
        x[i] = right[i];
        for (int n = 0; n < i; n++)
            x[i] -= l[i][n] * x[n];
        x[i] /= l[i][i];
    }
    for (int i = 3; i-- > 0;) {
        for (int n = i + 1; n < 3; n++)
            x[i] -= l[n][i] * x[n];
        x[i] /= l[i][i];
    }
    return true;
}

/* One step of Newton's method, shortened until it goes down. False when it is there. */
static bool step_inside(const Inside *inside, double weight, Pose *pose)
{
    double gradient[3] = {0}, curvature[3][3] = {{0}}, step[3];
    for (size_t i = 0; i < inside->count; i++)
        add_pair(inside, *pose, i, weight, gradient, curvature);
    const double down[3] = {-gradient[0], -gradient[1], -gradient[2]};
    if (!solve_three(curvature, down, step))
        return false;
    double gain = down[0] * step[0] + down[1] * step[1] + down[2] * step[2];
    double value = inside_value(inside, *pose, weight);
    for (int halvings = 0; halvings < 60; halvings++) {
        Pose next = moved(inside, *pose, step);
        double there = inside_value(inside, next, weight);
        if (there < value) {
            *pose = next;
            return value - there > 1e-6 * weight && gain > 1e-9 * weight;
        }
        for (int a = 0; a < 3; a++)
            step[a] /= 2;
    }
    return false;
}

static bool is_within(const RigidFit *fit, const Point *from, const Point *to, const double *plays,
                      size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (point_distance(pose_point(fit->pose, from[i]), to[i]) > plays[i])
            return false;
    return true;
}

bool rigid_fit_within(const Point *from, const Point *to, const double *plays, size_t count,
                      bool turned_over, RigidFit *fit)
{
    double share, scale = 0;
    if (!rigid_fit_squares(from, to, count, turned_over, fit))
        return false;
    if (is_within(fit, from, to, plays, count))
        return true;
    rigid_fit_greatest(from, to, plays, count, turned_over, fit, &share);
    if (share > 1)
        return false;
    if (share > 1 - 1e-9)
        return true;
    Inside inside = {from, to, plays, count, middle(from, count)};
    for (size_t i = 0; i < count; i++)
        scale += plays[i] * plays[i] / (double)count;
    for (double weight = 0.1 * scale; weight > 1e-10 * scale; weight /= 10)
        for (int steps = 0; steps < 50 && step_inside(&inside, weight, &fit->pose); steps++)
            continue;
    rigid_fit_measure(fit, from, to, count);
    return true;
}
