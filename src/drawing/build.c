#include "drawing/build.h"

#include "drawing/dimension.h"
#include "drawing/furniture.h"
#include "drawing/hole-table.h"
#include "drawing/labels.h"
#include "drawing/plan.h"
#include "drawing/table-sheets.h"
#include "drawing/views.h"

#include <glib.h>

/* Standard scales: ISO 5455, and those usual with inch drawings; from the largest. */
static const double metric_scales[] = {10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02};
static const double inch_scales[] = {8, 4, 2, 1, 0.5, 0.25, 0.125, 0.0625, 0.03125};

/* Smaller plates are not drawn larger than this, so that a drawing looks its size. */
#define SCALE_MOST 2.0

typedef struct Building {
    Drawing *drawing;
    const DrawingSource *source;
    const ViewSpec *spec;
    const HoleTable *table;
    SheetSize sheet;
    double scale;
} Building;

static bool is_inch_sheet(const DrawingSource *source)
{
    return plate_settings(source->plate)->standard == SHEET_STANDARD_ASME;
}

/* The largest standard scale at which the views fit in the sheet's body; 0 when none does. */
static double fitting_scale(const Building *building)
{
    bool inch = plate_settings(building->source->plate)->unit == PLATE_INCH;
    const double *scales = inch ? inch_scales : metric_scales;
    char text[FURNITURE_SCALE_TEXT];
    for (size_t i = 0; i < G_N_ELEMENTS(metric_scales); i++) {
        if (scales[i] > SCALE_MOST)
            continue;
        Furniture furniture = furniture_of(building->source, building->sheet, scales[i], text);
        Box body = furniture_body(building->drawing, &furniture);
        ViewsSize size = views_size(building->drawing, building->source, building->table,
                                    building->spec->face, scales[i]);
        if (size.width <= body.x1 - body.x0 && size.height <= body.y1 - body.y0)
            return scales[i];
    }
    return 0;
}

/* The names of sheets stand in a PDF's outline. */
static void sheet_name(int sheet, char *name, size_t size)
{
    g_snprintf(name, size, sheet == 1 ? "Drawing" : "Table, sheet %d", sheet);
}

/* Draws all sheets and returns how many labels found no place. */
static size_t draw_sheets(const Building *building)
{
    Drawing *drawing = building->drawing;
    char scale_text[FURNITURE_SCALE_TEXT], name[64];
    Furniture furniture =
        furniture_of(building->source, building->sheet, building->scale, scale_text);
    /* A sheet of another face than the top says which. */
    char kind[96];
    const Record *face = placed_record(building->source->placed, building->spec->face);
    if (!face_view(building->source, building->spec->face).top && face) {
        g_snprintf(kind, sizeof kind, "Fixture plate, face %s",
                   face->face.name ? face->face.name : "");
        furniture.block.kind = kind;
    }
    bool with_table = !building->spec->hide_table && building->table->count > 0;
    TableSheets sheets;
    table_sheets_start(&sheets, drawing, building->table);

    /* With the table on the first sheet where it has room below or beside the views. */
    Box body = furniture_body(drawing, &furniture);
    ViewsSize size = views_size(drawing, building->source, building->table, building->spec->face,
                                building->scale);
    Box views, rest;
    bool together = with_table && table_sheets_share(&sheets, body, size, &views, &rest);
    Furniture table_furniture = furniture;
    table_furniture.scale = 0;
    Box table_body = furniture_body(drawing, &table_furniture);
    int count = 1;
    if (with_table && !together)
        count += table_sheets_spread(&sheets, table_body);

    furniture.block.sheet_count = table_furniture.block.sheet_count = count;
    sheet_name(1, name, sizeof name);
    furniture_draw(drawing, &furniture, name);
    size_t unplaced = views_draw(drawing, building->source, building->spec, building->table,
                                 building->scale, together ? views : body);
    if (together)
        table_sheets_draw(&sheets, rest);
    for (int i = 2; i <= count; i++) {
        table_furniture.block.sheet = i;
        sheet_name(i, name, sizeof name);
        furniture_draw(drawing, &table_furniture, name);
        table_sheets_draw(&sheets, table_body);
    }
    table_sheets_end(&sheets);
    return unplaced;
}

