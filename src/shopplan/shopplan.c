#include "shopplan/shopplan.h"

#include "shopplan/corner.h"
#include "shopplan/depth.h"
#include "shopplan/setting.h"

#include <string.h>

/* The one spot drill for all spots that the plate does not state. */
#define SPOT_DRILL_MM (6 * LENGTH_MM)
#define SPOT_DRILL_INCH (LENGTH_INCH / 4)
/* A cutter thinner than this (mm) is worth a word: the corners could be relieved instead. */
#define THIN_CUTTER 2.0

typedef struct Builder {
    const Plate *plate;
    const Placed *placed;
    GPtrArray *tools;  /* Tool *, unsorted, each once */
    GHashTable *known; /* the same tools: index among them */
    GArray *jobs;      /* PlanJob */
    GPtrArray *remarks;
    Length spot_drill;
} Builder;

const char *shopplan_name(const Record *record, char text[NAME_TEXT])
{
    const char *label = record ? record_label(record) : NULL;
    if (label && *label)
        g_strlcpy(text, label, NAME_TEXT);
    else
        g_snprintf(text, NAME_TEXT, "%s %u", record ? record_kind_key(record->kind) : "feature",
                   record ? record->id : 0);
    return text;
}

static void remark(Builder *builder, const char *format, ...) G_GNUC_PRINTF(2, 3);
static void remark(Builder *builder, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    g_ptr_array_add(builder->remarks, g_strdup_vprintf(format, arguments));
    va_end(arguments);
}

static const char *said(const Builder *builder, double mm, char text[NAME_TEXT])
{
    char number[NAME_TEXT];
    bool inch = plate_settings(builder->plate)->unit == PLATE_INCH;
    g_ascii_formatd(number, sizeof number, inch ? "%.4f" : "%.3f", inch ? mm / 25.4 : mm);
    g_snprintf(text, NAME_TEXT, "%s %s", number, inch ? "in" : "mm");
    return text;
}

Point shopplan_datum(const Plate *plate, FeatureId face)
{
    if (face != ID_TOP)
        return (Point){0, 0};
    Place datum = plate_datum(plate);
    return (Point){length_to_mm(datum.x), length_to_mm(datum.y)};
}

/* --- tools ---------------------------------------------------------------------------------- */

static guint tool_hash(const void *data)
{
    const Tool *tool = data;
    gint64 figures[] = {tool->kind, tool->diameter, tool->point,
                        tool->tap,  tool->upper,    tool->lower};
    guint hash = tool->thread ? g_str_hash(tool->thread) : 0;
    for (size_t i = 0; i < G_N_ELEMENTS(figures); i++)
        hash = hash * 31 + g_int64_hash(&figures[i]);
    return hash;
}

static gboolean tool_equal(const void *a, const void *b)
{
    return tool_compare(a, b) == 0;
}

/* Takes the tool over and returns its index among those found so far. */
static uint32_t find_tool(Builder *builder, Tool tool)
{
    void *found;
    if (g_hash_table_lookup_extended(builder->known, &tool, NULL, &found)) {
        Tool *known = builder->tools->pdata[GPOINTER_TO_UINT(found)];
        known->only_tap_drill = known->only_tap_drill && tool.only_tap_drill;
        known->reach = MAX(known->reach, tool.reach);
        tool_clear(&tool);
        return GPOINTER_TO_UINT(found);
    }
    Tool *kept = g_new(Tool, 1);
    *kept = tool;
    g_ptr_array_add(builder->tools, kept);
    g_hash_table_insert(builder->known, kept, GUINT_TO_POINTER(builder->tools->len - 1));
    return builder->tools->len - 1;
}

static int tool_kind_of(int step_kind)
{
    static const int kinds[] = {
        [STEP_SPOT] = TOOL_SPOT_DRILL,
        [STEP_DRILL] = TOOL_DRILL,
        [STEP_COUNTERBORE] = TOOL_COUNTERBORE,
        [STEP_COUNTERSINK] = TOOL_COUNTERSINK,
        [STEP_REAM] = TOOL_REAMER,
        [STEP_TAP] = TOOL_TAP,
        [STEP_BORE] = TOOL_BORING_BAR,
    };
    return kinds[step_kind];
}

