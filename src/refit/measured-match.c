/* Which measured point is which hole. Two points far apart are laid on every two holes that are as
 * far apart; the position that has most points on holes wins. A few points spread over the plate
 * serve in turn, so that one wrong among them does not matter. */
#include "refit/measured.h"

#include <stdlib.h>
#include <string.h>

#define ANCHORS_MOST 12
/* A measured diameter and a step's may differ by this and still be one, in mm. */
#define DIAMETER_NEAR 0.5

typedef struct Matching {
    const MeasuredPoint *points;
    uint32_t point_count;
    const DrawnHole *holes;
    uint32_t hole_count;
    uint32_t *by_x; /* holes from left to right */
    bool turned_over;
    double reach;
    uint32_t anchors[ANCHORS_MOST];
    uint32_t anchor_count;
    int *taken; /* by hole: the point that has it, or -1 */
    int *trial; /* by point */
    int *best;  /* by point */
    uint32_t best_count, best_labels;
    double best_turn, best_rms; /* degrees away from no rotation; mm */
    Pose best_pose;
} Matching;

static Point point_at(const MeasuredPoint *point)
{
    return (Point){length_to_mm(point->at.x), length_to_mm(point->at.y)};
}

Length measured_nearest_step(const Hole *hole, Length diameter)
{
    Length nearest = 0;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        Length here = LIST_AT(&hole->steps, Step, i)->diameter;
        if (i == 0 || ABS(here - diameter) < ABS(nearest - diameter))
            nearest = here;
    }
    return nearest;
}

static bool may_be(const MeasuredPoint *point, const DrawnHole *hole)
{
    if (point->diameter <= 0)
        return true;
    Length off = measured_nearest_step(hole->hole, point->diameter) - point->diameter;
    return fabs(length_to_mm(off)) <= DIAMETER_NEAR;
}

/* --- holes by place ------------------------------------------------------------------------- */

static int compare_by_x(const void *a, const void *b, void *data)
{
    const DrawnHole *holes = data;
    uint32_t first = *(const uint32_t *)a, second = *(const uint32_t *)b;
    double one = holes[first].at.x, other = holes[second].at.x;
    if (one != other)
        return one > other ? 1 : -1;
    return (first > second) - (first < second);
}

static uint32_t first_from(const Matching *matching, double x)
{
    uint32_t low = 0, high = matching->hole_count;
    while (low < high) {
        uint32_t middle = (low + high) / 2;
        if (matching->holes[matching->by_x[middle]].at.x < x)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* The nearest hole that the point may be, within reach; -1: none. */
static int nearest_hole(const Matching *matching, const MeasuredPoint *point, Point at)
{
    int nearest = -1;
    double least = matching->reach;
    for (uint32_t i = first_from(matching, at.x - least); i < matching->hole_count; i++) {
        const DrawnHole *hole = &matching->holes[matching->by_x[i]];
        if (hole->at.x > at.x + matching->reach)
            break;
        double distance = point_distance(hole->at, at);
        if (distance <= least && may_be(point, hole)) {
            least = distance;
            nearest = (int)matching->by_x[i];
        }
    }
    return nearest;
}

/* --- one position --------------------------------------------------------------------------- */

/* Fills `trial`; of two points on one hole the nearer has it. Returns how many are matched. */
static uint32_t lay(Matching *matching, Pose pose)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < matching->hole_count; i++)
        matching->taken[i] = -1;
    for (uint32_t i = 0; i < matching->point_count; i++) {
        Point at = pose_point(pose, point_at(&matching->points[i]));
        int hole = nearest_hole(matching, &matching->points[i], at);
        matching->trial[i] = hole;
        if (hole < 0)
            continue;
        int other = matching->taken[hole];
        if (other >= 0) {
            Point there = pose_point(pose, point_at(&matching->points[other]));
            bool nearer = point_distance(at, matching->holes[hole].at) <
                          point_distance(there, matching->holes[hole].at);
            matching->trial[nearer ? (uint32_t)other : i] = -1;
            if (!nearer)
                continue;
            count--;
        }
        matching->taken[hole] = (int)i;
        count++;
    }
    return count;
}

static bool fit_trial(const Matching *matching, RigidFit *fit)
{
    Point *from = g_new(Point, matching->point_count), *to = g_new(Point, matching->point_count);
    size_t count = 0;
    for (uint32_t i = 0; i < matching->point_count; i++) {
        if (matching->trial[i] < 0)
            continue;
        from[count] = point_at(&matching->points[i]);
        to[count++] = matching->holes[matching->trial[i]].at;
    }
    bool done = rigid_fit_squares(from, to, count, matching->turned_over, fit);
    g_free(from);
    g_free(to);
    return done;
}

static uint32_t labels_alike(const Matching *matching)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < matching->point_count; i++)
        count += matching->trial[i] >= 0 && matching->points[i].label &&
                 g_strcmp0(matching->points[i].label,
                           matching->holes[matching->trial[i]].hole->label) == 0;
    return count;
}

