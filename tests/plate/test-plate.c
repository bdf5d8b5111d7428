/* Edits: carried out whole or not at all, and taken back to the same bytes. */
#include "support/plates.h"

#include "plate/history.h"
#include "plate/label.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static char *text_of(const Plate *plate)
{
    size_t size;
    return plate_text(plate, &size);
}

/* The bytes without the next free number, which never goes back. */
static char *records_of(const Plate *plate)
{
    char *text = text_of(plate);
    char *at = strstr(text, "\"next_id\"");
    size_t length = strcspn(at, ",");
    memmove(at, at + length, strlen(at + length) + 1);
    return text;
}

static void test_undo_any_depth(void **state)
{
    uint32_t seed = 20261125;
    Plate *plate = random_plate(seed, 20);
    History *history = history_new();
    char *start = records_of(plate);
    int done = 0;
    while (done < 200) {
        Edit edit = EDIT_EMPTY, inverse = EDIT_EMPTY;
        random_edit(plate, &seed, &edit);
        if (edit.count && plate_apply(plate, &edit, &inverse, NULL, NULL)) {
            history_add(history, &inverse);
            done++;
        }
        edit_clear(&edit);
    }
    char *end = records_of(plate);
    assert_int_equal(history_depth(history), 200);
    while (history_can_undo(history)) {
        Edit inverse;
        assert_true(plate_apply(plate, history_undo_edit(history), &inverse, NULL, NULL));
        history_undone(history, &inverse);
    }
    char *back = records_of(plate);
    assert_string_equal(back, start);
    while (history_can_redo(history)) {
        Edit inverse;
        assert_true(plate_apply(plate, history_redo_edit(history), &inverse, NULL, NULL));
        history_redone(history, &inverse);
    }
    char *again = records_of(plate);
    assert_string_equal(again, end);
    g_free(start);
    g_free(end);
    g_free(back);
    g_free(again);
    history_free(history);
    plate_free(plate);
}

static void refuse(Plate *plate, Record *before, Record *after, const char *why)
{
    Error error = {.kind = ERROR_NONE};
    Edit edit = EDIT_EMPTY;
    char *was = text_of(plate);
    edit_add(&edit, before, after);
    assert_false(plate_apply(plate, &edit, NULL, NULL, &error));
    if (!strstr(error.message, why))
        fail_msg("\"%s\" does not say \"%s\"", error.message, why);
    char *is = text_of(plate);
    assert_string_equal(is, was);
    g_free(was);
    g_free(is);
    edit_clear(&edit);
}

static void test_refused_edits_change_nothing(void **state)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId hole = put_hole(plate, 50, 40, 6);
    const double holes[] = {5, 5, 4};
    FeatureId part = put_part(plate, 40, 10, 3, 1, holes);
    FeatureId station = put_station(plate, part, 10, 10);
    FeatureId pin = put_pin(plate, station, 1, 5, 5, FITTING_DOWEL, 3.98);
    const Record *old = plate_find(plate, hole);

    Record *stale = record_copy(old, hole);
    stale->hole.at.x = MM(1);
    refuse(plate, stale, record_copy(old, hole), "not as the edit expects");
    Record *nowhere = record_copy(old, hole);
    nowhere->hole.station = 999;
    refuse(plate, record_ref(old), nowhere, "does not exist");
    Record *wrong = record_copy(old, hole);
    wrong->hole.station = part;
    refuse(plate, record_ref(old), wrong, "which is a part");
    refuse(plate, record_ref(plate_find(plate, station)), NULL, "still refers");
    refuse(plate, record_ref(plate_find(plate, ID_TOP)), NULL, "belongs to every plate");
    Record *no_steps = record_copy(old, hole);
    g_clear_pointer(&no_steps->hole.steps.items, g_free);
    no_steps->hole.steps.count = 0;
    refuse(plate, record_ref(old), no_steps, "from 1 to 8 steps");
    Record *far_hole = record_copy(plate_find(plate, pin), pin);
    far_hole->fitting.part_hole = 2;
    refuse(plate, record_ref(plate_find(plate, pin)), far_hole, "no hole of that number");
    plate_free(plate);
}

