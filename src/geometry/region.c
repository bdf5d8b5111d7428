/* region.c: regions by GEOS. The only file of the program that knows GEOS.
 *
 * A region is plain rings; each operation makes GEOS's polygons of them and takes the answer apart
 * again, so that nothing of GEOS lives longer than a call.
 */
#include "geometry/region.h"

#include "geometry/outline-private.h"
#include "geometry/section.h"

#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TOLERANCE_LEAST 1e-5 /* mm */

typedef struct RegionRing {
    size_t start, count;
    bool is_opening;
} RegionRing;

struct Region {
    Point *points;
    RegionRing *rings;
    size_t ring_count;
    double area;
    Box box;
};

/* A call into GEOS: its context, and what it had to say when it failed. */
typedef struct Call {
    GEOSContextHandle_t geos;
    char said[200];
} Call;

static void keep_said(const char *message, void *data)
{
    Call *call = data;
    snprintf(call->said, sizeof call->said, "%s", message);
}

static bool call_begin(Call *call, Error *error)
{
    call->said[0] = '\0';
    call->geos = GEOS_init_r();
    if (!call->geos) {
        return error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for a region");
    }
    GEOSContext_setErrorMessageHandler_r(call->geos, keep_said, call);
    return true;
}

static void call_end(Call *call)
{
    GEOS_finish_r(call->geos);
}

/* Says what GEOS said; false. */
static bool call_failed(const Call *call, Error *error)
{
    return error_set(error, ERROR_INTERNAL, NULL, "GEOS can't work out a region: %s",
                     call->said[0] ? call->said : "no memory");
}

static GEOSGeometry *ring_to_geos(const Call *call, const Region *region, size_t index)
{
    const RegionRing *ring = &region->rings[index];
    unsigned count = (unsigned)ring->count;
    GEOSCoordSequence *sequence = GEOSCoordSeq_create_r(call->geos, count + 1, 2);
    if (!sequence) {
        return NULL;
    }
    for (unsigned i = 0; i <= count; i++) {
        Point p = region->points[ring->start + i % count];
        GEOSCoordSeq_setXY_r(call->geos, sequence, i, p.x, p.y);
    }
    return GEOSGeom_createLinearRing_r(call->geos, sequence);
}

static void destroy_all(const Call *call, GEOSGeometry **all, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        GEOSGeom_destroy_r(call->geos, all[i]);
    }
}

/* The polygon of one part, whose rings begin at `first`, with its openings. */
static GEOSGeometry *part_to_geos(const Call *call, const Region *region, size_t first,
                                  size_t openings)
{
    GEOSGeometry **holes = malloc((openings + 1) * sizeof(GEOSGeometry *));
    GEOSGeometry *shell = holes ? ring_to_geos(call, region, first) : NULL;
    size_t done = 0;
    while (shell && done < openings) {
        holes[done] = ring_to_geos(call, region, first + 1 + done);
        if (!holes[done]) {
            break;
        }
        done++;
    }
    GEOSGeometry *polygon = NULL;
    if (shell && done == openings) {
        polygon = GEOSGeom_createPolygon_r(call->geos, shell, holes, (unsigned)openings);
    } else {
        destroy_all(call, holes, done);
        if (shell) {
            GEOSGeom_destroy_r(call->geos, shell);
        }
    }
    free(holes);
    return polygon;
}

/* A collection of GEOS polygons, being filled. */
typedef struct Parts {
    GEOSGeometry **all;
    size_t count;
} Parts;

static bool add_parts(const Call *call, const Region *region, Parts *parts)
{
    for (size_t ring = 0; ring < region->ring_count;) {
        size_t openings = 0;
        while (ring + 1 + openings < region->ring_count &&
               region->rings[ring + 1 + openings].is_opening) {
            openings++;
        }
        GEOSGeometry *part = part_to_geos(call, region, ring, openings);
        if (!part) {
            return false;
        }
        parts->all[parts->count++] = part;
        ring += 1 + openings;
    }
    return true;
}

