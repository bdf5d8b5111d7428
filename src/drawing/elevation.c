#include "drawing/elevation.h"

#include "drawing/hole-profile.h"
#include "drawing/plan.h"

#include <glib.h>

#define AXIS_OVERSHOOT 2.0 /* mm on the sheet */
#define SAME 1e-6
/* Where holes have less of the length than this each, their lines would hide each other; the table
 * has their depths. mm on the sheet. */
#define CROWDED 5.0

static void line(Drawing *drawing, LineKind kind, ViewMap map, double x0, double z0, double x1,
                 double z1)
{
    drawing_line(drawing, kind, view_point(map, (Point){x0, z0}), view_point(map, (Point){x1, z1}));
}

static void draw_profile(Drawing *drawing, ViewMap map, double x, const HoleProfile *profile,
                         double thickness)
{
    double top = 0;
    for (size_t i = 0; i < profile->count; i++) {
        const ProfileStep *step = &profile->steps[i];
        double r = step->radius;
        bool last = i + 1 == profile->count;
        if (step->bottom > top) {
            line(drawing, LINE_HIDDEN, map, x - r, -top, x - r, -step->bottom);
            line(drawing, LINE_HIDDEN, map, x + r, -top, x + r, -step->bottom);
            top = step->bottom;
        }
        if (step->bottom > SAME && step->bottom < thickness - SAME)
            line(drawing, LINE_HIDDEN, map, x - r, -step->bottom, x + r, -step->bottom);
        if (step->tip <= step->bottom + SAME)
            continue;
        /* A cone ends at its tip, or where it comes to the next step's side. */
        double inner = last ? 0 : fmin(r, profile->steps[i + 1].radius);
        double slope = (step->tip - step->bottom) / r;
        double end = step->bottom + (r - inner) * slope;
        line(drawing, LINE_HIDDEN, map, x - r, -step->bottom, x - inner, -end);
        line(drawing, LINE_HIDDEN, map, x + r, -step->bottom, x + inner, -end);
        top = fmax(top, end);
    }
    double r = profile->thread_radius;
    if (r > 0) {
        double bottom = profile->thread_bottom;
        line(drawing, LINE_HIDDEN, map, x - r, 0, x - r, -bottom);
        line(drawing, LINE_HIDDEN, map, x + r, 0, x + r, -bottom);
        if (bottom < thickness - SAME)
            line(drawing, LINE_HIDDEN, map, x - r, -bottom, x + r, -bottom);
    }
}

/* Two holes of one X and one profile give the same lines, and dashes over dashes look like a full
 * line. */
static bool is_same_profile(const HoleProfile *a, const HoleProfile *b)
{
    if (a->count != b->count || a->thread_radius != b->thread_radius ||
        a->thread_bottom != b->thread_bottom)
        return false;
    for (size_t i = 0; i < a->count; i++) {
        const ProfileStep *one = &a->steps[i], *other = &b->steps[i];
        if (one->radius != other->radius || one->bottom != other->bottom || one->tip != other->tip)
            return false;
    }
    return true;
}

typedef struct Drawn {
    double x;
    HoleProfile profile;
} Drawn;

static bool is_drawn(const GArray *drawn, double x, const HoleProfile *profile, bool *same_axis)
{
    *same_axis = false;
    for (guint i = 0; i < drawn->len; i++) {
        const Drawn *other = &g_array_index(drawn, Drawn, i);
        if (fabs(other->x - x) > SAME)
            continue;
        *same_axis = true;
        if (is_same_profile(&other->profile, profile))
            return true;
    }
    return false;
}

/* How many different profiles at different places would be drawn. */
static size_t count_profiles(const DrawingSource *source, const Feature **features, size_t count,
                             double thickness)
{
    GArray *drawn = g_array_new(FALSE, FALSE, sizeof(Drawn));
    for (size_t i = 0; i < count; i++) {
        const Record *record = placed_record(source->placed, features[i]->id);
        if (!record || record->kind != RECORD_HOLE)
            continue;
        Drawn hole = {feature_at(features[i]).x, hole_profile(&record->hole, thickness)};
        bool same_axis;
        if (!is_drawn(drawn, hole.x, &hole.profile, &same_axis))
            g_array_append_val(drawn, hole);
    }
    size_t profiles = drawn->len;
    g_array_unref(drawn);
    return profiles;
}

