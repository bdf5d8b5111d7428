#include "drawing/end-view.h"

#include "drawing/datum-letter.h"
#include "drawing/dimension.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define WIDEST 130.0  /* of the profile on the sheet, mm */
#define ABOVE 20.0    /* for the leader and the angle's figure */
#define BELOW 16.0    /* for the dimension */
#define SIZE_LINE 9.0 /* from the underside to it */
#define RADIUS 32.0   /* of the angle's arc, at the most */
#define BEYOND 8.0    /* of the arc beyond its two lines */
#define PAST 5.0      /* of the level line past the arc */

/* Standard scales, from the largest; ISO 5455, and those usual with inch drawings. */
static const double metric_scales[] = {2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01};
static const double inch_scales[] = {2, 1, 0.5, 0.25, 0.125, 0.0625, 0.03125, 0.015625};

/* Distances in mm of the plate along the way in which the face falls, and downwards. */
typedef struct Profile {
    double from, to;  /* of the stock */
    double edge, end; /* the break line, and where the face ends */
    double drop;      /* of the face at its end */
    double thickness; /* of the stock */
    double angle;     /* of the fall, radians */
} Profile;

/* The way in which the face falls, level. */
static Point fall_of(const Frame *frame)
{
    Point way = {frame->normal.x, frame->normal.y};
    return point_times(way, 1 / point_length(way));
}

static double along(Point way, Space at)
{
    return way.x * at.x + way.y * at.y;
}

static Profile profile_of(const DrawingSource *source, const Frame *frame)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    Point fall = fall_of(frame);
    Profile p = {.from = INFINITY,
                 .to = -INFINITY,
                 .thickness = length_to_mm(stock->thickness),
                 .angle = acos(fmin(1, frame->normal.z))};
    for (int i = 0; i < 4; i++) {
        Space corner = {i & 1 ? length_to_mm(stock->length) : 0,
                        i & 2 ? length_to_mm(stock->width) : 0, 0};
        p.from = fmin(p.from, along(fall, corner));
        p.to = fmax(p.to, along(fall, corner));
    }
    Box box = shape_box(&frame->extent);
    p.edge = along(fall, frame->origin);
    /* Of the face's two sides along the break line the other one is where it ends. */
    for (int i = 0; i < 2; i++) {
        Space side = frame_to_space(frame, (Point){box.x0, i ? box.y1 : box.y0}, 0);
        if (-side.z > p.drop) {
            p.drop = -side.z;
            p.end = along(fall, side);
        }
    }
    return p;
}

static Point on_sheet(const Profile *p, ViewMap map, double at, double height)
{
    return view_point(map, (Point){at - p->from, height});
}

static void draw_outline(Drawing *drawing, const Profile *p, ViewMap map)
{
    double low = -fmin(p->drop, p->thickness);
    Point corners[] = {on_sheet(p, map, p->from, -p->thickness),
                       on_sheet(p, map, p->from, 0),
                       on_sheet(p, map, p->edge, 0),
                       on_sheet(p, map, p->end, low),
                       on_sheet(p, map, p->end, 0),
                       on_sheet(p, map, p->to, 0),
                       on_sheet(p, map, p->to, -p->thickness)};
    bool to_the_side = p->to - p->end < 0.01;
    drawing_path_begin(drawing, LINE_VISIBLE);
    for (size_t i = 0; i < G_N_ELEMENTS(corners); i++) {
        /* A face that ends at the stock's side has no wall beyond it. */
        if (!(to_the_side && (i == 4 || i == 5)))
            drawing_path_add(drawing, (Vertex){corners[i].x, corners[i].y, 0});
    }
    drawing_path_end(drawing, true);
}

/* The arrowheads stand outside: such angles are narrow. */
static void draw_angle(Drawing *drawing, const Profile *p, ViewMap map, Angle angle)
{
    char text[FIGURE_TEXT];
    Point edge = on_sheet(p, map, p->edge, 0);
    double radius = fmin(RADIUS, 0.9 * (p->end - p->edge) * map.scale / cos(p->angle));
    double more = BEYOND / radius;
    Point level = {edge.x + radius, edge.y};
    Point slope = {edge.x + radius * cos(p->angle), edge.y - radius * sin(p->angle)};
    Point above = {edge.x + radius * cos(more), edge.y + radius * sin(more)};
    Point below = {edge.x + radius * cos(p->angle + more), edge.y - radius * sin(p->angle + more)};
    double rise = radius * (1 - cos(more / 2));
    drawing_line(drawing, LINE_DIMENSION, (Point){edge.x + DIMENSION_GAP, edge.y},
                 (Point){level.x + PAST, edge.y});
    drawing_arc(drawing, LINE_DIMENSION, level, above, rise);
    drawing_arc(drawing, LINE_DIMENSION, below, slope, rise);
    dimension_arrow(drawing, level, (Point){0, -1});
    dimension_arrow(drawing, slope, (Point){sin(p->angle), cos(p->angle)});
    drawing_text(drawing, (Point){above.x + 1.5, above.y},
                 (TextStyle){LETTERING, TEXT_START, TEXT_CENTRE, 0}, figure_angle(angle, text));
}

static void draw_view(Flow *flow, const DrawingSource *source, const Frame *frame)
{
    const Settings *settings = plate_settings(source->plate);
    const Record *face = placed_record(source->placed, frame->face);
    Profile p = profile_of(source, frame);
    const double *scales = settings->unit == PLATE_INCH ? inch_scales : metric_scales;
    size_t i = 0;
    while (i + 1 < G_N_ELEMENTS(metric_scales) &&
           ((p.to - p.from) * scales[i] > WIDEST || p.thickness * scales[i] > WIDEST / 2))
        i++;
    double scale = scales[i];
    char text[FIGURE_TEXT], ratio[FURNITURE_SCALE_TEXT];
    furniture_scale_text(scale, ratio);
    char *words = g_strdup_printf("Face %s (%c) seen along its break line, %s",
                                  face->face.name ? face->face.name : "",
                                  datum_letter(source, frame->face), ratio);
    flow_lead(flow, words);
    g_free(words);
    Box room = flow_room(flow, ABOVE + p.thickness * scale + BELOW);
    double left = (room.x0 + room.x1 - (p.to - p.from) * scale) / 2;
    ViewMap map = {{left, room.y1 - ABOVE}, scale};
    drawing_about(flow->drawing, ROLE_STOCK, frame->face);
    draw_outline(flow->drawing, &p, map);
    drawing_about(flow->drawing, ROLE_DIMENSION, frame->face);
    draw_angle(flow->drawing, &p, map, face->face.angle);
    Point edge = on_sheet(&p, map, p.edge, 0);
    dimension_leader(flow->drawing, edge, (Point){edge.x - 6, edge.y + 9}, LETTERING,
                     "do not break");
    LinearDimension size = {
        .from = on_sheet(&p, map, p.edge, -p.thickness),
        .to = on_sheet(&p, map, p.end, -p.thickness),
        .line = on_sheet(&p, map, 0, -p.thickness).y - SIZE_LINE,
        .height = LETTERING,
        .text = figure_length(flow->style, length_from_mm(p.end - p.edge), text),
        .standard = settings->standard == SHEET_STANDARD_ASME ? DIMENSION_ASME : DIMENSION_ISO};
    dimension_linear(flow->drawing, &size);
    flow_gap(flow, LETTERING);
}

void end_views_draw(Flow *flow, const DrawingSource *source)
{
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++) {
        const Frame *frame = placed_frame_at(source->placed, i);
        if (frame->face != ID_TOP && frame->normal.z < 1 - 1e-9)
            draw_view(flow, source, frame);
    }
}
