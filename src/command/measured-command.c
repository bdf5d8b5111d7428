/* pinplate measured: a plate as measured against the plate as drawn; or a plate made of a table. */
#include "command/drawing-job.h"
#include "command/named.h"
#include "command/subcommands.h"
#include "drawing/deviation-sheet.h"
#include "exchange/measured-csv.h"

#include <json-c/json.h>
#include <math.h>
#include <stdio.h>

#define USAGE                                                                   \
    "measured P.plate TABLE.csv [--unit in|mm] [--face NAME] [--from-below] "   \
    "[--tolerance T] [--reach R] [--to F.pdf|F.svg [--sheet a4]] [--json], or " \
    "measured TABLE.csv --to P.plate --thickness T [--length L] [--width W] "   \
    "[--margin M] [--unit in|mm]"

typedef struct Job {
    Arguments arguments;
    Unit unit;
    MeasuredTable table;
} Job;

static bool read_unit(Job *job, Unit usual, Error *error)
{
    const char *typed = arguments_value(&job->arguments, "unit");
    job->unit = !typed ? usual : g_str_equal(typed, "in") ? UNIT_INCH : UNIT_MM;
    return !typed || g_str_equal(typed, "in") || g_str_equal(typed, "mm") ||
           error_set(error, ERROR_TYPED, "--unit", "say in or mm");
}

/* --- a plate of a table --------------------------------------------------------------------- */

static bool read_wanted(const Job *job, MeasuredPlate *wanted, Error *error)
{
    *wanted = (MeasuredPlate){.unit = job->unit == UNIT_MM ? PLATE_MM : PLATE_INCH};
    if (!arguments_length(&job->arguments, "thickness", job->unit, &wanted->thickness, error) ||
        !arguments_length(&job->arguments, "length", job->unit, &wanted->length, error) ||
        !arguments_length(&job->arguments, "width", job->unit, &wanted->width, error) ||
        !arguments_length(&job->arguments, "margin", job->unit, &wanted->margin, error))
        return false;
    if (wanted->thickness <= 0)
        return error_set(error, ERROR_TYPED, "--thickness", "say how thick the plate is");
    if (!arguments_value(&job->arguments, "margin"))
        wanted->margin = 15 * LENGTH_MM;
    return wanted->margin >= 0 ||
           error_set(error, ERROR_TYPED, "--margin", "a margin is 0 or more");
}

static int make_plate(Job *job, const char *to, Error *error)
{
    MeasuredPlate wanted;
    if (!arguments_need(&job->arguments, 1, USAGE, error) || !read_unit(job, UNIT_MM, error) ||
        !read_wanted(job, &wanted, error) ||
        !measured_csv_load(job->arguments.positions[0], job->unit, &job->table, error))
        return COMMAND_FAILED;
    Plate *plate = measured_plate_new(&job->table, &wanted, error);
    if (!plate) {
        error_set_file(error, job->arguments.positions[0]);
        return COMMAND_FAILED;
    }
    bool saved = plate_save(plate, to, NULL, error);
    plate_free(plate);
    if (saved)
        printf("%u made holes\n", job->table.points->len);
    return saved ? COMMAND_FINE : COMMAND_FAILED;
}

/* --- words ---------------------------------------------------------------------------------- */

static const char *hole_label(const Session *session, FeatureId hole)
{
    const Record *record = plate_find(session_plate(session), hole);
    const char *label = record ? record_label(record) : NULL;
    return label ? label : "?";
}

static const char *text_of(double mm, Unit unit, char text[LENGTH_PEOPLE_TEXT])
{
    length_text(length_from_mm(mm), unit, text);
    return text;
}

static bool is_out(const MeasuredRow *row)
{
    return fmin(row->squares_used, row->greatest_used) > 1;
}

static void print_row(const Session *session, const MeasuredPoint *point, const MeasuredRow *row)
{
    char dx[LENGTH_PEOPLE_TEXT], dy[LENGTH_PEOPLE_TEXT], off[LENGTH_PEOPLE_TEXT];
    char name[80];
    Unit unit = session_unit(session);
    if (point->label)
        g_snprintf(name, sizeof name, "%s", point->label);
    else
        g_snprintf(name, sizeof name, "line %ld", point->line);
    if (!row->hole) {
        printf("%-10s no hole of the plate is there\n", name);
        return;
    }
    printf("%-10s is %-6s %9s %9s  %4.0f %%  %4.0f %%", name, hole_label(session, row->hole),
           text_of(row->squares.x, unit, dx), text_of(row->squares.y, unit, dy),
           100 * row->squares_used, 100 * row->greatest_used);
    if (!isnan(row->diameter_off))
        printf("  diameter %s", text_of(row->diameter_off, unit, off));
    printf("%s%s\n", is_out(row) ? "  OUT OF TOLERANCE" : "",
           row->outlier ? ", left out of the fits" : "");
}

