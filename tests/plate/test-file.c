/* Files: the same bytes twice, nothing lost, nothing taken that JSON or the format forbids. */
#include "support/plates.h"

#include "plate/json-strict.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static void test_same_bytes(void **state)
{
    for (uint32_t seed = 1; seed < 20; seed++) {
        size_t size, size_again;
        Error error = {.kind = ERROR_NONE};
        Plate *plate = random_plate(seed, 30);
        char *text = plate_text(plate, &size);
        Plate *again = plate_parse(text, size, &error);
        if (!again)
            fail_msg("%s: %s", error.place, error.message);
        char *text_again = plate_text(again, &size_again);
        assert_int_equal(size, size_again);
        assert_memory_equal(text, text_again, size);
        assert_true(plate_equal(plate, again));
        g_free(text);
        g_free(text_again);
        plate_free(plate);
        plate_free(again);
    }
}

static const char *const whole =
    "{\"format\": \"pinplate-plate\", \"version\": 1, \"colour\": [1, {\"a\": 2.50}],"
    " \"plate\": {\"id\": 1, \"unit\": \"mm\", \"stock\": {\"length\": 100, \"width\": 80.5,"
    " \"thickness\": 20, \"metal\": \"steel\"}, \"datum\": {\"kind\": \"corner\"}, \"mood\": "
    "\"grey\"},"
    " \"faces\": [{\"id\": 2, \"name\": \"top\", \"kind\": \"top\"}],"
    " \"holes\": [{\"id\": 7, \"face\": 2, \"at\": [10.000001, 2e1], \"finish\": \"fine\","
    " \"steps\": [{\"kind\": \"ream\", \"diameter\": 6, \"depth\": 8, \"reamer\": 3}]}]}";

static void test_unknown_keys_are_kept(void **state)
{
    Error error = {.kind = ERROR_NONE};
    size_t size;
    Plate *plate = plate_parse(whole, strlen(whole), &error);
    if (!plate)
        fail_msg("%s: %s", error.place, error.message);
    char *text = plate_text(plate, &size);
    assert_non_null(strstr(text, "\"colour\""));
    assert_non_null(strstr(text, "2.50"));
    assert_non_null(strstr(text, "\"mood\":\"grey\""));
    assert_non_null(strstr(text, "\"finish\":\"fine\""));
    assert_non_null(strstr(text, "\"reamer\":3"));
    assert_non_null(strstr(text, "[10.000001, 20]"));
    assert_int_equal(plate_find(plate, 7)->hole.at.x, 10000001);
    g_free(text);
    plate_free(plate);
}

/* `whole` with one piece of it replaced. */
static char *with(const char *what, const char *by)
{
    const char *at = strstr(whole, what);
    assert_non_null(at);
    return g_strdup_printf("%.*s%s%s", (int)(at - whole), whole, by, at + strlen(what));
}