/* All regions' parts together, which may overlap when there are several. */
static GEOSGeometry *regions_to_geos(const Call *call, const Region *const *regions, size_t count)
{
    size_t rings = 0;
    for (size_t i = 0; i < count; i++) {
        rings += regions[i]->ring_count;
    }
    Parts parts = {.all = malloc((rings + 1) * sizeof(GEOSGeometry *))};
    bool good = parts.all;
    for (size_t i = 0; good && i < count; i++) {
        good = add_parts(call, regions[i], &parts);
    }
    GEOSGeometry *all = NULL;
    if (good) {
        all = GEOSGeom_createCollection_r(call->geos, GEOS_MULTIPOLYGON, parts.all,
                                          (unsigned)parts.count);
    } else if (parts.all) {
        destroy_all(call, parts.all, parts.count);
    }
    free(parts.all);
    return all;
}

static GEOSGeometry *region_to_geos(const Call *call, const Region *region)
{
    return regions_to_geos(call, &region, 1);
}

/* Twice the signed area. */
static double ring_area(const Point *points, size_t count)
{
    double area = 0;
    for (size_t i = 0; i < count; i++) {
        Point a = point_minus(points[i], points[0]);
        Point b = point_minus(points[(i + 1) % count], points[0]);
        area += point_cross(a, b);
    }
    return area;
}

static bool take_ring(const Call *call, Region *region, const GEOSGeometry *ring, bool is_opening)
{
    const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r(call->geos, ring);
    unsigned size = 0;
    if (!sequence || !GEOSCoordSeq_getSize_r(call->geos, sequence, &size) || size < 4) {
        return false;
    }
    RegionRing *last = region->ring_count ? &region->rings[region->ring_count - 1] : NULL;
    RegionRing own = {last ? last->start + last->count : 0, size - 1, is_opening};
    Point *points = region->points + own.start;
    for (unsigned i = 0; i < own.count; i++) {
        GEOSCoordSeq_getXY_r(call->geos, sequence, i, &points[i].x, &points[i].y);
        region->box = box_with_point(region->box, points[i]);
    }
    double area = ring_area(points, own.count);
    if ((area > 0) == is_opening) {
        for (size_t i = 1, j = own.count - 1; i < j; i++, j--) {
            Point swap = points[i];
            points[i] = points[j];
            points[j] = swap;
        }
        area = -area;
    }
    region->area += area / 2;
    region->rings[region->ring_count++] = own;
    return true;
}

static bool take_polygon(const Call *call, Region *region, const GEOSGeometry *polygon)
{
    if (!take_ring(call, region, GEOSGetExteriorRing_r(call->geos, polygon), false)) {
        return false;
    }
    int openings = GEOSGetNumInteriorRings_r(call->geos, polygon);
    for (int i = 0; i < openings; i++) {
        if (!take_ring(call, region, GEOSGetInteriorRingN_r(call->geos, polygon, i), true)) {
            return false;
        }
    }
    return true;
}

/* Counts rings and points of the polygons in a geometry, lines and points left out; takes them into
 * `region` when there is one. */
static bool each_polygon(const Call *call, const GEOSGeometry *geometry, Region *region,
                         size_t *rings, size_t *points)
{
    int type = GEOSGeomTypeId_r(call->geos, geometry);
    if (type == GEOS_POLYGON) {
        if (GEOSisEmpty_r(call->geos, geometry)) {
            return true;
        }
        *rings += 1 + (size_t)GEOSGetNumInteriorRings_r(call->geos, geometry);
        *points += (size_t)GEOSGetNumCoordinates_r(call->geos, geometry);
        return !region || take_polygon(call, region, geometry);
    }
    if (type != GEOS_MULTIPOLYGON && type != GEOS_GEOMETRYCOLLECTION) {
        return true;
    }
    int count = GEOSGetNumGeometries_r(call->geos, geometry);
    for (int i = 0; i < count; i++) {
        const GEOSGeometry *part = GEOSGetGeometryN_r(call->geos, geometry, i);
        if (!each_polygon(call, part, region, rings, points)) {
            return false;
        }
    }
    return true;
}

