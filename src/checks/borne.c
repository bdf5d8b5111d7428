#include "checks/borne.h"

#include "geometry/section.h"
#include "placed/placed-seat.h"

#include <stdlib.h>

#define STRETCHES_MOST 64
#define LEVELS_MOST (2 * BORNE_CUTS_MOST + 64)

/* Stretches of one line, in order and apart. */
typedef struct Line {
    size_t count;
    Stretch items[STRETCHES_MOST];
} Line;

typedef struct Survey {
    const Placed *placed;
    const Feature *station;
    const Part *part;
    const Shape *within;
    const Frame *frame;
    double seat;
    double left, right; /* of all lines */
    int cut_count;
    Shape cuts[BORNE_CUTS_MOST]; /* what bears nothing */
    Box boxes[BORNE_CUTS_MOST];
    FeatureId ids[BORNE_CUTS_MOST];
    int level_count;
    double levels[LEVELS_MOST];
    double area, widest;
    Point at;
} Survey;

/* --- stretches -------------------------------------------------------------------------------- */

/* A circle, which nearly all of them are, has no need of the general way. */
static void section_of_circle(const Survey *survey, const Shape *circle, double y, Line *line)
{
    double beside = y - circle->pose.y, square = circle->growth * circle->growth - beside * beside;
    double half = square > 0 ? sqrt(square) : 0, middle = circle->pose.x - survey->left;
    line->count = half > 0;
    line->items[0] = (Stretch){middle - half, middle + half};
}

static void section(const Survey *survey, const Shape *shape, double y, Line *line)
{
    if (shape->core == CORE_POINT) {
        section_of_circle(survey, shape, y, line);
        return;
    }
    size_t count = shape_section(shape, (Point){survey->left, y}, (Point){survey->right, y},
                                 line->items, STRETCHES_MOST);
    line->count = count < STRETCHES_MOST ? count : STRETCHES_MOST;
}

static void add(Line *line, double start, double end)
{
    if (end > start && line->count < STRETCHES_MOST)
        line->items[line->count++] = (Stretch){start, end};
}

static void both(const Line *a, const Line *b, Line *out)
{
    out->count = 0;
    for (size_t i = 0; i < a->count; i++)
        for (size_t k = 0; k < b->count; k++)
            add(out, fmax(a->items[i].start, b->items[k].start),
                fmin(a->items[i].end, b->items[k].end));
}

static void without(const Line *a, const Line *b, Line *out)
{
    out->count = 0;
    for (size_t i = 0; i < a->count; i++) {
        double start = a->items[i].start;
        for (size_t k = 0; k < b->count; k++) {
            if (b->items[k].end <= start || b->items[k].start >= a->items[i].end)
                continue;
            add(out, start, b->items[k].start);
            start = b->items[k].end;
        }
        add(out, start, a->items[i].end);
    }
}

/* --- what is under the part ------------------------------------------------------------------- */

/* As wide as the cut is just below what the part lies on; less than 0: it does not go that deep. */
static double growth_below_seat(const Survey *survey, const Feature *feature)
{
    double growth = -1;
    for (int i = 0; i < feature->slice_count; i++)
        if (feature->slices[i].bottom < -survey->seat - 1e-7)
            growth = fmax(growth, feature->slices[i].growth);
    return growth;
}

static void add_level(Survey *survey, double y)
{
    if (survey->level_count < LEVELS_MOST)
        survey->levels[survey->level_count++] = y;
}

/* Where there is no more room the one with the highest number gives way, so that the same cuts are
 * taken in whatever order they come. */
static int place_for(const Survey *survey, FeatureId id)
{
    int highest = 0;
    if (survey->cut_count < BORNE_CUTS_MOST)
        return survey->cut_count;
    for (int i = 1; i < survey->cut_count; i++)
        if (survey->ids[i] > survey->ids[highest])
            highest = i;
    return id < survey->ids[highest] ? highest : -1;
}

static bool take_cut(const Feature *feature, void *data)
{
    Survey *survey = data;
    double growth = feature->kind & FEATURE_CUT ? growth_below_seat(survey, feature) : -1;
    int at = growth < 0 ? -1 : place_for(survey, feature->id);
    if (at < 0)
        return true;
    survey->ids[at] = feature->id;
    survey->cuts[at] = feature->shape;
    survey->cuts[at].growth = growth;
    survey->boxes[at] = shape_box(&survey->cuts[at]);
    survey->cut_count = MAX(survey->cut_count, at + 1);
    return true;
}

static Shape part_hole(const Survey *survey, const PartHole *hole)
{
    Point own = {length_to_mm(hole->at.x), length_to_mm(hole->at.y)};
    return shape_circle(pose_point(survey->station->shape.pose, own), length_to_mm(hole->diameter));
}

/* What of the part one line meets. */
static void part_line(const Survey *survey, double y, Line *line)
{
    Line next, other;
    section(survey, &survey->station->shape, y, line);
    if (survey->within) {
        section(survey, survey->within, y, &other);
        both(line, &other, &next);
        *line = next;
    }
    for (uint32_t i = 0; i < survey->part->holes.count; i++) {
        Shape round = part_hole(survey, LIST_AT(&survey->part->holes, PartHole, i));
        if (fabs(y - round.pose.y) >= round.growth)
            continue;
        section(survey, &round, y, &other);
        without(line, &other, &next);
        *line = next;
    }
}