/* Whether the hole is tapped next after this step, so that the drill is a tap drill there. */
static bool is_tapped_next(const Hole *hole, uint32_t i)
{
    for (i++; i < hole->steps.count; i++) {
        int kind = LIST_AT(&hole->steps, Step, i)->kind;
        if (kind == STEP_TAP)
            return true;
        if (kind != STEP_COUNTERSINK && kind != STEP_COUNTERBORE)
            return false;
    }
    return false;
}

static Tool tool_of(const Hole *hole, uint32_t i, const ToolDepth *depth)
{
    const Step *step = LIST_AT(&hole->steps, Step, i);
    Tool tool = {.kind = tool_kind_of(step->kind),
                 .diameter = step->diameter,
                 .point = depth->point,
                 .reach = depth->tip};
    if (step->kind == STEP_TAP) {
        tool.thread = g_strdup(step->thread);
        tool.tap = depth->tap;
        tool.pitch = depth->pitch;
    }
    if (step->kind == STEP_REAM || step->kind == STEP_BORE) {
        tool.upper = step->upper;
        tool.lower = step->lower;
    }
    tool.only_tap_drill = step->kind == STEP_DRILL && is_tapped_next(hole, i);
    return tool;
}

/* --- holes ---------------------------------------------------------------------------------- */

static void remark_on_step(Builder *builder, const Record *record, const Step *step,
                           const ToolDepth *depth, double wanted)
{
    char name[NAME_TEXT], missing[NAME_TEXT], whole[NAME_TEXT];
    shopplan_name(record, name);
    if (step->kind == STEP_TAP && depth->pitch <= 0)
        remark(builder, "%s: the thread %s is in no table, so the tap's lead is a guess", name,
               step->thread ? step->thread : "is not named and");
    if (depth->missing > 1e-6)
        remark(builder,
               "%s: the drilled hole is too shallow for the %s by %s; drill deeper, or take less "
               "than %s",
               name, step->kind == STEP_TAP ? "tap and its lead" : "reamer and its lead",
               said(builder, depth->missing, missing), said(builder, wanted, whole));
}

static void add_spot(Builder *builder, PlanJob *job, const Record *record,
                     const DepthContext *context)
{
    const Hole *hole = &record->hole;
    Length least = LIST_AT(&hole->steps, Step, 0)->diameter;
    for (uint32_t i = 0; i < hole->steps.count; i++)
        least = MIN(least, LIST_AT(&hole->steps, Step, i)->diameter);
    ToolDepth depth = spot_depth(length_to_mm(least), length_to_mm(builder->spot_drill), context);
    Tool tool = {.kind = TOOL_SPOT_DRILL,
                 .diameter = builder->spot_drill,
                 .point = depth.point,
                 .reach = depth.tip};
    job->steps[job->count++] =
        (PlanStep){.hole_step = -1, .tool = find_tool(builder, tool), .tip = depth.tip};
}

static bool has_spot(const Hole *hole)
{
    for (uint32_t i = 0; i < hole->steps.count; i++)
        if (LIST_AT(&hole->steps, Step, i)->kind == STEP_SPOT)
            return true;
    return false;
}

static void add_step(Builder *builder, PlanJob *job, const Record *record, uint32_t i,
                     DepthContext *context)
{
    const Step *step = LIST_AT(&record->hole.steps, Step, i);
    ToolDepth depth = tool_depth(step, context);
    job->steps[job->count++] =
        (PlanStep){.hole_step = (int32_t)i,
                   .tool = find_tool(builder, tool_of(&record->hole, i, &depth)),
                   .tip = depth.tip,
                   .full = depth.full,
                   .peck = depth.peck,
                   .through = depth.through};
    remark_on_step(builder, record, step, &depth,
                   depth.through ? context->metal : length_to_mm(step->depth));
    if (step->kind == STEP_DRILL || step->kind == STEP_BORE || step->kind == STEP_COUNTERBORE) {
        context->drilled = fmax(context->drilled, depth.full);
        context->is_through = context->is_through || depth.through;
    }
}

