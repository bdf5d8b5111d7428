/* editor.h: the editor's window, as main.c starts it. */
#pragma once

/* Runs the editor until its last window is closed. `argv` is the program's name and, where there is
 * one, the file to open. Returns the program's exit status: 2, with a line on stderr, where there
 * is no display. */
int editor_run(int argc, char **argv);
