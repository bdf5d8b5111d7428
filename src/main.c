/* One program: a subcommand for scripts, or the editor. */
#include "command/command.h"
#include "editor/editor.h"

#include <locale.h>
#include <string.h>

int main(int argc, char **argv)
{
    if (command_is_one(argc, argv))
        return command_run(argc, argv);
    /* `pinplate edit P.plate` is `pinplate P.plate`. */
    if (argc > 1 && strcmp(argv[1], "edit") == 0) {
        argv[1] = argv[0];
        argv++;
        argc--;
    }
    setlocale(LC_ALL, "");
    return editor_run(argc, argv);
}
