/* pinplate figure: one figure of the trade. */
#include "command/subcommands.h"
#include "trade/figure.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

static void print_usage(void)
{
    puts("pinplate figure WHAT …, with --json for scripts and --unit in where plain numbers are "
         "inches:");
    for (size_t i = 0; figure_name(i); i++)
        printf("  pinplate figure %s\n", figure_usage(figure_name(i)));
}

int figure_command(int argc, char **argv, Error *error)
{
    /* The figures read their own options; this command's one is taken out first. */
    char **rest = g_new0(char *, argc + 1);
    int count = 0;
    bool json = false;
    Unit unit = UNIT_MM;
    for (int i = 2; i < argc; i++) {
        if (strcmp(argv[i], "--json") == 0)
            json = true;
        else
            rest[count++] = argv[i];
        if (strcmp(argv[i], "in") == 0 && strcmp(argv[i - 1], "--unit") == 0)
            unit = UNIT_INCH;
    }
    if (count == 0 || strcmp(rest[0], "--help") == 0) {
        g_free(rest);
        print_usage();
        return COMMAND_FINE;
    }
    Figure figure;
    bool done = figure_work_out(count, rest, &figure, error);
    if (done) {
        char *text = json ? figure_json(&figure) : figure_text(&figure, unit);
        fputs(text, stdout);
        if (!g_str_has_suffix(text, "\n"))
            puts("");
        g_free(text);
    }
    g_free(rest);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
