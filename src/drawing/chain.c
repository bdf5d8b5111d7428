#include "drawing/chain.h"

#include "drawing/placement.h"
#include "drawing/sheet.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define OFF 10.0     /* from the edge to the dimension line, mm */
#define STRAIGHT 3.5 /* from the line past the figures in it */
#define JOG 6.0      /* along which thin lines come to the figures beyond */
#define TAIL 1.0
#define TEXT_GAP 1.0
#define OVERHANG 4.0 /* how far figures may stand beyond the edge's ends */
#define DOT 0.5      /* radius of the dots that stand for arrows in narrow pieces */

/* A piece of the chain. */
typedef struct Link {
    double from, to;  /* along, mm on the sheet */
    double figure_at; /* of a figure that stands beyond the line */
    FeatureId feature;
    bool inside;
    char text[FIGURE_TEXT];
} Link;

typedef struct Stop {
    double place; /* mm on the face */
    FeatureId feature;
} Stop;

static gint by_place(gconstpointer a, gconstpointer b)
{
    const Stop *first = a, *second = b;
    return (first->place > second->place) - (first->place < second->place);
}

/* The datum and the places of the holes, each once, in their order. */
static GArray *gather_stops(const HoleTable *table, double datum, bool beside, bool locators_only)
{
    GArray *stops = g_array_new(FALSE, FALSE, sizeof(Stop));
    Stop start = {datum, ID_NONE};
    g_array_append_val(stops, start);
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        Stop stop = {beside ? row->at.y : row->at.x, row->feature};
        if (row->kind == FEATURE_HOLE && (row->locates || !locators_only))
            g_array_append_val(stops, stop);
    }
    g_array_sort(stops, by_place);
    return stops;
}

/* Pieces between one place and the next; places whose distance is written as 0 are one. */
static GArray *gather_links(const HoleTable *table, double datum, bool beside, bool locators_only)
{
    GArray *stops = gather_stops(table, datum, beside, locators_only);
    GArray *links = g_array_new(FALSE, FALSE, sizeof(Link));
    double last = g_array_index(stops, Stop, 0).place;
    for (guint i = 1; i < stops->len; i++) {
        const Stop *stop = &g_array_index(stops, Stop, i);
        Link link = {.from = last, .to = stop->place, .feature = stop->feature};
        Length length = length_from_mm(stop->place) - length_from_mm(last);
        figure_length(table->style, length, link.text);
        if (g_str_equal(link.text, "0"))
            continue;
        g_array_append_val(links, link);
        last = stop->place;
    }
    g_array_unref(stops);
    return links;
}

/* Where a row lies, mm from the edge or from its line. */
typedef struct ChainRow {
    double off;      /* from the edge to the dimension line */
    double straight; /* from the line past the figures in it */
    double widest;   /* of the figures */
} ChainRow;

/* Figures beside an edge stand level in their lines by ASME Y14.5, so lines keep away by half. */
static ChainRow row_of(const Drawing *drawing, const HoleTable *table, const GArray *links,
                       bool beside)
{
    ChainRow row = {OFF, STRAIGHT, 0};
    for (guint i = 0; i < links->len; i++) {
        const char *text = g_array_index(links, Link, i).text;
        row.widest = fmax(row.widest, lettering_extent(drawing->lettering, text, LETTERING).width);
    }
    if (beside && table->style.standard == SHEET_STANDARD_ASME) {
        row.off = fmax(row.off, row.widest / 2 + 2 * TEXT_GAP);
        row.straight = fmax(row.straight, row.widest / 2 + TEXT_GAP);
    }
    return row;
}

double chain_reach(const Drawing *drawing, const HoleTable *table, const FaceView *face,
                   bool beside)
{
    double datum = length_to_mm(beside ? face->datum.y : face->datum.x);
    GArray *links = gather_links(table, datum, beside, false);
    ChainRow row = row_of(drawing, table, links, beside);
    g_array_unref(links);
    return row.off + row.straight + JOG + TAIL + TEXT_GAP + row.widest;
}

static DimensionStandard standard_of(const HoleTable *table)
{
    return table->style.standard == SHEET_STANDARD_ASME ? DIMENSION_ASME : DIMENSION_ISO;
}

