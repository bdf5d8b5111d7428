#include "drawing/face-sheets.h"

#include "drawing/furniture.h"
#include "drawing/section.h"
#include "drawing/table-sheets.h"
#include "drawing/views.h"

#include <glib.h>

/* Standard scales: ISO 5455, and those usual with inch drawings; from the largest. Smaller plates
 * are not drawn larger than twice their size, so that a drawing looks its size. */
static const double metric_scales[] = {2, 1, 0.5, 0.2, 0.1, 0.05, 0.02};
static const double inch_scales[] = {2, 1, 0.5, 0.25, 0.125, 0.0625, 0.03125};

/* A sheet that a machinist can't read is worth less than a larger one: below this the next sheet is
 * tried. */
#define SCALE_LEAST 0.2

#define KIND_TEXT 96

/* What stands on every sheet at a scale; the texts are the caller's. */
static Furniture furniture_at(const FaceSheets *sheets, double scale, char *scale_text, char *kind)
{
    Furniture furniture = furniture_of(sheets->source, sheets->sheet, scale, scale_text);
    const Record *face = placed_record(sheets->source->placed, sheets->face);
    furniture.block.unit = furniture_unit(view_style(sheets->source, sheets->spec));
    if (sheets->face != ID_TOP && face) {
        g_snprintf(kind, KIND_TEXT, "Fixture plate, face %s",
                   face->face.name ? face->face.name : "");
        furniture.block.kind = kind;
    }
    return furniture;
}

static bool scale_fits(const FaceSheets *sheets, const Drawing *drawing, double scale)
{
    char scale_text[FURNITURE_SCALE_TEXT], kind[KIND_TEXT];
    Furniture furniture = furniture_at(sheets, scale, scale_text, kind);
    Box body = furniture_body(drawing, &furniture);
    ViewsSize size =
        views_size(drawing, sheets->source, sheets->spec, sheets->table, sheets->face, scale);
    return size.width <= body.x1 - body.x0 && size.height <= body.y1 - body.y0;
}

/* The largest standard scale at which the views have room on the sheet; 0 when none. */
static double fitting_scale(const FaceSheets *sheets, const Drawing *drawing)
{
    bool inch = plate_settings(sheets->source->plate)->unit == PLATE_INCH;
    const double *scales = inch ? inch_scales : metric_scales;
    for (size_t i = 0; i < G_N_ELEMENTS(metric_scales); i++) {
        if (scale_fits(sheets, drawing, scales[i]))
            return scales[i];
    }
    return 0;
}

/* The names of sheets stand in a PDF's outline. */
static void name_views(const FaceSheets *sheets, char *name, size_t size)
{
    const Record *face = placed_record(sheets->source->placed, sheets->face);
    if (sheets->face == ID_TOP || !face || !face->face.name)
        g_strlcpy(name, "Drawing", size);
    else
        g_snprintf(name, size, "Face %s", face->face.name);
}

#define SECTION_LETTERS 5.0 /* height of the letters over a section, mm */
#define SECTION_TITLE 10.0  /* from the section to the letters' top */

