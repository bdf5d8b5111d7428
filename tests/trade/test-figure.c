/* Asking for a figure as a command line does, its JSON, and what is refused. */
#include "trade/figure.h"

#include <glib.h>
#include <json-c/json.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static Figure figure;

static bool ask(const char *line, Error *error)
{
    int count = 0;
    char **words = NULL;
    assert_true(!*line || g_shell_parse_argv(line, &count, &words, NULL));
    bool fine = figure_work_out(count, words, &figure, error);
    /* Figures keep no pointer into what they were asked with. */
    for (int i = 0; i < count; i++)
        memset(words[i], 'x', strlen(words[i]));
    g_strfreev(words);
    return fine;
}

static void asked(const char *line)
{
    Error error = {0};
    if (!ask(line, &error))
        fail_msg("%s: %s: %s", line, error.place, error.message);
    assert_true(figure.result_count > 0 && *figure.formula && *figure.source);
}

static Length length_of(const char *name)
{
    const FigureValue *value = figure_result(&figure, name);
    if (!value || value->kind != FIGURE_LENGTH)
        fail_msg("there is no length %s", name);
    return value->length;
}

static double number_of(const char *name)
{
    const FigureValue *value = figure_result(&figure, name);
    if (!value || value->kind == FIGURE_LENGTH || value->kind == FIGURE_TEXT)
        fail_msg("there is no number %s", name);
    return value->number;
}

static const char *text_of(const char *name)
{
    const FigureValue *value = figure_result(&figure, name);
    if (!value || value->kind != FIGURE_TEXT)
        fail_msg("there is no text %s", name);
    return value->text;
}

static void the_call_forms_of_the_manual(void **state)
{
    asked("thread M8x1.25");
    assert_int_equal(length_of("tap_drill"), 6800000);
    assert_true(fabs(number_of("tensile_area") - 36.6) < 0.05);
    asked("drill '#43'");
    assert_int_equal(length_of("diameter"), 2260600);
    asked("tap 1/4-20 --drill 0.201in");
    assert_true(fabs(number_of("per_cent_thread") - 75.4) < 0.1);
    assert_string_equal(text_of("tap_drill_name"), "drill No. 7, 0.2010 in");
    asked("fit 10H7/g6");
    assert_int_equal(length_of("clearance_least"), 5000);
    assert_int_equal(length_of("clearance_greatest"), 29000);
    asked("bevel --thickness 3.2mm --edge 0.5mm --angle 7.5");
    assert_true(llabs(length_of("height") - 10254272) < 1000);
    asked("sine --length 10in --angle 5");
    assert_true(llabs(length_of("stack") - 22137558) < 1000);
    assert_non_null(strstr(text_of("set"), "81 blocks"));
}

static void more_ways_to_ask(void **state)
{
    asked("drill 5.05mm");
    assert_non_null(strstr(text_of("at_or_below"), "5 mm"));
    asked("drill 0.2 --unit in --series metric");
    assert_string_equal(text_of("nearest"), "drill 5.1 mm");
    asked("drill F");
    assert_int_equal(length_of("at_or_below_diameter"), 6500000);
    asked("tap M6 --form");
    assert_true(length_of("tap_drill") > 5400000);
    asked("tap M6 --depth 12mm --kind bottoming");
    assert_int_equal(length_of("drill_depth"), 15000000);
    asked("tap M6 --per-cent=60");
    assert_int_equal(length_of("tap_drill"), 5200000);
    asked("engagement 8-32 --plate 6061-T6 --length 0.15in");
    assert_string_equal(text_of("fails_by"), "the plate's thread strips");
    asked("fit 0.25in --hole 0.2495in:0.2500in --shaft 0.2503in:0.2501in");
    assert_int_equal(length_of("clearance_greatest"), -2540);
    assert_string_equal(text_of("meaning"), "will not go");
    asked("bevel --thickness 0.120 --edge 0.015 --height 0.5 --unit in");
    assert_true(fabs(number_of("angle") - 5.994) < 0.001);
    asked("bevel --thickness 3.2mm --edge 0.5mm --angle 7.5 --width 8mm --cutter 10mm --ball 6mm "
          "--cusp 2um --thicker 0.1mm --beyond 1mm");
    assert_string_equal(text_of("runs_out"), "yes");
    asked("cusp --cutter 3/16in --cusp 0.000133in");
    assert_true(llabs(length_of("step") - 254000) < 1000);
    asked("location-error --distance 50mm --clearance 0.02mm");
    assert_int_equal(length_of("shift_greatest"), 10000);
    asked("location-error --distance 50mm --clearance 0.02mm --along -20mm --temperature 10 --part "
          "'420 hardened' --plate 6061-T6 --relieved");
    assert_true(length_of("shift_from_temperature") == 2660);
    asked("holding --material '420 annealed' --cutter 6mm --width 1mm --depth 3mm --feed 0.02mm "
          "--screw M5 --screws 2 --torque 4 --overhang 4mm --edge 0.5mm --strip 5mm");
    assert_string_equal(text_of("holds"), "yes");
    asked("batch --load 4 --cut 10 --swap 1 --parts 3");
    assert_true(number_of("plates") == 2);
}