/* The making operation that claims a feature, or ID_NONE. */
static FeatureId maker_of(const Plate *plate, FeatureId operation)
{
    const Record *record = plate_find_kind(plate, operation, RECORD_OPERATION);
    return record && record->operation.kind == OPERATION_MAKING ? operation : ID_NONE;
}

/* True when what `first` makes is there before `second` begins; what no operation claims comes
 * last, and in one setting holes come before recesses. */
static bool comes_before(const Plate *plate, FeatureId first, FeatureId second)
{
    if (!first || first == second)
        return false;
    if (!second)
        return true;
    int32_t a = plate_find(plate, first)->operation.order;
    int32_t b = plate_find(plate, second)->operation.order;
    return a != b ? a < b : first < second;
}

typedef struct StartSearch {
    const Builder *builder;
    FeatureId operation;
    Point at;
    double start;
} StartSearch;

static bool visit_recess(const Feature *feature, void *data)
{
    StartSearch *search = data;
    const Plate *plate = search->builder->plate;
    const Record *record = plate_find_kind(plate, feature->id, RECORD_RECESS);
    if (record && shape_contains(&feature->shape, search->at) &&
        (record->recess.made ||
         comes_before(plate, maker_of(plate, record->recess.operation), search->operation)))
        search->start = fmax(search->start, -feature->bottom);
    return true;
}

/* mm below the face: the floor of what is cut there when the hole is begun. */
static double start_of(const Builder *builder, const Feature *hole, FeatureId operation)
{
    StartSearch search = {builder, operation, feature_at(hole), 0};
    placed_each_near(builder->placed, hole->face, hole->box, visit_recess, &search);
    return search.start;
}

static void add_hole(Builder *builder, const Record *record, const Feature *feature, PlanJob *job)
{
    const Frame *frame = placed_frame(builder->placed, feature->face);
    const Settings *settings = plate_settings(builder->plate);
    double radius = length_to_mm(hole_largest_diameter(&record->hole)) / 2;
    DepthContext context = {
        .metal = metal_below(frame, &settings->stock, feature_at(feature), radius),
        .metal_kind = settings->stock.metal,
    };
    context.start = start_of(builder, feature, job->operation);
    if (context.metal <= context.start) {
        char name[NAME_TEXT];
        remark(builder, "%s: there is no metal where it lies, so it is left out",
               shopplan_name(record, name));
        return;
    }
    if (!has_spot(&record->hole))
        add_spot(builder, job, record, &context);
    for (uint32_t i = 0; i < record->hole.steps.count; i++)
        add_step(builder, job, record, i, &context);
    bool close = hole_is_close(builder->placed, record);
    for (uint32_t i = 0; i < job->count; i++) {
        job->steps[i].close = close;
        job->steps[i].start = context.start;
        job->steps[i].metal = context.metal;
    }
}

/* --- recesses ------------------------------------------------------------------------------- */

static void add_recess(Builder *builder, const Record *record, const Feature *feature, PlanJob *job)
{
    char name[NAME_TEXT], size[NAME_TEXT];
    double cutter = corner_cutter(&feature->shape);
    double depth = -feature->bottom + (feature->through ? BREAKTHROUGH : 0);
    Tool tool = {.kind = TOOL_CUTTER, .diameter = length_from_mm(cutter), .reach = depth};
    job->steps[job->count++] = (PlanStep){.hole_step = -1,
                                          .tool = find_tool(builder, tool),
                                          .tip = depth,
                                          .full = depth,
                                          .through = feature->through};
    if (cutter <= 0)
        remark(builder, "%s: no cutter makes its square inside corners; relieve or round them",
               shopplan_name(record, name));
    else if (cutter < THIN_CUTTER)
        remark(builder, "%s: its corners allow no cutter larger than %s; relieve or round them",
               shopplan_name(record, name), said(builder, cutter, size));
}

