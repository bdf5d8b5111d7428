/* command.h: the program as a command for scripts. Each subcommand has a file of its own. */
#pragma once

#include "geometry/error.h"

#include <stdbool.h>

/* Exit codes of every subcommand. */
#define COMMAND_FINE 0
#define COMMAND_NO 1     /* the answer is no: a stop, no fit */
#define COMMAND_FAILED 2 /* could not be done */

/* True when argv[1] names a subcommand that is carried out here, or asks for help or the version.
 */
bool command_is_one(int argc, char **argv);
/* Carries it out and returns the exit code. */
int command_run(int argc, char **argv);
