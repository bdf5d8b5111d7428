#include "drawing/item-list.h"

#include "checks/fastener.h"
#include "drawing/figure.h"
#include "drawing/sign.h"

#include <string.h>

#define PLACES_MOST 60.0

static const char *const kind_words[] = {"Shoulder screw", "Dowel pin", "Relieved pin",
                                         "Hold-down screw", "Edge clamp"};

char *item_words(const DrawingSource *source, const Fitting *fitting)
{
    const Settings *settings = plate_settings(source->plate);
    FigureStyle style = figure_style(settings);
    char figure[FIGURE_TEXT], limits[FIGURE_LIMITS];
    const char *kind = kind_words[fitting->kind], *size = fitting->size ? fitting->size : "";
    /* Tables' names of sizes often say the kind themselves. */
    char *named = g_ascii_strdown(size, -1), *plain = g_ascii_strdown(kind, -1);
    if (strstr(plain, named)) /* nothing that the kind doesn't say */
        size = "";
    plain[strcspn(plain, " ")] = '\0'; /* "dowel 3mm" is a dowel pin */
    GString *text = g_string_new(*size && strstr(named, plain) ? "" : kind);
    g_string_append_printf(text, "%s%s", text->len && *size ? " " : "", size);
    text->str[0] = g_ascii_toupper(text->str[0]);
    g_free(named);
    g_free(plain);
    if (fitting->diameter > 0)
        g_string_append_printf(text, ", " SIGN_DIAMETER "%s",
                               figure_length(style, fitting->diameter, figure));
    if (fitting->upper != 0 || fitting->lower != 0)
        g_string_append_printf(text, " %s",
                               figure_limits(style, fitting->upper, fitting->lower, limits));
    Length length = fastener_whole_length(source->placed, fitting);
    if (length > 0)
        g_string_append_printf(text, ", length %s", figure_length(style, length, figure));
    return g_string_free(text, FALSE);
}

static const char *place_of(const DrawingSource *source, const Fitting *fitting)
{
    FeatureId in = fitting->kind == FITTING_EDGE_CLAMP ? fitting->slot : fitting->hole;
    const Record *record = in ? placed_record(source->placed, in) : NULL;
    return record ? record_label(record) : NULL;
}

static void add_place(GString *places, const char *place)
{
    if (place && *place)
        g_string_append_printf(places, "%s%s", places->len ? ", " : "", place);
}

/* One item: the first fitting and all that are the same. */
static void add_item(TableText *text, const DrawingSource *source, GPtrArray *words, uint32_t first)
{
    const char *own = g_ptr_array_index(words, first);
    GString *places = g_string_new(NULL);
    size_t count = 0;
    for (uint32_t i = first; i < words->len; i++) {
        const char *other = g_ptr_array_index(words, i);
        if (!other || strcmp(own, other) != 0)
            continue;
        count++;
        add_place(places, place_of(source, &plate_at(source->plate, i)->fitting));
    }
    table_text_take(text, g_strdup_printf("%zu", table_text_rows(text) + 1));
    table_text_take(text, g_strdup_printf("%zu", count));
    table_text_add(text, own);
    table_text_take(text, g_string_free(places, FALSE));
}

static bool is_first(const GPtrArray *words, uint32_t of)
{
    const char *own = g_ptr_array_index(words, of);
    for (uint32_t i = 0; own && i < of; i++) {
        const char *other = g_ptr_array_index(words, i);
        if (other && strcmp(own, other) == 0)
            return false;
    }
    return own != NULL;
}

void item_list_draw(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {{"Item", TEXT_END, 0, 0, false},
                                          {"Count", TEXT_END, 0, 0, false},
                                          {"What", TEXT_START, 0, 0, false},
                                          {"Goes in", TEXT_START, 0, PLACES_MOST, false}};
    GPtrArray *words = g_ptr_array_new_with_free_func(g_free);
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        g_ptr_array_add(words, record->kind == RECORD_FITTING ? item_words(source, &record->fitting)
                                                              : NULL);
    }
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < words->len; i++) {
        if (is_first(words, i))
            add_item(&text, source, words, i);
    }
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Hardware");
    flow_table(flow, &text, 2, false);
    table_text_end(&text);
    g_ptr_array_unref(words);
}
