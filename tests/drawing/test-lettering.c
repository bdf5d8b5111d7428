#include "cases.h"

#include "drawing/drawing.h"
#include "drawing/sign.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static Lettering *lettering;

static int start(void **state)
{
    Error error = {.kind = ERROR_NONE};
    lettering = lettering_new(&error);
    if (!lettering)
        print_message("# %s\n", error.message);
    return lettering ? 0 : -1;
}

static int end(void **state)
{
    lettering_unref(lettering);
    return 0;
}

/* The lowest and highest dark row of a text drawn large, in mm, as an eye would measure it. */
static void measure_ink(const char *text, double height, double *above, double *below)
{
    const int scale = 40, size = 1600, base = 800;
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, size, size);
    cairo_t *cairo = cairo_create(surface);
    cairo_translate(cairo, 40, base);
    cairo_scale(cairo, scale, scale);
    lettering_show(lettering, cairo, text, height);
    cairo_surface_flush(surface);
    const unsigned char *bytes = cairo_image_surface_get_data(surface);
    int stride = cairo_image_surface_get_stride(surface), top = size, bottom = 0;
    for (int y = 0; y < size; y++) {
        for (int x = 0; x < size; x++) {
            if (bytes[y * stride + x] > 127) {
                top = y < top ? y : top;
                bottom = y > bottom ? y : bottom;
            }
        }
    }
    *above = (double)(base - top) / scale;
    *below = (double)(bottom + 1 - base) / scale;
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
}

/* ISO 3098-1: the size of lettering is the height of its capitals. */
static void test_capital_height(void **state)
{
    static const double heights[] = {2.5, 3.5, 5, 7, 10};
    for (size_t i = 0; i < 5; i++) {
        double above, below;
        measure_ink("H", heights[i], &above, &below);
        assert_true(fabs(above - heights[i]) <= 0.03);
        assert_true(fabs(below) <= 0.03);
    }
}

static void test_box_holds_ink(void **state)
{
    static const char *const texts[] = {"Hxgp", SIGN_DIAMETER "5.1 " SIGN_DEPTH "12",
                                        SIGN_COUNTERBORE SIGN_DIAMETER "11", SIGN_POSITION "0.1",
                                        "\u00C4(j)"};
    for (size_t i = 0; i < 5; i++) {
        double above, below;
        measure_ink(texts[i], 5, &above, &below);
        TextExtent extent = lettering_extent(lettering, texts[i], 5);
        assert_true(extent.above >= above - 0.05);
        assert_true(extent.below >= below - 0.05);
        assert_true(extent.above <= fmax(above, 5) + 0.1);
    }
}

static void test_widths_scale(void **state)
{
    double one = lettering_extent(lettering, "4\u00D7 " SIGN_DIAMETER "6.6", 1).width;
    double seven = lettering_extent(lettering, "4\u00D7 " SIGN_DIAMETER "6.6", 7).width;
    assert_true(one > 0);
    assert_true(fabs(seven - 7 * one) < 1e-9);
    /* A sign is as wide as it says, between whatever letters. */
    double between = lettering_extent(lettering, "A" SIGN_DEPTH "B", 1).width;
    double apart = lettering_extent(lettering, "A", 1).width +
                   lettering_extent(lettering, "B", 1).width + sign_find(0x21A7)->width;
    assert_true(fabs(between - apart) < 1e-3);
}

/* ASME Y14.5, form and proportion of symbols (from memory), in letter heights: diameter circle 1
 * with a slash 1.5 tall; counterbore and countersink 2 wide and 1 tall; depth 1 tall. */
