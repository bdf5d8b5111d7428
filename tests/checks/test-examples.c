/* The example plates: the good ones stop nowhere, and each bad one shows every rule of its kind. */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static Plate *read_example(const char *name)
{
    Error error = {.kind = ERROR_NONE};
    char *path = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", name, NULL);
    Plate *plate = plate_read(path, NULL, &error);
    if (!plate)
        fail_msg("%s: %s: %s", path, error.place, error.message);
    g_free(path);
    return plate;
}

static void check_good(const char *name)
{
    Plate *plate = read_example(name);
    FindingList findings = findings_of(plate);
    for (uint32_t i = 0; i < findings.count; i++)
        if (findings.items[i].level == LEVEL_STOP && !findings.items[i].accepted)
            fail_msg("%s: %s stops it", name, findings.items[i].rule->slug);
    finding_list_clear(&findings);
    plate_free(plate);
}

static void test_good_examples(void **state)
{
    char *folder = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", NULL);
    GDir *dir = g_dir_open(folder, 0, NULL);
    int tried = 0;
    assert_non_null(dir);
    for (const char *name = g_dir_read_name(dir); name; name = g_dir_read_name(dir)) {
        if (g_str_has_suffix(name, ".plate") && !g_str_has_prefix(name, "bad")) {
            check_good(name);
            tried++;
        }
    }
    assert_true(tried > 0);
    g_dir_close(dir);
    g_free(folder);
}

static void expect_all(const char *name, const char *const *slugs, size_t count)
{
    Plate *plate = read_example(name);
    FindingList findings = findings_of(plate);
    for (size_t i = 0; i < count; i++)
        if (count_of(&findings, slugs[i], NULL) == 0)
            fail_msg("%s shows nothing of %s", name, slugs[i]);
    finding_list_clear(&findings);
    plate_free(plate);
}

static void test_bad_hardware(void **state)
{
    static const char *const slugs[] = {
        "insert-room",   "locator-fit",      "locator-pitch",     "shoulder-length",
        "shoulder-seat", "shoulder-bearing", "shoulder-guided",   "comes-loose",
        "clamp-travel",  "clamp-height",     "clamp-backing",     "clamp-bows",
        "tap-depth",     "tap-drill",        "thread-engagement", "drill-ratio",
        "ream-stock",    "bevel-runs-out",   "edge-thins"};
    expect_all("bad-hardware.plate", slugs, G_N_ELEMENTS(slugs));
}

/* On an inclined face and in running and making; one hole of the inclined face meets one of the
 * top. */
static void test_bad_inclined(void **state)
{
    static const char *const slugs[] = {
        "cross-drilled", "wall-to-face", "spoils-locator", "turned-over-agrees", "reference-hole",
        "offcut-loose",  "nest-burr",    "lift-out",       "ream-floor",         "pin-removal",
        "drill-entry",   "one-setting",  "chip-trap"};
    expect_all("bad-inclined.plate", slugs, G_N_ELEMENTS(slugs));
}

static void test_bad_operations(void **state)
{
    static const char *const slugs[] = {"cutter-meets-hardware",
                                        "cutter-meets-neighbour",
                                        "cutter-cuts-plate",
                                        "holder-meets-clamp",
                                        "access",
                                        "exit-room",
                                        "reach",
                                        "travel",
                                        "comes-loose",
                                        "unsupported",
                                        "inside-corner"};
    expect_all("bad-operations.plate", slugs, G_N_ELEMENTS(slugs));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good_examples), cmocka_unit_test(test_bad_hardware),
        cmocka_unit_test(test_bad_inclined), cmocka_unit_test(test_bad_operations)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
