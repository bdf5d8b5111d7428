#include "drawing/tolerance.h"

#include "drawing/datum-letter.h"
#include "drawing/sign.h"
#include "shopplan/shopplan.h"

#include <glib.h>

#define FACES_MM (50 * LENGTH_UM)
#define FACES_INCH (LENGTH_INCH / 500)

static const char *own_or(const char *own, const char *usual)
{
    return own && *own ? own : usual;
}

const char *tolerance_general(const Settings *settings)
{
    return own_or(settings->tolerance, "ISO 2768-m");
}

/* Common practice, no source: what milling and reaming leave without further work. */
const char *tolerance_roughness(const Settings *settings)
{
    bool inches = settings->unit == PLATE_INCH;
    return own_or(settings->roughness, inches ? "Ra 125 \u00B5in" : "Ra 3.2 \u00B5m");
}

/* Common practice, no source; the signs before the figures are those of ISO 13715: material taken
 * off outside, left standing inside. */
const char *tolerance_edges(const Settings *settings)
{
    bool inches = settings->unit == PLATE_INCH;
    return own_or(settings->edges, inches ? "outside -.005 to -.020, inside up to +.020"
                                          : "outside -0.1 to -0.5, inside up to +0.5");
}

char *tolerance_frame_text(const DrawingSource *source, const Record *record)
{
    const Settings *settings = plate_settings(source->plate);
    if (record->kind != RECORD_HOLE || !hole_is_close(source->placed, record))
        return g_strdup("");
    char zone[FIGURE_TEXT];
    FigureStyle style = figure_style(settings);
    figure_length(style, hole_zone(&record->hole, style.unit), zone);
    char face = datum_letter(source, record->hole.face);
    if (settings->datum.kind == DATUM_HOLE && settings->datum.hole == record->id)
        return g_strdup_printf(SIGN_SQUARENESS "|" SIGN_DIAMETER "%s|%c", zone, face);
    return g_strdup_printf(SIGN_POSITION "|" SIGN_DIAMETER "%s|%c|B|C", zone, face);
}

static void face_frame(const Settings *settings, const char *sign, const char *datum, char *frame)
{
    char zone[FIGURE_TEXT];
    Length width = settings->unit == PLATE_INCH ? FACES_INCH : FACES_MM;
    figure_length(figure_style(settings), width, zone);
    g_snprintf(frame, FIGURE_FRAME, "%s|%s%s", sign, zone, datum);
}

void tolerance_flatness(const Settings *settings, char *frame)
{
    face_frame(settings, SIGN_FLATNESS, "", frame);
}

void tolerance_parallelism(const Settings *settings, char *frame)
{
    face_frame(settings, SIGN_PARALLEL, "|A", frame);
}

void tolerance_angularity(const Settings *settings, char *frame)
{
    face_frame(settings, SIGN_ANGULARITY, "|A", frame);
}

void tolerance_squareness(const Settings *settings, char *frame)
{
    face_frame(settings, SIGN_SQUARENESS, "|A", frame);
}

char *tolerance_limits(const Hole *hole, FigureStyle style)
{
    GString *text = g_string_new(NULL);
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        const Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->upper == 0 && step->lower == 0)
            continue;
        char limits[FIGURE_LIMITS];
        g_string_append_printf(text, "%s%s", text->len ? ", " : "",
                               figure_limits(style, step->upper, step->lower, limits));
    }
    return g_string_free(text, FALSE);
}
