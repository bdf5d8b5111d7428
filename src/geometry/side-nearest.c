/* side-nearest.c: the nearest points of two lines or arcs, and where they cross.
 *
 * Two curves that do not cross are nearest either at an end of one of them, or where the line
 * through both points is square to both: for two lines never (but for parallel ones, where an end
 * is as near), for a line and an arc at the foot of the perpendicular from the centre, and for two
 * arcs on the line of their centres.
 */
#include "geometry/side.h"

static inline void take(Near *near, double square, Point on_a, Point on_b)
{
    if (square < near->square) {
        near->square = square;
        near->on_a = on_a;
        near->on_b = on_b;
    }
}

/* The ends against the other side: all four, or in rings the start of each. */
static inline void take_ends(const Side *a, const Side *b, bool rings, Near *near)
{
    Point q, start = side_start(a);
    double square = side_nearest_point(b, start, &q);
    take(near, square, start, q);
    start = side_start(b);
    square = side_nearest_point(a, start, &q);
    take(near, square, q, start);
    if (!rings) {
        Point end = side_end(a);
        square = side_nearest_point(b, end, &q);
        take(near, square, end, q);
        end = side_end(b);
        square = side_nearest_point(a, end, &q);
        take(near, square, q, end);
    }
}

static void take_crossing(Near *near, Point at, double depth)
{
    if (near->square > 0 || depth > near->depth) {
        near->on_a = at;
        near->on_b = at;
    }
    near->square = 0;
    near->depth = greater_of(near->depth, depth);
}

/* How far a crossing is from being a touch: the least way from it to an end of either side, times
 * the sine of the angle between them, and never more than the sides' bulge through each other. */
static double crossing_depth(const Side *a, const Side *b, Point at, double bulge)
{
    Point along_a = a->radius > 0 ? point_minus(at, a->centre) : side_along(a);
    Point along_b = b->radius > 0 ? point_minus(at, b->centre) : side_along(b);
    /* A radius stands square to its arc, so for an arc and a line it is the cosine that is wanted.
     */
    double product = (a->radius > 0) == (b->radius > 0) ? point_cross(along_a, along_b)
                                                        : point_dot(along_a, along_b);
    double lengths = point_length(along_a) * point_length(along_b);
    double sine = lengths > 0 ? fabs(product) / lengths : 0;
    double to_a = lesser_of(point_distance(at, a->a), point_distance(at, a->b));
    double to_b = lesser_of(point_distance(at, b->a), point_distance(at, b->b));
    return lesser_of(bulge, sine * lesser_of(to_a, to_b));
}

/* True with the place where two lines cross inside both. */
static bool lines_cross(const Side *a, const Side *b, Point *at, double *depth)
{
    Point apart = point_minus(b->a, a->a);
    double b_a = point_cross(side_along(a), apart);
    double b_b = point_cross(side_along(a), point_minus(b->b, a->a));
    if ((b_a > 0) == (b_b > 0)) {
        return false;
    }
    double a_a = -point_cross(side_along(b), apart);
    double a_b = point_cross(side_along(b), point_minus(a->b, b->a));
    if ((a_a > 0) == (a_b > 0)) {
        return false;
    }
    double t = a_a / (a_a - a_b);
    *at = point_plus(a->a, point_times(side_along(a), t));
    /* Of two lines along each other the signs are only rounding, and they may lie far apart. */
    Point q;
    if (side_nearest_point(b, *at, &q) > TOUCH * TOUCH) {
        return false;
    }
    double ends_b = lesser_of(fabs(b_a), fabs(b_b)) * sqrt(a->per_square);
    double ends_a = lesser_of(fabs(a_a), fabs(a_b)) * sqrt(b->per_square);
    *depth = lesser_of(ends_a, ends_b);
    return true;
}

static inline void nearest_of_lines(const Side *a, const Side *b, bool rings, Near *near)
{
    Point at;
    double depth;
    if (lines_cross(a, b, &at, &depth)) {
        take_crossing(near, at, depth);
    } else {
        take_ends(a, b, rings, near);
    }
}

/* The places where a line's whole straight meets an arc's whole circle. `foot` is the straight's
 * nearest place to the centre, `bulge` how far it reaches into the circle there. */
static int meet_line(const Side *line, const Side *arc, Point *foot, double *bulge, Point places[2])
{
    Point w = point_minus(arc->centre, line->a);
    *foot = point_plus(
        line->a, point_times(side_along(line), point_dot(w, side_along(line)) * line->per_square));
    /* Half the chord squared is the power of the foot less its sign, taken from the arc's own end:
     * r^2 - height^2 would lose the digits of an arc of great radius. */
    Point e = point_minus(*foot, arc->a);
    double square = -point_dot(e, point_plus(e, point_times(side_from(arc), 2)));
    if (!(square >= 0) || line->per_square == 0) {
        return 0;
    }
    *bulge = square / (arc->radius + point_distance(*foot, arc->centre));
    Point way = point_times(side_along(line), sqrt(square * line->per_square));
    places[0] = point_minus(*foot, way);
    places[1] = point_plus(*foot, way);
    return 2;
}

static bool on_line(const Side *line, Point p)
{
    double t = point_dot(point_minus(p, line->a), side_along(line)) * line->per_square;
    return t >= 0 && t <= 1;
}

