#include "command/part-picture.h"

#include "drawing/dimension.h"
#include "drawing/shape-path.h"

#include <glib.h>

static Point point_of(Place place)
{
    return (Point){length_to_mm(place.x), length_to_mm(place.y)};
}

static Box blank_box(const Blank *blank)
{
    Point corner = point_of(blank->at);
    return (Box){corner.x, corner.y, corner.x + length_to_mm(blank->length),
                 corner.y + length_to_mm(blank->width)};
}

static void draw_blank(Drawing *drawing, const Blank *blank, ViewMap map)
{
    Box box = blank_box(blank);
    Point low = view_point(map, (Point){box.x0, box.y0});
    Point high = view_point(map, (Point){box.x1, box.y1});
    drawing_about(drawing, ROLE_STOCK, 0);
    drawing_box(drawing, LINE_PHANTOM, (Box){low.x, low.y, high.x, high.y});
}

static void draw_holes(Drawing *drawing, const Part *part, ViewMap map)
{
    for (uint32_t i = 0; i < part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&part->holes, PartHole, i);
        Point centre = view_point(map, point_of(hole->at));
        double radius = map.scale * length_to_mm(hole->diameter) / 2;
        drawing_about(drawing, ROLE_HOLE, 0);
        drawing_circle(drawing, LINE_VISIBLE, centre, radius);
        drawing_about(drawing, ROLE_CENTRE_MARK, 0);
        dimension_centre_mark(drawing, centre, radius);
    }
}

bool part_picture_draw(Drawing *drawing, const Part *part, double sheet, double margin,
                       Error *error)
{
    Outline *outline = part_outline(part, error);
    if (!outline)
        return false;
    Box box = outline_box(outline);
    if (part->blank.length > 0)
        box = box_union(box, blank_box(&part->blank));
    double length = box.x1 - box.x0, width = box.y1 - box.y0;
    double scale = (sheet - 2 * margin) / MAX(length, width);
    ViewMap map = {{margin - scale * box.x0, margin - scale * box.y0}, scale};
    drawing_clear(drawing);
    g_strlcpy(drawing->title, part->name ? part->name : "Part", sizeof drawing->title);
    drawing_begin_sheet(drawing, length * scale + 2 * margin, width * scale + 2 * margin, "Part");
    if (part->blank.length > 0)
        draw_blank(drawing, &part->blank, map);
    Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
    drawing_about(drawing, ROLE_PART, 0);
    shape_path_draw(drawing, LINE_VISIBLE, &shape, map);
    draw_holes(drawing, part, map);
    outline_unref(outline);
    return true;
}
