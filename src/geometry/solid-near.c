/* solid-near.c: the nearest points of two convex solids.
 *
 * The points a - b, for all a of one solid and b of the other, make a convex body (their Minkowski
 * difference), and its point v nearest to the origin is the shortest way between the two. It is
 * approached by simplices of support points. Each step also gives a plane that the whole body lies
 * beyond, so that how far the answer can be off is known and not guessed.
 */
#include "geometry/solid-private.h"

/* A support point of the difference, and the two points that it is the difference of. */
typedef struct Corner {
    Space w, a, b;
} Corner;

typedef struct Simplex {
    int count;
    Corner corners[4];
    double weights[4]; /* of the point nearest to the origin; 0 or more, 1 in sum */
} Simplex;

/* More steps than any pair was seen to take; what is reached by then is the answer. */
#define STEPS_MOST 200
/* mm: how far the answer may be from the shortest. */
#define CLOSE_ENOUGH 1e-11
/* Steps in a row that may gain nothing, and how much they may lose, for each mm of coordinates. */
#define IDLE_MOST 8
#define ROUNDING 1e-15

static Space simplex_point(const Simplex *simplex)
{
    Space v = {0, 0, 0};
    for (int i = 0; i < simplex->count; i++) {
        v = space_plus(v, space_times(simplex->corners[i].w, simplex->weights[i]));
    }
    return v;
}

/* What is found among the faces of a simplex: the face's corners and their weights. */
typedef struct Face {
    double square; /* mm2 from the origin */
    int count, corners[3];
    double weights[3];
} Face;

static void take_face(Face *best, const Space w[4], const Face *face)
{
    Space v = {0, 0, 0};
    for (int i = 0; i < face->count; i++) {
        v = space_plus(v, space_times(w[face->corners[i]], face->weights[i]));
    }
    double square = space_dot(v, v);
    /* A triangle is never further than its edges: where rounding can't tell, it is the one whose
     * direction is right. */
    double slack = face->count > best->count ? 1 + 4 * ROUNDING : 1;
    if (square < best->square * slack) {
        *best = *face;
        best->square = square;
    }
}

static void try_corner(Face *best, const Space w[4], int i)
{
    take_face(best, w, &(Face){0, 1, {i}, {1}});
}

static void try_edge(Face *best, const Space w[4], int i, int k)
{
    Space along = space_minus(w[k], w[i]);
    double square = space_dot(along, along);
    double part = -space_dot(w[i], along) / square;
    if (part > 0 && part < 1) {
        take_face(best, w, &(Face){0, 2, {i, k}, {1 - part, part}});
    }
}

/* The weights by Gram and Schmidt, which needles bear better than areas do. */
static void try_triangle(Face *best, const Space w[4], int i, int k, int m)
{
    Space along = space_minus(w[k], w[i]), aside = space_minus(w[m], w[i]);
    double square = space_dot(along, along);
    double lean = space_dot(aside, along) / square;
    Space square_on = space_minus(aside, space_times(along, lean));
    double height = space_dot(square_on, square_on);
    double to_m = -space_dot(w[i], square_on) / height;
    double to_k = -space_dot(w[i], along) / square - to_m * lean;
    if (to_m > 0 && to_k > 0 && to_m + to_k < 1) {
        take_face(best, w, &(Face){0, 3, {i, k, m}, {1 - to_m - to_k, to_k, to_m}});
    }
}

/* True when the origin lies within the tetrahedron, beyond the doubt of rounding: the four volumes
 * under its faces have one sign. */
static bool tetrahedron_holds_origin(const Space w[4])
{
    int positive = 0, negative = 0;
    for (int i = 0; i < 4; i++) {
        const Space p = w[(i + 1) % 4], q = w[(i + 2) % 4], r = w[(i + 3) % 4];
        double volume = (i % 2 ? -1 : 1) * space_dot(p, space_cross(q, r));
        double doubt = 8 * ROUNDING * space_length(p) * space_length(q) * space_length(r);
        positive += volume > doubt;
        negative += volume < -doubt;
    }
    return positive == 4 || negative == 4;
}

/* Reduces the simplex to the least part of it that holds its point nearest to the origin. True, and
 * the simplex as it was, when the origin lies within. */
