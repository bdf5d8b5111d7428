#include "drawing/section.h"

#include "drawing/dimension.h"
#include "drawing/hatching.h"
#include "drawing/hole-profile.h"
#include "drawing/plan.h"
#include "drawing/section-slant.h"

#include <glib.h>
#include <stdlib.h>

#define SAME 1e-9
#define SLIVER 1e-5        /* mm: a face ends so near where its figures say, being rounded */
#define SAMPLES_APART 0.05 /* mm along the line, between tries whether a recess is met */
#define CONE_PIECES 12     /* straight pieces that stand for the cut through a drill's point */
#define MARK_END 6.0       /* wide ends of the line on the plan, mm on the sheet */
#define MARK_REACH 6.0     /* how far it goes beyond the stock */

/* One stretch of the line where a feature is cut. */
typedef struct Cut {
    double from, to;   /* mm along the line */
    double depth;      /* of a recess */
    const Frame *face; /* where an inclined face takes the metal above it away */
    bool hole;
    double middle, off; /* of a hole: where its axis lies along the line, and how far beside it */
    HoleProfile profile;
} Cut;

typedef struct Section {
    const DrawingSource *source;
    const SectionLine *line;
    Point way; /* of length 1 */
    double length, thickness;
    GArray *cuts;   /* Cut */
    GArray *breaks; /* double: where the depth may jump or bend */
    Region *voids;  /* what is cut into inclined faces; NULL: nothing is met */
} Section;

static Point at_along(const Section *section, double along)
{
    return point_plus(section->line->from, point_times(section->way, along));
}

bool section_clip(const DrawingSource *source, SectionLine *line)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    double lengths[] = {length_to_mm(stock->length), length_to_mm(stock->width)};
    double starts[] = {line->from.x, line->from.y};
    double ways[] = {line->to.x - line->from.x, line->to.y - line->from.y};
    double from = 0, to = 1;
    for (int i = 0; i < 2; i++) {
        if (ways[i] == 0) {
            if (!(starts[i] > 0 && starts[i] < lengths[i]))
                return false;
            continue;
        }
        double enter = -starts[i] / ways[i], leave = (lengths[i] - starts[i]) / ways[i];
        from = fmax(from, fmin(enter, leave));
        to = fmin(to, fmax(enter, leave));
    }
    Point way = {ways[0], ways[1]};
    if (!(to - from > 0) || !(point_length(way) * (to - from) > SAMPLES_APART))
        return false;
    Point start = line->from;
    line->from = point_plus(start, point_times(way, from));
    line->to = point_plus(start, point_times(way, to));
    return true;
}

static void add_break(Section *section, double along)
{
    if (along > 0 && along < section->length)
        g_array_append_val(section->breaks, along);
}

/* How deep a hole is at a distance from its axis; below 0 beside it. */
static double hole_depth(const HoleProfile *profile, double off)
{
    double depth = -1;
    for (size_t i = 0; i < profile->count; i++) {
        const ProfileStep *step = &profile->steps[i];
        if (off <= step->radius)
            depth =
                fmax(depth, step->bottom + (step->tip - step->bottom) * (1 - off / step->radius));
    }
    return depth;
}

static void add_hole(Section *section, const Feature *feature, const Hole *hole)
{
    Cut cut = {.hole = true, .profile = hole_profile(hole, section->thickness)};
    Point from = point_minus(feature_at(feature), section->line->from);
    cut.middle = point_dot(from, section->way);
    cut.off = fabs(point_cross(section->way, from));
    double widest = 0;
    for (size_t i = 0; i < cut.profile.count; i++)
        widest = fmax(widest, cut.profile.steps[i].radius);
    if (cut.off >= widest)
        return;
    double half = sqrt(widest * widest - cut.off * cut.off);
    cut.from = cut.middle - half;
    cut.to = cut.middle + half;
    if (cut.to <= 0 || cut.from >= section->length)
        return;
    g_array_append_val(section->cuts, cut);
    for (size_t i = 0; i < cut.profile.count; i++) {
        double radius = cut.profile.steps[i].radius;
        if (cut.off >= radius)
            continue;
        double reach = sqrt(radius * radius - cut.off * cut.off);
        bool cone = cut.profile.steps[i].tip > cut.profile.steps[i].bottom;
        int pieces = cone ? CONE_PIECES : 1;
        for (int p = 0; p <= pieces; p++)
            add_break(section, cut.middle - reach + 2 * reach * p / pieces);
    }
}

/* What a place of the plan may lie in: a recess's shape, or an inclined face. */
typedef struct Area {
    const Shape *shape;
    const Frame *face;
} Area;

static bool lies_in(const Section *section, const Area *area, double along)
{
    Point p = at_along(section, along);
    return area->face ? frame_height_over(area->face, p) < 0 : shape_contains(area->shape, p);
}

/* The place between two where the area begins or ends. */
static double find_border(const Section *section, const Area *area, double inside, double outside)
{
    for (int i = 0; i < 40; i++) {
        double middle = (inside + outside) / 2;
        if (lies_in(section, area, middle))
            inside = middle;
        else
            outside = middle;
    }
    return (inside + outside) / 2;
}