/* Takes a geometry apart, and destroys it. NULL is let through, as what failed. */
static Region *region_of_geos(const Call *call, GEOSGeometry *geometry, Error *error)
{
    Region *region = NULL;
    if (geometry && GEOSNormalize_r(call->geos, geometry) == 0) {
        size_t rings = 0, points = 0;
        region = calloc(1, sizeof *region);
        each_polygon(call, geometry, NULL, &rings, &points);
        if (region) {
            region->box = BOX_EMPTY;
            region->rings = malloc((rings + 1) * sizeof *region->rings);
            region->points = malloc((points + 1) * sizeof *region->points);
            bool good = region->rings && region->points &&
                        each_polygon(call, geometry, region, &rings, &points);
            if (!good) {
                region_free(region);
                region = NULL;
            }
        }
    }
    if (geometry) {
        GEOSGeom_destroy_r(call->geos, geometry);
    }
    if (!region) {
        call_failed(call, error);
    }
    return region;
}

/* Adds the places of one side's chords but its end; returns their number. `to` may be NULL, to
 * count alone. */
static size_t flatten_side(const Side *side, double tolerance, Point *to)
{
    if (side->radius == 0) {
        if (to) {
            to[0] = side->a;
        }
        return 1;
    }
    double sweep = side_sweep(side);
    double step = 2 * acos(1 - fmin(1, tolerance / side->radius));
    /* An arc of kilometres' radius is flat to less than the tolerance before the cosine shows it.
     */
    size_t count = step > 0 ? (size_t)ceil(fmin(sweep / step, 1e6)) : 1;
    count = count < 1 ? 1 : count;
    Point from = side_from(side);
    for (size_t i = 0; to && i < count; i++) {
        size_t part = side->backwards ? count - i : i;
        double turn = sweep * (double)part / (double)count, half = sin(turn / 2);
        /* From the arc's own end, which keeps the digits of a great radius. */
        Point way = {-2 * half * half * from.x - sin(turn) * from.y,
                     -2 * half * half * from.y + sin(turn) * from.x};
        to[i] = i == 0 ? side_start(side) : point_plus(side->a, way);
    }
    return count;
}

static Region *flatten_outline(const Outline *outline, double tolerance)
{
    size_t points = 0;
    for (size_t i = 0; i < outline->side_count; i++) {
        points += flatten_side(&outline->sides[i], tolerance, NULL);
    }
    Region *region = calloc(1, sizeof *region);
    if (!region) {
        return NULL;
    }
    region->rings = malloc(outline->ring_count * sizeof *region->rings);
    /* A ring of two arcs may come out as two points; it gets its middles as well. */
    region->points = malloc(2 * points * sizeof *region->points);
    if (!region->rings || !region->points) {
        region_free(region);
        return NULL;
    }
    region->box = outline->box;
    region->ring_count = outline->ring_count;
    size_t at = 0;
    for (size_t ring = 0; ring < outline->ring_count; ring++) {
        region->rings[ring] = (RegionRing){.start = at, .is_opening = ring > 0};
        size_t start = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
        for (size_t i = start; i < end; i++) {
            const Side *side = &outline->sides[i];
            size_t count = flatten_side(side, tolerance, region->points + at);
            at += count;
            if (count == 1 && side->radius > 0) {
                region->points[at++] = side_middle(side);
            }
        }
        region->rings[ring].count = at - region->rings[ring].start;
    }
    return region;
}

/* Gives GEOS the flattened rings once, to hear whether they still mean something. */
static Region *check_flat(Region *flat, Error *error)
{
    Call call;
    if (!flat) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for a region");
        return NULL;
    }
    if (!call_begin(&call, error)) {
        return NULL;
    }
    Region *region = NULL;
    GEOSGeometry *geometry = region_to_geos(&call, flat);
    if (geometry && GEOSisValid_r(call.geos, geometry) == 0) {
        GEOSGeom_destroy_r(call.geos, geometry);
        error_set(error, ERROR_GEOMETRY, NULL,
                  "an outline touches itself once its arcs are flattened; use a finer tolerance");
    } else {
        region = region_of_geos(&call, geometry, error);
    }
    call_end(&call);
    return region;
}

