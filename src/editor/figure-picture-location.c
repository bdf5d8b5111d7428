/* A part's two holes on their locators, with the play drawn larger than it is. */
#include "editor/figure-picture-private.h"

#define PIN 4.0 /* mm on the sheet, the radius of a locator */

typedef struct LocationView {
    Point first, second, at; /* on the sheet */
    double scale, times;     /* mm on the sheet for 1 mm; how much larger what is off is drawn */
    double turn;             /* radians, as drawn */
} LocationView;

static void draw_pin(const FigurePicture *picture, Point at, double play, bool relieved)
{
    drawing_about(picture->drawing, ROLE_PART, 0);
    drawing_circle(picture->drawing, LINE_VISIBLE, at, PIN + play / 2);
    drawing_about(picture->drawing, ROLE_FITTING, 0);
    if (!relieved) {
        drawing_dot(picture->drawing, at, PIN);
        drawing_circle(picture->drawing, LINE_VISIBLE, at, PIN);
        return;
    }
    /* Flats on both sides along the line of the locators, where it must not bear. */
    double half = 0.5 * PIN, high = sqrt(PIN * PIN - half * half), bow = PIN - high;
    Vertex pin[] = {{at.x + half, at.y - high, 0},
                    {at.x + half, at.y + high, bow},
                    {at.x - half, at.y + high, 0},
                    {at.x - half, at.y - high, bow}};
    drawing_fill(picture->drawing, pin, 4);
    drawing_path(picture->drawing, LINE_VISIBLE, pin, 4, true);
}

static Point about(Point p, Point centre, double turn)
{
    double c = cos(turn), s = sin(turn), x = p.x - centre.x, y = p.y - centre.y;
    return (Point){centre.x + c * x - s * y, centre.y + s * x + c * y};
}

static void draw_part(const FigurePicture *picture, const LocationView *view, Box box, double turn,
                      LineKind line)
{
    Point corners[] = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    Point middle = {(view->first.x + view->second.x) / 2, view->first.y};
    Vertex path[4];
    for (int i = 0; i < 4; i++) {
        Point p = about(corners[i], middle, turn);
        path[i] = (Vertex){p.x, p.y, 0};
    }
    drawing_about(picture->drawing, ROLE_PART, 0);
    drawing_path(picture->drawing, line, path, 4, true);
}

/* The longest of what is off, mm. */
static double most_off(const FigurePicture *picture)
{
    double play =
        fmax(picture_number(picture, "clearance", 0), picture_number(picture, "clearance_2", 0));
    return fmax(picture_number(picture, "shift_greatest", 0), play / 2);
}

/* Puts the locators and the place asked about on the sheet. */
static void arrange(const FigurePicture *picture, LocationView *view)
{
    double distance = picture_number(picture, "distance", 1);
    double along = picture_number(picture, "along", distance);
    double across = picture_number(picture, "across", 0);
    double x0 = fmin(0, along), x1 = fmax(distance, along);
    double y0 = fmin(0, across), y1 = fmax(0, across);
    double room_x = picture->width - 56, room_y = picture->height - 44;
    view->scale = fmin(room_x / (x1 - x0), y1 > y0 ? room_y / (y1 - y0) : INFINITY);
    if (most_off(picture) > 0) /* play beyond all sense still has to go on the sheet */
        view->scale = fmin(view->scale, 10 / most_off(picture));
    double s = view->scale;
    view->first.x = picture->width / 2 - s * (x0 + x1) / 2;
    view->first.y = (picture->height + 8) / 2 - s * (y0 + y1) / 2;
    view->second = (Point){view->first.x + s * distance, view->first.y};
    view->at = (Point){view->first.x + s * along, view->first.y + s * across};
}

static void magnify(const FigurePicture *picture, LocationView *view)
{
    double turn = picture_number(picture, "turn_greatest", 0) * G_PI / 180;
    double most = fmax(
        picture_number(picture, "shift_greatest", 0),
        fmax(picture_number(picture, "clearance", 0), picture_number(picture, "clearance_2", 0)) /
            2);
    double times = most > 0 ? 6 / (most * view->scale) : 1;
    if (turn > 0)
        times = fmin(times, 0.12 / turn);
    view->times = picture_times(times);
    view->turn = turn * view->times;
}

void picture_of_location_error(const FigurePicture *picture)
{
    LocationView view;
    if (picture_number(picture, "distance", 0) <= 0)
        return;
    arrange(picture, &view);
    magnify(picture, &view);
    double off = view.scale * view.times, room = PIN + 5;
    Box box = {fmin(view.first.x, view.at.x) - room, fmin(view.first.y, view.at.y) - room,
               fmax(view.second.x, view.at.x) + room, fmax(view.first.y, view.at.y) + room};
    draw_part(picture, &view, box, 0, LINE_VISIBLE);
    if (view.turn > 0) {
        draw_part(picture, &view, box, view.turn, LINE_PHANTOM);
        draw_part(picture, &view, box, -view.turn, LINE_PHANTOM);
    }
    bool relieved = !g_strcmp0(picture_words(picture, "second_locator"), "relieved");
    draw_pin(picture, view.first, off * picture_number(picture, "clearance", 0), false);
    draw_pin(picture, view.second, off * picture_number(picture, "clearance_2", 0), relieved);
    double shift = off * picture_number(picture, "shift_greatest", 0);
    drawing_about(picture->drawing, ROLE_LABEL, 0);
    if (shift > 0)
        drawing_circle(picture->drawing, LINE_VISIBLE, view.at, shift);
    dimension_centre_mark(picture->drawing, view.at, 1);
    picture_dimension(picture, (Point){view.first.x, box.y0}, (Point){view.second.x, box.y0}, false,
                      fmin(box.y0 - 5, 12), NULL, picture_number(picture, "distance", 0));
    char text[PICTURE_WORDS];
    g_snprintf(text, sizeof text, _("what is off is drawn %.0f times as large"), view.times);
    picture_note(picture, (Point){picture->width / 2, 3.5}, TEXT_MIDDLE, text);
}
