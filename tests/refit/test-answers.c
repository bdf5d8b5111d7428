/* Answers of a refit: on the example, on single holes, in nests; and that what an answer foretells
 * is what comes when it is carried out. */
#include "checks/sentence.h"
#include "refit/refit-text.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

typedef struct Trial {
    Plate *plate;
    Placed *placed;
    Checker *checker;
    Record *part;
    Refit *refit;
} Trial;

/* Takes the plate and the part over. */
static Trial trial_of(Plate *plate, Record *part, const RefitOptions *options)
{
    Trial trial = {plate, placed_new(plate), checker_new(), part, NULL};
    checker_update(trial.checker, trial.placed, NULL);
    trial.refit = refit_new(plate, trial.placed, trial.checker, &part->part, options);
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

static char *example(const char *name)
{
    return g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", name, NULL);
}

static Trial example_trial(const char *part_name)
{
    Error error = {.kind = ERROR_NONE};
    char *plate_path = example("grafting-blades.plate"), *part_path = example(part_name);
    Plate *plate = plate_read(plate_path, NULL, &error);
    Record *part = part_read(part_path, &error);
    g_free(plate_path);
    g_free(part_path);
    if (!plate || !part)
        fail_msg("%s", error.message);
    return trial_of(plate, part, NULL);
}

static Record *bar(double length, double width, int hole_count, const double *holes)
{
    Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
    FeatureId id = put_part(plate, length, width, 3, hole_count, holes);
    Record *record = record_copy(plate_find(plate, id), ID_NONE);
    plate_free(plate);
    return record;
}

static const RefitUse *use_of(const RefitAnswer *answer, int part_hole)
{
    for (guint i = 0; i < answer->uses->len; i++)
        if (g_array_index(answer->uses, RefitUse, i).part_hole == part_hole)
            return &g_array_index(answer->uses, RefitUse, i);
    return NULL;
}

static int count_verdict(const Refit *refit, RefitVerdict verdict)
{
    int count = 0;
    for (uint32_t i = 0; i < refit_count(refit); i++)
        count += refit_at(refit, i)->verdict == verdict;
    return count;
}

/* --- the example ---------------------------------------------------------------------------- */

static void the_budding_blade_needs_one_more_hole(void **state)
{
    Trial trial = example_trial("budding-blade.platepart");
    assert_true(refit_search(trial.refit));
    assert_int_equal(count_verdict(trial.refit, REFIT_FITS), 0);
    assert_int_equal(count_verdict(trial.refit, REFIT_ONE_HOLE), 1);
    const RefitAnswer *answer = refit_at(trial.refit, 0);
    assert_int_equal(answer->verdict, REFIT_ONE_HOLE);
    assert_int_equal(answer->way, REFIT_ON_HOLES);
    assert_int_equal(answer->new_holes, 1);
    assert_true(use_of(answer, 1)->hole && use_of(answer, 2)->hole);
    assert_int_equal(use_of(answer, 3)->hole, ID_NONE);
    assert_true(answer->displaced->len == 1 && !answer->turned_over);
    trial_end(&trial);
}

static void the_grafting_blade_fits_its_own_plate(void **state)
{
    Trial trial = example_trial("grafting-blade.platepart");
    assert_true(refit_search(trial.refit));
    const RefitAnswer *answer = refit_at(trial.refit, 0);
    assert_int_equal(answer->verdict, REFIT_FITS);
    assert_int_equal(answer->uses->len, 3);
    assert_true(answer->rms < 1e-6);
    /* Where its stations are, in some order. */
    guint found = 0;
    for (uint32_t i = 0; i < plate_count(trial.plate); i++) {
        const Record *record = plate_at(trial.plate, i);
        if (record->kind != RECORD_STATION)
            continue;
        bool here = record->station.at.x == answer->at.x && record->station.at.y == answer->at.y;
        for (guint k = 0; k < answer->alike->len; k++) {
            const RefitAnswer *alike = answer->alike->pdata[k];
            here = here ||
                   (record->station.at.x == alike->at.x && record->station.at.y == alike->at.y);
        }
        found += here;
    }
    assert_int_equal(found, 1 + answer->alike->len);
    trial_end(&trial);
}

/* --- what is foretold comes ----------------------------------------------------------------- */

static bool has_key(const FindingList *list, const Finding *finding)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (finding_same_key(&list->items[i], finding))
            return true;
    return false;
}

