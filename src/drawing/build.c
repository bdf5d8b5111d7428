#include "drawing/build.h"

#include "drawing/face-sheets.h"
#include "drawing/plan.h"

#include <glib.h>

static void describe(Drawing *drawing, const DrawingSource *source)
{
    const Settings *settings = plate_settings(source->plate);
    g_strlcpy(drawing->title, settings->name ? settings->name : "Fixture plate",
              sizeof drawing->title);
    g_strlcpy(drawing->author, settings->shop ? settings->shop : "", sizeof drawing->author);
    g_snprintf(drawing->subject, sizeof drawing->subject, "Fixture plate%s%s%s%s",
               settings->number ? " " : "", settings->number ? settings->number : "",
               settings->revision ? ", revision " : "",
               settings->revision ? settings->revision : "");
}

/* The faces that are asked for: one, or the top and then the inclined ones by their numbers. */
static GArray *list_faces(const DrawingSource *source, FeatureId asked)
{
    GArray *faces = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    FeatureId top = ID_TOP;
    if (asked != ID_NONE) {
        g_array_append_val(faces, asked);
        return faces;
    }
    g_array_append_val(faces, top);
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        if (record->kind == RECORD_FACE && record->id != ID_TOP &&
            placed_frame(source->placed, record->id))
            g_array_append_val(faces, record->id);
    }
    return faces;
}

static bool build_faces(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                        const GArray *faces, FaceSheets *sheets, Error *error)
{
    int total = 0;
    for (guint i = 0; i < faces->len; i++) {
        FeatureId face = g_array_index(faces, FeatureId, i);
        if (!face_sheets_start(&sheets[i], drawing, source, spec, face, error))
            return false;
        total += sheets[i].count;
    }
    drawing_clear(drawing);
    describe(drawing, source);
    int first = 1;
    size_t unplaced = 0;
    for (guint i = 0; i < faces->len; i++) {
        face_sheets_draw(&sheets[i], drawing, first, total);
        first += sheets[i].count;
        unplaced += sheets[i].unplaced;
    }
    drawing->unplaced_count = unplaced;
    return true;
}

bool drawing_build(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                   Error *error)
{
    if (spec->face != ID_NONE && !placed_frame(source->placed, spec->face))
        return error_set(error, ERROR_MISSING, NULL, "the plate has no face with that number");
    GArray *faces = list_faces(source, spec->face);
    FaceSheets *sheets = g_new0(FaceSheets, faces->len);
    bool built = build_faces(drawing, source, spec, faces, sheets, error);
    for (guint i = 0; i < faces->len; i++)
        face_sheets_end(&sheets[i]);
    g_free(sheets);
    g_array_unref(faces);
    return built;
}

void drawing_build_layout(Drawing *drawing, const DrawingSource *source, double scale,
                          double margin)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    drawing_clear(drawing);
    describe(drawing, source);
    drawing_begin_sheet(drawing, length_to_mm(stock->length) * scale + 2 * margin,
                        length_to_mm(stock->width) * scale + 2 * margin, "Layout");
    ViewMap map = {{margin, margin}, scale};
    plan_ground(drawing, source, map, ID_TOP);
    plan_stock(drawing, source, map);
    plan_features(drawing, source, map, ID_TOP, ~0U);
    plan_datum(drawing, source, map);
}