static bool simplex_reduce(Simplex *simplex)
{
    Space w[4];
    int count = simplex->count;
    for (int i = 0; i < count; i++) {
        w[i] = simplex->corners[i].w;
    }
    if (count == 4 && tetrahedron_holds_origin(w)) {
        return true;
    }
    Face best = {.square = INFINITY};
    for (int i = 0; i < count; i++) {
        try_corner(&best, w, i);
        for (int k = i + 1; k < count; k++) {
            try_edge(&best, w, i, k);
            for (int m = k + 1; m < count; m++) {
                try_triangle(&best, w, i, k, m);
            }
        }
    }
    /* A face's corners rise, so each moves down or stays. */
    for (int i = 0; i < best.count; i++) {
        simplex->corners[i] = simplex->corners[best.corners[i]];
        simplex->weights[i] = best.weights[i];
    }
    simplex->count = best.count;
    return false;
}

static Corner support_against(const SolidPair *pair, Space shift, Space way)
{
    Corner corner;
    Space back = space_times(way, -1);
    corner.a = solid_support(pair->a, back);
    corner.b = placement_point(&pair->b_in_a,
                               solid_support(pair->b, placement_own_direction(&pair->b_in_a, way)));
    corner.b = space_plus(corner.b, shift);
    corner.w = space_minus(corner.a, corner.b);
    return corner;
}

static void read_touch(const Simplex *simplex, Touch *touch)
{
    touch->on_a = touch->on_b = (Space){0, 0, 0};
    for (int i = 0; i < simplex->count; i++) {
        const Corner *corner = &simplex->corners[i];
        touch->on_a = space_plus(touch->on_a, space_times(corner->a, simplex->weights[i]));
        touch->on_b = space_plus(touch->on_b, space_times(corner->b, simplex->weights[i]));
    }
    touch->distance = space_distance(touch->on_a, touch->on_b);
}

static bool simplex_has(const Simplex *simplex, Space w)
{
    for (int i = 0; i < simplex->count; i++) {
        const Space *own = &simplex->corners[i].w;
        if (own->x == w.x && own->y == w.y && own->z == w.z) {
            return true;
        }
    }
    return false;
}

static Space first_way(const SolidPair *pair, Space shift)
{
    if (space_dot(pair->way, pair->way) > 0) {
        return pair->way;
    }
    Space middle_a = {0, 0, (pair->a->bottom + pair->a->top) / 2};
    Space middle_b = {0, 0, (pair->b->bottom + pair->b->top) / 2};
    Space way = space_minus(middle_a, space_plus(placement_point(&pair->b_in_a, middle_b), shift));
    return space_length(way) > TOUCH ? way : (Space){1, 0, 0};
}

bool solid_nearest(const SolidPair *pair, Space shift, double limit, Touch *touch)
{
    Space way = first_way(pair, shift);
    Simplex simplex = {0}, best = {0};
    double upper = INFINITY, lower = 0, best_lower = 0, scale = 0;
    int idle = 0;
    for (int step = 0; step < STEPS_MOST; step++) {
        Space unit = space_times(way, 1 / space_length(way));
        Corner corner = support_against(pair, shift, unit);
        touch->way = unit;
        double proven = space_dot(unit, corner.w);
        scale = greater_of(scale, space_length(corner.a) + space_length(corner.b));
        lower = greater_of(lower, proven);
        if (lower > limit) {
            return false;
        }
        /* Of answers that rounding can't tell apart, the one whose direction proves most. */
        if (idle == 0 || proven > best_lower) {
            best = simplex;
            best_lower = proven;
        }
        if (upper - proven <= CLOSE_ENOUGH || simplex_has(&simplex, corner.w)) {
            break;
        }
        simplex.corners[simplex.count++] = corner;
        if (simplex_reduce(&simplex)) {
            touch->distance = 0;
            return true;
        }
        way = simplex_point(&simplex);
        double length = space_length(way);
        if (length <= TOUCH || (pair->slack > 0 && length <= limit)) {
            best = simplex;
            break;
        }
        /* A step that gains less than rounding takes may still open the way for one that does; when
         * several don't, rounding has the last word. */
        idle = length < upper ? 0 : idle + 1;
        if (idle > IDLE_MOST || length > upper + ROUNDING * scale) {
            break;
        }
        upper = length;
    }
    read_touch(&best, touch);
    /* What no plane parts is not apart. */
    touch->distance = lower > 0 || pair->slack > 0 ? touch->distance : 0;
    return touch->distance <= limit;
}
