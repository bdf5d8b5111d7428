#include "drawing/datum-letter.h"

#include <glib.h>

#define TRIANGLE 2.4
#define STEM 1.2

static const char face_letters[] = "DEFGHJKLMNPRSTUVWXYZ";

char datum_letter(const DrawingSource *source, FeatureId face)
{
    if (face == ID_TOP || face == ID_NONE)
        return 'A';
    size_t place = 0;
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++) {
        FeatureId other = placed_frame_at(source->placed, i)->face;
        place += other != ID_TOP && other < face;
    }
    return face_letters[place % (sizeof face_letters - 1)];
}

static void name_edges(const DrawingSource *source, GString *text)
{
    const Settings *settings = plate_settings(source->plate);
    if (settings->datum.kind == DATUM_HOLE) {
        const Record *hole = placed_record(source->placed, settings->datum.hole);
        const char *label = hole ? record_label(hole) : NULL;
        g_string_append_printf(text, " B: the datum hole%s%s. C: the front edge.", label ? " " : "",
                               label ? label : "");
        return;
    }
    bool corner = settings->datum.kind == DATUM_CORNER;
    bool back = corner && settings->datum.corner >= CORNER_BACK_RIGHT;
    bool right = corner && (settings->datum.corner == CORNER_FRONT_RIGHT ||
                            settings->datum.corner == CORNER_BACK_RIGHT);
    g_string_append_printf(text, " B: the %s edge. C: the %s edge.", back ? "back" : "front",
                           right ? "right" : "left");
}

char *datum_words(const DrawingSource *source)
{
    GString *text = g_string_new("A: the top.");
    name_edges(source, text);
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        if (record->kind == RECORD_FACE && record->id != ID_TOP)
            g_string_append_printf(text, " %c: the face %s.", datum_letter(source, record->id),
                                   record->face.name ? record->face.name : "");
    }
    return g_string_free(text, FALSE);
}

void datum_sign_draw(Drawing *drawing, Point at, Point way, char letter)
{
    Point aside = {-way.y * TRIANGLE / 2, way.x * TRIANGLE / 2};
    Point tip = point_plus(at, point_times(way, TRIANGLE));
    Point box_edge = point_plus(tip, point_times(way, STEM));
    Point middle = point_plus(box_edge, point_times(way, DATUM_SIGN_HALF));
    Vertex triangle[] = {{at.x + aside.x, at.y + aside.y, 0},
                         {tip.x, tip.y, 0},
                         {at.x - aside.x, at.y - aside.y, 0}};
    char text[] = {letter, '\0'};
    drawing_about(drawing, ROLE_DATUM, ID_NONE);
    drawing_fill(drawing, triangle, 3);
    drawing_line(drawing, LINE_DIMENSION, tip, box_edge);
    drawing_box(drawing, LINE_DIMENSION,
                (Box){middle.x - DATUM_SIGN_HALF, middle.y - DATUM_SIGN_HALF,
                      middle.x + DATUM_SIGN_HALF, middle.y + DATUM_SIGN_HALF});
    drawing_text(drawing, middle, (TextStyle){SHEET_LETTERING, TEXT_MIDDLE, TEXT_CENTRE, 0}, text);
}
