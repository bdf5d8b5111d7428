/* The figures of threads: thread, tap, engagement. */
#include "trade/drill.h"
#include "trade/engagement.h"
#include "trade/figure-build.h"
#include "trade/tap.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <glib.h>
#include <math.h>

static const Thread *thread_asked(const FigureRequest *request, Figure *figure, Error *error)
{
    if (!request->size) {
        error_set(error, ERROR_MISSING, NULL, "a thread is missing; say %s",
                  figure_usage(request->what));
        return NULL;
    }
    const Thread *thread = thread_find(request->size, error);
    if (!thread)
        return NULL;
    char name[40];
    thread_text(thread, name, sizeof name);
    figure_input_text(figure, "thread", name);
    return thread;
}

static void put_limits(Figure *figure, const ThreadLimits *limits)
{
    figure_put_text(figure, "external_class", limits->external_class);
    figure_put_length(figure, "allowance", limits->allowance);
    figure_put_length(figure, "external_major_greatest", limits->external_major_greatest);
    figure_put_length(figure, "external_major_least", limits->external_major_least);
    figure_put_length(figure, "external_pitch_greatest", limits->external_pitch_greatest);
    figure_put_length(figure, "external_pitch_least", limits->external_pitch_least);
    figure_put_text(figure, "internal_class", limits->internal_class);
    figure_put_length(figure, "internal_pitch_greatest", limits->internal_pitch_greatest);
    figure_put_length(figure, "internal_pitch_least", limits->internal_pitch_least);
    figure_put_length(figure, "internal_minor_greatest", limits->internal_minor_greatest);
    figure_put_length(figure, "internal_minor_least", limits->internal_minor_least);
}

/* A name that is no drill of the list (1.25mm) is still a length. */
static bool drill_or_length(const char *name, Unit unit, Length *diameter, Error *error)
{
    const Drill *drill = drill_find(name, NULL);
    if (drill) {
        *diameter = drill->diameter;
        return true;
    }
    return typed_length_read(name, unit, diameter, NULL, 0, error);
}

bool figure_of_thread(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = thread_asked(request, figure, error);
    ThreadLimits limits;
    if (!thread || !thread_limits(thread, &limits, error))
        return false;
    figure_put_length(figure, "major", thread->major);
    figure_put_mm(figure, "pitch", thread_pitch(thread));
    if (!thread_is_metric(thread))
        figure_put_number(figure, "threads_per_inch", FIGURE_NUMBER, thread->threads_per_inch);
    figure_put_number(figure, "tensile_area", FIGURE_AREA, thread_tensile_area(thread));
    Length diameter;
    if (thread->tap_drill && drill_or_length(thread->tap_drill, UNIT_MM, &diameter, NULL)) {
        figure_put_length(figure, "tap_drill", diameter);
        figure_put_text(figure, "tap_drill_name", thread->tap_drill);
        figure_put_number(figure, "per_cent_thread", FIGURE_NUMBER,
                          thread_per_cent(thread, length_to_mm(diameter)));
    }
    put_limits(figure, &limits);
    figure->formula = thread_is_metric(thread)
                          ? "d2 = d - 0.64952 P; D1 = d - 1.08253 P; area 0.7854 (d - 0.9382 P)^2; "
                            "per cent (d - hole) / (1.299 P)"
                          : "E = D - 0.64952 P; K = D - 1.08253 P; tolerance 0.0015 D^1/3 + 0.0015 "
                            "D^1/2 + 0.015 P^2/3, 2B 1.3 times, allowance 0.3 times; area 0.7854 "
                            "(D - 0.9743/n)^2; per cent (D - hole) n / 0.01299";
    figure->source = thread_is_metric(thread) ? "ISO 965-1, ISO 898-1; tap drill ISO 2306"
                                              : "ASME B1.1; tap drill common practice";
    return true;
}

static bool read_series(const char *text, DrillSet *set, Error *error)
{
    static const char *const names[DRILL_SERIES_COUNT] = {"number", "letter", "fraction", "metric"};
    *set = DRILL_SET_ALL;
    for (int i = 0; text && i < DRILL_SERIES_COUNT; i++)
        if (!g_strcmp0(text, names[i]))
            *set = DRILL_SET(i);
    return !text || *set != DRILL_SET_ALL ||
           error_set(error, ERROR_TYPED, "--series", "say number, letter, fraction or metric");
}

static void put_drill(Figure *figure, const char *name, const char *size, const Drill *drill)
{
    if (!drill)
        return;
    char text[80];
    drill_text(drill, text, sizeof text);
    figure_put_text(figure, name, text);
    figure_put_length(figure, size, drill->diameter);
}

