#include "trade/user-rows.h"

#include "trade/table.h"
#include "trade/typed.h"

#include <glib/gstdio.h>
#include <json-c/json.h>
#include <string.h>
#include <sys/stat.h>

static const struct {
    const char *name;
    Table *table;
} open_tables[] = {
    {"clamps", &clamp_table},   {"clearances", &clearance_table},
    {"dowels", &dowel_table},   {"drills", &drill_table},
    {"inserts", &insert_table}, {"materials", &material_table},
    {"screws", &screw_table},   {"shoulder-screws", &shoulder_screw_table},
    {"threads", &thread_table},
};

/* The file is walked by hand down to its rows, so that each row has a line and a broken row does
 * not take the rest with it; a row itself is read by the JSON library. */
typedef struct Walk {
    const char *path;
    const char *at;
    int line;
    size_t taken;
    UserRowReport report;
    void *data;
} Walk;

static bool complain(Walk *walk, int line, const char *message)
{
    Error error = {0};
    char place[32];
    g_snprintf(place, sizeof place, "line %d", line);
    error_set(&error, ERROR_FORMAT, place, "%s", message);
    error_set_file(&error, walk->path);
    if (walk->report)
        walk->report(&error, walk->data);
    return false;
}

static char next(Walk *walk)
{
    for (;; walk->at++) {
        if (*walk->at == '\n')
            walk->line++;
        else if (*walk->at != ' ' && *walk->at != '\t' && *walk->at != '\r')
            return *walk->at;
    }
}

static bool take(Walk *walk, char sign)
{
    if (next(walk) != sign)
        return false;
    walk->at++;
    return true;
}

/* Steps over a string; false when it does not end on its line. */
static bool skip_string(Walk *walk)
{
    for (walk->at++; *walk->at && *walk->at != '\n'; walk->at++) {
        if (*walk->at == '\\' && walk->at[1] && walk->at[1] != '\n')
            walk->at++;
        else if (*walk->at == '"') {
            walk->at++;
            return true;
        }
    }
    return false;
}

/* Steps to the end of a row in braces. Braces in a row are not nested by any table. */
static bool skip_row(Walk *walk)
{
    walk->at++;
    while (*walk->at) {
        if (*walk->at == '"') {
            skip_string(walk);
            continue;
        }
        if (*walk->at == '\n')
            walk->line++;
        if (*walk->at++ == '}')
            return true;
    }
    return false;
}

static bool read_choice(const Column *column, const char *text, int *choice)
{
    char **words = g_strsplit(column->choices, " ", -1);
    *choice = -1;
    for (int i = 0; words[i]; i++)
        if (!strcmp(words[i], text))
            *choice = i;
    g_strfreev(words);
    return *choice >= 0;
}

static bool read_number(json_object *value, double *number)
{
    if (!json_object_is_type(value, json_type_double) && !json_object_is_type(value, json_type_int))
        return false;
    *number = json_object_get_double(value);
    return *number == *number && *number >= 0 && *number <= 1e9;
}

static bool wrong_cell(const Column *column, const char *should_be, Error *error)
{
    return error_set(error, ERROR_FORMAT, NULL, "\"%s\" should be %s", column->name, should_be);
}

static bool read_cell(const Column *column, json_object *value, char *row, Error *error)
{
    void *cell = row + column->offset;
    const char *text =
        json_object_is_type(value, json_type_string) ? json_object_get_string(value) : NULL;
    double number;
    switch (column->kind) {
    case COLUMN_TEXT:
        if (!text || !*text || strlen(text) > 200 || !g_utf8_validate(text, -1, NULL))
            return wrong_cell(column, "a short text in quotes", error);
        *(char **)cell = g_strdup(text);
        return true;
    case COLUMN_LENGTH:
        if (!text)
            return wrong_cell(column, "a length in quotes with its unit, as in \"5.1 mm\"", error);
        if (!typed_length_read(text, UNIT_MM, (Length *)cell, NULL, 0, error))
            return false;
        return *(Length *)cell >= 0 || wrong_cell(column, "no less than 0", error);
    case COLUMN_NUMBER:
        return read_number(value, (double *)cell) ||
               wrong_cell(column, "a number from 0 up", error);
    case COLUMN_COUNT:
        if (!json_object_is_type(value, json_type_int) || !read_number(value, &number) ||
            number > 1000)
            return wrong_cell(column, "a whole number up to 1000", error);
        *(int *)cell = (int)number;
        return true;
    case COLUMN_CHOICE:
        return (text && read_choice(column, text, (int *)cell)) ||
               error_set(error, ERROR_FORMAT, NULL, "\"%s\" should be one of: %s", column->name,
                         column->choices);
    }
    return false;
}