/* The form of a file, byte for byte: a diff of two plates shows what changed and nothing else. */
static const char *const written = "{\n"
                                   "  \"format\":\"pinplate-plate\",\n"
                                   "  \"version\":1,\n"
                                   "  \"next_id\":8,\n"
                                   "  \"plate\":{\n"
                                   "    \"id\":1,\n"
                                   "    \"unit\":\"mm\",\n"
                                   "    \"stock\":{\n"
                                   "      \"length\":100,\n"
                                   "      \"width\":80.5,\n"
                                   "      \"thickness\":20,\n"
                                   "      \"metal\":\"steel\"\n"
                                   "    },\n"
                                   "    \"datum\":{\n"
                                   "      \"kind\":\"corner\"\n"
                                   "    },\n"
                                   "    \"mood\":\"grey\"\n"
                                   "  },\n"
                                   "  \"faces\":[\n"
                                   "    {\n"
                                   "      \"id\":2,\n"
                                   "      \"name\":\"top\",\n"
                                   "      \"kind\":\"top\"\n"
                                   "    }\n"
                                   "  ],\n"
                                   "  \"bases\":[\n"
                                   "  ],\n"
                                   "  \"parts\":[\n"
                                   "  ],\n"
                                   "  \"stations\":[\n"
                                   "  ],\n"
                                   "  \"holes\":[\n"
                                   "    {\n"
                                   "      \"id\":7,\n"
                                   "      \"face\":2,\n"
                                   "      \"at\":[10.000001, 20],\n"
                                   "      \"steps\":[\n"
                                   "        {\n"
                                   "          \"kind\":\"ream\",\n"
                                   "          \"diameter\":6,\n"
                                   "          \"depth\":8,\n"
                                   "          \"reamer\":3\n"
                                   "        }\n"
                                   "      ],\n"
                                   "      \"label\":\"\\\"a\\\\b/\\t\\u0007\xc3\xa9\",\n"
                                   "      \"finish\":\"fine\"\n"
                                   "    }\n"
                                   "  ],\n"
                                   "  \"recesses\":[\n"
                                   "  ],\n"
                                   "  \"fittings\":[\n"
                                   "  ],\n"
                                   "  \"keep_clears\":[\n"
                                   "  ],\n"
                                   "  \"operations\":[\n"
                                   "  ],\n"
                                   "  \"col\\\"our\":[\n"
                                   "    1,\n"
                                   "    {\n"
                                   "      \"a\":2.50,\n"
                                   "      \"b\":{\n"
                                   "      }\n"
                                   "    }\n"
                                   "  ]\n"
                                   "}\n";

static void test_written_byte_for_byte(void **state)
{
    size_t size;
    char *with_label =
        with("\"finish\"", "\"label\": \"\\\"a\\\\b\\/\\t\\u0007\\u00e9\", \"finish\"");
    char **halves = g_strsplit(with_label, "\"colour\": [1, {\"a\": 2.50}]", 2);
    char *given =
        g_strconcat(halves[0], "\"col\\\"our\": [1, {\"a\": 2.50, \"b\": {}}]", halves[1], NULL);
    Plate *plate = plate_parse(given, strlen(given), NULL);
    assert_non_null(plate);
    char *text = plate_text(plate, &size);
    assert_string_equal(text, written);
    assert_int_equal(size, strlen(written));
    g_free(text);
    g_free(given);
    g_strfreev(halves);
    g_free(with_label);
    plate_free(plate);
}

/* A group's struct has no room for them: what it stands in keeps them. */
static void test_unknown_keys_of_groups_are_kept(void **state)
{
    size_t size, size_again;
    char *given = with("\"thickness\": 20, ", "\"thickness\": 20, \"coat\": {\"um\": [2.50]}, ");
    Plate *plate = plate_parse(given, strlen(given), NULL);
    assert_non_null(plate);
    char *text = plate_text(plate, &size);
    assert_non_null(strstr(text, "      \"metal\":\"steel\",\n"
                                 "      \"coat\":{\n"
                                 "        \"um\":[\n"
                                 "          2.50\n"
                                 "        ]\n"
                                 "      }\n"
                                 "    },\n"));
    assert_non_null(strstr(text, "\"mood\":\"grey\"\n  },"));
    Plate *again = plate_parse(text, size, NULL);
    char *text_again = plate_text(again, &size_again);
    assert_string_equal(text, text_again);
    assert_true(plate_equal(plate, again));
    g_free(text);
    g_free(text_again);
    g_free(given);
    plate_free(plate);
    plate_free(again);
}

static void test_locale_changes_nothing(void **state)
{
    size_t size, other_size;
    Plate *plate = plate_parse(whole, strlen(whole), NULL);
    char *text = plate_text(plate, &size);
    /* Any of these that the machine has writes 1,5 for one and a half. */
    if (setlocale(LC_ALL, "de_DE.UTF-8") || setlocale(LC_ALL, "fr_FR.UTF-8")) {
        char *other = plate_text(plate, &other_size);
        assert_string_equal(text, other);
        Plate *again = plate_parse(other, other_size, NULL);
        assert_true(plate_equal(plate, again));
        plate_free(again);
        g_free(other);
    }
    setlocale(LC_ALL, "C");
    g_free(text);
    plate_free(plate);
}