/* A section on a sheet of its own, at its own scale; false where its line misses the plate. */
static bool draw_section(const FaceSheets *sheets, Drawing *drawing, SectionLine line, int sheet,
                         int total)
{
    if (sheets->face != ID_TOP || line.letter == 0 || !section_clip(sheets->source, &line))
        return false;
    double length = point_distance(line.from, line.to);
    double thickness = length_to_mm(plate_settings(sheets->source->plate)->stock.thickness);
    bool inch = plate_settings(sheets->source->plate)->unit == PLATE_INCH;
    char scale_text[FURNITURE_SCALE_TEXT], kind[KIND_TEXT], name[64];
    double scale = 0;
    Box body = BOX_EMPTY;
    Furniture furniture;
    for (size_t i = 0; i < G_N_ELEMENTS(metric_scales); i++) {
        scale = inch ? inch_scales[i] : metric_scales[i];
        furniture = furniture_at(sheets, scale, scale_text, kind);
        body = furniture_body(drawing, &furniture);
        if (length * scale <= body.x1 - body.x0 &&
            thickness * scale + SECTION_TITLE <= body.y1 - body.y0)
            break;
    }
    char title[] = {line.letter, '-', line.letter, '\0'};
    g_snprintf(name, sizeof name, "Section %s", title);
    furniture.block.sheet = sheet;
    furniture.block.sheet_count = total;
    furniture_draw(drawing, &furniture, name);
    double middle = (body.x0 + body.x1) / 2;
    double bottom = (body.y0 + body.y1 - thickness * scale - SECTION_TITLE) / 2;
    Point origin = {middle - length * scale / 2, bottom + thickness * scale};
    section_draw(drawing, sheets->source, &line, (ViewMap){origin, scale});
    drawing_about(drawing, ROLE_NOTE, ID_NONE);
    drawing_text(drawing, (Point){middle, origin.y + SECTION_TITLE},
                 (TextStyle){SECTION_LETTERS, TEXT_MIDDLE, TEXT_TOP, 0}, title);
    return true;
}

/* Returns how many sheets they take. */
static int draw_details(FaceSheets *sheets, Drawing *drawing, int total)
{
    Flow flow;
    size_t before = drawing->sheet_count;
    flow_start(&flow, drawing, sheets->source, sheets->sheet, "Details", "Details", total);
    if (sheets->spec->both_units)
        flow_set_both_units(&flow);
    sheets->unplaced += details_draw(&sheets->details, &flow, sheets->source, sheets->table,
                                     sheets->face, views_kinds(sheets->spec));
    return (int)(drawing->sheet_count - before);
}

void face_sheets_draw(FaceSheets *sheets, Drawing *drawing, int first, int total)
{
    char scale_text[FURNITURE_SCALE_TEXT], kind[KIND_TEXT], name[64];
    Furniture furniture = furniture_at(sheets, sheets->scale, scale_text, kind);
    furniture.block.sheet = first;
    furniture.block.sheet_count = total;
    bool with_table = view_spec_has(sheets->spec, PRINT_HOLES) && sheets->table->count > 0;
    TableSheets table;
    table_sheets_start(&table, drawing, sheets->table);

    /* With the table on the first sheet where it has room below or beside the views. */
    Box body = furniture_body(drawing, &furniture), views = body, rest = BOX_EMPTY;
    ViewsSize size = views_size(drawing, sheets->source, sheets->spec, sheets->table, sheets->face,
                                sheets->scale);
    bool together = with_table && table_sheets_share(&table, body, size, &views, &rest);
    name_views(sheets, name, sizeof name);
    furniture_draw(drawing, &furniture, name);
    sheets->unplaced =
        views_draw(drawing, sheets->source, sheets->spec, sheets->table, sheets->face,
                   sheets->scale, together ? views : body, &sheets->details);
    if (together)
        table_sheets_draw(&table, rest);
    sheets->count = 1 + draw_details(sheets, drawing, total);
    for (int i = 0; i < SECTIONS_MOST; i++)
        if (draw_section(sheets, drawing, sheets->spec->sections[i], first + sheets->count, total))
            sheets->count++;
    furniture.scale = 0;
    body = furniture_body(drawing, &furniture);
    int tables = with_table && !together ? table_sheets_spread(&table, body) : 0;
    for (int i = 0; i < tables; i++) {
        furniture.block.sheet = first + sheets->count++;
        g_snprintf(name, sizeof name, "Table, sheet %d", furniture.block.sheet);
        furniture_draw(drawing, &furniture, name);
        table_sheets_draw(&table, body);
    }
    table_sheets_end(&table);
}

/* How much of the body of a sheet a detail may take, for its title and air. */
#define DETAIL_SHARE 0.9
#define DETAIL_ROUNDS 3

/* Draws with details of the given scale, laid anew where their outlines are in the way of other
 * labels; true when every label has its place. */
