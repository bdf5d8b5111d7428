#include "cases.h"

#include "sample.h"

#include "drawing/clip.h"
#include "drawing/pdf.h"

#include <glib.h>
#include <poppler.h>
#include <string.h>

/* The full-size template is measured in the picture that poppler makes of the PDF. */

#define DOTS 10.0 /* a millimetre */

static Lettering *lettering;

static int start(void **state)
{
    lettering = lettering_new(NULL);
    return lettering ? 0 : -1;
}

static int end(void **state)
{
    lettering_unref(lettering);
    return 0;
}

typedef struct Page {
    cairo_surface_t *picture;
    double height;
} Page;

static Page render(const GByteArray *pdf, int number)
{
    GBytes *bytes = g_bytes_new(pdf->data, pdf->len);
    PopplerDocument *document = poppler_document_new_from_bytes(bytes, NULL, NULL);
    assert_non_null(document);
    PopplerPage *sheet = poppler_document_get_page(document, number);
    double width, height;
    poppler_page_get_size(sheet, &width, &height);
    width *= 25.4 / 72;
    height *= 25.4 / 72;
    Page page = {
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(width * DOTS), (int)(height * DOTS)),
        height};
    cairo_t *cairo = cairo_create(page.picture);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_scale(cairo, DOTS * 25.4 / 72, DOTS * 25.4 / 72);
    poppler_page_render_for_printing(sheet, cairo);
    cairo_destroy(cairo);
    cairo_surface_flush(page.picture);
    g_object_unref(sheet);
    g_object_unref(document);
    g_bytes_unref(bytes);
    return page;
}

/* How dark a dot is, 0 to 1. */
static double dark_at(const Page *page, double x, double y)
{
    const unsigned char *bytes = cairo_image_surface_get_data(page->picture);
    int stride = cairo_image_surface_get_stride(page->picture);
    int column = (int)(x * DOTS), row = (int)((page->height - y) * DOTS);
    if (column < 0 || row < 0 || column >= cairo_image_surface_get_width(page->picture) ||
        row >= cairo_image_surface_get_height(page->picture))
        return 0;
    return 1 - bytes[row * stride + column * 4 + 1] / 255.0;
}

/* The middle of the upright line near x. */
static double line_near(const Page *page, double x, double y)
{
    double sum = 0, weight = 0;
    for (double at = x - 0.6; at <= x + 0.6; at += 1 / DOTS) {
        double dark = dark_at(page, at, y);
        sum += dark * (floor(at * DOTS) + 0.5) / DOTS;
        weight += dark;
    }
    assert_true(weight > 0);
    return sum / weight;
}

static bool is_bar(const Mark *mark, double length)
{
    return mark->kind == MARK_STROKE && mark->role == ROLE_FURNITURE && mark->count == 2 &&
           fabs(mark->box.x1 - mark->box.x0 - length) < 1e-9;
}

static void check_bar(const Drawing *drawing, const Page *page, double length)
{
    for (size_t m = 0; m < drawing->sheets[0].count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (!is_bar(mark, length))
            continue;
        /* The end ticks hang below the bar. */
        double y = mark->box.y0 - 3.5;
        double measured = line_near(page, mark->box.x1, y) - line_near(page, mark->box.x0, y);
        print_message("# %g mm measures %.3f\n", length, measured);
        assert_true(fabs(measured - length) < 0.05);
        return;
    }
    fail();
}

static void test_bars(void **state)
{
    Sample sample = sample_blades(PLATE_MM);
    Drawing *drawing = drawing_new(lettering);
    ViewSpec spec = {.prints = PRINT_TEMPLATE};
    assert_true(drawing_build(drawing, &sample.source, &spec, NULL));
    GByteArray *pdf = pdf_bytes(drawing, NULL);
    Page page = render(pdf, 0);
    check_bar(drawing, &page, 100);
    check_bar(drawing, &page, 4 * 25.4); /* 25.4 mm an inch: ISO 31-1 */
    cairo_surface_destroy(page.picture);
    g_byte_array_unref(pdf);
    drawing_free(drawing);
    sample_end(&sample);
}

