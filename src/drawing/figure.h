/* figure.h: lengths and angles as a drawing writes them. */
#pragma once

#include "geometry/angle.h"
#include "geometry/length.h"
#include "plate/settings.h"

#define FIGURE_TEXT 64

/* How a plate's drawing writes its figures. Millimetres have at most three decimals, inches from
 * three to four; by ASME Y14.5 an inch below 1 has no zero before its point. */
typedef struct FigureStyle {
    PlateUnit unit;
    SheetStandard standard;
    bool both; /* the other unit follows in square brackets: round ones would mean a reference
                  dimension in ISO 129-1 and ASME Y14.5 alike (from memory) */
} FigureStyle;

/* How the plate writes its figures, in its own unit alone. */
FigureStyle figure_style(const Settings *settings);
/* "in" or "mm". */
const char *figure_unit(FigureStyle style);
/* The same style in the other unit alone. */
FigureStyle figure_other(FigureStyle style);

/* Writes a length without its unit, a length of nothing as "0" alone; `text` has FIGURE_TEXT bytes.
 * Returns `text`. */
char *figure_length(FigureStyle style, Length length, char *text);
/* Limits of size: "\u00B10.01", "+0.012/0"; `text` has FIGURE_LIMITS bytes. Returns `text`. */
#define FIGURE_LIMITS (4 * FIGURE_TEXT + 12)
char *figure_limits(FigureStyle style, Length upper, Length lower, char *text);
/* Breaks the text before each figure in the other unit, for a narrow column. Returns `text`. */
char *figure_stack(char *text);
/* A torque in Nm as it is said, "1.5 Nm" or "13 in-lbf" (1 lbf in is 0.1129848 Nm: NIST SP 811,
 * appendix B, from memory), with two figures, as an estimate has; both where the style has both.
 * `text` has FIGURE_TEXT bytes. Returns `text`. */
char *figure_torque(FigureStyle style, double newton_metres, char *text);
/* Degrees with at most three decimals and their sign. */
char *figure_angle(Angle angle, char *text);
