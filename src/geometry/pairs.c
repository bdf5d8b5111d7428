/* pairs.c: all close pairs by grids, one for each size of shape.
 *
 * A shape's reach is its box grown by its limit, and it is put in the grid whose cells are the next
 * power of two above its reach, in the cell of its middle. Two shapes of one grid can then only be
 * near when their cells touch, and each pair of cells is looked at once; a shape is tried as well
 * against the nine cells round it in each grid of larger cells. The items of a cell lie together in
 * memory, with all in them that a hole against a hole needs.
 */
#include "geometry/pairs.h"

#include "geometry/shape-private.h"

#include <stdlib.h>
#include <string.h>

#define GRIDS 48
/* The exponent of the first grid's cells: 2^-8 mm. */
#define FIRST_EXPONENT (-8)
/* A grid has no more cells than this many times its items, and some. */
#define CELLS_PER_ITEM 4
#define CELLS_LEAST 256

/* Small, since it is sorted and looked through much more often than its shape is looked at. The
 * half sizes take up what a float rounds off of the middle as well. */
typedef struct Item {
    float x, y;           /* the middle of its box */
    float half_x, half_y; /* of its box */
    float limit;
    uint32_t number : 31;
    uint32_t circle : 1;
} Item;

typedef struct Grid {
    Item *items;   /* cell after cell */
    Shape *shapes; /* of the items, so that neighbours lie together in memory */
    size_t count, room;
    uint32_t *starts; /* columns * rows + 1 */
    float x, y, per_mm;
    float most_half, most_limit; /* of the items */
    uint32_t columns, rows;
} Grid;

typedef struct Search {
    const double *limits;
    PairLimit pair_limit;
    void *data;
    Pair *found;
    size_t count, room;
    bool failed;
} Search;

/* A half size and what floats round off of places like `place`, several times over. */
static float half_above(double half, double place)
{
    return (float)(half * (1 + 1e-6) + fabs(place) * 5e-7);
}

static Item item_of(const Shape *shape, uint32_t number, double limit)
{
    Item item = {.limit = (float)(limit * (1 + 1e-6)), .number = number};
    double x = shape->pose.x, y = shape->pose.y, half_x = shape->growth, half_y = half_x;
    if (shape->core == CORE_POINT) {
        item.circle = 1;
    } else {
        Box box = shape_loose_box(shape);
        half_x = (box.x1 - box.x0) / 2;
        half_y = (box.y1 - box.y0) / 2;
        x = box.x0 + half_x;
        y = box.y0 + half_y;
    }
    item.x = (float)x;
    item.y = (float)y;
    item.half_x = half_above(half_x, x);
    item.half_y = half_above(half_y, y);
    return item;
}

static int grid_of(const Item *item)
{
    int exponent;
    float half = item->half_x > item->half_y ? item->half_x : item->half_y;
    frexpf(2 * half + item->limit, &exponent);
    int grid = exponent - FIRST_EXPONENT;
    return grid < 0 ? 0 : grid >= GRIDS ? GRIDS - 1 : grid;
}

/* Lays the grid out over its items, with larger cells where they are few and far apart. */
static void lay_out(Grid *grid, int which)
{
    float x0 = INFINITY, y0 = INFINITY, x1 = -INFINITY, y1 = -INFINITY;
    for (size_t i = 0; i < grid->count; i++) {
        const Item *item = &grid->items[i];
        float half = item->half_x > item->half_y ? item->half_x : item->half_y;
        x0 = item->x < x0 ? item->x : x0;
        y0 = item->y < y0 ? item->y : y0;
        x1 = item->x > x1 ? item->x : x1;
        y1 = item->y > y1 ? item->y : y1;
        grid->most_half = half > grid->most_half ? half : grid->most_half;
        grid->most_limit = item->limit > grid->most_limit ? item->limit : grid->most_limit;
    }
    grid->x = x0;
    grid->y = y0;
    float most = (float)(CELLS_PER_ITEM * grid->count + CELLS_LEAST);
    float cell = ldexpf(1, which + FIRST_EXPONENT - 1);
    while (((x1 - x0) / cell + 1) * ((y1 - y0) / cell + 1) > most) {
        cell *= 2;
    }
    grid->per_mm = 1 / cell;
    grid->columns = (uint32_t)((x1 - x0) * grid->per_mm) + 1;
    grid->rows = (uint32_t)((y1 - y0) * grid->per_mm) + 1;
}

