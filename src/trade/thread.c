#include "trade/thread.h"

#include "trade/table.h"
#include "trade/thread-tolerance.h"

#include <glib.h>
#include <math.h>
#include <string.h>

size_t thread_count(void)
{
    return table_count(&thread_table);
}

const Thread *thread_at(size_t index)
{
    return table_row(&thread_table, index);
}

bool thread_is_metric(const Thread *thread)
{
    return thread->threads_per_inch == 0;
}

double thread_pitch(const Thread *thread)
{
    return thread_is_metric(thread) ? length_to_mm(thread->pitch) : 25.4 / thread->threads_per_inch;
}

/* Leaves off what people add to a thread's name: blanks, "#", "No.", the series, inch signs. */
static void usual_name(const char *name, char *usual, size_t size)
{
    static const char *const left_off[] = {"UNC", "UNF", "NO.", "NO", "IN", "#", "\"", " "};
    size_t count = 0;
    while (*name && count + 1 < size) {
        size_t skipped = 0;
        for (size_t i = 0; i < G_N_ELEMENTS(left_off) && !skipped; i++)
            if (!g_ascii_strncasecmp(name, left_off[i], strlen(left_off[i])))
                skipped = strlen(left_off[i]);
        if (skipped) {
            name += skipped;
        } else if (!strncmp(name, "\xc3\x97", 2)) {
            usual[count++] = 'x';
            name += 2;
        } else {
            usual[count] = g_ascii_tolower(*name++);
            if (usual[count] == 'm')
                usual[count] = 'M';
            count++;
        }
    }
    usual[count] = '\0';
    if (usual[0] == 'M' && g_str_has_suffix(usual, ".0"))
        usual[count - 2] = '\0';
}

const Thread *thread_find(const char *name, Error *error)
{
    char usual[64];
    usual_name(name, usual, sizeof usual);
    const Thread *thread = table_find(&thread_table, usual);
    for (size_t i = 0; !thread && usual[0] == 'M' && i < thread_count(); i++)
        if (thread_at(i)->series == THREAD_COARSE && !strcmp(thread_at(i)->size, usual))
            thread = thread_at(i);
    return thread ? thread : table_seek(&thread_table, "thread", name, error);
}

size_t thread_text(const Thread *thread, char *text, size_t size)
{
    const char *series = thread->series == THREAD_UNC   ? " UNC"
                         : thread->series == THREAD_UNF ? " UNF"
                                                        : "";
    size_t count = (size_t)g_snprintf(text, (gulong)size, "%s%s", thread->name, series);
    return MIN(count, size ? size - 1 : 0);
}

#define TEN_THOUSANDTH ((Length)2540)

/* Inches to the nearest 0.0001 in: the standard's tables round each figure before they add it. The
 * small addition makes a half that is one in decimals (0.00375) go up, whatever its binary
 * fraction. */
static Length rounded(double inches)
{
    return llround(inches * 10000 + 1e-7) * TEN_THOUSANDTH;
}

/* ASME B1.1: minor diameter limits are printed with three decimals from No. 6 up. */
static Length minor_as_printed(Length minor, double major)
{
    Length step = 10 * TEN_THOUSANDTH;
    return major < 0.138 ? minor : (minor + step / 2) / step * step;
}

static double unified_minor_tolerance(double major, double pitch)
{
    double coarse = 0.25 * pitch - 0.4 * pitch * pitch;
    if (major >= 0.25)
        return coarse;
    double tolerance = 0.05 * cbrt(pitch * pitch) + 0.03 * pitch / major - 0.002;
    return fmax(fmin(tolerance, 0.394 * pitch), coarse);
}

