#include "exchange/measured-csv.h"

#include "plate/save.h"
#include "trade/typed.h"

#include <string.h>

#define ROW_FIELDS_MOST 64

typedef enum Column { COLUMN_LABEL, COLUMN_X, COLUMN_Y, COLUMN_DIAMETER, COLUMNS } Column;

/* One row, cut into fields. */
typedef struct Row {
    long line;
    char separator;
    GPtrArray *fields; /* char *, trimmed */
} Row;

typedef struct Reading {
    GPtrArray *rows;      /* Row: those of figures */
    GArray *units;        /* Unit: of each row */
    Unit unit;            /* of rows to come */
    char separator;       /* 0 until the first row */
    int columns[COLUMNS]; /* which field, or -1 */
    int unit_of[COLUMNS]; /* what the heading names, or -1 */
    bool has_heading;
    MeasuredTable *table;
    Error *error;
} Reading;

static void row_free(void *data)
{
    Row *row = data;
    g_ptr_array_unref(row->fields);
    g_free(row);
}

static bool refuse(Reading *reading, long line, const char *message)
{
    char place[32];
    g_snprintf(place, sizeof place, "line %ld", line);
    return error_set(reading->error, ERROR_FORMAT, place, "%s", message);
}

static const char *field(const Row *row, int column)
{
    return column >= 0 && (guint)column < row->fields->len ? row->fields->pdata[column] : "";
}

/* --- rows ----------------------------------------------------------------------------------- */

/* The first row's is the table's: in later ones a text may hold any. */
static char separator_of(const char *text, size_t length)
{
    if (memchr(text, '\t', length))
        return '\t';
    return memchr(text, ';', length) ? ';' : ',';
}

/* A field in quotes may hold the separator, and "" for a quote (RFC 4180). */
static const char *cut_field(const char *at, const char *end, char separator, GString *out)
{
    bool quoted = false;
    g_string_truncate(out, 0);
    for (; at < end; at++) {
        if (*at == '"' && quoted && at + 1 < end && at[1] == '"')
            g_string_append_c(out, *at++);
        else if (*at == '"' && (quoted || out->len == 0))
            quoted = !quoted;
        else if (*at == separator && !quoted)
            break;
        else if (out->len || !g_ascii_isspace(*at))
            g_string_append_c(out, *at);
    }
    while (out->len && g_ascii_isspace(out->str[out->len - 1]))
        g_string_truncate(out, out->len - 1);
    return at;
}

static Row *cut_row(const char *text, size_t length, char separator, long line)
{
    Row *row = g_new0(Row, 1);
    GString *out = g_string_new(NULL);
    const char *at = text, *end = text + length;
    row->line = line;
    row->separator = separator;
    row->fields = g_ptr_array_new_with_free_func(g_free);
    for (;;) {
        at = cut_field(at, end, row->separator, out);
        g_ptr_array_add(row->fields, g_strdup(out->str));
        if (at >= end || row->fields->len == ROW_FIELDS_MOST)
            break;
        at++;
    }
    while (row->fields->len && !*field(row, (int)row->fields->len - 1))
        g_ptr_array_set_size(row->fields, (gint)row->fields->len - 1);
    g_string_free(out, TRUE);
    return row;
}

/* --- figures -------------------------------------------------------------------------------- */

static bool read_length(const Row *row, int column, Unit unit, Length *length)
{
    char *text = g_strdup(field(row, column));
    char *comma = row->separator == ',' ? NULL : strchr(text, ',');
    if (comma)
        *comma = '.';
    bool read = *text && typed_length_read(text, unit, length, NULL, 0, NULL);
    g_free(text);
    return read;
}

/* "F" and "#7" are drill sizes, but at the head of a row they are labels. */
static bool is_figure(const Row *row, int column)
{
    Length length;
    const char *text = field(row, column);
    bool may_be = g_ascii_isdigit(*text) || *text == '-' || *text == '+' || *text == '.';
    return may_be && read_length(row, column, UNIT_MM, &length);
}

/* --- headings ------------------------------------------------------------------------------- */

static bool is_one_of(const char *word, const char *const *words)
{
    for (; *words; words++)
        if (strcmp(word, *words) == 0)
            return true;
    return false;
}

