#include "trade/bevel.h"
#include "trade/figure-build.h"

#include <math.h>

typedef struct BevelLengths {
    Length thickness, edge, height, width, cutter, corner, ball, cusp, thicker, beyond;
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
           request_length(request, "thicker", false, &read->thicker, error) &&
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
    if (read->thicker)
        figure_put_mm(figure, "height_change",
                      bevel_height_for_thicker(length_to_mm(read->thicker), bevel->angle));
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
    figure_put_number(figure, "angle", FIGURE_ANGLE, bevel.angle);
    figure_put_mm(figure, "height", bevel_height(&bevel));
    figure_put_number(figure, "included_angle", FIGURE_ANGLE, bevel.sides * bevel.angle);
    figure_put_number(figure, "support_angle", FIGURE_ANGLE, bevel_support_angle(bevel.angle));
    figure_put_mm(figure, "gap_under_edge", bevel_gap_under_edge(&bevel));
    figure->formula =
        N_("height = (thickness - edge) / (sides tan(angle)); thicker stock: change / "
           "tan(angle); support at twice the angle");
    figure->source = N_("plane geometry");
    return put_asked(&read, &bevel, figure, error);
}
