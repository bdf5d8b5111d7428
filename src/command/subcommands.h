/* subcommands.h: the subcommands; each lies in NAME-command.c. They return an exit code; with
 * COMMAND_FAILED the error says why. */
#pragma once

#include "command/arguments.h"
#include "command/command.h"

int check_command(int argc, char **argv, Error *error);
int draw_command(int argc, char **argv, Error *error);
int picture_command(int argc, char **argv, Error *error);
int holes_command(int argc, char **argv, Error *error);
int outline_command(int argc, char **argv, Error *error);
int figure_command(int argc, char **argv, Error *error);
int refit_command(int argc, char **argv, Error *error);
int rack_command(int argc, char **argv, Error *error);
int measured_command(int argc, char **argv, Error *error);
int program_command(int argc, char **argv, Error *error);
