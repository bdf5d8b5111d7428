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

typedef struct Item {
    double x, y;           /* the middle of its box */
    double half_x, half_y; /* of its box */
    double limit;
    double radius; /* of a circle, whose middle is exact; less than 0 for all else */
    uint32_t number;
    uint32_t cell;
} Item;

typedef struct Grid {
    Item *items; /* cell after cell */
    size_t count;
    uint32_t *starts; /* columns * rows + 1 */
    double x, y, per_mm;
    uint32_t columns, rows;
} Grid;

typedef struct Search {
    const Shape *shapes;
    PairLimit pair_limit;
    void *data;
    Pair *found;
    size_t count, room;
    bool failed;
} Search;

static Item item_of(const Shape *shape, uint32_t number, double limit)
{
    if (shape->core == CORE_POINT) {
        return (Item){shape->pose.x, shape->pose.y, shape->growth, shape->growth,
                      limit,         shape->growth, number,        0};
    }
    Box box = shape_loose_box(shape);
    double half_x = (box.x1 - box.x0) / 2, half_y = (box.y1 - box.y0) / 2;
    return (Item){box.x0 + half_x, box.y0 + half_y, half_x, half_y, limit, -1, number, 0};
}

static int grid_of(const Item *item)
{
    int exponent;
    frexp(2 * (greater_of(item->half_x, item->half_y) + item->limit), &exponent);
    int grid = exponent - FIRST_EXPONENT;
    return grid < 0 ? 0 : grid >= GRIDS ? GRIDS - 1 : grid;
}

static uint32_t column_of(const Grid *grid, double x)
{
    return (uint32_t)((x - grid->x) * grid->per_mm);
}

/* Lays the grid out over its items, with larger cells where they are few and far apart. */
static void lay_out(Grid *grid, int which)
{
    Box box = BOX_EMPTY;
    for (size_t i = 0; i < grid->count; i++) {
        box = box_with_point(box, (Point){grid->items[i].x, grid->items[i].y});
    }
    grid->x = box.x0;
    grid->y = box.y0;
    double most = (double)(CELLS_PER_ITEM * grid->count + CELLS_LEAST);
    double cell = ldexp(1, which + FIRST_EXPONENT);
    while ((floor((box.x1 - box.x0) / cell) + 1) * (floor((box.y1 - box.y0) / cell) + 1) > most) {
        cell *= 2;
    }
    grid->per_mm = 1 / cell;
    grid->columns = (uint32_t)((box.x1 - box.x0) / cell) + 1;
    grid->rows = (uint32_t)((box.y1 - box.y0) / cell) + 1;
}

