#include "exchange/svg-pen.h"

void svg_pen_init(SvgPen *pen, Loops *loops, double tolerance)
{
    *pen = (SvgPen){.transform = TRANSFORM_IDENTITY, .tolerance = tolerance, .loops = loops};
    pen->nodes = g_array_new(FALSE, FALSE, sizeof(Point));
}

void svg_pen_clear(SvgPen *pen)
{
    curve_clear(&pen->curve);
    g_array_free(pen->nodes, TRUE);
}

static void add_node(SvgPen *pen)
{
    Point p = transform_point(&pen->transform, pen->at);
    g_array_append_val(pen->nodes, p);
}

/* A drawing command after a close begins a new chain where the closed one began. */
static bool begin(SvgPen *pen, Error *error)
{
    if (pen->drawing)
        return true;
    g_array_set_size(pen->nodes, 0);
    if (!curve_begin(&pen->curve, transform_point(&pen->transform, pen->at), error))
        return false;
    pen->start = pen->at;
    pen->drawing = true;
    add_node(pen);
    return true;
}

static bool finish(SvgPen *pen, bool closed, Error *error)
{
    if (!pen->drawing)
        return true;
    pen->drawing = false;
    return loops_add(pen->loops, &pen->curve, (const Point *)(void *)pen->nodes->data,
                     pen->nodes->len, closed, pen->line, error);
}

bool svg_pen_move(SvgPen *pen, Point p, Error *error)
{
    if (!finish(pen, false, error))
        return false;
    pen->start = pen->at = p;
    return true;
}

bool svg_pen_end(SvgPen *pen, Error *error)
{
    return finish(pen, false, error);
}

bool svg_pen_close(SvgPen *pen, Error *error)
{
    /* The first point is among the nodes already. */
    bool back = pen->at.x == pen->start.x && pen->at.y == pen->start.y;
    if (pen->drawing && back && pen->nodes->len > 1)
        g_array_set_size(pen->nodes, pen->nodes->len - 1);
    pen->at = pen->start;
    return finish(pen, true, error);
}

static bool arrived(SvgPen *pen, Point p)
{
    pen->at = p;
    add_node(pen);
    return true;
}

bool svg_pen_line(SvgPen *pen, Point p, Error *error)
{
    return begin(pen, error) &&
           curve_line_to(&pen->curve, transform_point(&pen->transform, p), error) &&
           arrived(pen, p);
}

bool svg_pen_quadratic(SvgPen *pen, Point c, Point p, Error *error)
{
    const Transform *t = &pen->transform;
    return begin(pen, error) &&
           curve_quadratic_to(&pen->curve, transform_point(t, c), transform_point(t, p),
                              pen->tolerance, error) &&
           arrived(pen, p);
}

bool svg_pen_cubic(SvgPen *pen, Point c1, Point c2, Point p, Error *error)
{
    const Transform *t = &pen->transform;
    return begin(pen, error) &&
           curve_cubic_to(&pen->curve, transform_point(t, c1), transform_point(t, c2),
                          transform_point(t, p), pen->tolerance, error) &&
           arrived(pen, p);
}

static bool draw_ellipse(SvgPen *pen, EllipseArc arc, Error *error)
{
    const Transform *t = &pen->transform;
    arc.centre = transform_point(t, arc.centre);
    arc.u = transform_direction(t, arc.u);
    arc.v = transform_direction(t, arc.v);
    return curve_ellipse_to(&pen->curve, &arc, pen->tolerance, error);
}

bool svg_pen_arc(SvgPen *pen, Point radii, double turn, bool large, bool positive, Point p,
                 Error *error)
{
    EllipseArc arc;
    if (!ellipse_arc_from_ends(pen->at, p, radii.x, radii.y, turn, large, positive, &arc))
        return svg_pen_line(pen, p, error);
    if (!begin(pen, error) || !draw_ellipse(pen, arc, error))
        return false;
    /* The end as it is written, not as it was worked out. */
    Vertex *last = &pen->curve.vertices[pen->curve.count - 1];
    Point end = transform_point(&pen->transform, p);
    last->x = end.x;
    last->y = end.y;
    return arrived(pen, p);
}

bool svg_pen_ellipse(SvgPen *pen, Point centre, Point radii, Error *error)
{
    EllipseArc arc = {centre, {radii.x, 0}, {0, radii.y}, 0, 2 * G_PI};
    if (!svg_pen_move(pen, (Point){centre.x + radii.x, centre.y}, error) || !begin(pen, error) ||
        !draw_ellipse(pen, arc, error))
        return false;
    static const Point quarters[] = {{0, 1}, {-1, 0}, {0, -1}};
    for (int i = 0; i < 3; i++) {
        pen->at = (Point){centre.x + quarters[i].x * radii.x, centre.y + quarters[i].y * radii.y};
        add_node(pen);
    }
    return svg_pen_close(pen, error);
}

bool svg_pen_rectangle(SvgPen *pen, Point corner, Point size, Point radii, Error *error)
{
    double x0 = corner.x, y0 = corner.y, x1 = x0 + size.x, y1 = y0 + size.y;
    double rx = fmin(radii.x, size.x / 2), ry = fmin(radii.y, size.y / 2);
    bool sharp = !(rx > 0 && ry > 0);
    if (sharp)
        rx = ry = 0;
    /* Each side's two ends, clockwise as it is seen with Y down (SVG 1.1 section 9.2). */
    Point ends[8] = {{x0 + rx, y0}, {x1 - rx, y0}, {x1, y0 + ry}, {x1, y1 - ry},
                     {x1 - rx, y1}, {x0 + rx, y1}, {x0, y1 - ry}, {x0, y0 + ry}};
    if (!svg_pen_move(pen, ends[0], error))
        return false;
    for (int i = 0; i < 4; i++) {
        if (!svg_pen_line(pen, ends[2 * i + 1], error))
            return false;
        if (!sharp &&
            !svg_pen_arc(pen, (Point){rx, ry}, 0, false, true, ends[(2 * i + 2) % 8], error))
            return false;
    }
    return svg_pen_close(pen, error);
}
