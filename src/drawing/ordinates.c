#include "drawing/ordinates.h"

#include "drawing/placement.h"
#include "drawing/sheet.h"

#include <glib.h>
#include <string.h>

#define LETTERING SHEET_LETTERING
#define STRAIGHT 2.0 /* from the edge to the jog, mm */
#define JOG 6.0      /* along which witness lines come to their figures */
#define TAIL 2.0     /* from there to the figure */
#define OVERHANG 4.0 /* how far figures may stand beyond the edge's ends */
#define TEXT_GAP 1.0

typedef struct Entry {
    double place; /* mm on the face */
    const char *text;
    FeatureId feature;
} Entry;

static gint by_place(gconstpointer a, gconstpointer b)
{
    const Entry *first = a, *second = b;
    return (first->place > second->place) - (first->place < second->place);
}

double ordinates_reach(const Drawing *drawing, const HoleTable *table, bool beside)
{
    double widest = lettering_extent(drawing->lettering, "0", LETTERING).width;
    for (size_t i = 0; i < table->count; i++) {
        if (table->rows[i].kind != FEATURE_HOLE)
            continue;
        const char *text = beside ? table->rows[i].y : table->rows[i].x;
        widest = fmax(widest, lettering_extent(drawing->lettering, text, LETTERING).width);
    }
    return STRAIGHT + JOG + TAIL + TEXT_GAP + widest;
}

/* One entry for each figure that is written, in the order of their places, the datum's 0 among
 * them. */
static GArray *gather(const HoleTable *table, const OrdinateEdge *edge, bool beside,
                      bool locators_only)
{
    GArray *entries = g_array_new(FALSE, FALSE, sizeof(Entry));
    Entry datum = {edge->datum, "0", ID_NONE};
    g_array_append_val(entries, datum);
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        if (row->kind != FEATURE_HOLE || (locators_only && !row->locates))
            continue;
        Entry entry = {beside ? row->at.y : row->at.x, beside ? row->y : row->x, row->feature};
        bool there = false;
        for (guint j = 0; j < entries->len && !there; j++)
            there = strcmp(g_array_index(entries, Entry, j).text, entry.text) == 0;
        if (!there)
            g_array_append_val(entries, entry);
    }
    g_array_sort(entries, by_place);
    return entries;
}

/* Spreads the figures; false when they have no room. */
static bool spread(const GArray *entries, const OrdinateEdge *edge, double *positions)
{
    for (guint i = 0; i < entries->len; i++)
        positions[i] = edge->origin + edge->scale * g_array_index(entries, Entry, i).place;
    return placement_spread(positions, entries->len, ORDINATE_PITCH * LETTERING,
                            edge->from - OVERHANG, edge->to + OVERHANG);
}

bool ordinates_draw(Drawing *drawing, const HoleTable *table, const OrdinateEdge *edge)
{
    bool beside = edge->side == ORDINATE_LEFT || edge->side == ORDINATE_RIGHT;
    double way = edge->side == ORDINATE_BELOW || edge->side == ORDINATE_LEFT ? -1 : 1;
    double start = edge->edge + way * STRAIGHT;
    OrdinateRow row = {edge->side, start, start + way * JOG, start + way * (JOG + TAIL), LETTERING};
    double *positions = g_new(double, table->count + 1);
    bool all = true;
    GArray *entries = gather(table, edge, beside, false);
    if (!spread(entries, edge, positions)) {
        all = false;
        g_array_unref(entries);
        entries = gather(table, edge, beside, true);
        if (!spread(entries, edge, positions)) {
            g_array_set_size(entries, 0);
            Entry datum = {edge->datum, "0", ID_NONE};
            g_array_append_val(entries, datum);
            spread(entries, edge, positions);
        }
    }
    for (guint i = 0; i < entries->len; i++) {
        const Entry *entry = &g_array_index(entries, Entry, i);
        double along = edge->origin + edge->scale * entry->place;
        Ordinate ordinate = {beside ? (Point){edge->edge, along} : (Point){along, edge->edge},
                             positions[i], entry->text, entry->feature};
        dimension_ordinate(drawing, &row, &ordinate);
    }
    g_array_unref(entries);
    g_free(positions);
    return all;
}
