/* index.c: boxes in grids of cells, one grid for each size of box.
 *
 * A box lives in the one cell that holds its lower left corner, in the grid whose cells are at
 * least its own size but less than four times that; the grid just below the one that most boxes are
 * in is not used but for that one. So things of much the same size, as holes and slots are, share
 * one grid, and a few large outlines among them get grids of their own instead of filling hundreds
 * of small cells. A search looks through the cells that its box covers and one row and column more,
 * in each grid that has anything in it.
 *
 * A grid goes on for ever: it is a table of lists, wrapped round in both directions, so that moving
 * a box never needs memory. What lies far away may share a list, and is told apart by its box.
 * Tables grow with the number of boxes in them.
 */
#include "geometry/index.h"

#include <stdlib.h>
#include <string.h>

#define NOTHING UINT32_MAX
#define GRIDS 16
/* mm: the cells of the first grid; each grid has cells four times as large as the one before, up to
 * 2^30 mm. The third has 16 mm, where most holes and slots of a plate are. */
#define FIRST_CELL 1.0
#define FIRST_TABLE 16
/* How many keys are put in order at a time. */
#define SORTED_AT_ONCE 2048

typedef struct Entry {
    Box box;
    uint32_t key;
    uint32_t next, previous; /* in the cell's list; `next` also in the list of free entries */
    uint32_t list;
    uint32_t grid;
} Entry;

typedef struct Grid {
    double per_mm;      /* 1 over the cell's size */
    uint32_t *lists;    /* wrapped table, row after row; each the first entry or NOTHING */
    uint32_t side_mask; /* the table has side_mask + 1 cells along each side */
    size_t count;
} Grid;

struct Index {
    Entry *entries;
    size_t entry_room, entry_used;
    uint32_t free;  /* the first free entry among the used */
    uint32_t *keys; /* open-addressed: entry numbers, or NOTHING */
    uint32_t key_mask;
    size_t count;
    uint32_t main;     /* the grid that most boxes are in */
    uint32_t grid_end; /* behind the last grid that was ever used */
    Grid grids[GRIDS];
};

static uint32_t *new_lists(size_t count)
{
    uint32_t *lists = malloc(count * sizeof *lists);
    if (lists) {
        memset(lists, 0xFF, count * sizeof *lists);
    }
    return lists;
}

Index *index_new(void)
{
    Index *index = calloc(1, sizeof *index);
    if (!index) {
        return NULL;
    }
    index->free = NOTHING;
    index->key_mask = FIRST_TABLE - 1;
    index->keys = new_lists(FIRST_TABLE);
    bool good = index->keys;
    double cell = FIRST_CELL;
    for (int i = 0; i < GRIDS; i++, cell *= 4) {
        index->grids[i].per_mm = 1 / cell;
        index->grids[i].lists = new_lists(1);
        good = good && index->grids[i].lists;
    }
    if (!good) {
        index_free(index);
        return NULL;
    }
    return index;
}

void index_free(Index *index)
{
    if (!index) {
        return;
    }
    for (int i = 0; i < GRIDS; i++) {
        free(index->grids[i].lists);
    }
    free(index->keys);
    free(index->entries);
    free(index);
}

/* Spreads keys that follow each other over the table (Fibonacci hashing). */
static uint32_t key_place(const Index *index, uint32_t key)
{
    return (uint32_t)((key * UINT64_C(0x9E3779B97F4A7C15)) >> 32) & index->key_mask;
}

/* The place in the key table that holds the key, or the free one where it would go. */
static uint32_t find_key(const Index *index, uint32_t key)
{
    uint32_t place = key_place(index, key);
    while (index->keys[place] != NOTHING && index->entries[index->keys[place]].key != key) {
        place = (place + 1) & index->key_mask;
    }
    return place;
}

static uint32_t grid_of_box(const Index *index, Box box)
{
    double width = box.x1 - box.x0, height = box.y1 - box.y0;
    double size = width > height ? width : height;
    double cell = FIRST_CELL;
    uint32_t grid = 0;
    while (grid + 1 < GRIDS && size > cell) {
        cell *= 4;
        grid++;
    }
    return grid + 1 == index->main ? index->main : grid;
}

/* The cell along one axis; far beyond any plate all is one cell. */
static int64_t cell_of(const Grid *grid, double mm)
{
    double cell = mm * grid->per_mm;
    cell = cell < 1e12 ? cell : 1e12;
    cell = cell > -1e12 ? cell : -1e12;
    int64_t whole = (int64_t)cell;
    return whole - ((double)whole > cell);
}

static uint32_t list_of(const Grid *grid, int64_t x, int64_t y)
{
    uint32_t column = (uint32_t)((uint64_t)x & grid->side_mask);
    uint32_t row = (uint32_t)((uint64_t)y & grid->side_mask);
    return row * (grid->side_mask + 1) + column;
}