static void test_made_is_kept(void **state)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId id = put_hole(plate, 50, 40, 6);
    Record *made = record_copy(plate_find(plate, id), id);
    made->hole.made = true;
    change_record(plate, made);
    Record *moved = record_copy(plate_find(plate, id), id);
    moved->hole.at.x++;
    refuse(plate, record_ref(plate_find(plate, id)), moved, "can be used but not changed");
    refuse(plate, record_ref(plate_find(plate, id)), NULL, "can be used but not changed");
    /* Its label may change: that is no metal. */
    Record *labelled = record_copy(plate_find(plate, id), id);
    labelled->hole.label = g_strdup("B7");
    change_record(plate, labelled);
    Record *unmade = record_copy(plate_find(plate, id), id);
    unmade->hole.made = false;
    unmade->hole.at.x++;
    change_record(plate, unmade);
    plate_free(plate);
}

static void test_numbers_are_never_used_twice(void **state)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId one = put_hole(plate, 20, 40, 6), other = put_hole(plate, 50, 40, 6);
    take_away(plate, other);
    assert_true(put_hole(plate, 50, 40, 6) > other);
    size_t size;
    char *text = plate_text(plate, &size);
    Plate *again = plate_parse(text, size, NULL);
    take_away(again, plate_at(again, plate_count(again) - 1)->id);
    assert_true(plate_new_id(again) > other + 1);
    assert_true(one < other);
    g_free(text);
    plate_free(again);
    plate_free(plate);
}

static void label(Plate *plate, FeatureId id, const char *expected)
{
    char text[LABEL_TEXT];
    Record *record = record_copy(plate_find(plate, id), id);
    label_next(plate, NULL, record, text);
    assert_string_equal(text, expected);
    record->hole.label = g_strdup(text);
    change_record(plate, record);
}

static void test_labels(void **state)
{
    Plate *plate = plate_new(MM(200), MM(80), MM(20), PLATE_MM);
    label(plate, put_hole(plate, 20, 40, 6), "A1");
    label(plate, put_hole(plate, 40, 40, 6), "A2");
    label(plate, put_hole(plate, 60, 40, 5), "B1");
    FeatureId third = put_hole(plate, 80, 40, 6);
    label(plate, third, "A3");
    /* Seven more kinds: the letter I is left out. */
    const char *const letters[] = {"C1", "D1", "E1", "F1", "G1", "H1", "J1"};
    for (int i = 0; i < 7; i++)
        label(plate, put_hole(plate, 100, 10 + i, 7 + i), letters[i]);
    assert_true(label_compare("A2", "A10") < 0);
    assert_true(label_compare("Z1", "AA1") < 0);
    assert_true(label_compare("A1", NULL) < 0);
    plate_free(plate);
}

static void check_table(const Schema *schema)
{
    if (schema->count > FIELDS_MOST)
        fail_msg("%s has more than %d fields", schema->name, FIELDS_MOST);
    for (size_t i = 0; i < schema->count; i++)
        if (schema->fields[i].of)
            check_table(schema->fields[i].of);
}

static void test_tables_of_fields(void **state)
{
    for (int kind = 0; kind < RECORD_KINDS; kind++)
        check_table(record_schema(kind));
}

static void test_limit_of_records(void **state)
{
    Error error = {.kind = ERROR_NONE};
    Plate *plate = plate_new_empty();
    for (uint32_t i = 1; i <= PLATE_RECORDS_MOST; i++)
        assert_true(plate_put(plate, record_new(i, RECORD_KEEP_CLEAR), NULL));
    assert_false(plate_put(plate, record_new(PLATE_RECORDS_MOST + 1, RECORD_KEEP_CLEAR), &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_int_equal(plate_count(plate), PLATE_RECORDS_MOST);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_undo_any_depth),
        cmocka_unit_test(test_refused_edits_change_nothing),
        cmocka_unit_test(test_made_is_kept),
        cmocka_unit_test(test_numbers_are_never_used_twice),
        cmocka_unit_test(test_labels),
        cmocka_unit_test(test_tables_of_fields),
        cmocka_unit_test(test_limit_of_records),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
