#include "drawing/dimension.h"

#include <glib.h>

#define ARROW_HALF_WIDTH (DIMENSION_ARROW / 6)
#define OUTSIDE 2.0  /* of a line beyond an arrow that stands outside */
#define TEXT_GAP 1.0 /* from a line to a text beside it */
/* Crosses shorter than this have no dashes, as ISO 128-2 allows for small circles. */
#define DASHED_FROM 14.0

void dimension_arrow(Drawing *drawing, Point tip, Point direction)
{
    double length = point_length(direction);
    if (!(length > 0))
        return;
    Point d = point_times(direction, 1 / length);
    Point back = point_minus(tip, point_times(d, DIMENSION_ARROW));
    Point aside = {-d.y * ARROW_HALF_WIDTH, d.x * ARROW_HALF_WIDTH};
    Vertex corners[] = {{tip.x, tip.y, 0},
                        {back.x + aside.x, back.y + aside.y, 0},
                        {back.x - aside.x, back.y - aside.y, 0}};
    drawing_fill(drawing, corners, 3);
}

/* Dimensions are worked out along their own line: `along` on it, `across` from it. */
static Point on_line(bool upright, double along, double across)
{
    return upright ? (Point){across, along} : (Point){along, across};
}

static void draw_witness(Drawing *drawing, bool upright, double along, double from, double line)
{
    double way = line > from ? 1 : -1;
    if (fabs(line - from) < DIMENSION_GAP)
        return;
    drawing_line(drawing, LINE_DIMENSION, on_line(upright, along, from + way * DIMENSION_GAP),
                 on_line(upright, along, line + way * DIMENSION_OVERSHOOT));
}

static void draw_piece(Drawing *drawing, const LinearDimension *d, double from, double to)
{
    drawing_line(drawing, LINE_DIMENSION, on_line(d->upright, from, d->line),
                 on_line(d->upright, to, d->line));
}

static void draw_arrow(Drawing *drawing, const LinearDimension *d, double tip, double way)
{
    dimension_arrow(drawing, on_line(d->upright, tip, d->line), on_line(d->upright, way, 0));
}

/* The figure, about the middle of the line or behind its upper end. `along` is how much of the
 * line's length it takes. */
static TextStyle text_style(const LinearDimension *d)
{
    bool iso = d->standard == DIMENSION_ISO;
    return (TextStyle){d->height, TEXT_MIDDLE, iso ? TEXT_BASE : TEXT_CENTRE,
                       iso && d->upright ? 90 : 0};
}

static Box draw_figure(Drawing *drawing, const LinearDimension *d, double middle)
{
    TextStyle style = text_style(d);
    /* Above the line, or left of one that is read from the right. */
    double off = d->standard == DIMENSION_ISO ? TEXT_GAP : 0;
    double across = d->line + (d->upright ? -off : off);
    return drawing_text(drawing, on_line(d->upright, middle, across), style, d->text);
}

/* What the figure takes of the line's length, mm. */
static double figure_length_along(const Drawing *drawing, const LinearDimension *d)
{
    Box figure = drawing_text_box(drawing, (Point){0, 0}, text_style(d), d->text);
    return (d->upright ? figure.y1 - figure.y0 : figure.x1 - figure.x0) + 2 * TEXT_GAP;
}

/* Whether there is room between the witness lines for arrows of `length` mm, and for the figure. */
static bool arrows_fit(const LinearDimension *d, double length, double figure)
{
    return length >= 2 * DIMENSION_ARROW + (d->standard == DIMENSION_ASME ? figure + 2 : 1);
}

static bool text_fits(const LinearDimension *d, double length, double figure)
{
    return d->standard == DIMENSION_ASME ? arrows_fit(d, length, figure) : length >= figure;
}

static double measured(const LinearDimension *d)
{
    return fabs(d->upright ? d->to.y - d->from.y : d->to.x - d->from.x);
}

double dimension_overhang(const Drawing *drawing, const LinearDimension *d)
{
    double figure = figure_length_along(drawing, d);
    return text_fits(d, measured(d), figure) ? 0 : DIMENSION_ARROW + OUTSIDE + figure;
}

bool dimension_has_room(const Drawing *drawing, const LinearDimension *d)
{
    double length = measured(d), figure = figure_length_along(drawing, d);
    return arrows_fit(d, length, figure) && text_fits(d, length, figure);
}

