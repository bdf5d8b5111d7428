#include "editor/figures-use.h"

#include "editor/intl.h"
#include "trade/tap.h"
#include "trade/thread.h"

#include <string.h>

/* The only step of a kind; NULL where there are none or several. */
static Step *only_step(Hole *hole, int kind)
{
    Step *found = NULL;
    for (uint32_t i = 0; i < hole->steps.count; i++) {
        Step *step = LIST_AT(&hole->steps, Step, i);
        if (step->kind == kind && found)
            return NULL;
        if (step->kind == kind)
            found = step;
    }
    return found;
}

static bool has_step(const Hole *hole, int kind)
{
    for (uint32_t i = 0; i < hole->steps.count; i++)
        if (LIST_AT(&hole->steps, Step, i)->kind == kind)
            return true;
    return false;
}

static const FigureValue *input(const Figure *figure, const char *name)
{
    for (size_t i = 0; i < figure->input_count; i++)
        if (!strcmp(figure->input[i].name, name))
            return &figure->input[i];
    return NULL;
}

/* --- a thread ----------------------------------------------------------------------------------
 */

static void set_thread(Step *tap, const Thread *thread)
{
    if (tap->thread && thread_find(tap->thread, NULL) == thread)
        return;
    g_free(tap->thread);
    tap->thread = g_strdup(thread->name);
    tap->diameter = thread->major;
}

static void set_depths(const Figure *figure, Step *drill, Step *tap)
{
    static const int ends[TAP_KIND_COUNT] = {[TAP_PLUG] = STEP_TAP_PLUG,
                                             [TAP_BOTTOMING] = STEP_TAP_BOTTOMING,
                                             [TAP_SPIRAL_FLUTE] = STEP_TAP_SPIRAL_FLUTE};
    const FigureValue *depth = input(figure, "depth"), *kind = input(figure, "kind");
    const FigureValue *drilled = figure_result(figure, "drill_depth");
    TapKind read;
    if (!depth || !drilled || drill->through || tap->through)
        return;
    drill->depth = drilled->length;
    tap->depth = depth->length;
    if (kind && tap_kind_read(kind->text, &read, NULL))
        tap->tap = ends[read];
}

static bool use_thread(const Figure *figure, Hole *hole, FigureUse *use)
{
    const FigureValue *size = figure_result(figure, "tap_drill"), *named = input(figure, "thread");
    const Thread *thread = named ? thread_find(named->text, NULL) : NULL;
    Step *drill = only_step(hole, STEP_DRILL), *tap = only_step(hole, STEP_TAP);
    if (!size || !thread || !drill || !tap || has_step(hole, STEP_REAM))
        return false;
    drill->diameter = size->length;
    set_thread(tap, thread);
    set_depths(figure, drill, tap);
    g_strlcpy(use->name, _("Use a thread's drill"), sizeof use->name);
    g_strlcpy(use->words, _("Use for its drill and tap"), sizeof use->words);
    return true;
}

/* --- a diameter, a fit -------------------------------------------------------------------------
 */

static bool use_drill(const Figure *figure, const char *name, Hole *hole, FigureUse *use)
{
    const FigureValue *size = figure_result(figure, name);
    Step *drill = only_step(hole, STEP_DRILL);
    if (!size || !drill)
        return false;
    drill->diameter = size->length;
    g_strlcpy(use->name, _("Use a drill"), sizeof use->name);
    g_strlcpy(use->words, _("Use for its drill"), sizeof use->words);
    return true;
}

static bool use_fit(const Figure *figure, Hole *hole, FigureUse *use)
{
    const FigureValue *nominal = figure_result(figure, "nominal");
    const FigureValue *greatest = figure_result(figure, "hole_greatest");
    const FigureValue *least = figure_result(figure, "hole_least");
    Step *ream = only_step(hole, STEP_REAM);
    if (!nominal || !greatest || !least || !ream)
        return false;
    ream->diameter = nominal->length;
    ream->upper = greatest->length - nominal->length;
    ream->lower = least->length - nominal->length;
    g_strlcpy(use->name, _("Use a fit's limits"), sizeof use->name);
    g_strlcpy(use->words, _("Use for its reamer"), sizeof use->words);
    return true;
}

FigureUse figures_use(const Figure *figure, const Record *record)
{
    FigureUse use = {0};
    bool found = false;
    if (!record || record->kind != RECORD_HOLE)
        return use;
    Record *after = record_copy(record, record->id);
    Hole *hole = &after->hole;
    if (!strcmp(figure->what, "thread") || !strcmp(figure->what, "tap"))
        found = use_thread(figure, hole, &use) ||
                (!has_step(hole, STEP_TAP) && !has_step(hole, STEP_REAM) &&
                 use_drill(figure, "tap_drill", hole, &use));
    else if (!strcmp(figure->what, "drill"))
        found = use_drill(figure, "diameter", hole, &use);
    else if (!strcmp(figure->what, "fit"))
        found = use_fit(figure, hole, &use);
    if (found)
        use.used = record_equal(record, after) ? USE_SAME
                   : record_made(record)       ? USE_MADE
                   : record_locked(record)     ? USE_LOCKED
                                               : USE_OFFERED;
    if (use.used == USE_OFFERED)
        use.after = after;
    else
        record_unref(after);
    return use;
}

gboolean figures_use_any(const char *what)
{
    static const char *const usable[] = {"thread", "drill", "tap", "fit", NULL};
    return g_strv_contains(usable, what);
}
