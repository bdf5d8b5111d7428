/* The table of rules is sound, and each rule has its page in the guide, with the same title and the
 * same starting limits. */
#include "checks/rule-limits.h"
#include "checks/sentence.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#define MALLARD "http://projectmallard.org/1.0/"

static bool is_slug(const char *text)
{
    return *text && strspn(text, "abcdefghijklmnopqrstuvwxyz-") == strlen(text);
}

static void test_slugs(void **state)
{
    assert_true(rule_count() <= RULES_MOST);
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        assert_true(is_slug(rule->slug));
        assert_true(rule->title && *rule->title);
        assert_non_null(rule->check);
        assert_non_null(rule->cases);
        /* Found by its own name: no other rule has it. */
        assert_ptr_equal(rule_by_slug(rule->slug), rule);
        assert_int_equal(rule_number(rule), i);
    }
    assert_null(rule_by_slug("no-such-rule"));
}

static void test_scopes(void **state)
{
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        bool pairs = rule->scope == SCOPE_PAIR || rule->scope == SCOPE_FEATURE_AND_PAIR;
        bool kinds = pairs || rule->scope == SCOPE_FEATURE;
        if (kinds != (rule->kinds != 0) || pairs != (rule->other_kinds != 0))
            fail_msg("%s looks at the wrong kinds for its scope", rule->slug);
        if (rule->reach && !pairs)
            fail_msg("%s has a reach but looks at no pairs", rule->slug);
    }
}

static void test_limits(void **state)
{
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        assert_true(rule->limit_count <= RULE_LIMITS_MOST);
        for (int k = 0; k < rule->limit_count; k++) {
            const RuleLimit *limit = &rule->limits[k];
            bool sound = limit->name && limit->says && limit->source && *limit->source &&
                         strspn(limit->name, "abcdefghijklmnopqrstuvwxyz_") == strlen(limit->name);
            if (!sound || limit->kind == VALUE_NONE)
                fail_msg("%s: limit %d lacks a name, words or a source", rule->slug, k);
            for (int other = 0; other < k; other++)
                assert_string_not_equal(limit->name, rule->limits[other].name);
        }
    }
}

/* A message may only name what a finding of the rule has: a rule of the whole plate decides for
 * itself, one feature is {a}, a pair is {a} and {b}, and a station's rule may name what stands on
 * it. */
static void check_words(const Rule *rule, const char *sentence)
{
    static const char *const known[] = {"{a}",    "{b}",    "{value}", "{limit}",
                                        "{less}", "{more}", "{over}",  "{operation}"};
    for (const char *p = strchr(sentence, '{'); p; p = strchr(p + 1, '{')) {
        bool found = false;
        for (size_t i = 0; i < G_N_ELEMENTS(known); i++)
            found = found || strncmp(p, known[i], strlen(known[i])) == 0;
        if (!found)
            fail_msg("%s: \"%s\" has a word that nobody fills in", rule->slug, sentence);
    }
    bool pair = rule->scope != SCOPE_FEATURE || (rule->kinds & FEATURE_PART);
    if (strstr(sentence, "{b}") && !pair)
        fail_msg("%s: \"%s\" names a second feature", rule->slug, sentence);
}

static void test_cases(void **state)
{
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        if (rule->case_count < 1)
            fail_msg("%s does not say how many cases it has", rule->slug);
        for (int k = 0; k < rule->case_count; k++) {
            const RuleCase *one = &rule->cases[k];
            assert_non_null(one->message);
            assert_true(one->level <= LEVEL_NOTE);
            size_t length = strlen(one->message);
            if (length < 10 || length > SENTENCE_TEXT / 2 || one->message[length - 1] == '.')
                fail_msg("%s: \"%s\" is no sentence without its full stop", rule->slug,
                         one->message);
            check_words(rule, one->message);
            if (one->remedy)
                check_words(rule, one->remedy);
            bool figures = strstr(one->message, "{value}") || strstr(one->message, "{limit}") ||
                           strstr(one->message, "{over}") || strstr(one->message, "{less}");
            if (figures && one->kind == VALUE_NONE)
                fail_msg("%s: \"%s\" has figures but no kind of them", rule->slug, one->message);
        }
    }
}

/* What is found on plates of all kinds has the features that its sentence names. */
static void test_sentences(void **state)
{
    for (uint32_t seed = 1; seed <= 30; seed++) {
        Plate *plate = random_plate(seed * 104729, 40);
        FindingList findings = findings_of(plate);
        for (uint32_t i = 0; i < findings.count; i++) {
            const Finding *finding = &findings.items[i];
            const RuleCase *one = &finding->rule->cases[finding->which];
            const char *remedy = one->remedy ? one->remedy : "";
            assert_true(finding->which < finding->rule->case_count);
            bool names_a = strstr(one->message, "{a}") || strstr(remedy, "{a}");
            bool names_b = strstr(one->message, "{b}") || strstr(remedy, "{b}");
            if (finding->feature_count < (names_b ? 2 : names_a ? 1 : 0))
                fail_msg("%s: a finding lacks a feature for \"%s\"", finding->rule->slug,
                         one->message);
        }
        finding_list_clear(&findings);
        plate_free(plate);
    }
}

