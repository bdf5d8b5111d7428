#include "drawing/views.h"

#include "drawing/chain.h"
#include "drawing/datum-letter.h"
#include "drawing/dimension.h"
#include "drawing/elevation.h"
#include "drawing/labels.h"
#include "drawing/ordinates.h"
#include "drawing/plan.h"
#include "drawing/position-frames.h"
#include "drawing/section.h"

#define SIZE_LINE 14.0     /* from an edge to its overall dimension, mm */
#define SIZE_REACH 20.0    /* the same with the figure */
#define SIZE_GAP 3.0       /* from an edge to a figure beside it */
#define FRAME_ROWS_MOST 2  /* of tolerance frames above the plan */
#define APART 8.0          /* between what is written round one view and the next view */
#define ELEVATION_ROOM 4.0 /* above and below the elevation, for its axes */
#define DATUM_OFF 9.9      /* along an edge's extension to its datum sign */

/* Everything that follows from the plate and the scale; distances in mm on the sheet. */
typedef struct Arrangement {
    double length, width, thickness;  /* of the face, and of the stock */
    bool datum_back, datum_right;     /* ordinates stand on the datum's side */
    double size_line;                 /* from an upright edge to its overall dimension */
    double size_reach;                /* the same with the figure */
    double level_line;                /* from a level edge to its overall dimension */
    double over_width, over_length;   /* of the figures of both beyond the face */
    double left, right, below, above; /* what is written round the plan */
    double elevation;                 /* what the front elevation takes; 0 without one */
    double gap;                       /* from what is written round the plan to it */
    bool elevation_above;
    SectionLine sections[SECTIONS_MOST]; /* clipped; letter 0: none */
} Arrangement;

static DimensionStandard dimension_standard(SheetStandard standard)
{
    return standard == SHEET_STANDARD_ASME ? DIMENSION_ASME : DIMENSION_ISO;
}

static LinearDimension size_dimension(FigureStyle style, const char *text, Point from, Point to,
                                      bool upright, double line)
{
    return (LinearDimension){.from = from,
                             .to = to,
                             .upright = upright,
                             .line = line,
                             .height = SHEET_LETTERING,
                             .text = text,
                             .standard = dimension_standard(style.standard)};
}

static double places_reach(const Drawing *drawing, const HoleTable *table, const FaceView *face,
                           const ViewSpec *spec, bool beside)
{
    return spec->chained ? chain_reach(drawing, table, face, beside)
                         : ordinates_reach(drawing, table, beside);
}

/* The wider of the figures of the width and the thickness, which ASME Y14.5 has level in an upright
 * line, mm; 0 where they stand along it. */
static double upright_width(const Drawing *drawing, const DrawingSource *source,
                            const FaceView *face, FigureStyle style)
{
    Length lengths[] = {length_from_mm(face->box.y1 - face->box.y0),
                        plate_settings(source->plate)->stock.thickness};
    double widest = 0;
    for (size_t i = 0; i < G_N_ELEMENTS(lengths) && style.standard == SHEET_STANDARD_ASME; i++) {
        char text[FIGURE_TEXT];
        figure_length(style, lengths[i], text);
        widest = fmax(widest, lettering_extent(drawing->lettering, text, SHEET_LETTERING).width);
    }
    return widest;
}

/* How far the figure of a length that takes `measured` mm on the sheet reaches beyond it. */
static double overhang(const Drawing *drawing, FigureStyle style, Length length, double measured,
                       bool upright)
{
    char text[FIGURE_TEXT];
    figure_length(style, length, text);
    Point to = upright ? (Point){0, measured} : (Point){measured, 0};
    LinearDimension size = size_dimension(style, text, (Point){0, 0}, to, upright, SIZE_LINE);
    return dimension_overhang(drawing, &size);
}

