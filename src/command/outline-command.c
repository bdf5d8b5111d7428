/* pinplate outline: an outline read in as a part. */
#include "command/subcommands.h"
#include "exchange/outline-csv.h"
#include "exchange/outline-svg.h"
#include "plate/plate-file.h"

#include <json-c/json.h>
#include <stdio.h>
#include <string.h>

#define USAGE                                                                         \
    "outline F.svg|F.csv --to F.platepart [--thickness T] [--name N] [--material M] " \
    "[--width W] [--height H] [--unit in|mm] [--json]"

static bool read_unit(const Arguments *arguments, Unit *unit, Error *error)
{
    const char *typed = arguments_value(arguments, "unit");
    *unit = UNIT_MM;
    if (!typed || g_str_equal(typed, "mm"))
        return true;
    *unit = UNIT_INCH;
    return g_str_equal(typed, "in") || error_set(error, ERROR_TYPED, "--unit", "say in or mm");
}

static bool load(const char *file, const OutlineOptions *options, OutlineRead *read, Error *error)
{
    char *lower = g_ascii_strdown(file, -1);
    bool csv = g_str_has_suffix(lower, ".csv") || g_str_has_suffix(lower, ".txt");
    g_free(lower);
    bool done = csv ? outline_csv_load(file, options, read, error)
                    : outline_svg_load(file, options, read, error);
    if (!done)
        error_set_file(error, file);
    return done;
}

static char *name_of(const Arguments *arguments, const char *file)
{
    const char *given = arguments_value(arguments, "name");
    if (given)
        return g_strdup(given);
    char *base = g_path_get_basename(file);
    char *dot = strrchr(base, '.');
    if (dot && dot != base)
        *dot = 0;
    return base;
}

static void print_size(const OutlineRead *read)
{
    char wide[LENGTH_PEOPLE_TEXT], high[LENGTH_PEOPLE_TEXT];
    length_text_both(read->width, UNIT_MM, wide);
    length_text_both(read->height, UNIT_MM, high);
    printf("the outline is %s wide and %s high, with %u round holes and %u openings\n", wide, high,
           read->holes->len, read->starts->len > 2 ? read->starts->len - 2 : 0);
    for (guint i = 0; i < read->notes->len; i++)
        printf("note: %s\n", (const char *)read->notes->pdata[i]);
}

static json_object *length_json(Length length)
{
    char text[LENGTH_TEXT];
    millionths_write(length, text);
    return json_object_new_double_s(length_to_mm(length), text);
}

static void print_json(const OutlineRead *read)
{
    json_object *json = json_object_new_object(), *notes = json_object_new_array();
    json_object_object_add(json, "width", length_json(read->width));
    json_object_object_add(json, "height", length_json(read->height));
    json_object_object_add(json, "holes", json_object_new_int64(read->holes->len));
    json_object_object_add(
        json, "openings", json_object_new_int64(read->starts->len > 2 ? read->starts->len - 2 : 0));
    for (guint i = 0; i < read->notes->len; i++)
        json_object_array_add(notes, json_object_new_string(read->notes->pdata[i]));
    json_object_object_add(json, "notes", notes);
    puts(json_object_to_json_string_ext(json, JSON_C_TO_STRING_PRETTY));
    json_object_put(json);
}

static bool write_part(const Arguments *arguments, const OutlineRead *read, Unit unit,
                       const char *to, Error *error)
{
    Record *record = record_new(ID_NONE, RECORD_PART);
    bool done = arguments_length(arguments, "thickness", unit, &record->part.thickness, error) &&
                (record->part.thickness >= 0 ||
                 error_set(error, ERROR_TYPED, "--thickness", "a thickness is more than 0"));
    outline_read_part(read, &record->part);
    record->part.name = name_of(arguments, arguments->positions[0]);
    record->part.material = g_strdup(arguments_value(arguments, "material"));
    done = done && part_save(&record->part, to, error);
    record_unref(record);
    return done;
}

int outline_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    Unit unit;
    Length width, height;
    OutlineRead read;
    if (!arguments_read(argc, argv, "json", "to thickness name material width height unit",
                        &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error) || !read_unit(&arguments, &unit, error) ||
        !arguments_length(&arguments, "width", unit, &width, error) ||
        !arguments_length(&arguments, "height", unit, &height, error))
        return COMMAND_FAILED;
    const char *to = arguments_to(&arguments, ".platepart", error);
    if (!to)
        return COMMAND_FAILED;
    OutlineOptions options = {.known_width = length_to_mm(width),
                              .known_height = length_to_mm(height)};
    if (!load(arguments.positions[0], &options, &read, error))
        return COMMAND_FAILED;
    bool done = write_part(&arguments, &read, unit, to, error);
    if (done && arguments_flag(&arguments, "json"))
        print_json(&read);
    else if (done)
        print_size(&read);
    outline_read_clear(&read);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}
