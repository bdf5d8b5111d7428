/* figures-use.h: what a figure's answer can do for the thing that is selected. */
#pragma once

#include "plate/record.h"
#include "trade/figure.h"

#include <glib.h>

typedef enum FigureUsed {
    USE_NOTHING, /* nothing that the answer is surely meant for */
    USE_MADE,    /* the thing stands in metal */
    USE_LOCKED,
    USE_SAME, /* it is so already */
    USE_OFFERED,
} FigureUsed;

typedef struct FigureUse {
    FigureUsed used;
    Record *after;  /* the thing as it would be; the caller's. NULL unless it is offered */
    char name[64];  /* for the undo list: "Use the tap drill" */
    char words[96]; /* for the button: "Use for its drill" */
} FigureUse;

/* Only where it is sure what the answer is meant for: a drill's diameter where the hole has one
 * drill, a thread's drill and depths with it, a fit's limits where it has one reamer. `record` may
 * be NULL. */
FigureUse figures_use(const Figure *figure, const Record *record);

/* True for the figures whose answer can be used at all. */
gboolean figures_use_any(const char *what);