static void test_sign_proportions(void **state)
{
    const Sign *diameter = sign_find(0x2300);
    assert_true(diameter->strokes[0].count == 1);
    assert_true(diameter->strokes[0].vertices[0].sagitta == 0.5);
    assert_true(diameter->top - diameter->bottom == 1.5);
    const Sign *counterbore = sign_find(0x2334), *countersink = sign_find(0x2335);
    const Vertex *v = counterbore->strokes[0].vertices;
    assert_true(fabs(v[2].x - v[1].x - 2) < 1e-12 && v[0].y - v[1].y == 1);
    v = countersink->strokes[0].vertices;
    assert_true(fabs(v[2].x - v[0].x - 2) < 1e-12 && v[0].y - v[1].y == 1);
    assert_true(sign_find(0x21A7)->top - sign_find(0x21A7)->bottom == 1);
    assert_null(sign_find('A'));
    assert_null(sign_find(0x2400));
}

static void test_unknown_is_counted(void **state)
{
    TextExtent extent = lettering_extent(lettering, "A\u6F22B", 3.5);
    assert_int_equal(extent.unknown_count, 1);
    assert_int_equal(extent.first_unknown, 0x6F22);
    size_t count;
    lettering_pieces(lettering, "\u6F22\u6F22", &count);
    assert_int_equal(count, 0);
    /* What is no text at all does no harm. */
    extent = lettering_extent(lettering, "A\xFF\xC3\n\x01", 3.5);
    assert_int_equal(extent.unknown_count, 4);
    assert_int_equal(lettering_extent(lettering, "", 3.5).unknown_count, 0);
    assert_true(lettering_extent(lettering, "", 3.5).width == 0);

    Drawing *drawing = drawing_new(lettering);
    drawing_begin_sheet(drawing, 100, 100, "");
    drawing_text(drawing, (Point){1, 1}, (TextStyle){3.5, TEXT_START, TEXT_BASE, 0}, "\u6F22");
    drawing_text(drawing, (Point){1, 9}, (TextStyle){3.5, TEXT_START, TEXT_BASE, 0}, "\u5B57");
    assert_int_equal(drawing->unknown_count, 2);
    assert_int_equal(drawing->first_unknown, 0x6F22);
    drawing_free(drawing);
}

/* The store of shaped lines is emptied when it is full; what it then holds must still be right. */
static void test_many_lines(void **state)
{
    double before = lettering_extent(lettering, "line 1", 1).width;
    for (int i = 0; i < 20000; i++) {
        char text[32];
        snprintf(text, sizeof text, "line %d", i);
        lettering_extent(lettering, text, 1);
    }
    assert_true(lettering_extent(lettering, "line 1", 1).width == before);
}

static void test_missing_font_names_package(void **state)
{
    Error error = {.kind = ERROR_NONE};
    assert_null(lettering_new_from_file("/nowhere/osifont.ttf", &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    assert_non_null(strstr(error.message, "fonts-osifont"));
    assert_string_equal(error.file, "/nowhere/osifont.ttf");
}

/* Text boxes against rotations: a quarter turn swaps width and height. */
static void test_rotated_box(void **state)
{
    Drawing *drawing = drawing_new(lettering);
    TextStyle level = {5, TEXT_MIDDLE, TEXT_CENTRE, 0}, upright = {5, TEXT_MIDDLE, TEXT_CENTRE, 90};
    Box a = drawing_text_box(drawing, (Point){50, 50}, level, "12.7");
    Box b = drawing_text_box(drawing, (Point){50, 50}, upright, "12.7");
    assert_true(fabs((a.x1 - a.x0) - (b.y1 - b.y0)) < 1e-9);
    assert_true(fabs((a.x0 + a.x1) / 2 - 50) < 1e-9);
    assert_true(fabs((b.y0 + b.y1) / 2 - 50) < 1e-9);
    drawing_free(drawing);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_capital_height),
        cmocka_unit_test(test_box_holds_ink),
        cmocka_unit_test(test_widths_scale),
        cmocka_unit_test(test_sign_proportions),
        cmocka_unit_test(test_unknown_is_counted),
        cmocka_unit_test(test_many_lines),
        cmocka_unit_test(test_missing_font_names_package),
        cmocka_unit_test(test_rotated_box),
    };
    return cmocka_run_group_tests(tests, start, end);
}
