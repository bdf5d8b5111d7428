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
    FeatureId asked;   /* a record shown in place of the selection */
    FeatureId shown;   /* ID_NONE: several things */
    FeatureId built;   /* whose rows there are */
    DetailSpot wanted; /* has the focus once the rows are built anew; no field: nobody */
    char *shape;       /* which fields there are: another shape is built anew */
    GPtrArray *bound;  /* Bound */
    gboolean filling;
};

/* A field and the widget that shows it. */
typedef struct Bound {
    PinDetails *details;
    DetailSpot spot;
    GtkWidget *widget;
    GArray *records;  /* FeatureId, of a choice of a record */
    FeatureId member; /* of a check for one of several records */
} Bound;

/* --- details.c --- */
/* What is shown; NULL for several things. */
const Record *details_record(PinDetails *details);
/* Brings all that is shown in step with the plate. */
void details_update(PinDetails *details);

/* --- details-rows.c: a row for each field --- */
/* Adds the rows of the record that is shown. */
void details_add_record(PinDetails *details, const Record *record);
/* Adds the rows of the body's fields, or of one of a list's. */
void details_add_fields(PinDetails *details, const DetailList *list, guint index,
                        const DetailField *fields, size_t count);
void details_add_heading(PinDetails *details, const char *text);
GtkWidget *details_add_button(PinDetails *details, const char *text, GCallback pressed);
/* A widget beside its name. */
GtkWidget *details_named(const char *name, GtkWidget *widget);
Bound *details_bind(PinDetails *details, DetailSpot spot, GtkWidget *widget);
/* Frees a Bound; its widget must still be there. */
void details_bound_free(gpointer bound);

/* --- details-choices.c: rows that are chosen or checked, not typed --- */
void details_add_choice(PinDetails *details, DetailSpot spot);
void details_add_part_hole(PinDetails *details, DetailSpot spot);
void details_add_record_choice(PinDetails *details, DetailSpot spot);
void details_add_record_checks(PinDetails *details, DetailSpot spot);
void details_add_check(PinDetails *details, DetailSpot spot);
/* Shows what the record has. */
void details_fill_choice(Bound *bound, const Record *record);

/* --- details-lists.c: lists of structs, as steps and passes --- */
void details_add_list(PinDetails *details, const DetailList *list);

/* --- details-extras.c: what can be done with the record that is shown --- */
void details_add_extras(PinDetails *details, const Record *record);
/* What decides which of them there are. */
void details_add_extras_shape(PinDetails *details, GString *shape, const Record *record);

/* --- details-marks.c: the fields that findings are about --- */
void details_mark(PinDetails *details);

/* --- details-several.c --- */
/* Adds the rows for several things that are selected. */
void details_add_several(PinDetails *details);
