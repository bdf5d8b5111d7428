/* The shortest common supersequence of the sequences. A bound on what is still needed (each tool at
 * least as often as the one sequence that needs it most often) prunes a search in depth; where no
 * two sequences want two tools in contrary orders the bound is exact and nothing is ever tried
 * twice. */
#include "shopplan/tool-order.h"

#include <string.h>

/* Tools tried, in all. */
#define TRIES_MOST 200000
/* More tools than any shop has are not searched through: the search goes as deep as there are
 * tools. */
#define TOOLS_MOST 1000

typedef struct Search {
    const ToolSequence *sequences;
    uint32_t count, tool_count;
    uint32_t *at;           /* how far each sequence has come */
    uint32_t *most, *times; /* scratch of the bound, by tool */
    GArray *row;
    GHashTable *failed; /* GBytes of the state: the number of tools that were not enough */
    uint32_t tries;
} Search;

/* No fewer tools than this are needed from here on. */
static uint32_t bound(Search *search)
{
    uint32_t sum = 0;
    memset(search->most, 0, search->tool_count * sizeof *search->most);
    for (uint32_t s = 0; s < search->count; s++) {
        const ToolSequence *sequence = &search->sequences[s];
        for (uint32_t i = search->at[s]; i < sequence->count; i++)
            if (i == search->at[s] || sequence->tools[i] != sequence->tools[i - 1])
                search->times[sequence->tools[i]]++;
        for (uint32_t i = search->at[s]; i < sequence->count; i++) {
            uint32_t tool = sequence->tools[i];
            if (search->times[tool] > search->most[tool]) {
                sum += search->times[tool] - search->most[tool];
                search->most[tool] = search->times[tool];
            }
            search->times[tool] = 0;
        }
    }
    return sum;
}

static int by_number(const void *a, const void *b)
{
    uint32_t first = *(const uint32_t *)a, second = *(const uint32_t *)b;
    return (first > second) - (first < second);
}

/* The tools that some sequence waits for, each once, rising. */
static GArray *wanted_tools(const Search *search)
{
    GArray *tools = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    for (uint32_t s = 0; s < search->count; s++)
        if (search->at[s] < search->sequences[s].count)
            g_array_append_val(tools, search->sequences[s].tools[search->at[s]]);
    g_array_sort(tools, by_number);
    guint kept = 0;
    for (guint i = 0; i < tools->len; i++) {
        uint32_t tool = g_array_index(tools, uint32_t, i);
        if (kept == 0 || g_array_index(tools, uint32_t, kept - 1) != tool)
            g_array_index(tools, uint32_t, kept++) = tool;
    }
    g_array_set_size(tools, kept);
    return tools;
}

/* Every sequence that waits for the tool goes on; leaving one behind never helps. */
static void use(Search *search, uint32_t tool)
{
    for (uint32_t s = 0; s < search->count; s++)
        while (search->at[s] < search->sequences[s].count &&
               search->sequences[s].tools[search->at[s]] == tool)
            search->at[s]++;
    g_array_append_val(search->row, tool);
}

static GBytes *state_of(const Search *search)
{
    return g_bytes_new(search->at, search->count * sizeof *search->at);
}

static void take_back(Search *search, GBytes *state)
{
    memcpy(search->at, g_bytes_get_data(state, NULL), search->count * sizeof *search->at);
    g_array_set_size(search->row, search->row->len - 1);
}

/* Ends the row with at most `left` more tools. */
static bool finish(Search *search, uint32_t left)
{
    uint32_t needed = bound(search);
    if (needed == 0)
        return true;
    if (needed > left || search->tries >= TRIES_MOST)
        return false;
    GBytes *state = state_of(search);
    bool done = false;
    if (GPOINTER_TO_UINT(g_hash_table_lookup(search->failed, state)) > left) {
        g_bytes_unref(state);
        return false;
    }
    GArray *tools = wanted_tools(search);
    for (guint i = 0; i < tools->len && !done; i++) {
        search->tries++;
        use(search, g_array_index(tools, uint32_t, i));
        done = finish(search, left - 1);
        if (!done)
            take_back(search, state);
    }
    if (!done && search->tries < TRIES_MOST)
        g_hash_table_insert(search->failed, g_bytes_ref(state), GUINT_TO_POINTER(left + 1));
    g_array_unref(tools);
    g_bytes_unref(state);
    return done;
}

