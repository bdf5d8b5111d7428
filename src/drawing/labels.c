#include "drawing/labels.h"

#include "drawing/dimension.h"
#include "drawing/placement.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define DOT 0.6 /* radius of a leader's end inside an area, mm */

typedef struct Labelling {
    Drawing *drawing;
    const DrawingSource *source;
    ViewMap map;
    Placement *placement;
} Labelling;

static void draw_label(const Labelling *labelling, const LabelPlace *place, Point tip, bool dot,
                       const char *text)
{
    if (!place->leader) {
        Point at = {(place->box.x0 + place->box.x1) / 2, place->box.y0};
        drawing_text(labelling->drawing, at, (TextStyle){LETTERING, TEXT_MIDDLE, TEXT_BASE, 0},
                     text);
        return;
    }
    if (!dot) {
        dimension_leader(labelling->drawing, tip, place->knee, LETTERING, text);
        return;
    }
    dimension_leader_to_area(labelling->drawing, tip, place->knee, LETTERING, text);
    drawing_dot(labelling->drawing, tip, DOT);
}

static bool label_hole(const Labelling *labelling, const Feature *feature, const char *text,
                       double width)
{
    Point centre = view_point(labelling->map, feature_at(feature));
    double radius = feature->shape.growth * labelling->map.scale;
    LabelPlace place;
    if (!placement_label(labelling->placement, centre, radius, width, LETTERING, &place))
        return false;
    Point way = point_minus(place.knee, centre);
    double length = point_length(way);
    Point tip = length > 0 ? point_plus(centre, point_times(way, radius / length)) : centre;
    draw_label(labelling, &place, tip, false, text);
    return true;
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

static bool label_area(const Labelling *labelling, const Feature *feature, const char *text,
                       double width)
{
    Point middle = view_point(labelling->map, area_middle(&feature->shape));
    Box box = {middle.x - width / 2, middle.y - LETTERING / 2, middle.x + width / 2,
               middle.y + LETTERING / 2};
    LabelPlace place = {box, false, {0, 0}};
    if (placement_box_is_free(labelling->placement, box))
        placement_add_box(labelling->placement, box);
    else if (!placement_label(labelling->placement, middle, 0, width, LETTERING, &place))
        return false;
    draw_label(labelling, &place, middle, true, text);
    return true;
}

static MarkRole role_of(FeatureKind kind)
{
    return kind == FEATURE_PART ? ROLE_PART : ROLE_LABEL;
}

size_t labels_draw(Drawing *drawing, const DrawingSource *source, ViewMap map,
                   const HoleTable *table, Box area)
{
    Labelling labelling = {drawing, source, map, placement_new()};
    const Sheet *sheet = &drawing->sheets[drawing->sheet_count - 1];
    placement_set_area(labelling.placement, area);
    placement_add_marks(labelling.placement, drawing, sheet->first, sheet->count);
    for (size_t i = 0; i < table->count; i++) {
        const Feature *feature = placed_find(source->placed, table->rows[i].feature);
        if (feature && feature->kind == FEATURE_HOLE)
            placement_add_disc(labelling.placement, view_point(map, feature_at(feature)),
                               feature->shape.growth * map.scale);
    }
    size_t unplaced = 0;
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        const Feature *feature = placed_find(source->placed, row->feature);
        if (!feature)
            continue;
        double width = lettering_extent(drawing->lettering, row->label, LETTERING).width;
        drawing_about(drawing, role_of(row->kind), row->feature);
        bool placed = row->kind == FEATURE_HOLE
                          ? label_hole(&labelling, feature, row->label, width)
                          : label_area(&labelling, feature, row->label, width);
        unplaced += placed ? 0 : 1;
    }
    placement_free(labelling.placement);
    return unplaced;
}
