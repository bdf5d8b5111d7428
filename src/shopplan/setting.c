#include "shopplan/setting.h"

#include "shopplan/path.h"
#include "shopplan/tool-order.h"

#include <string.h>

/* A job with how much of it is done. */
typedef struct Progress {
    const PlanJob *job;
    uint32_t done;
} Progress;

static guint sequence_hash(const void *data)
{
    const ToolSequence *sequence = data;
    guint hash = sequence->count;
    for (uint32_t i = 0; i < sequence->count; i++)
        hash = hash * 31 + sequence->tools[i];
    return hash;
}

static gboolean sequence_equal(const void *a, const void *b)
{
    const ToolSequence *first = a, *second = b;
    return first->count == second->count &&
           memcmp(first->tools, second->tools, first->count * sizeof *first->tools) == 0;
}

/* Each job's tools; jobs alike share a sequence, since they are served together. */
static GArray *row_of_tools(PlanJob *const *jobs, uint32_t count, uint32_t tool_count, bool *fewest)
{
    uint32_t *tools = g_new(uint32_t, (size_t)count * JOB_STEPS_MOST + 1);
    ToolSequence *all = g_new(ToolSequence, count + 1);
    GHashTable *seen = g_hash_table_new(sequence_hash, sequence_equal);
    uint32_t kept = 0;
    for (uint32_t i = 0; i < count; i++) {
        uint32_t *own = tools + (size_t)kept * JOB_STEPS_MOST;
        for (uint32_t s = 0; s < jobs[i]->count; s++)
            own[s] = jobs[i]->steps[s].tool;
        all[kept] = (ToolSequence){own, jobs[i]->count};
        if (!g_hash_table_contains(seen, &all[kept]))
            g_hash_table_add(seen, &all[kept++]);
    }
    GArray *row = tool_order(all, kept, tool_count, fewest);
    g_hash_table_unref(seen);
    g_free(all);
    g_free(tools);
    return row;
}

/* Takes all that the job now does with the tool, one after the other. */
static void take_steps(Setting *setting, Progress *progress, uint32_t tool)
{
    const PlanJob *job = progress->job;
    while (progress->done < job->count && job->steps[progress->done].tool == tool)
        setting->steps[setting->step_count++] = job->steps[progress->done++];
}

static Point place_of(const Progress *progress)
{
    return progress->job->steps[0].at;
}

/* The jobs that wait for each tool, as indices among all. */
typedef struct Waiting {
    Setting *setting;
    Progress *all;
    GArray **by_tool; /* uint32_t */
    Point at;         /* where the way has come to */
} Waiting;

/* A hole is close-tolerance with all its steps. */
static bool is_close(const Progress *progress)
{
    return progress->job->steps[0].close;
}

/* Puts a job to those that wait for its next tool. */
static void wait_on(Waiting *waiting, uint32_t index)
{
    const Progress *progress = &waiting->all[index];
    if (progress->done < progress->job->count)
        g_array_append_val(waiting->by_tool[progress->job->steps[progress->done].tool], index);
}

static int by_index(const void *a, const void *b)
{
    uint32_t first = *(const uint32_t *)a, second = *(const uint32_t *)b;
    return (first > second) - (first < second);
}

/* The lot's share of what waits for the tool, by a short way from where the last one ended. */
static void take_lot(Waiting *waiting, const GArray *jobs, uint32_t tool, bool close)
{
    GArray *lot = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    for (guint i = 0; i < jobs->len; i++) {
        uint32_t index = g_array_index(jobs, uint32_t, i);
        if (is_close(&waiting->all[index]) == close)
            g_array_append_val(lot, index);
    }
    Point *points = g_new(Point, lot->len + 1);
    uint32_t *order = g_new(uint32_t, lot->len + 1);
    for (guint i = 0; i < lot->len; i++)
        points[i] = place_of(&waiting->all[g_array_index(lot, uint32_t, i)]);
    waiting->setting->way += path_order(waiting->at, points, lot->len, order);
    for (guint i = 0; i < lot->len; i++)
        take_steps(waiting->setting, &waiting->all[g_array_index(lot, uint32_t, order[i])], tool);
    if (lot->len > 0)
        waiting->at = points[order[lot->len - 1]];
    g_free(points);
    g_free(order);
    g_array_unref(lot);
}

static void use_tool(Waiting *waiting, uint32_t tool)
{
    GArray *jobs = waiting->by_tool[tool];
    waiting->by_tool[tool] = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    g_array_sort(jobs, by_index);
    take_lot(waiting, jobs, tool, true);
    take_lot(waiting, jobs, tool, false);
    for (guint i = 0; i < jobs->len; i++)
        wait_on(waiting, g_array_index(jobs, uint32_t, i));
    g_array_unref(jobs);
}

static uint32_t count_different(const GArray *row, uint32_t tool_count)
{
    uint32_t different = 0;
    bool *seen = g_new0(bool, tool_count + 1);
    for (guint i = 0; i < row->len; i++) {
        uint32_t tool = g_array_index(row, uint32_t, i);
        different += !seen[tool];
        seen[tool] = true;
    }
    g_free(seen);
    return different;
}

void setting_arrange(Setting *setting, PlanJob *const *jobs, uint32_t count, uint32_t tool_count,
                     Point start)
{
    GArray *row = row_of_tools(jobs, count, tool_count, &setting->fewest);
    Progress *all = g_new(Progress, count + 1);
    uint32_t steps = 0;
    for (uint32_t i = 0; i < count; i++) {
        all[i] = (Progress){jobs[i], 0};
        steps += jobs[i]->count;
        setting->close_count += jobs[i]->steps[0].close;
    }
    setting->steps = g_new0(PlanStep, steps + 1);
    Waiting waiting = {setting, all, g_new(GArray *, tool_count + 1), start};
    for (uint32_t tool = 0; tool < tool_count; tool++)
        waiting.by_tool[tool] = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    for (uint32_t i = 0; i < count; i++)
        wait_on(&waiting, i);
    for (guint i = 0; i < row->len; i++)
        use_tool(&waiting, g_array_index(row, uint32_t, i));
    for (uint32_t tool = 0; tool < tool_count; tool++)
        g_array_unref(waiting.by_tool[tool]);
    g_free(waiting.by_tool);
    setting->changes = row->len > 0 ? row->len - 1 : 0;
    setting->tool_count = count_different(row, tool_count);
    g_free(all);
    g_array_unref(row);
}
