/* figures-answer.h: a figure worked out from what stands in its form, or why it can't be and which
 * field is to blame. No GTK. */
#pragma once

#include "editor/figures-form.h"
#include "trade/figure.h"

#define FIGURES_FIELDS_MOST 24

typedef struct FigureAnswer {
    gboolean worked_out; /* `figure` is good; else `problem` says why not */
    Figure figure;
    gboolean waiting; /* something is not typed yet; nothing is wrong */
    char problem[480];
    int field; /* which field is to blame, by its place in the form; -1: none */
    /* What was typed into each field was taken as this; empty: nothing to say. */
    char taken_as[FIGURES_FIELDS_MOST][160];
} FigureAnswer;

/* `texts` are those of the form's fields, in order; "" for what is not given. A number with no unit
 * is in `unit`. */
void figures_answer(const FigureForm *form, const char *const *texts, Unit unit,
                    FigureAnswer *answer);
