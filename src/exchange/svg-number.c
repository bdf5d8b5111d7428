#include "exchange/svg-number.h"

#include <glib.h>
#include <math.h>
#include <string.h>

static bool is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f';
}

void svg_skip_space(const char **at)
{
    while (is_space(**at))
        (*at)++;
}

bool svg_skip_comma(const char **at)
{
    svg_skip_space(at);
    if (**at != ',')
        return false;
    (*at)++;
    svg_skip_space(at);
    return true;
}

bool svg_number_read(const char **at, double *value)
{
    const char *c = *at;
    if (*c == '+' || *c == '-')
        c++;
    const char *digits = c;
    while (g_ascii_isdigit(*c))
        c++;
    bool any = c > digits;
    if (*c == '.' && (any || g_ascii_isdigit(c[1]))) {
        c++;
        while (g_ascii_isdigit(*c))
            c++;
        any = true;
    }
    if (!any)
        return false;
    /* An `e` is an exponent only with digits behind it: `2em` is a length. */
    if (*c == 'e' || *c == 'E') {
        const char *power = c + 1;
        if (*power == '+' || *power == '-')
            power++;
        if (g_ascii_isdigit(*power)) {
            while (g_ascii_isdigit(*power))
                power++;
            c = power;
        }
    }
    /* The end is known, so that the C library reads no hexadecimal, no infinity and no NaN. */
    char room[64];
    size_t length = (size_t)(c - *at);
    char *text = length < sizeof room ? room : g_malloc(length + 1);
    memcpy(text, *at, length);
    text[length] = 0;
    double read = g_ascii_strtod(text, NULL);
    if (text != room)
        g_free(text);
    if (!(fabs(read) <= SVG_NUMBER_MOST))
        return false;
    *value = read;
    *at = c;
    return true;
}

bool svg_flag(const char **at, bool *value)
{
    if (**at != '0' && **at != '1')
        return false;
    *value = **at == '1';
    (*at)++;
    return true;
}

typedef struct Unit {
    const char *name;
    double px;
    SvgUnit kind;
} Unit;

static const Unit units[] = {
    {"", 1, SVG_UNIT_NONE},
    {"px", 1, SVG_UNIT_NONE},
    {"in", 96, SVG_UNIT_PHYSICAL},
    {"cm", 96 / 2.54, SVG_UNIT_PHYSICAL},
    {"mm", 96 / 25.4, SVG_UNIT_PHYSICAL},
    {"q", 96 / 101.6, SVG_UNIT_PHYSICAL},
    {"pt", 96 / 72.0, SVG_UNIT_PHYSICAL},
    {"pc", 16, SVG_UNIT_PHYSICAL},
    {"em", 16, SVG_UNIT_RELATIVE},
    {"rem", 16, SVG_UNIT_RELATIVE},
    {"ex", 8, SVG_UNIT_RELATIVE},
};

bool svg_length(const char *text, double whole, double *px, SvgUnit *unit)
{
    double value;
    const char *at = text;
    svg_skip_space(&at);
    if (!svg_number_read(&at, &value))
        return false;
    size_t length = strlen(at);
    while (length > 0 && is_space(at[length - 1]))
        length--;
    if (length == 1 && *at == '%') {
        *px = value / 100 * whole;
        if (unit)
            *unit = SVG_UNIT_RELATIVE;
        return true;
    }
    for (size_t i = 0; i < G_N_ELEMENTS(units); i++)
        if (strlen(units[i].name) == length && !g_ascii_strncasecmp(units[i].name, at, length)) {
            *px = value * units[i].px;
            if (unit)
                *unit = units[i].kind;
            return true;
        }
    return false;
}
