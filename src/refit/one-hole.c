/* Positions that one hole of the plate allows: the part turned about it, with one more hole made
 * under another of the part's holes. The rules say at which rotations, so the place of the new
 * hole runs along arcs round the old one. */
#include "refit/turning.h"

static const TurnSample *sample(const GArray *samples, guint i)
{
    return &g_array_index(samples, TurnSample, i);
}

static bool is_right(const GArray *samples, guint i)
{
    return sample(samples, i)->cautions >= 0;
}

/* An arc's samples: `count` of them from `first`; past the last one comes the second again, since
 * the last stands at the first one's rotation. */
typedef struct Arc {
    const GArray *samples;
    guint first, count;
} Arc;

static guint arc_sample(const Arc *arc, guint i)
{
    guint at = arc->first + i, turn = arc->samples->len - 1;
    return at > turn ? at - turn : at;
}

static double arc_degrees(const Arc *arc, guint i)
{
    guint turn = arc->samples->len - 1;
    return sample(arc->samples, arc_sample(arc, i))->degrees + (arc->first + i > turn ? 360 : 0);
}

/* Of those with the fewest cautions a whole quarter turn, or else the one nearest to the arc's
 * middle. */
static double best_of_arc(const Arc *arc)
{
    double middle = (arc_degrees(arc, 0) + arc_degrees(arc, arc->count - 1)) / 2;
    double best = 0, nearest = INFINITY;
    int least = -1;
    for (guint i = 0; i < arc->count; i++) {
        int here = sample(arc->samples, arc_sample(arc, i))->cautions;
        double degrees = arc_degrees(arc, i);
        double off = fmod(degrees, 90) == 0 ? -1 : fabs(degrees - middle);
        if (least >= 0 && (here > least || (here == least && off >= nearest)))
            continue;
        least = here;
        nearest = off;
        best = degrees;
    }
    return best;
}

static void add_arc(const Turning *turning, const Arc *arc)
{
    bool whole = arc->count == arc->samples->len;
    RefitAnswer *answer = turning_answer(turning, best_of_arc(arc));
    refit_try(turning->refit, answer);
    answer->verdict = REFIT_ONE_HOLE;
    answer->arc_from = angle_normalized(angle_from_degrees(arc_degrees(arc, 0)));
    answer->arc_to =
        whole ? ANGLE_TURN : angle_normalized(angle_from_degrees(arc_degrees(arc, arc->count - 1)));
    g_ptr_array_add(turning->refit->answers, answer);
}

/* Adds an answer for each arc; true when there is one. */
static bool add_arcs(const Turning *turning, const GArray *samples)
{
    guint turn = samples->len - 1, right = 0;
    for (guint i = 0; i <= turn; i++)
        right += is_right(samples, i);
    if (right == samples->len)
        add_arc(turning, &(Arc){samples, 0, samples->len});
    for (guint i = 0; right < samples->len && i < turn; i++) {
        Arc arc = {samples, i, 0};
        if (!is_right(samples, i) || is_right(samples, i ? i - 1 : turn - 1))
            continue;
        while (is_right(samples, arc_sample(&arc, arc.count)))
            arc.count++;
        add_arc(turning, &arc);
    }
    return right > 0;
}

/* Where it fits at no rotation, the one with the fewest stops says why. */
static void add_nearest(const Turning *turning, const TurnSample *nearest)
{
    RefitAnswer *answer = turning_answer(turning, nearest->degrees);
    refit_try(turning->refit, answer);
    answer->verdict = REFIT_NO;
    answer->arc_from = answer->arc_to = answer->rotation;
    g_ptr_array_add(turning->refit->answers, answer);
}

/* True when there is an arc; else `nearest` has the rotation with the fewest stops. */
static bool turn(Turning *turning, TurnSample *nearest)
{
    GArray *samples = turning_samples(turning);
    bool any = !turning->stopped && add_arcs(turning, samples);
    *nearest = *sample(samples, 0);
    for (guint i = 1; i < samples->len; i++)
        if (sample(samples, i)->cautions > nearest->cautions)
            *nearest = *sample(samples, i);
    g_array_unref(samples);
    return any;
}

/* The part's other holes, the furthest first: it locates best. Nearer ones are tried only where
 * that one can go nowhere. */
static bool turn_about(Turning *turning)
{
    const MatchQuery *query = &turning->refit->query;
    double before = INFINITY;
    TurnSample nearest = {0};
    for (int n = 1; n < query->part_count && !turning->stopped; n++) {
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
        if (turn(turning, &nearest))
            return true;
        before = furthest;
    }
    if (before < INFINITY && !turning->stopped)
        add_nearest(turning, &nearest);
    return !turning->stopped;
}

static bool turn_about_hole(Refit *refit, const FaceHoles *face, const MatchHole *hole, double done)
{
    for (int i = 0; i < refit->query.part_count; i++) {
        const HoleOptions *options = match_options(&refit->query, hole->use, i);
        if (!options->locate.serves)
            continue;
        for (int over = 0; over < 2; over++) {
            Turning turning = {.refit = refit,
                               .face = face,
                               .hole = hole,
                               .option = &options->locate,
                               .about = i,
                               .turned_over = over,
                               .done = done};
            if (!turn_about(&turning))
                return false;
        }
    }
    return true;
}

bool refit_search_one_hole(Refit *refit, double from, double to)
{
    guint done = 0;
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        for (uint32_t i = 0; i < face->count; i++) {
            double here = from + (to - from) * done++ / refit->holes.holes->len;
            const MatchHole *hole = &g_array_index(refit->holes.holes, MatchHole, face->first + i);
            if (!refit_goes_on(refit, here) || !turn_about_hole(refit, face, hole, here))
                return false;
        }
    }
    return true;
}