/* The unit that a heading ends with, taken off it: "x_mm", "x (in)", "x [mm]". */
static int take_unit(char *heading)
{
    static const char *const inches[] = {"in", "inch", "inches", NULL};
    size_t length = strlen(heading);
    while (length && strchr("])", heading[length - 1]))
        heading[--length] = 0;
    char *from = strrchr(heading, '_');
    for (const char *mark = "([ "; *mark; mark++)
        if (!from)
            from = strrchr(heading, *mark);
    if (!from)
        return -1;
    int unit = strcmp(from + 1, "mm") == 0 ? UNIT_MM : is_one_of(from + 1, inches) ? UNIT_INCH : -1;
    if (unit >= 0)
        *from = 0;
    g_strchomp(heading);
    return unit;
}

static int column_of(const char *heading)
{
    static const char *const labels[] = {"label", "hole",   "name", "point", "no",
                                         "no.",   "number", "id",   NULL};
    static const char *const diameters[] = {"diameter", "dia",      "dia.",         "d",
                                            "size",     "\xc3\xb8", "\xe2\x8c\x80", NULL};
    if (is_one_of(heading, labels))
        return COLUMN_LABEL;
    if (strcmp(heading, "x") == 0 || strcmp(heading, "y") == 0)
        return *heading == 'x' ? COLUMN_X : COLUMN_Y;
    return is_one_of(heading, diameters) ? COLUMN_DIAMETER : -1;
}

/* False when the row names no x and y: then it is no heading, and nothing has changed. */
static bool take_heading(Reading *reading, const Row *row)
{
    int columns[COLUMNS] = {-1, -1, -1, -1}, units[COLUMNS] = {-1, -1, -1, -1};
    for (guint i = 0; i < row->fields->len; i++) {
        char *heading = g_ascii_strdown(row->fields->pdata[i], -1);
        int unit = take_unit(heading), column = column_of(heading);
        if (column >= 0 && columns[column] < 0) {
            columns[column] = (int)i;
            units[column] = unit;
        }
        g_free(heading);
    }
    if (columns[COLUMN_X] < 0 || columns[COLUMN_Y] < 0)
        return false;
    memcpy(reading->columns, columns, sizeof columns);
    memcpy(reading->unit_of, units, sizeof units);
    reading->has_heading = true;
    return true;
}

/* --- columns without headings --------------------------------------------------------------- */

static bool counts_up(const GPtrArray *rows)
{
    for (guint i = 0; i < rows->len; i++) {
        char number[16];
        g_snprintf(number, sizeof number, "%u", i + 1);
        if (strcmp(field(rows->pdata[i], 0), number) != 0)
            return false;
    }
    return rows->len >= 3;
}

static bool all_figures(const GPtrArray *rows, int column)
{
    for (guint i = 0; i < rows->len; i++)
        if (!is_figure(rows->pdata[i], column))
            return false;
    return true;
}

static void guess_columns(Reading *reading)
{
    guint width = 0;
    for (guint i = 0; i < reading->rows->len; i++)
        width = MAX(width, ((const Row *)reading->rows->pdata[i])->fields->len);
    bool labelled =
        width > 3 || !all_figures(reading->rows, 0) || (width == 3 && counts_up(reading->rows));
    int first = labelled ? 1 : 0;
    reading->columns[COLUMN_LABEL] = labelled ? 0 : -1;
    reading->columns[COLUMN_X] = first;
    reading->columns[COLUMN_Y] = first + 1;
    reading->columns[COLUMN_DIAMETER] = (int)width > first + 2 ? first + 2 : -1;
}

/* --- points --------------------------------------------------------------------------------- */

static bool read_column(Reading *reading, const Row *row, Unit unit, Column column, Length *length)
{
    static const char *const names[] = {"label", "x", "y", "diameter"};
    int named = reading->unit_of[column];
    if (read_length(row, reading->columns[column], named >= 0 ? (Unit)named : unit, length))
        return true;
    char message[120];
    const char *text = field(row, reading->columns[column]);
    g_snprintf(message, sizeof message, "%s is %s\"%.40s\"; write it as a length", names[column],
               *text ? "" : "empty: ", text);
    return refuse(reading, row->line, message);
}

static bool add_point(Reading *reading, const Row *row, Unit unit)
{
    Place at;
    Length diameter = 0;
    if (!read_column(reading, row, unit, COLUMN_X, &at.x) ||
        !read_column(reading, row, unit, COLUMN_Y, &at.y))
        return false;
    if (*field(row, reading->columns[COLUMN_DIAMETER]) &&
        !read_column(reading, row, unit, COLUMN_DIAMETER, &diameter))
        return false;
    if (diameter < 0)
        return refuse(reading, row->line, "a diameter is less than 0");
    measured_table_add(reading->table, field(row, reading->columns[COLUMN_LABEL]), at, diameter,
                       row->line);
    return true;
}