/* Where the overall dimensions of the face lie, and what they take beside and above it. */
static void arrange_sizes(Arrangement *a, const Drawing *drawing, const DrawingSource *source,
                          const FaceView *face, FigureStyle style)
{
    double figure = upright_width(drawing, source, face, style);
    a->size_line = fmax(SIZE_LINE, figure / 2 + SIZE_GAP);
    a->size_reach = fmax(SIZE_REACH, a->size_line + figure / 2 + 1);
    a->over_width =
        overhang(drawing, style, length_from_mm(face->box.y1 - face->box.y0), a->width, true);
    a->over_length =
        overhang(drawing, style, length_from_mm(face->box.x1 - face->box.x0), a->length, false);
    /* Where neither has room between its ends, both would meet beyond the face's corner. */
    a->level_line = SIZE_LINE;
    if (a->over_length > 0 && a->over_width > 0)
        a->level_line = fmax(SIZE_LINE, a->over_width + SIZE_GAP);
}

static Arrangement arrange(const Drawing *drawing, const DrawingSource *source,
                           const HoleTable *table, const FaceView *face, const ViewSpec *spec,
                           double scale)
{
    const Settings *settings = plate_settings(source->plate);
    Box box = face->box;
    Arrangement a = {
        .length = (box.x1 - box.x0) * scale,
        .width = (box.y1 - box.y0) * scale,
        .thickness = length_to_mm(settings->stock.thickness) * scale,
        .datum_back = length_to_mm(face->datum.y) > (box.y0 + box.y1) / 2,
        .datum_right = length_to_mm(face->datum.x) > (box.x0 + box.x1) / 2,
        .elevation_above = settings->projection == PROJECTION_FIRST,
    };
    double beside = places_reach(drawing, table, face, spec, true);
    double across = places_reach(drawing, table, face, spec, false);
    arrange_sizes(&a, drawing, source, face, table->style);
    a.left = a.datum_right ? a.size_reach : beside;
    a.right = a.datum_right ? beside : a.size_reach;
    a.right = fmax(a.right, a.over_length);
    double level = a.level_line + SIZE_REACH - SIZE_LINE;
    a.below = a.datum_back ? level : across;
    a.above = fmax(a.datum_back ? across : level, a.over_width);
    /* Above the elevation: the sign of datum A, and the figure of a thin stock's thickness. */
    double over = fmax(DATUM_SIGN_REACH, overhang(drawing, table->style, settings->stock.thickness,
                                                  a.thickness, true));
    a.gap = a.elevation_above ? APART : fmax(APART, DATUM_SIGN_REACH + SIZE_GAP + over - a.below);
    a.elevation = face->top ? a.thickness + a.gap + ELEVATION_ROOM : 0;
    if (face->top && a.elevation_above)
        a.elevation += over;
    for (int i = 0; face->top && i < SECTIONS_MOST; i++) {
        a.sections[i] = spec->sections[i];
        if (a.sections[i].letter && !section_clip(source, &a.sections[i]))
            a.sections[i].letter = 0;
    }
    return a;
}

static ViewsSize size_of(const Arrangement *a)
{
    return (ViewsSize){a->left + a->length + a->right,
                       a->above + a->width + a->below + a->elevation};
}

ViewsSize views_size(const Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                     const HoleTable *table, FeatureId face, double scale)
{
    FaceView view = face_view(source, face);
    Arrangement a = arrange(drawing, source, table, &view, spec, scale);
    return size_of(&a);
}

static void draw_size(Drawing *drawing, FigureStyle style, Length length, Point from, Point to,
                      bool upright, double line)
{
    char text[FIGURE_TEXT];
    figure_length(style, length, text);
    LinearDimension dimension = size_dimension(style, text, from, to, upright, line);
    drawing_about(drawing, ROLE_DIMENSION, ID_SETTINGS);
    dimension_linear(drawing, &dimension);
}

/* Length and width of the face, on the sides where the ordinates are not. */
static void draw_sizes(Drawing *drawing, FigureStyle style, const FaceView *face,
                       const Arrangement *a, Box plan)
{
    double y = a->datum_back ? plan.y0 : plan.y1;
    draw_size(drawing, style, length_from_mm(face->box.x1 - face->box.x0), (Point){plan.x0, y},
              (Point){plan.x1, y}, false, a->datum_back ? y - a->level_line : y + a->level_line);
    double x = a->datum_right ? plan.x0 : plan.x1;
    draw_size(drawing, style, length_from_mm(face->box.y1 - face->box.y0), (Point){x, plan.y0},
              (Point){x, plan.y1}, true, a->datum_right ? x - a->size_line : x + a->size_line);
}

