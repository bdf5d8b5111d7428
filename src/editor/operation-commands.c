/* Each command is one step of undo, or says why it can't be done. */
#include "editor/operation-commands.h"

#include "editor/choose-file.h"
#include "editor/intl.h"
#include "session/base-record.h"
#include "session/chain.h"
#include "session/inclined.h"
#include "session/nest-offers.h"

static Session *session_of(PinWindow *window)
{
    return pin_document_session(window->document);
}

/* Carries out what was filled. */
static gboolean finish(PinWindow *window, bool filled, Edit *edit, const Error *error)
{
    if (filled)
        return pin_document_do(window->document, edit);
    edit_clear(edit);
    pin_document_refuse(window->document, error);
    return FALSE;
}

/* The stations among what is selected; where none is, those that stand on the shown face. */
static GArray *stations_of(PinWindow *window, gboolean all)
{
    const Plate *plate = pin_document_plate(window->document);
    GArray *stations = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    for (guint i = 0; i < count; i++)
        if (plate_find_kind(plate, ids[i], RECORD_STATION))
            g_array_append_val(stations, ids[i]);
    for (uint32_t i = 0; all && stations->len == 0 && i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION &&
            record->station.face == pin_layout_face(window->layout))
            g_array_append_val(stations, record->id);
    }
    return stations;
}

static FeatureId one_station(PinWindow *window)
{
    GArray *stations = stations_of(window, FALSE);
    FeatureId id = stations->len == 1 ? g_array_index(stations, FeatureId, 0) : ID_NONE;
    g_array_unref(stations);
    return id;
}

/* --- operations ------------------------------------------------------------------------------- */

static void on_running_chain(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    GArray *stations = stations_of(window, TRUE);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = new_running_chain(session_of(window), (FeatureId *)(void *)stations->data,
                                    stations->len, &edit, &error);
    finish(window, filled, &edit, &error);
    g_array_unref(stations);
}

static void on_making_order(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = new_making_order(session_of(window), &edit, &error);
    finish(window, filled, &edit, &error);
}

/* --- inclined faces --------------------------------------------------------------------------- */

static void on_reference_hole(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    FeatureId id = new_reference_hole(session_of(window), pin_layout_face(window->layout), NULL, 0,
                                      &edit, &error);
    if (finish(window, id != ID_NONE, &edit, &error))
        pin_document_select_one(window->document, id);
}

static void on_line_up_bevel(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = line_up_bevel(session_of(window), one_station(window), &edit, &error);
    finish(window, filled, &edit, &error);
}

static void on_mirror_station(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    FeatureId id = new_mirror_station(session_of(window), one_station(window), &edit, &error);
    if (finish(window, id != ID_NONE, &edit, &error))
        pin_document_select_one(window->document, id);
}

static void on_support_relief(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    FeatureId id = new_support_relief(session_of(window), one_station(window), &edit, &error);
    finish(window, id != ID_NONE, &edit, &error);
}

/* The first part that has a bevel. */
static FeatureId bevelled_part(const Plate *plate)
{
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_PART && plate_at(plate, i)->part.bevel.angle > 0)
            return plate_at(plate, i)->id;
    return ID_NONE;
}

static void on_bevel_pair(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    FeatureId part = bevelled_part(pin_document_plate(window->document)), stations[2];
    Edit edit = EDIT_EMPTY;
    Error error;
    error_set(&error, ERROR_MISSING, NULL, "%s",
              _("no part of the plate has a bevel; type its angle in the part's figures first"));
    bool filled =
        part != ID_NONE && new_bevel_pair(session_of(window), pin_layout_face(window->layout), part,
                                          stations, &edit, &error);
    if (finish(window, filled, &edit, &error))
        pin_document_select(window->document, stations, 2);
}

/* --- nests and the base ----------------------------------------------------------------------- */

static void on_nest_offer(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint nest, offer;
    g_variant_get(parameter, "(uu)", &nest, &offer);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = offer < NEST_OFFERS &&
                  nest_take_offer(session_of(window), nest, (NestOffer)offer, &edit, &error);
    finish(window, filled, &edit, &error);
}

static void take_base(const char *path, gpointer data)
{
    PinWindow *window = data;
    Edit edit = EDIT_EMPTY;
    Error error;
    Plate *from = plate_read(path, NULL, &error);
    if (!from) {
        window_say_error(window, _("The plate can't be read"), &error);
        return;
    }
    bool filled = share_base(session_of(window), from, &edit, &error);
    if (finish(window, filled, &edit, &error))
        window_say(window, _("The base is that of the other plate now."));
    plate_free(from);
}

static void on_take_base(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_file_to_open(GTK_WINDOW(data), FILE_PLATE, take_base, data);
}

/* --- all of them ------------------------------------------------------------------------------ */

typedef enum Needs { NEEDS_PLATE, NEEDS_INCLINED, NEEDS_STATION } Needs;

static const GActionEntry entries[] = {
    {.name = "running-chain", .activate = on_running_chain},
    {.name = "making-order", .activate = on_making_order},
    {.name = "take-base", .activate = on_take_base},
    {.name = "nest-offer", .activate = on_nest_offer, .parameter_type = "(uu)"},
    {.name = "reference-hole", .activate = on_reference_hole},
    {.name = "bevel-pair", .activate = on_bevel_pair},
    {.name = "line-up-bevel", .activate = on_line_up_bevel},
    {.name = "mirror-station", .activate = on_mirror_station},
    {.name = "support-relief", .activate = on_support_relief},
};

static const Needs needs[G_N_ELEMENTS(entries)] = {NEEDS_PLATE,   NEEDS_PLATE,    NEEDS_PLATE,
                                                   NEEDS_PLATE,   NEEDS_INCLINED, NEEDS_INCLINED,
                                                   NEEDS_STATION, NEEDS_STATION,  NEEDS_STATION};

void operation_commands_update(PinWindow *window)
{
    gboolean open = window->document != NULL;
    gboolean inclined = open && pin_layout_face(window->layout) != ID_TOP;
    gboolean station = inclined && one_station(window) != ID_NONE;
    for (gsize i = 0; i < G_N_ELEMENTS(entries); i++) {
        GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), entries[i].name);
        gboolean can = needs[i] == NEEDS_PLATE      ? open
                       : needs[i] == NEEDS_INCLINED ? inclined
                                                    : station;
        g_simple_action_set_enabled(G_SIMPLE_ACTION(action), can);
    }
}

void operation_commands_add(PinWindow *window)
{
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