static bool add_points(Reading *reading)
{
    if (!reading->has_heading)
        guess_columns(reading);
    for (guint i = 0; i < reading->rows->len; i++)
        if (!add_point(reading, reading->rows->pdata[i], g_array_index(reading->units, Unit, i)))
            return false;
    return reading->rows->len > 0 || refuse(reading, 1, "the table has no rows of figures");
}

/* --- lines ---------------------------------------------------------------------------------- */

static bool take_unit_row(Reading *reading, const Row *row)
{
    static const char *const inches[] = {"in", "inch", "inches", NULL};
    char *word = g_ascii_strdown(field(row, 1), -1);
    bool inch = is_one_of(word, inches), mm = strcmp(word, "mm") == 0;
    g_free(word);
    reading->unit = inch ? UNIT_INCH : UNIT_MM;
    return inch || mm || refuse(reading, row->line, "a unit row is: unit, and mm or in");
}

/* Takes the row over. */
static bool take_row(Reading *reading, Row *row)
{
    bool is_unit = g_ascii_strcasecmp(field(row, 0), "unit") == 0 ||
                   g_ascii_strcasecmp(field(row, 0), "units") == 0;
    bool first = reading->rows->len == 0 && !reading->has_heading;
    bool done = row->fields->len == 0 || (first && !is_unit && take_heading(reading, row));
    bool fine = true;
    if (!done && is_unit) {
        fine = take_unit_row(reading, row);
        done = true;
    }
    if (!done && reading->rows->len == MEASURED_POINTS_MOST) {
        fine = refuse(reading, row->line, "the table has more rows than a plate has holes");
        done = true;
    }
    if (done) {
        row_free(row);
        return fine;
    }
    g_ptr_array_add(reading->rows, row);
    g_array_append_val(reading->units, reading->unit);
    return true;
}

static bool take_line(Reading *reading, const char *text, size_t length, long line)
{
    while (length && g_ascii_isspace(text[length - 1]) && text[length - 1] != '\t')
        length--;
    if (length == 0)
        return true;
    bool is_unit = length > 4 && g_ascii_strncasecmp(text, "unit", 4) == 0;
    char separator =
        is_unit || !reading->separator ? separator_of(text, length) : reading->separator;
    if (!is_unit)
        reading->separator = separator;
    return take_row(reading, cut_row(text, length, separator, line));
}

static bool take_lines(Reading *reading, const char *bytes, size_t size)
{
    const char *at = bytes, *end = bytes + size;
    if (size >= 3 && !memcmp(at, "\xef\xbb\xbf", 3)) /* byte order mark */
        at += 3;
    for (long line = 1; at < end; line++) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        size_t length = (size_t)((stop ? stop : end) - at);
        if (memchr(at, 0, length) || !g_utf8_validate(at, (gssize)length, NULL))
            return refuse(reading, line, "this is not a table of text in UTF-8");
        if (length && *at != '#' && !take_line(reading, at, length, line))
            return false;
        at = stop ? stop + 1 : end;
    }
    return true;
}

bool measured_csv_read(const char *bytes, size_t size, Unit unit, MeasuredTable *table,
                       Error *error)
{
    Reading reading = {.rows = g_ptr_array_new_with_free_func(row_free),
                       .units = g_array_new(FALSE, FALSE, sizeof(Unit)),
                       .unit = unit,
                       .columns = {-1, -1, -1, -1},
                       .unit_of = {-1, -1, -1, -1},
                       .table = table,
                       .error = error};
    measured_table_init(table);
    bool fine = size <= MEASURED_BYTES_MOST
                    ? take_lines(&reading, bytes, size) && add_points(&reading)
                    : error_set(error, ERROR_LIMIT, NULL, "the table is larger than %zu MiB",
                                MEASURED_BYTES_MOST >> 20);
    if (!fine)
        g_array_set_size(table->points, 0);
    g_ptr_array_unref(reading.rows);
    g_array_unref(reading.units);
    return fine;
}

bool measured_csv_load(const char *file, Unit unit, MeasuredTable *table, Error *error)
{
    size_t size;
    measured_table_init(table);
    char *bytes = read_bytes(file, MEASURED_BYTES_MOST, &size, NULL, error);
    if (!bytes)
        return false;
    measured_table_clear(table);
    bool fine = measured_csv_read(bytes, size, unit, table, error);
    if (!fine)
        error_set_file(error, file);
    g_free(bytes);
    return fine;
}
