/* The figures of bevels and their setting up: bevel, sine, cusp. */
#include "trade/bevel.h"
#include "trade/figure-build.h"
#include "trade/gauge-blocks.h"

#include <glib.h>
#include <math.h>
#include <string.h>

typedef struct BevelLengths {
    Length thickness, edge, height, width, cutter, corner, ball, cusp, limit, beyond;
} BevelLengths;

static bool read_lengths(const FigureRequest *request, BevelLengths *read, Error *error)
{
    return request_length(request, "thickness", true, &read->thickness, error) &&
           request_length(request, "edge", true, &read->edge, error) &&
           request_length(request, "height", false, &read->height, error) &&
           request_length(request, "width", false, &read->width, error) &&
           request_length(request, "cutter", false, &read->cutter, error) &&
           request_length(request, "corner", false, &read->corner, error) &&
           request_length(request, "ball", false, &read->ball, error) &&
           request_length(request, "cusp", false, &read->cusp, error) &&
           request_length(request, "limit", false, &read->limit, error) &&
           request_length(request, "beyond", false, &read->beyond, error);
}

static bool read_bevel(const FigureRequest *request, const BevelLengths *read, Bevel *bevel,
                       Error *error)
{
    *bevel = (Bevel){length_to_mm(read->thickness), length_to_mm(read->edge), 0, 2};
    if (!request_count(request, "sides", false, 1, 2, &bevel->sides, error) ||
        !request_angle(request, "angle", false, &bevel->angle, error))
        return false;
    if (read->edge >= read->thickness)
        return error_set(error, ERROR_LIMIT, "--edge", "the edge must be thinner than the blade");
    bool angle_given = request_text(request, "angle") != NULL;
    if (angle_given == (read->height > 0))
        return error_set(error, ERROR_TYPED, NULL, "give --angle or --height, one of them");
    if (!angle_given)
        bevel->angle =
            bevel_angle(bevel->thickness, bevel->edge, bevel->sides, length_to_mm(read->height));
    return (bevel->angle > 0.01 && bevel->angle < 45) ||
           error_set(error, ERROR_LIMIT, NULL,
                     "a bevel's angle must be more than 0.01 and less than 45 degrees");
}

static bool put_asked(const BevelLengths *read, const Bevel *bevel, Figure *figure, Error *error)
{
    double height = bevel_height(bevel);
    if (read->width) {
        double width = length_to_mm(read->width);
        figure_put_number(figure, "share_of_width", FIGURE_NUMBER, height / width);
        figure_put_text(figure, "runs_out", height > width ? "yes" : "no");
        figure_put_mm(figure, "face_rise", bevel_face_rise(width, bevel->angle));
    }
    if (read->cutter) {
        if (2 * read->corner > read->cutter)
            return error_set(error, ERROR_LIMIT, "--corner",
                             "the corner's radius can be no more than half the cutter");
        double depth =
            (bevel->thickness - bevel->edge) / bevel->sides * cos(bevel->angle * M_PI / 180);
        figure_put_mm(
            figure, "plunge_offset",
            bevel_plunge_offset(length_to_mm(read->cutter), length_to_mm(read->corner), depth));
    }
    if (read->ball && read->cusp) {
        if (2 * read->cusp > read->ball)
            return error_set(error, ERROR_LIMIT, "--cusp",
                             "the cusp must be smaller than the ball's radius");
        figure_put_mm(figure, "path_spacing",
                      cusp_step(length_to_mm(read->ball), length_to_mm(read->cusp)));
    }
    if (read->limit)
        figure_put_mm(figure, "height_change",
                      bevel_height_for_thicker(length_to_mm(read->limit), bevel->angle));
    if (read->beyond)
        figure_put_mm(figure, "edge_beyond", bevel_edge_beyond(bevel, length_to_mm(read->beyond)));
    return true;
}

bool figure_of_bevel(const FigureRequest *request, Figure *figure, Error *error)
{
    BevelLengths read = {0};
    Bevel bevel;
    if (!read_lengths(request, &read, error) || !read_bevel(request, &read, &bevel, error))
        return false;
    figure_input_length(figure, "thickness", read.thickness);
    figure_input_length(figure, "edge", read.edge);
    figure_input_number(figure, "sides", FIGURE_NUMBER, bevel.sides);
    figure_put_number(figure, "angle", FIGURE_ANGLE, bevel.angle);
    figure_put_mm(figure, "height", bevel_height(&bevel));
    figure_put_number(figure, "included_angle", FIGURE_ANGLE, bevel.sides * bevel.angle);
    figure_put_number(figure, "support_angle", FIGURE_ANGLE, bevel_support_angle(bevel.angle));
    figure_put_mm(figure, "gap_under_edge", bevel_gap_under_edge(&bevel));
    figure->formula = "height = (thickness - edge) / (sides tan(angle)); thicker stock: change / "
                      "tan(angle); support at twice the angle";
    figure->source = "plane geometry";
    return put_asked(&read, &bevel, figure, error);
}

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
    figure_input_length(figure, "length", length);
    figure_input_number(figure, "angle", FIGURE_ANGLE, angle);
    figure_put_length(figure, "stack", height);
    figure_put_text(figure, "blocks", blocks);
    figure_put_number(figure, "block_count", FIGURE_NUMBER, (double)stack.count);
    figure_put_length(figure, "blocks_height", stack.height);
    figure_put_length(figure, "residual", stack.residual);
    double reached = length ? fmin((double)stack.height / (double)length, 1) : 0;
    figure_put_number(figure, "angle_reached", FIGURE_ANGLE, asin(reached) * 180 / M_PI);
    figure_put_text(figure, "set", gauge_set_text(set));
    figure->formula = "stack = length sin(angle)";
    figure->source = "plane geometry; fewest blocks of the set, each used once";
    return true;
}

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
    figure_input_length(figure, "cutter", cutter);
    double diameter = length_to_mm(cutter);
    if (step) {
        figure_put_mm(figure, "cusp", cusp_height(diameter, length_to_mm(step)));
        figure_put_length(figure, "step", step);
    } else {
        figure_put_length(figure, "cusp", cusp);
        figure_put_mm(figure, "step", cusp_step(diameter, length_to_mm(cusp)));
    }
    figure->formula = "cusp = R - sqrt(R^2 - step^2 / 4)";
    figure->source = "plane geometry";
    return true;
}
