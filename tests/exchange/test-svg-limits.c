/* Each stated limit of an SVG drawing with a case on each side, and files that mean harm: each is
 * refused by name, quickly, with nothing opened beside them. */
#include "exchange/outline-svg.h"

#include <glib/gstdio.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define PLATE "<rect x='10' y='10' width='60' height='40'/>"

/* Reads "<svg>…</svg>" with the plate and `body`; frees body. */
static bool reads(char *body, Error *error)
{
    OutlineRead read;
    char *text = g_strconcat("<svg>", PLATE, body, "</svg>", NULL);
    bool fine = outline_svg_read(text, strlen(text), NULL, &read, error);
    outline_read_clear(&read);
    g_free(text);
    g_free(body);
    return fine;
}

static char *repeated(const char *text, long times)
{
    GString *all = g_string_sized_new(strlen(text) * (gsize)times + 1);
    for (long i = 0; i < times; i++)
        g_string_append(all, text);
    return g_string_free(all, FALSE);
}

static void assert_limit(char *within, char *beyond, const char *says)
{
    Error error = {0};
    if (!reads(within, &error))
        fail_msg("%s: %s", error.place, error.message);
    assert_false(reads(beyond, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    if (!strstr(error.message, says))
        fail_msg("%s", error.message);
}

static char *nested(int depth)
{
    char *open = repeated("<g>", depth), *close = repeated("</g>", depth);
    char *both = g_strconcat(open, close, NULL);
    g_free(open);
    g_free(close);
    return both;
}

static void test_depth(void **unused)
{
    /* The root is one. */
    assert_limit(nested(SVG_DEPTH_MOST - 1), nested(SVG_DEPTH_MOST), "inside one another");
}

static void test_elements(void **unused)
{
    /* The root and the plate are two. */
    assert_limit(repeated("<g/>", SVG_ELEMENTS_MOST - 2), repeated("<g/>", SVG_ELEMENTS_MOST - 1),
                 "elements");
}

static char *attributes(long count)
{
    GString *text = g_string_new(NULL);
    for (long i = 0; i < count; i++) {
        if (i % 50 == 0)
            g_string_append(text, i ? "/><g" : "<g");
        g_string_append_printf(text, " a%ld=''", i % 50);
    }
    g_string_append(text, "/>");
    return g_string_free(text, FALSE);
}

static void test_attributes(void **unused)
{
    /* The plate has four. */
    assert_limit(attributes(SVG_ATTRIBUTES_MOST - 4), attributes(SVG_ATTRIBUTES_MOST - 3),
                 "attributes");
}

static void test_bytes(void **unused)
{
    OutlineRead read;
    Error error = {0};
    char *text = g_malloc(SVG_BYTES_MOST + 1);
    const char *begin = "<svg>" PLATE, *end = "</svg>";
    memset(text, ' ', SVG_BYTES_MOST + 1);
    memcpy(text, begin, strlen(begin));
    memcpy(text + SVG_BYTES_MOST - strlen(end), end, strlen(end));
    assert_true(outline_svg_read(text, SVG_BYTES_MOST, NULL, &read, &error));
    outline_read_clear(&read);
    assert_false(outline_svg_read(text, SVG_BYTES_MOST + 1, NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);

    /* The same as a file, which is not even read. */
    char *file = g_build_filename(g_get_tmp_dir(), "pinplate-limit-XXXXXX", NULL);
    int handle = g_mkstemp(file);
    assert_true(handle >= 0);
    assert_true(g_file_set_contents(file, text, SVG_BYTES_MOST, NULL));
    assert_true(outline_svg_load(file, NULL, &read, &error));
    outline_read_clear(&read);
    assert_true(g_file_set_contents(file, text, SVG_BYTES_MOST + 1, NULL));
    assert_false(outline_svg_load(file, NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_string_equal(error.file, file);
    assert_int_equal(g_remove(file), 0);
    g_close(handle, NULL);
    g_free(file);
    g_free(text);
}

/* Groups of which each uses the one before it `width` times. */
static char *uses(int deep, int width)
{
    GString *text = g_string_new("<defs><g id='u0'><g/></g>");
    for (int i = 1; i < deep; i++) {
        g_string_append_printf(text, "<g id='u%d'>", i);
        for (int k = 0; k < width; k++)
            g_string_append_printf(text, "<use href='#u%d'/>", i - 1);
        g_string_append(text, "</g>");
    }
    g_string_append_printf(text, "</defs><use href='#u%d'/>", deep - 1);
    return g_string_free(text, FALSE);
}

static void test_uses(void **unused)
{
    assert_limit(uses(SVG_USES_DEEP, 1), uses(SVG_USES_DEEP + 1, 1), "<use> refers to <use>");
    assert_limit(uses(5, 10), uses(9, 10), "every <use> counted");
}

static void test_drawn(void **unused)
{
    /* A group of 1,000 that is used: 1 (use) + 1 (group) + 1,000 each; the plate and one group. */
    long each = 1002, times = (SVG_DRAWN_MOST - 1) / each;
    char *thousand = repeated("<g/>", 1000);
    char *group = g_strconcat("<defs><g id='t'>", thousand, "</g></defs>", NULL);
    char *use = repeated("<use href='#t'/>", times), *rest = repeated("<g/>", 10000);
    long left = SVG_DRAWN_MOST - 2 - times * each; /* the plate and defs are two */
    rest[4 * left] = 0;
    assert_limit(g_strconcat(group, use, rest, NULL), g_strconcat(group, use, rest, "<g/>", NULL),
                 "every <use> counted");
    g_free(thousand);
    g_free(group);
    g_free(use);
    g_free(rest);
}

static void test_chains_and_sides(void **unused)
{
    assert_limit(repeated("<line x2='1'/>", LOOPS_MOST - 1), repeated("<line x2='1'/>", LOOPS_MOST),
                 "outlines");
    char *sides = repeated("h1v1", OUTLINE_SIDES_MOST / 2);
    assert_limit(g_strconcat("<path d='M0 0", sides, "' transform='scale(.01)'/>", NULL),
                 g_strconcat("<path d='M0 0", sides, "h1' transform='scale(.01)'/>", NULL),
                 "sides");
    g_free(sides);
}

/* ---- harm ---- */

static void refuse(const char *text, ErrorKind kind, const char *says)
{
    OutlineRead read;
    Error error = {0};
    assert_false(outline_svg_read(text, strlen(text), NULL, &read, &error));
    assert_int_equal(error.kind, kind);
    if (!strstr(error.message, says))
        fail_msg("%s: %s", error.place, error.message);
}

static void test_entity_bombs(void **unused)
{
    refuse("<!DOCTYPE svg [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
           "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'>]><svg><g id='&c;'/></svg>",
           ERROR_FORMAT, "entity");
    refuse("<!DOCTYPE svg [<!ENTITY a '&a;'>]><svg><g id='&a;'/></svg>", ERROR_FORMAT, "entity");
    char *use = repeated("&a;", 1001);
    char *many = g_strconcat("<!DOCTYPE svg [<!ENTITY a '0123456789'>]><svg><g id='", use,
                             "'/></svg>", NULL);
    refuse(many, ERROR_LIMIT, "uses of entities");
    g_free(use);
    g_free(many);
    char *big = repeated("0123456789", 30);
    char *text =
        g_strconcat("<!DOCTYPE svg [<!ENTITY a '", big, "'>]><svg><g id='&a;'/></svg>", NULL);
    refuse(text, ERROR_FORMAT, "entity");
    g_free(big);
    g_free(text);
}

static void test_nothing_outside_is_opened(void **unused)
{
    char *file = g_build_filename(g_get_tmp_dir(), "pinplate-secret-XXXXXX", NULL);
    int handle = g_mkstemp(file);
    assert_true(handle >= 0);
    assert_true(g_file_set_contents(file, "M0 0H9V9z", -1, NULL));
    char *general = g_strdup_printf("<!DOCTYPE svg [<!ENTITY e SYSTEM 'file://%s'>]>"
                                    "<svg><path d='&e;'/></svg>",
                                    file);
    refuse(general, ERROR_FORMAT, "");
    char *content = g_strdup_printf("<!DOCTYPE svg [<!ENTITY e SYSTEM 'file://%s'>]>"
                                    "<svg>&e;</svg>",
                                    file);
    refuse(content, ERROR_FORMAT, "ntity");
    char *parameter = g_strdup_printf("<!DOCTYPE svg [<!ENTITY %% p SYSTEM 'file://%s'> %%p;]>"
                                      "<svg/>",
                                      file);
    refuse(parameter, ERROR_FORMAT, "can't be read");
    char *subset = g_strdup_printf("<!DOCTYPE svg SYSTEM 'file://%s'><svg/>", file);
    refuse(subset, ERROR_GEOMETRY, "no closed outline");
    g_free(general);
    g_free(content);
    g_free(parameter);
    g_free(subset);
    assert_int_equal(g_remove(file), 0);
    g_close(handle, NULL);
    g_free(file);
}

static void test_defaulted_attributes_are_counted(void **unused)
{
    GString *text = g_string_new("<!DOCTYPE svg [");
    for (int i = 0; i < 200; i++)
        g_string_append_printf(text, "<!ATTLIST g a%d CDATA 'x'>", i);
    g_string_append(text, "]><svg>");
    for (int i = 0; i < 6000; i++)
        g_string_append(text, "<g/>");
    g_string_append(text, "</svg>");
    refuse(text->str, ERROR_LIMIT, "attributes");
    g_string_free(text, TRUE);
}

static void test_bytes_that_are_no_text(void **unused)
{
    OutlineRead read;
    Error error;
    static const char zeros[64] = {0}, utf16[] = "\xff\xfe<\0s\0v\0g\0/\0>";
    assert_false(outline_svg_read(zeros, sizeof zeros, NULL, &read, &error));
    assert_int_equal(error.kind, ERROR_FORMAT);
    assert_false(outline_svg_read(utf16, sizeof utf16 - 1, NULL, &read, &error));
    refuse("<svg id='\xff\xfe'/>", ERROR_FORMAT, "can't be read");
    refuse("<svg><g id='a' id='b'/></svg>", ERROR_FORMAT, "can't be read");
    refuse("<?xml version='1.0' encoding='UTF-99'?><svg/>", ERROR_FORMAT, "can't be read");
    refuse("<svg><?xml version='1.0'?></svg>", ERROR_FORMAT, "can't be read");
    refuse("<svg><g></svg></g>", ERROR_FORMAT, "can't be read");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_depth),
        cmocka_unit_test(test_elements),
        cmocka_unit_test(test_attributes),
        cmocka_unit_test(test_bytes),
        cmocka_unit_test(test_uses),
        cmocka_unit_test(test_drawn),
        cmocka_unit_test(test_chains_and_sides),
        cmocka_unit_test(test_entity_bombs),
        cmocka_unit_test(test_nothing_outside_is_opened),
        cmocka_unit_test(test_defaulted_attributes_are_counted),
        cmocka_unit_test(test_bytes_that_are_no_text),
    };
    return cmocka_run_group_tests_name("exchange-svg-limits", tests, NULL, NULL);
}