static void print_fit(const char *name, const RigidFit *fit, Unit unit)
{
    char rms[LENGTH_PEOPLE_TEXT], greatest[LENGTH_PEOPLE_TEXT];
    printf("%s: root mean square %s, greatest %s %s\n", name, text_of(fit->rms, unit, rms),
           text_of(fit->greatest, unit, greatest), unit_name(unit));
}

static void print_lines(const Session *session, const MeasuredTable *table,
                        const Measured *measured)
{
    Unit unit = session_unit(session);
    printf("point      hole      off in x  off in y  position tolerance used: by least squares, by "
           "least greatest deviation\n");
    for (guint i = 0; i < measured->rows->len; i++)
        print_row(session, &g_array_index(table->points, MeasuredPoint, i),
                  &g_array_index(measured->rows, MeasuredRow, i));
    print_fit("least squares", &measured->squares, unit);
    print_fit("least greatest deviation", &measured->greatest, unit);
    printf("%u of %u points are holes of the plate, %u out of tolerance, %u left out of the fits; "
           "%u holes were not measured\n",
           measured->matched, table->points->len, measured->out_of_tolerance, measured->outliers,
           measured->missing->len);
}

/* --- JSON ----------------------------------------------------------------------------------- */

static json_object *mm_json(double mm)
{
    char text[LENGTH_TEXT];
    Length length = length_from_mm(mm);
    millionths_write(length, text);
    return json_object_new_double_s(length_to_mm(length), text);
}

/* Shares and degrees, to a millionth. */
static json_object *figure_json(double value)
{
    char text[LENGTH_TEXT];
    millionths_write(llround(value * 1e6), text);
    return json_object_new_double_s(value, text);
}

static json_object *pair_json(Point p)
{
    json_object *pair = json_object_new_array();
    json_object_array_add(pair, mm_json(p.x));
    json_object_array_add(pair, mm_json(p.y));
    return pair;
}

static json_object *row_json(const Session *session, const MeasuredPoint *point,
                             const MeasuredRow *row)
{
    json_object *json = json_object_new_object();
    json_object_object_add(json, "line", json_object_new_int64(point->line));
    json_object_object_add(json, "label",
                           point->label ? json_object_new_string(point->label) : NULL);
    json_object_object_add(
        json, "hole", row->hole ? json_object_new_string(hole_label(session, row->hole)) : NULL);
    if (!row->hole)
        return json;
    json_object_object_add(json, "id", json_object_new_int64(row->hole));
    json_object_object_add(json, "drawn", pair_json(row->drawn));
    json_object_object_add(json, "squares", pair_json(row->squares));
    json_object_object_add(json, "greatest", pair_json(row->greatest));
    json_object_object_add(json, "tolerance", mm_json(row->tolerance));
    json_object_object_add(json, "squares_used", figure_json(row->squares_used));
    json_object_object_add(json, "greatest_used", figure_json(row->greatest_used));
    json_object_object_add(json, "diameter_off",
                           isnan(row->diameter_off) ? NULL : mm_json(row->diameter_off));
    json_object_object_add(json, "out_of_tolerance", json_object_new_boolean(is_out(row)));
    json_object_object_add(json, "outlier", json_object_new_boolean(row->outlier));
    json_object_object_add(json, "label_differs", json_object_new_boolean(row->label_differs));
    return json;
}

static json_object *fit_json(const RigidFit *fit)
{
    json_object *json = json_object_new_object();
    double degrees = atan2(fit->pose.sine, fit->pose.cosine) * (180 / M_PI);
    json_object_object_add(json, "at", pair_json((Point){fit->pose.x, fit->pose.y}));
    json_object_object_add(json, "rotation", figure_json(degrees));
    json_object_object_add(json, "rms", mm_json(fit->rms));
    json_object_object_add(json, "greatest", mm_json(fit->greatest));
    return json;
}

