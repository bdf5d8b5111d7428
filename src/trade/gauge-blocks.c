#include "trade/gauge-blocks.h"

#include "trade/unit.h"

#include <glib.h>
#include <string.h>

#define BLOCKS_ROOM 96
#define HEIGHT_GREATEST (300 * LENGTH_MM)
#define NO_STACK 255

typedef struct Series {
    Length from, by;
    int count;
} Series;

#define THOU ((Length)25400)

static const Series inch_series[] = {
    {50 * THOU, 50 * THOU, 1}, {100 * THOU, 0, 1},          {100 * THOU + 2540, 2540, 9},
    {101 * THOU, THOU, 49},    {150 * THOU, 50 * THOU, 17}, {LENGTH_INCH, LENGTH_INCH, 4},
};
static const Series metric_series[] = {
    {LENGTH_MM, 0, 1},
    {1005 * LENGTH_UM, 0, 1},
    {1010 * LENGTH_UM, 10 * LENGTH_UM, 9},
    {1100 * LENGTH_UM, 100 * LENGTH_UM, 9},
    {2 * LENGTH_MM, LENGTH_MM, 23},
    {25 * LENGTH_MM, 25 * LENGTH_MM, 4},
};

const char *gauge_set_text(GaugeSet set)
{
    return set == GAUGE_INCH_81
               ? "81 blocks: 0.1001 to 0.1009 by 0.0001, 0.101 to 0.149 by 0.001, 0.050 to 0.950 "
                 "by "
                 "0.050, 1, 2, 3 and 4 in"
               : "47 blocks: 1.005, 1.01 to 1.09 by 0.01, 1.1 to 1.9 by 0.1, 1 to 24 by 1, 25, 50, "
                 "75 and 100 mm";
}

size_t gauge_set_blocks(GaugeSet set, Length *blocks)
{
    const Series *series = set == GAUGE_INCH_81 ? inch_series : metric_series;
    size_t count = set == GAUGE_INCH_81 ? G_N_ELEMENTS(inch_series) : G_N_ELEMENTS(metric_series);
    size_t made = 0;
    for (size_t s = 0; s < count; s++)
        for (int i = 0; i < series[s].count; i++)
            blocks[made++] = series[s].from + i * series[s].by;
    return made;
}

/* The set's finest step: every block is a whole number of these. */
static Length finest_step(GaugeSet set)
{
    return set == GAUGE_INCH_81 ? 2540 : 5 * LENGTH_UM;
}

/* Fewest blocks for every height at once, block by block: fewest[h] counts them, and used[b] has a
 * bit for h where block b made the count less, so that the blocks can be taken out again. */
typedef struct Search {
    Length blocks[BLOCKS_ROOM];
    size_t block_count;
    Length step;
    size_t heights;
    guint8 *fewest;
    guint8 *used;
} Search;

static void search_all(Search *search)
{
    size_t row = search->heights / 8 + 1;
    search->fewest = g_malloc(search->heights);
    search->used = g_malloc0(row * search->block_count);
    memset(search->fewest, NO_STACK, search->heights);
    search->fewest[0] = 0;
    for (size_t b = 0; b < search->block_count; b++) {
        size_t size = (size_t)(search->blocks[b] / search->step);
        for (size_t h = search->heights; h-- > size;) {
            guint8 before = search->fewest[h - size];
            if (before == NO_STACK || before + 1 >= search->fewest[h])
                continue;
            search->fewest[h] = (guint8)(before + 1);
            search->used[b * row + h / 8] |= (guint8)(1u << h % 8);
        }
    }
}

static size_t nearest_height(const Search *search, Length wanted)
{
    size_t middle = (size_t)((wanted + search->step / 2) / search->step);
    for (size_t away = 0;; away++) {
        bool higher_first = (Length)middle * search->step < wanted;
        size_t high = middle + away, low = middle - MIN(away, middle);
        bool high_fine = high < search->heights && search->fewest[high] != NO_STACK;
        bool low_fine = search->fewest[low] != NO_STACK;
        if (high_fine && (higher_first || !low_fine))
            return high;
        if (low_fine)
            return low;
    }
}

static void take_out(const Search *search, size_t height, GaugeStack *stack)
{
    size_t row = search->heights / 8 + 1;
    stack->height = (Length)height * search->step;
    stack->count = 0;
    for (size_t b = search->block_count; b-- > 0;) {
        if (!(search->used[b * row + height / 8] & (1u << height % 8)))
            continue;
        memmove(stack->blocks + 1, stack->blocks, stack->count * sizeof *stack->blocks);
        stack->blocks[0] = search->blocks[b];
        stack->count++;
        height -= (size_t)(search->blocks[b] / search->step);
    }
}

bool gauge_stack(Length height, GaugeSet set, GaugeStack *stack, Error *error)
{
    if (height < 0 || height > HEIGHT_GREATEST)
        return error_set(error, ERROR_LIMIT, NULL,
                         "a stack of gauge blocks may be no higher than 300 mm (11.8 in)");
    Search search = {.step = finest_step(set)};
    search.block_count = gauge_set_blocks(set, search.blocks);
    /* Past the wanted height there is always a stack within one of the largest blocks. */
    search.heights = (size_t)((height + 4 * LENGTH_INCH) / search.step) + 2;
    search_all(&search);
    take_out(&search, nearest_height(&search, height), stack);
    stack->residual = height - stack->height;
    g_free(search.fewest);
    g_free(search.used);
    return true;
}

size_t gauge_stack_text(const GaugeStack *stack, GaugeSet set, char *text, size_t size)
{
    Unit unit = set == GAUGE_INCH_81 ? UNIT_INCH : UNIT_MM;
    if (size)
        text[0] = '\0';
    for (size_t i = 0; i < stack->count; i++) {
        char block[LENGTH_PEOPLE_TEXT];
        length_text(stack->blocks[i], unit, block);
        if (i)
            g_strlcat(text, " + ", size);
        g_strlcat(text, block, size);
    }
    g_strlcat(text, stack->count ? " " : "none", size);
    size_t count = g_strlcat(text, stack->count ? unit_name(unit) : "", size);
    return MIN(count, size ? size - 1 : 0);
}
