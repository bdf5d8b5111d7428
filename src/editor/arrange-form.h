/* arrange-form.h: a small window of typed fields for what is selected, with a picture of the plate
 * as it would be and what the checks would find, before anything is done. */
#pragma once

#include "editor/document.h"

#include <gtk/gtk.h>

#define FORM_FIELDS_MOST 6

typedef enum FormKind {
    FORM_LENGTH, /* from the datum or along an axis: either sign */
    FORM_COUNT,
    FORM_ANGLE,
    FORM_CHOICE
} FormKind;

typedef struct FormField {
    const char *name;
    FormKind kind;
    const char *inch, *mm;      /* what stands in it at first, by the plate's unit */
    const char *const *choices; /* of a choice, ends with NULL */
} FormField;

typedef union FormValue {
    Length length;
    Angle angle;
    int count, choice;
} FormValue;

typedef struct Form {
    const char *title, *what, *accept; /* in English; shown translated */
    FormField fields[FORM_FIELDS_MOST];
    guint count;
    /* Fills the edit for a session, the plate's own or the one that it is tried on. `fresh` gets
     * the numbers of new things to be selected. */
    bool (*make)(Session *session, const FeatureId *ids, guint count, const FormValue *values,
                 Edit *edit, GArray *fresh, Error *error);
} Form;

/* Opens it; `form` is static. */
void form_show(GtkWindow *parent, PinDocument *document, const Form *form);
