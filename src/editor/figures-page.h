/* figures-page.h: one figure: its form, its answer as one types, a picture of it, the formula and
 * where it comes from, and the button that takes the answer into the selected thing.
 *
 * Signal "answered": the answer, or what can be done with it, is another. */
#pragma once

#include "editor/document.h"
#include "editor/figures-form.h"

#include <gtk/gtk.h>

typedef struct Lettering Lettering;

#define PIN_TYPE_FIGURES_PAGE (pin_figures_page_get_type())
G_DECLARE_FINAL_TYPE(PinFiguresPage, pin_figures_page, PIN, FIGURES_PAGE, GtkWidget)

/* The lettering may be NULL; then there is no picture. */
GtkWidget *pin_figures_page_new(const FigureForm *form, Lettering *lettering, Unit unit);
/* What a number with no unit is in. What was typed keeps its meaning; a form that nobody has
 * touched gets round figures of the unit. */
void pin_figures_page_set_unit(PinFiguresPage *page, Unit unit);
/* Looks anew at what is selected; `document` may be NULL. */
void pin_figures_page_look(PinFiguresPage *page, PinDocument *document);
/* The answer as it is shown, or what is wrong; and whether it can be used. */
const char *pin_figures_page_answer(PinFiguresPage *page);
gboolean pin_figures_page_usable(PinFiguresPage *page);