static void unified_limits(const Thread *thread, ThreadLimits *limits)
{
    double major = (double)thread->major / (double)LENGTH_INCH;
    double pitch = 1.0 / thread->threads_per_inch;
    double tolerance = 0.0015 * cbrt(major) + 0.0015 * sqrt(major) + 0.015 * cbrt(pitch * pitch);
    tolerance = round(tolerance * 1e6) / 1e6; /* six decimals, before 2B and the allowance */
    Length basic_pitch = rounded(major - 0.64951905 * pitch);
    Length basic_minor = rounded(major - 1.08253175 * pitch);
    limits->allowance = rounded(0.3 * tolerance);
    limits->external_major_greatest = thread->major - limits->allowance;
    limits->external_major_least =
        limits->external_major_greatest - rounded(0.06 * cbrt(pitch * pitch));
    limits->external_pitch_greatest = basic_pitch - limits->allowance;
    limits->external_pitch_least = limits->external_pitch_greatest - rounded(tolerance);
    limits->internal_pitch_least = basic_pitch;
    limits->internal_pitch_greatest = basic_pitch + rounded(1.3 * tolerance);
    limits->internal_minor_least = minor_as_printed(basic_minor, major);
    limits->internal_minor_greatest =
        minor_as_printed(basic_minor + rounded(unified_minor_tolerance(major, pitch)), major);
    limits->external_class = "2A";
    limits->internal_class = "2B";
    limits->source = "ASME B1.1, formulas for classes 2A and 2B";
}

static const ThreadTolerance *metric_tolerance(const Thread *thread)
{
    for (size_t i = 0; i < table_count(&thread_tolerance_table); i++) {
        const ThreadTolerance *row = table_row(&thread_tolerance_table, i);
        if (row->pitch == thread->pitch && thread->major > row->over && thread->major <= row->up_to)
            return row;
    }
    return NULL;
}

static bool metric_limits(const Thread *thread, ThreadLimits *limits, Error *error)
{
    const ThreadTolerance *row = metric_tolerance(thread);
    if (!row)
        return error_set(error, ERROR_MISSING, NULL,
                         "ISO 965-1 has no tolerances in this program's table for %s",
                         thread->name);
    double pitch = length_to_mm(thread->pitch);
    Length basic_pitch = thread->major - llround(0.64951905 * pitch * 1000) * LENGTH_UM;
    Length basic_minor = thread->major - llround(1.08253175 * pitch * 1000) * LENGTH_UM;
    limits->allowance = row->allowance;
    limits->external_major_greatest = thread->major - row->allowance;
    limits->external_major_least = limits->external_major_greatest - row->external_major;
    limits->external_pitch_greatest = basic_pitch - row->allowance;
    limits->external_pitch_least = limits->external_pitch_greatest - row->external_pitch;
    limits->internal_pitch_least = basic_pitch;
    limits->internal_pitch_greatest = basic_pitch + row->internal_pitch;
    limits->internal_minor_least = basic_minor;
    limits->internal_minor_greatest = basic_minor + row->internal_minor;
    limits->external_class = "6g";
    limits->internal_class = "6H";
    limits->source = row->source;
    return true;
}

bool thread_limits(const Thread *thread, ThreadLimits *limits, Error *error)
{
    if (thread_is_metric(thread))
        return metric_limits(thread, limits, error);
    unified_limits(thread, limits);
    return true;
}

double thread_tensile_area(const Thread *thread)
{
    double factor = thread_is_metric(thread) ? 0.9382 : 0.9743;
    double diameter = length_to_mm(thread->major) - factor * thread_pitch(thread);
    return 0.7854 * diameter * diameter;
}

/* 0.01299 inch per per cent and pitch is 1.299 pitches for all of it; forming, 0.0068 is 0.68. */
#define CUT_PITCHES 1.299
#define FORM_PITCHES 0.68

double thread_per_cent(const Thread *thread, double diameter)
{
    return (length_to_mm(thread->major) - diameter) / (CUT_PITCHES * thread_pitch(thread)) * 100;
}

double thread_hole_for_cut(const Thread *thread, double per_cent)
{
    return length_to_mm(thread->major) - CUT_PITCHES * thread_pitch(thread) * per_cent / 100;
}

double thread_hole_for_form(const Thread *thread, double per_cent)
{
    return length_to_mm(thread->major) - FORM_PITCHES * thread_pitch(thread) * per_cent / 100;
}

double thread_per_cent_formed(const Thread *thread, double diameter)
{
    return (length_to_mm(thread->major) - diameter) / (FORM_PITCHES * thread_pitch(thread)) * 100;
}
