#include "drawing/table-sheets.h"

#include "drawing/paragraph.h"
#include "drawing/sheet.h"
#include "drawing/sign.h"

#include <glib.h>

#define GAP 8.0         /* between tables side by side, and from the views */
#define DESCRIPTION 3   /* the column that is broken into lines where it is too wide */
#define MARK_MOST 36.0  /* of text in the first column, mm */
#define TOOLS_MOST 16.0 /* likewise in the tools' */
#define DESCRIPTION_LEAST 42.0
#define MEASURED 29.0 /* width of the column to write in */
#define NOTES_GAP 4.0
#define NOTES_WIDTH 160.0
#define NOTES_MOST 10 /* lines, more than the notes ever have */

static const char notes[] =
    SIGN_DEPTH " is the depth of the full diameter, in a thread that of the "
               "full thread. X and Y are from the datum sign to the middle of each; "
               "they are exact where a position (" SIGN_POSITION ") is given.";

static double notes_width(Box body)
{
    return fmin(body.x1 - body.x0, NOTES_WIDTH);
}

static double notes_height(const TableSheets *sheets, Box body)
{
    size_t lines =
        paragraph_lines(sheets->drawing, notes, notes_width(body), SHEET_LETTERING, NOTES_MOST);
    return NOTES_GAP + (double)lines * PARAGRAPH_PITCH * SHEET_LETTERING;
}

/* Figures in both units stand one above the other but in descriptions, which are broken anyway. */
static char *stacked(const char *cell, size_t column)
{
    char *text = g_strdup(cell ? cell : "");
    return column == DESCRIPTION ? text : figure_stack(text);
}

void table_sheets_start(TableSheets *sheets, Drawing *drawing, const HoleTable *rows)
{
    *sheets = (TableSheets){.drawing = drawing,
                            .columns = {{"Mark", TEXT_START, 0, MARK_MOST, false},
                                        {"X", TEXT_END, 0, 0, false},
                                        {"Y", TEXT_END, 0, 0, false},
                                        {"Description", TEXT_START, 0, 0, false},
                                        {"Tolerance", TEXT_START, 0, 0, false},
                                        {"Tools", TEXT_START, 0, TOOLS_MOST, false},
                                        {"Measured", TEXT_END, MEASURED, 0, false}}};
    sheets->cells = g_new0(char *, rows->count *G_N_ELEMENTS(sheets->columns) + 1);
    sheets->features = g_new(uint32_t, rows->count);
    for (size_t i = 0; i < rows->count; i++) {
        const HoleRow *row = &rows->rows[i];
        bool measured = row->kind == FEATURE_HOLE || row->kind == FEATURE_RECESS;
        const char *cells[] = {row->label,
                               row->x,
                               row->y,
                               row->plain,
                               row->tolerance,
                               row->tools,
                               measured ? SIGN_SQUARE : ""};
        for (size_t c = 0; c < G_N_ELEMENTS(cells); c++)
            sheets->cells[i * G_N_ELEMENTS(cells) + c] = stacked(cells[c], c);
        sheets->features[i] = row->feature;
    }
    sheets->table = (Table){.columns = sheets->columns,
                            .column_count = G_N_ELEMENTS(sheets->columns),
                            .cells = (const char *const *)sheets->cells,
                            .row_count = rows->count,
                            .features = sheets->features,
                            .height = SHEET_LETTERING};
}

/* The width without the column for measured figures when no line is broken; puts the columns so. */
static double natural_width(TableSheets *sheets)
{
    sheets->columns[DESCRIPTION].width = 0;
    sheets->table.shown_count = G_N_ELEMENTS(sheets->columns) - 1;
    return table_width(sheets->drawing, &sheets->table);
}

void table_sheets_end(TableSheets *sheets)
{
    g_strfreev(sheets->cells);
    g_free(sheets->features);
}

/* Chooses the columns for a table no wider than `width`: with the one for measured figures where it
 * has room, and with descriptions broken into lines where there is too little; false when there is
 * too little for that. */
