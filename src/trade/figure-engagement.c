#include "trade/engagement.h"
#include "trade/figure-build.h"

#include <math.h>

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
    figure_put_number(figure, "failure_force", FIGURE_FORCE, force);
    figure_put_text(figure, "fails_by", what);
    return true;
}

bool figure_of_engagement(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = request_thread(request, error);
    if (!thread)
        return false;
    const Material *plate = request_material(request, "plate", "6061-T6", error);
    double strength = usual_strength(thread);
    Engagement needed;
    if (!plate || !request_number(request, "strength", false, 50, 3000, &strength, error) ||
        !engagement_needed(thread, plate, strength, &needed, error))
        return false;
    figure_input_number(figure, "plate_shear_strength", FIGURE_STRESS, plate->shear_strength);
    figure_put_mm(figure, "engagement_by_rule", needed.by_rule);
    figure_put_mm(figure, "engagement_screw_thread", needed.screw_strips);
    figure_put_mm(figure, "engagement_plate_thread", needed.plate_strips);
    figure_put_mm(figure, "engagement_by_strength", fmax(needed.screw_strips, needed.plate_strips));
    figure_put_number(figure, "shear_area_screw", FIGURE_AREA, needed.external_area);
    figure_put_number(figure, "shear_area_plate", FIGURE_AREA, needed.internal_area);
    figure_put_number(figure, "break_force", FIGURE_FORCE, needed.break_force);
    figure->formula =
        N_("shear areas a mm: screw pi n Kn (1/2n + 0.57735 (Es - Kn)), plate pi n Ds "
           "(1/2n + 0.57735 (Ds - En)); length = tensile area x strength / (area x shear)");
    figure->source = N_("FED-STD-H28/2; rule of thumb 1 D in steel, 1.5 D in aluminium, 2 D in "
                        "polymers, common practice, no source");
    return put_failure(request, &needed, plate, strength, figure, error);
}
