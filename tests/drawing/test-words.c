#include "cases.h"

#include "sample.h"

#include "drawing/datum-letter.h"
#include "drawing/details.h"
#include "drawing/hole-kinds.h"
#include "drawing/sign.h"
#include "drawing/tilt-table.h"
#include "drawing/tolerance.h"
#include "drawing/worked-figures.h"

#include <glib.h>
#include <string.h>

/* What the prints say beside their views. */

static Drawing *drawing;

static int start(void **state)
{
    Lettering *lettering = lettering_new(NULL);
    if (!lettering)
        return -1;
    drawing = drawing_new(lettering);
    lettering_unref(lettering);
    return 0;
}

static int end(void **state)
{
    drawing_free(drawing);
    return 0;
}

/* All texts of a print, each with a line of its own. Free with g_free. */
static char *print_words(const Sample *sample, unsigned prints)
{
    ViewSpec spec = {.prints = prints};
    Error error = {.kind = ERROR_NONE};
    if (!drawing_build(drawing, &sample->source, &spec, &error))
        print_message("# %s\n", error.message);
    assert_int_equal(error.kind, ERROR_NONE);
    GString *words = g_string_new("\n");
    for (size_t m = 0; m < drawing->mark_count; m++) {
        if (drawing->marks[m].kind == MARK_TEXT)
            g_string_append_printf(words, "%s\n", drawing_mark_text(drawing, &drawing->marks[m]));
    }
    return g_string_free(words, FALSE);
}

static void check_said(const char *words, const char *what)
{
    if (!strstr(words, what))
        print_message("# nothing says \"%s\"\n", what);
    assert_non_null(strstr(words, what));
}

/* Changes a sample's settings before anything is drawn from it. */
static Settings *settings_of(Sample *sample)
{
    return &((Record *)plate_find(sample->plate, ID_SETTINGS))->settings;
}

static const Record *first_reamed(const Sample *sample)
{
    for (uint32_t i = 0; i < plate_count(sample->plate); i++) {
        const Record *record = plate_at(sample->plate, i);
        for (uint32_t s = 0; record->kind == RECORD_HOLE && s < record->hole.steps.count; s++) {
            if (LIST_AT(&record->hole.steps, Step, s)->kind == STEP_REAM)
                return record;
        }
    }
    return NULL;
}

/* The order of a frame's compartments is ISO 1101's and ASME Y14.5's: sign, zone, then the datums
 * from the first to the third; a position of an axis has a zone of a diameter. From memory. */
static void test_frames(void **state)
{
    static const char *const frames[] = {[PLATE_INCH] =
                                             SIGN_POSITION "|" SIGN_DIAMETER ".001|A|B|C",
                                         [PLATE_MM] = SIGN_POSITION "|" SIGN_DIAMETER "0.02|A|B|C"};
    for (int unit = 0; unit < 2; unit++) {
        Sample sample = sample_blades((PlateUnit)unit);
        Record *hole = (Record *)first_reamed(&sample);
        char *frame = tolerance_frame_text(&sample.source, hole);
        assert_string_equal(frame, frames[unit]);
        g_free(frame);
        hole->hole.position_tolerance = 127 * LENGTH_UM;
        frame = tolerance_frame_text(&sample.source, hole);
        check_said(frame, unit == PLATE_INCH ? SIGN_DIAMETER ".005|" : SIGN_DIAMETER "0.127|");
        g_free(frame);
        /* The datum hole can't be off from itself; it stands square to the face. */
        settings_of(&sample)->datum = (Datum){.kind = DATUM_HOLE, .hole = hole->id};
        frame = tolerance_frame_text(&sample.source, hole);
        assert_true(g_str_has_prefix(frame, SIGN_SQUARENESS "|"));
        assert_true(g_str_has_suffix(frame, "|A"));
        g_free(frame);
        sample_end(&sample);
    }
}

static void test_limits(void **state)
{
    FigureStyle metric = {PLATE_MM, SHEET_STANDARD_ISO, false},
                inch = {PLATE_INCH, SHEET_STANDARD_ASME, false};
    char text[FIGURE_LIMITS];
    assert_string_equal(figure_limits(metric, 12 * LENGTH_UM, 0, text), "+0.012/0");
    assert_string_equal(figure_limits(metric, -13 * LENGTH_UM, -28 * LENGTH_UM, text),
                        "-0.013/-0.028");
    assert_string_equal(figure_limits(inch, LENGTH_INCH / 2000, -LENGTH_INCH / 2000, text),
                        "\u00B1.0005");
}

