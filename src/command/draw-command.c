/* pinplate draw: the plate's drawing, as PDF or SVG; or one face's true geometry. */
#include "command/drawing-job.h"
#include "command/named.h"
#include "command/subcommands.h"
#include "drawing/build.h"
#include "drawing/section.h"
#include "exchange/true-geometry.h"
#include "plate/save.h"
#include "trade/typed.h"

#include <json-c/json.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define USAGE                                                                                  \
    "draw P.plate --to F.pdf|F.svg [--sheet a4] [--scale 1:1] [--face NAME] "                  \
    "[--prints drawing,holes,operations,tools,template,findings] [--section x0,y0,x1,y1;..] " \
    "[--both-units] [--chained] [--true-geometry] [--json]"

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

static const struct {
    const char *name;
    Print print;
} print_names[] = {
    {"drawing", PRINT_DRAWING}, {"holes", PRINT_HOLES},       {"operations", PRINT_OPERATIONS},
    {"tools", PRINT_TOOLS},     {"template", PRINT_TEMPLATE}, {"findings", PRINT_FINDINGS},
};

static bool add_print(const char *name, ViewSpec *spec, Error *error)
{
    for (size_t i = 0; i < G_N_ELEMENTS(print_names); i++) {
        if (strcmp(print_names[i].name, name) == 0) {
            spec->prints |= print_names[i].print;
            return true;
        }
    }
    return error_set(error, ERROR_TYPED, "--prints",
                     "\"%.40s\" is no print; say drawing, holes, operations, tools, template "
                     "or findings, or several with commas between",
                     name);
}

/* Which prints; the hole table stands with its drawing. */
static bool read_prints(const char *prints, ViewSpec *spec, Error *error)
{
    char **names = g_strsplit(prints, ",", -1);
    bool good = true;
    for (int i = 0; names[i] && good; i++)
        good = add_print(names[i], spec, error);
    g_strfreev(names);
    if (good && !(spec->prints & PRINT_DRAWING) && (spec->prints & PRINT_HOLES))
        good = error_set(error, ERROR_TYPED, "--prints",
                         "the hole table comes with its drawing; say drawing,holes");
    return good;
}

static bool read_spec(const Arguments *arguments, ViewSpec *spec, Error *error)
{
    const char *prints = arguments_value(arguments, "prints");
    const char *sheet = arguments_value(arguments, "sheet");
    const char *scale = arguments_value(arguments, "scale");
    *spec = (ViewSpec){.both_units = arguments_flag(arguments, "both-units"),
                       .chained = arguments_flag(arguments, "chained")};
    if (prints && !read_prints(prints, spec, error))
        return false;
    if (sheet) {
        spec->choose_sheet = true;
        if (!sheet_size_read(sheet, &spec->sheet, error))
            return false;
    }
    return !scale || read_scale(scale, &spec->scale, error);
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

/* What tool paths are made from: one face at 1:1, with no sheet around it. */
static bool write_true_geometry(const DrawingSource *source, FeatureId face, const char *to,
                                Error *error)
{
    char *text = true_geometry_text(source->plate, source->placed, face, error);
    bool done = text && save_bytes(to, text, strlen(text), NULL, error);
    g_free(text);
    return done;
}

/* The letters that sections go by; A, B and C are datums. */
static const char section_letters[SECTIONS_MOST + 1] = "STUVWX";

/* "x0,y0,x1,y1", counted from the datum; the eye is on the right of the way from the first. */
static bool read_section(const char *text, const DrawingJob *job, char letter, SectionLine *line,
                         Error *error)
{
    Unit unit = session_unit(job->session);
    char **parts = g_strsplit(text, ",", -1);
    Length figures[4];
    bool good = g_strv_length(parts) == 4 ||
                error_set(error, ERROR_TYPED, "--section",
                          "a section is four lengths with commas between, x0,y0,x1,y1");
    for (int i = 0; good && i < 4; i++)
        good = typed_length_read(parts[i], unit, &figures[i], NULL, 0, error);
    g_strfreev(parts);
    if (!good)
        return false;
    Place datum = plate_datum(job->source.plate);
    *line = (SectionLine){{length_to_mm(datum.x + figures[0]), length_to_mm(datum.y + figures[1])},
                          {length_to_mm(datum.x + figures[2]), length_to_mm(datum.y + figures[3])},
                          letter};
    SectionLine clipped = *line;
    return section_clip(&job->source, &clipped) ||
           error_set(error, ERROR_LIMIT, "--section", "the line misses the plate");
}

/* Several have semicolons between. */
static bool read_sections(const char *text, const DrawingJob *job, ViewSpec *spec, Error *error)
{
    char **lines = g_strsplit(text, ";", -1);
    bool good =
        g_strv_length(lines) <= SECTIONS_MOST ||
        error_set(error, ERROR_LIMIT, "--section", "there are %d sections at most", SECTIONS_MOST);
    for (int i = 0; good && lines[i]; i++)
        good = read_section(lines[i], job, section_letters[i], &spec->sections[i], error);
    g_strfreev(lines);
    return good;
}

static bool make(const Arguments *arguments, DrawingJob *job, ViewSpec *spec, const char *to,
                 Error *error)
{
    const char *face = arguments_value(arguments, "face");
    if (face && !face_named(job->source.plate, face, &spec->face, error))
        return false;
    if (arguments_flag(arguments, "true-geometry"))
        return write_true_geometry(&job->source, spec->face ? spec->face : ID_TOP, to, error);
    const char *section = arguments_value(arguments, "section");
    if (section && !read_sections(section, job, spec, error))
        return false;
    if (!drawing_build(job->drawing, &job->source, spec, error) ||
        !drawing_job_write(job, to, error))
        return false;
    if (arguments_flag(arguments, "json"))
        print_answer(job->drawing, to);
    return true;
}

int draw_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    ViewSpec spec;
    if (!arguments_read(argc, argv, "json true-geometry both-units chained",
                        "to sheet scale face section prints", &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error) || !read_spec(&arguments, &spec, error))
        return COMMAND_FAILED;
    bool geometry = arguments_flag(&arguments, "true-geometry");
    const char *to = arguments_to(&arguments, geometry ? ".svg" : ".pdf .svg", error);
    if (!to)
        return COMMAND_FAILED;
    DrawingJob job;
    if (!drawing_job_open(arguments.positions[0], &job, error))
        return COMMAND_FAILED;
    bool done = make(&arguments, &job, &spec, to, error);
    drawing_job_close(&job);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
