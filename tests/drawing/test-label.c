#include "cases.h"

#include "sample.h"

#include "drawing/hole-table.h"

#include <glib.h>
#include <string.h>

static const HoleRow *row_of(const HoleTable *table, FeatureId id)
{
    for (size_t i = 0; i < table->count; i++) {
        if (table->rows[i].feature == id)
            return &table->rows[i];
    }
    return NULL;
}

static void test_no_doubtful_letters(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 200 * LENGTH_MM, 150 * LENGTH_MM, 20 * LENGTH_MM);
    /* Thirty kinds of hole need more letters than there are single ones. */
    for (int i = 0; i < 30; i++) {
        Step step = {.kind = STEP_DRILL, .diameter = (20 + i) * LENGTH_MM / 10, .through = true};
        sample_hole(sample.plate, ID_NONE, 10 + i * 5, 20, &step, 1);
        sample_hole(sample.plate, ID_NONE, 10 + i * 5, 30, &step, 1);
    }
    Placed *placed = placed_new(sample.plate);
    DrawingSource source = {sample.plate, placed};
    HoleTable *table = hole_table_new(&source, ID_TOP);
    assert_int_equal(table->count, 60);
    GHashTable *seen = g_hash_table_new(g_str_hash, g_str_equal);
    for (size_t i = 0; i < table->count; i++) {
        assert_null(strpbrk(table->rows[i].label, "IOQ"));
        assert_true(g_hash_table_add(seen, table->rows[i].label));
    }
    g_hash_table_unref(seen);
    hole_table_free(table);
    placed_free(placed);
    sample_end(&sample);
}

static void relabel(Plate *plate, FeatureId id, const char *label)
{
    const Record *before = plate_find(plate, id);
    Record *after = record_copy(before, id);
    g_free(after->hole.label);
    after->hole.label = g_strdup(label);
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(before), after);
    assert_true(plate_apply(plate, &edit, NULL, NULL, NULL));
    edit_clear(&edit);
}

/* A label once given stays with its hole; its kind goes on with its letter. */
static void test_given_labels_stay(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 200 * LENGTH_MM, 150 * LENGTH_MM, 20 * LENGTH_MM);
    Step drill = {.kind = STEP_DRILL, .diameter = 5 * LENGTH_MM, .through = true};
    Step other = {.kind = STEP_DRILL, .diameter = 8 * LENGTH_MM, .through = true};
    FeatureId a = sample_hole(sample.plate, ID_NONE, 10, 20, &drill, 1);
    FeatureId b = sample_hole(sample.plate, ID_NONE, 30, 20, &drill, 1);
    FeatureId c = sample_hole(sample.plate, ID_NONE, 50, 20, &other, 1);
    relabel(sample.plate, a, "A7");
    relabel(sample.plate, c, "C2");
    Placed *placed = placed_new(sample.plate);
    DrawingSource source = {sample.plate, placed};
    HoleTable *table = hole_table_new(&source, ID_TOP);
    assert_string_equal(row_of(table, a)->label, "A7");
    assert_string_equal(row_of(table, c)->label, "C2");
    assert_string_equal(row_of(table, b)->label, "A1");
    assert_string_equal(table->rows[0].label, "A1");
    assert_string_equal(table->rows[1].label, "A7");
    hole_table_free(table);
    placed_free(placed);
    sample_end(&sample);
}

/* Descriptions as a maker reads them: the thread before its drill, the counterbore behind the hole.
 */
static void test_descriptions(void **state)
{
    FigureStyle style = {PLATE_MM, SHEET_STANDARD_ISO, false};
    Step tap[] = {{.kind = STEP_SPOT,
                   .diameter = 8 * LENGTH_MM,
                   .depth = LENGTH_MM,
                   .point = 90 * ANGLE_DEGREE},
                  {.kind = STEP_DRILL, .diameter = 5 * LENGTH_MM, .depth = 16 * LENGTH_MM},
                  {.kind = STEP_TAP,
                   .diameter = 6 * LENGTH_MM,
                   .depth = 12 * LENGTH_MM,
                   .thread = (char *)"M6\u00D71"}};
    Hole hole = {.steps = {3, tap}};
    char *text = hole_description(&hole, style);
    assert_string_equal(text, "M6\u00D71 \u21A712, \u23005 \u21A716");
    g_free(text);
    Step bore[] = {{.kind = STEP_DRILL, .diameter = 6600000, .through = true},
                   {.kind = STEP_COUNTERBORE, .diameter = 11 * LENGTH_MM, .depth = 6800000}};
    hole = (Hole){.steps = {2, bore}};
    text = hole_description(&hole, style);
    assert_string_equal(text, "\u23006.6 THRU, \u2334 \u230011 \u21A76.8");
    g_free(text);
    Step ream[] = {{.kind = STEP_REAM, .diameter = 6 * LENGTH_MM, .through = true, .upper = 12000}};
    hole = (Hole){.steps = {1, ream}, .position_tolerance = 20000};
    text = hole_description(&hole, style);
    assert_string_equal(text, "\u23006 +0.012/0 THRU REAM, \u2316\u23000.02");
    g_free(text);
    Step sink[] = {{.kind = STEP_DRILL, .diameter = 5500000, .through = true},
                   {.kind = STEP_COUNTERSINK,
                    .diameter = 11 * LENGTH_MM,
                    .depth = 5500000,
                    .point = 90 * ANGLE_DEGREE}};
    hole = (Hole){.steps = {2, sink}};
    text = hole_description(&hole, style);
    assert_string_equal(text, "\u23005.5 THRU, \u2335 \u230011 \u00D7 90\u00B0");
    g_free(text);
}

/* Coordinates are counted from the datum, whatever corner it is. */
static void test_coordinates_from_datum(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 200 * LENGTH_MM, 150 * LENGTH_MM, 20 * LENGTH_MM);
    Step drill = {.kind = STEP_DRILL, .diameter = 5 * LENGTH_MM, .through = true};
    FeatureId a = sample_hole(sample.plate, ID_NONE, 12.7, 20, &drill, 1);
    const Record *before = plate_find(sample.plate, ID_SETTINGS);
    Record *after = record_copy(before, ID_SETTINGS);
    after->settings.datum.corner = CORNER_BACK_RIGHT;
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(before), after);
    assert_true(plate_apply(sample.plate, &edit, NULL, NULL, NULL));
    edit_clear(&edit);
    Placed *placed = placed_new(sample.plate);
    DrawingSource source = {sample.plate, placed};
    HoleTable *table = hole_table_new(&source, ID_TOP);
    assert_string_equal(row_of(table, a)->x, "-187.3");
    assert_string_equal(row_of(table, a)->y, "-130");
    hole_table_free(table);
    placed_free(placed);
    sample_end(&sample);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_doubtful_letters),
        cmocka_unit_test(test_given_labels_stay),
        cmocka_unit_test(test_descriptions),
        cmocka_unit_test(test_coordinates_from_datum),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