Region *region_from_shape(const Shape *shape, double tolerance, Error *error)
{
    if (!(tolerance >= TOLERANCE_LEAST && tolerance < INFINITY)) {
        error_set(error, ERROR_GEOMETRY, NULL,
                  "a tolerance must be a number of at least 0.00001 mm");
        return NULL;
    }
    Outline *outline = shape_to_outline(shape, error);
    if (!outline) {
        return NULL;
    }
    Region *flat = flatten_outline(outline, tolerance);
    outline_unref(outline);
    Region *region = check_flat(flat, error);
    region_free(flat);
    return region;
}

typedef GEOSGeometry *(*Overlay)(GEOSContextHandle_t geos, const GEOSGeometry *a,
                                 const GEOSGeometry *b);

static Region *overlay(const Region *a, const Region *b, Overlay how, Error *error)
{
    Call call;
    if (!call_begin(&call, error)) {
        return NULL;
    }
    GEOSGeometry *first = region_to_geos(&call, a), *second = region_to_geos(&call, b);
    GEOSGeometry *both = first && second ? how(call.geos, first, second) : NULL;
    if (first) {
        GEOSGeom_destroy_r(call.geos, first);
    }
    if (second) {
        GEOSGeom_destroy_r(call.geos, second);
    }
    Region *region = region_of_geos(&call, both, error);
    call_end(&call);
    return region;
}

Region *region_union(const Region *a, const Region *b, Error *error)
{
    return overlay(a, b, GEOSUnion_r, error);
}

Region *region_difference(const Region *a, const Region *b, Error *error)
{
    return overlay(a, b, GEOSDifference_r, error);
}

Region *region_intersection(const Region *a, const Region *b, Error *error)
{
    return overlay(a, b, GEOSIntersection_r, error);
}

Region *region_union_all(const Region *const *regions, size_t count, Error *error)
{
    Call call;
    if (!call_begin(&call, error)) {
        return NULL;
    }
    GEOSGeometry *all = regions_to_geos(&call, regions, count);
    GEOSGeometry *joined = all ? GEOSUnaryUnion_r(call.geos, all) : NULL;
    if (all) {
        GEOSGeom_destroy_r(call.geos, all);
    }
    Region *region = region_of_geos(&call, joined, error);
    call_end(&call);
    return region;
}

Region *region_offset(const Region *region, double by, double tolerance, Error *error)
{
    if (!(tolerance >= TOLERANCE_LEAST && tolerance < INFINITY) || !isfinite(by)) {
        error_set(error, ERROR_GEOMETRY, NULL,
                  "an offset and its tolerance must be numbers, the tolerance at least 0.00001 mm");
        return NULL;
    }
    Call call;
    if (!call_begin(&call, error)) {
        return NULL;
    }
    double step = 2 * acos(1 - fmin(1, tolerance / fmax(fabs(by), tolerance)));
    int quarter = (int)fmin(ceil(M_PI / 2 / step), 10000);
    GEOSGeometry *geometry = region_to_geos(&call, region);
    GEOSGeometry *grown = geometry ? GEOSBuffer_r(call.geos, geometry, by, quarter) : NULL;
    if (geometry) {
        GEOSGeom_destroy_r(call.geos, geometry);
    }
    Region *offset = region_of_geos(&call, grown, error);
    call_end(&call);
    return offset;
}

void region_free(Region *region)
{
    if (region) {
        free(region->points);
        free(region->rings);
        free(region);
    }
}

bool region_is_empty(const Region *region)
{
    return region->ring_count == 0;
}

double region_area(const Region *region)
{
    return region->area;
}

Box region_box(const Region *region)
{
    return region->box;
}

size_t region_ring_count(const Region *region)
{
    return region->ring_count;
}

const Point *region_ring(const Region *region, size_t ring, size_t *count, bool *is_opening)
{
    const RegionRing *own = &region->rings[ring];
    *count = own->count;
    if (is_opening) {
        *is_opening = own->is_opening;
    }
    return region->points + own->start;
}
