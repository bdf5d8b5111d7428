#include "drawing/labels.h"

#include "drawing/dimension.h"
#include "drawing/placement.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define FRONT "FRONT"
#define FRONT_GAP 1.6 /* above the edge, and the steps it is moved by, mm */
#define DOT 0.6       /* radius of a leader's end inside an area, mm */

typedef struct Labelling {
    Drawing *drawing;
    const DrawingSource *source;
    ViewMap map;
} Labelling;

static void draw_label(const Labelling *labelling, const LabelPlace *place,
                       const LabelRequest *request, const char *text)
{
    Drawing *drawing = labelling->drawing;
    if (!place->leader) {
        Point at = {(place->box.x0 + place->box.x1) / 2, place->box.y0};
        drawing_text(drawing, at, (TextStyle){LETTERING, TEXT_MIDDLE, TEXT_BASE, 0}, text);
        return;
    }
    if (request->inside) {
        dimension_leader_to_area(drawing, request->centre, place->knee, LETTERING, text);
        drawing_dot(drawing, request->centre, DOT);
        return;
    }
    Point way = point_minus(place->knee, request->centre);
    double share = request->radius / point_length(way);
    dimension_leader(drawing, point_plus(request->centre, point_times(way, share)), place->knee,
                     LETTERING, text);
}

/* A point in the middle of what an area's label means: its middle where that lies within, else a
 * corner of its outline. */
static Point area_middle(const Shape *shape)
{
    if (shape->core != CORE_OUTLINE)
        return (Point){shape->pose.x, shape->pose.y};
    Point middle = outline_centroid(shape->outline);
    if (!outline_contains(shape->outline, middle)) {
        size_t count;
        const Vertex *ring = outline_ring(shape->outline, 0, &count);
        middle = (Point){ring[0].x, ring[0].y};
    }
    return pose_point(shape->pose, middle);
}

static MarkRole role_of(FeatureKind kind)
{
    return kind == FEATURE_PART ? ROLE_PART : ROLE_LABEL;
}

static LabelRequest request_for(const Labelling *labelling, const Feature *feature,
                                const char *text)
{
    bool round = feature->kind == FEATURE_HOLE;
    Point at = round ? feature_at(feature) : area_middle(&feature->shape);
    return (LabelRequest){
        .centre = view_point(labelling->map, at),
        .radius = round ? feature->shape.growth * labelling->map.scale : 0,
        .width = lettering_extent(labelling->drawing->lettering, text, LETTERING).width,
        .height = LETTERING,
        .inside = !round,
    };
}

/* What is in the way: all that is drawn on the sheet, and the holes' insides. */
static Placement *placement_for(const Labelling *labelling, const HoleTable *table, Box area)
{
    const Drawing *drawing = labelling->drawing;
    Placement *placement = placement_new();
    const Sheet *sheet = &drawing->sheets[drawing->sheet_count - 1];
    placement_set_area(placement, area);
    placement_add_marks(placement, drawing, sheet->first, sheet->count);
    for (size_t i = 0; i < table->count; i++) {
        const Feature *feature = placed_find(labelling->source->placed, table->rows[i].feature);
        if (feature && feature->kind == FEATURE_HOLE)
            placement_add_disc(placement, view_point(labelling->map, feature_at(feature)),
                               feature->shape.growth * labelling->map.scale);
    }
    return placement;
}

/* The word FRONT within the front edge, as near its middle as there is room. */
static void draw_front(const Labelling *labelling, Placement *placement)
{
    Drawing *drawing = labelling->drawing;
    const Stock *stock = &plate_settings(labelling->source->plate)->stock;
    double width = lettering_extent(drawing->lettering, FRONT, LETTERING).width;
    Point middle = view_point(labelling->map, (Point){length_to_mm(stock->length) / 2, 0});
    double reach = length_to_mm(stock->length) * labelling->map.scale / 2 - width / 2 - FRONT_GAP;
    for (double off = 0; off<reach; off = off> 0 ? -off : -off + FRONT_GAP) {
        Box box = {middle.x + off - width / 2, middle.y + FRONT_GAP, middle.x + off + width / 2,
                   middle.y + FRONT_GAP + LETTERING};
        if (!placement_box_is_free(placement, box))
            continue;
        drawing_about(drawing, ROLE_NOTE, 0);
        drawing_text(drawing, (Point){box.x0, box.y0},
                     (TextStyle){LETTERING, TEXT_START, TEXT_BASE, 0}, FRONT);
        placement_add_box(placement, box);
        return;
    }
}

size_t labels_draw(Drawing *drawing, const DrawingSource *source, ViewMap map,
                   const HoleTable *table, Box area)
{
    Labelling labelling = {drawing, source, map};
    Placement *placement = placement_for(&labelling, table, area);
    draw_front(&labelling, placement);
    LabelRequest *requests = g_new(LabelRequest, table->count);
    LabelPlace *places = g_new(LabelPlace, table->count);
    for (size_t i = 0; i < table->count; i++)
        requests[i] = request_for(&labelling, placed_find(source->placed, table->rows[i].feature),
                                  table->rows[i].label);
    size_t unplaced = placement_labels(placement, requests, table->count, places);
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        if (!places[i].found)
            continue;
        drawing_about(drawing, role_of(row->kind), row->feature);
        draw_label(&labelling, &places[i], &requests[i], row->label);
    }
    placement_free(placement);
    g_free(requests);
    g_free(places);
    return unplaced;
}
