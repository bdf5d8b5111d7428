/* pinplate rack: which plates of a folder take a part. */
#include "command/subcommands.h"
#include "plate/plate-file.h"
#include "refit/rack.h"

#include <json-c/json.h>
#include <stdio.h>

#define USAGE "rack FOLDER N.platepart [--unit in|mm] [--no-index] [--all] [--json]"

static json_object *row_json(const RackRow *row)
{
    json_object *json = json_object_new_object();
    json_object_object_add(json, "file", json_object_new_string(row->file));
    json_object_object_add(
        json, "verdict",
        json_object_new_string(row->broken ? "broken" : refit_verdict_name(row->verdict)));
    json_object_object_add(json, "new_holes", json_object_new_int(row->new_holes));
    json_object_object_add(json, "positions", json_object_new_int64(row->positions));
    json_object_object_add(json, "opened", json_object_new_boolean(row->opened));
    json_object_object_add(json, "says", json_object_new_string(row->says));
    return json;
}

static void print_json(const RackSearch *search)
{
    json_object *json = json_object_new_object(), *rows = json_object_new_array();
    for (guint i = 0; i < search->rows->len; i++)
        json_object_array_add(rows, row_json(search->rows->pdata[i]));
    json_object_object_add(json, "plates", rows);
    json_object_object_add(json, "opened", json_object_new_int64(search->opened));
    json_object_object_add(json, "indexed", json_object_new_int64(search->reread));
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

static void verdict_text(const RackRow *row, char text[64])
{
    static const char *const texts[] = {"fits as it stands", "fits with one more hole", "",
                                        "does not fit"};
    if (row->broken)
        g_strlcpy(text, "can't be read", 64);
    else if (row->verdict == REFIT_MORE_HOLES)
        g_snprintf(text, 64, "fits with %d more holes", row->new_holes);
    else
        g_strlcpy(text, texts[row->verdict], 64);
}

static guint count_fits(const RackSearch *search)
{
    guint count = 0;
    for (guint i = 0; i < search->rows->len; i++)
        count += ((const RackRow *)search->rows->pdata[i])->verdict != REFIT_NO;
    return count;
}

static void print_lines(const RackSearch *search, bool all)
{
    for (guint i = 0; i < search->rows->len; i++) {
        char text[64];
        const RackRow *row = search->rows->pdata[i];
        verdict_text(row, text);
        if (all || row->broken || row->verdict != REFIT_NO)
            printf("%s: %s: %s\n", row->file, text, row->says);
    }
    printf("%u plates, %u fit; %u were opened to be searched, %u were new to the index\n",
           search->rows->len, count_fits(search), search->opened, search->reread);
}

static bool read_unit(const Arguments *arguments, Unit *unit, Error *error)
{
    const char *typed = arguments_value(arguments, "unit");
    *unit = typed && g_str_equal(typed, "in") ? UNIT_INCH : UNIT_MM;
    return !typed || g_str_equal(typed, "in") || g_str_equal(typed, "mm") ||
           error_set(error, ERROR_TYPED, "--unit", "say in or mm");
}

int rack_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    RackOptions options = {.unit = UNIT_MM};
    if (!arguments_read(argc, argv, "json all no-index", "unit", &arguments, error) ||
        !arguments_need(&arguments, 2, USAGE, error) ||
        !read_unit(&arguments, &options.unit, error))
        return COMMAND_FAILED;
    options.without_index = arguments_flag(&arguments, "no-index");
    Record *part = part_read(arguments.positions[1], error);
    RackSearch *search =
        part ? rack_search(arguments.positions[0], &part->part, &options, error) : NULL;
    record_unref(part);
    if (!search)
        return COMMAND_FAILED;
    if (arguments_flag(&arguments, "json"))
        print_json(search);
    else
        print_lines(search, arguments_flag(&arguments, "all"));
    bool fits = count_fits(search) > 0;
    rack_search_free(search);
    return fits ? COMMAND_FINE : COMMAND_NO;
}