static void draw_places(Drawing *drawing, const HoleTable *table, const FaceView *face,
                        const Arrangement *a, ViewMap map, Box plan, bool chained)
{
    bool (*draw)(Drawing *, const HoleTable *, const OrdinateEdge *) =
        chained ? chain_draw : ordinates_draw;
    OrdinateEdge along = {a->datum_back ? ORDINATE_ABOVE : ORDINATE_BELOW,
                          a->datum_back ? plan.y1 : plan.y0,
                          plan.x0,
                          plan.x1,
                          map.origin.x,
                          map.scale,
                          length_to_mm(face->datum.x)};
    draw(drawing, table, &along);
    OrdinateEdge beside = {a->datum_right ? ORDINATE_RIGHT : ORDINATE_LEFT,
                           a->datum_right ? plan.x1 : plan.x0,
                           plan.y0,
                           plan.y1,
                           map.origin.y,
                           map.scale,
                           length_to_mm(face->datum.y)};
    draw(drawing, table, &beside);
}

/* The sign of datum A, on an extension of the top's edge in the elevation. */
static void draw_top_datum(Drawing *drawing, const Arrangement *a, Box elevation)
{
    double way = a->datum_right ? 1 : -1, edge = a->datum_right ? elevation.x1 : elevation.x0;
    drawing_about(drawing, ROLE_DATUM, ID_NONE);
    drawing_line(drawing, LINE_DIMENSION, (Point){edge + way * DIMENSION_GAP, elevation.y1},
                 (Point){edge + way * (DATUM_OFF + DATUM_SIGN_HALF), elevation.y1});
    datum_sign_draw(drawing, (Point){edge + way * DATUM_OFF, elevation.y1}, (Point){0, 1}, 'A');
}

/* The front elevation on the plan's X, above or below it, and the stock's thickness. */
static void draw_elevation(Drawing *drawing, const DrawingSource *source, FigureStyle style,
                           const Arrangement *a, Box plan, double scale)
{
    double top = a->elevation_above
                     ? plan.y1 + a->above + a->gap + a->thickness + ELEVATION_ROOM / 2
                     : plan.y0 - a->below - a->gap;
    Box box = {plan.x0, top - a->thickness, plan.x1, top};
    elevation_draw(drawing, source, (ViewMap){{box.x0, box.y1}, scale});
    double x = a->datum_right ? plan.x0 : plan.x1;
    draw_size(drawing, style, plate_settings(source->plate)->stock.thickness, (Point){x, box.y0},
              (Point){x, box.y1}, true, a->datum_right ? x - a->size_line : x + a->size_line);
    draw_top_datum(drawing, a, box);
}

/* The signs of datums B and C at the ends of their edges that ordinates leave free, on the witness
 * lines of the overall sizes. */
static void draw_edge_datums(Drawing *drawing, const DrawingSource *source, const Arrangement *a,
                             Box plan)
{
    const Datum *datum = &plate_settings(source->plate)->datum;
    bool corner = datum->kind == DATUM_CORNER;
    bool back = corner && datum->corner >= CORNER_BACK_RIGHT;
    bool right =
        corner && (datum->corner == CORNER_FRONT_RIGHT || datum->corner == CORNER_BACK_RIGHT);
    Point level = {a->datum_right ? plan.x0 - DATUM_OFF : plan.x1 + DATUM_OFF,
                   back ? plan.y1 : plan.y0};
    datum_sign_draw(drawing, level, (Point){0, back ? 1 : -1},
                    datum->kind == DATUM_HOLE ? 'C' : 'B');
    if (datum->kind == DATUM_HOLE)
        return;
    Point upright = {right ? plan.x1 : plan.x0,
                     a->datum_back ? plan.y0 - DATUM_OFF : plan.y1 + DATUM_OFF};
    datum_sign_draw(drawing, upright, (Point){right ? 1 : -1, 0}, 'C');
}