/* A cut for each stretch of the line that lies in the area. */
static void add_stretches(Section *section, const Area *area, double depth)
{
    int count = (int)ceil(section->length / SAMPLES_APART);
    bool before = lies_in(section, area, 0);
    double start = 0;
    for (int i = 1; i <= count; i++) {
        double last = section->length * (i - 1) / count, here = section->length * i / count;
        bool now = lies_in(section, area, here);
        if (now && !before)
            start = find_border(section, area, here, last);
        if (before && (!now || i == count)) {
            double end = now ? here : find_border(section, area, last, here);
            Cut cut = {.from = start, .to = end, .depth = depth, .face = area->face};
            g_array_append_val(section->cuts, cut);
            add_break(section, start);
            add_break(section, end);
        }
        before = now;
    }
}

static void add_recess(Section *section, const Feature *feature)
{
    Box line = box_with_point((Box){section->line->from.x, section->line->from.y,
                                    section->line->from.x, section->line->from.y},
                              section->line->to);
    Area area = {.shape = &feature->shape};
    if (box_meets(line, feature->box))
        add_stretches(section, &area, feature->through ? section->thickness : -feature->bottom);
}

static double cut_depth(const Section *section, const Cut *cut, double along)
{
    if (cut->face)
        return -frame_height_over(cut->face, at_along(section, along));
    return cut->hole ? hole_depth(&cut->profile, hypot(along - cut->middle, cut->off)) : cut->depth;
}

static double depth_at(const Section *section, double along)
{
    double depth = 0;
    for (guint i = 0; i < section->cuts->len; i++) {
        const Cut *cut = &g_array_index(section->cuts, Cut, i);
        if (along < cut->from || along > cut->to)
            continue;
        depth = fmax(depth, cut_depth(section, cut, along));
    }
    return fmin(depth, section->thickness);
}

