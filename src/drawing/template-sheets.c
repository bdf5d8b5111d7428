#include "drawing/template-sheets.h"

#include "drawing/caution.h"
#include "drawing/clip.h"
#include "drawing/labels.h"
#include "drawing/paragraph.h"
#include "drawing/plan.h"

#include <glib.h>

/* All mm on paper. */
#define PAPER_MARGIN 6.0 /* that small printers leave white at the most */
#define CUT_MARK 6.0     /* length of the marks that the sheet is cut along */
#define CUT_GAP 1.0      /* from the overlap to them */
#define OVERLAP 5.0      /* beyond the cut, on each side */
#define PLATE_MARGIN 2.0 /* from the plate's edges to the outermost cuts */
#define LABELS_AROUND 30.0
#define STRIP_GAP 3.0
#define STRIP_ROW 5.95 /* between two lines of text */
#define BAR_TICK 2.5
#define BARS_HEIGHT 26.0
#define TEXT_BESIDE 112.0 /* from the bars' left end to the text beside them */

static bool is_asme(const DrawingSource *source)
{
    return plate_settings(source->plate)->standard == SHEET_STANDARD_ASME;
}

/* How the tiles lie: their area on paper between the cuts, and how many there are. */
typedef struct Tiling {
    const SheetFormat *format;
    Box cut; /* on every sheet */
    int across, up;
    Box plate; /* mm on the face: what the tiles cover, from their lower left */
} Tiling;

static Tiling tile(const DrawingSource *source, double strip, FeatureId face)
{
    const SheetFormat *format = sheet_format(is_asme(source) ? SHEET_LETTER : SHEET_A4);
    double around = PAPER_MARGIN + CUT_MARK + CUT_GAP + OVERLAP;
    Box box = face_view(source, face).box;
    Tiling tiling = {
        .format = format,
        .cut = {around, strip + CUT_MARK + CUT_GAP + OVERLAP, format->width - around,
                format->height - around},
    };
    double width = tiling.cut.x1 - tiling.cut.x0, height = tiling.cut.y1 - tiling.cut.y0;
    double long_side = box.x1 - box.x0 + 2 * PLATE_MARGIN;
    double short_side = box.y1 - box.y0 + 2 * PLATE_MARGIN;
    tiling.across = (int)fmin(ceil(long_side / width), 1000);
    tiling.up = (int)fmin(ceil(short_side / height), 1000);
    Point spare = {(tiling.across * width - long_side) / 2, (tiling.up * height - short_side) / 2};
    tiling.plate = (Box){box.x0 - PLATE_MARGIN - spare.x, box.y0 - PLATE_MARGIN - spare.y,
                         box.x1 + PLATE_MARGIN + spare.x, box.y1 + PLATE_MARGIN + spare.y};
    return tiling;
}

/* The caution takes no more lines than this at the width of a small sheet. */
#define CAUTION_LINES 5

static double strip_height(void)
{
    return PAPER_MARGIN + CAUTION_LINES * STRIP_ROW + STRIP_GAP + BARS_HEIGHT + STRIP_GAP;
}

int template_sheets_count(const DrawingSource *source, FeatureId face)
{
    Tiling tiling = tile(source, strip_height(), face);
    return tiling.across * tiling.up;
}

/* The whole face at 1:1 on one sheet as large as it needs, which the tiles are cut from. */
static Drawing *draw_whole(const Drawing *like, const DrawingSource *source, const HoleTable *table,
                           FeatureId face, ViewMap *map)
{
    Drawing *whole = drawing_new(like->lettering);
    FaceView view = face_view(source, face);
    double width = view.box.x1 - view.box.x0 + 2 * LABELS_AROUND;
    double height = view.box.y1 - view.box.y0 + 2 * LABELS_AROUND;
    *map = (ViewMap){{LABELS_AROUND - view.box.x0, LABELS_AROUND - view.box.y0}, 1};
    drawing_begin_sheet(whole, width, height, "");
    plan_face(whole, source, *map, face);
    plan_features(whole, source, *map, face,
                  FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR | FEATURE_PART);
    plan_origin(whole, source, *map, face);
    Box plate = {LABELS_AROUND, LABELS_AROUND, width - LABELS_AROUND, height - LABELS_AROUND};
    LabelTask task = {.table = table, .area = plate};
    labels_draw(whole, source, *map, &view, &task);
    return whole;
}

