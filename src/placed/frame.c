#include "placed/frame.h"

static Shape rectangle_from_corner(double length, double width)
{
    return shape_rectangle((Pose){length / 2, width / 2, 1, 0, false}, length, width, 0);
}

static Frame top_frame(const Stock *stock)
{
    return (Frame){
        .face = ID_TOP,
        .along = {1, 0, 0},
        .up = {0, 1, 0},
        .normal = {0, 0, 1},
        .extent = rectangle_from_corner(length_to_mm(stock->length), length_to_mm(stock->width)),
        .depth = length_to_mm(stock->thickness),
    };
}

/* The face falls away to the left of the break line; its own Y points back up the slope, so the
 * face's area has negative Y from the break line down. */
static Frame inclined_frame(const Record *record, const Stock *stock)
{
    const Face *face = &record->face;
    double dx = length_to_mm(face->to.x - face->from.x);
    double dy = length_to_mm(face->to.y - face->from.y);
    double length = sqrt(dx * dx + dy * dy);
    double extent = length_to_mm(face->extent);
    double cosine, sine;
    angle_cos_sin(face->angle, &cosine, &sine);
    Space along = {dx / length, dy / length, 0};
    Space left = {-along.y, along.x, 0};
    Frame frame = {
        .face = record->id,
        .origin = {length_to_mm(face->from.x), length_to_mm(face->from.y), 0},
        .along = {-along.x, -along.y, 0},
        .up = {-left.x * cosine, -left.y * cosine, sine},
        .normal = {left.x * sine, left.y * sine, cosine},
        .extent = shape_rectangle((Pose){-length / 2, -extent / 2, 1, 0, false}, length, extent, 0),
        .depth = length_to_mm(stock->thickness) * cosine,
    };
    return frame;
}

Frame frame_of(const Stock *stock, const Record *face)
{
    return face->face.kind == FACE_INCLINED ? inclined_frame(face, stock) : top_frame(stock);
}

/* The underside is the thickness below the origin; the place is y * up.z over that, and the way
 * down leans by the face's angle, whose cosine is normal.z and which the depth has as a factor. */
double frame_depth_at(const Frame *frame, Point p)
{
    double cosine = frame->normal.z;
    return (frame->depth / cosine + p.y * frame->up.z) / cosine;
}

double frame_height_over(const Frame *frame, Point at)
{
    const Space *normal = &frame->normal;
    double dx = at.x - frame->origin.x, dy = at.y - frame->origin.y;
    double z = frame->origin.z - (normal->x * dx + normal->y * dy) / normal->z;
    Point own = frame_from_space(frame, (Space){at.x, at.y, z}, NULL);
    return shape_contains(&frame->extent, own) ? z : 0;
}

Space frame_to_space(const Frame *frame, Point p, double height)
{
    Placement placement = frame_placement(frame);
    return placement_point(&placement, (Space){p.x, p.y, height});
}

Point frame_from_space(const Frame *frame, Space p, double *height)
{
    Placement placement = frame_placement(frame);
    Space own = placement_own_point(&placement, p);
    if (height)
        *height = own.z;
    return (Point){own.x, own.y};
}
