/* pinplate picture: a plate's layout or a part as a PNG, for thumbnails. */
#include "command/drawing-job.h"
#include "command/part-picture.h"
#include "command/subcommands.h"
#include "drawing/build.h"
#include "drawing/png.h"
#include "trade/typed.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define USAGE "picture P.plate|N.platepart --to F.png [--size N]"

/* Room round the stock, and how many millimetres of sheet the picture has: the lines' widths are
 * right for a picture looked at as large as a hand. */
#define MARGIN 6.0
#define SHEET 120.0

static double largest_side(const Settings *settings)
{
    return length_to_mm(MAX(settings->stock.length, settings->stock.width));
}

/* As the desktop tells the two apart: by the ending, or by the format that is said near the start.
 */
static bool is_part(const char *file)
{
    char start[80] = "";
    if (g_str_has_suffix(file, ".platepart") || g_str_has_suffix(file, ".plate"))
        return g_str_has_suffix(file, ".platepart");
    FILE *stream = fopen(file, "rb");
    if (stream) {
        start[fread(start, 1, sizeof start - 1, stream)] = 0;
        fclose(stream);
    }
    return strstr(start, "\"" PART_FORMAT "\"") != NULL;
}

static bool write_picture(const Drawing *drawing, int size, const char *to, Error *error)
{
    return png_write(drawing, 0, size / SHEET, &play_style_print, (Colour){1, 1, 1, 1}, to, error);
}

static bool draw_plate(const char *file, int size, const char *to, Error *error)
{
    DrawingJob job;
    if (!drawing_job_open(file, &job, error))
        return false;
    double scale = (SHEET - 2 * MARGIN) / largest_side(plate_settings(session_plate(job.session)));
    drawing_build_layout(job.drawing, &job.source, scale, MARGIN);
    bool done = write_picture(job.drawing, size, to, error);
    drawing_job_close(&job);
    return done;
}

static bool draw_part(const char *file, int size, const char *to, Error *error)
{
    Record *record = part_read(file, error);
    Lettering *lettering = record ? lettering_new(error) : NULL;
    Drawing *drawing = lettering ? drawing_new(lettering) : NULL;
    bool done = drawing && part_picture_draw(drawing, &record->part, SHEET, MARGIN, error) &&
                write_picture(drawing, size, to, error);
    drawing_free(drawing);
    lettering_unref(lettering);
    record_unref(record);
    return done;
}

int picture_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
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
    const char *file = arguments.positions[0];
    bool done =
        is_part(file) ? draw_part(file, size, to, error) : draw_plate(file, size, to, error);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
