/* What belongs to the plate as a whole: the limits it is checked by, its faces and its operations.
 */
#include "editor/window-private.h"

#include "editor/face-new.h"
#include "editor/finding-limits.h"
#include "editor/intl.h"
#include "editor/layout-section.h"
#include "editor/operation-commands.h"

static void on_limits(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    gtk_window_present(
        GTK_WINDOW(pin_finding_limits_new(GTK_WINDOW(window), window->document, NULL)));
}

/* --- faces ------------------------------------------------------------------------------------ */

static void on_face_made(PinFaceNew *question, guint face, PinWindow *window)
{
    pin_layout_set_face(window->layout, face);
}

static void on_new_face(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    GtkWidget *question = pin_face_new_new(GTK_WINDOW(window), window->document);
    g_signal_connect_object(question, "made", G_CALLBACK(on_face_made), window, 0);
    gtk_window_present(GTK_WINDOW(question));
}

static void on_next_face(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_set_face(window->layout,
                        pin_view_bar_next_face(window->view_bar, g_variant_get_int32(parameter)));
}

/* An inclined face's own figures stand in the details until something on it is selected. */
static void on_face_changed(PinLayout *layout, PinWindow *window)
{
    guint count;
    FeatureId face = pin_layout_face(layout);
    pin_document_selection(window->document, &count);
    if (count == 0)
        pin_details_show_record(window->details, face == ID_TOP ? ID_NONE : face);
    operation_commands_update(window);
    window_update_state(window);
}

/* --- operations ------------------------------------------------------------------------------- */

static void on_step(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_view_bar_step(window->view_bar, g_variant_get_int32(parameter));
}

/* The figures of what is shown, until something is selected. */
static void on_operation_changed(PinLayout *layout, PinWindow *window)
{
    guint count;
    pin_document_selection(window->document, &count);
    if (count == 0)
        pin_details_show_record(window->details, pin_layout_operation(layout));
    window_update_state(window);
}

static void on_operation_chosen(PinOperationList *list, guint operation, PinWindow *window)
{
    pin_document_select(window->document, NULL, 0);
    pin_details_show_record(window->details, operation);
}

/* --- the section -------------------------------------------------------------------------------
 */

static void on_section(GSimpleAction *action, GVariant *value, gpointer data)
{
    PinWindow *window = data;
    gboolean on = g_variant_get_boolean(value);
    g_simple_action_set_state(action, value);
    pin_layout_set_section(window->layout, on);
    if (on)
        window_say(window, _("Drag a line across the plate to cut it there."));
}

static void on_section_changed(PinLayout *layout, PinWindow *window)
{
    SectionLine line;
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), "section");
    g_simple_action_set_state(G_SIMPLE_ACTION(action),
                              g_variant_new_boolean(pin_layout_section(layout, &line)));
    window_update_state(window);
}

static const GActionEntry entries[] = {
    {.name = "section", .state = "false", .change_state = on_section},
    {.name = "step", .activate = on_step, .parameter_type = "i"},
    {.name = "new-face", .activate = on_new_face},
    {.name = "next-face", .activate = on_next_face, .parameter_type = "i"},
    {.name = "limits", .activate = on_limits},
};

void window_update_plate_actions(PinWindow *window)
{
    operation_commands_update(window);
    for (gsize i = 0; i < G_N_ELEMENTS(entries); i++) {
        GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), entries[i].name);
        g_simple_action_set_enabled(G_SIMPLE_ACTION(action), window->document != NULL);
    }
}

void window_add_plate_actions(PinWindow *window)
{
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
    operation_commands_add(window);
}

void window_connect_plate_page(PinWindow *window)
{
    g_signal_connect(window->layout, "section-changed", G_CALLBACK(on_section_changed), window);
    g_signal_connect(window->layout, "face-changed", G_CALLBACK(on_face_changed), window);
    g_signal_connect(window->layout, "operation-changed", G_CALLBACK(on_operation_changed), window);
    g_signal_connect(window->operations, "chosen", G_CALLBACK(on_operation_chosen), window);
}