static void draw_holes(Drawing *drawing, const DrawingSource *source, ViewMap map, double thickness)
{
    size_t count;
    const Feature **features = plan_list(source, ID_TOP, FEATURE_HOLE, &count);
    GArray *drawn = g_array_new(FALSE, FALSE, sizeof(Drawn));
    double length = length_to_mm(plate_settings(source->plate)->stock.length) * map.scale;
    if ((double)count_profiles(source, features, count, thickness) * CROWDED > length)
        count = 0;
    for (size_t i = 0; i < count; i++) {
        const Record *record = placed_record(source->placed, features[i]->id);
        if (!record || record->kind != RECORD_HOLE)
            continue;
        Drawn hole = {feature_at(features[i]).x, hole_profile(&record->hole, thickness)};
        bool same_axis;
        if (is_drawn(drawn, hole.x, &hole.profile, &same_axis))
            continue;
        drawing_about(drawing, ROLE_HOLE, features[i]->id);
        draw_profile(drawing, map, hole.x, &hole.profile, thickness);
        drawing_about(drawing, ROLE_CENTRE_MARK, features[i]->id);
        if (!same_axis) {
            double over = AXIS_OVERSHOOT / map.scale;
            double bottom = features[i]->through ? thickness : -features[i]->tip;
            line(drawing, LINE_CENTRE, map, hole.x, over, hole.x, -bottom - over);
        }
        g_array_append_val(drawn, hole);
    }
    g_array_unref(drawn);
    g_free(features);
}

static void draw_recesses(Drawing *drawing, const DrawingSource *source, ViewMap map,
                          double thickness)
{
    size_t count;
    const Feature **features = plan_list(source, ID_TOP, FEATURE_RECESS, &count);
    for (size_t i = 0; i < count; i++) {
        const Feature *recess = features[i];
        bool seen = false;
        for (size_t j = 0; j < i && !seen; j++)
            seen = fabs(features[j]->box.x0 - recess->box.x0) < SAME &&
                   fabs(features[j]->box.x1 - recess->box.x1) < SAME &&
                   fabs(features[j]->bottom - recess->bottom) < SAME;
        if (seen)
            continue;
        double bottom = recess->through ? -thickness : recess->bottom;
        drawing_about(drawing, ROLE_RECESS, recess->id);
        line(drawing, LINE_HIDDEN, map, recess->box.x0, 0, recess->box.x0, bottom);
        line(drawing, LINE_HIDDEN, map, recess->box.x1, 0, recess->box.x1, bottom);
        if (!recess->through)
            line(drawing, LINE_HIDDEN, map, recess->box.x0, bottom, recess->box.x1, bottom);
    }
    g_free(features);
}

/* The borders of the inclined faces: seen where the face looks to the front, else hidden. */
static void draw_faces(Drawing *drawing, const DrawingSource *source, ViewMap map)
{
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++) {
        const Frame *frame = placed_frame_at(source->placed, i);
        Box box = shape_box(&frame->extent);
        Point corners[] = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
        if (frame->face == ID_TOP)
            continue;
        drawing_about(drawing, ROLE_STOCK, frame->face);
        drawing_path_begin(drawing, frame->normal.y < -SAME ? LINE_VISIBLE : LINE_HIDDEN);
        for (size_t c = 0; c < G_N_ELEMENTS(corners); c++) {
            Space at = frame_to_space(frame, corners[c], 0);
            Point p = view_point(map, (Point){at.x, at.z});
            drawing_path_add(drawing, (Vertex){p.x, p.y, 0});
        }
        drawing_path_end(drawing, true);
    }
}

void elevation_draw(Drawing *drawing, const DrawingSource *source, ViewMap map)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    double length = length_to_mm(stock->length), thickness = length_to_mm(stock->thickness);
    Point near = view_point(map, (Point){0, -thickness}), far = view_point(map, (Point){length, 0});
    drawing_about(drawing, ROLE_STOCK, ID_SETTINGS);
    drawing_box(drawing, LINE_VISIBLE, (Box){near.x, near.y, far.x, far.y});
    draw_faces(drawing, source, map);
    draw_recesses(drawing, source, map, thickness);
    draw_holes(drawing, source, map, thickness);
}
