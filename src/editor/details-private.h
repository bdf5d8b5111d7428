/* details-private.h: what the details' files share. */
#pragma once

#include "editor/detail-value.h"
#include "editor/details.h"

struct _PinDetails {
    GtkWidget parent_instance;
    GtkLabel *heading;
    GtkWidget *scroller;
    GtkBox *rows;
    PinDocument *document;
    gulong handlers[2];
    FeatureId asked;  /* a record shown in place of the selection */
    FeatureId shown;  /* ID_NONE: several things */
    char *shape;      /* which fields there are: another shape is built anew */
    GPtrArray *bound; /* Bound */
    gboolean filling;
};

/* A field and the widget that shows it. */
typedef struct Bound {
    PinDetails *details;
    DetailSpot spot;
    GtkWidget *widget;
    GArray *records; /* FeatureId, of a list of records */
} Bound;

/* --- details.c --- */
/* What is shown; NULL for several things. */
const Record *details_record(PinDetails *details);
/* Brings all that is shown in step with the plate. */
void details_update(PinDetails *details);

/* --- details-rows.c --- */
/* Adds the rows of the record that is shown. */
void details_add_record(PinDetails *details, const Record *record);
/* Frees a Bound; its widget must still be there. */
void details_bound_free(gpointer bound);

/* --- details-several.c --- */
/* Adds the rows for several things that are selected. */
void details_add_several(PinDetails *details);
