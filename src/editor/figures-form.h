/* figures-form.h: what each figure is asked with on its page: fields, their kinds and what stands
 * in them at first. */
#pragma once

#include <glib.h>

typedef enum FormKind {
    FORM_HEADING, /* words between fields */
    FORM_THREAD,  /* the figure's size: a thread */
    FORM_DRILL,   /* the figure's size: a drill or a length */
    FORM_FIT,     /* the figure's size: a fit, or a nominal size */
    FORM_HOLE,    /* a drill or a length */
    FORM_LENGTH,
    FORM_ANGLE,
    FORM_NUMBER,
    FORM_TEXT,
    FORM_CHOICE,
    FORM_MATERIAL,
    FORM_FLAG, /* said or not said */
} FormKind;

typedef struct FormField {
    FormKind kind;
    const char *option; /* as the command has it, without its dashes; NULL: the figure's size */
    const char *name;   /* to be translated */
    /* What stands in it at first, where plain numbers are inches and where they are mm. Of a choice
     * the one that is chosen. NULL: nothing. */
    const char *inch, *mm;
    gboolean needed;
    const char *instead;      /* an option that is emptied when this one is typed */
    const char *const *words; /* of a choice: what is said to the figure, "" for nothing, and… */
    const char *const *names; /* … what is shown, to be translated; NULL-ended both */
} FormField;

typedef struct FigureForm {
    const char *what;
    const char *title;       /* to be translated, as is the next */
    const char *picture;     /* what its picture shows */
    const FormField *fields; /* ends with one that has no name */
    const char *answer;      /* the result that matters most */
} FigureForm;

/* The forms in the order they are listed; NULL past the end. */
const FigureForm *figure_form(gsize index);
