/* Outlines from tables of points. */
#include "exchange/outline-csv.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static bool read_text(const char *text, const OutlineOptions *options, OutlineRead *read,
                      Error *error)
{
    return outline_csv_read(text, strlen(text), options, read, error);
}

static void read_good(const char *text, OutlineRead *read)
{
    Error error = {0};
    if (!read_text(text, NULL, read, &error))
        fail_msg("%s: %s", error.place, error.message);
}

static OutlineNode node(const OutlineRead *read, guint i)
{
    return g_array_index(read->nodes, OutlineNode, i);
}

/* The example in the header. */
static const char bar[] = "# a bar with a round end and two holes\n"
                          "unit, in\n"
                          "x, y, sagitta\n"
                          "0, 0\n"
                          "2.5, 0, 0.25\n"
                          "2.5, 0.5\n"
                          "0, 0.5\n"
                          "hole, 0.25, 0.25, 0.1875\n"
                          "\n"
                          "1, 0.2\n"
                          "1.5, 0.2\n"
                          "1.5, 0.3\n"
                          "1, 0.3\n";

static void test_rings_holes_and_units(void **unused)
{
    OutlineRead read;
    read_good(bar, &read);
    assert_int_equal(read.width, length_from_mm(2.75 * 25.4));
    assert_int_equal(read.height, length_from_mm(12.7));
    assert_int_equal(read.starts->len, 3);
    assert_int_equal(read.nodes->len, 8);
    assert_int_equal(node(&read, 1).x, length_from_mm(63.5));
    assert_int_equal(node(&read, 1).sagitta, length_from_mm(6.35));
    assert_int_equal(read.holes->len, 1);
    RoundHole hole = g_array_index(read.holes, RoundHole, 0);
    assert_int_equal(hole.x, length_from_mm(6.35));
    assert_int_equal(hole.diameter, length_from_mm(4.7625));
    assert_int_equal(read.notes->len, 0);
    outline_read_clear(&read);
}

static void test_origin_is_kept(void **unused)
{
    OutlineRead read;
    read_good("-5,100\n5,100\n5,120\n-5,120", &read);
    assert_int_equal(node(&read, 0).x, -5 * LENGTH_MM);
    assert_int_equal(node(&read, 0).y, 100 * LENGTH_MM);
    assert_int_equal(read.width, 10 * LENGTH_MM);
    outline_read_clear(&read);
}

static void test_ways_to_write_the_same(void **unused)
{
    static const char *const same[] = {
        "0,0\n10,0\n10,5\n0,5\n",
        "0;0\n10;0\n10;5\n0;5",
        "0\t0\r\n10\t0\r\n10\t5\r\n0\t5\r\n",
        "\n\n \n0 , 0\n 10,0\n10,5\n0,5\n\n\n",
        "X (mm),Y (mm)\n0,0\n10,0\n10,5\n0,5\n0,0\n",
        "\"x\",\"y\"\n\"0\",\"0\"\n\"10\",\"0\"\n\"10\",\"5\"\n\"0\",\"5\"",
        "\xef\xbb\xbf# with a byte order mark\n0,0\n10,0\n10,5\n0,5,0\n",
        "unit,cm\n0,0\n1,0\n1,.5\n0,5e-1\n",
        "unit;um\n0;0\n10000;0\n10000;5000\n0;5000\n",
        "# corners\n0,0,,\n10,0,,\n# one more\n10,5,,\n0,5,,\n",
        "+0,-0\n10.000,0.0\n1e1,5\n0,5\n",
    };
    for (size_t i = 0; i < G_N_ELEMENTS(same); i++) {
        OutlineRead read;
        read_good(same[i], &read);
        assert_int_equal(read.nodes->len, 4);
        assert_int_equal(read.starts->len, 2);
        assert_int_equal(node(&read, 2).x, 10 * LENGTH_MM);
        assert_int_equal(node(&read, 2).y, 5 * LENGTH_MM);
        assert_int_equal(read.notes->len, 0);
        outline_read_clear(&read);
    }
}

static void test_options(void **unused)
{
    const char *text = "0,0\n10,0\n10,5\n0,5\nhole,5,2.5,1\n";
    OutlineRead read;
    Error error;
    OutlineOptions options = {.unit = 25.4};
    assert_true(read_text(text, &options, &read, &error));
    assert_int_equal(read.width, 254 * LENGTH_MM);
    outline_read_clear(&read);
    options = (OutlineOptions){.known_width = 76.2};
    assert_true(read_text(text, &options, &read, &error));
    assert_int_equal(read.width, length_from_mm(76.2));
    assert_int_equal(g_array_index(read.holes, RoundHole, 0).diameter, length_from_mm(7.62));
    outline_read_clear(&read);
    options = (OutlineOptions){.known_width = 76.2, .known_height = 3};
    assert_false(read_text(text, &options, &read, &error));
    assert_null(read.nodes);
}

static void test_arcs(void **unused)
{
    /* A disc of two half circles, and a closing side that is an arc. */
    OutlineRead read;
    read_good("0,0,5\n10,0,5\n", &read);
    assert_int_equal(read.height, 10 * LENGTH_MM);
    outline_read_clear(&read);
    read_good("0,0\n10,0\n10,5\n0,5,2\n0,0\n", &read);
    assert_int_equal(read.nodes->len, 4);
    assert_int_equal(read.width, 12 * LENGTH_MM);
    outline_read_clear(&read);
}

