/* Positions that one hole of the plate allows: the part turned about it, with one more hole made
 * under another of the part's holes. The rules say at which rotations, so the place of the new
 * hole runs along arcs round the old one. */
#include "refit/refit-private.h"

#include <limits.h>

#define STEPS REFIT_TURNS
#define ARC_ENDS 0.02 /* degrees: how well an arc's end is found */

typedef struct Turning {
    Refit *refit;
    const FaceHoles *face;
    const MatchHole *hole;
    const HoleOption *option;
    int about; /* the part's hole over it, counted from 0 */
    int other; /* the part's hole that gets a new one */
    bool turned_over;
} Turning;

static RefitAnswer *answer_at(const Turning *turning, double degrees)
{
    const Refit *refit = turning->refit;
    double c, s;
    angle_cos_sin(angle_from_degrees(degrees), &c, &s);
    Pose pose = {0, 0, c, s, turning->turned_over};
    Point laid = pose_point(pose, refit->query.part[turning->about]);
    pose.x = turning->hole->at.x - laid.x;
    pose.y = turning->hole->at.y - laid.y;
    RefitAnswer *answer = refit_answer_new(REFIT_ON_ONE_HOLE, turning->face->face);
    refit_answer_place(answer, pose);
    answer->about = turning->hole->id;
    refit_answer_add_use(answer, (RefitUse){turning->about + 1, turning->hole->id,
                                            turning->option->hardware, 0, turning->option->play});
    const PartHole *other = LIST_AT(&refit->part->holes, PartHole, turning->other);
    refit_answer_add_use(
        answer, (RefitUse){turning->other + 1, ID_NONE, hardware_for_locating(other), 0, 0});
    return answer;
}

/* The cautions at a rotation, or less than 0 where there are stops: one less for each. */
static int cautions_at(const Turning *turning, double degrees)
{
    RefitAnswer *answer = answer_at(turning, degrees);
    refit_try(turning->refit, answer);
    int cautions = answer->stops ? -(int)answer->stops : (int)answer->cautions;
    refit_answer_free(answer);
    return cautions;
}

/* Where it stops being fine on the way from a rotation that is to one that is not. */
static double arc_end(const Turning *turning, double fine, double not )
{
    while (fabs(not -fine) > ARC_ENDS) {
        double middle = (fine + not ) / 2;
        if (cautions_at(turning, middle) >= 0)
            fine = middle;
        else
            not = middle;
    }
    return fine;
}

/* Of the arc's steps with the fewest cautions a whole quarter turn, or else the middle one. */
static int best_step(const int cautions[STEPS], int first, int count)
{
    int least = -1, alike = 0;
    for (int i = 0; i < count; i++) {
        int here = cautions[(first + i) % STEPS];
        if (least < 0 || here < least) {
            least = here;
            alike = 0;
        }
        alike += here == least;
    }
    int middle = first, seen = 0;
    for (int i = 0; i < count; i++) {
        int step = (first + i) % STEPS;
        if (cautions[step] != least)
            continue;
        if (step % (STEPS / 4) == 0)
            return step;
        if (seen++ == alike / 2)
            middle = step;
    }
    return middle;
}

static void add_arc(const Turning *turning, const int cautions[STEPS], int first, int count)
{
    const double step = 360.0 / STEPS;
    double from = 0, to = 360;
    if (count < STEPS) {
        from = arc_end(turning, first * step, (first - 1) * step);
        to = arc_end(turning, (first + count - 1) * step, (first + count) * step);
    }
    RefitAnswer *answer = answer_at(turning, best_step(cautions, first, count) * step);
    refit_try(turning->refit, answer);
    answer->verdict = REFIT_ONE_HOLE;
    answer->arc_from = angle_normalized(angle_from_degrees(from));
    answer->arc_to = count < STEPS ? angle_normalized(angle_from_degrees(to)) : ANGLE_TURN;
    g_ptr_array_add(turning->refit->answers, answer);
}

/* Adds an answer for each arc; true when there is one. */
static bool add_arcs(const Turning *turning)
{
    int cautions[STEPS], first = -1;
    bool all = true, any = false;
    for (int i = 0; i < STEPS; i++) {
        cautions[i] = cautions_at(turning, i * (360.0 / STEPS));
        all = all && cautions[i] >= 0;
        any = any || cautions[i] >= 0;
    }
    if (all)
        add_arc(turning, cautions, 0, STEPS);
    for (int i = 0; !all && i < STEPS; i++)
        if (cautions[i] >= 0 && cautions[(i + STEPS - 1) % STEPS] < 0) {
            first = i;
            int count = 1;
            while (cautions[(first + count) % STEPS] >= 0)
                count++;
            add_arc(turning, cautions, first, count);
        }
    return any;
}

/* Where it fits at no rotation, the one with the fewest stops says why. */
static void add_nearest(const Turning *turning)
{
    double nearest = 0;
    int most = INT_MIN;
    for (int i = 0; i < STEPS; i++) {
        double degrees = i * (360.0 / STEPS);
        int cautions = cautions_at(turning, degrees);
        if (cautions > most) {
            most = cautions;
            nearest = degrees;
        }
    }
    RefitAnswer *answer = answer_at(turning, nearest);
    refit_try(turning->refit, answer);
    answer->verdict = REFIT_NO;
    answer->arc_from = answer->arc_to = answer->rotation;
    g_ptr_array_add(turning->refit->answers, answer);
}

/* The part's other holes, the furthest first: it locates best. Nearer ones are tried only where
 * that one can go nowhere. */
static void turn_about(Turning *turning)
{
    const MatchQuery *query = &turning->refit->query;
    double before = INFINITY;
    for (int n = 1; n < query->part_count; n++) {
        double furthest = -1;
        for (int i = 0; i < query->part_count; i++) {
            double distance = point_distance(query->part[i], query->part[turning->about]);
            if (i != turning->about && distance < before && distance > furthest) {
                furthest = distance;
                turning->other = i;
            }
        }
        if (furthest <= 0)
            break;
        if (add_arcs(turning))
            return;
        before = furthest;
    }
    if (before < INFINITY)
        add_nearest(turning);
}

static void turn_about_hole(Refit *refit, const FaceHoles *face, const MatchHole *hole)
{
    for (int i = 0; i < refit->query.part_count; i++) {
        const HoleOptions *options = match_options(&refit->query, hole->use, i);
        if (!options->locate.serves)
            continue;
        for (int over = 0; over < 2; over++) {
            Turning turning = {refit, face, hole, &options->locate, i, 0, over};
            turn_about(&turning);
        }
    }
}

bool refit_search_one_hole(Refit *refit, double from, double to)
{
    guint done = 0;
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        for (uint32_t i = 0; i < face->count; i++) {
            double share = (double)done++ / refit->holes.holes->len;
            if (!refit_goes_on(refit, from + (to - from) * share))
                return false;
            turn_about_hole(refit, face,
                            &g_array_index(refit->holes.holes, MatchHole, face->first + i));
        }
    }
    return true;
}
