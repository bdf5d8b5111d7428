/* How a refit begins: from a part's file that is chosen or dropped, or with a part from the tray
 * that is dropped on a plate that stands in metal already. */
#include "editor/refit-bar.h"

#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/window-private.h"

/* --- from the tray --------------------------------------------------------------------------- */

FeatureId refit_station_of(const Edit *edit)
{
    for (guint i = 0; i < edit->count; i++) {
        const Record *after = edit->changes[i].after;
        if (after && !edit->changes[i].before && after->kind == RECORD_STATION)
            return after->id;
    }
    return ID_NONE;
}

static const Record *after_of(const Edit *edit, FeatureId id)
{
    for (guint i = 0; i < edit->count; i++)
        if (edit->changes[i].after && edit->changes[i].after->id == id)
            return edit->changes[i].after;
    return NULL;
}

/* The part that the edit's new station holds: the plate's, or one that comes with it. */
static const Part *part_of(const Plate *plate, const Edit *edit)
{
    FeatureId station = refit_station_of(edit);
    if (!station)
        return NULL;
    FeatureId id = after_of(edit, station)->station.part;
    const Record *fresh = after_of(edit, id);
    const Record *part = fresh ? fresh : plate_find_kind(plate, id, RECORD_PART);
    return part ? &part->part : NULL;
}

/* Where holes stand in metal already, a part goes on those sooner than on new ones. */
static gboolean has_made_holes(const Plate *plate, FeatureId face)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_HOLE && record->hole.face == face && record_made(record))
            return TRUE;
    }
    return FALSE;
}

static void say_dropped(PinWindow *window, const Part *part)
{
    char *text = g_strdup_printf(_("This plate is made: where %s goes on the holes that it has. "
                                   "Arrow keys step through the answers, Enter accepts one, Escape "
                                   "leaves the plate as it is."),
                                 part->name ? part->name : _("the part"));
    window_say(window, text);
    g_free(text);
}

gboolean refit_take_drop(PinWindow *window, const RefitDrop *drop)
{
    Edit edit = EDIT_EMPTY;
    Session *session = pin_document_session(window->document);
    const Plate *plate = pin_document_plate(window->document);
    const Part *part = NULL;
    if (has_made_holes(plate, drop->face) &&
        pin_tray_item_make(drop->item, session, drop->face, drop->at, &edit, NULL))
        part = part_of(plate, &edit);
    session_give_back_ids(session, &edit);
    if (part) {
        pin_document_drag_cancel(window->document);
        refit_show_answers(window, part, ID_NONE, drop);
        say_dropped(window, part);
    }
    edit_clear(&edit);
    return part != NULL;
}

/* --- from a file ------------------------------------------------------------------------------ */

static FeatureId selected_station(PinWindow *window)
{
    FeatureId one = window->document ? pin_document_selected_one(window->document) : ID_NONE;
    const Record *record = one ? plate_find(pin_document_plate(window->document), one) : NULL;
    return record && record->kind == RECORD_STATION ? one : ID_NONE;
}

static void begin_with(PinWindow *window, const char *path, FeatureId replace)
{
    Error error;
    Record *part = part_read(path, &error);
    if (part)
        refit_show_answers(window, &part->part, replace, NULL);
    else
        window_say_error(window, _("The part can't be read"), &error);
    record_unref(part);
}

static void fit_part(const char *path, gpointer data)
{
    begin_with(data, path, ID_NONE);
}

static void replace_part(const char *path, gpointer data)
{
    begin_with(data, path, selected_station(data));
}

static void on_refit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    if (window->document)
        choose_file_to_open(GTK_WINDOW(window), FILE_PART, fit_part, window);
}

static void on_replace(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    if (selected_station(window))
        choose_file_to_open(GTK_WINDOW(window), FILE_PART, replace_part, window);
    else if (window->document)
        window_say(window, _("Select the station first whose part is to be another."));
}

/* A part's file dropped on the layout is fitted on the plate. */
static gboolean on_file_drop(GtkDropTarget *target, const GValue *value, double x, double y,
                             PinWindow *window)
{
    const GSList *files = g_value_get_boxed(value);
    char *path = files ? g_file_get_path(files->data) : NULL;
    gboolean taken = path && window->document && g_str_has_suffix(path, ".platepart");
    if (taken)
        begin_with(window, path, ID_NONE);
    g_free(path);
    return taken;
}

void refit_add_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "refit", .activate = on_refit},
        {.name = "replace-part", .activate = on_replace},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
    GSimpleAction *state =
        g_simple_action_new_stateful("refit-state", NULL, g_variant_new("a{sv}", NULL));
    g_simple_action_set_enabled(state, FALSE);
    g_action_map_add_action(G_ACTION_MAP(window), G_ACTION(state));
    g_object_unref(state);
}

void refit_take_drops(PinWindow *window)
{
    GtkDropTarget *target = gtk_drop_target_new(GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);
    g_signal_connect(target, "drop", G_CALLBACK(on_file_drop), window);
    gtk_widget_add_controller(GTK_WIDGET(window->layout), GTK_EVENT_CONTROLLER(target));
}
