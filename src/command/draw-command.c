/* pinplate draw: the plate's drawing, as PDF or SVG. */
#include "command/drawing-job.h"
#include "command/subcommands.h"
#include "drawing/build.h"
#include "drawing/pdf.h"
#include "drawing/svg.h"

#include <json-c/json.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define USAGE "draw P.plate --to F.pdf|F.svg [--sheet a4] [--scale 1:1] [--no-table] [--json]"

/* "1:2", "2:1" or "0.5". */
static bool read_scale(const char *text, double *scale, Error *error)
{
    char *end;
    double paper = g_ascii_strtod(text, &end), plate = 1;
    if (end != text && *end == ':')
        plate = g_ascii_strtod(end + 1, &end);
    bool good = end != text && *end == 0 && paper > 0 && plate > 0 && isfinite(paper / plate);
    if (!good || paper / plate > 100 || paper / plate < 0.001)
        return error_set(error, ERROR_TYPED, "--scale", "\"%.40s\" is no scale; say it as 1:2",
                         text);
    *scale = paper / plate;
    return true;
}

static bool read_spec(const Arguments *arguments, ViewSpec *spec, Error *error)
{
    const char *sheet = arguments_value(arguments, "sheet");
    const char *scale = arguments_value(arguments, "scale");
    *spec = (ViewSpec){.hide_table = arguments_flag(arguments, "no-table")};
    if (sheet) {
        spec->choose_sheet = true;
        if (!sheet_size_read(sheet, &spec->sheet, error))
            return false;
    }
    return !scale || read_scale(scale, &spec->scale, error);
}

static bool write_drawing(const Drawing *drawing, const char *to, Error *error)
{
    char *lower = g_ascii_strdown(to, -1);
    bool svg = g_str_has_suffix(lower, ".svg"), pdf = g_str_has_suffix(lower, ".pdf");
    g_free(lower);
    if (!svg && !pdf)
        return error_set(error, ERROR_TYPED, "--to",
                         "a drawing is written as a file that ends in .pdf or .svg");
    return svg ? svg_write(drawing, to, error) : pdf_write(drawing, to, error);
}

static void print_answer(const Drawing *drawing, const char *to)
{
    json_object *json = json_object_new_object();
    json_object_object_add(json, "file", json_object_new_string(to));
    json_object_object_add(json, "sheets", json_object_new_int64((int64_t)drawing->sheet_count));
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

int draw_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    ViewSpec spec;
    if (!arguments_read(argc, argv, "json no-table", "to sheet scale", &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error) || !read_spec(&arguments, &spec, error))
        return COMMAND_FAILED;
    const char *to = arguments_value(&arguments, "to");
    if (!to) {
        error_set(error, ERROR_TYPED, "--to", "say where to write: pinplate " USAGE);
        return COMMAND_FAILED;
    }
    DrawingJob job;
    if (!drawing_job_open(arguments.positions[0], &job, error))
        return COMMAND_FAILED;
    bool done = drawing_build(job.drawing, &job.source, &spec, error) &&
                write_drawing(job.drawing, to, error);
    if (done && arguments_flag(&arguments, "json"))
        print_answer(job.drawing, to);
    drawing_job_close(&job);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