static bool draw_with_details(FaceSheets *sheets, Drawing *scratch, double scale)
{
    char scale_text[FURNITURE_SCALE_TEXT];
    Furniture furniture = furniture_of(sheets->source, sheets->sheet, 1, scale_text);
    furniture.scale = 0;
    Box body = furniture_body(scratch, &furniture);
    sheets->details.scale = scale;
    for (int round = 0; round < DETAIL_ROUNDS; round++) {
        if (!details_plan(&sheets->details, sheets->source, sheets->table, sheets->face,
                          DETAIL_SHARE * (body.x1 - body.x0), DETAIL_SHARE * (body.y1 - body.y0)))
            return false;
        drawing_clear(scratch);
        face_sheets_draw(sheets, scratch, 1, 1);
        if (sheets->unplaced == 0)
            return true;
    }
    return false;
}

/* Draws, and where labels find no place tries details, at the least scale that helps. */
static void draw_and_try_details(FaceSheets *sheets, Drawing *scratch)
{
    bool inch = plate_settings(sheets->source->plate)->unit == PLATE_INCH;
    const double *scales = inch ? inch_scales : metric_scales;
    details_clear(&sheets->details, sheets->table);
    drawing_clear(scratch);
    face_sheets_draw(sheets, scratch, 1, 1);
    for (size_t i = G_N_ELEMENTS(metric_scales); i-- > 0 && sheets->unplaced > 0;) {
        if (scales[i] >= 2 * sheets->scale && draw_with_details(sheets, scratch, scales[i]))
            return;
    }
    if (sheets->unplaced == 0)
        return;
    details_clear(&sheets->details, sheets->table);
    drawing_clear(scratch);
    face_sheets_draw(sheets, scratch, 1, 1);
}

/* Chooses the scale on the sheet and draws there. */
static bool try_sheet(FaceSheets *sheets, Drawing *scratch, Error *error)
{
    double most = fitting_scale(sheets, scratch), asked = sheets->spec->scale;
    const char *name = sheet_format(sheets->sheet)->name;
    if (most == 0)
        return error_set(error, ERROR_LIMIT, NULL,
                         "the plate is too large for a sheet %s at any standard scale; choose a "
                         "larger sheet",
                         name);
    if (asked > 0 && !scale_fits(sheets, scratch, asked)) {
        char text[FURNITURE_SCALE_TEXT], fits[FURNITURE_SCALE_TEXT];
        furniture_scale_text(asked, text);
        furniture_scale_text(most, fits);
        return error_set(error, ERROR_LIMIT, NULL,
                         "at %s the views don't fit on a sheet %s; choose a larger sheet, or a "
                         "scale of %s or less",
                         text, name, fits);
    }
    sheets->scale = asked > 0 ? asked : most;
    draw_and_try_details(sheets, scratch);
    return true;
}

bool face_sheets_start(FaceSheets *sheets, Drawing *scratch, const DrawingSource *source,
                       const Shopplan *plan, const ViewSpec *spec, FeatureId face, Error *error)
{
    static const SheetSize iso[] = {SHEET_A4, SHEET_A3, SHEET_A2, SHEET_A1};
    static const SheetSize asme[] = {SHEET_LETTER, SHEET_B, SHEET_C, SHEET_D};
    *sheets = (FaceSheets){.source = source,
                           .spec = spec,
                           .face = face,
                           .table = hole_table_new_in(source, face, view_style(source, spec)),
                           .sheet = spec->sheet};
    hole_table_add_tools(sheets->table, plan);
    details_start(&sheets->details, sheets->table);
    if (spec->choose_sheet)
        return try_sheet(sheets, scratch, error);
    bool inch = plate_settings(source->plate)->standard == SHEET_STANDARD_ASME;
    bool drawn = false;
    for (size_t i = 0; i < G_N_ELEMENTS(iso); i++) {
        sheets->sheet = inch ? asme[i] : iso[i];
        drawn = try_sheet(sheets, scratch, error);
        if (drawn && sheets->unplaced == 0 && sheets->scale >= SCALE_LEAST)
            break;
    }
    return drawn;
}

void face_sheets_end(FaceSheets *sheets)
{
    details_end(&sheets->details);
    hole_table_free(sheets->table);
    sheets->table = NULL;
}
