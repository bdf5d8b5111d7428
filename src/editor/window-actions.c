/* What the maker does to the plate, as actions: each is one step of undo. */
#include "editor/window-private.h"

#include "editor/arrange-actions.h"
#include "editor/suggest-page.h"
#include "editor/intl.h"
#include "editor/preferences.h"
#include "editor/speech.h"
#include "session/selection.h"

#include <string.h>

static Session *session_of(PinWindow *window)
{
    return pin_document_session(window->document);
}

/* Carries out what a function of selection.h filled an edit with. */
static gboolean carry_out(PinWindow *window, bool filled, Edit *edit, const Error *error)
{
    if (filled)
        return pin_document_do(window->document, edit);
    edit_clear(edit);
    pin_document_refuse(window->document, error);
    return FALSE;
}

/* --- history -----------------------------------------------------------------------------------
 */

static void on_undo(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_document_undo(window->document);
}

static void on_redo(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_document_redo(window->document);
}

/* --- the selection -----------------------------------------------------------------------------
 */

static void on_delete(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = selection_delete(session_of(window), ids, count, &edit, &error);
    carry_out(window, filled, &edit, &error);
}

/* Copies lie beside what they were copied from, on the grid. */
static Length beside(PinWindow *window)
{
    Length grid = pin_layout_grid(window->layout);
    Length least = 5 * LENGTH_MM;
    if (grid <= 0)
        return least;
    return (least + grid - 1) / grid * grid;
}

static void select_new(PinWindow *window, gboolean done, GArray *ids)
{
    if (done)
        pin_document_select(window->document, (FeatureId *)(void *)ids->data, ids->len);
    g_array_unref(ids);
}

static void on_duplicate(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    GArray *copies = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = selection_duplicate(session_of(window), ids, count, beside(window),
                                      -beside(window), &edit, copies, &error);
    select_new(window, carry_out(window, filled, &edit, &error), copies);
}

static void on_copy(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    char *text = selection_copy(session_of(window), ids, count);
    if (text)
        gdk_clipboard_set_text(gtk_widget_get_clipboard(GTK_WIDGET(window)), text);
    window->pasted = 0;
    g_free(text);
}

static void on_cut(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    on_copy(action, parameter, data);
    on_delete(action, parameter, data);
}

static void paste(PinWindow *window, const char *text)
{
    GArray *pasted = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    Length away = beside(window) * (Length)(window->pasted + 1);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled =
        selection_paste(session_of(window), text, strlen(text), away, -away, &edit, pasted, &error);
    gboolean done = carry_out(window, filled, &edit, &error);
    if (done)
        window->pasted++;
    select_new(window, done, pasted);
}

static void on_clipboard(GObject *object, GAsyncResult *result, gpointer data)
{
    PinWindow *window = data;
    char *text = gdk_clipboard_read_text_finish(GDK_CLIPBOARD(object), result, NULL);
    if (window->document && text)
        paste(window, text);
    else if (window->document)
        window_say(window, _("There is nothing on the clipboard that can be put on a plate."));
    g_free(text);
    g_object_unref(window);
}

static void on_paste(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    gdk_clipboard_read_text_async(gtk_widget_get_clipboard(GTK_WIDGET(data)), NULL, on_clipboard,
                                  g_object_ref(data));
}

static void on_turn_over(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool filled = selection_turn_over(session_of(window), ids, count, &edit, &error);
    carry_out(window, filled, &edit, &error);
}

/* By one step of the grid, or by as little as a drawing shows. */
static void on_nudge(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    int x, y;
    gboolean fine;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    g_variant_get(parameter, "(iib)", &x, &y, &fine);
    Length step = pin_layout_grid(window->layout);
    if (fine || step <= 0)
        step =
            pin_document_unit(window->document) == UNIT_INCH ? LENGTH_INCH / 1000 : LENGTH_MM / 100;
    Edit edit = EDIT_EMPTY;
    Error error;
    if (count == 0)
        return;
    bool filled = selection_move(session_of(window), ids, count, x * step, y * step, &edit, &error);
    carry_out(window, filled, &edit, &error);
}

typedef struct Gathering {
    GArray *ids;
    FeatureId face;
} Gathering;

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->face == gathering->face)
        g_array_append_val(gathering->ids, feature->id);
    return true;
}

