/* What whole drawings come to: outline, holes, openings, size, notes. */
#include "exchange/outline-svg.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* A drawing in mm, with Y down like all of them. */
#define DRAWING(body)                                                                        \
    "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 " \
    "100'>" body "</svg>"

#define PLATE "<rect x='10' y='10' width='60' height='40'/>"

static void read_text(const char *text, OutlineRead *read)
{
    Error error = {0};
    if (!outline_svg_read(text, strlen(text), NULL, read, &error))
        fail_msg("%s: %s", error.place, error.message);
}

static void refuse_text(const char *text, ErrorKind kind, const char *place, const char *says)
{
    OutlineRead read;
    Error error = {0};
    assert_false(outline_svg_read(text, strlen(text), NULL, &read, &error));
    assert_int_equal(error.kind, kind);
    if (strcmp(error.place, place))
        fail_msg("%s: %s: %s", text, error.place, error.message);
    if (!strstr(error.message, says))
        fail_msg("%s", error.message);
    assert_null(read.nodes);
}

static bool has_note(const OutlineRead *read, const char *beginning)
{
    for (guint i = 0; i < read->notes->len; i++)
        if (g_str_has_prefix(g_ptr_array_index(read->notes, i), beginning))
            return true;
    return false;
}

static RoundHole hole_at(const OutlineRead *read, guint i)
{
    return g_array_index(read->holes, RoundHole, i);
}

static size_t openings(const OutlineRead *read)
{
    return read->starts->len - 2;
}

static void assert_node(const OutlineRead *read, guint i, double x, double y)
{
    OutlineNode node = g_array_index(read->nodes, OutlineNode, i);
    assert_int_equal(node.x, length_from_mm(x));
    assert_int_equal(node.y, length_from_mm(y));
}

static void test_outline_holes_and_openings(void **unused)
{
    OutlineRead read;
    read_text(DRAWING("<circle cx='20' cy='40' r='3'/>" PLATE
                      "<rect x='40' y='20' width='10' height='5'/>"),
              &read);
    assert_int_equal(read.width, 60 * LENGTH_MM);
    assert_int_equal(read.height, 40 * LENGTH_MM);
    assert_int_equal(read.notes->len, 0);
    /* The lower left corner is 0, 0; the circle is 10 mm up from the lower edge, at Y 50. */
    assert_int_equal(read.holes->len, 1);
    assert_int_equal(hole_at(&read, 0).x, 10 * LENGTH_MM);
    assert_int_equal(hole_at(&read, 0).y, 10 * LENGTH_MM);
    assert_int_equal(hole_at(&read, 0).diameter, 6 * LENGTH_MM);
    assert_int_equal(openings(&read), 1);
    assert_int_equal(read.nodes->len, 8);
    assert_node(&read, 0, 0, 40);
    assert_node(&read, 1, 60, 40);
    assert_node(&read, 4, 30, 30);
    outline_read_clear(&read);
}

static void test_part(void **unused)
{
    OutlineRead read;
    Part part = {0};
    Error error;
    read_text(DRAWING(PLATE "<circle cx='20' cy='40' r='3'/><path d='M40 20h9l-4 8z'/>"), &read);
    for (int twice = 0; twice < 2; twice++) {
        outline_read_part(&read, &part);
        assert_int_equal(part.rings.count, 2);
        assert_int_equal(part.holes.count, 1);
        assert_int_equal(LIST_AT(&part.holes, PartHole, 0)->at.y, 10 * LENGTH_MM);
        Outline *outline = part_outline(&part, &error);
        assert_non_null(outline);
        assert_true(fabs(outline_area(outline) - (60 * 40 - 36)) < 1e-9);
        outline_unref(outline);
    }
    schema_clear(&part_schema, &part);
    outline_read_clear(&read);
}

static void test_units(void **unused)
{
    static const struct {
        const char *attributes;
        double width; /* mm, of a rectangle of 10 user units */
        const char *note;
    } cases[] = {
        {"width='4in' height='4in' viewBox='0 0 4 4'", 254, NULL},
        {"width='100mm' height='100mm' viewBox='0 0 100 100'", 10, NULL},
        {"width='10cm' viewBox='0 0 50 100'", 20, NULL},
        {"height='10cm' viewBox='0 0 50 100'", 10, NULL},
        {"width='100%' height='4in' viewBox='0 0 40 40'", 25.4, NULL},
        {"width='72pt' height='6pc' viewBox='0 0 10 10'", 25.4, NULL},
        {"width='96' height='96px'", 254 / 96.0, "the drawing gives no size"},
        {"viewBox='0 0 24 24'", 254 / 96.0, "the drawing gives no size"},
        {"", 254 / 96.0, "the drawing gives no size"},
        {"width='3em' height='3em' viewBox='0 0 48 48'", 254 / 96.0, "the drawing's size depends"},
        {"width='100%' height='100%' viewBox='0 0 48 48'", 254 / 96.0, "the drawing gives no size"},
        {"width='1in' height='1in' viewBox='5 5 10 10' preserveAspectRatio='none'", 25.4, NULL},
        {"width='2in' height='1in' viewBox='0 0 10 10'", 25.4, NULL},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        OutlineRead read;
        char *text =
            g_strdup_printf("<svg %s><rect width='10' height='5'/></svg>", cases[i].attributes);
        read_text(text, &read);
        assert_int_equal(read.width, length_from_mm(cases[i].width));
        assert_int_equal(read.notes->len, cases[i].note ? 1 : 0);
        assert_true(!cases[i].note || has_note(&read, cases[i].note));
        outline_read_clear(&read);
        g_free(text);
    }
}