static void print_json(const Session *session, const MeasuredTable *table, const Measured *measured)
{
    json_object *json = json_object_new_object(), *rows = json_object_new_array();
    json_object *missing = json_object_new_array();
    for (guint i = 0; i < measured->rows->len; i++)
        json_object_array_add(rows,
                              row_json(session, &g_array_index(table->points, MeasuredPoint, i),
                                       &g_array_index(measured->rows, MeasuredRow, i)));
    for (guint i = 0; i < measured->missing->len; i++)
        json_object_array_add(
            missing, json_object_new_string(
                         hole_label(session, g_array_index(measured->missing, FeatureId, i))));
    json_object_object_add(json, "points", rows);
    json_object_object_add(json, "squares", fit_json(&measured->squares));
    json_object_object_add(json, "greatest", fit_json(&measured->greatest));
    json_object_object_add(json, "matched", json_object_new_int64(measured->matched));
    json_object_object_add(json, "out_of_tolerance",
                           json_object_new_int64(measured->out_of_tolerance));
    json_object_object_add(json, "outliers", json_object_new_int64(measured->outliers));
    json_object_object_add(json, "missing", missing);
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

/* --- comparing ------------------------------------------------------------------------------ */

static bool read_options(const Job *job, const Session *session, MeasuredOptions *options,
                         Error *error)
{
    Length tolerance, reach;
    const Arguments *arguments = &job->arguments;
    const char *face = arguments_value(arguments, "face");
    *options = (MeasuredOptions){.face = ID_TOP};
    if ((face && !face_named(session_plate(session), face, &options->face, error)) ||
        !arguments_length(arguments, "tolerance", job->unit, &tolerance, error) ||
        !arguments_length(arguments, "reach", job->unit, &reach, error))
        return false;
    options->tolerance = length_to_mm(tolerance);
    options->reach = length_to_mm(reach);
    options->turned_over = arguments_flag(arguments, "from-below");
    return true;
}

typedef struct SheetWanted {
    const char *to; /* NULL: none */
    ViewSpec spec;
} SheetWanted;

static bool read_sheet(const Arguments *arguments, SheetWanted *wanted, Error *error)
{
    const char *sheet = arguments_value(arguments, "sheet");
    *wanted = (SheetWanted){.to = NULL};
    if (!arguments_value(arguments, "to"))
        return !sheet || error_set(error, ERROR_TYPED, "--sheet",
                                   "goes with --to, which says where to print");
    wanted->to = arguments_to(arguments, ".pdf .svg", error);
    wanted->spec.choose_sheet = sheet != NULL;
    return wanted->to && (!sheet || sheet_size_read(sheet, &wanted->spec.sheet, error));
}

static int answer(Job *job, const DrawingJob *drawing, const SheetWanted *wanted,
                  const MeasuredOptions *options, const Measured *measured, Error *error)
{
    const Session *session = drawing->session;
    Deviations deviations = {&job->table, measured, options->face};
    if (wanted->to && (!deviation_sheet_build(drawing->drawing, &drawing->source, &deviations,
                                              &wanted->spec, error) ||
                       !drawing_job_write(drawing, wanted->to, error)))
        return COMMAND_FAILED;
    if (arguments_flag(&job->arguments, "json"))
        print_json(session, &job->table, measured);
    else
        print_lines(session, &job->table, measured);
    bool fine = measured->out_of_tolerance == 0 && measured->matched == job->table.points->len;
    return fine ? COMMAND_FINE : COMMAND_NO;
}

static int compare_with(Job *job, const DrawingJob *drawing, const SheetWanted *wanted,
                        Error *error)
{
    MeasuredOptions options;
    Measured measured;
    const Session *session = drawing->session;
    const char *file = job->arguments.positions[1];
    if (!read_unit(job, session_unit(session), error) ||
        !read_options(job, session, &options, error) ||
        !measured_csv_load(file, job->unit, &job->table, error))
        return COMMAND_FAILED;
    if (!measured_compare(&job->table, session_plate(session), session_placed(session), &options,
                          &measured, error)) {
        error_set_file(error, file);
        return COMMAND_FAILED;
    }
    int code = answer(job, drawing, wanted, &options, &measured, error);
    measured_clear(&measured);
    return code;
}

static int compare(Job *job, Error *error)
{
    DrawingJob drawing;
    SheetWanted wanted;
    if (!arguments_need(&job->arguments, 2, USAGE, error) ||
        !read_sheet(&job->arguments, &wanted, error) ||
        !drawing_job_open_for(job->arguments.positions[0], wanted.to != NULL, &drawing, error))
        return COMMAND_FAILED;
    int code = compare_with(job, &drawing, &wanted, error);
    drawing_job_close(&drawing);
    return code;
}

int measured_command(int argc, char **argv, Error *error)
{
    Job job = {.unit = UNIT_MM};
    int code = COMMAND_FAILED;
    if (!arguments_read(argc, argv, "json from-below",
                        "to sheet unit face tolerance reach thickness length width margin",
                        &job.arguments, error))
        return COMMAND_FAILED;
    /* With a table alone a plate is made of it. */
    if (job.arguments.position_count < 2 && arguments_value(&job.arguments, "to")) {
        const char *to = arguments_to(&job.arguments, ".plate", error);
        code = to ? make_plate(&job, to, error) : COMMAND_FAILED;
    } else {
        code = compare(&job, error);
    }
    measured_table_clear(&job.table);
    return code;
}