static inline void nearest_of_line_and_arc(const Side *line, const Side *arc, bool rings,
                                           Near *near)
{
    Point foot, places[2];
    double bulge;
    int count = meet_line(line, arc, &foot, &bulge, places);
    bool cross = false;
    for (int i = 0; i < count; i++) {
        if (on_line(line, places[i]) && side_faces(arc, places[i])) {
            take_crossing(near, places[i], crossing_depth(line, arc, places[i], bulge));
            cross = true;
        }
    }
    if (cross) {
        return;
    }
    if (count == 0 && line->per_square > 0 && on_line(line, foot) && side_faces(arc, foot)) {
        Point q;
        double square = side_nearest_point(arc, foot, &q);
        take(near, square, foot, q);
    }
    take_ends(line, arc, rings, near);
}

/* The same with the arc as the first side. */
static inline void nearest_of_arc_and_line(const Side *arc, const Side *line, bool rings,
                                           Near *near)
{
    Near other = {near->square, near->on_b, near->on_a, near->depth};
    nearest_of_line_and_arc(line, arc, rings, &other);
    *near = (Near){other.square, other.on_b, other.on_a, other.depth};
}

/* The places where two circles meet. `along` is the unit way from a's centre to b's, `apart` their
 * distance, `bulge` how far the circles are from touching. */
static int meet_circles(const Side *a, const Side *b, Point *along, double *apart, double *bulge,
                        Point places[2])
{
    Point way = point_minus(b->centre, a->centre);
    *apart = point_length(way);
    if (!(*apart > 0)) {
        return 0;
    }
    *along = point_times(way, 1 / *apart);
    double sum = a->radius + b->radius, difference = fabs(a->radius - b->radius);
    *bulge = lesser_of(sum - *apart, *apart - difference);
    if (*bulge < 0) {
        return 0;
    }
    double x = (*apart + (a->radius - b->radius) * (sum / *apart)) / 2;
    double y = sqrt(greater_of(0, (a->radius - x) * (a->radius + x)));
    Point middle = point_plus(a->centre, point_times(*along, x));
    Point aside = {-along->y * y, along->x * y};
    places[0] = point_plus(middle, aside);
    places[1] = point_minus(middle, aside);
    return 2;
}

static inline void nearest_of_arcs(const Side *a, const Side *b, bool rings, Near *near)
{
    Point along, places[2];
    double apart, bulge;
    int count = meet_circles(a, b, &along, &apart, &bulge, places);
    bool cross = false;
    for (int i = 0; i < count; i++) {
        if (side_faces(a, places[i]) && side_faces(b, places[i])) {
            take_crossing(near, places[i], crossing_depth(a, b, places[i], bulge));
            cross = true;
        }
    }
    if (cross) {
        return;
    }
    if (count == 0 && apart > 0) {
        /* Beside each other the arcs face each other; one inside the other, both face the way that
         * the inner one's centre lies from the outer one's. */
        bool beside = apart > a->radius + b->radius;
        double way_a = !beside && a->radius < b->radius ? -1 : 1;
        double way_b = beside ? -1 : way_a;
        Point on_a = point_plus(a->centre, point_times(along, way_a * a->radius));
        Point on_b = point_plus(b->centre, point_times(along, way_b * b->radius));
        if (side_faces(a, on_a) && side_faces(b, on_b)) {
            /* Once to and fro, so that both points lie on their arcs to the last place. */
            Point q;
            side_nearest_point(b, on_a, &q);
            double square = side_nearest_point(a, q, &on_a);
            take(near, square, on_a, q);
        }
    }
    take_ends(a, b, rings, near);
}

static inline void nearest_of_sides(const Side *a, const Side *b, bool rings, Near *near)
{
    if (a->radius == 0) {
        if (b->radius == 0) {
            nearest_of_lines(a, b, rings, near);
        } else {
            nearest_of_line_and_arc(a, b, rings, near);
        }
    } else if (b->radius == 0) {
        nearest_of_arc_and_line(a, b, rings, near);
    } else {
        nearest_of_arcs(a, b, rings, near);
    }
}

void side_nearest(const Side *a, const Side *b, Near *near)
{
    nearest_of_sides(a, b, false, near);
}

void side_nearest_in_rings(const Side *a, const Side *b, Near *near)
{
    nearest_of_sides(a, b, true, near);
}

/* Adds a place unless it is there already or both are. */
static int add_place(Point places[2], int count, Point p)
{
    if (count == 2 || (count == 1 && point_distance(places[0], p) <= TOUCH)) {
        return count;
    }
    places[count] = p;
    return count + 1;
}

int side_crossings(const Side *a, const Side *b, Point crossings[2])
{
    Point whole[2], p;
    int count = 0, whole_count = 0;
    double depth, ignored;
    if (a->radius == 0 && b->radius == 0) {
        whole_count = lines_cross(a, b, &whole[0], &depth) ? 1 : 0;
    } else if (a->radius == 0) {
        whole_count = meet_line(a, b, &p, &ignored, whole);
    } else if (b->radius == 0) {
        whole_count = meet_line(b, a, &p, &ignored, whole);
    } else {
        whole_count = meet_circles(a, b, &p, &ignored, &depth, whole);
    }
    const double touch = TOUCH * TOUCH;
    for (int i = 0; i < whole_count; i++) {
        if (side_nearest_point(a, whole[i], &p) <= touch &&
            side_nearest_point(b, whole[i], &p) <= touch) {
            count = add_place(crossings, count, whole[i]);
        }
    }
    /* Ends that touch the other side, which rounding may have kept from crossing it; also the ends
     * of what two sides share that lie along each other. */
    const Point ends[] = {a->a, a->b, b->a, b->b};
    for (int i = 0; i < 4; i++) {
        if (side_nearest_point(i < 2 ? b : a, ends[i], &p) <= touch) {
            count = add_place(crossings, count, ends[i]);
        }
    }
    return count;
}