/* More points, then more labels, then less of a turn, then less deviation. */
static bool is_better(const Matching *matching, uint32_t count, uint32_t labels, double turn,
                      double rms)
{
    if (count != matching->best_count)
        return count > matching->best_count;
    if (labels != matching->best_labels)
        return labels > matching->best_labels;
    if (fabs(turn - matching->best_turn) > 1)
        return turn < matching->best_turn;
    return rms < matching->best_rms;
}

static void try_pose(Matching *matching, Pose pose)
{
    uint32_t on = 0;
    for (uint32_t i = 0; i < matching->anchor_count; i++) {
        const MeasuredPoint *point = &matching->points[matching->anchors[i]];
        on += nearest_hole(matching, point, pose_point(pose, point_at(point))) >= 0;
    }
    if (2 * on < matching->anchor_count)
        return;
    RigidFit fit;
    uint32_t count = lay(matching, pose);
    if (count < matching->best_count || count < 2 || !fit_trial(matching, &fit))
        return;
    /* Laid by all points instead of two, one or two more may come within reach. */
    uint32_t again = lay(matching, fit.pose);
    if (again < count)
        count = lay(matching, pose);
    else
        count = again;
    fit_trial(matching, &fit);
    double turn = fabs(atan2(fit.pose.sine, fit.pose.cosine)) * 180 / M_PI;
    uint32_t labels = labels_alike(matching);
    if (!is_better(matching, count, labels, turn, fit.rms))
        return;
    matching->best_count = count;
    matching->best_labels = labels;
    matching->best_turn = turn;
    matching->best_rms = fit.rms;
    matching->best_pose = fit.pose;
    memcpy(matching->best, matching->trial, sizeof(int) * matching->point_count);
}

/* --- all positions -------------------------------------------------------------------------- */

/* Each further anchor is the point furthest from those chosen before. */
static void choose_anchors(Matching *matching)
{
    double *distance = g_new(double, matching->point_count);
    uint32_t next = 0;
    for (uint32_t i = 0; i < matching->point_count; i++)
        distance[i] = INFINITY;
    while (matching->anchor_count < MIN(ANCHORS_MOST, matching->point_count)) {
        Point at = point_at(&matching->points[next]);
        matching->anchors[matching->anchor_count++] = next;
        for (uint32_t i = 0; i < matching->point_count; i++) {
            double here = point_distance(at, point_at(&matching->points[i]));
            distance[i] = fmin(distance[i], here);
        }
        for (uint32_t i = 0; i < matching->point_count; i++)
            if (distance[i] > distance[next])
                next = i;
        if (distance[next] <= 0)
            break;
    }
    g_free(distance);
}

static void try_pair(Matching *matching, uint32_t one, uint32_t other)
{
    const MeasuredPoint *a = &matching->points[one], *b = &matching->points[other];
    const Point from[2] = {point_at(a), point_at(b)};
    double apart = point_distance(from[0], from[1]);
    if (apart < 4 * matching->reach)
        return;
    for (uint32_t i = 0; i < matching->hole_count; i++) {
        const DrawnHole *first = &matching->holes[i];
        if (!may_be(a, first))
            continue;
        for (uint32_t k = first_from(matching, first->at.x - apart - matching->reach);
             k < matching->hole_count; k++) {
            const DrawnHole *second = &matching->holes[matching->by_x[k]];
            if (second->at.x > first->at.x + apart + matching->reach)
                break;
            double off = fabs(point_distance(first->at, second->at) - apart);
            if (off > matching->reach || !may_be(b, second))
                continue;
            const Point to[2] = {first->at, second->at};
            RigidFit fit;
            rigid_fit_squares(from, to, 2, matching->turned_over, &fit);
            try_pose(matching, fit.pose);
        }
    }
}

static bool is_enough(const Matching *matching)
{
    return matching->best_count >= matching->point_count - matching->point_count / 10;
}

static void try_anchors(Matching *matching)
{
    for (uint32_t other = 1; other < matching->anchor_count; other++)
        for (uint32_t one = 0; one < other; one++) {
            try_pair(matching, matching->anchors[one], matching->anchors[other]);
            if (is_enough(matching))
                return;
        }
}

bool measured_match(const MeasuredTable *table, const DrawnHole *holes, uint32_t hole_count,
                    bool turned_over, double reach, int *matches, Pose *pose)
{
    Matching matching = {.points = (const MeasuredPoint *)(void *)table->points->data,
                         .point_count = table->points->len,
                         .holes = holes,
                         .hole_count = hole_count,
                         .turned_over = turned_over,
                         .reach = reach,
                         .best = matches,
                         .best_pose = POSE_IDENTITY};
    matching.by_x = g_new(uint32_t, hole_count + 1);
    matching.taken = g_new(int, hole_count + 1);
    matching.trial = g_new(int, matching.point_count + 1);
    for (uint32_t i = 0; i < hole_count; i++)
        matching.by_x[i] = i;
    qsort_r(matching.by_x, hole_count, sizeof(uint32_t), compare_by_x, (void *)holes);
    choose_anchors(&matching);
    try_anchors(&matching);
    g_free(matching.by_x);
    g_free(matching.taken);
    g_free(matching.trial);
    *pose = matching.best_pose;
    return matching.best_count >= 2 && 2 * matching.best_count >= matching.point_count;
}
