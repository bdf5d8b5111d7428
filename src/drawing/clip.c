#include "drawing/clip.h"

#include <glib.h>
#include <math.h>
#include <stdlib.h>

/* Pieces shorter than this share of a side are left out. */
#define NOTHING 1e-9
/* A side and its crossings with four borders, two each for an arc. */
#define CROSSINGS_MOST 10

/* A line or arc by a parameter from 0 to 1. */
typedef struct Side {
    Point from, to;
    bool arc;
    Point centre;
    double radius, start, sweep; /* radians; the sweep is signed */
} Side;

typedef struct Clip {
    Drawing *to;
    Box area;
    Point shift;
    LineKind line;
    bool open; /* a path is being added */
    Point end; /* of that path, before the shift */
} Clip;

static Side side_of(Vertex from, Point to)
{
    Side side = {.from = {from.x, from.y}, .to = to, .arc = from.sagitta != 0};
    if (!side.arc)
        return side;
    side.centre = arc_centre(from, to, &side.radius);
    side.start = atan2(from.y - side.centre.y, from.x - side.centre.x);
    side.sweep = atan2(to.y - side.centre.y, to.x - side.centre.x) - side.start;
    if (from.sagitta > 0 && side.sweep < 0)
        side.sweep += 2 * G_PI;
    if (from.sagitta < 0 && side.sweep > 0)
        side.sweep -= 2 * G_PI;
    return side;
}

static Point side_at(const Side *side, double share)
{
    if (!side->arc)
        return point_plus(side->from, point_times(point_minus(side->to, side->from), share));
    double angle = side->start + share * side->sweep;
    return (Point){side->centre.x + side->radius * cos(angle),
                   side->centre.y + side->radius * sin(angle)};
}

static void add_share(double *shares, size_t *count, double share)
{
    if (share > NOTHING && share < 1 - NOTHING)
        shares[(*count)++] = share;
}

static void add_angle(const Side *side, double angle, double *shares, size_t *count)
{
    double share = (angle - side->start) / side->sweep, turn = 2 * G_PI / fabs(side->sweep);
    share -= floor(share / turn) * turn;
    add_share(shares, count, share);
}

/* Where the side meets the border line at `at` along X, or along Y if `upright` is false. */
static void add_crossings(const Side *side, double at, bool upright, double *shares, size_t *count)
{
    double from = upright ? side->from.x : side->from.y, to = upright ? side->to.x : side->to.y;
    if (!side->arc) {
        if (from != to)
            add_share(shares, count, (at - from) / (to - from));
        return;
    }
    double off = (at - (upright ? side->centre.x : side->centre.y)) / side->radius;
    if (fabs(off) >= 1)
        return;
    double angle = upright ? acos(off) : asin(off);
    add_angle(side, angle, shares, count);
    add_angle(side, upright ? -angle : G_PI - angle, shares, count);
}

static int rising(const void *a, const void *b)
{
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

static void end_path(Clip *clip)
{
    if (clip->open)
        drawing_path_end(clip->to, false);
    clip->open = false;
}

static void add_piece(Clip *clip, const Side *side, double from, double to)
{
    Point start = side_at(side, from), end = side_at(side, to);
    if (clip->open && point_distance(start, clip->end) > 1e-9)
        end_path(clip);
    if (!clip->open) {
        drawing_path_begin(clip->to, clip->line);
        drawing_path_add(clip->to, (Vertex){start.x + clip->shift.x, start.y + clip->shift.y, 0});
    }
    if (side->arc) {
        double sweep = side->sweep * (to - from);
        double sagitta = side->radius * (1 - cos(sweep / 2)) * (sweep < 0 ? -1 : 1);
        clip->to->vertices[clip->to->vertex_count - 1].sagitta = sagitta;
    }
    drawing_path_add(clip->to, (Vertex){end.x + clip->shift.x, end.y + clip->shift.y, 0});
    clip->open = true;
    clip->end = end;
}

static void add_side(Clip *clip, const Side *side)
{
    double shares[CROSSINGS_MOST] = {0};
    size_t count = 1; /* the first is the side's beginning */
    add_crossings(side, clip->area.x0, true, shares, &count);
    add_crossings(side, clip->area.x1, true, shares, &count);
    add_crossings(side, clip->area.y0, false, shares, &count);
    add_crossings(side, clip->area.y1, false, shares, &count);
    shares[count++] = 1;
    qsort(shares, count, sizeof *shares, rising);
    for (size_t i = 0; i + 1 < count; i++) {
        if (shares[i + 1] - shares[i] > NOTHING &&
            box_has_point(clip->area, side_at(side, (shares[i] + shares[i + 1]) / 2)))
            add_piece(clip, side, shares[i], shares[i + 1]);
    }
}

/* A circle as an arc all round, from a place outside the area where there is one, so that what lies
 * within is not parted there. */
static Side circle_side(const Clip *clip, const Vertex *circle)
{
    Side side = {.arc = true,
                 .centre = {circle->x, circle->y},
                 .radius = circle->sagitta,
                 .sweep = 2 * G_PI};
    for (int i = 0; i < 8 && box_has_point(clip->area, side_at(&side, 0)); i++)
        side.start = i * G_PI / 4;
    return side;
}

static void add_stroke(Clip *clip, const Mark *mark, const Vertex *vertices)
{
    if (mark->count == 1) {
        Side circle = circle_side(clip, vertices);
        add_side(clip, &circle);
    }
    for (size_t i = 0; mark->count > 1 && i + (mark->closed ? 0 : 1) < mark->count; i++) {
        const Vertex *next = &vertices[(i + 1) % mark->count];
        Side side = side_of(vertices[i], (Point){next->x, next->y});
        add_side(clip, &side);
    }
    end_path(clip);
}

/* A mark that lies in the area whole. */
static void add_whole(const Clip *clip, const Drawing *from, const Mark *mark)
{
    if (mark->kind == MARK_TEXT) {
        drawing_text(clip->to, point_plus(mark->at, clip->shift),
                     (TextStyle){mark->height, TEXT_START, TEXT_BASE, mark->rotation},
                     drawing_mark_text(from, mark));
        return;
    }
    const Vertex *vertices = drawing_mark_vertices(from, mark);
    Vertex *moved = g_new(Vertex, mark->count);
    for (uint32_t i = 0; i < mark->count; i++)
        moved[i] = (Vertex){vertices[i].x + clip->shift.x, vertices[i].y + clip->shift.y,
                            vertices[i].sagitta};
    if (mark->kind == MARK_FILL)
        drawing_fill(clip->to, moved, mark->count);
    else
        drawing_path(clip->to, mark->line, moved, mark->count, mark->closed);
    g_free(moved);
}

void clip_copy(Drawing *to, const Drawing *from, const Sheet *sheet, Box area, Point shift)
{
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
        const Mark *mark = &from->marks[m];
        Clip clip = {.to = to, .area = area, .shift = shift, .line = mark->line};
        bool whole = mark->box.x0 >= area.x0 && mark->box.x1 <= area.x1 &&
                     mark->box.y0 >= area.y0 && mark->box.y1 <= area.y1;
        drawing_about(to, mark->role, mark->feature);
        if (whole)
            add_whole(&clip, from, mark);
        else if (mark->kind == MARK_STROKE && box_meets(mark->box, area))
            add_stroke(&clip, mark, drawing_mark_vertices(from, mark));
    }
}