static int compare_ids(gconstpointer a, gconstpointer b)
{
    FeatureId first = *(const FeatureId *)a, second = *(const FeatureId *)b;
    return (first > second) - (first < second);
}

static GArray *all_things(PinWindow *window)
{
    Gathering gathering = {g_array_new(FALSE, FALSE, sizeof(FeatureId)),
                           pin_layout_face(window->layout)};
    placed_each(session_placed(session_of(window)), gather, &gathering);
    g_array_sort(gathering.ids, compare_ids);
    return gathering.ids;
}

static void on_select_all(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    GArray *ids = all_things(window);
    pin_document_select(window->document, (FeatureId *)(void *)ids->data, ids->len);
    g_array_unref(ids);
}

static void on_select_none(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_document_select(window->document, NULL, 0);
}

/* The next thing by number, or the one before: the way round the plate without a pointer. */
static void on_select_next(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    int by = g_variant_get_int32(parameter);
    GArray *ids = all_things(window);
    FeatureId one = pin_document_selected_one(window->document);
    int at = by > 0 ? -1 : 0, count = (int)ids->len;
    for (int i = 0; i < count; i++)
        if (g_array_index(ids, FeatureId, i) == one)
            at = i;
    if (count > 0)
        pin_document_select_one(window->document,
                                g_array_index(ids, FeatureId, (at + by + count) % count));
    g_array_unref(ids);
}

/* --- the view ----------------------------------------------------------------------------------
 */

static void on_zoom_in(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_zoom(window->layout, 1.25);
    window_update_state(window);
}

static void on_zoom_out(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_zoom(window->layout, 1 / 1.25);
    window_update_state(window);
}

static void on_zoom_fit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_fit(window->layout);
}

static void on_snap(GSimpleAction *action, GVariant *value, gpointer data)
{
    PinWindow *window = data;
    g_simple_action_set_state(action, value);
    preference_set_bool("snap", g_variant_get_boolean(value));
    pin_layout_set_snap(window->layout, g_variant_get_boolean(value));
}

static void on_both_units(GSimpleAction *action, GVariant *value, gpointer data)
{
    PinWindow *window = data;
    g_simple_action_set_state(action, value);
    preference_set_bool("both-units", g_variant_get_boolean(value));
    pin_readout_set_both_units(window->readout, g_variant_get_boolean(value));
}

/* --- all of them -------------------------------------------------------------------------------
 */

static const GActionEntry entries[] = {
    {.name = "undo", .activate = on_undo},
    {.name = "redo", .activate = on_redo},
    {.name = "delete", .activate = on_delete},
    {.name = "duplicate", .activate = on_duplicate},
    {.name = "copy", .activate = on_copy},
    {.name = "cut", .activate = on_cut},
    {.name = "paste", .activate = on_paste},
    {.name = "turn-over", .activate = on_turn_over},
    {.name = "nudge", .activate = on_nudge, .parameter_type = "(iib)"},
    {.name = "select-all", .activate = on_select_all},
    {.name = "select-none", .activate = on_select_none},
    {.name = "select-next", .activate = on_select_next, .parameter_type = "i"},
    {.name = "zoom-in", .activate = on_zoom_in},
    {.name = "zoom-out", .activate = on_zoom_out},
    {.name = "zoom-fit", .activate = on_zoom_fit},
    {.name = "snap", .state = "true", .change_state = on_snap},
    {.name = "both-units", .state = "true", .change_state = on_both_units},
};

static void enable(PinWindow *window, const char *name, gboolean enabled)
{
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), name);
    g_simple_action_set_enabled(G_SIMPLE_ACTION(action), enabled);
}

static void name_button(GtkWidget *button, const char *what, const char *name)
{
    char *text =
        name ? g_strdup_printf("%s: %s", what, speech_say(pin_speech(), name)) : g_strdup(what);
    gtk_widget_set_tooltip_text(button, text);
    g_free(text);
}

static gboolean station_selected(PinWindow *window)
{
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    for (guint i = 0; i < count; i++)
        if (plate_find_kind(pin_document_plate(window->document), ids[i], RECORD_STATION))
            return TRUE;
    return FALSE;
}