/* --- the whole ------------------------------------------------------------------------------ */

static void add_record(Builder *builder, const Record *record)
{
    bool is_hole = record->kind == RECORD_HOLE;
    if ((!is_hole && record->kind != RECORD_RECESS) || record_made(record))
        return;
    const Feature *feature = placed_find(builder->placed, record->id);
    if (!feature)
        return;
    FeatureId operation = is_hole ? record->hole.operation : record->recess.operation;
    PlanJob job = {.operation = maker_of(builder->plate, operation), .face = feature->face};
    if (is_hole)
        add_hole(builder, record, feature, &job);
    else
        add_recess(builder, record, feature, &job);
    for (uint32_t i = 0; i < job.count; i++) {
        job.steps[i].feature = record->id;
        job.steps[i].at = feature_at(feature);
    }
    if (job.count > 0)
        g_array_append_val(builder->jobs, job);
}

typedef struct RankedTool {
    Tool tool;
    uint32_t was;
} RankedTool;

static int by_rank(const void *a, const void *b)
{
    return tool_rank(&((const RankedTool *)a)->tool, &((const RankedTool *)b)->tool);
}

/* Sorts and numbers the tools, and tells the jobs their new places. */
static void number_tools(Builder *builder, Shopplan *plan)
{
    guint count = builder->tools->len;
    RankedTool *ranked = g_new(RankedTool, count + 1);
    uint32_t *place = g_new(uint32_t, count + 1);
    for (guint i = 0; i < count; i++)
        ranked[i] = (RankedTool){*(Tool *)builder->tools->pdata[i], i};
    qsort(ranked, count, sizeof *ranked, by_rank);
    plan->tools = g_new(Tool, count + 1);
    plan->tool_count = count;
    for (guint i = 0; i < count; i++) {
        plan->tools[i] = ranked[i].tool;
        plan->tools[i].number = i + 1;
        place[ranked[i].was] = i;
    }
    for (guint j = 0; j < builder->jobs->len; j++) {
        PlanJob *job = &g_array_index(builder->jobs, PlanJob, j);
        for (uint32_t s = 0; s < job->count; s++)
            job->steps[s].tool = place[job->steps[s].tool];
    }
    g_free(ranked);
    g_free(place);
}

static int by_order(const void *a, const void *b)
{
    const Record *first = *(const Record *const *)a, *second = *(const Record *const *)b;
    int32_t p = first->operation.order, q = second->operation.order;
    return p != q ? (p > q) - (p < q) : (first->id > second->id) - (first->id < second->id);
}

/* The making operations in their order, and last ID_NONE. */
static GArray *makers(const Plate *plate)
{
    GPtrArray *records = g_ptr_array_new();
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_OPERATION && record->operation.kind == OPERATION_MAKING)
            g_ptr_array_add(records, (void *)record);
    }
    g_ptr_array_sort(records, by_order);
    GArray *ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (guint i = 0; i < records->len; i++)
        g_array_append_val(ids, ((const Record *)records->pdata[i])->id);
    FeatureId none = ID_NONE;
    g_array_append_val(ids, none);
    g_ptr_array_unref(records);
    return ids;
}

static gint64 setting_key(FeatureId operation, FeatureId face)
{
    return (gint64)operation << 32 | face;
}

/* The jobs by setting: gint64 *, GPtrArray of PlanJob. */
static GHashTable *sort_jobs(const Builder *builder)
{
    GHashTable *by_setting = g_hash_table_new_full(g_int64_hash, g_int64_equal, g_free,
                                                   (GDestroyNotify)g_ptr_array_unref);
    for (guint i = 0; i < builder->jobs->len; i++) {
        PlanJob *job = &g_array_index(builder->jobs, PlanJob, i);
        gint64 key = setting_key(job->operation, job->face);
        GPtrArray *jobs = g_hash_table_lookup(by_setting, &key);
        if (!jobs) {
            jobs = g_ptr_array_new();
            g_hash_table_insert(by_setting, g_memdup2(&key, sizeof key), jobs);
        }
        g_ptr_array_add(jobs, job);
    }
    return by_setting;
}