static void refuse(const char *what, const char *by, const char *place, const char *why)
{
    Error error = {.kind = ERROR_NONE};
    char *text = with(what, by);
    Plate *plate = plate_parse(text, strlen(text), &error);
    if (plate)
        fail_msg("%s instead of %s was taken", by, what);
    if (!strstr(error.place, place) || !strstr(error.message, why))
        fail_msg("%s instead of %s: \"%s\", \"%s\"", by, what, error.place, error.message);
    g_free(text);
}

static void test_wrong_fields_are_named(void **state)
{
    refuse("\"version\": 1", "\"version\": 2", "version", "newer than this program knows");
    refuse("\"pinplate-plate\"", "\"pinplate-part\"", "format", "is needed here");
    refuse("\"diameter\": 6", "\"diameter\": \"6\"", "holes[0].steps[0].diameter", "a number");
    refuse("\"diameter\": 6", "\"diameter\": 0", "holes[0].steps[0].diameter", "not between");
    refuse("\"diameter\": 6", "\"diameter\": 6.0000001", "holes[0].steps[0].diameter",
           "more than six");
    refuse("\"diameter\": 6", "\"diameter\": 1e9", "holes[0].steps[0].diameter", "not between");
    refuse("\"diameter\": 6", "\"diameter\": null", "holes[0].steps[0].diameter", "a number");
    refuse("\"diameter\": 6, ", "", "holes[0].steps[0].diameter", "is missing");
    refuse("\"kind\": \"ream\"", "\"kind\": \"saw\"", "holes[0].steps[0].kind", "is not one of");
    refuse("[10.000001, 2e1]", "[10.000001]", "holes[0].at", "a place");
    refuse("\"face\": 2, \"at\"", "\"face\": 7, \"at\"", "hole 7", "which is a hole");
    refuse("\"face\": 2, \"at\"", "\"face\": 70, \"at\"", "hole 7", "does not exist");
    refuse("\"face\": 2, \"at\"", "\"face\": 0, \"at\"", "hole 7", "one is needed");
    refuse("\"id\": 7", "\"id\": 2", "holes[0]", "used twice");
    refuse("\"id\": 7", "\"id\": -7", "holes[0].id", "a whole number");
    refuse("\"faces\": [", "\"faces\": 3, \"x\": [", "faces", "a list");
    refuse("\"kind\": \"top\"", "\"kind\": \"inclined\"", "face", "the face top");
}

static void refuse_json(const char *text, size_t size, const char *why)
{
    Error error = {.kind = ERROR_NONE};
    json_object *json = json_strict_parse(text, size, &error);
    if (json || !strstr(error.message, why))
        fail_msg("%.40s: %s", text, json ? "was taken" : error.message);
}

