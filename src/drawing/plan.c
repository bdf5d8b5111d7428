#include "drawing/plan.h"

#include "drawing/dimension.h"
#include "drawing/hole-profile.h"
#include "drawing/shape-path.h"

#include <glib.h>

/* Circles nearer than this on the sheet would run into one line. */
#define CIRCLES_APART 0.35

#define LABEL_GAP 0.8
#define DATUM_RADIUS 2.0 /* mm on the sheet */

static Box on_sheet(ViewMap map, Box box)
{
    Point low = view_point(map, (Point){box.x0, box.y0});
    Point high = view_point(map, (Point){box.x1, box.y1});
    return (Box){low.x, low.y, high.x, high.y};
}

void plan_ground(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face)
{
    FaceView view = face_view(source, face);
    Box box = on_sheet(map, view.box);
    Vertex corners[] = {
        {box.x0, box.y0, 0}, {box.x1, box.y0, 0}, {box.x1, box.y1, 0}, {box.x0, box.y1, 0}};
    drawing_about(drawing, ROLE_STOCK, view.top ? ID_SETTINGS : face);
    drawing_fill(drawing, corners, 4);
}

/* An inclined face as it is seen from above: its four corners, the break line among its sides. */
static void draw_inclined(Drawing *drawing, ViewMap map, const Frame *frame)
{
    Box box = shape_box(&frame->extent);
    Point corners[] = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    drawing_path_begin(drawing, LINE_VISIBLE);
    for (size_t i = 0; i < G_N_ELEMENTS(corners); i++) {
        Space space = frame_to_space(frame, corners[i], 0);
        Point at = view_point(map, (Point){space.x, space.y});
        drawing_path_add(drawing, (Vertex){at.x, at.y, 0});
    }
    drawing_path_end(drawing, true);
}

void plan_face(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face)
{
    FaceView view = face_view(source, face);
    drawing_about(drawing, ROLE_STOCK, view.top ? ID_SETTINGS : face);
    drawing_box(drawing, LINE_VISIBLE, on_sheet(map, view.box));
    for (uint32_t i = 0; view.top && i < placed_frame_count(source->placed); i++) {
        const Frame *frame = placed_frame_at(source->placed, i);
        drawing_about(drawing, ROLE_STOCK, frame->face);
        if (frame->face != ID_TOP)
            draw_inclined(drawing, map, frame);
    }
}

void plan_origin(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face)
{
    Place datum = face_view(source, face).datum;
    Point at = view_point(map, (Point){length_to_mm(datum.x), length_to_mm(datum.y)});
    drawing_about(drawing, ROLE_DATUM, ID_SETTINGS);
    drawing_circle(drawing, LINE_DIMENSION, at, DATUM_RADIUS);
    double round = DATUM_RADIUS * (1 - cos(G_PI / 4)); /* the sagitta of a quarter circle */
    for (int way = -1; way <= 1; way += 2) {
        double r = way * DATUM_RADIUS;
        Vertex quarter[] = {{at.x, at.y, 0}, {at.x + r, at.y, round}, {at.x, at.y + r, 0}};
        drawing_fill(drawing, quarter, 3);
    }
}

void plan_stock(Drawing *drawing, const DrawingSource *source, ViewMap map)
{
    plan_face(drawing, source, map, ID_TOP);
}

void plan_datum(Drawing *drawing, const DrawingSource *source, ViewMap map)
{
    plan_origin(drawing, source, map, ID_TOP);
}

/* The thread's major diameter: three quarters of a circle, open at the upper right, ISO 6410-1. */
static void draw_thread(Drawing *drawing, Point centre, double radius)
{
    double sagitta = radius * (1 - cos(G_PI * 3 / 4)); /* of an arc of 270 degrees */
    drawing_arc(drawing, LINE_THREAD, (Point){centre.x, centre.y + radius},
                (Point){centre.x + radius, centre.y}, sagitta);
}

static void draw_hole(Drawing *drawing, const DrawingSource *source, ViewMap map,
                      const Feature *feature, const Hole *hole)
{
    const Frame *frame = placed_frame(source->placed, feature->face);
    HoleProfile profile =
        hole_profile(hole, frame ? frame_depth_at(frame, feature_at(feature)) : 0);
    Point centre = view_point(map, feature_at(feature));
    double before = INFINITY, widest = 0;
    drawing_about(drawing, ROLE_HOLE, feature->id);
    for (size_t i = 0; i < profile.count; i++) {
        double radius = profile.steps[i].radius * map.scale;
        if (before - radius < CIRCLES_APART)
            continue;
        drawing_circle(drawing, LINE_VISIBLE, centre, radius);
        before = radius;
        widest = fmax(widest, radius);
    }
    if (profile.thread_radius > 0) {
        draw_thread(drawing, centre, profile.thread_radius * map.scale);
        widest = fmax(widest, profile.thread_radius * map.scale);
    }
    drawing_about(drawing, ROLE_CENTRE_MARK, feature->id);
    dimension_centre_mark(drawing, centre, widest);
}

