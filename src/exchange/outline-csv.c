#include "exchange/outline-csv.h"

#include "exchange/svg-number.h"

#include <string.h>

#define ROW_FIELDS_MOST 6
#define FIELD_BYTES 40

/* One row, cut into fields. */
typedef struct Row {
    long line;
    int count;
    char fields[ROW_FIELDS_MOST][FIELD_BYTES]; /* trimmed */
} Row;

typedef struct Table {
    double unit;   /* mm */
    double factor; /* of the known size */
    Loops *loops;
    Curve chain;
    double closing_sagitta; /* of the side from the last corner, until the next corner is known */
    long ring_line;         /* 0: no ring begun */
    bool had_rows, had_headings;
    Error *error;
} Table;

static bool refuse(Table *table, const Row *row, const char *message)
{
    char place[32];
    g_snprintf(place, sizeof place, "line %ld", row->line);
    return error_set(table->error, ERROR_FORMAT, place, "%s", message);
}

/* ---- rows ---- */

/* The separator of a row: a tab, a semicolon or else a comma. */
static char separator_of(const char *text, size_t length)
{
    if (memchr(text, '\t', length))
        return '\t';
    return memchr(text, ';', length) ? ';' : ',';
}

/* Cuts a row into fields; empty ones at its end are dropped. False when there are too many, or one
 * is too long to be a number or a word. */
static bool cut_row(const char *text, size_t length, Row *row)
{
    char separator = separator_of(text, length);
    const char *at = text, *end = text + length;
    row->count = 0;
    for (;;) {
        const char *stop = memchr(at, separator, (size_t)(end - at));
        const char *from = at, *to = stop ? stop : end;
        while (from < to && g_ascii_isspace(*from))
            from++;
        while (to > from && g_ascii_isspace(to[-1]))
            to--;
        if (to - from >= 2 && *from == '"' && to[-1] == '"')
            from++, to--;
        if (to - from >= FIELD_BYTES)
            return false;
        if (row->count < ROW_FIELDS_MOST) {
            memcpy(row->fields[row->count], from, (size_t)(to - from));
            row->fields[row->count][to - from] = 0;
            row->count++;
        } else if (to > from) {
            return false;
        }
        if (!stop)
            break;
        at = stop + 1;
    }
    while (row->count > 0 && !row->fields[row->count - 1][0])
        row->count--;
    return true;
}

static bool read_number(const char *text, double *value)
{
    const char *at = text;
    return svg_number_read(&at, value) && !*at;
}

/* The numbers of a row from field `first` on. */
static bool read_numbers(Table *table, const Row *row, int first, int least, int most,
                         double *values)
{
    int count = row->count - first;
    if (count < least || count > most)
        return refuse(table, row,
                      first ? "a hole row is: hole, x, y, diameter"
                            : "a row is: x, y, and the sagitta where the next side is an arc");
    for (int i = 0; i < count; i++) {
        if (read_number(row->fields[first + i], &values[i]))
            continue;
        return refuse(table, row,
                      strchr(row->fields[first + i], ',')
                          ? "a number has a decimal comma; write it with a point"
                          : "a field is not a number; write it in decimals with a point");
    }
    return true;
}

static bool is_word(const char *field, const char *word)
{
    return !g_ascii_strcasecmp(field, word);
}

/* ---- what rows say ---- */

static bool set_unit(Table *table, const Row *row)
{
    static const struct {
        const char *name;
        double mm;
    } units[] = {{"mm", 1}, {"cm", 10}, {"in", 25.4}, {"inch", 25.4}, {"um", 0.001}};
    for (size_t i = 0; row->count == 2 && i < G_N_ELEMENTS(units); i++)
        if (is_word(row->fields[1], units[i].name)) {
            table->unit = units[i].mm;
            return true;
        }
    return refuse(table, row, "a unit row is: unit, and mm, cm, in or um");
}

static bool end_ring(Table *table)
{
    if (table->ring_line == 0)
        return true;
    Curve *chain = &table->chain;
    const Vertex *first = &chain->vertices[0], *last = &chain->vertices[chain->count - 1];
    bool back = hypot(first->x - last->x, first->y - last->y) < 1e-6;
    bool fine = back || curve_arc_to(chain, (Point){first->x, first->y}, table->closing_sagitta,
                                     table->error);
    fine = fine && loops_add(table->loops, chain, NULL, 0, true, table->ring_line, table->error);
    table->ring_line = 0;
    return fine;
}

static bool add_corner(Table *table, const Row *row)
{
    double values[3] = {0}, unit = table->unit * table->factor;
    if (!read_numbers(table, row, 0, 2, 3, values))
        return false;
    Point p = {values[0] * unit, values[1] * unit};
    bool fine = table->ring_line == 0
                    ? curve_begin(&table->chain, p, table->error)
                    : curve_arc_to(&table->chain, p, table->closing_sagitta, table->error);
    if (!fine)
        return false;
    if (table->ring_line == 0)
        table->ring_line = row->line;
    table->closing_sagitta = values[2] * unit;
    return true;
}

