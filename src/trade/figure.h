/* figure.h: one figure of the trade worked out by itself: what went in, what came out, by which
 * formula and from which source. Any of them can be printed, shown on a page or written as JSON.
 */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"
#include "trade/unit.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum FigureKind {
    FIGURE_LENGTH, /* `length`, nm */
    FIGURE_ANGLE,  /* `number`, degrees */
    FIGURE_AREA,   /* `number`, mm2 */
    FIGURE_FORCE,  /* `number`, N */
    FIGURE_STRESS, /* `number`, N/mm2 */
    FIGURE_TIME,   /* `number`, minutes */
    FIGURE_NUMBER, /* `number`, no unit */
    FIGURE_TEXT,   /* `text` */
} FigureKind;

#define FIGURE_TEXT_SIZE 160
#define FIGURE_VALUES_MOST 32

typedef struct FigureValue {
    char name[32]; /* the trade word: "tap_drill" */
    FigureKind kind;
    Length length;
    double number;
    char text[FIGURE_TEXT_SIZE];
} FigureValue;

typedef struct Figure {
    const char *what; /* "thread", "drill", … */
    FigureValue input[FIGURE_VALUES_MOST];
    size_t input_count;
    FigureValue result[FIGURE_VALUES_MOST];
    size_t result_count;
    const char *formula; /* constants, one line */
    const char *source;
} Figure;

/* Works out the figure that a command line asks for: argv[0] is the figure's name, the rest its
 * size and options, as in {"tap", "1/4-20", "--drill", "0.201in"}. Lengths are typed as
 * trade/typed.h reads them; a plain number is in mm, or inches after `--unit in`. The figures and
 * their options are listed by figure_usage. False with a sentence that says what to do. */
bool figure_work_out(int argc, char **argv, Figure *figure, Error *error);

/* The names of the figures, and for one of them a line that says how it is asked for. NULL past the
 * end, and for a figure there is none of. */
const char *figure_name(size_t index);
const char *figure_usage(const char *what);

/* The figure as JSON: {"what": …, "input": {…}, "result": {…}, "formula": "…", "source": "…"};
 * lengths in mm and exact, angles in degrees, areas in mm2, forces in N. The text is g_free'd. */
char *figure_json(const Figure *figure);

/* One value for people, with its unit: "0.2010 in (5.105 mm)", "75.4", "20.1 mm2", and lengths
 * below 10 um as "0.000042 in (1.075 um)". Returns the length of the text. */
size_t figure_value_text(const FigureValue *value, Unit unit, char *text, size_t size);

/* The whole figure for people, a line for each value, in lines that end with "\n"; g_free'd. */
char *figure_text(const Figure *figure, Unit unit);

/* The value of a name in the result, or NULL. */
const FigureValue *figure_result(const Figure *figure, const char *name);
