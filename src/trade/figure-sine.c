#include "trade/figure-build.h"
#include "trade/gauge-blocks.h"

#include <math.h>
#include <string.h>

static bool read_set(const FigureRequest *request, GaugeSet *set, Error *error)
{
    const char *named = request_text(request, "set");
    const char *length = request_text(request, "length");
    bool inches = request->unit == UNIT_INCH || strstr(length, "in") || strchr(length, '"');
    *set = inches ? GAUGE_INCH_81 : GAUGE_METRIC_47;
    if (!named)
        return true;
    *set = !strcmp(named, "inch") ? GAUGE_INCH_81 : GAUGE_METRIC_47;
    return *set == GAUGE_INCH_81 || !strcmp(named, "metric") ||
           error_set(error, ERROR_TYPED, "--set", "say inch or metric");
}

bool figure_of_sine(const FigureRequest *request, Figure *figure, Error *error)
{
    Length length = 0;
    double angle = 0;
    GaugeSet set;
    if (!request_length(request, "length", true, &length, error) ||
        !request_angle(request, "angle", true, &angle, error) || !read_set(request, &set, error))
        return false;
    if (angle < 0 || angle > 60)
        return error_set(error, ERROR_LIMIT, "--angle",
                         "a sine bar is used from 0 to 60 degrees; set up the other angle");
    Length height = length_from_mm(length_to_mm(length) * sin(angle * M_PI / 180));
    GaugeStack stack;
    if (!gauge_stack(height, set, &stack, error))
        return false;
    char blocks[FIGURE_TEXT_SIZE];
    gauge_stack_text(&stack, set, blocks, sizeof blocks);
    figure_put_length(figure, "stack", height);
    figure_put_text(figure, "blocks", blocks);
    figure_put_number(figure, "block_count", FIGURE_NUMBER, (double)stack.count);
    figure_put_length(figure, "blocks_height", stack.height);
    figure_put_length(figure, "residual", stack.residual);
    double reached = length ? fmin((double)stack.height / (double)length, 1) : 0;
    figure_put_number(figure, "angle_reached", FIGURE_ANGLE, asin(reached) * 180 / M_PI);
    figure_put_text(figure, "set", gauge_set_text(set));
    figure->formula = N_("stack = length sin(angle)");
    figure->source = N_("plane geometry; fewest blocks of the set, each used once");
    return true;
}
