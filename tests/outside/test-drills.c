/* Every number and letter drill against GNU units, which has its own tables of them. */
#include "trade/drill.h"

#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* What `units -t` answers, in inches. */
static double asked(const char *of)
{
    const char *arguments[] = {"units", "-t", of, "in", NULL};
    char *answer = NULL;
    GError *error = NULL;
    int status = 1;
    if (!g_spawn_sync(NULL, (char **)(uintptr_t)arguments, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL,
                      &answer, NULL, &status, &error))
        fail_msg("GNU units can't be run: %s", error->message);
    assert_int_equal(status, 0);
    double inches = g_ascii_strtod(answer, NULL);
    g_free(answer);
    return inches;
}

static void check(const char *name, const char *of)
{
    const Drill *drill = drill_find(name, NULL);
    assert_non_null(drill);
    double difference = asked(of) * (double)LENGTH_INCH - (double)drill->diameter;
    if (difference > 1 || difference < -1)
        fail_msg("%s differs from GNU units by %.0f nm", name, difference);
}

static void number_drills_agree(void **state)
{
    for (int number = 1; number <= 97; number++) {
        char name[8], of[32];
        g_snprintf(name, sizeof name, "#%d", number);
        g_snprintf(of, sizeof of, "drillgauge(%d)", number);
        check(name, of);
    }
}

static void letter_drills_agree(void **state)
{
    for (char letter = 'A'; letter <= 'Z'; letter++) {
        char of[32];
        g_snprintf(of, sizeof of, "drill%c", letter);
        check((char[]){letter, '\0'}, of);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(number_drills_agree),
        cmocka_unit_test(letter_drills_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