static void test_marks_in_short(void **state)
{
    HoleRow rows[] = {{.label = (char *)"A1"}, {.label = (char *)"A2"}, {.label = (char *)"A3"},
                      {.label = (char *)"A5"}, {.label = (char *)"A6"}, {.label = (char *)"B7"},
                      {.label = (char *)"pin"}};
    HoleTable table = {.rows = rows, .count = G_N_ELEMENTS(rows)};
    size_t all[] = {0, 1, 2, 3, 4, 5, 6};
    char *text = hole_kinds_marks(&table, all, G_N_ELEMENTS(all));
    assert_string_equal(text, "A1-A3, A5, A6, B7, pin");
    g_free(text);
}

static void test_datums(void **state)
{
    FeatureId face;
    Sample sample = sample_inclined(PLATE_MM, &face);
    assert_int_equal(datum_letter(&sample.source, ID_TOP), 'A');
    assert_int_equal(datum_letter(&sample.source, face), 'D');
    settings_of(&sample)->datum.corner = CORNER_BACK_RIGHT;
    char *words = datum_words(&sample.source);
    assert_string_equal(words,
                        "A: the top. B: the back edge. C: the right edge. D: the face bevel.");
    g_free(words);
    sample_end(&sample);
}

static void add_limit(Settings *settings)
{
    ChangedLimit *limit = list_append(&settings->limits, ChangedLimit);
    limit->rule = g_strdup("locator-fit");
    limit->limit = g_strdup("play");
    limit->value = 70000; /* millionths: 0.07 mm */
}

/* What a plate says of itself stands on its notes. */
static void test_notes(void **state)
{
    Sample sample = sample_blades(PLATE_MM);
    Settings *settings = settings_of(&sample);
    add_limit(settings);
    settings->tolerance = g_strdup("ISO 2768-f");
    settings->roughness = g_strdup("Ra 0.8 um");
    settings->edges = g_strdup("broken 0.2");
    Revision *revision = list_append(&settings->revisions, Revision);
    revision->letter = g_strdup("C");
    revision->what = g_strdup("bush moved");
    revision->date = g_strdup("2024-06-01");
    revision->who = g_strdup("quince");
    char *words = print_words(&sample, PRINT_USUAL);
    static const char *const said[] = {"\n0.07 mm\n",      "\nISO 2768-f\n",      "Ra 0.8 um",
                                       "broken 0.2",       "\nbush moved\n",      "\n2024-06-01\n",
                                       "\nquince\n",       "theoretically exact", "ISO 1101",
                                       "\nHoles by kind\n"};
    for (size_t i = 0; i < G_N_ELEMENTS(said); i++)
        check_said(words, said[i]);
    g_free(words);
    sample_end(&sample);
}

static void test_findings(void **state)
{
    Sample sample = sample_blades(PLATE_MM);
    Settings *settings = settings_of(&sample);
    add_limit(settings);
    AcceptedFinding *accepted = list_append(&settings->accepted, AcceptedFinding);
    accepted->rule = g_strdup("web");
    accepted->reason = g_strdup("only for the trial");
    accepted->date = g_strdup("2024-07-09");
    char *words = print_words(&sample, PRINT_FINDINGS);
    check_said(words, "only for the trial");
    check_said(words, "2024-07-09");
    check_said(words, "\nLimits in force\n");
    check_said(words, "\n0.07 mm\n");
    g_free(words);
    sample_end(&sample);
}

/* 8-32: tensile stress area 0.0140 in2 (ASME B1.1), major diameter 0.1640 in; torque by the nut
 * factor 0.2 (handbook): 0.2 x 4.1656 mm x 200 N/mm2 x 9.03 mm2 = 1.505 Nm. */
static void test_torque(void **state)
{
    Sample sample = sample_empty(PLATE_INCH, 4 * LENGTH_INCH, 3 * LENGTH_INCH, LENGTH_INCH);
    List steps = {0, NULL};
    Step *tap = list_append(&steps, Step);
    *tap = (Step){
        .kind = STEP_TAP, .diameter = 4165600, .depth = 12 * LENGTH_MM, .thread = (char *)"8-32"};
    Hole hole = {.face = ID_TOP, .steps = steps};
    const char *why = NULL;
    double torque = worked_torque(&sample.source, &hole, &why);
    assert_true(fabs(torque - 1.505) < 0.005);
    assert_string_equal(why, "the screw");
    /* A thread too short to hold that much decides itself. */
    tap->depth = LENGTH_MM;
    assert_true(worked_torque(&sample.source, &hole, &why) < 1.0);
    assert_string_equal(why, "the plate's thread");
    tap->thread = (char *)"no thread";
    assert_true(worked_torque(&sample.source, &hole, &why) == 0);
    g_free(steps.items);
    sample_end(&sample);
}