static void add_setting(const Builder *builder, GHashTable *by_setting, GArray *settings,
                        FeatureId operation, FeatureId face, uint32_t tool_count)
{
    gint64 key = setting_key(operation, face);
    const GPtrArray *jobs = g_hash_table_lookup(by_setting, &key);
    if (!jobs)
        return;
    Setting setting = {.operation = operation, .face = face};
    setting_arrange(&setting, (PlanJob *const *)jobs->pdata, jobs->len, tool_count,
                    shopplan_datum(builder->plate, face));
    g_array_append_val(settings, setting);
}

/* Close-tolerance holes of one face that are made at more than one setting. */
static void remark_on_close(Builder *builder, const Shopplan *plan, FeatureId face)
{
    uint32_t settings = 0;
    for (uint32_t i = 0; i < plan->setting_count; i++)
        settings += plan->settings[i].face == face && plan->settings[i].close_count > 0;
    const Record *record = plate_find_kind(builder->plate, face, RECORD_FACE);
    if (settings > 1)
        remark(builder,
               "the close-tolerance holes of the face %s are made in %u settings; make them in "
               "one, so that their places don't hang on how well the plate is set up twice",
               record && record->face.name ? record->face.name : "", settings);
}

Shopplan *shopplan_new(const Plate *plate, const Placed *placed)
{
    bool inch = plate_settings(plate)->unit == PLATE_INCH;
    Builder builder = {
        .plate = plate,
        .placed = placed,
        .tools = g_ptr_array_new_with_free_func(g_free),
        .known = g_hash_table_new(tool_hash, tool_equal),
        .jobs = g_array_new(FALSE, FALSE, sizeof(PlanJob)),
        .remarks = g_ptr_array_new_with_free_func(g_free),
        .spot_drill = inch ? SPOT_DRILL_INCH : SPOT_DRILL_MM,
    };
    Shopplan *plan = g_new0(Shopplan, 1);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        add_record(&builder, plate_at(plate, i));
    number_tools(&builder, plan);
    GArray *operations = makers(plate);
    GHashTable *by_setting = sort_jobs(&builder);
    GArray *settings = g_array_new(FALSE, TRUE, sizeof(Setting));
    for (guint o = 0; o < operations->len; o++)
        for (uint32_t f = 0; f < placed_frame_count(placed); f++)
            add_setting(&builder, by_setting, settings, g_array_index(operations, FeatureId, o),
                        placed_frame_at(placed, f)->face, plan->tool_count);
    plan->setting_count = settings->len;
    plan->settings = (Setting *)(void *)g_array_free(settings, FALSE);
    for (uint32_t f = 0; f < placed_frame_count(placed); f++)
        remark_on_close(&builder, plan, placed_frame_at(placed, f)->face);
    plan->remarks = builder.remarks;
    g_hash_table_unref(by_setting);
    g_array_unref(operations);
    g_hash_table_unref(builder.known);
    g_ptr_array_unref(builder.tools);
    g_array_unref(builder.jobs);
    return plan;
}

void shopplan_free(Shopplan *plan)
{
    if (!plan)
        return;
    for (uint32_t i = 0; i < plan->tool_count; i++)
        tool_clear(&plan->tools[i]);
    for (uint32_t i = 0; i < plan->setting_count; i++)
        g_free(plan->settings[i].steps);
    g_free(plan->tools);
    g_free(plan->settings);
    g_ptr_array_unref(plan->remarks);
    g_free(plan);
}

const Setting *shopplan_setting(const Shopplan *plan, FeatureId operation, FeatureId face)
{
    for (uint32_t i = 0; i < plan->setting_count; i++)
        if (plan->settings[i].operation == operation && plan->settings[i].face == face)
            return &plan->settings[i];
    return NULL;
}