void window_update_actions(PinWindow *window)
{
    static const char *const on_plate[] = {
        "paste",    "select-all", "select-none", "select-next", "zoom-in",
        "zoom-out", "zoom-fit",   "save",        "save-as",     "add-part",
        "preview",  "print",      "export-pdf",  "export-svg",  "import-outline"};
    static const char *const on_selection[] = {"delete", "duplicate", "copy", "cut", "nudge"};
    gboolean open = window->document != NULL;
    guint count = 0;
    if (open)
        pin_document_selection(window->document, &count);
    for (gsize i = 0; i < G_N_ELEMENTS(on_plate); i++)
        enable(window, on_plate[i], open);
    for (gsize i = 0; i < G_N_ELEMENTS(on_selection); i++)
        enable(window, on_selection[i], count > 0);
    window_update_plate_actions(window);
    arrange_update_actions(window);
    suggest_update_actions(window);
    enable(window, "turn-over", open && station_selected(window));
    enable(window, "undo", open && session_can_undo(session_of(window)));
    enable(window, "redo", open && session_can_redo(session_of(window)));
    if (!open)
        return;
    name_button(window->undo, _("Undo"), session_undo_name(session_of(window)));
    name_button(window->redo, _("Redo"), session_redo_name(session_of(window)));
}

void window_add_actions(PinWindow *window)
{
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
    g_simple_action_set_state(
        G_SIMPLE_ACTION(g_action_map_lookup_action(G_ACTION_MAP(window), "snap")),
        g_variant_new_boolean(preference_bool("snap")));
    g_simple_action_set_state(
        G_SIMPLE_ACTION(g_action_map_lookup_action(G_ACTION_MAP(window), "both-units")),
        g_variant_new_boolean(preference_bool("both-units")));
}

/* --- keys --------------------------------------------------------------------------------------
 */

static void add_arrow(GtkWidgetClass *class, guint key, guint pad_key, int x, int y)
{
    gtk_widget_class_add_binding_action(class, key, 0, "win.nudge", "(iib)", x, y, FALSE);
    gtk_widget_class_add_binding_action(class, pad_key, 0, "win.nudge", "(iib)", x, y, FALSE);
    gtk_widget_class_add_binding_action(class, key, GDK_SHIFT_MASK, "win.nudge", "(iib)", x, y,
                                        TRUE);
}

/* Undo belongs to the window, so that an entry's own comes first while something is typed. The
 * others belong to the layout and the list: an entry needs those keys for itself. */
void window_add_keys(PinWindowClass *window_class)
{
    GtkWidgetClass *window = GTK_WIDGET_CLASS(window_class);
    gtk_widget_class_add_binding_action(window, GDK_KEY_z, GDK_CONTROL_MASK, "win.undo", NULL);
    gtk_widget_class_add_binding_action(window, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                        "win.redo", NULL);
    gtk_widget_class_add_binding_action(window, GDK_KEY_y, GDK_CONTROL_MASK, "win.redo", NULL);

    GtkWidgetClass *layout = g_type_class_ref(PIN_TYPE_LAYOUT);
    add_arrow(layout, GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0);
    add_arrow(layout, GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0);
    add_arrow(layout, GDK_KEY_Up, GDK_KEY_KP_Up, 0, 1);
    add_arrow(layout, GDK_KEY_Down, GDK_KEY_KP_Down, 0, -1);
    gtk_widget_class_add_binding_action(layout, GDK_KEY_n, 0, "win.select-next", "i", 1);
    gtk_widget_class_add_binding_action(layout, GDK_KEY_n, GDK_SHIFT_MASK, "win.select-next", "i",
                                        -1);
    gtk_widget_class_add_binding_action(layout, GDK_KEY_t, 0, "win.turn-over", NULL);
    gtk_widget_class_add_binding_action(layout, GDK_KEY_f, 0, "win.zoom-fit", NULL);
    arrange_add_keys(layout);

    GtkWidgetClass *classes[] = {layout, g_type_class_ref(PIN_TYPE_FEATURE_LIST)};
    for (gsize i = 0; i < G_N_ELEMENTS(classes); i++) {
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_Delete, 0, "win.delete", NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_BackSpace, 0, "win.delete", NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_a, GDK_CONTROL_MASK,
                                            "win.select-all", NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_c, GDK_CONTROL_MASK, "win.copy",
                                            NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_x, GDK_CONTROL_MASK, "win.cut",
                                            NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_v, GDK_CONTROL_MASK, "win.paste",
                                            NULL);
        gtk_widget_class_add_binding_action(classes[i], GDK_KEY_d, GDK_CONTROL_MASK,
                                            "win.duplicate", NULL);
    }
}
