/* figure.h: lengths and angles as a drawing writes them. */
#pragma once

#include "geometry/angle.h"
#include "geometry/length.h"
#include "plate/settings.h"

#define FIGURE_TEXT 40

/* How a plate's drawing writes its figures. Millimetres have at most three decimals, inches from
 * three to four; by ASME Y14.5 an inch below 1 has no zero before its point. */
typedef struct FigureStyle {
    PlateUnit unit;
    SheetStandard standard;
} FigureStyle;

/* Writes a length without its unit; `text` has FIGURE_TEXT bytes. Returns `text`. */
char *figure_length(FigureStyle style, Length length, char *text);
/* Limits of size: "\u00B10.01", "+0.012/0"; `text` has FIGURE_LIMITS bytes. Returns `text`. */
#define FIGURE_LIMITS (2 * FIGURE_TEXT + 4)
char *figure_limits(FigureStyle style, Length upper, Length lower, char *text);
/* Degrees with at most three decimals and their sign. */
char *figure_angle(Angle angle, char *text);
