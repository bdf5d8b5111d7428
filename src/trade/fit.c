#include "trade/fit.h"

#include "trade/deviation.h"
#include "trade/table.h"
#include "trade/tolerance-grade.h"
#include "trade/typed.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#define GRADE_GREATEST 18

/* ISO 286 counts the upper end of a range in, the lower one out; below 1 mm other rules hold. */
static bool in_range(Length nominal, Length over, Length up_to)
{
    return nominal > over && nominal <= up_to;
}

bool fit_grade_tolerance(Length nominal, int grade, Length *tolerance)
{
    for (size_t i = 0; nominal >= LENGTH_MM && i < table_count(&tolerance_grade_table); i++) {
        const ToleranceGrade *row = table_row(&tolerance_grade_table, i);
        if (row->grade == grade && in_range(nominal, row->over, row->up_to)) {
            *tolerance = row->tolerance;
            return true;
        }
    }
    return false;
}

static const Deviation *find_deviation(Length nominal, const char *letter, int grade)
{
    for (size_t i = 0; i < table_count(&deviation_table); i++) {
        const Deviation *row = table_row(&deviation_table, i);
        if (!strcmp(row->letter, letter) && in_range(nominal, row->over, row->up_to) &&
            grade >= row->grade_least && grade <= row->grade_greatest)
            return row;
    }
    return NULL;
}

typedef struct ToleranceClass {
    char letter[3];
    int grade;
    bool hole;
} ToleranceClass;

static bool read_class(const char *text, ToleranceClass *read)
{
    size_t letters = 0;
    while (g_ascii_isalpha(text[letters]))
        letters++;
    if (!letters || letters > 2 ||
        !typed_count_read(text + letters, 1, GRADE_GREATEST, &read->grade, NULL))
        return false;
    g_strlcpy(read->letter, text, letters + 1);
    read->hole = g_ascii_isupper(text[0]);
    return letters == 1 || g_ascii_isupper(text[1]) == g_ascii_isupper(text[0]);
}

static bool undefined(const char *tolerance_class, Length nominal, Error *error)
{
    char size[LENGTH_PEOPLE_TEXT];
    length_text_with_unit(nominal, UNIT_MM, size);
    return error_set(error, ERROR_MISSING, NULL, "ISO 286 defines no class %.8s for %s",
                     tolerance_class, size);
}

/* Shafts: a to h lie below their deviation, j to zc above it. */
static bool shaft_limits(Length nominal, const ToleranceClass *class, Length tolerance,
                         SizeLimits *limits)
{
    const Deviation *row = find_deviation(nominal, class->letter, class->grade);
    if (!row)
        return false;
    bool below = class->letter[0] <= 'h';
    limits->greatest = nominal + row->deviation + (below ? 0 : tolerance);
    limits->least = limits->greatest - tolerance;
    return true;
}

/* The addition for holes K to N up to IT8 and P to ZC up to IT7 above 3 mm: ITn less ITn-1. */
static Length hole_addition(Length nominal, int grade, Length tolerance)
{
    Length finer;
    if (nominal <= 3 * LENGTH_MM || grade < 3 || !fit_grade_tolerance(nominal, grade - 1, &finer))
        return 0;
    return tolerance - finer;
}

static bool hole_limits(Length nominal, const ToleranceClass *class, Length tolerance,
                        SizeLimits *limits)
{
    Length upper;
    const Deviation *row = find_deviation(nominal, class->letter, class->grade);
    if (row) { /* J, K, M, N have values of their own */
        upper = row->deviation;
        if (class->letter[0] != 'J' && class->grade <= 8)
            upper += hole_addition(nominal, class->grade, tolerance);
    } else { /* the rest mirror the shaft of the same letter */
        if (strchr("JKMN", class->letter[0]))
            return false;
        char letter[3] = {g_ascii_tolower(class->letter[0]), g_ascii_tolower(class->letter[1]), 0};
        row = find_deviation(nominal, letter, class->grade);
        if (!row)
            return false;
        upper = -row->deviation;
        if (letter[0] <= 'h')
            upper += tolerance;
        else if (class->grade <= 7)
            upper += hole_addition(nominal, class->grade, tolerance);
    }
    limits->greatest = nominal + upper;
    limits->least = limits->greatest - tolerance;
    return true;
}