/* What of a line is on the face. */
static void face_line(const Survey *survey, double y, Line *line)
{
    const Shape *extent = &survey->frame->extent;
    double beside = fabs(y - extent->pose.y);
    if (extent->core != CORE_RECTANGLE || extent->pose.sine != 0 || extent->growth > 0) {
        section(survey, extent, y, line);
        return;
    }
    double middle = extent->pose.x - survey->left;
    line->count = beside < extent->half_width;
    line->items[0] = (Stretch){middle - extent->half_length, middle + extent->half_length};
}

/* How much of the line is not borne: all that is left when what bears is taken off. */
static double unborne_on(Survey *survey, double y)
{
    Line part, bearing, other, next;
    part_line(survey, y, &part);
    face_line(survey, y, &bearing);
    for (int i = 0; i < survey->cut_count && bearing.count > 0; i++) {
        if (y <= survey->boxes[i].y0 || y >= survey->boxes[i].y1)
            continue;
        section(survey, &survey->cuts[i], y, &other);
        if (other.count == 0)
            continue;
        without(&bearing, &other, &next);
        bearing = next;
    }
    without(&part, &bearing, &next);
    double length = 0;
    for (size_t i = 0; i < next.count; i++) {
        double wide = next.items[i].end - next.items[i].start;
        length += wide;
        if (wide > survey->widest) {
            survey->widest = wide;
            survey->at = (Point){survey->left + (next.items[i].start + next.items[i].end) / 2, y};
        }
    }
    return length;
}

/* --- summing ---------------------------------------------------------------------------------- */

/* Gauss's rule of eight places, on either side of the middle (Abramowitz and Stegun 25.4.30; from
 * memory, and checked by the areas that come of it). */
static const double nodes[] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                               0.9602898564975363};
static const double weights[] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                 0.1012285362903763};

static int compare_levels(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static void sum_between(Survey *survey, double from, double to)
{
    double half = (to - from) / 2, middle = (from + to) / 2;
    for (int k = 0; k < 4; k++) {
        /* By y = sin, so that the root with which a round border begins and ends is none. */
        double turn = nodes[k] * M_PI / 2;
        double beside = half * sin(turn), weight = half * M_PI / 2 * cos(turn) * weights[k];
        survey->area +=
            weight * (unborne_on(survey, middle - beside) + unborne_on(survey, middle + beside));
    }
}

static double box_area(Box box)
{
    return box_is_empty(box) ? 0 : (box.x1 - box.x0) * (box.y1 - box.y0);
}

static Box box_common(Box a, Box b)
{
    return (Box){fmax(a.x0, b.x0), fmax(a.y0, b.y0), fmin(a.x1, b.x1), fmin(a.y1, b.y1)};
}

/* No more than this is unborne of what lies in the box. */
static double most_unborne(const Survey *survey, Box box, Box face)
{
    double most = box_area(box) - box_area(box_common(box, face));
    for (int i = 0; i < survey->cut_count; i++)
        most += box_area(box_common(box, survey->boxes[i]));
    return most;
}

static void sum_all(Survey *survey, Box box, Box face)
{
    double from = box.y0;
    add_level(survey, face.y0);
    add_level(survey, face.y1);
    for (int i = 0; i < survey->cut_count; i++) {
        add_level(survey, survey->boxes[i].y0);
        add_level(survey, survey->boxes[i].y1);
    }
    for (uint32_t i = 0; i < survey->part->holes.count; i++) {
        Shape round = part_hole(survey, LIST_AT(&survey->part->holes, PartHole, i));
        add_level(survey, round.pose.y - round.growth);
        add_level(survey, round.pose.y + round.growth);
    }
    qsort(survey->levels, (size_t)survey->level_count, sizeof(double), compare_levels);
    for (int i = 0; i <= survey->level_count; i++) {
        double to = i < survey->level_count ? fmin(survey->levels[i], box.y1) : box.y1;
        if (to > from) {
            sum_between(survey, from, to);
            from = to;
        }
    }
}

Unborne part_unborne(const Placed *placed, const Feature *station, const Shape *within,
                     double least)
{
    const Record *part = placed_part(placed, station->id);
    if (!part)
        return (Unborne){0, {0, 0}};
    Survey survey = {.placed = placed,
                     .part = &part->part,
                     .station = station,
                     .within = within,
                     .frame = placed_frame(placed, station->face),
                     .seat = -station->bottom};
    Box box = within ? box_common(shape_box(within), station->box) : station->box;
    Box face = shape_box(&survey.frame->extent);
    placed_each_near(placed, station->face, station->box, take_cut, &survey);
    if (most_unborne(&survey, box, face) <= least)
        return (Unborne){0, {0, 0}};
    survey.left = fmin(box.x0, face.x0) - 1;
    survey.right = fmax(box.x1, face.x1) + 1;
    sum_all(&survey, box, face);
    return (Unborne){survey.area, survey.at};
}
