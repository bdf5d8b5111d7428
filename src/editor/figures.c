#include "editor/figures.h"

#include "drawing/lettering.h"
#include "editor/access.h"
#include "editor/figures-page.h"
#include "editor/intl.h"
#include "editor/preferences.h"

struct _PinFigures {
    GtkApplicationWindow parent_instance;
    GtkStack *pages;
    GtkDropDown *unit;
    GtkStackSidebar *sidebar;
    PinWindow *window; /* goes after this one */
};

G_DEFINE_FINAL_TYPE(PinFigures, pin_figures, GTK_TYPE_APPLICATION_WINDOW)

static PinFiguresPage *shown_page(PinFigures *figures)
{
    GtkWidget *page = figures->pages ? gtk_stack_get_visible_child(figures->pages) : NULL;
    return page ? PIN_FIGURES_PAGE(page) : NULL;
}

/* The state as an action, as the plate's window has one: what a script or a test waits for. */
static void update_state(PinFigures *figures)
{
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(figures), "state");
    PinFiguresPage *page = shown_page(figures);
    GVariantDict state;
    if (!action || !page)
        return;
    g_variant_dict_init(&state, NULL);
    double left, top;
    gtk_native_get_surface_transform(GTK_NATIVE(figures), &left, &top);
    g_variant_dict_insert(&state, "left", "d", left);
    g_variant_dict_insert(&state, "top", "d", top);
    g_variant_dict_insert(&state, "figure", "s", gtk_stack_get_visible_child_name(figures->pages));
    g_variant_dict_insert(&state, "answer", "s", pin_figures_page_answer(page));
    g_variant_dict_insert(&state, "usable", "b", pin_figures_page_usable(page));
    g_simple_action_set_state(G_SIMPLE_ACTION(action), g_variant_dict_end(&state));
}

static void look(PinFigures *figures)
{
    PinFiguresPage *page = shown_page(figures);
    if (page && figures->window)
        pin_figures_page_look(page, pin_window_document(figures->window));
}

/* The plate's window says in its state when the plate or what is selected is another. */
static void on_plate_state(GActionGroup *group, const char *name, GVariant *state,
                           PinFigures *figures)
{
    if (gtk_widget_get_visible(GTK_WIDGET(figures)))
        look(figures);
}

static void on_page(GtkStack *pages, GParamSpec *property, PinFigures *figures)
{
    look(figures);
}

static void on_unit(GtkDropDown *choice, GParamSpec *property, PinFigures *figures)
{
    Unit unit = gtk_drop_down_get_selected(choice) == 0 ? UNIT_INCH : UNIT_MM;
    for (GtkWidget *page = gtk_widget_get_first_child(GTK_WIDGET(figures->pages)); page;
         page = gtk_widget_get_next_sibling(page))
        pin_figures_page_set_unit(PIN_FIGURES_PAGE(page), unit);
    update_state(figures);
}

/* --- actions -----------------------------------------------------------------------------------
 */

static void on_close(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    gtk_window_close(GTK_WINDOW(data));
}

static void on_history(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinFigures *figures = data;
    if (figures->window)
        g_action_group_activate_action(G_ACTION_GROUP(figures->window),
                                       g_action_get_name(G_ACTION(action)), NULL);
}

/* From figure to figure without leaving what is typed in. */
static void on_next(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinFigures *figures = data;
    GtkWidget *page = gtk_stack_get_visible_child(figures->pages);
    page = g_variant_get_int32(parameter) > 0 ? gtk_widget_get_next_sibling(page)
                                              : gtk_widget_get_prev_sibling(page);
    if (!page)
        return;
    gtk_stack_set_visible_child(figures->pages, page);
    gtk_widget_grab_focus(page);
}

static void add_actions(PinFigures *figures)
{
    static const GActionEntry entries[] = {
        {.name = "close", .activate = on_close},
        {.name = "undo", .activate = on_history},
        {.name = "redo", .activate = on_history},
        {.name = "next", .activate = on_next, .parameter_type = "i"},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(figures), entries, G_N_ELEMENTS(entries), figures);
    GSimpleAction *state =
        g_simple_action_new_stateful("state", NULL, g_variant_new("a{sv}", NULL));
    g_simple_action_set_enabled(state, FALSE);
    g_action_map_add_action(G_ACTION_MAP(figures), G_ACTION(state));
    g_object_unref(state);
}