bool fit_class_limits(Length nominal, const char *tolerance_class, SizeLimits *limits, Error *error)
{
    ToleranceClass class;
    if (!read_class(tolerance_class, &class))
        return error_set(error, ERROR_TYPED, NULL,
                         "\"%.16s\" is no tolerance class; write a letter and a grade, as in H7 "
                         "for a hole or g6 for a shaft",
                         tolerance_class);
    Length tolerance;
    if (nominal < LENGTH_MM || nominal > 50 * LENGTH_MM ||
        !fit_grade_tolerance(nominal, class.grade, &tolerance))
        return error_set(error, ERROR_LIMIT, NULL,
                         "this program's ISO 286 tables reach from 1 to 50 mm; type the limits");
    if (!g_ascii_strcasecmp(class.letter, "js")) {
        limits->greatest = nominal + tolerance / 2;
        limits->least = nominal - tolerance / 2;
        return true;
    }
    bool found = class.hole ? hole_limits(nominal, &class, tolerance, limits)
                            : shaft_limits(nominal, &class, tolerance, limits);
    return found || undefined(tolerance_class, nominal, error);
}

/* Where the hole's class begins: a capital letter that is followed by a grade. */
static const char *class_start(const char *text)
{
    for (; *text; text++)
        if (g_ascii_isupper(*text) &&
            (g_ascii_isdigit(text[1]) || (g_ascii_isupper(text[1]) && g_ascii_isdigit(text[2]))))
            return text;
    return NULL;
}

bool fit_read(const char *text, Fit *fit, Error *error)
{
    const char *hole = class_start(text);
    const char *slash = hole ? strchr(hole, '/') : NULL;
    char size[64], hole_class[8], shaft_class[8];
    if (!slash || (size_t)(hole - text) >= sizeof size ||
        (size_t)(slash - hole) >= sizeof hole_class || strlen(slash) > sizeof shaft_class)
        return error_set(error, ERROR_TYPED, NULL,
                         "\"%.40s\" is no fit; write the size, the hole's class and the shaft's, "
                         "as in 10H7/g6",
                         text);
    g_strlcpy(size, text, (gsize)(hole - text) + 1);
    g_strlcpy(hole_class, hole, (gsize)(slash - hole) + 1);
    g_strlcpy(shaft_class, slash + 1, sizeof shaft_class);
    g_strstrip(hole_class);
    g_strstrip(shaft_class);
    Length nominal;
    SizeLimits hole_limits_read, shaft_limits_read;
    if (!typed_length_read(size, UNIT_MM, &nominal, NULL, 0, error) ||
        !fit_class_limits(nominal, hole_class, &hole_limits_read, error) ||
        !fit_class_limits(nominal, shaft_class, &shaft_limits_read, error))
        return false;
    if (!g_ascii_islower(shaft_class[0]))
        return error_set(error, ERROR_TYPED, NULL,
                         "the shaft's class is written small, as in 10H7/g6");
    fit_of_limits(nominal, hole_limits_read, shaft_limits_read, fit);
    return true;
}

static FitMeaning meaning_of(const Fit *fit)
{
    Length press = fit->nominal / 1000 + 10 * LENGTH_UM;
    Length loose;
    if (!fit_grade_tolerance(fit->nominal, 10, &loose))
        loose = 100 * LENGTH_UM;
    if (-fit->clearance_least > press)
        return FIT_WILL_NOT_GO;
    if (fit->clearance_least < 0)
        return FIT_PRESS;
    return fit->clearance_greatest <= loose ? FIT_SLIDE : FIT_LOOSE;
}

void fit_of_limits(Length nominal, SizeLimits hole, SizeLimits shaft, Fit *fit)
{
    *fit = (Fit){.nominal = nominal, .hole = hole, .shaft = shaft};
    fit->clearance_greatest = hole.greatest - shaft.least;
    fit->clearance_least = hole.least - shaft.greatest;
    fit->meaning = meaning_of(fit);
}

const char *fit_meaning_text(FitMeaning meaning)
{
    static const char *const texts[] = {"will not go", "press", "slide", "loose"};
    return texts[meaning];
}
