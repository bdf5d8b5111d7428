/* One program: a subcommand for scripts, or the editor. */
#include "command/command.h"
#include "editor/editor.h"
#include "trade/user-rows.h"

#include <stdio.h>
#include <string.h>

/* A row of the shop's own tables that is wrong is named and left out; the rest load. */
static void report_row(const Error *error, void *data)
{
    char line[1024];
    error_line(error, line, sizeof line);
    fprintf(stderr, "pinplate: left out: %s\n", line);
}

int main(int argc, char **argv)
{
    user_rows_load(NULL, report_row, NULL);
    if (command_is_one(argc, argv))
        return command_run(argc, argv);
    /* `pinplate edit P.plate` is `pinplate P.plate`. */
    if (argc > 1 && strcmp(argv[1], "edit") == 0) {
        argv[1] = argv[0];
        argv++;
        argc--;
    }
    return editor_run(argc, argv);
}