static void draw_cut_marks(Drawing *drawing, Box cut)
{
    double near = OVERLAP + CUT_GAP, far = near + CUT_MARK;
    drawing_about(drawing, ROLE_FURNITURE, 0);
    for (int i = 0; i < 4; i++) {
        Point corner = {i & 1 ? cut.x1 : cut.x0, i & 2 ? cut.y1 : cut.y0};
        double x = i & 1 ? 1 : -1, y = i & 2 ? 1 : -1;
        drawing_line(drawing, LINE_TABLE, (Point){corner.x + x * near, corner.y},
                     (Point){corner.x + x * far, corner.y});
        drawing_line(drawing, LINE_TABLE, (Point){corner.x, corner.y + y * near},
                     (Point){corner.x, corner.y + y * far});
    }
}

/* A line of a known length, with a tick at every part of it. */
static void draw_bar(Drawing *drawing, Point from, double length, int parts, const char *text)
{
    drawing_line(drawing, LINE_TABLE, from, (Point){from.x + length, from.y});
    for (int i = 0; i <= parts; i++) {
        double x = from.x + length * i / parts;
        double tick = i % parts == 0 ? 2 * BAR_TICK : BAR_TICK;
        drawing_line(drawing, LINE_TABLE, (Point){x, from.y}, (Point){x, from.y - tick});
    }
    drawing_text(drawing, (Point){from.x + length / 2, from.y + 1.2},
                 (TextStyle){SHEET_LETTERING, TEXT_MIDDLE, TEXT_BASE, 0}, text);
}

static char *name_tile(const DrawingSource *source, FeatureId face, int column, int row, int total,
                       int sheet)
{
    const Settings *settings = plate_settings(source->plate);
    const Record *record = placed_record(source->placed, face);
    const char *name = record && record->kind == RECORD_FACE ? record->face.name : NULL;
    return g_strdup_printf("%s%s%s, face %s\nTemplate 1:1, column %d, row %d\nSheet %d of %d",
                           settings->number ? settings->number : "",
                           settings->revision ? " revision " : "",
                           settings->revision ? settings->revision : "", name ? name : "top",
                           column + 1, row + 1, sheet, total);
}

/* Below the tile: the bars, what sheet it is, and the caution. */
static void draw_strip(Drawing *drawing, const Tiling *tiling, const char *name)
{
    double left = PAPER_MARGIN + 2, width = tiling->format->width - 2 * left;
    double top = PAPER_MARGIN + CAUTION_LINES * STRIP_ROW + STRIP_GAP + BARS_HEIGHT;
    drawing_about(drawing, ROLE_FURNITURE, 0);
    draw_bar(drawing, (Point){left, top - 5}, 100, 10, "100 mm");
    draw_bar(drawing, (Point){left, top - 19}, 4 * 25.4, 4, "4 in");
    drawing_about(drawing, ROLE_NOTE, 0);
    double beside = left + TEXT_BESIDE;
    paragraph_draw(drawing, (Point){beside, top - 0.5}, left + width - beside, SHEET_LETTERING,
                   TEXT_START, name, 4);
    char *caution =
        g_strdup_printf("Print at actual size and measure both bars before use. %s", caution_text);
    paragraph_draw(drawing, (Point){left, top - BARS_HEIGHT - STRIP_GAP}, width, SHEET_LETTERING,
                   TEXT_START, caution, CAUTION_LINES);
    g_free(caution);
}

void template_sheets_draw(Drawing *drawing, const DrawingSource *source, const HoleTable *table,
                          FeatureId face, int total)
{
    Tiling tiling = tile(source, strip_height(), face);
    ViewMap map;
    Drawing *whole = draw_whole(drawing, source, table, face, &map);
    double width = tiling.cut.x1 - tiling.cut.x0, height = tiling.cut.y1 - tiling.cut.y0;
    for (int i = 0; i < tiling.across * tiling.up; i++) {
        int column = i % tiling.across, row = tiling.up - 1 - i / tiling.across;
        Point corner = view_point(
            map, (Point){tiling.plate.x0 + column * width, tiling.plate.y0 + row * height});
        Box tile_area = {corner.x, corner.y, corner.x + width, corner.y + height};
        Point shift = {tiling.cut.x0 - corner.x, tiling.cut.y0 - corner.y};
        drawing_begin_sheet(drawing, tiling.format->width, tiling.format->height, "Template");
        char *name = name_tile(source, face, column, row, total, (int)drawing->sheet_count);
        draw_strip(drawing, &tiling, name);
        draw_cut_marks(drawing, tiling.cut);
        clip_copy(drawing, whole, &whole->sheets[0], box_grown(tile_area, OVERLAP), shift);
        g_free(name);
    }
    drawing_free(whole);
}
