/* figure-build.h: how the parts of src/trade fill a Figure. Private to src/trade. */
#pragma once

#include "geometry/words.h"
#include "trade/figure.h"
#include "trade/material.h"
#include "trade/thread.h"

/* One way to ask for a figure. */
typedef struct FigureOption {
    const char *name; /* "drill" for --drill */
    const char *text; /* what was typed, or NULL */
} FigureOption;

#define FIGURE_OPTIONS_MOST 20

typedef struct FigureRequest {
    Figure *figure; /* takes the inputs as they are read */
    const char *what;
    const char *size; /* the argument that is no option, or NULL */
    FigureOption options[FIGURE_OPTIONS_MOST];
    size_t option_count;
    Unit unit;
} FigureRequest;

/* Text, or NULL where the option was not given. */
const char *request_text(const FigureRequest *request, const char *name);

/* The argument that is no option; false with the figure's usage when there is none. */
bool request_size(const FigureRequest *request, const char **size, Error *error);

/* Each reads an option's value; the third says whether it must be there. Where it is not given the
 * value is left as it stands. Errors name the option. What was given, and what is used in its place
 * unless that is 0, becomes an input of the figure. */
bool request_length(const FigureRequest *request, const char *name, bool needed, Length *length,
                    Error *error);
bool request_angle(const FigureRequest *request, const char *name, bool needed, double *degrees,
                   Error *error);
bool request_number(const FigureRequest *request, const char *name, bool needed, double least,
                    double greatest, double *number, Error *error);
bool request_count(const FigureRequest *request, const char *name, bool needed, int least,
                   int greatest, int *count, Error *error);
/* A length that may lie on either side of 0. */
bool request_place(const FigureRequest *request, const char *name, Length *length, Error *error);
/* A row of the table of threads, by the argument that is no option. */
const Thread *request_thread(const FigureRequest *request, Error *error);
/* A row of the table of materials; `usual` where the option is not given. NULL with an error. */
const Material *request_material(const FigureRequest *request, const char *name, const char *usual,
                                 Error *error);
/* A drill's name, or a length that is no drill of the list (1.25mm). */
bool drill_or_length(const char *name, Unit unit, Length *diameter, Error *error);

void figure_input_length(Figure *figure, const char *name, Length length);
void figure_input_number(Figure *figure, const char *name, FigureKind kind, double number);
void figure_input_text(Figure *figure, const char *name, const char *text);
void figure_put_length(Figure *figure, const char *name, Length length);
/* A worked-out length in mm, rounded to the nanometre. */
void figure_put_mm(Figure *figure, const char *name, double mm);
void figure_put_number(Figure *figure, const char *name, FigureKind kind, double number);
void figure_put_text(Figure *figure, const char *name, const char *text);

/* The figures, each in a file of its own. */
bool figure_of_thread(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_drill(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_tap(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_engagement(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_fit(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_bevel(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_sine(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_cusp(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_location_error(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_holding(const FigureRequest *request, Figure *figure, Error *error);
bool figure_of_batch(const FigureRequest *request, Figure *figure, Error *error);
