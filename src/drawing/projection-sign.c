#include "drawing/projection-sign.h"

#define GAP 0.5   /* between the two views, in sizes */
#define REACH 0.2 /* of the axes beyond the outlines, in sizes */

static void draw_cone(Drawing *drawing, Point c, double size)
{
    double half = size / 2, quarter = size / 4;
    Vertex cone[] = {{c.x - half, c.y - quarter, 0},
                     {c.x + half, c.y - half, 0},
                     {c.x + half, c.y + half, 0},
                     {c.x - half, c.y + quarter, 0}};
    drawing_path(drawing, LINE_SIGN, cone, 4, true);
    double reach = half + REACH * size;
    drawing_line(drawing, LINE_CENTRE, (Point){c.x - reach, c.y}, (Point){c.x + reach, c.y});
}

static void draw_ends(Drawing *drawing, Point c, double size)
{
    drawing_circle(drawing, LINE_SIGN, c, size / 2);
    drawing_circle(drawing, LINE_SIGN, c, size / 4);
    double reach = size / 2 + REACH * size;
    drawing_line(drawing, LINE_CENTRE, (Point){c.x - reach, c.y}, (Point){c.x + reach, c.y});
    drawing_line(drawing, LINE_CENTRE, (Point){c.x, c.y - reach}, (Point){c.x, c.y + reach});
}

void projection_sign_draw(Drawing *drawing, Point centre, double size, bool first_angle)
{
    double aside = (1 + GAP) * size / 2;
    Point left = {centre.x - aside, centre.y}, right = {centre.x + aside, centre.y};
    draw_cone(drawing, first_angle ? left : right, size);
    draw_ends(drawing, first_angle ? right : left, size);
}