/* Puts the items of a grid in the order of their cells, by counting. `cells` has room for a number
 * for each. */
static bool sort_items(Grid *grid, int which, const Shape *shapes, Item *sorted, uint32_t *cells)
{
    lay_out(grid, which);
    size_t count = (size_t)grid->columns * grid->rows;
    grid->starts = calloc(count + 1, sizeof *grid->starts);
    if (!grid->starts) {
        return false;
    }
    for (size_t i = 0; i < grid->count; i++) {
        const Item *item = &grid->items[i];
        uint32_t row = (uint32_t)((item->y - grid->y) * grid->per_mm);
        uint32_t column = (uint32_t)((item->x - grid->x) * grid->per_mm);
        cells[i] = row * grid->columns + column;
        grid->starts[cells[i]]++;
    }
    uint32_t sum = 0;
    for (size_t i = 0; i <= count; i++) {
        sum += grid->starts[i];
        grid->starts[i] = sum;
    }
    /* Backwards, so that the numbers of one cell stay in order. */
    for (size_t i = grid->count; i-- > 0;) {
        uint32_t to = --grid->starts[cells[i]];
        sorted[to] = grid->items[i];
        grid->shapes[to] = shapes[grid->items[i].number];
    }
    grid->items = sorted;
    return true;
}

static void add_pair(Search *search, uint32_t a, uint32_t b, double distance)
{
    if (search->count == search->room) {
        size_t room = search->room ? 2 * search->room : 256;
        Pair *found = realloc(search->found, room * sizeof *found);
        if (!found) {
            search->failed = true;
            return;
        }
        search->found = found;
        search->room = room;
    }
    search->found[search->count++] =
        (Pair){.a = a < b ? a : b, .b = a < b ? b : a, .distance = distance};
}

/* Two items whose boxes are near. */
static void try_shapes(Search *search, const Grid *grid_a, size_t at_a, const Grid *grid_b,
                       size_t at_b)
{
    /* Always the smaller number first, so that the answer is shape_gap's to the last place. */
    bool in_order = grid_a->items[at_a].number < grid_b->items[at_b].number;
    const Item *a = in_order ? &grid_a->items[at_a] : &grid_b->items[at_b];
    const Item *b = in_order ? &grid_b->items[at_b] : &grid_a->items[at_a];
    const Shape *one = in_order ? &grid_a->shapes[at_a] : &grid_b->shapes[at_b];
    const Shape *other = in_order ? &grid_b->shapes[at_b] : &grid_a->shapes[at_a];
    /* A little too great, to spare a look at the exact limits of what is not near enough anyway. */
    double limit = greater_of((double)a->limit, (double)b->limit);
    double distance;
    if (a->circle && b->circle) {
        double dx = one->pose.x - other->pose.x, dy = one->pose.y - other->pose.y;
        distance = sqrt(dx * dx + dy * dy) - one->growth - other->growth;
        if (distance > limit) {
            return;
        }
    } else {
        Gap gap;
        if (!shape_gap_within(one, other, limit, &gap)) {
            return;
        }
        distance = gap.distance;
    }
    if (search->pair_limit || distance > limit * (1 - 4e-6)) {
        limit = greater_of(search->limits[a->number], search->limits[b->number]);
    }
    if (search->pair_limit) {
        limit = lesser_of(limit, search->pair_limit(a->number, b->number, search->data));
    }
    if (distance <= limit) {
        add_pair(search, a->number, b->number, distance);
    }
}

/* True when two items' boxes, or circles, are near. Without branches, which no processor could
 * guess here. */
static inline bool items_near(const Item *a, const Item *b)
{
    float dx = fabsf(a->x - b->x), dy = fabsf(a->y - b->y);
    float limit = a->limit > b->limit ? a->limit : b->limit;
    float reach_x = a->half_x + b->half_x + limit, reach_y = a->half_y + b->half_y + limit;
    /* The corner of a circle's box is not the circle's. */
    float corner = dx * dx + dy * dy - reach_x * reach_x - reach_y * 1e-3F;
    return (dx <= reach_x) & (dy <= reach_y) & ((corner <= 0) | !(a->circle & b->circle));
}

