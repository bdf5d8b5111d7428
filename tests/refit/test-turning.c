/* A part turned about one hole: the arcs that are found against the rules asked every tenth of
 * a degree all round. */
#include "refit/turning.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#define STEPS 3600
#define DEGREES_EACH (360.0 / STEPS)

typedef struct Trial {
    Plate *plate;
    Placed *placed;
    Checker *checker;
    Record *part;
    Refit *refit;
} Trial;

static Record *part_of(void)
{
    const double holes[] = {10, 10, 8.02, 50, 12, 8.02};
    Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
    FeatureId id = put_part(plate, 60, 20, 3, 2, holes);
    Record *record = record_copy(plate_find(plate, id), ID_NONE);
    plate_free(plate);
    return record;
}

/* A hole that the part's fits, not far from the edges, with holes, slots and areas kept clear round
 * it at random. */
static Plate *crowded_plate(const Part *part, uint32_t *seed)
{
    Plate *plate = plate_new(MM(130), MM(100), MM(20), PLATE_MM);
    Hardware screw = hardware_for_locating(LIST_AT(&part->holes, PartHole, 0));
    Record *own = record_new(plate_new_id(plate), RECORD_HOLE);
    own->hole.face = ID_TOP;
    own->hole.at = (Place){MM(random_between(seed, 40, 90)), MM(random_between(seed, 35, 65))};
    Point middle = {length_to_mm(own->hole.at.x), length_to_mm(own->hole.at.y)};
    hardware_make_steps(&screw, &own->hole);
    put_record(plate, own);
    for (int i = 0; i < 9;) {
        Point at = {random_between(seed, 6, 124), random_between(seed, 6, 94)};
        if (point_distance(at, middle) < 16)
            continue;
        if (i < 6) {
            put_hole(plate, at.x, at.y, random_between(seed, 2, 9));
        } else if (i < 8) {
            Record *slot = record_new(plate_new_id(plate), RECORD_RECESS);
            slot->recess.kind = RECESS_OBROUND;
            slot->recess.face = ID_TOP;
            slot->recess.at = (Place){MM(at.x), MM(at.y)};
            slot->recess.rotation = (Angle)random_between(seed, 0, 180) * ANGLE_DEGREE;
            slot->recess.length = MM(random_between(seed, 9, 20));
            slot->recess.width = MM(random_between(seed, 3, 8));
            slot->recess.depth = MM(4);
            put_record(plate, slot);
        } else {
            Record *clear = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
            clear->keep_clear.face = ID_TOP;
            clear->keep_clear.at = (Place){MM(at.x), MM(at.y)};
            clear->keep_clear.length = MM(8);
            clear->keep_clear.width = MM(5);
            put_record(plate, clear);
        }
        i++;
    }
    return plate;
}

static Trial trial_new(uint32_t *seed)
{
    Trial trial = {.part = part_of(), .checker = checker_new()};
    trial.plate = crowded_plate(&trial.part->part, seed);
    trial.placed = placed_new(trial.plate);
    checker_update(trial.checker, trial.placed, NULL);
    trial.refit = refit_new(trial.plate, trial.placed, trial.checker, &trial.part->part, NULL);
    return trial;
}

static void trial_end(Trial *trial)
{
    refit_free(trial->refit);
    checker_free(trial->checker);
    placed_free(trial->placed);
    record_unref(trial->part);
    plate_free(trial->plate);
}

static bool is_right(Turning *turning, double degrees)
{
    RefitAnswer *answer = turning_answer(turning, degrees);
    refit_try(turning->refit, answer);
    bool right = answer->stops == 0;
    refit_answer_free(answer);
    return right;
}

static bool is_in_arc(const GArray *samples, double degrees)
{
    guint i = 1;
    while (i + 1 < samples->len && g_array_index(samples, TurnSample, i).degrees < degrees)
        i++;
    return g_array_index(samples, TurnSample, i - 1).cautions >= 0 &&
           g_array_index(samples, TurnSample, i).cautions >= 0;
}

/* Every run of right rotations that is longer than what may be missed is found; ends may be a
 * hundredth off and are passed over. Returns how many right rotations there are. */
static int compare(Turning *turning, const GArray *samples)
{
    static bool right[STEPS + 1];
    int all = 0, missed = 0;
    for (int i = 0; i <= STEPS; i++)
        right[i] = is_right(turning, i * DEGREES_EACH);
    for (int i = 0; i <= STEPS; i++) {
        bool end = (i > 0 && right[i - 1] != right[i]) || (i < STEPS && right[i + 1] != right[i]);
        bool found = is_in_arc(samples, i * DEGREES_EACH);
        all += right[i];
        if (!end && found && !right[i])
            fail_msg("%g degrees is in an arc, and not right", i * DEGREES_EACH);
        missed = right[i] && !found && !end ? missed + 1 : 0;
        if (missed * DEGREES_EACH > REFIT_ARC_LEAST)
            fail_msg("an arc at %g degrees is missed", i * DEGREES_EACH);
    }
    return all;
}

static void arcs_are_those_of_asking_everywhere(void **state)
{
    uint32_t seed = 4711;
    int right = 0, all = 0, tried = 0, turnings = 0;
    for (int i = 0; i < 6; i++) {
        Trial trial = trial_new(&seed);
        const FaceHoles *face = &g_array_index(trial.refit->holes.faces, FaceHoles, 0);
        for (uint32_t h = 0; h < face->count; h++) {
            const MatchHole *hole = &g_array_index(trial.refit->holes.holes, MatchHole, h);
            const HoleOptions *options = match_options(&trial.refit->query, hole->use, 0);
            if (!options->locate.serves)
                continue;
            Turning turning = {.refit = trial.refit,
                               .face = face,
                               .hole = hole,
                               .option = &options->locate,
                               .other = 1,
                               .turned_over = i % 2};
            GArray *samples = turning_samples(&turning);
            right += compare(&turning, samples);
            all += STEPS;
            tried += turning.tried;
            turnings++;
            g_array_unref(samples);
        }
        trial_end(&trial);
    }
    print_message("# %d turnings, %d%% right, %d tries each\n", turnings, 100 * right / all,
                  tried / turnings);
    assert_true(turnings >= 6);
    assert_true(right > all / 20 && right < all * 19 / 20);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arcs_are_those_of_asking_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