unsigned views_kinds(const ViewSpec *spec)
{
    unsigned kinds = FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR;
    kinds |= spec->hide_parts ? 0 : FEATURE_PART;
    kinds |= spec->show_fittings ? FEATURE_FITTING : 0;
    return kinds;
}

/* The outlines of what is drawn again at a larger scale; their letters go to `letters`. */
static size_t mark_details(Drawing *drawing, const Details *details, ViewMap map,
                           LooseLabel *letters)
{
    drawing_about(drawing, ROLE_DIMENSION, ID_NONE);
    for (size_t i = 0; i < details->count; i++) {
        Box area = details->items[i].area;
        Point low = view_point(map, (Point){area.x0, area.y0});
        Point high = view_point(map, (Point){area.x1, area.y1});
        drawing_box(drawing, LINE_DIMENSION, (Box){low.x, low.y, high.x, high.y});
        letters[i] = (LooseLabel){high, {details->items[i].letter, '\0'}};
    }
    return details->count;
}

/* Labels, and the letters of the sections and the details. */
static size_t draw_labels(Drawing *drawing, const DrawingSource *source, ViewMap map,
                          const FaceView *face, const HoleTable *table, const Arrangement *a,
                          Box area, Details *details)
{
    LooseLabel letters[2 * SECTIONS_MOST + DETAILS_MOST];
    size_t count = 0;
    for (int i = 0; i < SECTIONS_MOST; i++) {
        Point tails[2];
        if (a->sections[i].letter == 0)
            continue;
        section_mark(drawing, &a->sections[i], map, tails);
        for (int end = 0; end < 2; end++)
            letters[count++] = (LooseLabel){tails[end], {a->sections[i].letter, '\0'}};
    }
    count += mark_details(drawing, details, map, letters + count);
    bool *elsewhere = g_new(bool, table->count);
    for (size_t i = 0; i < table->count; i++)
        elsewhere[i] = details->of[i] != 0;
    LabelTask task = {table, elsewhere, details->missing, letters, count, area};
    size_t unplaced = labels_draw(drawing, source, map, face, &task);
    g_free(elsewhere);
    return unplaced;
}

/* Room for tolerance frames between the plan and its overall length, out of what the sheet has. */
static void make_frame_room(Arrangement *a, const HoleTable *table, double spare)
{
    double wanted =
        POSITION_FRAME_PITCH * (double)MIN(position_frames_count(table), FRAME_ROWS_MOST);
    double more = fmin(wanted, spare - 1);
    if (more < POSITION_FRAME_PITCH)
        return;
    a->level_line += more;
    *(a->datum_back ? &a->below : &a->above) += more;
}

size_t views_draw(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                  const HoleTable *table, FeatureId of, double scale, Box area, Details *details)
{
    FaceView face = face_view(source, of);
    Arrangement a = arrange(drawing, source, table, &face, spec, scale);
    ViewsSize size = size_of(&a);
    make_frame_room(&a, table, area.y1 - area.y0 - size.height);
    size = size_of(&a);
    double left = (area.x0 + area.x1 - size.width) / 2 + a.left;
    double top = (area.y0 + area.y1 + size.height) / 2 - a.above;
    top -= a.elevation_above ? a.elevation : 0;
    Box plan = {left, top - a.width, left + a.length, top};
    ViewMap map = {{plan.x0 - face.box.x0 * scale, plan.y0 - face.box.y0 * scale}, scale};

    plan_face(drawing, source, map, face.face);
    plan_features(drawing, source, map, face.face, views_kinds(spec));
    plan_origin(drawing, source, map, face.face);
    if (face.top)
        draw_elevation(drawing, source, table->style, &a, plan, scale);
    draw_sizes(drawing, table->style, &face, &a, plan);
    if (face.top)
        draw_edge_datums(drawing, source, &a, plan);
    draw_places(drawing, table, &face, &a, map, plan, spec->chained);
    size_t unplaced = draw_labels(drawing, source, map, &face, table, &a, area, details);
    Box frames = {plan.x0, a.datum_back ? plan.y0 - a.below : plan.y0, plan.x1,
                  a.datum_back ? plan.y1 : plan.y1 + a.above};
    position_frames_draw(drawing, source, map, table, frames);
    return unplaced;
}