static bool fit_width(TableSheets *sheets, double width)
{
    TableColumn *description = &sheets->columns[DESCRIPTION];
    double natural = natural_width(sheets);
    double own = table_column_width(sheets->drawing, &sheets->table, DESCRIPTION);
    double least = fmin(own, DESCRIPTION_LEAST);
    double left = width - (natural - own);
    if (left - MEASURED >= least) {
        sheets->table.shown_count = G_N_ELEMENTS(sheets->columns);
        left -= MEASURED;
    }
    description->width = left >= own ? 0 : fmax(left, least);
    return left >= least;
}

static bool fits(TableSheets *sheets, Box box)
{
    if (box.x1 - box.x0 <= 0 || !fit_width(sheets, box.x1 - box.x0))
        return false;
    return table_fitting(sheets->drawing, &sheets->table, 0,
                         box.y1 - box.y0 - notes_height(sheets, box)) == sheets->table.row_count;
}

bool table_sheets_share(TableSheets *sheets, Box body, ViewsSize size, Box *views, Box *rest)
{
    *views = (Box){body.x0, body.y1 - size.height, body.x1, body.y1};
    *rest = (Box){body.x0, body.y0, body.x1, views->y0 - GAP};
    if (fits(sheets, *rest))
        return true;
    *views = (Box){body.x0, body.y0, body.x0 + size.width, body.y1};
    *rest = (Box){views->x1 + GAP, body.y0, body.x1, body.y1};
    return fits(sheets, *rest);
}

/* How many tables stand side by side, and how wide each may be. */
static size_t tables_across(TableSheets *sheets, Box body, double *width)
{
    double whole = body.x1 - body.x0, natural = natural_width(sheets) + MEASURED;
    size_t across = (size_t)fmax(1, floor((whole + GAP) / (natural + GAP)));
    *width = (whole - (double)(across - 1) * GAP) / (double)across;
    return across;
}

/* Goes over one sheet's tables from row `first`, drawing them or not; returns the row after. */
static size_t fill_sheet(TableSheets *sheets, Box body, size_t first, bool draw)
{
    double width;
    size_t across = tables_across(sheets, body, &width);
    fit_width(sheets, width);
    double own = table_width(sheets->drawing, &sheets->table);
    double height = body.y1 - body.y0 - notes_height(sheets, body);
    for (size_t i = 0; i < across && first < sheets->table.row_count; i++) {
        size_t count = table_fitting(sheets->drawing, &sheets->table, first, height);
        if (sheets->in_piece > 0)
            count = MIN(count, sheets->in_piece);
        count = MAX(count, 1); /* a row taller than the sheet can't be kept back for ever */
        double left = body.x0 + (double)i * (own + GAP);
        Box box = BOX_EMPTY;
        if (draw)
            box = table_draw(sheets->drawing, &sheets->table, first, count, (Point){left, body.y1});
        first += count;
        if (draw && first == sheets->table.row_count) {
            drawing_about(sheets->drawing, ROLE_NOTE, 0);
            paragraph_draw(sheets->drawing, (Point){left, box.y0 - NOTES_GAP},
                           fmin(notes_width(body), body.x1 - left), SHEET_LETTERING, TEXT_START,
                           notes, NOTES_MOST);
        }
    }
    return first;
}

static int count_sheets(TableSheets *sheets, Box body)
{
    int count = 0;
    for (size_t next = 0; next < sheets->table.row_count; count++)
        next = fill_sheet(sheets, body, next, false);
    return count;
}

int table_sheets_spread(TableSheets *sheets, Box body)
{
    sheets->in_piece = 0;
    int count = count_sheets(sheets, body);
    double width;
    size_t pieces = (size_t)count * tables_across(sheets, body, &width);
    /* Rows of several lines may make even shares too tall; then more rows are let in. */
    sheets->in_piece = (sheets->table.row_count + pieces - 1) / MAX(pieces, 1);
    while (count_sheets(sheets, body) > count)
        sheets->in_piece++;
    return count;
}

void table_sheets_draw(TableSheets *sheets, Box body)
{
    sheets->next = fill_sheet(sheets, body, sheets->next, true);
}