static void link_entry(Index *index, uint32_t number)
{
    Entry *entry = &index->entries[number];
    Grid *grid = &index->grids[entry->grid];
    entry->list = list_of(grid, cell_of(grid, entry->box.x0), cell_of(grid, entry->box.y0));
    entry->previous = NOTHING;
    entry->next = grid->lists[entry->list];
    if (entry->next != NOTHING) {
        index->entries[entry->next].previous = number;
    }
    grid->lists[entry->list] = number;
    grid->count++;
    index->grid_end = entry->grid >= index->grid_end ? entry->grid + 1 : index->grid_end;
}

static void unlink_entry(Index *index, uint32_t number)
{
    const Entry *entry = &index->entries[number];
    Grid *grid = &index->grids[entry->grid];
    if (entry->previous == NOTHING) {
        grid->lists[entry->list] = entry->next;
    } else {
        index->entries[entry->previous].next = entry->next;
    }
    if (entry->next != NOTHING) {
        index->entries[entry->next].previous = entry->previous;
    }
    grid->count--;
}

static bool grow_entries(Index *index)
{
    if (index->free != NOTHING || index->entry_used < index->entry_room) {
        return true;
    }
    size_t room = index->entry_room ? 2 * index->entry_room : FIRST_TABLE;
    Entry *entries = room < NOTHING ? realloc(index->entries, room * sizeof *entries) : NULL;
    if (!entries) {
        return false;
    }
    index->entries = entries;
    index->entry_room = room;
    return true;
}

static bool grow_keys(Index *index)
{
    if (2 * (index->count + 1) <= index->key_mask) {
        return true;
    }
    size_t room = 2 * ((size_t)index->key_mask + 1);
    uint32_t *old = index->keys, *keys = new_lists(room);
    if (!keys) {
        return false;
    }
    uint32_t old_mask = index->key_mask;
    index->keys = keys;
    index->key_mask = (uint32_t)(room - 1);
    for (size_t i = 0; i <= old_mask; i++) {
        if (old[i] != NOTHING) {
            keys[find_key(index, index->entries[old[i]].key)] = old[i];
        }
    }
    free(old);
    return true;
}

/* Gives a grid room for one more, at most two to a cell, and puts its boxes in anew. */
static bool grow_grid(Index *index, uint32_t which)
{
    Grid *grid = &index->grids[which];
    size_t side = (size_t)grid->side_mask + 1;
    /* In the last grid a box may be larger than its cell, so that all share one list. */
    if (grid->count < 2 * side * side || which == GRIDS - 1) {
        return true;
    }
    while (grid->count >= 2 * side * side) {
        side *= 2;
    }
    uint32_t *lists = new_lists(side * side);
    if (!lists) {
        return false;
    }
    free(grid->lists);
    grid->lists = lists;
    grid->side_mask = (uint32_t)(side - 1);
    grid->count = 0;
    for (size_t i = 0; i <= index->key_mask; i++) {
        uint32_t number = index->keys[i];
        if (number != NOTHING && index->entries[number].grid == which) {
            link_entry(index, number);
        }
    }
    return true;
}

/* Looks what grid most boxes are in: once for each doubling of their number. */
static void choose_main(Index *index)
{
    size_t counts[GRIDS] = {0};
    uint32_t most = 0;
    index->main = 0;
    for (size_t i = 0; i <= index->key_mask; i++) {
        uint32_t number = index->keys[i];
        if (number != NOTHING) {
            counts[grid_of_box(index, index->entries[number].box)]++;
        }
    }
    for (uint32_t i = 1; i < GRIDS; i++) {
        most = counts[i] > counts[most] ? i : most;
    }
    index->main = most;
    for (size_t i = 0; i <= index->key_mask; i++) {
        uint32_t number = index->keys[i];
        if (number != NOTHING) {
            unlink_entry(index, number);
            index->entries[number].grid = grid_of_box(index, index->entries[number].box);
            link_entry(index, number);
        }
    }
    /* Without memory for a larger table it is slower, no more. */
    grow_grid(index, most);
}

bool index_put(Index *index, uint32_t key, Box box)
{
    if (box_is_empty(box)) {
        box = BOX_EMPTY;
    }
    uint32_t grid = grid_of_box(index, box);
    uint32_t place = find_key(index, key);
    if (index->keys[place] != NOTHING) {
        uint32_t number = index->keys[place];
        unlink_entry(index, number);
        index->entries[number].box = box;
        index->entries[number].grid = grid;
        link_entry(index, number);
        return true;
    }
    uint32_t mask = index->key_mask;
    if (!grow_entries(index) || !grow_keys(index) || !grow_grid(index, grid)) {
        return false;
    }
    bool grew = index->key_mask != mask;
    uint32_t number = index->free;
    if (number != NOTHING) {
        index->free = index->entries[number].next;
    } else {
        number = (uint32_t)index->entry_used++;
    }
    index->entries[number] = (Entry){.box = box, .key = key, .grid = grid};
    index->keys[find_key(index, key)] = number;
    index->count++;
    link_entry(index, number);
    if (grew) {
        choose_main(index);
    }
    return true;
}