static LinearDimension dimension_of(const HoleTable *table, const OrdinateEdge *edge,
                                    const Link *link, double line)
{
    bool beside = edge->side == ORDINATE_LEFT || edge->side == ORDINATE_RIGHT;
    return (LinearDimension){
        .from = beside ? (Point){edge->edge, link->from} : (Point){link->from, edge->edge},
        .to = beside ? (Point){edge->edge, link->to} : (Point){link->to, edge->edge},
        .upright = beside,
        .line = line,
        .height = LETTERING,
        .text = link->text,
        .standard = standard_of(table),
        .chained = true,
    };
}

/* Puts the pieces on the sheet and finds places for the figures that go beyond the line; false
 * where those have no room. */
static bool arrange(const Drawing *drawing, const HoleTable *table, const OrdinateEdge *edge,
                    double line, GArray *links)
{
    double *positions = g_new(double, links->len + 1);
    size_t count = 0;
    for (guint i = 0; i < links->len; i++) {
        Link *link = &g_array_index(links, Link, i);
        link->from = edge->origin + edge->scale * link->from;
        link->to = edge->origin + edge->scale * link->to;
        LinearDimension dimension = dimension_of(table, edge, link, line);
        link->inside = dimension_has_room(drawing, &dimension);
        if (!link->inside)
            positions[count++] = (link->from + link->to) / 2;
    }
    bool room = placement_spread(positions, count, ORDINATE_PITCH * LETTERING,
                                 edge->from - OVERHANG, edge->to + OVERHANG);
    count = 0;
    for (guint i = 0; i < links->len; i++) {
        Link *link = &g_array_index(links, Link, i);
        if (!link->inside)
            link->figure_at = positions[count++];
    }
    g_free(positions);
    return room;
}

/* A piece too narrow for its figure: dots at its ends, and the figure beyond the line. */
static void draw_narrow(Drawing *drawing, const OrdinateEdge *edge, const Link *link, double line,
                        double way, double straight)
{
    bool beside = edge->side == ORDINATE_LEFT || edge->side == ORDINATE_RIGHT;
    double middle = (link->from + link->to) / 2;
    Point from = beside ? (Point){line, link->from} : (Point){link->from, line};
    Point to = beside ? (Point){line, link->to} : (Point){link->to, line};
    drawing_line(drawing, LINE_DIMENSION, from, to);
    drawing_dot(drawing, from, DOT);
    drawing_dot(drawing, to, DOT);
    /* Ordinates begin a gap away from their feature; this one begins at the line. */
    double start = line - way * DIMENSION_GAP, bend = line + way * straight;
    OrdinateRow row = {edge->side, bend, bend + way * JOG, bend + way * (JOG + TAIL), LETTERING};
    Ordinate figure = {beside ? (Point){start, middle} : (Point){middle, start}, link->figure_at,
                       link->text, link->feature};
    dimension_ordinate(drawing, &row, &figure);
}

static void draw_witness(Drawing *drawing, const OrdinateEdge *edge, double along, double line,
                         double way)
{
    bool beside = edge->side == ORDINATE_LEFT || edge->side == ORDINATE_RIGHT;
    double from = edge->edge + way * DIMENSION_GAP, to = line + way * DIMENSION_OVERSHOOT;
    drawing_line(drawing, LINE_DIMENSION, beside ? (Point){from, along} : (Point){along, from},
                 beside ? (Point){to, along} : (Point){along, to});
}

bool chain_draw(Drawing *drawing, const HoleTable *table, const OrdinateEdge *edge)
{
    bool beside = edge->side == ORDINATE_LEFT || edge->side == ORDINATE_RIGHT, all = true;
    double way = edge->side == ORDINATE_BELOW || edge->side == ORDINATE_LEFT ? -1 : 1;
    GArray *links = gather_links(table, edge->datum, beside, false);
    ChainRow row = row_of(drawing, table, links, beside);
    double line = edge->edge + way * row.off;
    if (!arrange(drawing, table, edge, line, links)) {
        all = false;
        g_array_unref(links);
        links = gather_links(table, edge->datum, beside, true);
        if (!arrange(drawing, table, edge, line, links))
            g_array_set_size(links, 0);
    }
    for (guint i = 0; i < links->len; i++) {
        const Link *link = &g_array_index(links, Link, i);
        LinearDimension dimension = dimension_of(table, edge, link, line);
        drawing_about(drawing, ROLE_DIMENSION, link->feature);
        if (i == 0)
            draw_witness(drawing, edge, link->from, line, way);
        draw_witness(drawing, edge, link->to, line, way);
        if (link->inside)
            dimension_linear(drawing, &dimension);
        else
            draw_narrow(drawing, edge, link, line, way, row.straight);
    }
    g_array_unref(links);
    return all;
}
