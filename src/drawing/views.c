#include "drawing/views.h"

#include "drawing/dimension.h"
#include "drawing/elevation.h"
#include "drawing/labels.h"
#include "drawing/ordinates.h"
#include "drawing/plan.h"

#define SIZE_LINE 14.0     /* from an edge to its overall dimension, mm */
#define SIZE_REACH 20.0    /* the same with the figure */
#define APART 8.0          /* between what is written round one view and the next view */
#define ELEVATION_ROOM 4.0 /* above and below the elevation, for its axes */

/* Everything that follows from the plate and the scale; distances in mm on the sheet. */
typedef struct Arrangement {
    double length, width, thickness;  /* of the stock */
    bool datum_back, datum_right;     /* ordinates stand on the datum's side */
    double left, right, below, above; /* what is written round the plan */
    bool elevation_above;
} Arrangement;

static Arrangement arrange(const Drawing *drawing, const DrawingSource *source,
                           const HoleTable *table, double scale)
{
    const Settings *settings = plate_settings(source->plate);
    const Stock *stock = &settings->stock;
    Place datum = plate_datum(source->plate);
    Arrangement a = {
        .length = length_to_mm(stock->length) * scale,
        .width = length_to_mm(stock->width) * scale,
        .thickness = length_to_mm(stock->thickness) * scale,
        .datum_back = datum.y > stock->width / 2,
        .datum_right = datum.x > stock->length / 2,
        .elevation_above = settings->projection == PROJECTION_FIRST,
    };
    double beside = ordinates_reach(drawing, table, true);
    double across = ordinates_reach(drawing, table, false);
    a.left = a.datum_right ? SIZE_REACH : beside;
    a.right = a.datum_right ? beside : SIZE_REACH;
    a.below = a.datum_back ? SIZE_REACH : across;
    a.above = a.datum_back ? across : SIZE_REACH;
    return a;
}

ViewsSize views_size(const Drawing *drawing, const DrawingSource *source, const HoleTable *table,
                     double scale)
{
    Arrangement a = arrange(drawing, source, table, scale);
    return (ViewsSize){a.left + a.length + a.right,
                       a.above + a.width + a.below + APART + a.thickness + ELEVATION_ROOM};
}

static DimensionStandard standard_of(const DrawingSource *source)
{
    return plate_settings(source->plate)->standard == SHEET_STANDARD_ASME ? DIMENSION_ASME
                                                                          : DIMENSION_ISO;
}

static void draw_size(Drawing *drawing, const DrawingSource *source, Length length, Point from,
                      Point to, bool upright, double line)
{
    const Settings *settings = plate_settings(source->plate);
    FigureStyle style = {(PlateUnit)settings->unit, (SheetStandard)settings->standard};
    char text[FIGURE_TEXT];
    figure_length(style, length, text);
    LinearDimension dimension = {
        from, to, upright, line, SHEET_LETTERING, text, standard_of(source)};
    drawing_about(drawing, ROLE_DIMENSION, ID_SETTINGS);
    dimension_linear(drawing, &dimension);
}

/* Length, width and thickness of the stock, on the sides where the ordinates are not. */
static void draw_sizes(Drawing *drawing, const DrawingSource *source, const Arrangement *a,
                       Box plan, Box elevation)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    double y = a->datum_back ? plan.y0 : plan.y1;
    draw_size(drawing, source, stock->length, (Point){plan.x0, y}, (Point){plan.x1, y}, false,
              a->datum_back ? y - SIZE_LINE : y + SIZE_LINE);
    double x = a->datum_right ? plan.x0 : plan.x1;
    double line = a->datum_right ? x - SIZE_LINE : x + SIZE_LINE;
    draw_size(drawing, source, stock->width, (Point){x, plan.y0}, (Point){x, plan.y1}, true, line);
    draw_size(drawing, source, stock->thickness, (Point){x, elevation.y0}, (Point){x, elevation.y1},
              true, line);
}

static void draw_ordinates(Drawing *drawing, const DrawingSource *source, const HoleTable *table,
                           const Arrangement *a, ViewMap map, Box plan)
{
    Place datum = plate_datum(source->plate);
    OrdinateEdge along = {a->datum_back ? ORDINATE_ABOVE : ORDINATE_BELOW,
                          a->datum_back ? plan.y1 : plan.y0,
                          plan.x0,
                          plan.x1,
                          map.origin.x,
                          map.scale,
                          length_to_mm(datum.x)};
    ordinates_draw(drawing, table, &along);
    OrdinateEdge beside = {a->datum_right ? ORDINATE_RIGHT : ORDINATE_LEFT,
                           a->datum_right ? plan.x1 : plan.x0,
                           plan.y0,
                           plan.y1,
                           map.origin.y,
                           map.scale,
                           length_to_mm(datum.y)};
    ordinates_draw(drawing, table, &beside);
}

size_t views_draw(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                  const HoleTable *table, double scale, Box area)
{
    Arrangement a = arrange(drawing, source, table, scale);
    ViewsSize size = views_size(drawing, source, table, scale);
    double left = (area.x0 + area.x1 - size.width) / 2 + a.left;
    double top = (area.y0 + area.y1 + size.height) / 2;
    double elevation_block = a.thickness + APART + ELEVATION_ROOM;
    double plan_top = top - a.above - (a.elevation_above ? elevation_block : 0);
    Box plan = {left, plan_top - a.width, left + a.length, plan_top};
    double elevation_top = a.elevation_above ? top - ELEVATION_ROOM / 2 : plan.y0 - a.below - APART;
    Box elevation = {left, elevation_top - a.thickness, left + a.length, elevation_top};

    ViewMap map = {{plan.x0, plan.y0}, scale};
    ViewMap front = {{elevation.x0, elevation.y1}, scale};
    unsigned kinds = FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR;
    kinds |= spec->hide_parts ? 0 : FEATURE_PART;
    kinds |= spec->show_fittings ? FEATURE_FITTING : 0;
    plan_stock(drawing, source, map);
    plan_features(drawing, source, map, ID_TOP, kinds);
    plan_datum(drawing, source, map);
    elevation_draw(drawing, source, front);
    draw_sizes(drawing, source, &a, plan, elevation);
    draw_ordinates(drawing, source, table, &a, map, plan);
    return labels_draw(drawing, source, map, table, area);
}
