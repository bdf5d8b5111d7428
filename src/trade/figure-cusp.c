#include "trade/bevel.h"
#include "trade/figure-build.h"

bool figure_of_cusp(const FigureRequest *request, Figure *figure, Error *error)
{
    Length cutter = 0, step = 0, cusp = 0;
    if (!request_length(request, "cutter", true, &cutter, error) ||
        !request_length(request, "step", false, &step, error) ||
        !request_length(request, "cusp", false, &cusp, error))
        return false;
    if (!cutter || !step == !cusp)
        return error_set(error, ERROR_TYPED, NULL,
                         "give a ball cutter, and --step or --cusp, one of them");
    if (step > cutter || 2 * cusp > cutter)
        return error_set(error, ERROR_LIMIT, NULL,
                         "the step can be no more than the cutter, the cusp no more than its "
                         "radius");
    double diameter = length_to_mm(cutter);
    if (step) {
        figure_put_mm(figure, "cusp", cusp_height(diameter, length_to_mm(step)));
        figure_put_length(figure, "step", step);
    } else {
        figure_put_length(figure, "cusp", cusp);
        figure_put_mm(figure, "step", cusp_step(diameter, length_to_mm(cusp)));
    }
    figure->formula = N_("cusp = R - sqrt(R^2 - step^2 / 4)");
    figure->source = N_("plane geometry");
    return true;
}