static void check_foretold(Trial *trial, const RefitAnswer *answer)
{
    Edit edit = EDIT_EMPTY, inverse;
    Error error = {.kind = ERROR_NONE};
    refit_edit(trial->refit, answer, &edit);
    if (!plate_apply(trial->plate, &edit, &inverse, NULL, &error))
        fail_msg("%s: %s", error.place, error.message);
    FindingList after = findings_of(trial->plate);
    for (uint32_t i = 0; i < answer->findings.count; i++)
        assert_true(has_key(&after, &answer->findings.items[i]));
    /* What makes room for a part that fits is no trouble of the plate's either. */
    if (answer->verdict != REFIT_NO)
        assert_int_equal(
            finding_list_counts(&after).by_level[LEVEL_STOP],
            finding_list_counts(checker_findings(trial->checker)).by_level[LEVEL_STOP]);
    finding_list_clear(&after);
    assert_true(plate_apply(trial->plate, &inverse, NULL, NULL, &error));
    edit_clear(&inverse);
    edit_clear(&edit);
}

static void findings_are_those_of_the_plate_with_the_part_on_it(void **state)
{
    static const char *const parts[] = {"budding-blade.platepart", "grafting-blade.platepart"};
    for (size_t p = 0; p < G_N_ELEMENTS(parts); p++) {
        Trial trial = example_trial(parts[p]);
        refit_search(trial.refit);
        for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
            const RefitAnswer *answer = refit_at(trial.refit, i);
            check_foretold(&trial, answer);
            for (guint k = 0; k < answer->alike->len; k++)
                check_foretold(&trial, answer->alike->pdata[k]);
        }
        trial_end(&trial);
    }
}

static void answers_are_said_in_words_and_json(void **state)
{
    Trial trial = example_trial("budding-blade.platepart");
    refit_search(trial.refit);
    for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
        const RefitAnswer *answer = refit_at(trial.refit, i);
        char reason[SENTENCE_TEXT];
        char *text = refit_answer_text(trial.refit, i, UNIT_INCH);
        json_object *json = refit_answer_json(trial.refit, i), *findings;
        assert_true(strlen(text) > 20);
        refit_reason(trial.refit, i, UNIT_MM, reason);
        assert_true(answer->verdict != REFIT_NO || *reason);
        assert_true(json_object_object_get_ex(json, "findings", &findings));
        assert_int_equal(json_object_array_length(findings), answer->findings.count);
        json_object_put(json);
        g_free(text);
    }
    trial_end(&trial);
}

/* A part over an old one, on holes of its own, is a second way to load the plate. */
static void an_old_station_in_the_way_is_an_alternative(void **state)
{
    Trial trial = example_trial("budding-blade.platepart");
    guint over = 0;
    refit_search(trial.refit);
    for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
        const RefitAnswer *answer = refit_at(trial.refit, i);
        Edit edit = EDIT_EMPTY;
        if (answer->verdict != REFIT_MORE_HOLES || answer->displaced->len != 1)
            continue;
        FeatureId old = g_array_index(answer->displaced, FeatureId, 0);
        refit_edit(trial.refit, answer, &edit);
        for (guint k = 0; k < edit.count; k++) {
            const Record *record = edit.changes[k].after;
            if (record->kind != RECORD_STATION)
                continue;
            assert_int_equal(record->station.instead_of.count, 1);
            assert_int_equal(*LIST_AT(&record->station.instead_of, FeatureId, 0), old);
            over++;
        }
        edit_clear(&edit);
    }
    assert_true(over > 0);
    trial_end(&trial);
}

/* --- single holes --------------------------------------------------------------------------- */

/* Two dowels alone do not hold a part down, so one reamed hole and one new one are no answer. */
static void two_dowels_are_no_answer(void **state)
{
    const double holes[] = {10, 10, 3.02, 50, 10, 3.02};
    Plate *plate = plate_new(MM(400), MM(400), MM(20), PLATE_MM);
    FeatureId id = put_hole(plate, 200, 30, 2.8);
    Record *reamed = record_copy(plate_find(plate, id), id);
    Step *ream = list_append(&reamed->hole.steps, Step);
    *ream = (Step){.kind = STEP_REAM, .diameter = MM(3), .through = true};
    change_record(plate, reamed);
    Trial trial = trial_of(plate, bar(60, 20, 2, holes), NULL);
    assert_true(refit_search(trial.refit));
    assert_true(refit_count(trial.refit) > 0);
    for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
        const RefitAnswer *answer = refit_at(trial.refit, i);
        assert_int_equal(answer->way, REFIT_ON_ONE_HOLE);
        assert_int_equal(answer->verdict, REFIT_NO);
        assert_true(answer->stops > 0);
    }
    trial_end(&trial);
}

/* The hole that a new station would get for the hardware. */
static FeatureId put_hole_for(Plate *plate, double x, double y, const Hardware *hardware)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(x), MM(y)};
    hardware_make_steps(hardware, &record->hole);
    return put_record(plate, record);
}