Box dimension_linear(Drawing *drawing, const LinearDimension *d)
{
    double a = d->upright ? d->from.y : d->from.x, b = d->upright ? d->to.y : d->to.x;
    double a_across = d->upright ? d->from.x : d->from.y;
    double b_across = d->upright ? d->to.x : d->to.y;
    double low = fmin(a, b), high = fmax(a, b);
    if (!d->chained) {
        draw_witness(drawing, d->upright, a, a_across, d->line);
        draw_witness(drawing, d->upright, b, b_across, d->line);
    }
    double taken = figure_length_along(drawing, d);
    bool broken = d->standard == DIMENSION_ASME;
    double middle = (low + high) / 2;
    bool arrows_inside = arrows_fit(d, high - low, taken);
    bool text_inside = text_fits(d, high - low, taken);
    if (!text_inside)
        middle = high + DIMENSION_ARROW + OUTSIDE + taken / 2;

    if (arrows_inside) {
        draw_arrow(drawing, d, low, -1);
        draw_arrow(drawing, d, high, 1);
        if (broken) {
            draw_piece(drawing, d, low, middle - taken / 2);
            draw_piece(drawing, d, middle + taken / 2, high);
        } else {
            draw_piece(drawing, d, low, high);
        }
    } else {
        draw_arrow(drawing, d, low, 1);
        draw_arrow(drawing, d, high, -1);
        draw_piece(drawing, d, low - DIMENSION_ARROW - OUTSIDE, low);
        draw_piece(drawing, d, low, high);
        draw_piece(drawing, d, high, high + DIMENSION_ARROW + OUTSIDE);
    }
    if (!text_inside && !broken)
        draw_piece(drawing, d, high, middle + taken / 2);
    return draw_figure(drawing, d, middle);
}

Box dimension_ordinate(Drawing *drawing, const OrdinateRow *row, const Ordinate *ordinate)
{
    bool beside = row->side == ORDINATE_LEFT || row->side == ORDINATE_RIGHT;
    double way = row->side == ORDINATE_BELOW || row->side == ORDINATE_LEFT ? -1 : 1;
    double along = beside ? ordinate->from.y : ordinate->from.x;
    double start = (beside ? ordinate->from.x : ordinate->from.y) + way * DIMENSION_GAP;
    Point places[] = {on_line(beside, along, start), on_line(beside, along, row->jog_start),
                      on_line(beside, ordinate->position, row->jog_end),
                      on_line(beside, ordinate->position, row->line_end)};
    drawing_about(drawing, ROLE_DIMENSION, ordinate->feature);
    if (ordinate->position == along) {
        drawing_line(drawing, LINE_DIMENSION, places[0], places[3]);
    } else {
        Vertex path[4];
        for (int i = 0; i < 4; i++)
            path[i] = (Vertex){places[i].x, places[i].y, 0};
        drawing_path(drawing, LINE_DIMENSION, path, 4, false);
    }
    TextStyle style = {row->height, way < 0 ? TEXT_END : TEXT_START, TEXT_CENTRE, beside ? 0 : 90};
    return drawing_text(drawing,
                        on_line(beside, ordinate->position, row->line_end + way * TEXT_GAP), style,
                        ordinate->text);
}

static Point leader_text(Point tip, Point knee, double height, TextStyle *style)
{
    bool right = knee.x >= tip.x;
    *style = (TextStyle){height, right ? TEXT_START : TEXT_END, TEXT_CENTRE, 0};
    double along = DIMENSION_SHOULDER + TEXT_GAP;
    return (Point){knee.x + (right ? along : -along), knee.y};
}

Box dimension_leader_to_area(Drawing *drawing, Point tip, Point knee, double height,
                             const char *text)
{
    TextStyle style;
    Point at = leader_text(tip, knee, height, &style);
    double shoulder = knee.x >= tip.x ? DIMENSION_SHOULDER : -DIMENSION_SHOULDER;
    Vertex path[] = {{tip.x, tip.y, 0}, {knee.x, knee.y, 0}, {knee.x + shoulder, knee.y, 0}};
    drawing_path(drawing, LINE_DIMENSION, path, 3, false);
    return drawing_text(drawing, at, style, text);
}

Box dimension_leader(Drawing *drawing, Point tip, Point knee, double height, const char *text)
{
    dimension_arrow(drawing, tip, point_minus(tip, knee));
    return dimension_leader_to_area(drawing, tip, knee, height, text);
}

void dimension_centre_mark(Drawing *drawing, Point centre, double radius)
{
    double reach = radius + DIMENSION_OVERSHOOT;
    LineKind line = 2 * reach >= DASHED_FROM ? LINE_CENTRE : LINE_DIMENSION;
    drawing_line(drawing, line, (Point){centre.x - reach, centre.y},
                 (Point){centre.x + reach, centre.y});
    drawing_line(drawing, line, (Point){centre.x, centre.y - reach},
                 (Point){centre.x, centre.y + reach});
}
