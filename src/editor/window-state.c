/* The window's state as a read-only action, `win.state`, which the application exports on the
 * session bus with its other actions: what a script or a test waits for. */
#include "editor/layout-guide.h"
#include "editor/layout-section.h"
#include "editor/window-private.h"

/* Where the widgets begin in the window's surface, which may have a border or a shadow. */
static void insert_surface(PinWindow *window, GVariantDict *state)
{
    double left, top;
    gtk_native_get_surface_transform(GTK_NATIVE(window), &left, &top);
    g_variant_dict_insert(state, "left", "d", left);
    g_variant_dict_insert(state, "top", "d", top);
}

/* Where the face's origin lies in the window's surface, and pixels for one millimetre. */
static void insert_view(PinWindow *window, GVariantDict *state)
{
    Point origin;
    double scale, x, y, left, top;
    pin_layout_view(window->layout, &origin, &scale);
    if (gtk_widget_get_width(GTK_WIDGET(window->layout)) == 0)
        return; /* not on the screen yet */
    if (!gtk_widget_translate_coordinates(GTK_WIDGET(window->layout), GTK_WIDGET(window), origin.x,
                                          origin.y, &x, &y))
        return;
    gtk_native_get_surface_transform(GTK_NATIVE(window), &left, &top);
    g_variant_dict_insert(state, "x", "d", x + left);
    g_variant_dict_insert(state, "y", "d", y + top);
    g_variant_dict_insert(state, "scale", "d", scale);
}

static void insert_section(PinWindow *window, GVariantDict *state)
{
    SectionLine line;
    gboolean on = pin_layout_section(window->layout, &line);
    g_variant_dict_insert(state, "section", "b", on);
    if (!on)
        return;
    g_variant_dict_insert(state, "section-x", "d", line.to.x);
    g_variant_dict_insert(state, "section-y", "d", line.to.y);
}

void window_update_state(PinWindow *window)
{
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), "state");
    GVariantDict state;
    g_variant_dict_init(&state, NULL);
    g_variant_dict_insert(&state, "open", "b", window->document && window->drawn);
    insert_surface(window, &state);
    if (window->document) {
        Session *session = pin_document_session(window->document);
        FindingCounts counts = finding_list_counts(session_shown_findings(session));
        guint selected;
        const FeatureId *ids = pin_document_selection(window->document, &selected);
        g_variant_dict_insert(&state, "stop", "u", counts.by_level[LEVEL_STOP]);
        g_variant_dict_insert(&state, "caution", "u", counts.by_level[LEVEL_CAUTION]);
        g_variant_dict_insert(&state, "note", "u", counts.by_level[LEVEL_NOTE]);
        g_variant_dict_insert(&state, "selected", "u", selected);
        g_variant_dict_insert(&state, "first", "u", selected ? ids[0] : 0);
        g_variant_dict_insert(&state, "dragging", "b", pin_document_drag(window->document) != NULL);
        g_variant_dict_insert(&state, "saved", "b", session_is_saved(session));
        g_variant_dict_insert(&state, "undo", "b", session_can_undo(session));
        g_variant_dict_insert(&state, "records", "u", plate_count(session_plate(session)));
        g_variant_dict_insert(&state, "face", "u", pin_layout_face(window->layout));
        g_variant_dict_insert(&state, "guides", "u", pin_layout_guide_count(window->layout));
        g_variant_dict_insert(&state, "measured", "d", pin_layout_measured(window->layout));
        g_variant_dict_insert(&state, "operation", "u", pin_layout_operation(window->layout));
        insert_section(window, &state);
        insert_view(window, &state);
    }
    g_simple_action_set_state(G_SIMPLE_ACTION(action), g_variant_dict_end(&state));
}

void window_add_state(PinWindow *window)
{
    GSimpleAction *action =
        g_simple_action_new_stateful("state", NULL, g_variant_new("a{sv}", NULL));
    g_simple_action_set_enabled(action, FALSE);
    g_action_map_add_action(G_ACTION_MAP(window), G_ACTION(action));
    g_object_unref(action);
    window_update_state(window);
}
