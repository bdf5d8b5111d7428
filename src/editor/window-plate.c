/* What belongs to the plate as a whole: the limits it is checked by, its faces and its operations.
 */
#include "editor/window-private.h"

#include "editor/finding-limits.h"

static void on_limits(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    gtk_window_present(
        GTK_WINDOW(pin_finding_limits_new(GTK_WINDOW(window), window->document, NULL)));
}

static const GActionEntry entries[] = {
    {.name = "limits", .activate = on_limits},
};

void window_update_plate_actions(PinWindow *window)
{
    for (gsize i = 0; i < G_N_ELEMENTS(entries); i++) {
        GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), entries[i].name);
        g_simple_action_set_enabled(G_SIMPLE_ACTION(action), window->document != NULL);
    }
}

void window_add_plate_actions(PinWindow *window)
{
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
