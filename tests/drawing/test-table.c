#include "cases.h"

#include "drawing/paragraph.h"
#include "drawing/table-sheets.h"

#include <glib.h>
#include <string.h>

static Lettering *lettering;
static Drawing *drawing;

static int start(void **state)
{
    lettering = lettering_new(NULL);
    if (!lettering)
        return -1;
    drawing = drawing_new(lettering);
    return 0;
}

static int end(void **state)
{
    drawing_free(drawing);
    lettering_unref(lettering);
    return 0;
}

static void test_paragraph_keeps_words(void **state)
{
    const char *text = "Check every figure against the stock, the tool and the machine's manual.";
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 210, 297, "");
    size_t lines = paragraph_draw(drawing, (Point){10, 200}, 60, 3.5, TEXT_START, text, 99);
    assert_true(lines > 1);
    assert_int_equal(lines, paragraph_lines(drawing, text, 60, 3.5, 99));
    assert_int_equal(lines, drawing->mark_count);
    GString *joined = g_string_new(NULL);
    for (size_t i = 0; i < lines; i++) {
        assert_true(drawing->marks[i].width <= 60.001);
        g_string_append_printf(joined, "%s%s", i ? " " : "",
                               drawing_mark_text(drawing, &drawing->marks[i]));
    }
    assert_string_equal(joined->str, text);
    g_string_free(joined, TRUE);
}

static void test_paragraph_breaks_long_word(void **state)
{
    char word[201];
    memset(word, 'W', 200);
    word[200] = '\0';
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 210, 297, "");
    size_t lines = paragraph_draw(drawing, (Point){10, 200}, 30, 3.5, TEXT_START, word, 99);
    size_t letters = 0;
    for (size_t i = 0; i < lines; i++) {
        assert_true(drawing->marks[i].width <= 30.001);
        letters += drawing->marks[i].count;
    }
    assert_int_equal(letters, 200);
    /* A line too narrow for one letter still comes to an end. */
    assert_int_equal(paragraph_lines(drawing, "WW", 0.1, 3.5, 99), 2);
    assert_int_equal(paragraph_lines(drawing, "", 10, 3.5, 99), 1);
    assert_int_equal(paragraph_lines(drawing, "a\n\nb", 10, 3.5, 99), 3);
}

static void test_paragraph_is_cut(void **state)
{
    char *text = g_strnfill(4000, 'a');
    for (size_t i = 5; i < 4000; i += 6)
        text[i] = ' ';
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 210, 297, "");
    assert_int_equal(paragraph_draw(drawing, (Point){10, 200}, 60, 3.5, TEXT_START, text, 3), 3);
    assert_int_equal(drawing->mark_count, 3);
    assert_true(g_str_has_suffix(drawing_mark_text(drawing, &drawing->marks[2]), "..."));
    for (size_t i = 0; i < 3; i++)
        assert_true(drawing->marks[i].width <= 60.001);
    assert_int_equal(paragraph_lines(drawing, text, 60, 3.5, 3), 3);
    g_free(text);
}

/* Rows with a label each and one word, more than any sheet holds. */
static HoleTable *make_rows(size_t count)
{
    HoleTable *table = g_new0(HoleTable, 1);
    table->rows = g_new0(HoleRow, count);
    table->count = count;
    for (size_t i = 0; i < count; i++)
        table->rows[i] = (HoleRow){.feature = (FeatureId)(10 + i),
                                   .kind = FEATURE_HOLE,
                                   .label = g_strdup_printf("A%zu", i + 1),
                                   .x = g_strdup("12.7"),
                                   .y = g_strdup("100"),
                                   .description = g_strdup("\u23005.1 THRU"),
                                   .plain = g_strdup("\u23005.1 THRU")};
    return table;
}

/* Every row stands on one sheet once, in order, and within the body. */
static void check_continued(size_t rows, Box body)
{
    HoleTable *table = make_rows(rows);
    TableSheets sheets;
    drawing_clear(drawing);
    table_sheets_start(&sheets, drawing, table);
    int count = table_sheets_spread(&sheets, body);
    for (int i = 0; i < count; i++) {
        drawing_begin_sheet(drawing, 210, 297, "");
        table_sheets_draw(&sheets, body);
    }
    assert_int_equal(sheets.next, rows);
    table_sheets_end(&sheets);
    size_t next = 1;
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        assert_true(mark->box.x0 >= body.x0 - 1e-9 && mark->box.x1 <= body.x1 + 1e-9);
        assert_true(mark->box.y0 >= body.y0 - 1e-9 && mark->box.y1 <= body.y1 + 1e-9);
        if (mark->kind != MARK_TEXT || drawing_mark_text(drawing, mark)[0] != 'A')
            continue;
        char expected[16];
        g_snprintf(expected, sizeof expected, "A%zu", next);
        assert_string_equal(drawing_mark_text(drawing, mark), expected);
        assert_int_equal(mark->feature, 9 + next);
        next++;
    }
    assert_int_equal(next, rows + 1);
    hole_table_free(table);
}

static void test_continued(void **state)
{
    Box upright = {26, 90, 194, 280}, lying = {26, 70, 404, 280};
    static const size_t counts[] = {1, 5, 29, 30, 31, 100, 200};
    for (size_t i = 0; i < G_N_ELEMENTS(counts); i++) {
        check_continued(counts[i], upright);
        check_continued(counts[i], lying);
    }
}

/* A rule after each fifth row: 12 rows have two, beside the heading's. */
static void test_ruled_every_fifth_row(void **state)
{
    HoleTable *table = make_rows(12);
    TableSheets sheets;
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 210, 297, "");
    table_sheets_start(&sheets, drawing, table);
    table_sheets_spread(&sheets, (Box){20, 20, 110, 280});
    table_sheets_draw(&sheets, (Box){20, 20, 110, 280});
    size_t rules = 0;
    double places[4] = {0};
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->kind == MARK_STROKE && mark->count == 2 && mark->box.y0 == mark->box.y1)
            places[rules++] = mark->box.y0;
    }
    assert_int_equal(rules, 3);
    double pitch = PARAGRAPH_PITCH * 3.5;
    assert_true(fabs(places[0] - places[1] - 5 * pitch) < 1e-9);
    assert_true(fabs(places[1] - places[2] - 5 * pitch) < 1e-9);
    table_sheets_end(&sheets);
    hole_table_free(table);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_paragraph_keeps_words),
        cmocka_unit_test(test_paragraph_breaks_long_word),
        cmocka_unit_test(test_paragraph_is_cut),
        cmocka_unit_test(test_continued),
        cmocka_unit_test(test_ruled_every_fifth_row),
    };
    return cmocka_run_group_tests(tests, start, end);
}
