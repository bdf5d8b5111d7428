#include "cases.h"

#include "sample.h"

#include "drawing/pdf.h"
#include "drawing/svg.h"

#include <glib.h>
#include <librsvg/rsvg.h>
#include <poppler.h>
#include <string.h>

/* Prints are rendered by poppler and by librsvg, and measured in the pictures. */

#define DOTS 12.0 /* a millimetre */

static Drawing *drawing;
static Sample sample;
static cairo_surface_t *pdf_picture, *svg_picture;
static PopplerDocument *document;
static GByteArray *pdf;

static cairo_surface_t *white(const Sheet *sheet)
{
    cairo_surface_t *picture = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)ceil(sheet->width * DOTS), (int)ceil(sheet->height * DOTS));
    cairo_t *cairo = cairo_create(picture);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_destroy(cairo);
    return picture;
}

static cairo_surface_t *render_pdf(void)
{
    cairo_surface_t *picture = white(&drawing->sheets[0]);
    PopplerPage *page = poppler_document_get_page(document, 0);
    cairo_t *cairo = cairo_create(picture);
    cairo_scale(cairo, DOTS * 25.4 / 72, DOTS * 25.4 / 72);
    poppler_page_render_for_printing(page, cairo);
    cairo_destroy(cairo);
    g_object_unref(page);
    cairo_surface_flush(picture);
    return picture;
}

static cairo_surface_t *render_svg(const GString *text)
{
    cairo_surface_t *picture = white(&drawing->sheets[0]);
    RsvgHandle *handle = rsvg_handle_new_from_data((const guint8 *)text->str, text->len, NULL);
    assert_non_null(handle);
    cairo_t *cairo = cairo_create(picture);
    RsvgRectangle all = {0, 0, drawing->sheets[0].width * DOTS, drawing->sheets[0].height * DOTS};
    assert_true(rsvg_handle_render_document(handle, cairo, &all, NULL));
    cairo_destroy(cairo);
    g_object_unref(handle);
    cairo_surface_flush(picture);
    return picture;
}

static int start(void **state)
{
    Lettering *lettering = lettering_new(NULL);
    if (!lettering)
        return -1;
    drawing = drawing_new(lettering);
    lettering_unref(lettering);
    sample = sample_strewn(5, 24, PLATE_MM);
    ViewSpec spec = {.prints = PRINT_USUAL | PRINT_OPERATIONS | PRINT_TOOLS | PRINT_TEMPLATE |
                               PRINT_FINDINGS};
    if (!drawing_build(drawing, &sample.source, &spec, NULL))
        return -1;
    pdf = pdf_bytes(drawing, NULL);
    GBytes *bytes = g_bytes_new_static(pdf->data, pdf->len);
    document = poppler_document_new_from_bytes(bytes, NULL, NULL);
    g_bytes_unref(bytes);
    if (!document)
        return -1;
    pdf_picture = render_pdf();
    GString *svg = svg_text(drawing, 0);
    svg_picture = render_svg(svg);
    g_string_free(svg, TRUE);
    return 0;
}

static int end(void **state)
{
    cairo_surface_destroy(pdf_picture);
    cairo_surface_destroy(svg_picture);
    g_object_unref(document);
    g_byte_array_unref(pdf);
    sample_end(&sample);
    drawing_free(drawing);
    return 0;
}

/* How dark the picture is at a place of the sheet, 0 to 1, between its dots. */
static double darkness(cairo_surface_t *picture, Point p)
{
    double x = p.x * DOTS - 0.5, y = (drawing->sheets[0].height - p.y) * DOTS - 0.5;
    const unsigned char *bytes = cairo_image_surface_get_data(picture);
    int stride = cairo_image_surface_get_stride(picture);
    int left = (int)floor(x), top = (int)floor(y);
    double dark = 0;
    for (int i = 0; i < 4; i++) {
        int dx = i & 1, dy = i >> 1;
        double share = (dx ? x - left : 1 - x + left) * (dy ? y - top : 1 - y + top);
        dark += share * (1 - bytes[(top + dy) * stride + (left + dx) * 4 + 1] / 255.0);
    }
    return dark;
}

/* How far along `way` (of length 1) from `from` the middle of the dark stretch lies. */
static double dark_middle(cairo_surface_t *picture, Point from, Point way, double near, double far)
{
    double sum = 0, weight = 0;
    for (double at = near; at <= far; at += 0.005) {
        double dark = darkness(picture, point_plus(from, point_times(way, at)));
        sum += dark * at;
        weight += dark;
    }
    assert_true(weight > 0);
    return sum / weight;
}

/* The middle of a circle, from where its line is met along both diagonals, off its centre mark. */
static Point circle_middle(cairo_surface_t *picture, Point guess, double radius)
{
    Point middle = guess;
    for (int i = 0; i < 2; i++) {
        Point way = {G_SQRT2 / 2, i ? -G_SQRT2 / 2 : G_SQRT2 / 2};
        double ahead = dark_middle(picture, guess, way, radius - 0.45, radius + 0.45);
        double behind =
            dark_middle(picture, guess, point_times(way, -1), radius - 0.45, radius + 0.45);
        middle = point_plus(middle, point_times(way, (ahead - behind) / 2));
    }
    return middle;
}

