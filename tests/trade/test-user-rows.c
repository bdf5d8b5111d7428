/* Rows that a shop adds in a file of its own. */
#include "trade/clamp.h"
#include "trade/drill.h"
#include "trade/material.h"
#include "trade/user-rows.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static GString *said;

static void listen(const Error *error, void *data)
{
    g_string_append_printf(said, "%s: %s\n", error->place, error->message);
}

static size_t load(const char *text)
{
    char *path = g_build_filename(g_get_tmp_dir(), "pinplate-rows-XXXXXX", NULL);
    int file = g_mkstemp(path);
    assert_true(file >= 0);
    g_close(file, NULL);
    assert_true(g_file_set_contents(path, text, -1, NULL));
    g_string_truncate(said, 0);
    size_t taken = user_rows_load(path, listen, NULL);
    g_unlink(path);
    g_free(path);
    return taken;
}

static int begin(void **state)
{
    said = g_string_new(NULL);
    return 0;
}

static int end(void **state)
{
    user_rows_clear();
    g_string_free(said, TRUE);
    return 0;
}

static void rows_are_added(void **state)
{
    size_t before = drill_count();
    assert_int_equal(load("{\"drills\": [\n"
                          "{\"name\": \"5.05mm\", \"diameter\": \"5.05 mm\", \"series\": "
                          "\"metric\"},\n"
                          "{\"name\": \"reground\", \"diameter\": \"0.2001 in\", \"series\": "
                          "\"number\", \"source\": \"measured\"}]}"),
                     2);
    assert_string_equal(said->str, "");
    assert_int_equal(drill_count(), before + 2);
    assert_string_equal(drill_find("5.05mm", NULL)->source, "added by the user");
    assert_string_equal(drill_find("reground", NULL)->source, "measured");
    for (size_t i = 1; i < drill_count(); i++)
        assert_true(drill_at(i - 1)->diameter <= drill_at(i)->diameter);
    assert_string_equal(drill_nearest(5050000, DRILL_SET_ALL)->name, "5.05mm");
}

static void an_added_row_takes_the_place_of_ours(void **state)
{
    assert_int_equal(
        load("{\"materials\": [{\"name\": \"6061-T6\", \"group\": \"aluminium\", \"density\": "
             "2700, \"expansion\": 23.5, \"yield_strength\": 240, \"shear_strength\": 165, "
             "\"modulus\": 69, \"cutting_force\": 700, \"chip_exponent\": 0.25}]}"),
        1);
    assert_true(material_find("6061-T6", NULL)->yield_strength == 240);
    user_rows_clear();
    assert_true(material_find("6061-T6", NULL)->yield_strength == 276);
}

static void bad_rows_are_left_out_by_line(void **state)
{
    assert_int_equal(load("{\n"
                          "\"drills\": [\n"
                          "{\"name\": \"a\", \"diameter\": \"5.05 mm\", \"series\": \"metric\"},\n"
                          "{\"name\": \"b\", \"diameter\": \"fat\", \"series\": \"metric\"},\n"
                          "{\"name\": \"c\", \"series\": \"metric\"},\n"
                          "{\"name\": \"d\", \"diameter\": 5, \"series\": \"metric\"},\n"
                          "{\"name\": \"e\", \"diameter\": \"5 mm\", \"series\": \"fat\"},\n"
                          "{\"name\": \"f\", \"diameter\": \"5 mm\", \"series\": \"metric\", "
                          "\"colour\": \"red\"},\n"
                          "{\"name\": 'g'},\n"
                          "{\"name\": \"h\", \"diameter\": \"5.15 mm\", \"series\": \"metric\"}],\n"
                          "\"colours\": [{\"name\": \"red\"}],\n"
                          "\"clamps\": [{\"name\": \"ours\"}]}"),
                     2);
    const char *expected[] = {"line 4: this word is not known",
                              "line 5: \"diameter\" is missing",
                              "line 6: \"diameter\" should be a length",
                              "line 7: \"series\" should be one of",
                              "line 8: there is a key",
                              "line 9: this row is no JSON",
                              "line 11: there is no table of this name",
                              "line 12: \"body_length\" is missing"};
    for (size_t i = 0; i < G_N_ELEMENTS(expected); i++)
        if (!strstr(said->str, expected[i]))
            fail_msg("not said: %s\nbut: %s", expected[i], said->str);
    assert_non_null(drill_find("h", NULL));
}

