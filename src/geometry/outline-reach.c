/* outline-reach.c: how far an outline reaches in a direction.
 *
 * The reach in direction w is the greatest product of a place of the outline with w, what is called
 * the support function. It is found exactly by a walk through the tree, and bounded at once from
 * its values in a round of directions: for w = a d + b e with a and b not negative, the reach in w
 * is at most a times that in d and b times that in e.
 */
#include "geometry/outline-private.h"

double outline_reach(const Outline *outline, Point way)
{
    Later later[TREE_DEPTH];
    int count = 0;
    double best = -INFINITY;
    /* The least comes first in tree_push, so reaches are kept with the other sign. */
    later[count++] = (Later){0, -INFINITY};
    while (count > 0) {
        Later at = later[--count];
        if (-at.square <= best) {
            continue;
        }
        if (at.child & NODE_SIDE) {
            best = greater_of(best, side_reach(&outline->sides[at.child & ~NODE_SIDE], way));
            continue;
        }
        const Node *node = &outline->nodes[at.child];
        double reaches[NODE_CHILDREN];
        for (int i = 0; i < NODE_CHILDREN; i++) {
            double x = node->x[i], y = node->y[i], half_x = node->half_x[i];
            double half_y = node->half_y[i];
            reaches[i] = -(x * way.x + y * way.y + half_x * fabs(way.x) + half_y * fabs(way.y));
        }
        count = tree_push(later, count, node, reaches, -best);
    }
    return best;
}

/* The cosines of the first quarter of the directions. */
static const double quarter_cosines[] = {
    1,
    0.98078528040323044913,
    0.92387953251128675613,
    0.83146961230254523708,
    0.70710678118654752440,
    0.55557023301960222474,
    0.38268343236508977173,
    0.19509032201612826785,
    0,
};

/* The direction of a number from 0 to OUTLINE_REACHES. */
static Point reach_direction(unsigned number)
{
    unsigned quarter = number / 8 % 4, rest = number % 8;
    double c = quarter_cosines[rest], s = quarter_cosines[8 - rest];
    const Point turned[] = {{c, s}, {-s, c}, {-c, -s}, {s, -c}};
    return turned[quarter];
}

/* The number of the last direction before `way`, counter-clockwise. */
static unsigned sector_of(Point way)
{
    double x = fabs(way.x), y = fabs(way.y);
    bool steep = y > x;
    double more = steep ? y : x, less = steep ? x : y;
    /* The tangents of 11.25, 22.5 and 33.75 degrees. */
    unsigned sector = (less > more * 0.19891236737965800691) +
                      (less > more * 0.41421356237309504880) +
                      (less > more * 0.66817863791929891999);
    sector = steep ? 7 - sector : sector;
    if (way.y >= 0) {
        return way.x >= 0 ? sector : 15 - sector;
    }
    return way.x >= 0 ? 31 - sector : 16 + sector;
}

void outline_fill_reaches(Outline *outline)
{
    for (unsigned i = 0; i < OUTLINE_REACHES; i++) {
        double reach = outline_reach(outline, reach_direction(i));
        /* More than what a float and the sums below round off. */
        outline->reaches[i] = (float)(reach + fabs(reach) * 1e-6 + TOUCH);
    }
}

double outline_reach_most(const Outline *outline, Point way)
{
    unsigned before = sector_of(way), after = (before + 1) % OUTLINE_REACHES;
    Point d = reach_direction(before), e = reach_direction(after);
    /* The sine of the step of 11.25 degrees is the last of the cosines but one. */
    double a = greater_of(0, point_cross(way, e)) / quarter_cosines[7];
    double b = greater_of(0, point_cross(d, way)) / quarter_cosines[7];
    return a * (double)outline->reaches[before] + b * (double)outline->reaches[after];
}
