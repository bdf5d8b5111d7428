/* pinplate picture: the layout as a PNG, for thumbnails. */
#include "command/drawing-job.h"
#include "command/subcommands.h"
#include "drawing/build.h"
#include "drawing/png.h"
#include "trade/typed.h"

#include <math.h>

#define USAGE "picture P.plate --to F.png [--size N]"

/* Room round the stock, and how many millimetres of sheet the picture has: the lines' widths are
 * right for a picture looked at as large as a hand. */
#define MARGIN 6.0
#define SHEET 120.0

static double largest_side(const Settings *settings)
{
    return length_to_mm(MAX(settings->stock.length, settings->stock.width));
}

int picture_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    DrawingJob job;
    int size = 512;
    if (!arguments_read(argc, argv, "", "to size", &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error))
        return COMMAND_FAILED;
    const char *to = arguments_to(&arguments, ".png", error);
    const char *typed = arguments_value(&arguments, "size");
    if (!to)
        return COMMAND_FAILED;
    if (typed && !typed_count_read(typed, 16, 8192, &size, error))
        return COMMAND_FAILED;
    if (!drawing_job_open(arguments.positions[0], &job, error))
        return COMMAND_FAILED;
    double scale = (SHEET - 2 * MARGIN) / largest_side(plate_settings(session_plate(job.session)));
    drawing_build_layout(job.drawing, &job.source, scale, MARGIN);
    bool done =
        png_write(job.drawing, 0, size / SHEET, &play_style_print, (Colour){1, 1, 1, 1}, to, error);
    drawing_job_close(&job);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