/* A hole is a loop like any other, so that it is checked against the outline like any other. */
static bool add_hole(Table *table, const Row *row)
{
    double values[3], unit = table->unit * table->factor;
    if (!read_numbers(table, row, 1, 3, 3, values))
        return false;
    if (!(values[2] * unit >= 0.01))
        return refuse(table, row, "a hole's diameter is less than 0.01 mm");
    Point centre = {values[0] * unit, values[1] * unit};
    double radius = values[2] * unit / 2;
    EllipseArc circle = {centre, {radius, 0}, {0, radius}, 0, 2 * G_PI};
    Curve chain = {0};
    bool fine = curve_begin(&chain, (Point){centre.x + radius, centre.y}, table->error) &&
                curve_ellipse_to(&chain, &circle, CURVE_TOLERANCE, table->error) &&
                loops_add(table->loops, &chain, NULL, 0, true, row->line, table->error);
    curve_clear(&chain);
    return fine;
}

static bool is_heading(const Table *table, const Row *row)
{
    double value;
    return !table->had_rows && !table->had_headings && row->count >= 2 &&
           !read_number(row->fields[0], &value) && g_ascii_isalpha(row->fields[0][0]);
}

static bool take_row(Table *table, const Row *row)
{
    bool fine;
    if (is_word(row->fields[0], "unit") || is_word(row->fields[0], "units"))
        return set_unit(table, row);
    if (is_word(row->fields[0], "hole")) {
        fine = add_hole(table, row);
    } else if (is_heading(table, row)) {
        table->had_headings = true;
        return true;
    } else {
        fine = add_corner(table, row);
    }
    table->had_rows = true;
    if (!fine && table->error && !table->error->place[0]) {
        char line[32];
        g_snprintf(line, sizeof line, "line %ld", row->line);
        error_within(table->error, line);
    }
    return fine;
}

/* ---- the table ---- */

static bool take_line(Table *table, const char *text, size_t length, long line)
{
    Row row = {.line = line};
    while (length > 0 && g_ascii_isspace(text[length - 1]))
        length--;
    if (length > 0 && *text == '#')
        return true;
    if (memchr(text, 0, length))
        return refuse(table, &row, "it is not a table of text");
    if (!cut_row(text, length, &row))
        return refuse(table, &row, "a row has more fields, or a longer one, than a point has");
    if (row.count == 0)
        return end_ring(table);
    return take_row(table, &row);
}

static bool take_lines(Table *table, const char *bytes, size_t size)
{
    const char *at = bytes, *end = bytes + size;
    if (size >= 3 && !memcmp(at, "\xef\xbb\xbf", 3)) /* byte order mark */
        at += 3;
    for (long line = 1; at < end; line++) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        size_t length = (size_t)((stop ? stop : end) - at);
        if (!take_line(table, at, length, line))
            return false;
        at = stop ? stop + 1 : end;
    }
    return end_ring(table);
}

static bool read_table(const char *bytes, size_t size, double unit, double factor,
                       OutlineRead *read, Error *error)
{
    ReadNotes notes = {0};
    Table table = {.unit = unit, .factor = factor, .loops = loops_new(), .error = error};
    bool fine = take_lines(&table, bytes, size) &&
                outline_read_sort(table.loops, false, &notes, read, error);
    curve_clear(&table.chain);
    loops_free(table.loops);
    return fine;
}

bool outline_csv_read(const char *bytes, size_t size, const OutlineOptions *options,
                      OutlineRead *read, Error *error)
{
    static const OutlineOptions usual = {0};
    Error unheard;
    double factor;
    if (!error)
        error = &unheard;
    if (!options)
        options = &usual;
    *read = (OutlineRead){0};
    if (size > CSV_BYTES_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "the table is larger than %zu MiB",
                         CSV_BYTES_MOST >> 20);
    double unit = options->unit > 0 ? options->unit : 1;
    if (!read_table(bytes, size, unit, 1, read, error))
        return false;
    if (!outline_read_factor(read, options, &factor, error)) {
        outline_read_clear(read);
        return false;
    }
    if (factor == 1)
        return true;
    outline_read_clear(read);
    return read_table(bytes, size, unit, factor, read, error);
}

bool outline_csv_load(const char *file, const OutlineOptions *options, OutlineRead *read,
                      Error *error)
{
    size_t size;
    *read = (OutlineRead){0};
    char *bytes = outline_read_file(file, CSV_BYTES_MOST, &size, error);
    if (!bytes)
        return false;
    bool fine = outline_csv_read(bytes, size, options, read, error);
    if (!fine)
        error_set_file(error, file);
    g_free(bytes);
    return fine;
}