static void describe(const Building *building)
{
    const Settings *settings = plate_settings(building->source->plate);
    Drawing *drawing = building->drawing;
    g_strlcpy(drawing->title, settings->name ? settings->name : "Fixture plate",
              sizeof drawing->title);
    g_strlcpy(drawing->author, settings->shop ? settings->shop : "", sizeof drawing->author);
    g_snprintf(drawing->subject, sizeof drawing->subject, "Fixture plate%s%s%s%s",
               settings->number ? " " : "", settings->number ? settings->number : "",
               settings->revision ? ", revision " : "",
               settings->revision ? settings->revision : "");
}

static bool build_on(Building *building, size_t *unplaced, Error *error)
{
    double asked = building->spec->scale;
    double most = fitting_scale(building);
    const char *name = sheet_format(building->sheet)->name;
    if (most == 0)
        return error_set(error, ERROR_LIMIT, NULL,
                         "the plate is too large for a sheet %s at any standard scale; choose a "
                         "larger sheet",
                         name);
    building->scale = asked > 0 ? asked : most;
    drawing_clear(building->drawing);
    describe(building);
    if (asked > 0) {
        char text[FURNITURE_SCALE_TEXT], fits[FURNITURE_SCALE_TEXT];
        Furniture furniture = furniture_of(building->source, building->sheet, asked, text);
        Box body = furniture_body(building->drawing, &furniture);
        ViewsSize size = views_size(building->drawing, building->source, building->table,
                                    building->spec->face, asked);
        furniture_scale_text(most, fits);
        if (size.width > body.x1 - body.x0 || size.height > body.y1 - body.y0)
            return error_set(error, ERROR_LIMIT, NULL,
                             "at %s the views don't fit on a sheet %s; choose a larger sheet, or "
                             "a scale of %s or less",
                             text, name, fits);
    }
    *unplaced = draw_sheets(building);
    return true;
}

/* A leaf a machinist can't read is worth less than a larger sheet: below this the next one is
 * tried. */
#define SCALE_LEAST 0.2

bool drawing_build(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                   Error *error)
{
    if (spec->face != ID_NONE && !placed_frame(source->placed, spec->face))
        return error_set(error, ERROR_MISSING, NULL, "the plate has no face with that number");
    static const SheetSize iso[] = {SHEET_A4, SHEET_A3, SHEET_A2, SHEET_A1};
    static const SheetSize asme[] = {SHEET_LETTER, SHEET_B, SHEET_C, SHEET_D};
    const SheetSize *sheets = is_inch_sheet(source) ? asme : iso;
    HoleTable *table = hole_table_new(source, face_view(source, spec->face).face);
    Building building = {drawing, source, spec, table, spec->sheet, 0};
    size_t unplaced = 0;
    bool built = false;
    if (spec->choose_sheet) {
        built = build_on(&building, &unplaced, error);
    } else {
        for (size_t i = 0; i < G_N_ELEMENTS(iso); i++) {
            building.sheet = sheets[i];
            built = build_on(&building, &unplaced, error);
            if (built && unplaced == 0 && building.scale >= SCALE_LEAST)
                break;
        }
    }
    drawing->unplaced_count = built ? unplaced : 0;
    hole_table_free(table);
    return built;
}

void drawing_build_layout(Drawing *drawing, const DrawingSource *source, double scale,
                          double margin)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, length_to_mm(stock->length) * scale + 2 * margin,
                        length_to_mm(stock->width) * scale + 2 * margin, "Layout");
    ViewMap map = {{margin, margin}, scale};
    plan_face(drawing, source, map, ID_TOP);
    plan_features(drawing, source, map, ID_TOP, ~0U);
    plan_datum(drawing, source, map, ID_TOP);
}
