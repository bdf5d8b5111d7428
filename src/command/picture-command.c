/* pinplate picture: a plate's layout or a part as a PNG, for thumbnails. */
#include "checks/rule.h"
#include "command/coloured-svg.h"
#include "command/drawing-job.h"
#include "command/finding-picture.h"
#include "command/part-picture.h"
#include "command/subcommands.h"
#include "drawing/build.h"
#include "drawing/png.h"
#include "trade/typed.h"

#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define USAGE "picture P.plate|N.platepart --to F.png|F.svg [--size N] [--finding RULE]"

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

/* The thumbnails are PNG; pages take SVG. */
static bool write_picture(const Drawing *drawing, int size, const char *to, Error *error)
{
    if (g_str_has_suffix(to, ".svg"))
        return coloured_svg_write(drawing, to, error);
    return png_write(drawing, 0, size / SHEET, &play_style_print, (Colour){1, 1, 1, 1}, to, error);
}

static bool draw_layout(DrawingJob *job, int size, const char *to, Error *error)
{
    double scale = (SHEET - 2 * MARGIN) / largest_side(plate_settings(session_plate(job->session)));
    drawing_build_layout(job->drawing, &job->source, scale, MARGIN);
    return write_picture(job->drawing, size, to, error);
}

/* One of the rule's findings; NULL: the layout. */
static bool draw_plate(const char *file, const char *slug, int size, const char *to, Error *error)
{
    DrawingJob job;
    const Rule *rule = slug ? rule_by_slug(slug) : NULL;
    if (slug && !rule)
        return error_set(error, ERROR_TYPED, "--finding", "there is no rule \"%s\"", slug);
    if (!drawing_job_open(file, &job, error))
        return false;
    bool done = rule ? finding_picture_draw(job.drawing, job.session, rule, error) &&
                           write_picture(job.drawing, size, to, error)
                     : draw_layout(&job, size, to, error);
    if (rule && !done)
        error_set_file(error, file);
    drawing_job_close(&job);
    return done;
}

/* A picture for each rule that the plate has a finding of, RULE.svg in the folder. */
static bool draw_findings(const char *file, const char *folder, Error *error)
{
    DrawingJob job;
    if (!drawing_job_open(file, &job, error))
        return false;
    bool done = true;
    for (int i = 0; done && i < rule_count(); i++) {
        const Rule *rule = rule_at(i);
        char *name = g_strconcat(rule->slug, ".svg", NULL);
        char *to = g_build_filename(folder, name, NULL);
        if (finding_picture_draw(job.drawing, job.session, rule, NULL))
            done = coloured_svg_write(job.drawing, to, error);
        g_free(name);
        g_free(to);
    }
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
    if (!arguments_read(argc, argv, "", "to size finding findings", &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error))
        return COMMAND_FAILED;
    const char *file = arguments.positions[0];
    const char *folder = arguments_value(&arguments, "findings");
    if (folder)
        return draw_findings(file, folder, error) ? COMMAND_FINE : COMMAND_FAILED;
    const char *to = arguments_to(&arguments, ".png .svg", error);
    const char *typed = arguments_value(&arguments, "size");
    const char *rule = arguments_value(&arguments, "finding");
    if (!to)
        return COMMAND_FAILED;
    if (typed && !typed_count_read(typed, 16, 8192, &size, error))
        return COMMAND_FAILED;
    bool done = is_part(file) && !rule ? draw_part(file, size, to, error)
                                       : draw_plate(file, rule, size, to, error);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
