#include "command/command.h"

#include "command/subcommands.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

typedef struct Subcommand {
    const char *name;
    int (*run)(int argc, char **argv, Error *error);
    const char *usage;
    const char *says;
} Subcommand;

static const Subcommand subcommands[] = {
    {"check", check_command, "check P.plate [--json]", "all findings"},
    {"draw", draw_command,
     "draw P.plate --to F.pdf|F.svg [--sheet a4] [--scale 1:1] [--face NAME] "
     "[--prints drawing,holes] [--true-geometry] [--json]",
     "the plate's drawing with its hole table, or one face's geometry at 1:1 with no sheet"},
    {"picture", picture_command,
     "picture P.plate|N.platepart --to F.png|F.svg [--size N] [--finding RULE]",
     "a picture of the layout, of a finding of the rule, or of the part; with --findings FOLDER one "
     "of each rule"},
    {"holes", holes_command, "holes P.plate --to F.csv [--json]", "the hole table"},
    {"outline", outline_command,
     "outline F.svg|F.csv --to F.platepart [--thickness T] [--name N] [--material M] "
     "[--width W] [--height H] [--unit in|mm] [--json]",
     "an outline read in as a part"},
    {"refit", refit_command, "refit P.plate N.platepart [--single] [--all] [--json]",
     "where and how part N fits on plate P, best first"},
    {"rack", rack_command, "rack FOLDER N.platepart [--unit in|mm] [--no-index] [--all] [--json]",
     "which plates of a folder take part N, best first"},
    {"measured", measured_command,
     "measured P.plate TABLE.csv [--unit in|mm] [--face NAME] [--from-below] [--tolerance T] "
     "[--reach R] [--json]\n"
     "  pinplate measured TABLE.csv --to P.plate --thickness T [--length L] [--width W] "
     "[--margin M] [--unit in|mm]",
     "a plate as measured against the plate as drawn, or made from what was measured"},
    {"program", program_command,
     "program P.plate --operation NAME --to F.nc --unit-word G71 --offset G54 "
     "--length-offset G43 --moves longhand|cycles --feeds machine|F.csv [--face NAME] "
     "[--safe-height H] [--change-height H] [--tapping] [--line-numbers] [--json]",
     "a drilling program; what controls differ in has to be chosen"},
    {"figure", figure_command, "figure WHAT … [--json]", "one figure of the trade"},
};

static const Subcommand *find(const char *name)
{
    for (size_t i = 0; i < G_N_ELEMENTS(subcommands); i++)
        if (strcmp(subcommands[i].name, name) == 0)
            return &subcommands[i];
    return NULL;
}

static bool asks_for(const char *word, const char *option)
{
    return strcmp(word, option) == 0;
}

bool command_is_one(int argc, char **argv)
{
    return argc > 1 && (find(argv[1]) || asks_for(argv[1], "--help") || asks_for(argv[1], "-h") ||
                        asks_for(argv[1], "--version"));
}

static int print_help(void)
{
    puts("pinplate lays out, checks and draws the fixture plates a small shop mills its parts on.\n"
         "\n"
         "  pinplate [P.plate]            opens the editor\n"
         "  pinplate edit P.plate         the same");
    for (size_t i = 0; i < G_N_ELEMENTS(subcommands); i++)
        printf("  pinplate %s\n        %s\n", subcommands[i].usage, subcommands[i].says);
    puts("\nA command ends with 0 (fine), 1 (the answer is no) or 2 (could not be done, and why).");
    return COMMAND_FINE;
}

int command_run(int argc, char **argv)
{
    const Subcommand *subcommand = find(argv[1]);
    if (!subcommand && asks_for(argv[1], "--version")) {
        puts("pinplate " PINPLATE_VERSION);
        return COMMAND_FINE;
    }
    if (!subcommand)
        return print_help();
    Error error = {.kind = ERROR_NONE};
    int code = subcommand->run(argc, argv, &error);
    if (code == COMMAND_FAILED) {
        char line[1024];
        error_line(&error, line, sizeof line);
        fprintf(stderr, "pinplate: %s\n", line);
    }
    return code;
}
