/* figures-words.h: a figure's results in the maker's language. */
#pragma once

#include "trade/figure.h"

#include <glib.h>

#define FIGURES_TEXT (LENGTH_PEOPLE_TEXT + FIGURE_TEXT_SIZE)

/* What a result is called: "Tap drill" for "tap_drill". Free with g_free. */
char *figures_name(const FigureValue *value);
/* Its value with its unit, lengths in both: "0.2010 in (5.105 mm)", "75.4 %". */
const char *figures_text(const FigureValue *value, Unit unit, char text[FIGURES_TEXT]);