/* The circles of the features on a sheet, whole ones alone. */
static GHashTable *circles_on(const Drawing *drawing, const Sheet *sheet)
{
    GHashTable *found = g_hash_table_new(g_direct_hash, g_direct_equal);
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->role == ROLE_HOLE && mark->count == 1)
            g_hash_table_insert(found, GUINT_TO_POINTER(mark->feature),
                                (void *)drawing_mark_vertices(drawing, mark));
    }
    return found;
}

/* Holes on one sheet are as far apart as on the plate, and each is on some sheet whole. */
static void test_full_size(void **state)
{
    Sample sample = sample_strewn(3, 80, PLATE_INCH);
    Drawing *drawing = drawing_new(lettering);
    ViewSpec spec = {.prints = PRINT_TEMPLATE};
    assert_true(drawing_build(drawing, &sample.source, &spec, NULL));
    assert_true(drawing->sheet_count > 1);
    GHashTable *all = g_hash_table_new(g_direct_hash, g_direct_equal);
    for (size_t s = 0; s < drawing->sheet_count; s++) {
        GHashTable *found = circles_on(drawing, &drawing->sheets[s]);
        GHashTableIter iter;
        void *id, *vertex;
        Point shift = {NAN, NAN};
        g_hash_table_iter_init(&iter, found);
        while (g_hash_table_iter_next(&iter, &id, &vertex)) {
            const Place *at = &plate_find(sample.plate, GPOINTER_TO_UINT(id))->hole.at;
            Point off = {((Vertex *)vertex)->x - length_to_mm(at->x),
                         ((Vertex *)vertex)->y - length_to_mm(at->y)};
            assert_true(isnan(shift.x) || point_distance(shift, off) < 1e-6);
            shift = off;
            g_hash_table_add(all, id);
        }
        g_hash_table_unref(found);
    }
    assert_int_equal(g_hash_table_size(all), 80);
    g_hash_table_unref(all);
    drawing_free(drawing);
    sample_end(&sample);
}

/* A circle of radius 5 cut by a border 3 from its middle: the piece within has a half chord of 4,
 * from the right triangle 3, 4, 5. */
static void test_clip_keeps_arcs(void **state)
{
    Drawing *from = drawing_new(lettering), *to = drawing_new(lettering);
    drawing_begin_sheet(from, 100, 100, "");
    drawing_circle(from, LINE_VISIBLE, (Point){50, 50}, 5);
    drawing_line(from, LINE_VISIBLE, (Point){0, 50}, (Point){100, 50});
    drawing_box(from, LINE_VISIBLE, (Box){60, 60, 70, 70});
    drawing_begin_sheet(to, 100, 100, "");
    clip_copy(to, from, &from->sheets[0], (Box){53, 0, 100, 65}, (Point){-53, 0});
    /* The box begins within, so it is left in two pieces. */
    assert_int_equal(to->mark_count, 4);
    for (size_t m = 0; m < to->mark_count; m++) {
        Box box = to->marks[m].box;
        assert_true(box.x0 > -1e-9 && box.x1 < 47 + 1e-9 && box.y1 < 65 + 1e-9);
    }
    Box arc = to->marks[0].box;
    assert_true(fabs(arc.y1 - 54) < 1e-9 && fabs(arc.y0 - 46) < 1e-9);
    assert_true(fabs(arc.x1 - 2) < 1e-9);
    assert_true(drawing_mark_vertices(to, &to->marks[0])[0].sagitta != 0);
    assert_true(fabs(to->marks[1].box.x1 - to->marks[1].box.x0 - 47) < 1e-9);
    drawing_free(from);
    drawing_free(to);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bars),
        cmocka_unit_test(test_full_size),
        cmocka_unit_test(test_clip_keeps_arcs),
    };
    return cmocka_run_group_tests(tests, start, end);
}