/* Cells along one axis, cut at the grid's ends. */
typedef struct Range {
    uint32_t first, end;
} Range;

static inline Range range_of(float from, float to, float per_mm, uint32_t count)
{
    float first = from * per_mm, last = to * per_mm;
    if (last < 0 || first >= (float)count) {
        return (Range){0, 0};
    }
    return (Range){first > 0 ? (uint32_t)first : 0,
                   last < (float)count ? (uint32_t)last + 1 : count};
}

/* What an item is near to, found first and measured afterwards. */
#define HITS_MOST 256

typedef struct Hits {
    uint32_t count;
    uint32_t items[HITS_MOST];
} Hits;

static void measure_hits(Search *search, const Grid *own, size_t at, const Grid *grid, Hits *hits)
{
    for (uint32_t i = 0; i < hits->count; i++) {
        try_shapes(search, own, at, grid, hits->items[i]);
    }
    hits->count = 0;
}

static inline void find_hits(Search *search, const Grid *own, size_t at, const Grid *grid,
                             uint32_t from, uint32_t to, Hits *hits)
{
    for (; from < to; from++) {
        if (hits->count == HITS_MOST) {
            measure_hits(search, own, at, grid, hits);
        }
        hits->items[hits->count] = from;
        hits->count += items_near(&own->items[at], &grid->items[from]);
    }
}

/* How far apart along an axis an item's middle and one of a grid's may be. */
static inline float reach_into(const Item *item, const Grid *grid)
{
    float half = item->half_x > item->half_y ? item->half_x : item->half_y;
    float limit = item->limit > grid->most_limit ? item->limit : grid->most_limit;
    return half + grid->most_half + limit;
}

/* Each pair of items of one grid once: an item against those behind it in its row, and in the rows
 * above. */
static void search_within(Search *search, const Grid *grid)
{
    Hits hits;
    hits.count = 0;
    for (uint32_t row = 0; row < grid->rows; row++) {
        const uint32_t *starts = grid->starts + (size_t)row * grid->columns;
        for (uint32_t i = starts[0]; i < starts[grid->columns]; i++) {
            const Item *item = &grid->items[i];
            float reach = reach_into(item, grid), x = item->x - grid->x, y = item->y - grid->y;
            Range columns = range_of(x - reach, x + reach, grid->per_mm, grid->columns);
            Range rows = range_of(y, y + reach, grid->per_mm, grid->rows);
            find_hits(search, grid, i, grid, i + 1, starts[columns.end], &hits);
            for (uint32_t above = row + 1; above < rows.end; above++) {
                const uint32_t *run = grid->starts + (size_t)above * grid->columns;
                find_hits(search, grid, i, grid, run[columns.first], run[columns.end], &hits);
            }
            measure_hits(search, grid, i, grid, &hits);
        }
    }
}

/* The items of a grid against those of another, which had better have more. */
static void search_between(Search *search, const Grid *few, const Grid *many)
{
    Hits hits;
    hits.count = 0;
    for (size_t i = 0; i < few->count; i++) {
        const Item *item = &few->items[i];
        float reach = reach_into(item, many), x = item->x - many->x, y = item->y - many->y;
        Range columns = range_of(x - reach, x + reach, many->per_mm, many->columns);
        Range rows = range_of(y - reach, y + reach, many->per_mm, many->rows);
        for (uint32_t row = rows.first; row < rows.end; row++) {
            const uint32_t *run = many->starts + (size_t)row * many->columns;
            find_hits(search, few, i, many, run[columns.first], run[columns.end], &hits);
        }
        measure_hits(search, few, i, many, &hits);
    }
}

/* Puts the pairs in order: by counting for a, and by insertion for the few b of each a. */
static bool sort_pairs(Search *search, size_t count)
{
    /* Cleared: what lies before the pairs of an a is looked at, and must not pass for one of them.
     */
    Pair *sorted = calloc(search->count + 1, sizeof *sorted);
    uint32_t *starts = calloc(count + 1, sizeof *starts);
    if (!sorted || !starts) {
        free(sorted);
        free(starts);
        return false;
    }
    for (size_t i = 0; i < search->count; i++) {
        starts[search->found[i].a + 1]++;
    }
    for (size_t i = 0; i < count; i++) {
        starts[i + 1] += starts[i];
    }
    uint32_t *ends = starts; /* of what is put in so far */
    for (size_t i = 0; i < search->count; i++) {
        Pair pair = search->found[i];
        size_t at = ends[pair.a]++;
        for (; at > 0 && sorted[at - 1].a == pair.a && sorted[at - 1].b > pair.b; at--) {
            sorted[at] = sorted[at - 1];
        }
        sorted[at] = pair;
    }
    free(starts);
    free(search->found);
    search->found = sorted;
    return true;
}

