#include "cases.h"

#include "drawing/projection-sign.h"
#include "drawing/scale-bar.h"
#include "drawing/sheet.h"
#include "drawing/title-block.h"

#include <math.h>
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

/* ISO 216 sizes; ISO 5457 margins (from memory): 20 mm at the filing edge, 10 mm at the others. */
static void test_iso_sizes(void **state)
{
    static const double sizes[][2] = {{210, 297}, {420, 297}, {594, 420}, {841, 594}};
    for (int i = SHEET_A4; i <= SHEET_A1; i++) {
        const SheetFormat *f = sheet_format((SheetSize)i);
        assert_true(f->width == sizes[i][0] && f->height == sizes[i][1]);
        Box frame = sheet_frame((SheetSize)i);
        assert_true(frame.x0 == 20 && frame.x1 == f->width - 10);
        assert_true(frame.y0 == 10 && frame.y1 == f->height - 10);
    }
    Box a4 = sheet_frame(SHEET_A4);
    assert_true(a4.x1 - a4.x0 == 180); /* ISO 7200: the title block's width */
}

/* ASME Y14.1 (from memory): A 8.5 x 11, B 11 x 17, C 17 x 22, D 22 x 34 in. */
static void test_asme_sizes(void **state)
{
    static const double inches[][2] = {{8.5, 11}, {17, 11}, {22, 17}, {34, 22}};
    for (int i = SHEET_LETTER; i <= SHEET_D; i++) {
        const SheetFormat *f = sheet_format((SheetSize)i);
        assert_true(fabs(f->width - inches[i - SHEET_LETTER][0] * 25.4) < 1e-9);
        assert_true(fabs(f->height - inches[i - SHEET_LETTER][1] * 25.4) < 1e-9);
    }
}

static void test_names(void **state)
{
    SheetSize size;
    Error error;
    assert_true(sheet_size_read("a3", &size, NULL));
    assert_int_equal(size, SHEET_A3);
    assert_true(sheet_size_read("LETTER", &size, NULL));
    assert_int_equal(size, SHEET_LETTER);
    assert_false(sheet_size_read("a7", &size, &error));
    assert_non_null(strstr(error.message, "A4"));
}

/* Nothing of any sheet's furniture leaves the paper, and no text meets another. */
static void test_furniture_stays_on_paper(void **state)
{
    for (int i = 0; i < SHEET_SIZE_COUNT; i++) {
        drawing_clear(drawing);
        sheet_begin(drawing, (SheetSize)i, "x");
        Box paper = {0, 0, drawing->sheets[0].width, drawing->sheets[0].height};
        for (size_t m = 0; m < drawing->mark_count; m++) {
            Box box = drawing->marks[m].box;
            assert_true(box.x0 >= paper.x0 && box.y0 >= paper.y0 && box.x1 <= paper.x1 &&
                        box.y1 <= paper.y1);
            for (size_t n = 0; n < m; n++) {
                if (drawing->marks[m].kind == MARK_TEXT && drawing->marks[n].kind == MARK_TEXT)
                    assert_false(box_meets(box, drawing->marks[n].box));
            }
        }
    }
}

/* ISO 5456-2: in third angle the cone stands right of its end view, in first angle left of it, its
 * small end to the left both times. */
static void test_projection_sign(void **state)
{
    for (int first_angle = 0; first_angle < 2; first_angle++) {
        drawing_clear(drawing);
        drawing_begin_sheet(drawing, 100, 100, "");
        projection_sign_draw(drawing, (Point){50, 50}, 10, first_angle);
        double circle = 0, cone = 0;
        for (size_t m = 0; m < drawing->mark_count; m++) {
            const Mark *mark = &drawing->marks[m];
            const Vertex *v = drawing_mark_vertices(drawing, mark);
            if (mark->count == 1)
                circle = v->x;
            if (mark->count != 4)
                continue;
            cone = (mark->box.x0 + mark->box.x1) / 2;
            for (int i = 0; i < 4; i++) {
                double tall = v[i].x < cone ? 2.5 : 5;
                assert_true(fabs(fabs(v[i].y - 50) - tall) < 1e-9);
            }
        }
        assert_true(first_angle ? cone < circle : cone > circle);
    }
}

static const Mark *find_text(const char *text)
{
    for (size_t m = 0; m < drawing->mark_count; m++) {
        if (drawing->marks[m].kind == MARK_TEXT &&
            strcmp(drawing_mark_text(drawing, &drawing->marks[m]), text) == 0)
            return &drawing->marks[m];
    }
    return NULL;
}

/* A long title is broken, and the block grows with it; every text stays in its cell's width. */
static void test_title_block(void **state)
{
    TitleBlock block = {.owner = "Larch and Quince",
                        .title = "Grafting knife blade",
                        .scale = "1:2",
                        .sheet = 2,
                        .sheet_count = 5};
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 210, 297, "");
    double low = title_block_height(drawing, &block, 180);
    block.title =
        "Grafting knife blade and spring, drilling, profile and both bevels in one clamping";
    double high = title_block_height(drawing, &block, 180);
    assert_true(high > low);
    Box box = title_block_draw(drawing, &block, (Point){200, 10}, 180);
    assert_true(fabs(box.x1 - box.x0 - 180) < 1e-9 && fabs(box.y1 - box.y0 - high) < 1e-9);
    for (size_t m = 0; m < drawing->mark_count; m++) {
        Box mark = drawing->marks[m].box;
        assert_true(mark.x0 >= box.x0 - 1e-9 && mark.x1 <= box.x1 + 1e-9);
        assert_true(mark.y0 >= box.y0 - 1e-9 && mark.y1 <= box.y1 + 1e-9);
    }
    assert_non_null(find_text("2 of 5"));
    assert_non_null(find_text("1:2"));
}

/* The bar is as long as it says: 100 mm at 1:2 are 50 mm of paper. */
static void test_scale_bar(void **state)
{
    static const struct {
        double scale;
        bool inches;
        const char *last;
        double paper;
    } bars[] = {{0.5, false, "100", 50},
                {1, false, "50", 50},
                {1, true, "2", 50.8},
                {0.2, false, "200", 40},
                {0.25, true, "10", 63.5}};
    for (size_t i = 0; i < sizeof bars / sizeof *bars; i++) {
        drawing_clear(drawing);
        drawing_begin_sheet(drawing, 210, 297, "");
        scale_bar_draw(drawing, (Point){20, 60}, 90, bars[i].scale, bars[i].inches);
        assert_non_null(find_text(bars[i].last));
        Box bar = drawing->marks[0].box;
        assert_true(fabs(bar.x1 - bar.x0 - bars[i].paper) < 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_iso_sizes),       cmocka_unit_test(test_asme_sizes),
        cmocka_unit_test(test_names),           cmocka_unit_test(test_furniture_stays_on_paper),
        cmocka_unit_test(test_projection_sign), cmocka_unit_test(test_title_block),
        cmocka_unit_test(test_scale_bar),
    };
    return cmocka_run_group_tests(tests, start, end);
}