/* The wanted tool that leaves least to do, the first of those by number. */
static uint32_t best_now(Search *search)
{
    GBytes *state = state_of(search);
    GArray *tools = wanted_tools(search);
    uint32_t best = 0, least = UINT32_MAX;
    for (guint i = 0; i < tools->len; i++) {
        use(search, g_array_index(tools, uint32_t, i));
        uint32_t left = bound(search);
        take_back(search, state);
        if (left < least) {
            least = left;
            best = g_array_index(tools, uint32_t, i);
        }
    }
    g_array_unref(tools);
    g_bytes_unref(state);
    return best;
}

static void step_by_step(Search *search)
{
    memset(search->at, 0, search->count * sizeof *search->at);
    g_array_set_size(search->row, 0);
    while (bound(search) > 0)
        use(search, best_now(search));
}

/* The tools by number, again and again, each where some sequence waits for it. For more tools than
 * can be searched through; a sequence goes on by one at least in every sweep. */
static GArray *by_sweeps(const ToolSequence *sequences, uint32_t count, uint32_t tool_count)
{
    GArray *row = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    GArray **waiting = g_new(GArray *, tool_count);
    uint32_t *at = g_new0(uint32_t, count + 1), left = 0;
    for (uint32_t tool = 0; tool < tool_count; tool++)
        waiting[tool] = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    for (uint32_t s = 0; s < count; s++)
        if (sequences[s].count > 0) {
            g_array_append_val(waiting[sequences[s].tools[0]], s);
            left++;
        }
    for (uint32_t tool = 0; left > 0; tool = (tool + 1) % tool_count) {
        if (waiting[tool]->len == 0)
            continue;
        g_array_append_val(row, tool);
        for (guint i = 0; i < waiting[tool]->len; i++) {
            uint32_t s = g_array_index(waiting[tool], uint32_t, i);
            while (at[s] < sequences[s].count && sequences[s].tools[at[s]] == tool)
                at[s]++;
            if (at[s] < sequences[s].count)
                g_array_append_val(waiting[sequences[s].tools[at[s]]], s);
            else
                left--;
        }
        g_array_set_size(waiting[tool], 0);
    }
    for (uint32_t tool = 0; tool < tool_count; tool++)
        g_array_unref(waiting[tool]);
    g_free(waiting);
    g_free(at);
    return row;
}

GArray *tool_order(const ToolSequence *sequences, uint32_t count, uint32_t tool_count,
                   bool *shortest)
{
    if (tool_count > TOOLS_MOST) {
        if (shortest)
            *shortest = false;
        return by_sweeps(sequences, count, tool_count);
    }
    Search search = {
        .sequences = sequences,
        .count = count,
        .tool_count = tool_count,
        .at = g_new0(uint32_t, count + 1),
        .most = g_new0(uint32_t, tool_count + 1),
        .times = g_new0(uint32_t, tool_count + 1),
        .row = g_array_new(FALSE, FALSE, sizeof(uint32_t)),
        .failed =
            g_hash_table_new_full(g_bytes_hash, g_bytes_equal, (GDestroyNotify)g_bytes_unref, NULL),
    };
    uint32_t most = bound(&search);
    bool done = finish(&search, most);
    while (!done && search.tries < TRIES_MOST)
        done = finish(&search, ++most);
    if (!done)
        step_by_step(&search);
    if (shortest)
        *shortest = done;
    g_hash_table_unref(search.failed);
    g_free(search.at);
    g_free(search.most);
    g_free(search.times);
    return search.row;
}
