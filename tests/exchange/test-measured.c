/* Tables of measured holes: columns by heading and by guess, units, separators, and what is refused
 * with its line. */
#include "exchange/measured-csv.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Each point as "label:x,y,diameter;", in nanometres. */
static char *told(const char *text, Unit unit)
{
    MeasuredTable table;
    Error error = {.kind = ERROR_NONE};
    GString *out = g_string_new(NULL);
    if (!measured_csv_read(text, strlen(text), unit, &table, &error))
        g_string_append_printf(out, "%s", error.place);
    for (guint i = 0; i < table.points->len; i++) {
        const MeasuredPoint *point = &g_array_index(table.points, MeasuredPoint, i);
        g_string_append_printf(out, "%s:%lld,%lld,%lld;", point->label ? point->label : "",
                               (long long)point->at.x, (long long)point->at.y,
                               (long long)point->diameter);
    }
    measured_table_clear(&table);
    return g_string_free(out, FALSE);
}

static void expect(const char *text, Unit unit, const char *answer)
{
    char *got = told(text, unit);
    assert_string_equal(got, answer);
    g_free(got);
}

static void columns_are_found_by_their_headings(void **state)
{
    expect("label,x,y,diameter\nA1,1,2,3\n", UNIT_MM, "A1:1000000,2000000,3000000;");
    expect("Dia,Y,X,what\n3,2,1,x\n", UNIT_MM, ":1000000,2000000,3000000;");
    expect("hole, x_mm, y_mm, steps_mm, diameter_mm\r\nB2,1,2,drill 3; ream 4,4\r\n", UNIT_INCH,
           "B2:1000000,2000000,4000000;");
    expect("X (in),Y [in]\n1,-2\n", UNIT_MM, ":25400000,-50800000,0;");
    expect("no;x;y;d\n7;1,5;2,25;3\n", UNIT_MM, "7:1500000,2250000,3000000;");
}

static void columns_are_guessed_without_headings(void **state)
{
    expect("1,2\n3,4\n", UNIT_MM, ":1000000,2000000,0;:3000000,4000000,0;");
    expect("1,2,3\n3,4,5\n5,6,7\n", UNIT_MM,
           ":1000000,2000000,3000000;:3000000,4000000,5000000;:5000000,6000000,7000000;");
    /* Rows that count 1, 2, 3 are labelled by it. */
    expect("1,2,3\n2,4,5\n3,6,7\n", UNIT_MM,
           "1:2000000,3000000,0;2:4000000,5000000,0;3:6000000,7000000,0;");
    expect("A1,2,3\nF,4,5\n", UNIT_MM, "A1:2000000,3000000,0;F:4000000,5000000,0;");
    expect("A1\t2\t3\t4\nA2\t4\t5\n", UNIT_MM, "A1:2000000,3000000,4000000;A2:4000000,5000000,0;");
}

/* 25.4 mm to the inch (exact, by definition); drill No. 7 is 0.2010 in (ASME B94.11M, from memory).
 */
static void units_and_sizes_are_exact(void **state)
{
    expect("0.5,1/4,#7\n", UNIT_INCH, ":12700000,6350000,5105400;");
    expect("unit,in\nx,y\n0.0001,1mm\n", UNIT_MM, ":2540,1000000,0;");
    expect("1,2\nunit,mm\n1,2\n", UNIT_INCH, ":25400000,50800000,0;:1000000,2000000,0;");
    expect("\xef\xbb\xbf# from the readout\n\n 1 , 2 \n\n", UNIT_MM, ":1000000,2000000,0;");
}

static void what_is_wrong_is_said_with_its_line(void **state)
{
    expect("", UNIT_MM, "line 1");
    expect("x,y\n", UNIT_MM, "line 1");
    expect("1,2\n3\n", UNIT_MM, "line 2");
    expect("x,y\n1,2\n1,two\n", UNIT_MM, "line 3");
    expect("1,2,-3\n", UNIT_MM, "line 1");
    expect("unit,furlong\n1,2\n", UNIT_MM, "line 1");
    expect("1,2\n\xff,3\n", UNIT_MM, "line 2");
    expect("1,99999999999\n", UNIT_MM, "line 1");
}

static void spoilt_tables_do_no_harm(void **state)
{
    const char whole[] =
        "label,x,y,diameter\nA1,1.5,2.25,3\n\"A \"\"2\"\"\";4;5;6\nunit,in\nB,1,2,#7\n";
    uint32_t seed = 17;
    for (int round = 0; round < 20000; round++) {
        char spoilt[sizeof whole];
        MeasuredTable table;
        memcpy(spoilt, whole, sizeof whole);
        for (int i = 0; i < 4; i++) {
            seed = seed * 1664525u + 1013904223u;
            spoilt[(seed >> 8) % (sizeof whole - 1)] = (char)(seed >> 24);
        }
        measured_csv_read(spoilt, (seed >> 4) % sizeof whole, UNIT_MM, &table, NULL);
        measured_table_clear(&table);
    }
}

/* How many points are taken of a table, or -1. */
static int points_of(const char *text, size_t size)
{
    MeasuredTable table;
    Error error = {.kind = ERROR_NONE};
    int points = -1;
    if (measured_csv_read(text, size, UNIT_MM, &table, &error))
        points = (int)table.points->len;
    measured_table_clear(&table);
    return points;
}

static void limits_have_two_sides(void **state)
{
    char *lines = g_malloc(MEASURED_BYTES_MOST + 2);
    memset(lines, '\n', MEASURED_BYTES_MOST + 1);
    memcpy(lines, "1,2", 3);
    assert_int_equal(points_of(lines, MEASURED_BYTES_MOST), 1);
    assert_int_equal(points_of(lines, MEASURED_BYTES_MOST + 1), -1);
    g_free(lines);
    GString *rows = g_string_new(NULL);
    for (int i = 0; i < MEASURED_POINTS_MOST; i++)
        g_string_append(rows, "1,2\n");
    assert_int_equal(points_of(rows->str, rows->len), MEASURED_POINTS_MOST);
    g_string_append(rows, "1,2\n");
    assert_int_equal(points_of(rows->str, rows->len), -1);
    g_string_free(rows, TRUE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(columns_are_found_by_their_headings),
        cmocka_unit_test(columns_are_guessed_without_headings),
        cmocka_unit_test(units_and_sizes_are_exact),
        cmocka_unit_test(what_is_wrong_is_said_with_its_line),
        cmocka_unit_test(spoilt_tables_do_no_harm),
        cmocka_unit_test(limits_have_two_sides),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