static void test_known_size_corrects(void **unused)
{
    const char *text = "<svg viewBox='0 0 24 24'><path d='M0 0H20V10H0z"
                       "M4 5a2 2 0 1 1 4 0 2 2 0 0 1-4 0z'/></svg>";
    OutlineRead read;
    Error error;
    OutlineOptions options = {.known_width = 76.2};
    assert_true(outline_svg_read(text, strlen(text), &options, &read, &error));
    assert_int_equal(read.width, length_from_mm(76.2));
    assert_int_equal(read.height, length_from_mm(38.1));
    assert_int_equal(hole_at(&read, 0).diameter, length_from_mm(76.2 / 5));
    outline_read_clear(&read);

    options = (OutlineOptions){.known_height = 10};
    assert_true(outline_svg_read(text, strlen(text), &options, &read, &error));
    assert_int_equal(read.width, 20 * LENGTH_MM);
    outline_read_clear(&read);

    const OutlineOptions bad[] = {{.known_width = 10, .known_height = 10},
                                  {.known_width = -1},
                                  {.known_width = NAN},
                                  {.known_width = 1e9}};
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        assert_false(outline_svg_read(text, strlen(text), &bad[i], &read, &error));
        assert_int_equal(error.kind, ERROR_TYPED);
        assert_null(read.nodes);
    }
}