static void refused(const char *line, const char *word)
{
    Error error = {0};
    if (ask(line, &error))
        fail_msg("%s was answered", line);
    char whole[1000];
    error_line(&error, whole, sizeof whole);
    if (!strstr(whole, word))
        fail_msg("%s: \"%s\" does not say \"%s\"", line, whole, word);
}

static void what_can_not_be_worked_out_says_why(void **state)
{
    refused("", "location-error");
    refused("colour", "there is no figure \"colour\"");
    refused("thread", "thread M8x1.25");
    refused("fit", "fit 10H7/g6");
    refused("thread M9x1.5", "M8x1.25");
    refused("thread M8 M6", "one word too many");
    refused("thread M8 --colour red", "no option --colour");
    refused("drill blue", "no drill");
    refused("tap 1/4-20 --drill", "value is missing");
    refused("tap 1/4-20 --drill 0.3in", "smaller than the thread");
    refused("tap 1/4-20 --kind blunt --depth 5mm", "plug");
    refused("tap 1/4-20 --drill 1mm --drill 2mm", "twice");
    refused("engagement M6 --plate cheese", "nearest");
    refused("fit 10", "10H7/g6");
    refused("fit 10 --hole 10mm", "colon");
    refused("bevel --thickness 3mm --edge 4mm --angle 5", "thinner");
    refused("bevel --thickness 3mm --edge 1mm", "--height");
    refused("bevel --thickness 3mm --edge 1mm --angle 50", "45");
    refused("bevel --thickness 3mm --edge 1mm --angle 5x", "--angle, column 2");
    refused("sine --length 10in --angle 70", "60");
    refused("sine --angle 5", "--length is missing");
    refused("cusp --cutter 3mm --step 4mm", "no more than the cutter");
    refused("cusp --cutter 3mm", "--step");
    refused("location-error --distance 0 --clearance 0.02mm", "one place");
    refused("location-error --distance 50mm --clearance 0.02mm --temperature 10", "--part");
    refused("holding --material 1018 --cutter 6mm --width 7mm --depth 1mm --feed 0.1mm", "width");
    refused("holding --material 1018 --cutter 6mm --width 1mm --depth 1mm --feed 0.1mm --screw M5",
            "--torque");
    refused("batch --load 4 --cut 1,2,x --swap 1", "number");
    refused("drill 5mm --series blue", "letter");
    refused("thread M8 --unit ell", "mm");
}

static json_object *json_of(const char *line)
{
    asked(line);
    char *text = figure_json(&figure);
    json_object *object = json_tokener_parse(text);
    assert_non_null(object);
    g_free(text);
    return object;
}

static json_object *part(json_object *object, const char *name)
{
    json_object *value;
    if (!json_object_object_get_ex(object, name, &value))
        fail_msg("no key %s", name);
    return value;
}