static int rising(const void *a, const void *b)
{
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

static void gather(Section *section)
{
    size_t count;
    const Feature **features = plan_list(section->source, ID_TOP, FEATURE_CUT, &count);
    double start = 0;
    g_array_append_val(section->breaks, start);
    g_array_append_val(section->breaks, section->length);
    for (size_t i = 0; i < count; i++) {
        const Record *record = placed_record(section->source->placed, features[i]->id);
        if (record && record->kind == RECORD_HOLE)
            add_hole(section, features[i], &record->hole);
        else if (record)
            add_recess(section, features[i]);
    }
    g_free(features);
    for (uint32_t i = 0; i < placed_frame_count(section->source->placed); i++) {
        Area area = {.face = placed_frame_at(section->source->placed, i)};
        if (area.face->face != ID_TOP)
            add_stretches(section, &area, 0);
    }
    qsort(section->breaks->data, section->breaks->len, sizeof(double), rising);
}

/* The rings of one piece of metal, hatched together. */
static void draw_rings(Drawing *drawing, const HatchRing *rings, size_t count, ViewMap map)
{
    HatchRing *shown = g_new(HatchRing, count);
    for (size_t r = 0; r < count; r++) {
        Point *corners = g_new(Point, rings[r].count);
        drawing_path_begin(drawing, LINE_VISIBLE);
        for (size_t i = 0; i < rings[r].count; i++) {
            corners[i] = view_point(map, rings[r].corners[i]);
            drawing_path_add(drawing, (Vertex){corners[i].x, corners[i].y, 0});
        }
        drawing_path_end(drawing, true);
        shown[r] = (HatchRing){corners, rings[r].count};
    }
    hatching_draw_rings(drawing, shown, count);
    for (size_t r = 0; r < count; r++)
        g_free((Point *)shown[r].corners);
    g_free(shown);
}

static void draw_region(Drawing *drawing, const Region *metal, ViewMap map)
{
    size_t count = region_ring_count(metal);
    HatchRing *rings = g_new(HatchRing, MAX(count, 1));
    bool opening;
    for (size_t r = 0; r < count; r++)
        rings[r].corners = region_ring(metal, r, &rings[r].count, &opening);
    if (count)
        draw_rings(drawing, rings, count, map);
    g_free(rings);
}

/* Closes a piece of metal that ends at `end` and hatches it. `top` holds its upper border. */
static void finish_piece(Drawing *drawing, const Section *section, GArray *top, ViewMap map)
{
    if (top->len < 2)
        return;
    Point first = g_array_index(top, Point, 0), last = g_array_index(top, Point, top->len - 1);
    Point corners[] = {{last.x, -section->thickness}, {first.x, -section->thickness}};
    g_array_append_vals(top, corners, 2);
    const Point *metal = (const Point *)(void *)top->data;
    Region *left = section->voids ? section_slant_metal(metal, top->len, section->voids) : NULL;
    if (left)
        draw_region(drawing, left, map);
    else
        draw_rings(drawing, &(HatchRing){metal, top->len}, 1, map);
    region_free(left);
    g_array_set_size(top, 0);
}

static void add_top(GArray *top, double along, double depth)
{
    Point p = {along, -depth};
    if (top->len > 0) {
        Point before = g_array_index(top, Point, top->len - 1);
        if (point_distance(before, p) < SAME)
            return;
    }
    g_array_append_val(top, p);
}

static void draw_metal(Drawing *drawing, const Section *section, ViewMap map)
{
    GArray *top = g_array_new(FALSE, FALSE, sizeof(Point));
    for (guint i = 0; i + 1 < section->breaks->len; i++) {
        double from = g_array_index(section->breaks, double, i);
        double to = g_array_index(section->breaks, double, i + 1);
        if (to - from < SLIVER)
            continue;
        /* A hair within, so that a jump at either end counts for the stretch it belongs to. */
        double inset = fmin(1e-7, (to - from) / 4);
        double left = depth_at(section, from + inset), right = depth_at(section, to - inset);
        if (fmax(left, right) >= section->thickness - SAME) {
            finish_piece(drawing, section, top, map);
            continue;
        }
        add_top(top, from, left);
        add_top(top, to, right);
    }
    finish_piece(drawing, section, top, map);
    g_array_unref(top);
}

static void draw_level(Drawing *drawing, const Section *section, ViewMap map, double from,
                       double to, double height)
{
    drawing_line(drawing, LINE_VISIBLE, view_point(map, (Point){fmax(from, 0), height}),
                 view_point(map, (Point){fmin(to, section->length), height}));
}

/* What is seen in a hole behind the cut: its rims, and its thread on the walls. */
static void draw_behind(Drawing *drawing, const Section *section, const Cut *cut, ViewMap map)
{
    double from = fmax(cut->from, 0), to = fmin(cut->to, section->length);
    if (from >= to || cut->face)
        return;
    draw_level(drawing, section, map, from, to, 0);
    if (depth_at(section, (from + to) / 2) >= section->thickness - SAME && !cut->hole)
        draw_level(drawing, section, map, from, to, -section->thickness);
    for (size_t i = 0; cut->hole && i < cut->profile.count; i++) {
        const ProfileStep *step = &cut->profile.steps[i];
        if (cut->off >= step->radius || step->bottom < SAME)
            continue;
        double half = sqrt(step->radius * step->radius - cut->off * cut->off);
        draw_level(drawing, section, map, cut->middle - half, cut->middle + half, -step->bottom);
    }
    double r = cut->hole ? cut->profile.thread_radius : 0;
    if (r <= cut->off)
        return;
    double half = sqrt(r * r - cut->off * cut->off);
    for (int side = -1; side <= 1; side += 2) {
        double x = cut->middle + side * half;
        if (x < 0 || x > section->length)
            continue;
        drawing_line(drawing, LINE_THREAD, view_point(map, (Point){x, 0}),
                     view_point(map, (Point){x, -cut->profile.thread_bottom}));
    }
}

void section_draw(Drawing *drawing, const DrawingSource *source, const SectionLine *line,
                  ViewMap map)
{
    Point along = point_minus(line->to, line->from);
    Section section = {.source = source,
                       .line = line,
                       .length = point_length(along),
                       .thickness = length_to_mm(plate_settings(source->plate)->stock.thickness),
                       .cuts = g_array_new(FALSE, FALSE, sizeof(Cut)),
                       .breaks = g_array_new(FALSE, FALSE, sizeof(double))};
    section.way = point_times(along, 1 / section.length);
    gather(&section);
    section.voids = section_slant_voids(source, line);
    drawing_about(drawing, ROLE_STOCK, ID_SETTINGS);
    draw_metal(drawing, &section, map);
    for (guint i = 0; i < section.cuts->len; i++)
        draw_behind(drawing, &section, &g_array_index(section.cuts, Cut, i), map);
    region_free(section.voids);
    g_array_unref(section.cuts);
    g_array_unref(section.breaks);
}

void section_mark(Drawing *drawing, const SectionLine *line, ViewMap map, Point tails[2])
{
    Point from = view_point(map, line->from), to = view_point(map, line->to);
    Point way = point_minus(to, from);
    way = point_times(way, 1 / point_length(way));
    /* One looks from the right of the line to its left. */
    Point look = {-way.y, way.x};
    from = point_minus(from, point_times(way, MARK_REACH));
    to = point_plus(to, point_times(way, MARK_REACH));
    drawing_about(drawing, ROLE_DIMENSION, ID_NONE);
    drawing_line(drawing, LINE_CENTRE, from, to);
    for (int i = 0; i < 2; i++) {
        Point end = i ? to : from;
        Point inner = point_plus(end, point_times(way, i ? -MARK_END : MARK_END));
        Point tip = end, tail = point_minus(tip, point_times(look, 2 * DIMENSION_ARROW));
        drawing_line(drawing, LINE_SIGN, end, inner);
        drawing_line(drawing, LINE_DIMENSION, tail, tip);
        dimension_arrow(drawing, tip, look);
        tails[i] = tail;
    }
}
