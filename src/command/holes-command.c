/* pinplate holes: the hole table as a file for other programs. */
#include "command/drawing-job.h"
#include "command/subcommands.h"
#include "drawing/hole-table.h"
#include "plate/save.h"

#include <json-c/json.h>
#include <stdio.h>
#include <string.h>

#define USAGE "holes P.plate --to F.csv [--json]"

/* A cell in quotes wherever it needs them (RFC 4180). */
static void add_cell(GString *out, const char *text)
{
    if (!text)
        return;
    if (!strpbrk(text, ",\"\r\n")) {
        g_string_append(out, text);
        return;
    }
    g_string_append_c(out, '"');
    for (const char *p = text; *p; p++) {
        if (*p == '"')
            g_string_append_c(out, '"');
        g_string_append_c(out, *p);
    }
    g_string_append_c(out, '"');
}

static Point from_datum(const Session *session, const Feature *feature)
{
    Point at = feature_at(feature);
    Place datum = plate_datum(session_plate(session));
    if (feature->face != ID_TOP)
        return at;
    return (Point){at.x - length_to_mm(datum.x), at.y - length_to_mm(datum.y)};
}

static void millimetres(double mm, char *text)
{
    millionths_write(length_from_mm(mm), text);
}

static void add_step(GString *out, const Step *step)
{
    char diameter[LENGTH_TEXT], depth[LENGTH_TEXT];
    millionths_write(step->diameter, diameter);
    millionths_write(step->depth, depth);
    if (out->len)
        g_string_append(out, "; ");
    g_string_append_printf(out, "%s %s", step_kind_name(step->kind),
                           step->thread ? step->thread : diameter);
    if (step->through)
        g_string_append(out, " through");
    else
        g_string_append_printf(out, " depth %s", depth);
}

static char *steps_text(const Hole *hole)
{
    GString *out = g_string_new(NULL);
    for (uint32_t i = 0; i < hole->steps.count; i++)
        add_step(out, LIST_AT(&hole->steps, Step, i));
    return g_string_free(out, FALSE);
}

typedef struct Row {
    const char *label, *face;
    char x[LENGTH_TEXT], y[LENGTH_TEXT], diameter[LENGTH_TEXT];
    char *steps;
} Row;

static Row row_of(const Session *session, const HoleRow *hole_row)
{
    const Placed *placed = session_placed(session);
    const Feature *feature = placed_find(placed, hole_row->feature);
    const Record *record = placed_record(placed, hole_row->feature);
    Point at = from_datum(session, feature);
    Row row = {.label = hole_row->label,
               .face = record_label(placed_record(placed, feature->face)),
               .steps = steps_text(&record->hole)};
    millimetres(at.x, row.x);
    millimetres(at.y, row.y);
    millionths_write(hole_largest_diameter(&record->hole), row.diameter);
    return row;
}

static void add_csv_row(GString *out, const Row *row)
{
    const char *cells[] = {row->label, row->face, row->x, row->y, row->diameter, row->steps};
    for (size_t i = 0; i < G_N_ELEMENTS(cells); i++) {
        if (i)
            g_string_append_c(out, ',');
        add_cell(out, cells[i]);
    }
    g_string_append(out, "\r\n");
}

static json_object *row_json(const Row *row)
{
    json_object *json = json_object_new_object();
    json_object_object_add(json, "label", json_object_new_string(row->label));
    json_object_object_add(json, "face", json_object_new_string(row->face));
    json_object_object_add(json, "x",
                           json_object_new_double_s(g_ascii_strtod(row->x, NULL), row->x));
    json_object_object_add(json, "y",
                           json_object_new_double_s(g_ascii_strtod(row->y, NULL), row->y));
    json_object_object_add(
        json, "diameter",
        json_object_new_double_s(g_ascii_strtod(row->diameter, NULL), row->diameter));
    json_object_object_add(json, "steps", json_object_new_string(row->steps));
    return json;
}

static void add_face(const DrawingJob *job, FeatureId face, GString *csv, json_object *json)
{
    HoleTable *table = hole_table_new(&job->source, face);
    for (size_t i = 0; i < table->count; i++) {
        if (table->rows[i].kind != FEATURE_HOLE)
            continue;
        Row row = row_of(job->session, &table->rows[i]);
        add_csv_row(csv, &row);
        json_object_array_add(json, row_json(&row));
        g_free(row.steps);
    }
    hole_table_free(table);
}

int holes_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    DrawingJob job;
    if (!arguments_read(argc, argv, "json", "to", &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error))
        return COMMAND_FAILED;
    bool as_json = arguments_flag(&arguments, "json");
    bool writes = !as_json || arguments_value(&arguments, "to");
    const char *to = writes ? arguments_to(&arguments, ".csv", error) : NULL;
    if (writes && !to)
        return COMMAND_FAILED;
    if (!drawing_job_open(arguments.positions[0], &job, error))
        return COMMAND_FAILED;
    GString *csv = g_string_new("label,face,x_mm,y_mm,diameter_mm,steps_mm\r\n");
    json_object *json = json_object_new_object(), *rows = json_object_new_array();
    for (uint32_t i = 0; i < placed_frame_count(job.source.placed); i++)
        add_face(&job, placed_frame_at(job.source.placed, i)->face, csv, rows);
    json_object_object_add(json, "holes", rows);
    bool done = !to || save_bytes(to, csv->str, csv->len, NULL, error);
    if (done && as_json)
        puts(json_object_to_json_string_ext(json, JSON_C_TO_STRING_PRETTY));
    json_object_put(json);
    g_string_free(csv, TRUE);
    drawing_job_close(&job);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
