/* A blade's section with its bevel, and the blade with its second side up on the inclined face. */
#include "editor/figure-picture-private.h"
#include "editor/speech.h"

typedef struct BladeSection {
    double thickness, edge, height, angle, back; /* mm, degrees; back: the flat above the bevel */
    int sides;
    double scale;
} BladeSection;

/* The section with the edge at the origin, pointing to -X, its middle along X; Y up. */
static size_t section_corners(const BladeSection *blade, Point *corners)
{
    double t = blade->thickness, e = blade->edge, h = blade->height;
    double end = h + blade->back, under = blade->sides == 2 ? e / 2 : t / 2;
    double over = blade->sides == 2 ? e / 2 : e - t / 2;
    size_t count = 0;
    corners[count++] = (Point){0, -under};
    if (blade->sides == 2)
        corners[count++] = (Point){h, -t / 2};
    corners[count++] = (Point){end, -t / 2};
    corners[count++] = (Point){end, t / 2};
    corners[count++] = (Point){h, t / 2};
    corners[count++] = (Point){0, over};
    return count;
}

static Point turned(Point p, double degrees, Point origin, double scale)
{
    double c = cos(degrees * G_PI / 180), s = sin(degrees * G_PI / 180);
    return (Point){origin.x + scale * (c * p.x - s * p.y), origin.y + scale * (s * p.x + c * p.y)};
}

static void draw_section(const FigurePicture *picture, const BladeSection *blade, Point origin)
{
    Point corners[6];
    double s = blade->scale, t = blade->thickness, h = blade->height;
    size_t count = section_corners(blade, corners);
    for (size_t i = 0; i < count; i++)
        corners[i] = turned(corners[i], 0, origin, s);
    picture_cut(picture, corners, count);
    Point tip = corners[count - 1], top = {origin.x + h * s, origin.y + t / 2 * s};
    picture_dimension(picture, tip, top, false, top.y + 7, NULL, h);
    Point end = {origin.x + (h + blade->back) * s, 0};
    picture_dimension(picture, (Point){end.x, origin.y - t / 2 * s},
                      (Point){end.x, origin.y + t / 2 * s}, true, end.x + 6, NULL, t);
    picture_dimension(picture, corners[0], tip, true, origin.x - 7, NULL, blade->edge);
    char text[PICTURE_WORDS];
    g_snprintf(text, sizeof text, blade->sides == 2 ? _("%.4g° a side") : _("%.4g° on one side"),
               blade->angle);
    pin_figures(text);
    picture_note(picture, (Point){(tip.x + end.x) / 2, origin.y - t / 2 * s - 6}, TEXT_MIDDLE,
                 text);
}

/* The first bevel lies over the face, which falls away from it by the bevel's angle once more. */
static void draw_second_side(const FigurePicture *picture, const BladeSection *blade, double left,
                             double right)
{
    double angle = blade->angle, t = blade->thickness, end = blade->height + blade->back;
    double across = end * cos(angle * G_PI / 180) + t, up = end * sin(angle * G_PI / 180) + t;
    double room = picture->height - 26;
    BladeSection small = *blade;
    small.scale = fmin((right - left - 8) / across, room / up);
    double s = small.scale;
    Point foot = {left + 4, 13 + (room - up * s) / 2}, corners[6];
    Point high = {foot.x, foot.y + end * sin(angle * G_PI / 180) * s};
    /* The blade lies on its flat with the edge up the slope, so that the bevel to be cut is level.
     */
    size_t count = section_corners(&small, corners);
    for (size_t i = 0; i < count; i++)
        corners[i] = turned((Point){corners[i].x, corners[i].y + t / 2}, -angle, high, s);
    Point low = turned((Point){end, 0}, -angle, high, s);
    Point face[] = {high, {low.x, low.y}, {low.x, low.y - 5}, {foot.x, low.y - 5}};
    picture_cut(picture, face, 4);
    picture_thing(picture, ROLE_PART, corners, count);
    picture_note(picture, (Point){(left + right) / 2, picture->height - 4}, TEXT_MIDDLE,
                 blade->sides == 2 ? _("second side up, on the inclined face")
                                   : _("on the inclined face"));
    if (blade->sides == 1)
        return;
    char text[PICTURE_WORDS], length[PICTURE_WORDS];
    g_snprintf(text, sizeof text, "%s %s", _("gap under the edge"),
               picture_length(picture, picture_number(picture, "gap_under_edge", 0), length));
    picture_note(picture, (Point){(left + right) / 2, 4}, TEXT_MIDDLE, text);
}

void picture_of_bevel(const FigurePicture *picture)
{
    BladeSection blade = {.thickness = picture_number(picture, "thickness", 1),
                          .edge = picture_number(picture, "edge", 0),
                          .height = picture_number(picture, "height", 1),
                          .angle = picture_number(picture, "angle", 5),
                          .sides = (int)picture_number(picture, "sides", 2)};
    double width = picture_number(picture, "width", 1.5 * blade.height);
    blade.back = fmax(width - blade.height, 0.15 * blade.height);
    double half = picture->width * 0.55, long_way = blade.height + blade.back;
    blade.scale = fmin((half - 30) / long_way, (picture->height - 32) / blade.thickness);
    Point origin = {14 + (half - 30 - long_way * blade.scale) / 2, picture->height / 2 - 1};
    draw_section(picture, &blade, origin);
    draw_second_side(picture, &blade, half + 4, picture->width - 4);
}