/* Every hole stands in the steps of each tool that its row names. */
static void test_operations(void **state)
{
    Sample sample = sample_blades(PLATE_MM);
    char *words = print_words(&sample, PRINT_OPERATIONS | PRINT_TOOLS);
    HoleTable *table = hole_table_new(&sample.source, ID_NONE);
    Shopplan *plan = shopplan_new(sample.plate, sample.placed);
    hole_table_add_tools(table, plan);
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        bool cut = row->kind == FEATURE_HOLE || row->kind == FEATURE_RECESS;
        assert_int_equal(row->tools != NULL, cut);
        if (cut)
            check_said(words, row->label);
    }
    for (uint32_t i = 0; i < plan->tool_count; i++) {
        char text[TOOL_TEXT];
        tool_text(&plan->tools[i], PLATE_MM, text);
        text[strcspn(text, " ")] = '\0'; /* the rest may stand in the next line */
        check_said(words, text);
    }
    check_said(words, "Before going on");
    check_said(words, "Set-up: running parts");
    shopplan_free(plan);
    hole_table_free(table);
    g_free(words);
    sample_end(&sample);
}

/* The reference hole at 20, 90 on the top; the face leaves it at y 50 and falls by 6 degrees, its
 * X running from its origin at x 190, y 50 the way the top's does. Its mouth lies 40 mm behind the
 * break line, which in the face's plane is 40 cos 6 up the slope and 40 sin 6 below it (plane
 * trigonometry: cos 6 = 0.994522, sin 6 = 0.104528, any table). */
static void test_tilt(void **state)
{
    FeatureId face;
    Sample sample = sample_inclined(PLATE_MM, &face);
    Record *record = (Record *)plate_find(sample.plate, face);
    Point from;
    double height;
    assert_false(tilt_from_reference(&sample.source, face, (Point){0, 0}, &from, &height));
    record->face.reference_hole = first_reamed(&sample)->id;
    assert_true(tilt_from_reference(&sample.source, face, (Point){0, 0}, &from, &height));
    assert_true(fabs(from.x - 170) < 1e-4);
    assert_true(fabs(from.y + 40 * 0.994522) < 1e-4);
    assert_true(fabs(height - 40 * 0.104528) < 1e-4);
    char *words = print_words(&sample, PRINT_OPERATIONS);
    check_said(words, "\nAt the tilt\n");
    check_said(words, "X at the machine");
    g_free(words);
    sample_end(&sample);
}

/* The angle that the machine is set to and the edge that stays sharp are said where the face is
 * seen from its end, and its tolerance in the table of faces. */
static void test_end_view(void **state)
{
    FeatureId face;
    Sample sample = sample_inclined(PLATE_MM, &face);
    char *words = print_words(&sample, PRINT_DRAWING);
    check_said(words, "seen along its break line");
    check_said(words, "\n6\u00B0\n");
    check_said(words, "\ndo not break\n");
    check_said(words, SIGN_ANGULARITY);
    g_free(words);
    sample_end(&sample);
    sample = sample_blades(PLATE_MM);
    words = print_words(&sample, PRINT_DRAWING);
    assert_null(strstr(words, "break line"));
    g_free(words);
    sample_end(&sample);
}

/* On a sheet without room for all labels the rest stand in details, each hole's once. */
static void test_details(void **state)
{
    Sample sample = sample_strewn(11, 130, PLATE_MM);
    ViewSpec spec = {.choose_sheet = true, .sheet = SHEET_A4};
    assert_true(drawing_build(drawing, &sample.source, &spec, NULL));
    assert_int_equal(drawing->unplaced_count, 0);
    size_t details = 0, labels = 0;
    for (size_t s = 0; s < drawing->sheet_count; s++)
        details += strcmp(drawing->sheets[s].name, "Details") == 0;
    for (size_t m = 0; m < drawing->mark_count; m++)
        labels += drawing->marks[m].role == ROLE_LABEL && drawing->marks[m].kind == MARK_TEXT;
    assert_int_equal(labels, 130);
    print_message("# %zu sheets of details\n", details);
    assert_true(details > 0);
    sample_end(&sample);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_frames),         cmocka_unit_test(test_limits),
        cmocka_unit_test(test_marks_in_short), cmocka_unit_test(test_datums),
        cmocka_unit_test(test_notes),          cmocka_unit_test(test_findings),
        cmocka_unit_test(test_torque),         cmocka_unit_test(test_operations),
        cmocka_unit_test(test_tilt),           cmocka_unit_test(test_details),
        cmocka_unit_test(test_end_view),
    };
    return cmocka_run_group_tests(tests, start, end);
}
