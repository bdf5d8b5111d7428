#include "trade/drill.h"
#include "trade/figure-build.h"
#include "trade/tap.h"

static bool tap_hole(const FigureRequest *request, const Thread *thread, bool form, Length *hole,
                     Error *error)
{
    double per_cent = form ? 65 : 75;
    const char *typed = request_text(request, "drill");
    if (typed)
        return drill_or_length(typed, request->unit, hole, error) &&
               (*hole > 0 && *hole < thread->major
                    ? true
                    : error_set(error, ERROR_LIMIT, "--drill",
                                "the hole must be smaller than the thread"));
    if (!request_text(request, "per-cent") && !form && thread->tap_drill &&
        drill_or_length(thread->tap_drill, UNIT_MM, hole, NULL))
        return true;
    if (!request_number(request, "per-cent", false, 10, 100, &per_cent, error))
        return false;
    double wanted =
        form ? thread_hole_for_form(thread, per_cent) : thread_hole_for_cut(thread, per_cent);
    DrillSet set = thread_is_metric(thread) ? DRILL_SET(DRILL_METRIC)
                                            : DRILL_SET_ALL & ~DRILL_SET(DRILL_METRIC);
    const Drill *drill = drill_nearest(length_from_mm(wanted), set);
    *hole = drill ? drill->diameter : length_from_mm(wanted);
    return true;
}

static bool put_depths(const FigureRequest *request, const Thread *thread, Length hole,
                       Figure *figure, Error *error)
{
    Length depth = 0;
    TapKind kind = TAP_PLUG;
    const char *named = request_text(request, "kind");
    if (!request_length(request, "depth", false, &depth, error) ||
        (named && !tap_kind_read(named, &kind, error)))
        return false;
    if (!depth)
        return true;
    double drilled = tap_drill_depth(thread, kind, length_to_mm(depth));
    figure_input_text(figure, "kind", tap_kind_name(kind));
    figure_put_mm(figure, "drill_depth", drilled);
    figure_put_mm(figure, "drill_depth_to_point",
                  drilled + drill_point_length(length_to_mm(hole), 118));
    return true;
}

bool figure_of_tap(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = request_thread(request, error);
    bool form = request_text(request, "form") != NULL;
    Length hole;
    if (!thread || !tap_hole(request, thread, form, &hole, error))
        return false;
    figure_input_text(figure, "tap", form ? "forming" : "cutting");
    double size = length_to_mm(hole);
    char name[80];
    const Drill *drill = drill_nearest(hole, DRILL_SET_ALL);
    figure_put_length(figure, "tap_drill", hole);
    if (drill && drill->diameter == hole) {
        drill_text(drill, name, sizeof name);
        figure_put_text(figure, "tap_drill_name", name);
    }
    figure_put_number(figure, "per_cent_thread", FIGURE_NUMBER,
                      form ? thread_per_cent_formed(thread, size) : thread_per_cent(thread, size));
    if (!put_depths(request, thread, hole, figure, error))
        return false;
    figure->formula =
        form ? N_("hole = D - 0.68 P per cent / 100 (D - 0.0068 per cent / n in)")
             : N_("hole = D - 1.299 P per cent / 100 (D - 0.01299 per cent / n in); drill "
                  "depth = thread + (chamfer + 1) P + centre");
    figure->source = N_("handbook formulas; drill common practice; chamfers ASME B94.9");
    return true;
}