/* Any damage to the file is answered, never followed. */
static void damaged_files_are_answered(void **state)
{
    const char *whole = "{\"drills\": [{\"name\": \"a\", \"diameter\": \"5.05 mm\", \"series\": "
                        "\"metric\"}], \"clamps\": []}\n";
    unsigned seed = 5;
    for (size_t cut = 0; cut < strlen(whole); cut++) {
        char *text = g_strndup(whole, cut);
        load(text);
        g_free(text);
        text = g_strdup(whole);
        text[cut] = (char)(1 + rand_r(&seed) % 255);
        load(text);
        g_free(text);
    }
    assert_int_equal(load(""), 0);
    assert_int_equal(load("[]"), 0);
    assert_int_equal(load("{}"), 0);
    assert_string_equal(said->str, "");
}

static void a_missing_file_is_no_error_unless_asked_for(void **state)
{
    g_string_truncate(said, 0);
    assert_int_equal(user_rows_load("/no/such/file.json", listen, NULL), 0);
    assert_true(said->len > 0);
}

/* One row, its file filled up with spaces to so many bytes; or its row. */
static size_t load_filled(size_t file_bytes, size_t row_bytes)
{
    GString *text = g_string_new("{\"drills\": [");
    const char *row = "{\"name\": \"5.05mm\", \"diameter\": \"5.05 mm\", \"series\": \"metric\"";
    g_string_append(text, row);
    for (size_t i = strlen(row) + 1; i < row_bytes; i++)
        g_string_append_c(text, ' ');
    g_string_append(text, "}]}");
    while (text->len < file_bytes)
        g_string_append_c(text, ' ');
    user_rows_clear();
    size_t taken = load(text->str);
    g_string_free(text, TRUE);
    return taken;
}

static size_t load_many(int rows)
{
    GString *text = g_string_new("{\"drills\": [");
    for (int i = 0; i < rows; i++)
        g_string_append_printf(text,
                               "%s\n{\"name\": \"d%d\", \"diameter\": \"5.05 mm\", \"series\": "
                               "\"metric\"}",
                               i ? "," : "", i);
    g_string_append(text, "]}");
    user_rows_clear();
    size_t taken = load(text->str);
    g_string_free(text, TRUE);
    return taken;
}

static void limits_have_two_sides(void **state)
{
    assert_int_equal(load_filled(USER_ROWS_BYTES_MOST, 0), 1);
    assert_int_equal(load_filled(USER_ROWS_BYTES_MOST + 1, 0), 0);
    assert_non_null(strstr(said->str, "larger than 4 MiB"));
    assert_int_equal(load_filled(0, USER_ROW_BYTES_MOST), 1);
    assert_int_equal(load_filled(0, USER_ROW_BYTES_MOST + 1), 0);
    assert_int_equal(load_many(USER_ROWS_MOST), USER_ROWS_MOST);
    assert_string_equal(said->str, "");
    assert_int_equal(load_many(USER_ROWS_MOST + 1), USER_ROWS_MOST);
    assert_non_null(strstr(said->str, "more rows"));
    assert_int_equal(user_rows_load("/dev/zero", listen, NULL), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(rows_are_added, begin, end),
        cmocka_unit_test_setup_teardown(an_added_row_takes_the_place_of_ours, begin, end),
        cmocka_unit_test_setup_teardown(bad_rows_are_left_out_by_line, begin, end),
        cmocka_unit_test_setup_teardown(limits_have_two_sides, begin, end),
        cmocka_unit_test_setup_teardown(damaged_files_are_answered, begin, end),
        cmocka_unit_test_setup_teardown(a_missing_file_is_no_error_unless_asked_for, begin, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