/* A tapped hole 30 mm from the front edge of a large plate; the part's other hole is 40 mm away. By
 * plane geometry the new hole keeps its distance k to the edge while 30 + 40 sin(angle) >= k; k is
 * the larger of 2 mm of wall and 1.2 diameters to the centre (design.md's starting limits). */
static void the_arc_of_one_hole_ends_where_the_wall_is_used_up(void **state)
{
    const double holes[] = {10, 10, 8.02, 50, 10, 8.02};
    Record *part = bar(60, 20, 2, holes);
    Hardware screw = hardware_for_locating(LIST_AT(&part->part.holes, PartHole, 0));
    assert_int_equal(screw.kind, FITTING_SHOULDER_SCREW);
    double radius = length_to_mm(screw.thread->major) / 2;
    double keep = fmax(2 + radius, 1.2 * 2 * radius);
    Plate *plate = plate_new(MM(400), MM(400), MM(20), PLATE_MM);
    FeatureId id = put_hole_for(plate, 200, 30, &screw);
    Trial trial = trial_of(plate, part, NULL);
    assert_true(refit_search(trial.refit));
    int arcs = 0;
    /* The part's hole 1 over the plate's: the other lies at +X turned by the rotation, whether the
     * bar is turned over or not, since both holes are 10 mm up. */
    double least = asin((keep - 30) / 40) * 180 / M_PI;
    for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
        const RefitAnswer *answer = refit_at(trial.refit, i);
        if (answer->way != REFIT_ON_ONE_HOLE || !use_of(answer, 1)->hole)
            continue;
        assert_int_equal(answer->verdict, REFIT_ONE_HOLE);
        assert_int_equal(answer->about, id);
        double from = angle_to_degrees(answer->arc_from), to = angle_to_degrees(answer->arc_to);
        assert_true(fabs(from - (360 + least)) < 0.05);
        assert_true(fabs(to - (180 - least)) < 0.05);
        check_foretold(&trial, answer);
        arcs++;
    }
    assert_int_equal(arcs, 2);
    trial_end(&trial);
}

/* --- nests ---------------------------------------------------------------------------------- */

/* A rectangular pocket half a millimetre larger all round than a bar without holes takes it two
 * ways round and either side up; one of another size does not. */
static void a_bar_lies_in_a_pocket(void **state)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(20), PLATE_MM);
    for (int i = 0; i < 2; i++) {
        Record *pocket = record_new(plate_new_id(plate), RECORD_RECESS);
        pocket->recess.kind = RECESS_RECTANGLE;
        pocket->recess.face = ID_TOP;
        pocket->recess.at = (Place){MM(60 + 80 * i), MM(50)};
        pocket->recess.rotation = 30 * ANGLE_DEGREE;
        pocket->recess.length = MM(61);
        pocket->recess.width = MM(i ? 30 : 21);
        pocket->recess.depth = MM(1.5);
        put_record(plate, pocket);
    }
    Trial trial = trial_of(plate, bar(60, 20, 0, NULL), NULL);
    assert_true(refit_search(trial.refit));
    guint positions = 0;
    for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
        const RefitAnswer *answer = refit_at(trial.refit, i);
        assert_int_equal(answer->way, REFIT_IN_NEST);
        /* A part with no holes has nothing that locates it once it is cut. */
        assert_int_equal(answer->verdict, REFIT_NO);
        positions += 1 + answer->alike->len;
    }
    assert_int_equal(positions, 4);
    trial_end(&trial);
}

/* A pocket 0.5 mm larger all round than a bar of 60 x 20, its middle at 100, 50. */
static Plate *plate_with_pocket(void)
{
    Plate *plate = plate_new(MM(200), MM(100), MM(20), PLATE_MM);
    Record *pocket = record_new(plate_new_id(plate), RECORD_RECESS);
    pocket->recess.kind = RECESS_RECTANGLE;
    pocket->recess.face = ID_TOP;
    pocket->recess.at = (Place){MM(100), MM(50)};
    pocket->recess.length = MM(61);
    pocket->recess.width = MM(21);
    pocket->recess.depth = MM(1.5);
    put_record(plate, pocket);
    return plate;
}

static const RefitAnswer *nest_answer(const Refit *refit, NestLie lie, Angle rotation)
{
    for (uint32_t i = 0; i < refit_count(refit); i++) {
        const RefitAnswer *answer = refit_at(refit, i);
        if (answer->way == REFIT_IN_NEST && answer->lie == lie && !answer->turned_over &&
            answer->rotation == rotation)
            return answer;
    }
    return NULL;
}