static void test_strict_json(void **state)
{
    /* What json-c's strict mode lets through, and what RFC 8259 forbids. */
    static const struct {
        const char *text, *why;
    } cases[] = {
        {"", "ends"},
        {"[NaN]", "not JSON"},
        {"[nan]", "not JSON"},
        {"[Infinity]", "not JSON"},
        {"[-Infinity]", "a digit"},
        {"[1.]", "a digit"},
        {"[.5]", "not JSON"},
        {"[01]", "begin with 0"},
        {"[+1]", "not JSON"},
        {"[1e]", "a digit"},
        {"[0x10]", "a comma"},
        {"[9223372036854775808]", "too large"},
        {"{\"a\": 1, \"a\": 2}", "twice"},
        {"[1,]", "not JSON"},
        {"{\"a\": 1,}", "quotes"},
        {"{a: 1}", "quotes"},
        {"['a']", "not JSON"},
        {"[\"a\nb\"]", "control"},
        {"[\"\\x\"]", "backslash"},
        {"[\"\\u12g4\"]", "hexadecimal"},
        {"[1] 2", "after the end"},
        {"[1", "comma or a closing"},
        {"{\"a\"", "colon"},
        {"[1 /* one */]", "comma or a closing"},
        {"[tru]", "not JSON"},
        {"[\"\xff\"]", "UTF-8"},
        {"[\"\xed\xa0\x80\"]", "UTF-8"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++)
        refuse_json(cases[i].text, strlen(cases[i].text), cases[i].why);
    Error error = {.kind = ERROR_NONE};
    const char *good = "{\"a\": [1, -2.5e-3, true, false, null, \"\\u00e9\\n\"]}\n";
    json_object *json = json_strict_parse(good, strlen(good), &error);
    assert_non_null(json);
    json_object_put(json);
}

static void test_limits_of_json(void **state)
{
    /* One bracket less than the limit is taken, one more refused. */
    for (int over = 0; over < 2; over++) {
        int depth = JSON_DEPTH_MOST + over;
        GString *text = g_string_new(NULL);
        for (int i = 0; i < depth; i++)
            g_string_append_c(text, '[');
        for (int i = 0; i < depth; i++)
            g_string_append_c(text, ']');
        json_object *json = json_strict_parse(text->str, text->len, NULL);
        assert_int_equal(json == NULL, over);
        json_object_put(json);
        g_string_free(text, TRUE);
    }
    for (int over = 0; over < 2; over++) {
        GString *text = g_string_new("{");
        for (int i = 0; i < JSON_KEYS_MOST + over; i++)
            g_string_append_printf(text, "%s\"%d\": 0", i ? ", " : "", i);
        g_string_append_c(text, '}');
        json_object *json = json_strict_parse(text->str, text->len, NULL);
        assert_int_equal(json == NULL, over);
        json_object_put(json);
        g_string_free(text, TRUE);
    }
}

/* What has to be there is written when it is empty too, so that the file can be read again. */
static void test_empty_names_come_back(void **state)
{
    static const char file[] =
        "{\"format\":\"pinplate-plate\",\"version\":1,\"plate\":{\"id\":1,\"unit\":\"mm\","
        "\"stock\":{"
        "\"length\":100,\"width\":40,\"thickness\":20,\"metal\":\"steel\"},\"datum\":{\"kind\":"
        "\"corner\"},\"revisions\":[{\"letter\":\"\",\"what\":\"first\"}]},\"faces\":[{\"id\":2,"
        "\"name\":\"\",\"kind\":\"top\"}],\"operations\":[{\"id\":3,\"name\":\"\",\"kind\":"
        "\"running\"}]}";
    Error error = {.kind = ERROR_NONE};
    size_t size;
    Plate *plate = plate_parse(file, strlen(file), &error);
    assert_string_equal(error.message, "");
    assert_non_null(plate);
    char *text = plate_text(plate, &size);
    Plate *again = plate_parse(text, size, &error);
    assert_string_equal(error.message, "");
    assert_non_null(again);
    assert_true(plate_equal(plate, again));
    plate_free(again);
    plate_free(plate);
    g_free(text);
}

/* A list of so many items, itself counted in. */
static bool takes_items(const char *item, int values)
{
    GString *text = g_string_new("[");
    for (int i = 1; i < values; i++)
        g_string_append_printf(text, "%s%s", i > 1 ? "," : "", item);
    g_string_append_c(text, ']');
    bool taken = json_strict_check(text->str, text->len, NULL);
    g_string_free(text, TRUE);
    return taken;
}

static void test_limits_of_counts(void **state)
{
    assert_true(takes_items("[]", JSON_BRACKETS_MOST));
    assert_false(takes_items("[]", JSON_BRACKETS_MOST + 1));
    assert_true(takes_items("0", JSON_VALUES_MOST));
    assert_false(takes_items("0", JSON_VALUES_MOST + 1));
}

/* `whole` with a name of so many letters, and so many stations named by an operation. */
static bool takes(int letters, int entries)
{
    Error error = {.kind = ERROR_NONE};
    GString *text = g_string_new(whole);
    g_string_truncate(text, text->len - 1);
    g_string_append(text, ", \"operations\": [{\"id\": 9, \"kind\": \"making\", \"name\": \"");
    for (int i = 0; i < letters; i++)
        g_string_append_c(text, 'x');
    g_string_append(text, "\", \"stations\": [");
    for (int i = 0; i < entries; i++)
        g_string_append(text, i ? ", 8" : "8");
    g_string_append(text, "]}], \"parts\": [{\"id\": 6, \"name\": \"p\", \"rings\": [{\"nodes\": "
                          "[[0, 0], [9, 0], [9, 9]]}]}], \"stations\": [{\"id\": 8, \"face\": 2, "
                          "\"part\": 6, \"at\": [1, 1]}]}");
    Plate *plate = plate_parse(text->str, text->len, &error);
    bool taken = plate != NULL;
    if (!taken)
        assert_int_equal(error.kind, ERROR_LIMIT);
    plate_free(plate);
    g_string_free(text, TRUE);
    return taken;
}

static void test_limits_of_plates(void **state)
{
    assert_true(takes(TEXT_MOST, 1));
    assert_false(takes(TEXT_MOST + 1, 1));
    assert_true(takes(1, LIST_MOST));
    assert_false(takes(1, LIST_MOST + 1));
    char *highest = with("\"id\": 7", "\"id\": 9999999");
    Plate *plate = plate_parse(highest, strlen(highest), NULL);
    assert_non_null(plate);
    assert_int_equal(plate_find(plate, ID_MOST - 1)->kind, RECORD_HOLE);
    plate_free(plate);
    g_free(highest);
    refuse("\"id\": 7", "\"id\": 10000000", "holes[0].id", "a whole number");
}

static void test_limit_of_size(void **state)
{
    /* A file of holes on the disk, as large as may be and one byte larger. */
    char *name = g_build_filename(g_get_tmp_dir(), "pinplate-size-XXXXXX", NULL);
    int file = g_mkstemp(name);
    size_t size;
    for (int over = 0; over < 2; over++) {
        Error error = {.kind = ERROR_NONE};
        assert_int_equal(ftruncate(file, (off_t)JSON_BYTES_MOST + over), 0);
        char *bytes = read_bytes(name, JSON_BYTES_MOST, &size, NULL, &error);
        assert_int_equal(bytes == NULL, over);
        if (over)
            assert_int_equal(error.kind, ERROR_LIMIT);
        g_free(bytes);
    }
    close(file);
    g_unlink(name);
    g_free(name);
}

static void test_every_cut_is_refused(void **state)
{
    for (size_t length = 0; length < strlen(whole); length++) {
        Error error = {.kind = ERROR_NONE};
        char *text = g_strndup(whole, length);
        assert_null(plate_parse(text, length, &error));
        assert_true(error.kind != ERROR_NONE && *error.message);
        g_free(text);
    }
}

static void test_parts(void **state)
{
    size_t size, size_again;
    const double holes[] = {5, 5, 4};
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    FeatureId id = put_part(plate, 40, 10, 3, 1, holes);
    char *text = part_text(&plate_find(plate, id)->part, &size);
    Record *again = part_parse(text, size, NULL);
    assert_non_null(again);
    char *text_again = part_text(&again->part, &size_again);
    assert_string_equal(text, text_again);
    /* An outline that crosses itself is refused with its place. */
    char *crossed = strstr(text, "[40, 0]");
    assert_non_null(crossed);
    memcpy(crossed, "[40,20]", 7);
    Error error = {.kind = ERROR_NONE};
    assert_null(part_parse(text, size, &error));
    assert_int_equal(error.kind, ERROR_GEOMETRY);
    record_unref(again);
    g_free(text);
    g_free(text_again);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_bytes),
        cmocka_unit_test(test_unknown_keys_are_kept),
        cmocka_unit_test(test_written_byte_for_byte),
        cmocka_unit_test(test_unknown_keys_of_groups_are_kept),
        cmocka_unit_test(test_locale_changes_nothing),
        cmocka_unit_test(test_wrong_fields_are_named),
        cmocka_unit_test(test_strict_json),
        cmocka_unit_test(test_limits_of_json),
        cmocka_unit_test(test_limits_of_counts),
        cmocka_unit_test(test_limits_of_plates),
        cmocka_unit_test(test_limit_of_size),
        cmocka_unit_test(test_every_cut_is_refused),
        cmocka_unit_test(test_parts),
        cmocka_unit_test(test_empty_names_come_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