static double paper_scale(void)
{
    PopplerPage *page = poppler_document_get_page(document, 0);
    char *text = poppler_page_get_text(page);
    const char *found = strstr(text, "1:");
    assert_non_null(found);
    double scale = 1 / g_ascii_strtod(found + 2, NULL);
    g_free(text);
    g_object_unref(page);
    return scale;
}

/* A hole is measured where no other circle, thread or label comes near its line. */
static bool is_alone(const Mark *hole)
{
    for (size_t m = 0; m < drawing->sheets[0].count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->feature != hole->feature && mark->role == ROLE_HOLE &&
            box_distance(mark->box, hole->box) < 1 && box_meets(mark->box, box_grown(hole->box, 1)))
            return false;
        if (mark->feature == hole->feature && mark->line == LINE_THREAD &&
            mark->kind == MARK_STROKE)
            return false;
    }
    return true;
}

/* The stock's upper right corner, from its two edges a little way off it. */
static Point stock_corner(cairo_surface_t *picture)
{
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->role != ROLE_STOCK)
            continue;
        Box box = mark->box;
        Point on_right = {box.x1 - 1, box.y1 - 3}, on_top = {box.x1 - 3, box.y1 - 1};
        return (Point){on_right.x + dark_middle(picture, on_right, (Point){1, 0}, 0.5, 1.5),
                       on_top.y + dark_middle(picture, on_top, (Point){0, 1}, 0.5, 1.5)};
    }
    return (Point){NAN, NAN};
}

static void check_centres(cairo_surface_t *picture)
{
    double scale = paper_scale();
    Point corner = stock_corner(picture);
    const Stock *stock = &plate_settings(sample.plate)->stock;
    int measured = 0;
    double worst = 0;
    for (size_t m = 0; m < drawing->sheets[0].count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->role != ROLE_HOLE || mark->count != 1 || !is_alone(mark))
            continue;
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        Point middle = circle_middle(picture, (Point){v->x, v->y}, v->sagitta);
        const Record *record = plate_find(sample.plate, mark->feature);
        double x = length_to_mm(stock->length - record->hole.at.x) * scale;
        double y = length_to_mm(stock->width - record->hole.at.y) * scale;
        worst = fmax(worst, fmax(fabs(corner.x - middle.x - x), fabs(corner.y - middle.y - y)));
        measured++;
    }
    print_message("# %d holes, worst %.4f mm on paper\n", measured, worst);
    assert_true(measured >= 8);
    assert_true(worst < 0.02);
}

static void test_pdf_centres(void **state)
{
    check_centres(pdf_picture);
}

static void test_svg_centres(void **state)
{
    check_centres(svg_picture);
}

#define REACH 2 /* dots: 0.17 mm */

static int darkest_near(const unsigned char *bytes, int stride, int x, int y)
{
    int darkest = 255;
    for (int dy = -REACH; dy <= REACH; dy++) {
        for (int dx = -REACH; dx <= REACH; dx++) {
            int there = bytes[(y + dy) * stride + (x + dx) * 4 + 1];
            darkest = MIN(darkest, there);
        }
    }
    return darkest;
}

/* Where one is black, the other must be dark nearby. PDF places letters by thousandths of their
 * size, so a long line of text may be a dot off at its end. */
static size_t count_lost(cairo_surface_t *a, cairo_surface_t *b)
{
    const unsigned char *first = cairo_image_surface_get_data(a);
    const unsigned char *second = cairo_image_surface_get_data(b);
    int stride = cairo_image_surface_get_stride(a);
    int width = cairo_image_surface_get_width(a), height = cairo_image_surface_get_height(a);
    size_t lost = 0;
    for (int y = REACH; y + REACH < height; y++) {
        for (int x = REACH; x + REACH < width; x++) {
            if (first[y * stride + x * 4 + 1] <= 40)
                lost += darkest_near(second, stride, x, y) > 160;
        }
    }
    return lost;
}

static void test_pdf_and_svg_agree(void **state)
{
    assert_int_equal(count_lost(pdf_picture, svg_picture), 0);
    assert_int_equal(count_lost(svg_picture, pdf_picture), 0);
}

