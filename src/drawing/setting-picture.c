#include "drawing/setting-picture.h"

#include "drawing/labels.h"
#include "drawing/plan.h"

/* From the largest; ISO 5455 and those usual with inch drawings. */
static const double scales[] = {1, 0.5, 0.25, 0.2, 0.125, 0.1, 0.05, 0.02, 0.01, 0.005};

#define AROUND 14.0 /* mm for labels round the face */
#define BELOW 6.0

static bool is_fitted(const List *fitted, FeatureId id)
{
    for (uint32_t i = 0; fitted && i < fitted->count; i++) {
        if (*LIST_AT(fitted, FeatureId, i) == id)
            return true;
    }
    return false;
}

static void draw_fitted(Flow *flow, const DrawingSource *source, ViewMap map, FeatureId face,
                        const List *fitted)
{
    size_t count;
    const Feature **features = plan_list(source, face, FEATURE_FITTING, &count);
    for (size_t i = 0; i < count; i++) {
        if (is_fitted(fitted, features[i]->id))
            plan_feature(flow->drawing, source, map, features[i]);
    }
    g_free(features);
}

/* Labels for what is shown: stations have none where their parts are left out. */
static void draw_labels(Flow *flow, const DrawingSource *source, ViewMap map, const FaceView *view,
                        const HoleTable *table, bool parts, Box room)
{
    HoleTable shown = {.rows = g_new(HoleRow, table->count)}; /* its texts are the table's */
    for (size_t i = 0; i < table->count; i++) {
        if (parts || table->rows[i].kind != FEATURE_PART)
            shown.rows[shown.count++] = table->rows[i];
    }
    LabelTask task = {.table = &shown, .area = room};
    labels_draw(flow->drawing, source, map, view, &task);
    g_free(shown.rows);
}

/* The largest standard scale at which `box` has room with labels round it. */
static double fitting_scale(Box box, double across, double height)
{
    double length = box.x1 - box.x0, width = box.y1 - box.y0;
    for (size_t i = 0; i < G_N_ELEMENTS(scales); i++)
        if (length * scales[i] + 2 * AROUND <= across && width * scales[i] + 2 * AROUND <= height)
            return scales[i];
    return scales[G_N_ELEMENTS(scales) - 1];
}

static ViewMap map_to_middle(Box box, Box room, double scale)
{
    Point corner = {(room.x0 + room.x1 - (box.x1 - box.x0) * scale) / 2,
                    (room.y0 + room.y1 - (box.y1 - box.y0) * scale) / 2};
    return (ViewMap){{corner.x - box.x0 * scale, corner.y - box.y0 * scale}, scale};
}

ViewMap setting_picture_map(Box box, Box room)
{
    return map_to_middle(box, room, fitting_scale(box, room.x1 - room.x0, room.y1 - room.y0));
}

void setting_picture_draw(Flow *flow, const DrawingSource *source, const HoleTable *table,
                          FeatureId face, const List *fitted, bool parts, double height)
{
    FaceView view = face_view(source, face);
    if (flow_left(flow) <= 0)
        flow_new_sheet(flow);
    double scale = fitting_scale(view.box, flow->body.x1 - flow->body.x0, height);
    Box room = flow_room(flow, fmin((view.box.y1 - view.box.y0) * scale + 2 * AROUND, height));
    ViewMap map = map_to_middle(view.box, room, scale);
    unsigned kinds = FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR;
    plan_face(flow->drawing, source, map, view.face);
    plan_features(flow->drawing, source, map, view.face, kinds | (parts ? FEATURE_PART : 0));
    draw_fitted(flow, source, map, view.face, fitted);
    plan_origin(flow->drawing, source, map, view.face);
    draw_labels(flow, source, map, &view, table, parts, room);
    flow_gap(flow, BELOW);
}