void index_remove(Index *index, uint32_t key)
{
    uint32_t place = find_key(index, key);
    uint32_t number = index->keys[place];
    if (number == NOTHING) {
        return;
    }
    unlink_entry(index, number);
    index->entries[number].next = index->free;
    index->free = number;
    index->count--;
    /* Closes the gap, so that no search stops at it too early (Knuth, volume 3, section 6.4,
     * algorithm R, from memory). */
    uint32_t gap = place;
    for (;;) {
        place = (place + 1) & index->key_mask;
        if (index->keys[place] == NOTHING) {
            break;
        }
        uint32_t home = key_place(index, index->entries[index->keys[place]].key);
        if (((place - home) & index->key_mask) >= ((place - gap) & index->key_mask)) {
            index->keys[gap] = index->keys[place];
            gap = place;
        }
    }
    index->keys[gap] = NOTHING;
}

size_t index_count(const Index *index)
{
    return index->count;
}

Box index_box(const Index *index, uint32_t key)
{
    uint32_t number = index->keys[find_key(index, key)];
    return number == NOTHING ? BOX_EMPTY : index->entries[number].box;
}

/* The keys of one round of a search: the smallest ones above `above`. Once it is full it is a heap
 * with the greatest on top. */
typedef struct Found {
    uint32_t keys[SORTED_AT_ONCE];
    size_t count;
    bool any_above;
    uint32_t above;
} Found;

static void sift_down(uint32_t *keys, size_t count, size_t at)
{
    uint32_t key = keys[at];
    for (size_t child = 2 * at + 1; child < count; child = 2 * at + 1) {
        if (child + 1 < count && keys[child + 1] > keys[child]) {
            child++;
        }
        if (keys[child] <= key) {
            break;
        }
        keys[at] = keys[child];
        at = child;
    }
    keys[at] = key;
}

static void make_heap(uint32_t *keys, size_t count)
{
    for (size_t i = count / 2; i-- > 0;) {
        sift_down(keys, count, i);
    }
}

static void sort_keys(uint32_t *keys, size_t count)
{
    if (count > 32) {
        make_heap(keys, count);
        while (count-- > 1) {
            uint32_t last = keys[count];
            keys[count] = keys[0];
            keys[0] = last;
            sift_down(keys, count, 0);
        }
        return;
    }
    for (size_t i = 1; i < count; i++) {
        uint32_t key = keys[i];
        size_t j = i;
        for (; j > 0 && keys[j - 1] > key; j--) {
            keys[j] = keys[j - 1];
        }
        keys[j] = key;
    }
}

static void add_found(Found *found, uint32_t key)
{
    if (found->any_above && key <= found->above) {
        return;
    }
    if (found->count < SORTED_AT_ONCE) {
        found->keys[found->count++] = key;
        if (found->count == SORTED_AT_ONCE) {
            make_heap(found->keys, found->count);
        }
    } else if (key < found->keys[0]) {
        found->keys[0] = key;
        sift_down(found->keys, found->count, 0);
    }
}

static void search_grid(const Index *index, const Grid *grid, Box box, Found *found)
{
    /* A box may begin up to one cell before the search's. */
    int64_t x0 = cell_of(grid, box.x0) - 1, x1 = cell_of(grid, box.x1);
    int64_t y0 = cell_of(grid, box.y0) - 1, y1 = cell_of(grid, box.y1);
    /* No list is looked through twice, however often the table wraps round in the search's box. */
    x1 = x1 - x0 > grid->side_mask ? x0 + grid->side_mask : x1;
    y1 = y1 - y0 > grid->side_mask ? y0 + grid->side_mask : y1;
    for (int64_t y = y0; y <= y1; y++) {
        for (int64_t x = x0; x <= x1; x++) {
            uint32_t number = grid->lists[list_of(grid, x, y)];
            while (number != NOTHING) {
                const Entry *entry = &index->entries[number];
                if (box_meets(entry->box, box)) {
                    add_found(found, entry->key);
                }
                number = entry->next;
            }
        }
    }
}

void index_each_near(const Index *index, Box box, bool (*visit)(uint32_t key, void *data),
                     void *data)
{
    if (box_is_empty(box)) {
        return;
    }
    Found found;
    found.any_above = false;
    do {
        found.count = 0;
        for (uint32_t i = 0; i < index->grid_end; i++) {
            if (index->grids[i].count > 0) {
                search_grid(index, &index->grids[i], box, &found);
            }
        }
        sort_keys(found.keys, found.count);
        for (size_t i = 0; i < found.count; i++) {
            if (!visit(found.keys[i], data)) {
                return;
            }
        }
        if (found.count > 0) {
            found.any_above = true;
            found.above = found.keys[found.count - 1];
        }
    } while (found.count == SORTED_AT_ONCE);
}