static void test_mistakes_are_placed(void **unused)
{
    static const struct {
        const char *text;
        ErrorKind kind;
        const char *place, *says;
    } cases[] = {
        {"", ERROR_GEOMETRY, "", "no closed outline"},
        {"x,y\n", ERROR_GEOMETRY, "", "no closed outline"},
        {"0,0\n10,0\n", ERROR_GEOMETRY, "", "no closed outline"},
        {"0,0\n10\n", ERROR_FORMAT, "line 2", "a row is: x, y"},
        {"0,0\n10,0,0,0\n", ERROR_FORMAT, "line 2", "a row is: x, y"},
        {"0,0\n10,a\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0,0\nx,y\n", ERROR_FORMAT, "line 2", "not a number"},
        {"x,y\nx,y\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0;0\n10,5;0\n", ERROR_FORMAT, "line 2", "decimal comma"},
        {"0,0\nnan,1\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0,0\n1,inf\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0,0\n1,1e10\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0,0\n1,20000\n", ERROR_GEOMETRY, "line 2", "more than 10 m"},
        {"0,0,1e6\n1,2\n", ERROR_GEOMETRY, "line 2", "more than 10 m"},
        {"0,0\n0x10,5\n", ERROR_FORMAT, "line 2", "not a number"},
        {"0,0\n,5\n", ERROR_FORMAT, "line 2", "not a number"},
        {"unit,furlong\n", ERROR_FORMAT, "line 1", "a unit row is"},
        {"unit\n", ERROR_FORMAT, "line 1", "a unit row is"},
        {"hole,1,2\n", ERROR_FORMAT, "line 1", "a hole row is"},
        {"hole,1,2,3,4\n", ERROR_FORMAT, "line 1", "a hole row is"},
        {"hole,1,2,-3\n", ERROR_FORMAT, "line 1", "less than 0.01 mm"},
        {"hole,1,2,0\n", ERROR_FORMAT, "line 1", "less than 0.01 mm"},
        {"0,0\n1,2,3,4,5,6,7\n", ERROR_FORMAT, "line 2", "more fields"},
        {"0,0\n0000000000000000000000000000000000000000000000000000000001,2\n", ERROR_FORMAT,
         "line 2", "longer one"},
        {"0,0\n10,0\n10,5\n0,5\n\n5,2\n15,2\n15,3\n5,3\n", ERROR_GEOMETRY, "line 6",
         "crosses the outline"},
        {"0,0\n10,5\n10,0\n0,6\n", ERROR_GEOMETRY, "line 1", "cross"},
        {"0,0\n10,0\n10,5\n0,5\nhole,9.9,2,1\n", ERROR_GEOMETRY, "line 5", "cross"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        OutlineRead read;
        Error error = {0};
        if (read_text(cases[i].text, NULL, &read, &error))
            fail_msg("%s was read", cases[i].text);
        if (error.kind != cases[i].kind || strcmp(error.place, cases[i].place) ||
            !strstr(error.message, cases[i].says))
            fail_msg("%s -> %d, %s: %s", cases[i].text, error.kind, error.place, error.message);
        assert_null(read.nodes);
    }
}

static void test_bytes_that_are_no_table(void **unused)
{
    OutlineRead read;
    Error error;
    assert_false(outline_csv_read("0,0\n1\0,2\n", 9, NULL, &read, &error));
    assert_string_equal(error.place, "line 2");
    assert_false(outline_csv_read("PK\x03\x04\0\0", 6, NULL, &read, &error));
    assert_string_equal(error.place, "line 1");
    assert_false(outline_csv_load("/nonexistent.csv", NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_FILE);
}

static void test_limits(void **unused)
{
    OutlineRead read;
    Error error;
    char *text = g_malloc(CSV_BYTES_MOST + 1);
    memset(text, '\n', CSV_BYTES_MOST + 1);
    memcpy(text, "0,0\n10,0\n10,5\n", 14);
    assert_true(outline_csv_read(text, CSV_BYTES_MOST, NULL, &read, &error));
    outline_read_clear(&read);
    assert_false(outline_csv_read(text, CSV_BYTES_MOST + 1, NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    g_free(text);

    /* A saw of as many sides as an outline may have, and one more. */
    for (int more = 0; more < 2; more++) {
        GString *rows = g_string_new("0,-1\n");
        for (int i = 0; i < OUTLINE_SIDES_MOST - 2 + more; i++)
            g_string_append_printf(rows, "%g,%d\n", 0.1 * i, i % 2);
        g_string_append_printf(rows, "%g,-1\n", 0.1 * OUTLINE_SIDES_MOST);
        bool fine = outline_csv_read(rows->str, rows->len, NULL, &read, &error);
        assert_int_equal(fine, more == 0);
        assert_true(fine || error.kind == ERROR_LIMIT);
        outline_read_clear(&read);
        g_string_free(rows, TRUE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rings_holes_and_units),
        cmocka_unit_test(test_origin_is_kept),
        cmocka_unit_test(test_ways_to_write_the_same),
        cmocka_unit_test(test_options),
        cmocka_unit_test(test_arcs),
        cmocka_unit_test(test_mistakes_are_placed),
        cmocka_unit_test(test_bytes_that_are_no_table),
        cmocka_unit_test(test_limits),
    };
    return cmocka_run_group_tests_name("exchange-csv", tests, NULL, NULL);
}