static bool read_cells(const Table *table, json_object *object, char *row, Error *error)
{
    size_t known = 0;
    for (size_t c = 0; c < table->column_count; c++) {
        const Column *column = &table->columns[c];
        json_object *value;
        if (json_object_object_get_ex(object, column->name, &value)) {
            known++;
            if (!read_cell(column, value, row, error))
                return false;
        } else if (column->required) {
            return error_set(error, ERROR_FORMAT, NULL, "\"%s\" is missing", column->name);
        } else if (!strcmp(column->name, "source")) {
            *(char **)(void *)(row + column->offset) = g_strdup("added by the user");
        }
    }
    return known == (size_t)json_object_object_length(object) ||
           error_set(error, ERROR_FORMAT, NULL, "there is a key that this table does not have");
}

static bool add_row(Table *table, const char *text, size_t bytes, Error *error)
{
    if (bytes > USER_ROW_BYTES_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "this row is too long");
    json_tokener *tokener = json_tokener_new();
    json_tokener_set_flags(tokener, JSON_TOKENER_STRICT);
    json_object *object = json_tokener_parse_ex(tokener, text, (int)bytes);
    enum json_tokener_error status = json_tokener_get_error(tokener);
    json_tokener_free(tokener);
    if (status != json_tokener_success || !json_object_is_type(object, json_type_object)) {
        json_object_put(object);
        return error_set(error, ERROR_FORMAT, NULL, "this row is no JSON: %s",
                         json_tokener_error_desc(status));
    }
    char *row = g_malloc0(table->row_size);
    bool fine = read_cells(table, object, row, error);
    json_object_put(object);
    if (fine)
        table_add(table, row);
    else
        table_free_row(table, row);
    return fine;
}

static void take_row(Walk *walk, Table *table)
{
    int line = walk->line;
    const char *start = walk->at;
    if (!skip_row(walk)) {
        complain(walk, line, "this row does not end with }");
        return;
    }
    Error error = {0};
    if (walk->taken >= USER_ROWS_MOST)
        complain(walk, line, "there are more rows than this program takes");
    else if (table && !add_row(table, start, (size_t)(walk->at - start), &error))
        complain(walk, line, error.message);
    else
        walk->taken += table != NULL;
}

static bool take_rows(Walk *walk, Table *table)
{
    if (take(walk, ']'))
        return true;
    for (;;) {
        if (next(walk) != '{')
            return complain(walk, walk->line, "here should stand a row in { }");
        take_row(walk, table);
        if (take(walk, ']'))
            return true;
        if (!take(walk, ','))
            return complain(walk, walk->line, "between rows a , is missing");
    }
}

static bool take_table(Walk *walk)
{
    int line = walk->line;
    if (next(walk) != '"')
        return complain(walk, walk->line, "here should stand a table's name in quotes");
    line = walk->line;
    const char *start = walk->at + 1;
    if (!skip_string(walk))
        return complain(walk, line, "this name does not end with \"");
    size_t bytes = (size_t)(walk->at - start - 1);
    Table *table = NULL;
    for (size_t i = 0; i < G_N_ELEMENTS(open_tables); i++)
        if (strlen(open_tables[i].name) == bytes && !memcmp(open_tables[i].name, start, bytes))
            table = open_tables[i].table;
    if (!table)
        complain(walk, line, "there is no table of this name; its rows are left out");
    if (!take(walk, ':') || !take(walk, '['))
        return complain(walk, walk->line, "after a table's name stand : and its rows in [ ]");
    return take_rows(walk, table);
}

static bool take_file(Walk *walk)
{
    if (!take(walk, '{'))
        return complain(walk, walk->line, "the file should begin with {");
    if (take(walk, '}'))
        return true;
    do {
        if (!take_table(walk))
            return false;
    } while (take(walk, ','));
    return take(walk, '}') || complain(walk, walk->line, "here should stand , or }");
}

/* Asked before a byte is read: a pipe or device would never come to an end. */
static bool is_too_large(const char *path)
{
    GStatBuf status;
    return g_stat(path, &status) == 0 &&
           (!S_ISREG(status.st_mode) || status.st_size > (goffset)USER_ROWS_BYTES_MOST);
}

size_t user_rows_load(const char *path, UserRowReport report, void *data)
{
    char *usual = g_build_filename(g_get_user_data_dir(), "pinplate", "tables.json", NULL);
    Walk walk = {.path = path ? path : usual, .line = 1, .report = report, .data = data};
    char *text = NULL;
    gsize bytes = 0;
    GError *error = NULL;
    if (is_too_large(walk.path)) {
        complain(&walk, 1, "the file is larger than 4 MiB, or no plain file");
    } else if (g_file_get_contents(walk.path, &text, &bytes, &error)) {
        walk.at = text;
        take_file(&walk);
    } else if (path || !g_error_matches(error, G_FILE_ERROR, G_FILE_ERROR_NOENT)) {
        complain(&walk, 1, error->message);
    }
    g_clear_error(&error);
    g_free(text);
    g_free(usual);
    return walk.taken;
}

void user_rows_clear(void)
{
    for (size_t i = 0; i < G_N_ELEMENTS(open_tables); i++)
        table_clear(open_tables[i].table);
}