/* --- the widget --------------------------------------------------------------------------------
 */

/* The toolkit would let go of the other window only once nobody holds this one, and by then the
 * other may be gone. */
static void on_window_gone(gpointer data, GObject *window)
{
    PinFigures *figures = data;
    figures->window = NULL;
    gtk_window_set_transient_for(GTK_WINDOW(figures), NULL);
    gtk_window_destroy(GTK_WINDOW(figures));
}

static void pin_figures_dispose(GObject *object)
{
    PinFigures *figures = PIN_FIGURES(object);
    if (figures->window) {
        g_object_weak_unref(G_OBJECT(figures->window), on_window_gone, figures);
        figures->window = NULL;
    }
    if (figures->pages) /* its pages go one by one, and each would be looked at */
        g_signal_handlers_disconnect_by_data(figures->pages, figures);
    figures->pages = NULL;
    G_OBJECT_CLASS(pin_figures_parent_class)->dispose(object);
}

static void pin_figures_class_init(PinFiguresClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_figures_dispose;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/figures.ui");
    gtk_widget_class_bind_template_child(widget, PinFigures, pages);
    gtk_widget_class_bind_template_child(widget, PinFigures, unit);
    gtk_widget_class_bind_template_child(widget, PinFigures, sidebar);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_z, GDK_CONTROL_MASK, "win.undo", NULL);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK,
                                        "win.redo", NULL);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Down, GDK_CONTROL_MASK, "win.next",
                                        "i", 1);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Page_Up, GDK_CONTROL_MASK, "win.next", "i",
                                        -1);
}

static void pin_figures_init(PinFigures *figures)
{
    gtk_widget_init_template(GTK_WIDGET(figures));
    add_actions(figures);
}

static Unit starting_unit(PinWindow *window)
{
    PinDocument *document = pin_window_document(window);
    if (document)
        return pin_document_unit(document);
    char *preferred = preference_text("unit");
    Unit unit = g_strcmp0(preferred, "mm") == 0 ? UNIT_MM : UNIT_INCH;
    g_free(preferred);
    return unit;
}

static void add_pages(PinFigures *figures, Unit unit)
{
    Lettering *lettering = lettering_new(NULL);
    for (gsize i = 0; figure_form(i); i++) {
        const FigureForm *form = figure_form(i);
        GtkWidget *page = pin_figures_page_new(form, lettering, unit);
        g_signal_connect_swapped(page, "answered", G_CALLBACK(update_state), figures);
        gtk_stack_add_titled(figures->pages, page, form->what, _(form->title));
    }
    if (lettering)
        lettering_unref(lettering);
}

static GtkWidget *figures_new(PinWindow *window)
{
    Unit unit = starting_unit(window);
    PinFigures *figures = g_object_new(PIN_TYPE_FIGURES, "application",
                                       gtk_window_get_application(GTK_WINDOW(window)),
                                       "transient-for", window, "hide-on-close", TRUE, NULL);
    figures->window = window;
    g_object_weak_ref(G_OBJECT(window), on_window_gone, figures);
    gtk_drop_down_set_selected(figures->unit, unit == UNIT_INCH ? 0 : 1);
    access_choice(figures->unit, _("What a number with no unit is in"));
    add_pages(figures, unit);
    access_sidebar(figures->sidebar);
    g_signal_connect(figures->unit, "notify::selected", G_CALLBACK(on_unit), figures);
    g_signal_connect(figures->pages, "notify::visible-child", G_CALLBACK(on_page), figures);
    g_signal_connect_object(window, "action-state-changed::state", G_CALLBACK(on_plate_state),
                            figures, 0);
    return GTK_WIDGET(figures);
}

#define KEPT "figures"

static void on_figures(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    GtkWidget *figures = g_object_get_data(G_OBJECT(data), KEPT);
    if (!figures) {
        figures = figures_new(data);
        g_object_set_data(G_OBJECT(data), KEPT, figures);
    }
    gtk_window_present(GTK_WINDOW(figures));
    look(PIN_FIGURES(figures));
    gtk_widget_grab_focus(GTK_WIDGET(shown_page(PIN_FIGURES(figures))));
}

void figures_add_action(PinWindow *window)
{
    static const GActionEntry entries[] = {{.name = "figures", .activate = on_figures}};
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