static void test_what_is_left_out_is_said(void **unused)
{
    static const struct {
        const char *body, *note;
    } cases[] = {
        {"<path d='M1 1H5V5'/>", "open lines left out: 1, in line 1; close them"},
        {"<rect x='80' y='80' width='5' height='5'/>", "shapes outside the outline left out: 1"},
        {"<rect x='20' y='20' width='9' height='9'/><circle cx='24' cy='24' r='1'/>",
         "shapes inside an opening or a hole left out: 1"},
        {PLATE PLATE, "shapes drawn twice, read once: 2"},
        {"<path d='M20 20h5v5h-5zM20 20v5h5v-5z'/>", "shapes drawn twice, read once: 1"},
        {"<path d='M20 20h5v0z'/>", "shapes with no area left out: 1"},
        {"<path d='M20 20h5v5l-2-6z'/>", "shapes that cross themselves left out: 1"},
        {"<path d='M20 20h5v5h-5v-4.998'/>", "gaps of up to 0.01 mm closed: 1"},
        {"<g fill='none'><rect x='20' y='20' width='5' height='5'/></g>",
         "elements that are not visible left out: 1"},
        {"<rect display='none' x='20' y='20' width='5' height='5'/>",
         "elements that are not visible left out: 1"},
        {"<g style='visibility:hidden'><circle cx='20' cy='20' r='2'/></g>",
         "elements that are not visible left out: 1"},
        {"<text x='20' y='20'>R 5</text>", "lettering left out: 1"},
        {"<image href='picture.png'/>", "pictures left out: 1"},
        {"<use href='other.svg#part'/>", "references to other files left out: 1"},
        {"<g clip-path='url(#c)'><circle cx='20' cy='20' r='2'/></g>",
         "clips and masks not applied: 1"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        OutlineRead read;
        char *text = g_strconcat("<svg width='9in' height='9in' viewBox='0 0 90 90'>" PLATE,
                                 cases[i].body, "</svg>", NULL);
        read_text(text, &read);
        if (read.notes->len != 1 || !has_note(&read, cases[i].note))
            fail_msg("%s: %u notes, %s", cases[i].body, read.notes->len,
                     read.notes->len ? (char *)g_ptr_array_index(read.notes, 0) : "");
        outline_read_clear(&read);
        g_free(text);
    }
}

static void test_what_is_not_drawn(void **unused)
{
    OutlineRead read;
    read_text(DRAWING(PLATE "<defs><circle cx='20' cy='20' r='2'/></defs>"
                            "<symbol id='s'><circle cx='20' cy='20' r='2'/></symbol>"
                            "<clipPath id='c'><circle cx='20' cy='20' r='2'/></clipPath>"
                            "<mask><circle cx='20' cy='20' r='2'/></mask>"
                            "<pattern><circle cx='20' cy='20' r='2'/></pattern>"
                            "<marker><circle cx='20' cy='20' r='2'/></marker>"
                            "<title>Blade</title><metadata/><style>.a{fill:none}</style>"
                            "<use href='#nothing'/><use/>"
                            "<own:path xmlns:own='urn:own' d='M20 20h2v2z'/>"
                            "<rect x='20' y='20' width='0' height='4'/><circle r='0'/>"
                            "<path/><polygon/>"),
              &read);
    assert_int_equal(read.holes->len, 0);
    assert_int_equal(openings(&read), 0);
    assert_int_equal(read.notes->len, 0);
    outline_read_clear(&read);
}

static void test_stroked_and_styled_shapes_are_drawn(void **unused)
{
    OutlineRead read;
    read_text(DRAWING(PLATE "<circle fill='none' stroke='red' cx='20' cy='20' r='2'/>"
                            "<circle fill='none' class='cut' cx='30' cy='20' r='2'/>"
                            "<g visibility='hidden'>"
                            "<circle visibility='visible' cx='40' cy='20' r='2'/></g>"
                            "<g style='text-transform:none;transform:none'/>"
                            "<g fill='none'><circle fill='blue' cx='50' cy='20' r='2'/></g>"),
              &read);
    assert_int_equal(read.holes->len, 4);
    assert_int_equal(read.notes->len, 0);
    outline_read_clear(&read);
}

static void test_loose_lines_and_arcs_are_joined(void **unused)
{
    OutlineRead read;
    read_text(DRAWING("<line x1='10' y1='10' x2='40' y2='10'/>"
                      "<polyline points='10,30 40,30'/>"
                      "<path d='M10 30A10 10 0 0 1 10 10'/>"
                      "<path d='M40 30A10 10 0 0 0 40 10'/>"
                      "<path d='M38 20a3 3 0 0 1-6 0'/><path d='M38 20a3 3 0 0 0-6 0'/>"),
              &read);
    assert_int_equal(read.width, 50 * LENGTH_MM);
    assert_int_equal(read.height, 20 * LENGTH_MM);
    assert_int_equal(read.nodes->len, 4);
    assert_int_equal(read.holes->len, 1);
    assert_int_equal(hole_at(&read, 0).diameter, 6 * LENGTH_MM);
    assert_int_equal(read.notes->len, 0);
    outline_read_clear(&read);
}

static void test_use_places_what_it_refers_to(void **unused)
{
    OutlineRead read;
    read_text("<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "
              "width='100mm' height='100mm' viewBox='0 0 100 100'>"
              "<use xlink:href='#row' x='10' y='10'/>" PLATE
              "<g id='row'><use href='#hole'/><use href='#hole' x='20' transform='translate(0 5)'/>"
              "</g><defs><circle id='hole' cx='15' cy='15' r='1.5'/></defs></svg>",
              &read);
    /* The row is drawn in its own place and once more by the first use. */
    assert_int_equal(read.holes->len, 4);
    outline_read_clear(&read);
}

static void test_uses_that_never_end(void **unused)
{
    refuse_text(DRAWING(PLATE "\n<use id='a' href='#a'/>"), ERROR_FORMAT, "line 2", "draws itself");
    refuse_text(DRAWING(PLATE "<g id='a'><g>\n\n<use href='#a'/></g></g>"), ERROR_FORMAT, "line 3",
                "draws itself");
    refuse_text(DRAWING(PLATE "<g id='a'><use href='#b'/></g>\n<g id='b'><use href='#a'/></g>"),
                ERROR_FORMAT, "line 1", "draws itself");
}

static void test_mistakes_are_placed(void **unused)
{
    static const struct {
        const char *text;
        ErrorKind kind;
        const char *place, *says;
    } cases[] = {
        {"", ERROR_FORMAT, "", "empty"},
        {"hello", ERROR_FORMAT, "line 1", "can't be read as SVG"},
        {"<svg>\n<g>\n</svg>", ERROR_FORMAT, "line 3", "can't be read as SVG"},
        {"<html/>", ERROR_FORMAT, "", "its first element is <html>"},
        {"\x1f\x8b\x08 compressed", ERROR_FORMAT, "", "compressed"},
        {"\x89PNG\r\n\x1a\n", ERROR_FORMAT, "line 1", "can't be read as SVG"},
        {"<svg/>", ERROR_GEOMETRY, "", "no closed outline"},
        {"<svg>\n<path d='M0 0H5V5'/></svg>", ERROR_GEOMETRY, "line 2", "only open lines"},
        {"<svg>\n<path d='M0 0H5Vx'/></svg>", ERROR_FORMAT, "line 2", "after 7 characters"},
        {"<svg>\n<rect width='5m' height='2'/></svg>", ERROR_FORMAT, "line 2", "width=\"5m\""},
        {"<svg>\n<rect width='-5' height='2'/></svg>", ERROR_FORMAT, "line 2", "negative"},
        {"<svg>\n<circle r='NaN'/></svg>", ERROR_FORMAT, "line 2", "not a length"},
        {"<svg>\n<polygon points='1 2 3'/></svg>", ERROR_FORMAT, "line 2", "pairs"},
        {"<svg>\n<g transform='turn(4)'/></svg>", ERROR_FORMAT, "line 2", "transform"},
        {"<svg>\n<g style='transform: rotate(4deg)'/></svg>", ERROR_FORMAT, "line 2",
         "transform in a style"},
        {"<svg>\n<g transform='scale(2)' transform-origin='5 5'/></svg>", ERROR_FORMAT, "line 2",
         "about an origin"},
        {"<svg\nwidth='0'/>", ERROR_FORMAT, "line 2", "width is not a size"},
        {"<svg height='-4mm'/>", ERROR_FORMAT, "line 1", "height is not a size"},
        {"<svg viewBox='0 0 10'/>", ERROR_FORMAT, "line 1", "viewBox"},
        {"<svg>\n<svg viewBox='0 0 10'/></svg>", ERROR_FORMAT, "line 2", "viewBox"},
        {"<svg>\n<rect width='1e8' height='2'/></svg>", ERROR_GEOMETRY, "line 2", "more than 10 m"},
        {"<svg>\n<g transform='scale(1e9)'><rect width='1' height='1'/></g></svg>", ERROR_GEOMETRY,
         "line 2", "more than 10 m"},
        {"<svg>\n<path d='M0 0H50V50z'/>\n<path d='M40 20h30v2h-30z'/></svg>", ERROR_GEOMETRY,
         "line 3", "crosses the outline"},
        {"<svg>\n<path d='M0 0H50V50L20-20z'/></svg>", ERROR_GEOMETRY, "line 2", "cross"},
        {"<svg>\n<path d='M0 0H50V50H0z'/>\n<circle cx='20' cy='20' r='8'/>\n"
         "<circle cx='30' cy='20' r='5'/></svg>",
         ERROR_GEOMETRY, "line 3", "cross"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++)
        refuse_text(cases[i].text, cases[i].kind, cases[i].place, cases[i].says);
}

static void test_nearly_nothing_is_left_of_rounding(void **unused)
{
    /* Sides of a tenth of a micrometre, as programs leave them where curves meet. */
    OutlineRead read;
    read_text(DRAWING("<path d='M10 10H70l.0001.0001V50l-.0001 0 .0001 0-60-.0001H10v-.0002z'/>"),
              &read);
    assert_int_equal(read.nodes->len, 4);
    outline_read_clear(&read);
}

static void test_example(void **unused)
{
    const char *root = g_getenv("TEST_SOURCE_ROOT");
    OutlineRead read;
    Error error = {0};
    char *file = g_build_filename(root ? root : ".", "examples", "grafting-blade.svg", NULL);
    if (!outline_svg_load(file, NULL, &read, &error))
        fail_msg("%s", error.message);
    g_free(file);
    assert_int_equal(read.height, length_from_mm(0.8 * 25.4));
    assert_int_equal(read.notes->len, 0);
    assert_int_equal(read.holes->len, 3);
    assert_int_equal(hole_at(&read, 0).x, length_from_mm(0.37 * 25.4));
    assert_int_equal(hole_at(&read, 0).y, length_from_mm(0.47 * 25.4));
    outline_read_clear(&read);
    assert_false(outline_svg_load("/nonexistent/blade.svg", NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_FILE);
    assert_string_equal(error.file, "/nonexistent/blade.svg");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_outline_holes_and_openings),
        cmocka_unit_test(test_part),
        cmocka_unit_test(test_units),
        cmocka_unit_test(test_known_size_corrects),
        cmocka_unit_test(test_what_is_left_out_is_said),
        cmocka_unit_test(test_what_is_not_drawn),
        cmocka_unit_test(test_stroked_and_styled_shapes_are_drawn),
        cmocka_unit_test(test_loose_lines_and_arcs_are_joined),
        cmocka_unit_test(test_use_places_what_it_refers_to),
        cmocka_unit_test(test_uses_that_never_end),
        cmocka_unit_test(test_mistakes_are_placed),
        cmocka_unit_test(test_nearly_nothing_is_left_of_rounding),
        cmocka_unit_test(test_example),
    };
    return cmocka_run_group_tests_name("exchange-svg", tests, NULL, NULL);
}
