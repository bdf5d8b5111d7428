#include "drawing/section-slant.h"

#include "drawing/plan.h"
#include "placed/placed-solids.h"

#include <glib.h>

#define COLUMNS 97    /* upright lines that are tried across a cut */
#define STEPS 64      /* places that are tried on each */
#define HALVINGS 40   /* of a step, for where the cut begins */
#define APART 1e-6    /* mm: corners nearer than this are one */
#define FLATTEN 0.001 /* mm; there are no arcs left to flatten */

typedef struct Slant {
    const Solid *solid;
    Point from, way;
    double low, high; /* of the solid's box */
    GArray *lower, *upper;
} Slant;

static bool is_cut(const Slant *slant, double along, double height)
{
    Point p = point_plus(slant->from, point_times(slant->way, along));
    return solid_contains(slant->solid, (Space){p.x, p.y, height});
}

static double find_end(const Slant *slant, double along, double inside, double outside)
{
    for (int i = 0; i < HALVINGS; i++) {
        double middle = (inside + outside) / 2;
        if (is_cut(slant, along, middle))
            inside = middle;
        else
            outside = middle;
    }
    return inside;
}

/* The stretch of an upright line that is cut; false when it is missed. */
static bool cut_upright(const Slant *slant, double along, double *low, double *high)
{
    double step = (slant->high - slant->low) / STEPS;
    int first = 0, last = STEPS;
    while (first <= STEPS && !is_cut(slant, along, slant->low + step * first))
        first++;
    if (first > STEPS)
        return false;
    while (!is_cut(slant, along, slant->low + step * last))
        last--;
    *low = find_end(slant, along, slant->low + step * first, slant->low + step * (first - 1));
    *high = find_end(slant, along, slant->low + step * last, slant->low + step * (last + 1));
    return true;
}

static Region *region_of(const Point *corners, size_t count)
{
    Vertex *vertices = g_new(Vertex, count);
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        Point before =
            kept ? (Point){vertices[kept - 1].x, vertices[kept - 1].y} : corners[count - 1];
        if (point_distance(before, corners[i]) > APART)
            vertices[kept++] = (Vertex){corners[i].x, corners[i].y, 0};
    }
    Error error;
    Outline *outline = outline_new(vertices, (size_t[]){0, kept}, 1, &error);
    Region *region = NULL;
    if (outline) {
        Shape shape = shape_outline(outline, POSE_IDENTITY, 0);
        region = region_from_shape(&shape, FLATTEN, &error);
    }
    outline_unref(outline);
    g_free(vertices);
    return region;
}

static void add_region(GPtrArray *regions, Slant *slant)
{
    for (guint i = slant->upper->len; i-- > 0;)
        g_array_append_val(slant->lower, g_array_index(slant->upper, Point, i));
    Region *region = slant->lower->len > 4
                         ? region_of((const Point *)(void *)slant->lower->data, slant->lower->len)
                         : NULL;
    if (region)
        g_ptr_array_add(regions, region);
    g_array_set_size(slant->lower, 0);
    g_array_set_size(slant->upper, 0);
}

/* How far along the line the solid's box reaches. */
static void box_along(const Slant *slant, const SpaceBox *box, double *from, double *to)
{
    *from = INFINITY;
    *to = -INFINITY;
    for (int i = 0; i < 4; i++) {
        Point corner = {i & 1 ? box->most.x : box->least.x, i & 2 ? box->most.y : box->least.y};
        double along = point_dot(point_minus(corner, slant->from), slant->way);
        *from = fmin(*from, along);
        *to = fmax(*to, along);
    }
}

static void cut_solid(GPtrArray *regions, Slant *slant, double length)
{
    SpaceBox box = solid_box(slant->solid);
    double from, to, low, high;
    slant->low = box.least.z;
    slant->high = box.most.z;
    box_along(slant, &box, &from, &to);
    from = fmax(from, 0);
    to = fmin(to, length);
    for (int i = 0; from < to && i < COLUMNS; i++) {
        double along = from + (to - from) * i / (COLUMNS - 1);
        if (cut_upright(slant, along, &low, &high)) {
            Point ends[] = {{along, low}, {along, high}};
            g_array_append_val(slant->lower, ends[0]);
            g_array_append_val(slant->upper, ends[1]);
        } else {
            add_region(regions, slant);
        }
    }
    add_region(regions, slant);
}

static void cut_feature(GPtrArray *regions, const DrawingSource *source, const Feature *feature,
                        const SectionLine *line)
{
    Solid solids[SOLIDS_MOST];
    int count = placed_solids(source->placed, feature, solids);
    Point way = point_minus(line->to, line->from);
    double length = point_length(way);
    Slant slant = {.from = line->from,
                   .way = point_times(way, 1 / length),
                   .lower = g_array_new(FALSE, FALSE, sizeof(Point)),
                   .upper = g_array_new(FALSE, FALSE, sizeof(Point))};
    for (int i = 0; i < count; i++) {
        slant.solid = &solids[i];
        cut_solid(regions, &slant, length);
    }
    g_array_unref(slant.lower);
    g_array_unref(slant.upper);
}

static void free_region(gpointer region)
{
    region_free(region);
}

Region *section_slant_voids(const DrawingSource *source, const SectionLine *line)
{
    GPtrArray *regions = g_ptr_array_new_with_free_func(free_region);
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++) {
        FeatureId face = placed_frame_at(source->placed, i)->face;
        size_t count;
        if (face == ID_TOP)
            continue;
        const Feature **features = plan_list(source, face, FEATURE_CUT, &count);
        for (size_t k = 0; k < count; k++)
            cut_feature(regions, source, features[k], line);
        g_free(features);
    }
    Error error;
    Region *all =
        regions->len ? region_union_all((const Region *const *)regions->pdata, regions->len, &error)
                     : NULL;
    g_ptr_array_unref(regions);
    return all;
}

Region *section_slant_metal(const Point *corners, size_t count, const Region *voids)
{
    Error error;
    Region *whole = region_of(corners, count);
    Region *metal = whole ? region_difference(whole, voids, &error) : NULL;
    region_free(whole);
    return metal;
}
