#include "drawing/figure.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#define POUND_INCH 0.1129848 /* Nm */

/* Writes `value` as a decimal of so many places, keeping at least `kept` of them; `text` has half
 * of FIGURE_TEXT bytes. */
static void write_decimal(int64_t value, int places, int kept, bool leading_zero, char *text)
{
    int64_t one = 1;
    for (int i = 0; i < places; i++)
        one *= 10;
    uint64_t size = value < 0 ? (uint64_t)-value : (uint64_t)value;
    g_snprintf(text, FIGURE_TEXT / 2, "%s%" G_GUINT64_FORMAT ".%0*" G_GUINT64_FORMAT,
               value < 0 ? "-" : "", size / (uint64_t)one, places, size % (uint64_t)one);
    size_t length = strlen(text);
    for (int left = places; left > kept && text[length - 1] == '0'; left--)
        text[--length] = '\0';
    if (text[length - 1] == '.')
        text[--length] = '\0';
    char *start = text + (value < 0 ? 1 : 0);
    if (!leading_zero && start[0] == '0' && start[1] == '.')
        memmove(start, start + 1, strlen(start));
}

static int64_t rounded(int64_t value, int64_t unit)
{
    return (value + (value < 0 ? -unit / 2 : unit / 2)) / unit;
}

FigureStyle figure_style(const Settings *settings)
{
    return (FigureStyle){(PlateUnit)settings->unit, (SheetStandard)settings->standard, false};
}

const char *figure_unit(FigureStyle style)
{
    return style.unit == PLATE_INCH ? "in" : "mm";
}

FigureStyle figure_other(FigureStyle style)
{
    PlateUnit other = style.unit == PLATE_INCH ? PLATE_MM : PLATE_INCH;
    return (FigureStyle){other, style.standard, false};
}

/* In one unit. */
static char *write_length(FigureStyle style, Length length, char *text)
{
    bool inches = style.unit == PLATE_INCH;
    int64_t value = rounded(length, inches ? LENGTH_INCH / 10000 : LENGTH_UM);
    if (value == 0)
        return strcpy(text, "0");
    bool zero = !inches || style.standard == SHEET_STANDARD_ISO;
    write_decimal(value, inches ? 4 : 3, inches ? 3 : 0, zero, text);
    return text;
}

char *figure_length(FigureStyle style, Length length, char *text)
{
    char own[FIGURE_TEXT / 2], other[FIGURE_TEXT / 2];
    write_length(style, length, own);
    if (style.both && strcmp(own, "0") != 0)
        g_snprintf(text, FIGURE_TEXT, "%s [%s]", own,
                   write_length(figure_other(style), length, other));
    else
        g_strlcpy(text, own, FIGURE_TEXT);
    return text;
}

static char *write_limits(FigureStyle style, Length upper, Length lower, char *text)
{
    char high[FIGURE_TEXT / 2], low[FIGURE_TEXT / 2];
    write_length(style, upper, high);
    write_length(style, lower, low);
    if (upper == -lower)
        g_snprintf(text, FIGURE_LIMITS / 2, "\u00B1%s", high);
    else
        g_snprintf(text, FIGURE_LIMITS / 2, "%s%s/%s%s", upper > 0 ? "+" : "", high,
                   lower > 0 ? "+" : "", low);
    return text;
}

char *figure_limits(FigureStyle style, Length upper, Length lower, char *text)
{
    char other[FIGURE_LIMITS / 2];
    write_limits(style, upper, lower, text);
    if (!style.both)
        return text;
    size_t length = strlen(text);
    g_snprintf(text + length, FIGURE_LIMITS - length, " [%s]",
               write_limits(figure_other(style), upper, lower, other));
    return text;
}

char *figure_stack(char *text)
{
    for (char *at = strstr(text, " ["); at; at = strstr(at, " ["))
        *at = '\n';
    return text;
}

static char *write_torque(FigureStyle style, double newton_metres, char *text)
{
    bool inches = style.unit == PLATE_INCH;
    char number[G_ASCII_DTOSTR_BUF_SIZE];
    double value = inches ? newton_metres / POUND_INCH : newton_metres;
    /* Above a hundred two figures would need an exponent. */
    if (value >= 100)
        value = 10 * rint(value / 10);
    g_ascii_formatd(number, sizeof number, value >= 10 ? "%.0f" : "%.2g", value);
    g_snprintf(text, FIGURE_TEXT / 2, "%s %s", number, inches ? "in-lbf" : "Nm");
    return text;
}

char *figure_torque(FigureStyle style, double newton_metres, char *text)
{
    char other[FIGURE_TEXT / 2];
    write_torque(style, newton_metres, text);
    if (!style.both)
        return text;
    size_t length = strlen(text);
    g_snprintf(text + length, FIGURE_TEXT - length, " [%s]",
               write_torque(figure_other(style), newton_metres, other));
    return text;
}

char *figure_angle(Angle angle, char *text)
{
    write_decimal(rounded(angle, ANGLE_DEGREE / 1000), 3, 0, true, text);
    g_strlcat(text, "\u00B0", FIGURE_TEXT);
    return text;
}