static void json_has_its_shape(void **state)
{
    json_object *object = json_of("fit 10H7/g6");
    assert_string_equal(json_object_get_string(part(object, "what")), "fit");
    assert_string_equal(json_object_get_string(part(part(object, "input"), "fit")), "10H7/g6");
    json_object *result = part(object, "result");
    assert_string_equal(json_object_to_json_string(part(result, "clearance_greatest")), "0.029");
    assert_string_equal(json_object_to_json_string(part(result, "shaft_least")), "9.986");
    assert_string_equal(json_object_get_string(part(result, "meaning")), "slide");
    assert_true(json_object_is_type(part(object, "formula"), json_type_string));
    assert_true(json_object_is_type(part(object, "source"), json_type_string));
    json_object_put(object);
    object = json_of("drill '#43'");
    assert_string_equal(json_object_to_json_string(part(part(object, "result"), "diameter")),
                        "2.2606");
    json_object_put(object);
}

static void people_get_lines(void **state)
{
    asked("drill '#7'");
    char *text = figure_text(&figure, UNIT_INCH);
    assert_non_null(strstr(text, "0.2010 in (5.105 mm)"));
    assert_non_null(strstr(text, "source: ASME B94.11M"));
    g_free(text);
    asked("sine --length 5in --angle 6");
    text = figure_text(&figure, UNIT_INCH);
    assert_non_null(strstr(text, "0.000042 in (1.075 um)"));
    g_free(text);
}

static void every_figure_has_a_usage(void **state)
{
    size_t count = 0;
    while (figure_name(count)) {
        assert_non_null(figure_usage(figure_name(count)));
        assert_true(g_str_has_prefix(figure_usage(figure_name(count)), figure_name(count)));
        count++;
    }
    assert_int_equal(count, 11);
    assert_null(figure_usage("colour"));
}

/* Any words are answered; the sanitizers watch. */
static void any_words_are_answered(void **state)
{
    static const char *const words[] = {"thread",
                                        "drill",
                                        "tap",
                                        "engagement",
                                        "fit",
                                        "bevel",
                                        "sine",
                                        "cusp",
                                        "location-error",
                                        "holding",
                                        "batch",
                                        "M6",
                                        "1/4-20",
                                        "8H7/p6",
                                        "--drill",
                                        "--depth",
                                        "0",
                                        "1mm",
                                        "5",
                                        "1e9",
                                        "9999mm",
                                        "--thickness",
                                        "--edge",
                                        "--angle",
                                        "--length",
                                        "--cutter",
                                        "--step",
                                        "--distance",
                                        "--clearance",
                                        "--material",
                                        "1018",
                                        "--width",
                                        "--feed",
                                        "--load",
                                        "--cut",
                                        "--swap",
                                        "--",
                                        "--=",
                                        "--set",
                                        "--per-cent",
                                        "--form",
                                        "--relieved",
                                        "0.001um",
                                        "--screw",
                                        "--torque",
                                        "--temperature",
                                        "--part",
                                        "--plate",
                                        "--height",
                                        "--corner",
                                        "--hole",
                                        "--shaft",
                                        "1:2"};
    unsigned seed = 77;
    for (int round = 0; round < 4000; round++) {
        char *argv[24];
        int argc = 1 + rand_r(&seed) % 14;
        argv[0] = (char *)(uintptr_t)words[rand_r(&seed) % 11];
        for (int i = 1; i < argc; i++)
            argv[i] = (char *)(uintptr_t)words[(size_t)rand_r(&seed) % G_N_ELEMENTS(words)];
        Error error = {0};
        if (!figure_work_out(argc, argv, &figure, &error)) {
            assert_true(error.kind != ERROR_NONE && error.message[0]);
            continue;
        }
        char *text = figure_json(&figure);
        json_object *object = json_tokener_parse(text);
        assert_non_null(object);
        json_object_put(object);
        g_free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_call_forms_of_the_manual),
        cmocka_unit_test(more_ways_to_ask),
        cmocka_unit_test(what_can_not_be_worked_out_says_why),
        cmocka_unit_test(json_has_its_shape),
        cmocka_unit_test(people_get_lines),
        cmocka_unit_test(every_figure_has_a_usage),
        cmocka_unit_test(any_words_are_answered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