static void what_lies_in_a_nest_is_not_shut_out_of_it(void **state)
{
    static const char *const parts[] = {"budding-blade.platepart", "grafting-blade.platepart"};
    guint pressed = 0;
    for (size_t p = 0; p < G_N_ELEMENTS(parts); p++) {
        Trial trial = example_trial(parts[p]);
        refit_search(trial.refit);
        for (uint32_t i = 0; i < refit_count(trial.refit); i++) {
            const RefitAnswer *answer = refit_at(trial.refit, i);
            if (answer->way != REFIT_IN_NEST)
                continue;
            assert_true(answer->shut_out != answer->about);
            pressed += answer->lie == LIE_PRESSED;
        }
        trial_end(&trial);
    }
    assert_true(pressed > 0);
}

/* A clamp above pushes the bar down by the half millimetre that it has; one that ends 10 mm before
 * it does not. */
static void clamps_push_it_to_the_wall(void **state)
{
    for (int near = 0; near < 2; near++) {
        Plate *plate = plate_with_pocket();
        FeatureId id = put_clamp(plate, ID_NONE, 100, near ? 67.2 : 77.2, 270, 12, 10);
        Record *clamp = record_copy(plate_find(plate, id), id);
        clamp->fitting.travel_greatest = MM(3);
        change_record(plate, clamp);
        Trial trial = trial_of(plate, bar(60, 20, 0, NULL), NULL);
        assert_true(refit_search(trial.refit));
        const RefitAnswer *answer = nest_answer(trial.refit, near ? LIE_PRESSED : LIE_MIDDLE, 0);
        assert_non_null(answer);
        assert_null(nest_answer(trial.refit, near ? LIE_MIDDLE : LIE_PRESSED, 0));
        assert_true(ABS(answer->at.x - MM(70)) <= 2);
        assert_true(ABS(answer->at.y - MM(near ? 39.5 : 40)) <= 2);
        assert_int_equal(answer->shut_out, ID_NONE);
        trial_end(&trial);
    }
}

/* The bar's hole lies 0.3 mm left of the plate's when it is in the middle, then 0.55 mm, which is
 * 0.05 mm more than it can go, and then 0.8 mm, for which the play is not enough. */
static void a_hole_is_met_as_well_as_the_nest_lets_it(void **state)
{
    const double holes[] = {10, 10, 8.3}, offs[] = {0.3, 0.55, 0.8};
    for (size_t i = 0; i < G_N_ELEMENTS(offs); i++) {
        Record *part = bar(60, 20, 1, holes);
        Hardware screw = hardware_for_locating(LIST_AT(&part->part.holes, PartHole, 0));
        Plate *plate = plate_with_pocket();
        FeatureId id = put_hole_for(plate, 80 + offs[i], 50, &screw);
        Trial trial = trial_of(plate, part, &(RefitOptions){.clearance = 0.5});
        assert_true(refit_search(trial.refit));
        const RefitAnswer *answer = nest_answer(trial.refit, LIE_ON_HOLE, 0);
        assert_true((answer != NULL) == (offs[i] < 0.7));
        if (answer) {
            double off = fmax(0, offs[i] - 0.5);
            assert_int_equal(use_of(answer, 1)->hole, id);
            assert_true(fabs(use_of(answer, 1)->deviation - off) < 1e-5);
            assert_true(ABS(answer->at.x - MM(70 + fmin(offs[i], 0.5))) <= 2);
        }
        trial_end(&trial);
    }
}

/* --- stopping ------------------------------------------------------------------------------- */

static bool count_down(double done, void *data)
{
    int *left = data;
    assert_true(done >= 0 && done <= 1);
    return --*left > 0;
}

static void a_search_can_be_stopped(void **state)
{
    for (int steps = 1; steps < 6; steps++) {
        int left = steps;
        RefitOptions options = {.go_on = count_down, .data = &left};
        Trial trial = example_trial("budding-blade.platepart");
        refit_free(trial.refit);
        trial.refit =
            refit_new(trial.plate, trial.placed, trial.checker, &trial.part->part, &options);
        assert_false(refit_search(trial.refit));
        trial_end(&trial);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_budding_blade_needs_one_more_hole),
        cmocka_unit_test(the_grafting_blade_fits_its_own_plate),
        cmocka_unit_test(findings_are_those_of_the_plate_with_the_part_on_it),
        cmocka_unit_test(answers_are_said_in_words_and_json),
        cmocka_unit_test(an_old_station_in_the_way_is_an_alternative),
        cmocka_unit_test(two_dowels_are_no_answer),
        cmocka_unit_test(the_arc_of_one_hole_ends_where_the_wall_is_used_up),
        cmocka_unit_test(a_bar_lies_in_a_pocket),
        cmocka_unit_test(what_lies_in_a_nest_is_not_shut_out_of_it),
        cmocka_unit_test(clamps_push_it_to_the_wall),
        cmocka_unit_test(a_hole_is_met_as_well_as_the_nest_lets_it),
        cmocka_unit_test(a_search_can_be_stopped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
