/* What a figure's answer does to a hole, and where nothing is offered. */
#include "editor/figures-answer.h"
#include "editor/figures-use.h"

#include <string.h>

/* cmocka wants these before it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static Record *hole_of(const int *kinds, int count, Length diameter, bool through)
{
    Record *record = record_new(3, RECORD_HOLE);
    for (int i = 0; i < count; i++) {
        Step *step = list_append(&record->hole.steps, Step);
        step->kind = kinds[i];
        step->diameter = diameter;
        step->through = through;
        step->depth = through ? 0 : 20 * LENGTH_MM;
        if (kinds[i] == STEP_TAP)
            step->thread = g_strdup("M6");
    }
    return record;
}

static Figure worked_out(int argc, const char *const *words)
{
    Figure figure;
    Error error = {0};
    if (!figure_work_out(argc, (char **)words, &figure, &error))
        fail_msg("%s", error.message);
    return figure;
}

#define FIGURE(...)                                                     \
    worked_out((int)G_N_ELEMENTS(((const char *const[]){__VA_ARGS__})), \
               (const char *const[]){__VA_ARGS__})

static const Step *step(const FigureUse *use, uint32_t i)
{
    return LIST_AT(&use->after->hole.steps, Step, i);
}

/* No. 7, 0.2010 in: the customary drill for 1/4-20, handbook tables. */
#define NUMBER_7 (2010 * LENGTH_INCH / 10000)

static void a_drill_takes_a_tap_drill(void **state)
{
    const int kinds[] = {STEP_SPOT, STEP_DRILL};
    Record *record = hole_of(kinds, 2, 5 * LENGTH_MM, true);
    Figure figure = FIGURE("thread", "1/4-20");
    FigureUse use = figures_use(&figure, record);
    assert_int_equal(use.used, USE_OFFERED);
    assert_int_equal(step(&use, 1)->diameter, NUMBER_7);
    assert_int_equal(step(&use, 0)->diameter, 5 * LENGTH_MM);
    FigureUse again = figures_use(&figure, use.after);
    assert_int_equal(again.used, USE_SAME);
    assert_null(again.after);
    record_unref(use.after);
    record_unref(record);
}

static void a_blind_tapped_hole_takes_its_depths(void **state)
{
    const int kinds[] = {STEP_DRILL, STEP_TAP};
    Record *record = hole_of(kinds, 2, 5 * LENGTH_MM, false);
    Figure figure = FIGURE("tap", "1/4-20", "--depth", "0.5in", "--kind", "bottoming");
    FigureUse use = figures_use(&figure, record);
    assert_int_equal(use.used, USE_OFFERED);
    assert_int_equal(step(&use, 0)->diameter, NUMBER_7);
    assert_string_equal(step(&use, 1)->thread, "1/4-20");
    assert_int_equal(step(&use, 1)->diameter, LENGTH_INCH / 4);
    assert_int_equal(step(&use, 1)->depth, LENGTH_INCH / 2);
    assert_int_equal(step(&use, 1)->tap, STEP_TAP_BOTTOMING);
    assert_int_equal(step(&use, 0)->depth, figure_result(&figure, "drill_depth")->length);
    record_unref(use.after);
    record_unref(record);
}

static void a_through_hole_keeps_its_depths(void **state)
{
    const int kinds[] = {STEP_DRILL, STEP_TAP};
    Record *record = hole_of(kinds, 2, 5 * LENGTH_MM, true);
    Figure figure = FIGURE("tap", "1/4-20", "--depth", "0.5in");
    FigureUse use = figures_use(&figure, record);
    assert_int_equal(use.used, USE_OFFERED);
    assert_int_equal(step(&use, 0)->depth, 0);
    assert_int_equal(step(&use, 1)->depth, 0);
    record_unref(use.after);
    record_unref(record);
}

/* 10H7: +0.015 and 0, ISO 286-2, from memory. */
static void a_reamer_takes_a_fit(void **state)
{
    const int kinds[] = {STEP_DRILL, STEP_REAM};
    Record *record = hole_of(kinds, 2, 8 * LENGTH_MM, true);
    Figure figure = FIGURE("fit", "10H7/g6");
    FigureUse use = figures_use(&figure, record);
    assert_int_equal(use.used, USE_OFFERED);
    assert_int_equal(step(&use, 1)->diameter, 10 * LENGTH_MM);
    assert_int_equal(step(&use, 1)->upper, 15 * LENGTH_UM);
    assert_int_equal(step(&use, 1)->lower, 0);
    assert_int_equal(step(&use, 0)->diameter, 8 * LENGTH_MM);
    record_unref(use.after);
    record_unref(record);
}

