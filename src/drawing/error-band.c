#include "drawing/error-band.h"

#include "checks/locators.h"
#include "geometry/region.h"
#include "placed/hole-tolerance.h"

#include <glib.h>

#define PLACES 72         /* along an outline, beside its corners */
#define CORNERS_MOST 1000 /* of a finer outline not all are asked */
#define FLAT 0.02         /* mm on the sheet that the band's rounds may be off */

/* --- what can be off ------------------------------------------------------------------------ */

static double zone_of(const DrawingSource *source, const Locator *locator)
{
    const Record *hole = placed_record(source->placed, locator->fitting->hole);
    if (!hole || hole->kind != RECORD_HOLE)
        return 0;
    PlateUnit unit = (PlateUnit)plate_settings(source->plate)->unit;
    return length_to_mm(hole_zone(&hole->hole, unit));
}

static bool is_relieved(const Locator *locator)
{
    return locator->fitting->kind == FITTING_RELIEVED_PIN;
}

/* The two locators through the part's holes that stand furthest apart, a relieved one last. */
static bool find_pair(const Locator *locators, int count, const Locator *pair[2])
{
    double furthest = 0;
    for (int i = 0; i < count; i++) {
        for (int j = i + 1; j < count; j++) {
            double apart = point_distance(locators[i].at, locators[j].at);
            if (!locators[i].part_hole || !locators[j].part_hole || apart <= furthest)
                continue;
            furthest = apart;
            bool swap = is_relieved(&locators[i]);
            pair[0] = swap ? &locators[j] : &locators[i];
            pair[1] = swap ? &locators[i] : &locators[j];
        }
    }
    return furthest > 0;
}

static Location locate(const DrawingSource *source, const Locator *pair[2])
{
    Location location = {.relieved = is_relieved(pair[1])};
    for (int i = 0; i < 2; i++) {
        location.locators[i] = pair[i]->at;
        location.clearance[i] = fmax(pair[i]->clearance_greatest, 0);
        location.plate_position[i] = zone_of(source, pair[i]);
        location.part_position[i] = length_to_mm(pair[i]->part_hole->position_tolerance);
    }
    const Record *base = plate_find(source->plate, placed_base(source->placed));
    if (base && base->kind == RECORD_BASE)
        location.repeat_shift = length_to_mm(base->base.repeatability);
    return location;
}

/* --- places along the outline --------------------------------------------------------------- */

static void add_point(GArray *points, Pose pose, Point own)
{
    BandPoint point = {.at = pose_point(pose, own)};
    g_array_append_val(points, point);
}

