/* pinplate program: a drilling program. */
#include "command/named.h"
#include "command/subcommands.h"
#include "exchange/program.h"
#include "plate/save.h"
#include "session/session.h"

#include <json-c/json.h>
#include <stdio.h>
#include <string.h>

#define USAGE                                                                          \
    "program P.plate --operation NAME --to F.nc --unit-word G71 --offset G54 "         \
    "--length-offset G43 --moves longhand|cycles --feeds machine|F.csv [--face NAME] " \
    "[--safe-height H] [--change-height H] [--tapping] [--line-numbers] [--json]"

/* A table of feeds is a page or two. */
#define FEEDS_BYTES_MOST ((size_t)1 << 20)

static bool read_feeds(const char *value, Unit unit, ProgramOptions *options, Error *error)
{
    if (strcmp(value, "machine") == 0) {
        options->feeds = FEEDS_AT_MACHINE;
        return true;
    }
    size_t size;
    char *text = read_bytes(value, FEEDS_BYTES_MOST, &size, NULL, error);
    bool good = text && program_options_read_feeds(options, text, unit, error);
    if (!good && error)
        error_set_file(error, value);
    g_free(text);
    return good;
}

static bool read_options(const Arguments *arguments, Unit unit, ProgramOptions *options,
                         Error *error)
{
    static const char *const choices[] = {"unit-word", "offset", "length-offset", "moves"};
    *options = (ProgramOptions){.tapping = arguments_flag(arguments, "tapping"),
                                .line_numbers = arguments_flag(arguments, "line-numbers")};
    for (size_t i = 0; i < G_N_ELEMENTS(choices); i++) {
        const char *value = arguments_value(arguments, choices[i]);
        if (value && !program_options_choose(options, choices[i], value, error))
            return false;
    }
    const char *feeds = arguments_value(arguments, "feeds");
    if (feeds && !read_feeds(feeds, unit, options, error))
        return false;
    return arguments_length(arguments, "safe-height", unit, &options->safe_height, error) &&
           arguments_length(arguments, "change-height", unit, &options->change_height, error) &&
           program_options_check(options, error);
}

/* Whether something is made at this operation on this face. */
static bool is_used(const Record *record, FeatureId operation, FeatureId face)
{
    FeatureId own = record->kind == RECORD_HOLE     ? record->hole.operation
                    : record->kind == RECORD_RECESS ? record->recess.operation
                                                    : ID_NONE;
    return own == operation && !record_made(record) && (!face || record_face(record) == face);
}

/* The only face that the operation makes anything on. */
static bool face_of(const Plate *plate, FeatureId operation, FeatureId *face, Error *error)
{
    *face = ID_NONE;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (!is_used(record, operation, ID_NONE))
            continue;
        if (*face && *face != record_face(record))
            return error_set(error, ERROR_TYPED, "--operation",
                             "it makes things on more than one face; say which: --face NAME");
        *face = record_face(record);
    }
    return *face || error_set(error, ERROR_MISSING, "--operation",
                              "nothing is made at this operation: no hole names it");
}

/* A making operation that a hole of the face names, if there is one. */
static const char *maker_on(const Plate *plate, FeatureId face)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_OPERATION || record->operation.kind != OPERATION_MAKING)
            continue;
        for (uint32_t j = 0; j < plate_count(plate); j++)
            if (is_used(plate_at(plate, j), record->id, face))
                return record->operation.name;
    }
    return NULL;
}

static bool choose_setting(const Arguments *arguments, ProgramRequest *request, Error *error)
{
    const char *operation = arguments_value(arguments, "operation");
    const char *face = arguments_value(arguments, "face");
    if (face && !face_named(request->plate, face, &request->face, error))
        return false;
    if (operation) {
        if (!operation_named(request->plate, operation, &request->operation, error))
            return false;
        if (plate_find(request->plate, request->operation)->operation.kind != OPERATION_MAKING)
            return error_set(error, ERROR_TYPED, "--operation",
                             "\"%.60s\" runs parts; a drilling program is for an operation that "
                             "makes the plate",
                             operation);
        return face || face_of(request->plate, request->operation, &request->face, error);
    }
    if (!face)
        return error_set(error, ERROR_TYPED, NULL,
                         "say what to drill: --operation NAME, or --face top where the plate has "
                         "no operations yet");
    const char *maker = maker_on(request->plate, request->face);
    return !maker || error_set(error, ERROR_TYPED, NULL,
                               "holes of this face are made at operations, the first of them "
                               "\"%.60s\"; say which: --operation NAME",
                               maker);
}

static json_object *millimetres(double mm)
{
    char text[LENGTH_TEXT];
    millionths_write(length_from_mm(mm), text);
    return json_object_new_double_s(mm, text);
}

static void print_answer(const ProgramAnswer *answer, const char *to)
{
    json_object *json = json_object_new_object(), *remarks = json_object_new_array();
    json_object_object_add(json, "file", json_object_new_string(to));
    json_object_object_add(json, "holes", json_object_new_int64(answer->holes));
    json_object_object_add(json, "tools", json_object_new_int64(answer->tools));
    json_object_object_add(json, "tool_changes", json_object_new_int64(answer->changes));
    json_object_object_add(json, "safe_height", millimetres(answer->safe_height));
    for (guint i = 0; i < answer->remarks->len; i++)
        json_object_array_add(remarks, json_object_new_string(answer->remarks->pdata[i]));
    json_object_object_add(json, "remarks", remarks);
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

static int write_program(const Arguments *arguments, const Session *session, const char *to,
                         Error *error)
{
    ProgramOptions options;
    ProgramAnswer answer = {.tools = 0};
    ProgramRequest request = {
        .plate = session_plate(session), .placed = session_placed(session), .options = &options};
    char *text = NULL;
    if (read_options(arguments, session_unit(session), &options, error) &&
        choose_setting(arguments, &request, error))
        text = program_text(&request, &answer, error);
    bool done = text && save_bytes(to, text, strlen(text), NULL, error);
    if (done && arguments_flag(arguments, "json"))
        print_answer(&answer, to);
    g_free(text);
    program_answer_clear(&answer);
    program_options_clear(&options);
    return done ? COMMAND_FINE : COMMAND_FAILED;
}

int program_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    if (!arguments_read(argc, argv, "json tapping line-numbers",
                        "operation face to unit-word offset length-offset moves feeds safe-height "
                        "change-height",
                        &arguments, error) ||
        !arguments_need(&arguments, 1, USAGE, error))
        return COMMAND_FAILED;
    const char *to = arguments_to(&arguments, ".nc .ngc .cnc .tap .iso .txt", error);
    if (!to)
        return COMMAND_FAILED;
    Session *session = session_open(arguments.positions[0], error);
    if (!session)
        return COMMAND_FAILED;
    int code = write_program(&arguments, session, to, error);
    session_free(session);
    return code;
}