/* poppler finds every text without signs where the display list has it. */
static void test_pdf_text(void **state)
{
    assert_int_equal(poppler_document_get_n_pages(document), (int)drawing->sheet_count);
    for (size_t s = 0; s < drawing->sheet_count; s++) {
        const Sheet *sheet = &drawing->sheets[s];
        PopplerPage *page = poppler_document_get_page(document, (int)s);
        double width, height;
        poppler_page_get_size(page, &width, &height);
        assert_true(fabs(width - sheet->width / 25.4 * 72) < 0.01);
        assert_true(fabs(height - sheet->height / 25.4 * 72) < 0.01);
        size_t asked = 0;
        for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
            const Mark *mark = &drawing->marks[m];
            if (mark->kind != MARK_TEXT || mark->rotation != 0 ||
                !g_str_is_ascii(drawing_mark_text(drawing, mark)))
                continue;
            GList *found = poppler_page_find_text(page, drawing_mark_text(drawing, mark));
            bool there = false;
            for (GList *at = found; at; at = at->next) {
                const PopplerRectangle *r = at->data;
                double x = (r->x1 + r->x2) / 2 * 25.4 / 72, y = (r->y1 + r->y2) / 2 * 25.4 / 72;
                there = there || (fabs(x - (mark->box.x0 + mark->box.x1) / 2) < 1 &&
                                  fabs(y - (mark->box.y0 + mark->box.y1) / 2) < mark->height / 2);
            }
            if (!there)
                print_message("# \"%s\" is not where it should be\n",
                              drawing_mark_text(drawing, mark));
            assert_true(there);
            g_list_free_full(found, (GDestroyNotify)poppler_rectangle_free);
            asked++;
        }
        assert_true(asked > 8);
        g_object_unref(page);
    }
}

static void test_pdf_metadata(void **state)
{
    char *title = poppler_document_get_title(document);
    assert_string_equal(title, "Grafting knife blade, drilling and profile");
    g_free(title);
    char *date = poppler_document_get_creation_date(document) > 0 ? (char *)"dated" : NULL;
    assert_null(date);
    PopplerIndexIter *iter = poppler_index_iter_new(document);
    assert_non_null(iter);
    poppler_index_iter_free(iter);
    PopplerFontInfo *info = poppler_font_info_new(document);
    PopplerFontsIter *fonts = NULL;
    assert_true(poppler_font_info_scan(info, 20, &fonts));
    do
        assert_true(poppler_fonts_iter_is_embedded(fonts));
    while (poppler_fonts_iter_next(fonts));
    poppler_fonts_iter_free(fonts);
    g_object_unref(info);
}

/* The title of a text is the text, arcs stay arcs, and features have their ids. */
static void test_svg_structure(void **state)
{
    Sample blades = sample_blades(PLATE_MM);
    ViewSpec spec = {0};
    Drawing *other = drawing_new(drawing->lettering);
    assert_true(drawing_build(other, &blades.source, &spec, NULL));
    GString *text = svg_text(other, 0);
    assert_non_null(strstr(text->str, "<title>A1</title>"));
    assert_non_null(strstr(text->str, "id=\"lines-phantom\""));
    assert_non_null(strstr(text->str, "width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""));
    /* The blade's border has one arc, at least, in each of its stations. */
    char *id = NULL;
    for (uint32_t i = 0; i < plate_count(blades.plate) && !id; i++) {
        const Record *record = plate_at(blades.plate, i);
        if (record->kind == RECORD_STATION)
            id = g_strdup_printf("id=\"phantom-%u\"", record->id);
    }
    const char *group = strstr(text->str, id);
    assert_non_null(group);
    const char *path = strstr(group, "<path d=\"M");
    assert_non_null(path);
    size_t length = strcspn(path, "/");
    assert_non_null(g_strstr_len(path, (gssize)length, "A"));
    g_free(id);
    g_string_free(text, TRUE);
    drawing_free(other);
    sample_end(&blades);
}

static void test_svg_numbers(void **state)
{
    static const struct {
        double number;
        const char *text;
    } numbers[] = {{0.1, "0.1"},
                   {-0.0, "0"},
                   {284.3, "284.3"},
                   {12.7, "12.7"},
                   {1.0 / 3, "0.3333333333333333"},
                   {-5, "-5"}};
    for (size_t i = 0; i < G_N_ELEMENTS(numbers); i++) {
        GString *text = g_string_new(NULL);
        svg_number(text, numbers[i].number);
        assert_string_equal(text->str, numbers[i].text);
        g_string_free(text, TRUE);
    }
}

static void test_sheet_files(void **state)
{
    char *name = svg_sheet_file("/tmp/a.svg", 0);
    assert_string_equal(name, "/tmp/a.svg");
    g_free(name);
    name = svg_sheet_file("/tmp/a.svg", 2);
    assert_string_equal(name, "/tmp/a-3.svg");
    g_free(name);
    name = svg_sheet_file("plain", 1);
    assert_string_equal(name, "plain-2");
    g_free(name);
}

static void test_unwritable_is_said(void **state)
{
    Error error = {.kind = ERROR_NONE};
    assert_false(pdf_write(drawing, "/nonexistent/folder/a.pdf", &error));
    assert_int_equal(error.kind, ERROR_FILE);
    error = (Error){.kind = ERROR_NONE};
    assert_false(svg_write(drawing, "/nonexistent/folder/a.svg", &error));
    assert_int_equal(error.kind, ERROR_FILE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pdf_centres),        cmocka_unit_test(test_svg_centres),
        cmocka_unit_test(test_pdf_and_svg_agree),  cmocka_unit_test(test_pdf_text),
        cmocka_unit_test(test_pdf_metadata),       cmocka_unit_test(test_svg_structure),
        cmocka_unit_test(test_svg_numbers),        cmocka_unit_test(test_sheet_files),
        cmocka_unit_test(test_unwritable_is_said),
    };
    return cmocka_run_group_tests(tests, start, end);
}
