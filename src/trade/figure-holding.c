#include "trade/figure-build.h"
#include "trade/holding.h"

typedef struct HoldingAsked {
    double friction, factor, torque, force;
    int screws;
    const Thread *screw;
} HoldingAsked;

static bool read_cut(const FigureRequest *request, MillingCut *cut, Error *error)
{
    Length diameter = 0, width = 0, depth = 0, feed = 0;
    cut->teeth = 4;
    if (!request_length(request, "cutter", true, &diameter, error) ||
        !request_length(request, "width", true, &width, error) ||
        !request_length(request, "depth", true, &depth, error) ||
        !request_length(request, "feed", true, &feed, error) ||
        !request_count(request, "teeth", false, 1, 40, &cut->teeth, error))
        return false;
    cut->diameter = length_to_mm(diameter);
    cut->width = length_to_mm(width);
    cut->depth = length_to_mm(depth);
    cut->feed = length_to_mm(feed);
    return (diameter > 0 && width > 0 && width <= diameter && depth > 0 && feed > 0) ||
           error_set(error, ERROR_LIMIT, NULL,
                     "cutter, width, depth and feed must be more than 0 and the width no more than "
                     "the cutter");
}

static bool read_hold(const FigureRequest *request, HoldingAsked *asked, Error *error)
{
    *asked = (HoldingAsked){HOLDING_FRICTION, HOLDING_FACTOR, 0, 0, 2, NULL};
    if (!request_number(request, "friction", false, 0.01, 1, &asked->friction, error) ||
        !request_number(request, "factor", false, 1, 10, &asked->factor, error) ||
        !request_number(request, "force", false, 0, 1e6, &asked->force, error) ||
        !request_number(request, "torque", false, 0, 1000, &asked->torque, error) ||
        !request_count(request, "screws", false, 1, 100, &asked->screws, error))
        return false;
    const char *screw = request_text(request, "screw");
    if (!screw)
        return true;
    asked->screw = thread_find(screw, error);
    figure_input_text(request->figure, "screw", screw);
    return asked->screw && (asked->torque > 0 || error_set(error, ERROR_MISSING, NULL,
                                                           "with --screw say its --torque in Nm"));
}

static bool put_deflection(const FigureRequest *request, const Material *material, double force,
                           Figure *figure, Error *error)
{
    Length overhang = 0, edge = 0, strip = 0;
    if (!request_length(request, "overhang", false, &overhang, error))
        return false;
    if (!overhang)
        return true;
    if (!request_length(request, "edge", true, &edge, error) ||
        !request_length(request, "strip", true, &strip, error))
        return false;
    if (!edge || !strip)
        return error_set(error, ERROR_LIMIT, NULL, "--edge and --strip must be more than 0");
    double bent = edge_deflection(material, force, length_to_mm(overhang), length_to_mm(edge),
                                  length_to_mm(strip));
    if (bent > length_to_mm(overhang))
        figure_put_text(figure, "deflection", "more than the overhang: it breaks or folds");
    else
        figure_put_mm(figure, "deflection", bent);
    return true;
}

bool figure_of_holding(const FigureRequest *request, Figure *figure, Error *error)
{
    const Material *material = request_material(request, "material", NULL, error);
    MillingCut cut;
    HoldingAsked asked;
    if (!material || !read_cut(request, &cut, error) || !read_hold(request, &asked, error))
        return false;
    CuttingForce force;
    cutting_force(material, &cut, &force);
    double clamping = asked.force;
    if (asked.screw)
        clamping += asked.screws * screw_preload(asked.torque, length_to_mm(asked.screw->major));
    double hold = friction_hold(clamping, asked.friction, 2);
    figure_put_mm(figure, "chip_thickness", force.chip);
    figure_put_number(figure, "specific_cutting_force", FIGURE_STRESS, force.specific_force);
    figure_put_number(figure, "cutting_force", FIGURE_FORCE, force.force);
    figure_put_number(figure, "clamping_force", FIGURE_FORCE, clamping);
    figure_put_number(figure, "holding_force", FIGURE_FORCE, hold);
    figure_put_number(figure, "clamping_needed", FIGURE_FORCE,
                      force.force * asked.factor / (2 * asked.friction));
    figure_put_number(figure, "factor_reached", FIGURE_NUMBER, hold / force.force);
    figure_put_text(figure, "holds", hold >= asked.factor * force.force ? "yes" : "no");
    figure->formula =
        N_("chip 2 fz sqrt(ae/D (1 - ae/D)); force kc h^-m ap h teeth engaged; preload "
           "torque / (0.2 d); hold 2 faces x friction x clamping; strip F L^3 (1 - 0.3^2) "
           "/ (3 E I)");
    figure->source =
        N_("handbook formulas; friction 0.1 and factor 2.5 common practice; estimates, not "
           "measurements");
    return put_deflection(request, material, force.force, figure, error);
}