/* The corner that a side begins at, and places along it no further than `step` apart. */
static void add_side(GArray *points, Pose pose, Vertex from, Point to, double step)
{
    Point start = {from.x, from.y};
    double length = point_distance(start, to), radius = 0, begin = 0, sweep = 0;
    Point centre = start;
    if (from.sagitta != 0) {
        centre = arc_centre(from, to, &radius);
        begin = atan2(start.y - centre.y, start.x - centre.x);
        sweep = 4 * atan2(2 * from.sagitta, length); /* tan(sweep / 4) = sagitta / half chord */
        length = fabs(sweep) * radius;
    }
    int pieces = (int)fmax(1, ceil(length / step));
    for (int i = 0; i < pieces; i++) {
        double share = (double)i / pieces, angle = begin + sweep * share;
        Point straight = point_plus(start, point_times(point_minus(to, start), share));
        Point round = {centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
        add_point(points, pose, from.sagitta == 0 ? straight : round);
    }
}

static GArray *places_along(const Outline *outline, Pose pose)
{
    GArray *points = g_array_new(FALSE, FALSE, sizeof(BandPoint));
    size_t count;
    const Vertex *ring = outline_ring(outline, 0, &count);
    double step = outline_length(outline) / PLACES;
    size_t stride = 1 + count / CORNERS_MOST;
    for (size_t i = 0; i < count; i += stride) {
        const Vertex *next = &ring[(i + 1) % count];
        if (stride > 1)
            add_point(points, pose, (Point){ring[i].x, ring[i].y});
        else
            add_side(points, pose, ring[i], (Point){next->x, next->y}, step);
    }
    return points;
}

bool error_band_make(const DrawingSource *source, FeatureId station, ErrorBand *band)
{
    Locator locators[LOCATORS_MOST];
    const Locator *pair[2];
    *band = (ErrorBand){.points = NULL};
    const Feature *feature = placed_find(source->placed, station);
    const Record *record = placed_record(source->placed, station);
    if (!feature || !record || record->kind != RECORD_STATION ||
        !station_part(source->placed, feature))
        return false;
    const Outline *outline = placed_outline(source->placed, record->station.part);
    int count = station_locators(source->placed, feature, locators);
    if (!outline || !find_pair(locators, MIN(count, LOCATORS_MOST), pair))
        return false;
    Location location = locate(source, pair);
    GArray *points = places_along(outline, feature->shape.pose);
    bool good = points->len > 0;
    band->worst.greatest = -1;
    for (guint i = 0; i < points->len && good; i++) {
        BandPoint *point = &g_array_index(points, BandPoint, i);
        good = location_error_at(&location, point->at, &point->error, NULL);
        if (good && point->error.greatest > band->worst.greatest)
            band->worst = point->error;
    }
    band->count = points->len;
    band->points = (BandPoint *)(void *)g_array_free(points, FALSE);
    if (!good)
        error_band_clear(band);
    return good;
}

void error_band_clear(ErrorBand *band)
{
    g_free(band->points);
    *band = (ErrorBand){.points = NULL};
}

/* --- drawing -------------------------------------------------------------------------------- */

double error_band_factor(const ErrorBand *band, double scale)
{
    static const double steps[] = {2, 2.5, 2}; /* 1, 2, 5, 10 */
    double factor = 1;
    for (int i = 0; factor < 10000; i = (i + 1) % 3) {
        if (band->worst.greatest * factor * steps[i] * scale > ERROR_BAND_WIDEST)
            break;
        factor *= steps[i];
    }
    return factor;
}

/* The places that the outline between two points can reach, on the sheet; NULL where no region is
 * made of them. */
static Region *reach_between(const BandPoint *from, const BandPoint *to, ViewMap map, double factor)
{
    double half = fmax(from->error.greatest, to->error.greatest) * factor * map.scale;
    Point a = view_point(map, from->at), b = view_point(map, to->at);
    Shape shape =
        point_distance(a, b) > 1e-6 ? shape_obround(a, b, 2 * half) : shape_circle(a, 2 * half);
    return half > FLAT ? region_from_shape(&shape, FLAT, NULL) : NULL;
}

static void draw_rings(Drawing *drawing, const Region *region)
{
    for (size_t r = 0; r < region_ring_count(region); r++) {
        size_t count;
        bool opening;
        const Point *ring = region_ring(region, r, &count, &opening);
        drawing_path_begin(drawing, LINE_DIMENSION);
        for (size_t i = 0; i < count; i++)
            drawing_path_add(drawing, (Vertex){ring[i].x, ring[i].y, 0});
        drawing_path_end(drawing, true);
    }
}

void error_band_draw(Drawing *drawing, const ErrorBand *band, ViewMap map, double factor)
{
    Region **reaches = g_new(Region *, band->count + 1);
    size_t count = 0;
    for (size_t i = 0; i < band->count; i++) {
        Region *reach =
            reach_between(&band->points[i], &band->points[(i + 1) % band->count], map, factor);
        if (reach)
            reaches[count++] = reach;
    }
    Region *all = count ? region_union_all((const Region *const *)reaches, count, NULL) : NULL;
    if (all)
        draw_rings(drawing, all);
    region_free(all);
    for (size_t i = 0; i < count; i++)
        region_free(reaches[i]);
    g_free(reaches);
}
