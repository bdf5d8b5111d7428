/* The areas of things, laid quietly behind the lines of the drawing. */
#include "editor/layout-private.h"

static void trace_ring(cairo_t *cairo, const Vertex *ring, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        Vertex from = ring[i];
        Point to = {ring[(i + 1) % count].x, ring[(i + 1) % count].y};
        if (i == 0)
            cairo_move_to(cairo, from.x, from.y);
        if (from.sagitta == 0) {
            cairo_line_to(cairo, to.x, to.y);
            continue;
        }
        double radius;
        Point centre = arc_centre(from, to, &radius);
        double start = atan2(from.y - centre.y, from.x - centre.x);
        double end = atan2(to.y - centre.y, to.x - centre.x);
        if (from.sagitta > 0)
            cairo_arc(cairo, centre.x, centre.y, radius, start, end);
        else
            cairo_arc_negative(cairo, centre.x, centre.y, radius, start, end);
    }
    cairo_close_path(cairo);
}

/* A rectangle with round corners, about the origin. */
static void trace_rounded(cairo_t *cairo, double half_length, double half_width, double growth)
{
    static const int corners[4][2] = {{1, -1}, {1, 1}, {-1, 1}, {-1, -1}};
    for (int i = 0; i < 4; i++) {
        double start = (i - 1) * G_PI / 2;
        cairo_arc(cairo, corners[i][0] * half_length, corners[i][1] * half_width, growth, start,
                  start + G_PI / 2);
    }
    cairo_close_path(cairo);
}

static void fill_outline(cairo_t *cairo, const Shape *shape)
{
    cairo_set_fill_rule(cairo, CAIRO_FILL_RULE_EVEN_ODD);
    for (size_t i = 0; i < outline_ring_count(shape->outline); i++) {
        size_t count;
        const Vertex *ring = outline_ring(shape->outline, i, &count);
        trace_ring(cairo, ring, count);
    }
    if (shape->growth <= 0) {
        cairo_fill(cairo);
        return;
    }
    /* Grown by a round pen, as a group, so that it is no darker where the two overlap. */
    cairo_pattern_t *colour = cairo_pattern_reference(cairo_get_source(cairo));
    double red, green, blue, alpha;
    cairo_pattern_get_rgba(colour, &red, &green, &blue, &alpha);
    cairo_push_group(cairo);
    cairo_set_source_rgb(cairo, red, green, blue);
    cairo_fill_preserve(cairo);
    cairo_set_line_width(cairo, 2 * shape->growth);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke(cairo);
    cairo_pop_group_to_source(cairo);
    cairo_paint_with_alpha(cairo, alpha);
    cairo_pattern_destroy(colour);
}

/* In the shape's own coordinates. */
static void enter_pose(cairo_t *cairo, Pose pose)
{
    cairo_matrix_t matrix;
    double flip = pose.turned_over ? -1 : 1;
    cairo_matrix_init(&matrix, pose.cosine, pose.sine, -flip * pose.sine, flip * pose.cosine,
                      pose.x, pose.y);
    cairo_transform(cairo, &matrix);
    cairo_new_path(cairo);
}

void layout_tint(cairo_t *cairo, const Shape *shape)
{
    cairo_save(cairo);
    enter_pose(cairo, shape->pose);
    switch (shape->core) {
    case CORE_POINT:
        cairo_arc(cairo, 0, 0, shape->growth, 0, 2 * G_PI);
        cairo_fill(cairo);
        break;
    case CORE_SEGMENT:
        trace_rounded(cairo, shape->half_length, 0, shape->growth);
        cairo_fill(cairo);
        break;
    case CORE_RECTANGLE:
        trace_rounded(cairo, shape->half_length, shape->half_width, shape->growth);
        cairo_fill(cairo);
        break;
    case CORE_OUTLINE:
        if (shape->outline)
            fill_outline(cairo, shape);
        break;
    }
    cairo_restore(cairo);
}

/* --- sweeps ------------------------------------------------------------------------------------
 */

/* The way of the axis lies round the shape: from it outwards by the cutter's whole diameter. */
static void fill_round(cairo_t *cairo, const Sweep *sweep)
{
    Shape outer = sweep->path, inner = sweep->path;
    outer.growth += sweep->radius;
    inner.growth = fmax(0, inner.growth - sweep->radius);
    layout_tint(cairo, &outer);
    cairo_push_group(cairo);
    layout_tint(cairo, &inner);
    cairo_pop_group_to_source(cairo);
    cairo_set_operator(cairo, CAIRO_OPERATOR_DEST_OUT);
    cairo_paint(cairo);
}

/* The axis keeps inside the outline: from its border inwards. */
static void fill_within(cairo_t *cairo, const Sweep *sweep)
{
    const Outline *outline = sweep->path.core == CORE_OUTLINE ? sweep->path.outline : NULL;
    if (!outline) {
        layout_tint(cairo, &sweep->path);
        return;
    }
    cairo_save(cairo);
    enter_pose(cairo, sweep->path.pose);
    for (size_t i = 0; i < outline_ring_count(outline); i++) {
        size_t count;
        const Vertex *ring = outline_ring(outline, i, &count);
        trace_ring(cairo, ring, count);
    }
    cairo_clip_preserve(cairo);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_width(cairo, 2 * (sweep->inset + sweep->radius));
    cairo_stroke_preserve(cairo);
    cairo_set_operator(cairo, CAIRO_OPERATOR_DEST_OUT);
    cairo_set_line_width(cairo, fmax(0, 2 * (sweep->inset - sweep->radius)));
    cairo_stroke(cairo);
    cairo_restore(cairo);
}

void layout_tint_sweep(cairo_t *cairo, const Sweep *sweep)
{
    double red, green, blue, alpha;
    cairo_pattern_t *colour = cairo_pattern_reference(cairo_get_source(cairo));
    cairo_pattern_get_rgba(colour, &red, &green, &blue, &alpha);
    cairo_push_group(cairo);
    cairo_set_source_rgb(cairo, red, green, blue);
    if (sweep->way == SWEEP_ROUND) {
        fill_round(cairo, sweep);
    } else if (sweep->way == SWEEP_WITHIN) {
        fill_within(cairo, sweep);
    } else {
        Shape over = sweep->path;
        over.growth += sweep->radius;
        layout_tint(cairo, &over);
    }
    cairo_pop_group_to_source(cairo);
    cairo_paint_with_alpha(cairo, alpha);
    cairo_pattern_destroy(colour);
}