/* Puts the items of a grid in the order of their cells, by counting. */
static bool sort_items(Grid *grid, int which, Item *sorted)
{
    lay_out(grid, which);
    size_t cells = (size_t)grid->columns * grid->rows;
    grid->starts = calloc(cells + 1, sizeof *grid->starts);
    if (!grid->starts) {
        return false;
    }
    for (size_t i = 0; i < grid->count; i++) {
        Item *item = &grid->items[i];
        uint32_t row = (uint32_t)((item->y - grid->y) * grid->per_mm);
        item->cell = row * grid->columns + column_of(grid, item->x);
        grid->starts[item->cell]++;
    }
    uint32_t sum = 0;
    for (size_t i = 0; i <= cells; i++) {
        sum += grid->starts[i];
        grid->starts[i] = sum;
    }
    /* Backwards, so that the numbers of one cell stay in order. */
    for (size_t i = grid->count; i-- > 0;) {
        sorted[--grid->starts[grid->items[i].cell]] = grid->items[i];
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

static void try_shapes(Search *search, const Item *a, const Item *b, double limit)
{
    Gap gap;
    /* Always the smaller number first, so that the answer is shape_gap's to the last place. */
    const Shape *first = &search->shapes[a->number < b->number ? a->number : b->number];
    const Shape *second = &search->shapes[a->number < b->number ? b->number : a->number];
    if (shape_gap_within(first, second, limit, &gap)) {
        add_pair(search, a->number, b->number, gap.distance);
    }
}

static void try_pair(Search *search, const Item *a, const Item *b)
{
    double limit = greater_of(a->limit, b->limit);
    double dx = fabs(a->x - b->x), dy = fabs(a->y - b->y);
    if (dx > a->half_x + b->half_x + limit || dy > a->half_y + b->half_y + limit) {
        return;
    }
    if (search->pair_limit) {
        limit = lesser_of(limit, search->pair_limit(a->number < b->number ? a->number : b->number,
                                               a->number < b->number ? b->number : a->number,
                                               search->data));
    }
    if (a->radius >= 0 && b->radius >= 0) {
        double reach = a->radius + b->radius + limit, square = dx * dx + dy * dy;
        if (square <= reach * reach && reach >= 0) {
            add_pair(search, a->number, b->number, sqrt(square) - a->radius - b->radius);
        }
        return;
    }
    try_shapes(search, a, b, limit);
}

static void try_run(Search *search, const Item *item, const Grid *grid, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++) {
        try_pair(search, item, &grid->items[i]);
    }
}

/* Each pair of items of one grid once: the rest of an item's own cell and the next one in its row,
 * which lie together, then three cells of the row above. */
static void search_within(Search *search, const Grid *grid)
{
    for (size_t i = 0; i < grid->count; i++) {
        const Item *item = &grid->items[i];
        uint32_t row = item->cell / grid->columns, column = item->cell % grid->columns;
        uint32_t last = column + 1 < grid->columns ? column + 1 : column;
        uint32_t first = column > 0 ? column - 1 : column;
        const uint32_t *starts = grid->starts + (size_t)row * grid->columns;
        try_run(search, item, grid, i + 1, starts[last + 1]);
        if (row + 1 < grid->rows) {
            starts += grid->columns;
            try_run(search, item, grid, starts[first], starts[last + 1]);
        }
    }
}

/* The cells round a place on a grid's axis, cut at its ends. False where all lie outside. */
static bool cells_round(double place, double per_mm, uint32_t count, uint32_t *first,
                        uint32_t *last)
{
    double cell = floor(place * per_mm);
    if (cell < -1 || cell > count) {
        return false;
    }
    *first = (uint32_t)greater_of(0, cell - 1);
    *last = (uint32_t)lesser_of(count - 1, cell + 1);
    return true;
}

/* The items of a grid against those of one with larger cells. */
static void search_between(Search *search, const Grid *fine, const Grid *coarse)
{
    for (size_t i = 0; i < fine->count; i++) {
        const Item *item = &fine->items[i];
        uint32_t first_row, last_row, first, last;
        if (!cells_round(item->y - coarse->y, coarse->per_mm, coarse->rows, &first_row,
                         &last_row) ||
            !cells_round(item->x - coarse->x, coarse->per_mm, coarse->columns, &first, &last)) {
            continue;
        }
        for (uint32_t row = first_row; row <= last_row; row++) {
            const uint32_t *starts = coarse->starts + (size_t)row * coarse->columns;
            try_run(search, item, coarse, starts[first], starts[last + 1]);
        }
    }
}

/* Puts the pairs in order: by counting for a, and by insertion for the few b of each a. */
static bool sort_pairs(Search *search, size_t count)
{
    Pair *sorted = malloc((search->count + 1) * sizeof *sorted);
    size_t *starts = calloc(count + 1, sizeof *starts);
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
    size_t *ends = starts; /* of what is put in so far */
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

/* Spreads the items over the grids. `items` and `sorted` have room for all; `items` is scratch. */
static bool make_grids(const Shape *shapes, size_t count, const double *limits, Item *items,
                       Item *sorted, Grid grids[GRIDS])
{
    size_t starts[GRIDS + 1] = {0};
    for (size_t i = 0; i < count; i++) {
        sorted[i] = item_of(&shapes[i], (uint32_t)i, limits[i]);
        sorted[i].cell = (uint32_t)grid_of(&sorted[i]);
        starts[sorted[i].cell + 1]++;
    }
    for (int i = 0; i < GRIDS; i++) {
        starts[i + 1] += starts[i];
        grids[i].items = items + starts[i];
    }
    for (size_t i = 0; i < count; i++) {
        Grid *grid = &grids[sorted[i].cell];
        grid->items[grid->count++] = sorted[i];
    }
    for (int i = 0; i < GRIDS; i++) {
        if (grids[i].count > 0 && !sort_items(&grids[i], i, sorted + starts[i])) {
            return false;
        }
    }
    return true;
}

bool pairs_find(const Shape *shapes, size_t count, const double *limits, PairLimit pair_limit,
                void *data, Pairs *pairs)
{
    *pairs = (Pairs){0};
    Search search = {.shapes = shapes, .pair_limit = pair_limit, .data = data};
    Grid grids[GRIDS] = {0};
    Item *items = malloc((count + 1) * sizeof *items);
    Item *sorted = malloc((count + 1) * sizeof *sorted);
    bool good = items && sorted && make_grids(shapes, count, limits, items, sorted, grids);
    for (int i = 0; good && i < GRIDS; i++) {
        if (grids[i].count == 0) {
            continue;
        }
        search_within(&search, &grids[i]);
        for (int j = i + 1; j < GRIDS; j++) {
            if (grids[j].count > 0) {
                search_between(&search, &grids[i], &grids[j]);
            }
        }
    }
    good = good && !search.failed && sort_pairs(&search, count);
    for (int i = 0; i < GRIDS; i++) {
        free(grids[i].starts);
    }
    free(items);
    free(sorted);
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