/* --- the guide ------------------------------------------------------------------------------- */

typedef struct Page {
    xmlDoc *document;
    xmlXPathContext *xpath;
} Page;

static Page read_page(const char *name)
{
    char *path = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "data", "help", "C", name, NULL);
    Page page = {.document = xmlReadFile(path, NULL, XML_PARSE_NONET)};
    if (!page.document)
        fail_msg("%s is missing or not well-formed", path);
    page.xpath = xmlXPathNewContext(page.document);
    xmlXPathRegisterNs(page.xpath, BAD_CAST "m", BAD_CAST MALLARD);
    g_free(path);
    return page;
}

static void close_page(Page *page)
{
    xmlXPathFreeContext(page->xpath);
    xmlFreeDoc(page->document);
}

/* What an XPath expression comes to, as text with its blanks put in order. */
static char *ask(const Page *page, const char *expression)
{
    char *ordered = g_strdup_printf("normalize-space(%s)", expression);
    xmlXPathObject *object = xmlXPathEval(BAD_CAST ordered, page->xpath);
    assert_non_null(object);
    char *text = g_strdup((const char *)object->stringval);
    xmlXPathFreeObject(object);
    g_free(ordered);
    return text;
}

static void expect_text(const Page *page, const char *slug, const char *expression,
                        const char *expected)
{
    char *text = ask(page, expression);
    if (strcmp(text, expected) != 0)
        fail_msg("rule-%s.page says \"%s\" where the table has \"%s\"", slug, text, expected);
    g_free(text);
}

static void limit_value(const RuleLimit *limit, char *text, size_t size)
{
    const char *unit = limit->kind == VALUE_LENGTH  ? " mm"
                       : limit->kind == VALUE_ANGLE ? " degrees"
                                                    : "";
    g_snprintf(text, size, "%.10g%s", limit->starting, unit);
}

static void check_limit_row(const Page *page, const Rule *rule, int k)
{
    const RuleLimit *limit = &rule->limits[k];
    char cell[80], value[40];
    const char *cells[] = {limit->name, limit->says, value, limit->source};
    limit_value(limit, value, sizeof value);
    for (int c = 0; c < 4; c++) {
        g_snprintf(cell, sizeof cell, "//m:tbody/m:tr[%d]/m:td[%d]", k + 1, c + 1);
        expect_text(page, rule->slug, cell, cells[c]);
    }
}

static void test_pages(void **state)
{
    for (int i = 0; i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        char *name = g_strdup_printf("rule-%s.page", rule->slug);
        char *id = g_strdup_printf("rule-%s", rule->slug);
        char rows[16];
        Page page = read_page(name);
        expect_text(&page, rule->slug, "/m:page/@id", id);
        expect_text(&page, rule->slug, "/m:page/m:title", rule->title);
        g_snprintf(rows, sizeof rows, "%d", rule->limit_count);
        expect_text(&page, rule->slug, "count(//m:tbody/m:tr)", rows);
        for (int k = 0; k < rule->limit_count; k++)
            check_limit_row(&page, rule, k);
        expect_text(&page, rule->slug, "count(//m:section[@id='why' or @id='mend'])", "2");
        close_page(&page);
        g_free(name);
        g_free(id);
    }
    xmlCleanupParser();
}

/* Every link leads to a page, and to a section of it where it names one. */
static void check_link(const char *from, const char *to)
{
    char **halves = g_strsplit(to, "#", 2);
    char *name = g_strconcat(halves[0], ".page", NULL);
    Page page = read_page(name);
    if (halves[1]) {
        char *expression = g_strdup_printf("count(//m:section[@id='%s'])", halves[1]);
        char *count = ask(&page, expression);
        if (strcmp(count, "1") != 0)
            fail_msg("%s links to %s, which is not there", from, to);
        g_free(expression);
        g_free(count);
    }
    close_page(&page);
    g_free(name);
    g_strfreev(halves);
}

static void check_links(const char *name)
{
    Page page = read_page(name);
    xmlXPathObject *links = xmlXPathEval(BAD_CAST "//m:link/@xref", page.xpath);
    for (int i = 0; links->nodesetval && i < links->nodesetval->nodeNr; i++) {
        xmlChar *to = xmlNodeGetContent(links->nodesetval->nodeTab[i]);
        check_link(name, (const char *)to);
        xmlFree(to);
    }
    xmlXPathFreeObject(links);
    close_page(&page);
}

static void test_links(void **state)
{
    char *folder = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "data", "help", "C", NULL);
    GDir *dir = g_dir_open(folder, 0, NULL);
    int pages = 0;
    assert_non_null(dir);
    for (const char *name = g_dir_read_name(dir); name; name = g_dir_read_name(dir)) {
        if (g_str_has_suffix(name, ".page")) {
            check_links(name);
            pages++;
        }
    }
    assert_true(pages > rule_count());
    g_dir_close(dir);
    g_free(folder);
    xmlCleanupParser();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_slugs),     cmocka_unit_test(test_scopes),
        cmocka_unit_test(test_limits),    cmocka_unit_test(test_cases),
        cmocka_unit_test(test_sentences), cmocka_unit_test(test_pages),
        cmocka_unit_test(test_links),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
