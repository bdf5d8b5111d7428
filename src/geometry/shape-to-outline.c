/* shape-to-outline.c: the border of a shape put together to rings. */
#include "geometry/border.h"
#include "geometry/section.h"

#include <stdlib.h>

/* mm: sides shorter than the model's step are left out, and ends within some of them are one. */
#define SIDE_LEAST 1e-6
#define SAME_PLACE 1e-5
/* Where two sides of the border are all but tangent there are crumbs between them: sides so short
 * that their ends may be one with each other. They are followed, but no ring begins with one, and
 * they are no sides of the outline. */
#define CRUMB (2 * SAME_PLACE)

typedef struct Pieces {
    Side *sides;
    size_t count, room;
    bool failed;
} Pieces;

static bool keep_side(const Side *side, void *data)
{
    Pieces *pieces = data;
    if (side_length(side) < SIDE_LEAST) {
        return true;
    }
    if (pieces->count == pieces->room) {
        size_t room = pieces->room ? 2 * pieces->room : 64;
        Side *sides = realloc(pieces->sides, room * sizeof *sides);
        if (!sides) {
            pieces->failed = true;
            return false;
        }
        pieces->sides = sides;
        pieces->room = room;
    }
    pieces->sides[pieces->count++] = *side;
    return true;
}

static int by_start(const void *a, const void *b)
{
    double x = side_start((const Side *)a).x, other = side_start((const Side *)b).x;
    return (x > other) - (x < other);
}

/* The unused side that starts nearest to p, or SIZE_MAX. The sides are in order of their starts. */
static size_t side_from_place(const Pieces *pieces, const bool *used, Point p)
{
    size_t low = 0, high = pieces->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (side_start(&pieces->sides[middle]).x < p.x - SAME_PLACE) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    size_t best = SIZE_MAX;
    double nearest = SAME_PLACE;
    for (; low < pieces->count && side_start(&pieces->sides[low]).x <= p.x + SAME_PLACE; low++) {
        double distance = point_distance(side_start(&pieces->sides[low]), p);
        if (!used[low] && distance < nearest) {
            nearest = distance;
            best = low;
        }
    }
    return best;
}

static Vertex vertex_of(const Side *side)
{
    Point start = side_start(side);
    Vertex vertex = {start.x, start.y, 0};
    if (side->radius > 0) {
        double half = point_distance(side->a, side->b) / 2;
        double rest = sqrt(greater_of(0, (side->radius - half) * (side->radius + half)));
        double height = side->major ? side->radius + rest : half * half / (side->radius + rest);
        vertex.sagitta = side->backwards ? -height : height;
    }
    return vertex;
}

typedef struct Rings {
    Vertex *vertices;
    size_t *starts;
    bool *used;
    size_t count;
} Rings;

/* Follows the sides from one to the next till all are used. False where one leads nowhere, or there
 * are none. */
static bool follow(const Pieces *pieces, Rings *rings)
{
    size_t done = 0;
    for (size_t first = 0; first < pieces->count; first++) {
        if (rings->used[first] || side_length(&pieces->sides[first]) <= CRUMB) {
            continue;
        }
        rings->starts[rings->count++] = done;
        Point start = side_start(&pieces->sides[first]);
        size_t at = first;
        while (at != SIZE_MAX) {
            rings->used[at] = true;
            if (side_length(&pieces->sides[at]) > CRUMB) {
                rings->vertices[done++] = vertex_of(&pieces->sides[at]);
            }
            Point end = side_end(&pieces->sides[at]);
            at = side_from_place(pieces, rings->used, end);
            if (at == SIZE_MAX && point_distance(end, start) > SAME_PLACE) {
                return false;
            }
        }
    }
    rings->starts[rings->count] = done;
    return rings->count > 0;
}

/* Brings the ring with the greatest box to the front: the outside. */
static void put_outside_first(Rings *rings, Vertex *scratch)
{
    size_t best = 0;
    double widest = -INFINITY;
    for (size_t i = 0; i < rings->count; i++) {
        double low = INFINITY, high = -INFINITY;
        for (size_t j = rings->starts[i]; j < rings->starts[i + 1]; j++) {
            /* An arc may reach further than its ends; its middle is on it as well. */
            size_t next = j + 1 < rings->starts[i + 1] ? j + 1 : rings->starts[i];
            Side side = side_between(rings->vertices[j], rings->vertices[next]);
            Box box = side_box(&side);
            low = lesser_of(low, box.x0);
            high = greater_of(high, box.x1);
        }
        if (high - low > widest) {
            widest = high - low;
            best = i;
        }
    }
    size_t before = rings->starts[best], end = rings->starts[best + 1], count = end - before;
    for (size_t i = 0; i < end; i++) {
        scratch[i < before ? i + count : i - before] = rings->vertices[i];
    }
    for (size_t i = 0; i < end; i++) {
        rings->vertices[i] = scratch[i];
    }
    for (size_t i = best; i > 0; i--) {
        rings->starts[i] = rings->starts[i - 1] + count;
    }
}

static Outline *outline_of_pieces(Pieces *pieces, Error *error)
{
    size_t count = pieces->count;
    Rings rings = {
        .vertices = malloc((count + 1) * sizeof *rings.vertices),
        .starts = malloc((count + 1) * sizeof *rings.starts),
        .used = calloc(count + 1, sizeof *rings.used),
    };
    Vertex *scratch = malloc((count + 1) * sizeof *scratch);
    Outline *outline = NULL;
    if (!rings.vertices || !rings.starts || !rings.used || !scratch) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for the outline");
    } else {
        qsort(pieces->sides, count, sizeof *pieces->sides, by_start);
        if (follow(pieces, &rings)) {
            put_outside_first(&rings, scratch);
            outline = outline_new(rings.vertices, rings.starts, rings.count, error);
        } else {
            error_set(
                error, ERROR_GEOMETRY, NULL,
                "the border of a grown outline touches itself; change the clearance a little");
        }
    }
    free(rings.vertices);
    free(rings.starts);
    free(rings.used);
    free(scratch);
    return outline;
}

Outline *shape_to_outline(const Shape *shape, Error *error)
{
    bool flat = shape->core == CORE_POINT || shape->core == CORE_SEGMENT ||
                (shape->core == CORE_RECTANGLE &&
                 (shape->half_length < SIDE_LEAST || shape->half_width < SIDE_LEAST));
    if (flat && shape->growth < SIDE_LEAST) {
        error_set(error, ERROR_GEOMETRY, NULL, "a shape with no width encloses nothing");
        return NULL;
    }
    Pieces pieces = {0};
    border_each_side(shape, box_grown(shape_loose_box(shape), 1), keep_side, &pieces);
    Outline *outline = NULL;
    if (pieces.failed) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for the outline");
    } else {
        outline = outline_of_pieces(&pieces, error);
    }
    free(pieces.sides);
    return outline;
}