/* Room for what is only needed while searching, in one piece. */
typedef struct Scratch {
    Shape *shapes;
    Item *items, *sorted;
    uint32_t *cells;
} Scratch;

static bool scratch_new(Scratch *scratch, size_t count)
{
    scratch->shapes = malloc((count + 1) * (sizeof(Shape) + 2 * sizeof(Item) + sizeof(uint32_t)));
    if (!scratch->shapes) {
        return false;
    }
    scratch->items = (Item *)(scratch->shapes + count);
    scratch->sorted = scratch->items + count;
    scratch->cells = (uint32_t *)(scratch->sorted + count);
    return true;
}

/* Where the items of each grid go: into the one of the next larger cells where that has enough of
 * its own, since each grid more is one more to look through for all smaller items. */
static void join_grids(const size_t counts[GRIDS], int into[GRIDS])
{
    for (int i = 0; i < GRIDS; i++) {
        into[i] = i + 1 < GRIDS && counts[i + 1] > counts[i] ? i + 1 : i;
    }
}

/* Spreads the items over the grids. */
static bool make_grids(const Shape *shapes, size_t count, const double *limits, Scratch *scratch,
                       Grid grids[GRIDS])
{
    size_t counts[GRIDS] = {0};
    for (size_t i = 0; i < count; i++) {
        scratch->sorted[i] = item_of(&shapes[i], (uint32_t)i, limits[i]);
        scratch->cells[i] = (uint32_t)grid_of(&scratch->sorted[i]);
        counts[scratch->cells[i]]++;
    }
    int into[GRIDS];
    join_grids(counts, into);
    for (int i = 0; i < GRIDS; i++) {
        grids[into[i]].room += counts[i];
    }
    size_t start = 0;
    for (int i = 0; i < GRIDS; i++) {
        grids[i].items = scratch->items + start;
        grids[i].shapes = scratch->shapes + start;
        start += grids[i].room;
    }
    for (size_t i = 0; i < count; i++) {
        Grid *grid = &grids[into[scratch->cells[i]]];
        grid->items[grid->count++] = scratch->sorted[i];
    }
    for (int i = 0; i < GRIDS; i++) {
        Item *sorted = scratch->sorted + (grids[i].items - scratch->items);
        if (grids[i].count > 0 && !sort_items(&grids[i], i, shapes, sorted, scratch->cells)) {
            return false;
        }
    }
    return true;
}

bool pairs_find(const Shape *shapes, size_t count, const double *limits, PairLimit pair_limit,
                void *data, Pairs *pairs)
{
    *pairs = (Pairs){0};
    Search search = {.limits = limits, .pair_limit = pair_limit, .data = data};
    Grid grids[GRIDS] = {0};
    Scratch scratch = {0};
    bool good = scratch_new(&scratch, count) && make_grids(shapes, count, limits, &scratch, grids);
    for (int i = 0; good && i < GRIDS; i++) {
        if (grids[i].count == 0) {
            continue;
        }
        search_within(&search, &grids[i]);
        for (int j = i + 1; j < GRIDS; j++) {
            if (grids[j].count > 0) {
                bool fewer = grids[i].count < grids[j].count;
                search_between(&search, &grids[fewer ? i : j], &grids[fewer ? j : i]);
            }
        }
    }
    for (int i = 0; i < GRIDS; i++) {
        free(grids[i].starts);
    }
    free(scratch.shapes);
    good = good && !search.failed && sort_pairs(&search, count);
    if (!good) {
        free(search.found);
        return false;
    }
    *pairs = (Pairs){search.found, search.count};
    return true;
}

void pairs_free(Pairs *pairs)
{
    free(pairs->all);
    *pairs = (Pairs){0};
}