static void draw_part(Drawing *drawing, const DrawingSource *source, ViewMap map,
                      const Feature *feature)
{
    drawing_about(drawing, ROLE_PART, feature->id);
    shape_path_draw(drawing, LINE_PHANTOM, &feature->shape, map);
    const Record *station = placed_record(source->placed, feature->id);
    const Record *part = station ? placed_record(source->placed, station->station.part) : NULL;
    if (!part || part->kind != RECORD_PART)
        return;
    for (uint32_t i = 0; i < part->part.holes.count; i++) {
        const PartHole *hole = LIST_AT(&part->part.holes, PartHole, i);
        Point at = pose_point(feature->shape.pose,
                              (Point){length_to_mm(hole->at.x), length_to_mm(hole->at.y)});
        drawing_circle(drawing, LINE_PHANTOM, view_point(map, at),
                       length_to_mm(hole->diameter) / 2 * map.scale);
    }
}

static void draw_slices(Drawing *drawing, ViewMap map, const Feature *feature)
{
    Shape shape = feature->shape;
    for (int i = 0; i < feature->slice_count; i++) {
        shape.growth = feature->slices[i].growth;
        shape_path_draw(drawing, LINE_PHANTOM, &shape, map);
    }
}

void plan_feature(Drawing *drawing, const DrawingSource *source, ViewMap map,
                  const Feature *feature)
{
    const Record *record = placed_record(source->placed, feature->id);
    switch (feature->kind) {
    case FEATURE_HOLE:
        if (record && record->kind == RECORD_HOLE)
            draw_hole(drawing, source, map, feature, &record->hole);
        break;
    case FEATURE_RECESS:
        drawing_about(drawing, ROLE_RECESS, feature->id);
        shape_path_draw(drawing, LINE_VISIBLE, &feature->shape, map);
        break;
    case FEATURE_PART:
        draw_part(drawing, source, map, feature);
        break;
    case FEATURE_FITTING:
        drawing_about(drawing, ROLE_FITTING, feature->id);
        draw_slices(drawing, map, feature);
        break;
    case FEATURE_KEEP_CLEAR:
        drawing_about(drawing, ROLE_KEEP_CLEAR, feature->id);
        shape_path_draw(drawing, LINE_PHANTOM, &feature->shape, map);
        break;
    }
}

void plan_label(Drawing *drawing, ViewMap map, const Feature *feature, const char *text)
{
    Point at = view_point(map, feature_at(feature));
    TextStyle style = {SHEET_LETTERING, TEXT_START, TEXT_BASE, 0};
    drawing_about(drawing, ROLE_LABEL, feature->id);
    if (feature->kind == FEATURE_HOLE) {
        double off = feature->shape.growth * map.scale * G_SQRT2 / 2 + LABEL_GAP;
        drawing_text(drawing, (Point){at.x + off, at.y + off}, style, text);
        return;
    }
    Box box = on_sheet(map, feature->box);
    style.along = TEXT_MIDDLE;
    style.across = TEXT_CENTRE;
    drawing_text(drawing, (Point){(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, style, text);
}

typedef struct Gathering {
    GPtrArray *features;
    FeatureId face;
    unsigned kinds;
} Gathering;

static bool gather(const Feature *feature, void *data)
{
    const Gathering *gathering = data;
    if (feature->face == gathering->face && (feature->kind & gathering->kinds))
        g_ptr_array_add(gathering->features, (void *)feature);
    return true;
}

static gint by_id(gconstpointer a, gconstpointer b)
{
    const Feature *const *first = a, *const *second = b;
    return ((*first)->id > (*second)->id) - ((*first)->id < (*second)->id);
}

const Feature **plan_list(const DrawingSource *source, FeatureId face, unsigned kinds,
                          size_t *count)
{
    Gathering gathering = {g_ptr_array_new(), face, kinds};
    placed_each(source->placed, gather, &gathering);
    g_ptr_array_sort(gathering.features, by_id);
    *count = gathering.features->len;
    return (const Feature **)g_ptr_array_free(gathering.features, FALSE);
}

void plan_features(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face,
                   unsigned kinds)
{
    size_t count;
    const Feature **features = plan_list(source, face, kinds, &count);
    for (size_t i = 0; i < count; i++)
        plan_feature(drawing, source, map, features[i]);
    g_free(features);
}