/* A name answers with that drill, a length with its neighbours; both with both. */
bool figure_of_drill(const FigureRequest *request, Figure *figure, Error *error)
{
    DrillSet set;
    if (!request->size)
        return error_set(error, ERROR_MISSING, NULL, "a drill is missing; say %s",
                         figure_usage(request->what));
    if (!read_series(request_text(request, "series"), &set, error))
        return false;
    Length wanted;
    Error unnamed = {0};
    const Drill *drill = drill_find(request->size, &unnamed);
    if (drill)
        wanted = drill->diameter;
    else if (!typed_length_read(request->size, request->unit, &wanted, NULL, 0, error))
        return error_set(error, ERROR_MISSING, NULL, "%s", unnamed.message);
    figure_input_text(figure, "drill", request->size);
    if (drill)
        put_drill(figure, "drill", "diameter", drill);
    else
        put_drill(figure, "nearest", "diameter", drill_nearest(wanted, set));
    put_drill(figure, "at_or_below", "at_or_below_diameter",
              drill_at_or_below(wanted - (drill != NULL), set));
    put_drill(figure, "at_or_above", "at_or_above_diameter",
              drill_at_or_above(wanted + (drill != NULL), set));
    if (drill || drill_nearest(wanted, set)) {
        double size = length_to_mm((drill ? drill : drill_nearest(wanted, set))->diameter);
        figure_put_mm(figure, "point_118", drill_point_length(size, 118));
        figure_put_mm(figure, "point_135", drill_point_length(size, 135));
    }
    figure->formula = "point D / (2 tan(angle / 2))";
    figure->source = drill ? drill->source : "ASME B94.11M, ISO 235";
    return true;
}

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
    const char *asked = request_text(request, "per-cent");
    if (!request_number(request, "per-cent", false, 10, 100, &per_cent, error))
        return false;
    if (!asked && !form && thread->tap_drill &&
        drill_or_length(thread->tap_drill, UNIT_MM, hole, NULL))
        return true;
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
    figure_input_length(figure, "thread_depth", depth);
    figure_input_text(figure, "kind", tap_kind_name(kind));
    figure_put_mm(figure, "drill_depth", drilled);
    figure_put_mm(figure, "drill_depth_to_point",
                  drilled + drill_point_length(length_to_mm(hole), 118));
    return true;
}

bool figure_of_tap(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = thread_asked(request, figure, error);
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
        form ? "hole = D - 0.68 P per cent / 100 (D - 0.0068 per cent / n in)"
             : "hole = D - 1.299 P per cent / 100 (D - 0.01299 per cent / n in); drill "
               "depth = thread + (chamfer + 1) P + centre";
    figure->source = "handbook formulas; drill common practice; chamfers ASME B94.9";
    return true;
}

/* Tensile strength N/mm2 of alloy steel socket screws: property class 12.9 (ISO 898-1) for metric
 * ones, 180,000 lbf/in2 (ASTM A574, to 1/2 in) for inch ones. */
static double usual_strength(const Thread *thread)
{
    return thread_is_metric(thread) ? 1220 : 1240;
}

static bool put_failure(const FigureRequest *request, const Engagement *needed,
                        const Material *plate, double strength, Figure *figure, Error *error)
{
    Length length = 0;
    if (!request_length(request, "length", false, &length, error))
        return false;
    if (!length)
        return true;
    const char *what;
    double force = engagement_failure(needed, plate, strength, length_to_mm(length), &what);
    figure_input_length(figure, "length", length);
    figure_put_number(figure, "failure_force", FIGURE_FORCE, force);
    figure_put_text(figure, "fails_by", what);
    return true;
}

bool figure_of_engagement(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = thread_asked(request, figure, error);
    if (!thread)
        return false;
    const char *grade = request_text(request, "plate");
    const Material *plate = material_find(grade ? grade : "6061-T6", error);
    double strength = usual_strength(thread);
    Engagement needed;
    if (!plate || !request_number(request, "strength", false, 50, 3000, &strength, error) ||
        !engagement_needed(thread, plate, strength, &needed, error))
        return false;
    figure_input_text(figure, "plate", plate->name);
    figure_input_number(figure, "screw_strength", FIGURE_STRESS, strength);
    figure_input_number(figure, "plate_shear_strength", FIGURE_STRESS, plate->shear_strength);
    figure_put_mm(figure, "engagement_by_rule", needed.by_rule);
    figure_put_mm(figure, "engagement_screw_thread", needed.screw_strips);
    figure_put_mm(figure, "engagement_plate_thread", needed.plate_strips);
    figure_put_mm(figure, "engagement_by_strength", fmax(needed.screw_strips, needed.plate_strips));
    figure_put_number(figure, "shear_area_screw", FIGURE_AREA, needed.external_area);
    figure_put_number(figure, "shear_area_plate", FIGURE_AREA, needed.internal_area);
    figure_put_number(figure, "break_force", FIGURE_FORCE, needed.break_force);
    figure->formula =
        "shear areas a mm: screw pi n Kn (1/2n + 0.57735 (Es - Kn)), plate pi n Ds "
        "(1/2n + 0.57735 (Ds - En)); length = tensile area x strength / (area x shear)";
    figure->source = "FED-STD-H28/2; rule of thumb 1 D in steel, 1.5 D in aluminium, 2 D in "
                     "polymers, common practice, no source";
    return put_failure(request, &needed, plate, strength, figure, error);
}
