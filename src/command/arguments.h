/* arguments.h: what stands behind a subcommand's name: names of files, and --options. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"
#include "trade/unit.h"

#include <stdbool.h>

#define POSITIONS_MOST 4
#define OPTIONS_MOST 16

typedef struct Arguments {
    const char *positions[POSITIONS_MOST];
    int position_count;
    const char *names[OPTIONS_MOST];  /* without the dashes */
    const char *values[OPTIONS_MOST]; /* NULL for a flag */
    int option_count;
} Arguments;

/* Reads argv[2] on. `flags` and `valued` name the options without and with a value, separated by
 * spaces. False with an error on any other option, a missing value, or too much. */
bool arguments_read(int argc, char **argv, const char *flags, const char *valued,
                    Arguments *arguments, Error *error);
bool arguments_flag(const Arguments *arguments, const char *name);
/* NULL when it was not given. */
const char *arguments_value(const Arguments *arguments, const char *name);
/* False with an error unless there are just `count` names. `usage` says how to call it. */
bool arguments_need(const Arguments *arguments, int count, const char *usage, Error *error);
/* Where to write: the option --to, whose file's name must end in one of `endings` (separated by
 * spaces), so that no other file is written over by a slip. NULL with an error otherwise. */
const char *arguments_to(const Arguments *arguments, const char *endings, Error *error);
/* A length option; 0 when it was not given. */
bool arguments_length(const Arguments *arguments, const char *name, Unit unit, Length *length,
                      Error *error);
