/* grown.c: the border of a grown outline, element by element.
 *
 * The border is made of the outline's sides moved out by the growth and an arc round each corner
 * that points outwards. Where the outline's own corner points inwards, where an opening is narrow,
 * or where two limbs grow into each other, only a part of these elements is border: those places
 * that are no nearer to the outline than the growth.
 */
#include "geometry/grown.h"

/* A side moved outwards. False where nothing of it is left, inside an arc of less radius. */
static bool move_side(const Side *side, double growth, Side *moved)
{
    if (side->radius == 0) {
        /* The ring runs from a to b, for a line is never kept backwards by an outline. */
        double factor = growth * sqrt(side->per_square);
        Point along = side_along(side);
        Point out = {along.y * factor, -along.x * factor};
        *moved = *side;
        moved->a = point_plus(side->a, out);
        moved->b = point_plus(side->b, out);
        return true;
    }
    double by = side->backwards ? -growth : growth;
    if (side->radius + by <= TOUCH) {
        return false;
    }
    double part = by / side->radius;
    *moved = *side;
    moved->radius = side->radius + by;
    moved->a = point_plus(side->a, point_times(side_from(side), part));
    moved->b = point_plus(side->b, point_times(side_to(side), part));
    return true;
}

/* The arc round the corner between two sides. False where the corner points inwards or is none. */
static bool round_corner(const Side *side, const Side *next, double growth, Side *arc)
{
    Point in = side_end_direction(side), out = side_start_direction(next);
    double turn = point_cross(in, out), same = point_dot(in, out);
    bool back = same < 0 && fabs(turn) < 1e-9;
    if (turn <= 1e-12 && !back) {
        return false;
    }
    Point corner = side_end(side);
    Point a = {corner.x + in.y * growth, corner.y - in.x * growth};
    Point b = {corner.x + out.y * growth, corner.y - out.x * growth};
    *arc = side_arc(corner, growth, a, b, turn < 0);
    return true;
}

/* The elements of the grown border that a side brings: its own, and that of the corner at its end.
 */
int grown_elements(const Grown *grown, size_t index, Side elements[2])
{
    const Side *side = &grown->outline->sides[index];
    if (grown->growth < GROWTH_LEAST) {
        elements[0] = *side;
        return 1;
    }
    int count = move_side(side, grown->growth, &elements[0]) ? 1 : 0;
    const Side *next = &grown->outline->sides[outline_next_side(grown->outline, index)];
    return count + (round_corner(side, next, grown->growth, &elements[count]) ? 1 : 0);
}

/* True for a place of an element that is on the grown border, not inside the grown outline. */
bool grown_is_border(const Grown *grown, Point p)
{
    if (grown->growth < GROWTH_LEAST) {
        return true;
    }
    double least = grown->growth - TOUCH;
    Point ignored;
    return outline_nearest_point(grown->outline, p, least * least, &ignored) >= least * least &&
           !outline_parity(grown->outline, p, SIZE_MAX);
}

static Side stretch_of(const Side *element, double start, double end)
{
    Point a = side_place(element, start), b = side_place(element, end);
    if (element->radius == 0) {
        return side_line(a, b);
    }
    Side stretch = *element;
    stretch.a = a;
    stretch.b = b;
    stretch.major = end - start > M_PI;
    return stretch;
}

/* The search for the first crossing behind a place of an element. */
typedef struct Break {
    const Grown *grown;
    const Side *element;
    double after, found;
} Break;

static bool look_for_break(size_t index, void *data)
{
    Break *next = data;
    Side elements[2];
    int count = grown_elements(next->grown, index, elements);
    for (int i = 0; i < count; i++) {
        Point crossings[2];
        int crossing_count = side_crossings(next->element, &elements[i], crossings);
        for (int j = 0; j < crossing_count; j++) {
            double way = side_way(next->element, crossings[j]);
            if (way > next->after) {
                next->found = lesser_of(next->found, way);
            }
        }
    }
    return true;
}

bool grown_each_stretch(const Grown *grown, const Side *element,
                        bool (*use)(const Side *stretch, void *data), void *data)
{
    if (grown->growth < GROWTH_LEAST) {
        return use(element, data);
    }
    double end = side_way_end(element);
    /* Stretches shorter than this, as way, are passed over. */
    double least = TOUCH / greater_of(TOUCH, side_length(element)) * end;
    Box box = box_grown(side_box(element), grown->growth + 2 * TOUCH);
    double start = 0;
    while (end - start > least) {
        Break next = {grown, element, start + least, end};
        outline_each_side_near(grown->outline, box, look_for_break, &next);
        if (grown_is_border(grown, side_place(element, (start + next.found) / 2))) {
            Side stretch = stretch_of(element, start, next.found);
            if (!use(&stretch, data)) {
                return false;
            }
        }
        start = next.found;
    }
    return true;
}
