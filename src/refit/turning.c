#include "refit/turning.h"

#define STEP 5.0 /* degrees: the rotations that are tried in any case */
#define STEP_HOPELESS 45.0
#define ARC_ENDS 0.01  /* degrees: how well an arc's end is found */
#define GO_ON_EVERY 16 /* tries */

typedef struct Sampling {
    Turning *turning;
    GArray *nearest; /* double; worked out when it is first needed */
    GArray *samples;
} Sampling;

RefitAnswer *turning_answer(const Turning *turning, double degrees)
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

static TurnSample sample_at(Turning *turning, double degrees)
{
    TurnSample sample = {degrees, -1, 360};
    if (!turning->stopped && turning->tried++ % GO_ON_EVERY == 0)
        turning->stopped = !refit_goes_on(turning->refit, turning->done);
    if (turning->stopped)
        return sample;
    RefitAnswer *answer = turning_answer(turning, degrees);
    refit_try(turning->refit, answer);
    sample.cautions = answer->stops ? -(int)answer->stops : (int)answer->cautions;
    sample.fails = answer->stops ? turning_fails(turning, answer) : 0;
    refit_answer_free(answer);
    return sample;
}

static bool is_right(const TurnSample *sample)
{
    return sample->cautions >= 0;
}

/* The middle one of the rotations of nearest approach between the two; NAN: there is none. */
static double nearest_between(Sampling *sampling, double from, double to)
{
    if (!sampling->nearest)
        sampling->nearest = turning_nearest(sampling->turning);
    guint low = 0, high = sampling->nearest->len;
    while (low < high && g_array_index(sampling->nearest, double, low) <= from + ARC_ENDS)
        low++;
    while (high > low && g_array_index(sampling->nearest, double, high - 1) >= to - ARC_ENDS)
        high--;
    return low < high ? g_array_index(sampling->nearest, double, (low + high) / 2) : NAN;
}

static void look_between(Sampling *sampling, TurnSample from, TurnSample to);

static void look_past(Sampling *sampling, TurnSample from, TurnSample middle, TurnSample to)
{
    look_between(sampling, from, middle);
    g_array_append_val(sampling->samples, middle);
    look_between(sampling, middle, to);
}

/* One is right and the other is not: where it changes. */
static void look_for_end(Sampling *sampling, TurnSample from, TurnSample to)
{
    TurnSample low = from, high = to;
    while (high.degrees - low.degrees > ARC_ENDS && !sampling->turning->stopped) {
        TurnSample middle = sample_at(sampling->turning, (low.degrees + high.degrees) / 2);
        if (is_right(&middle) == is_right(&from))
            low = middle;
        else
            high = middle;
    }
    look_between(sampling, from, low);
    if (low.degrees > from.degrees)
        g_array_append_val(sampling->samples, low);
    if (high.degrees < to.degrees)
        g_array_append_val(sampling->samples, high);
    look_between(sampling, high, to);
}

/* Adds the samples that are needed between two, in order. */
static void look_between(Sampling *sampling, TurnSample from, TurnSample to)
{
    double low = from.degrees, high = to.degrees;
    if (sampling->turning->stopped || high - low <= ARC_ENDS)
        return;
    if (is_right(&from) && is_right(&to)) {
        double nearest = nearest_between(sampling, low, high);
        if (!isnan(nearest))
            look_past(sampling, from, sample_at(sampling->turning, nearest), to);
    } else if (is_right(&from) || is_right(&to)) {
        look_for_end(sampling, from, to);
    } else {
        low += from.fails;
        high -= to.fails;
        if (high - low > refit_arc_least(sampling->turning->refit))
            look_past(sampling, from, sample_at(sampling->turning, (low + high) / 2), to);
    }
}

GArray *turning_samples(Turning *turning)
{
    Sampling sampling = {turning, NULL, g_array_new(FALSE, FALSE, sizeof(TurnSample))};
    TurnSample first = sample_at(turning, 0), from = first;
    g_array_append_val(sampling.samples, first);
    /* Where it can be right nowhere a few say as well what stands in the way. */
    double step = first.fails >= 360 ? STEP_HOPELESS : STEP;
    for (double degrees = step; degrees <= 360; degrees += step) {
        TurnSample to = first;
        if (degrees < 360)
            to = sample_at(turning, degrees);
        to.degrees = degrees;
        look_between(&sampling, from, to);
        g_array_append_val(sampling.samples, to);
        from = to;
    }
    if (sampling.nearest)
        g_array_unref(sampling.nearest);
    return sampling.samples;
}