static void nothing_where_it_is_not_sure(void **state)
{
    const int two[] = {STEP_DRILL, STEP_DRILL}, reamed[] = {STEP_DRILL, STEP_REAM},
              one[] = {STEP_DRILL};
    Figure thread = FIGURE("thread", "1/4-20"), drill = FIGURE("drill", "#7"),
           bevel = FIGURE("bevel", "--thickness", "3.2mm", "--edge", "0.5mm", "--angle", "7.5");
    Record *record = hole_of(two, 2, 5 * LENGTH_MM, true);
    assert_int_equal(figures_use(&thread, record).used, USE_NOTHING);
    assert_int_equal(figures_use(&drill, record).used, USE_NOTHING);
    record_unref(record);
    record = hole_of(reamed, 2, 5 * LENGTH_MM, true);
    assert_int_equal(figures_use(&thread, record).used, USE_NOTHING);
    record_unref(record);
    record = hole_of(one, 1, 5 * LENGTH_MM, true);
    assert_int_equal(figures_use(&bevel, record).used, USE_NOTHING);
    record->hole.locked = true;
    assert_int_equal(figures_use(&drill, record).used, USE_LOCKED);
    record->hole.made = true;
    assert_int_equal(figures_use(&drill, record).used, USE_MADE);
    record_unref(record);
    record = record_new(4, RECORD_RECESS);
    assert_int_equal(figures_use(&drill, record).used, USE_NOTHING);
    record_unref(record);
    assert_int_equal(figures_use(&drill, NULL).used, USE_NOTHING);
}

/* --- what is wrong, in the form's words --------------------------------------------------------
 */

static FigureAnswer asked(const char *what, const char *option, const char *text)
{
    static FigureAnswer answer;
    const char *texts[FIGURES_FIELDS_MOST];
    gsize i = 0;
    while (strcmp(figure_form(i)->what, what) != 0)
        i++;
    const FormField *fields = figure_form(i)->fields;
    for (int j = 0; fields[j].name; j++) {
        texts[j] = fields[j].mm ? fields[j].mm : "";
        if (!g_strcmp0(fields[j].option, option) && fields[j].kind != FORM_HEADING)
            texts[j] = text;
    }
    figures_answer(figure_form(i), texts, UNIT_MM, &answer);
    return answer;
}

static void blame(const char *what, const char *option, const char *text, const char *says)
{
    FigureAnswer answer = asked(what, option, text);
    gsize i = 0;
    while (strcmp(figure_form(i)->what, what) != 0)
        i++;
    assert_false(answer.worked_out);
    assert_true(answer.field >= 0);
    const char *blamed = figure_form(i)->fields[answer.field].option;
    if (g_strcmp0(blamed, option) || !strstr(answer.problem, says) || strstr(answer.problem, "--"))
        fail_msg("%s %s: %s blamed, %s", what, option ? option : "size", blamed ? blamed : "size",
                 answer.problem);
}

static void the_field_to_blame(void **state)
{
    blame("thread", NULL, "1/4-21", "1/4-20");
    blame("thread", NULL, "", "Thread");
    blame("tap", "drill", "20mm", "smaller than the thread");
    blame("tap", "depth", "3//4", "");
    blame("engagement", "strength", "5", "50");
    blame("bevel", "edge", "4", "thinner");
    blame("bevel", "angle", "", "Height instead");
    blame("sine", "angle", "70", "60");
    blame("cusp", "cutter", "", "Ball cutter");
    blame("location-error", "squareness", "20", "10");
    blame("holding", "torque", "", "Torque");
    blame("batch", "plates", "13", "12");
}

static void what_was_typed_was_taken_as(void **state)
{
    FigureAnswer answer = asked("thread", NULL, "No. 8-32");
    assert_true(answer.worked_out);
    assert_string_equal(answer.taken_as[0], "8-32 UNC");
    answer = asked("drill", NULL, "#8");
    assert_non_null(strstr(answer.taken_as[0], "drill No. 8"));
    answer = asked("drill", NULL, "5.03mm");
    assert_non_null(strstr(answer.taken_as[0], "nearest"));
}

int main(void)
{
    const struct CMUnitTest cases[] = {
        cmocka_unit_test(a_drill_takes_a_tap_drill),
        cmocka_unit_test(a_blind_tapped_hole_takes_its_depths),
        cmocka_unit_test(a_through_hole_keeps_its_depths),
        cmocka_unit_test(a_reamer_takes_a_fit),
        cmocka_unit_test(nothing_where_it_is_not_sure),
        cmocka_unit_test(the_field_to_blame),
        cmocka_unit_test(what_was_typed_was_taken_as),
    };
    return cmocka_run_group_tests(cases, NULL, NULL);
}
