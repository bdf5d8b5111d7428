#include "editor/window-private.h"

#include "editor/action-search.h"
#include "editor/arrange-actions.h"
#include "editor/ask.h"
#include "editor/figures.h"
#include "editor/intl.h"
#include "editor/measured-window.h"
#include "editor/preferences-window.h"
#include "editor/preferences.h"
#include "editor/rack-window.h"
#include "editor/recent.h"
#include "editor/refit-bar.h"
#include "editor/suggest-page.h"

#define MESSAGE_SECONDS 8

G_DEFINE_FINAL_TYPE(PinWindow, pin_window, GTK_TYPE_APPLICATION_WINDOW)

static void need_plate_page(PinWindow *window);

/* --- what is said ------------------------------------------------------------------------------
 */

static void on_said_answered(int answer, gpointer data)
{
}

static gboolean on_message_old(gpointer data)
{
    PinWindow *window = data;
    window->message_timeout = 0;
    gtk_revealer_set_reveal_child(window->message_revealer, FALSE);
    return G_SOURCE_REMOVE;
}

void window_say(PinWindow *window, const char *text)
{
    need_plate_page(window);
    char *shown = g_strdup(text);
    if (shown[0] && shown[1])
        shown[0] = g_ascii_toupper(shown[0]);
    gtk_label_set_label(window->message, shown);
    gtk_revealer_set_reveal_child(window->message_revealer, TRUE);
    g_clear_handle_id(&window->message_timeout, g_source_remove);
    window->message_timeout = g_timeout_add_seconds(MESSAGE_SECONDS, on_message_old, window);
    g_free(shown);
}

void pin_window_say(PinWindow *window, const char *text)
{
    const char *answers[] = {_("Close"), NULL};
    if (window->document)
        window_say(window, text);
    else
        ask(GTK_WINDOW(window), text, "", answers, on_said_answered, NULL, NULL);
}

void window_update_title(PinWindow *window)
{
    const char *path = session_path(pin_document_session(window->document));
    gboolean saved = session_is_saved(pin_document_session(window->document));
    char *name = path ? g_path_get_basename(path) : g_strdup(_("New plate"));
    char *title = g_strconcat(saved ? "" : "● ", name, NULL);
    gtk_label_set_label(window->file_name, name);
    gtk_widget_set_tooltip_text(GTK_WIDGET(window->file_name), path);
    gtk_widget_set_visible(GTK_WIDGET(window->dot), !saved);
    gtk_window_set_title(GTK_WINDOW(window), title);
    g_free(title);
    g_free(name);
}

/* --- the document ------------------------------------------------------------------------------
 */

static void on_changed(PinDocument *document, PinWindow *window)
{
    window_update_title(window);
    window_update_actions(window);
    window_update_state(window);
}

static void on_tried(PinDocument *document, PinWindow *window)
{
    window_update_state(window);
}

static void on_selection(PinDocument *document, PinWindow *window)
{
    pin_layout_point_out(window->layout, -1);
    window_update_actions(window);
    window_update_state(window);
}

static void on_said(PinDocument *document, const char *text, PinWindow *window)
{
    window_say(window, text);
}

/* A finding's row was chosen: its place is shown, and its sign stands out. */
static void on_finding_chosen(PinFindings *findings, int number, PinWindow *window)
{
    const FindingList *list = session_findings(pin_document_session(window->document));
    pin_layout_point_out(window->layout, number);
    if (number >= 0 && (guint)number < list->count && list->items[number].face != ID_NONE) {
        pin_layout_set_face(window->layout, list->items[number].face);
        pin_layout_point_out(window->layout, number);
    }
    if (number >= 0 && (guint)number < list->count)
        pin_layout_show_place(window->layout, list->items[number].at);
}

static void on_finding_pressed(PinLayout *layout, int number, PinWindow *window)
{
    pin_findings_choose(window->findings, number);
}

static void on_viewed(PinLayout *layout, PinWindow *window)
{
    window_update_state(window);
}

/* Without dragging a thing is put in the middle of what is seen. */
static void on_wanted(PinTrays *trays, PinTrayItem *item, PinWindow *window)
{
    Edit edit = EDIT_EMPTY;
    Error error;
    Place middle = pin_layout_middle(window->layout);
    if (refit_take_drop(window, &(RefitDrop){item, pin_layout_face(window->layout), middle}))
        return;
    if (!pin_tray_item_make(item, pin_document_session(window->document),
                            pin_layout_face(window->layout), middle, &edit, &error)) {
        edit_clear(&edit);
        pin_document_refuse(window->document, &error);
        return;
    }
    pin_document_drag_begin_ghost(window->document, &edit, middle);
    pin_document_drag_drop(window->document);
    gtk_widget_grab_focus(GTK_WIDGET(window->layout));
}

PinDocument *pin_window_document(PinWindow *window)
{
    return window->document;
}

static void release_document(PinWindow *window)
{
    if (!window->document)
        return;
    g_signal_handlers_disconnect_by_data(window->document, window);
    pin_layout_set_document(window->layout, NULL);
    pin_trays_set_document(window->trays, NULL);
    pin_feature_list_set_document(window->features, NULL);
    pin_details_set_document(window->details, NULL);
    pin_findings_set_document(window->findings, NULL);
    pin_readout_set_document(window->readout, NULL, NULL);
    pin_view_bar_set_document(window->view_bar, NULL, NULL);
    pin_section_view_set_document(window->section_view, NULL, NULL);
    pin_operation_list_set_document(window->operations, NULL, NULL);
    g_clear_object(&window->document);
}

static void connect_panels(PinWindow *window)
{
    PinDocument *document = window->document;
    pin_trays_set_document(window->trays, document);
    pin_feature_list_set_document(window->features, document);
    pin_details_set_document(window->details, document);
    pin_findings_set_document(window->findings, document);
    pin_readout_set_document(window->readout, document, window->layout);
    pin_view_bar_set_document(window->view_bar, document, window->layout);
    pin_section_view_set_document(window->section_view, document, window->layout);
    pin_operation_list_set_document(window->operations, document, window->layout);
}

static void connect_document(PinWindow *window)
{
    PinDocument *document = window->document;
    pin_layout_set_document(window->layout, document);
    if (window->drawn)
        connect_panels(window);
    g_signal_connect(document, "changed", G_CALLBACK(on_changed), window);
    g_signal_connect(document, "tried", G_CALLBACK(on_tried), window);
    g_signal_connect(document, "selection-changed", G_CALLBACK(on_selection), window);
    g_signal_connect(document, "refused", G_CALLBACK(on_said), window);
    g_signal_connect(document, "said", G_CALLBACK(on_said), window);
}

#define TAKE(member) (window->member = (void *)gtk_builder_get_object(builder, #member))

/* The page of a plate is made when there is a plate, or once the first frame is on the display: a
 * start without one has nothing of it to show. */
static void need_plate_page(PinWindow *window)
{
    if (window->layout)
        return;
    GtkBuilder *builder = gtk_builder_new_from_resource(EDITOR_PATH "ui/plate-page.ui");
    TAKE(message);
    TAKE(message_revealer);
    TAKE(left);
    TAKE(left_switcher);
    TAKE(trays);
    TAKE(features);
    TAKE(layout);
    TAKE(view_bar);
    TAKE(section_view);
    TAKE(operations);
    TAKE(details);
    TAKE(findings);
    TAKE(readout);
    GtkWidget *page = GTK_WIDGET(gtk_builder_get_object(builder, "plate_page"));
    gtk_widget_set_hexpand(page, TRUE);
    gtk_box_append(GTK_BOX(window->plate_place), page);
    g_object_unref(builder);
    g_signal_connect(window->trays, "wanted", G_CALLBACK(on_wanted), window);
    g_signal_connect(window->findings, "chosen", G_CALLBACK(on_finding_chosen), window);
    g_signal_connect(window->layout, "viewed", G_CALLBACK(on_viewed), window);
    g_signal_connect(window->layout, "finding-pressed", G_CALLBACK(on_finding_pressed), window);
    window_connect_plate_page(window);
    refit_take_drops(window);
    pin_layout_set_menu(window->layout, G_MENU_MODEL(window->edit_menu));
    pin_layout_set_snap(window->layout, preference_bool("snap"));
    pin_readout_set_both_units(window->readout, preference_bool("both-units"));
}

void pin_window_set_session(PinWindow *window, Session *session)
{
    Error error;
    char *folder = journal_folder();
    need_plate_page(window);
    release_document(window);
    window->document = pin_document_new(session);
    window->file_change_said = FALSE;
    connect_document(window);
    if (!session_keep_journal(session, folder, &error))
        pin_document_refuse(window->document, &error);
    if (session_path(session))
        recent_add(session_path(session));
    gtk_stack_set_visible_child_name(window->pages, "plate");
    gtk_widget_set_visible(window->edit_buttons, TRUE);
    gtk_widget_set_visible(window->zoom_buttons, TRUE);
    on_changed(window->document, window);
    gtk_widget_grab_focus(GTK_WIDGET(window->layout));
    g_free(folder);
}

static void on_made(PinStart *start, gpointer plate, PinWindow *window)
{
    pin_window_set_session(window, session_new(plate, NULL));
}

static void on_path_wanted(PinStart *start, const char *path, PinWindow *window)
{
    pin_window_open(window, path);
}

/* The page of keys is made when it is first asked for; from then on the toolkit's own action shows
 * it. */
static void on_keys(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    GtkApplicationWindow *window = data;
    if (!gtk_application_window_get_help_overlay(window)) {
        GtkBuilder *builder = gtk_builder_new_from_resource(EDITOR_PATH "ui/shortcuts.ui");
        gtk_application_window_set_help_overlay(
            window, GTK_SHORTCUTS_WINDOW(gtk_builder_get_object(builder, "help_overlay")));
        g_object_unref(builder);
    }
    gtk_widget_activate_action(GTK_WIDGET(window), "win.show-help-overlay", NULL);
}

static void add_keys_action(PinWindow *window)
{
    static const GActionEntry entries[] = {{.name = "keys", .activate = on_keys}};
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}

/* --- the widget --------------------------------------------------------------------------------
 */

static gboolean pin_window_close_request(GtkWindow *gtk_window)
{
    PinWindow *window = PIN_WINDOW(gtk_window);
    if (window_on_close(window))
        return TRUE;
    int width, height;
    gtk_window_get_default_size(gtk_window, &width, &height);
    preference_set_number("window-width", width);
    preference_set_number("window-height", height);
    return GTK_WINDOW_CLASS(pin_window_parent_class)->close_request(gtk_window);
}

static void on_active(GtkWindow *gtk_window, GParamSpec *property, PinWindow *window)
{
    if (gtk_window_is_active(gtk_window) && window->document)
        window_check_file(window);
}

static void add_start(PinWindow *window)
{
    GtkWidget *start = g_object_new(PIN_TYPE_START, "hexpand", TRUE, "vexpand", TRUE, NULL);
    g_signal_connect(start, "made", G_CALLBACK(on_made), window);
    g_signal_connect(start, "wanted", G_CALLBACK(on_path_wanted), window);
    gtk_box_append(GTK_BOX(window->start_place), start);
    if (window->new_plate_wanted)
        pin_start_new_plate(PIN_START(start));
}

void pin_window_begin_new_plate(PinWindow *window)
{
    GtkWidget *start = gtk_widget_get_first_child(window->start_place);
    window->new_plate_wanted = TRUE; /* the first page comes with the second frame */
    if (start)
        pin_start_new_plate(PIN_START(start));
}

/* The plate is seen first; what stands around it is a hundred words to lay out, and comes with the
 * second frame. */
static void on_drawn(GdkFrameClock *clock, PinWindow *window)
{
    if (window->drawn)
        return;
    window->drawn = TRUE;
    need_plate_page(window);
    GtkWidget *late[] = {window->left_switcher, GTK_WIDGET(window->left),
                         GTK_WIDGET(window->details), GTK_WIDGET(window->findings),
                         GTK_WIDGET(window->readout)};
    for (guint i = 0; i < G_N_ELEMENTS(late); i++)
        gtk_widget_set_visible(late[i], TRUE);
    if (window->document)
        connect_panels(window);
    else
        add_start(window);
    window_update_state(window);
}

static void pin_window_realize(GtkWidget *widget)
{
    GTK_WIDGET_CLASS(pin_window_parent_class)->realize(widget);
    if (!PIN_WINDOW(widget)->drawn)
        g_signal_connect_object(gtk_widget_get_frame_clock(widget), "after-paint",
                                G_CALLBACK(on_drawn), widget, 0);
}

static void pin_window_dispose(GObject *object)
{
    PinWindow *window = PIN_WINDOW(object);
    g_clear_handle_id(&window->message_timeout, g_source_remove);
    release_document(window);
    G_OBJECT_CLASS(pin_window_parent_class)->dispose(object);
}

#define BIND(member) gtk_widget_class_bind_template_child(widget, PinWindow, member)

static void bind_children(GtkWidgetClass *widget)
{
    BIND(dot);
    BIND(file_name);
    BIND(edit_buttons);
    BIND(zoom_buttons);
    BIND(undo);
    BIND(redo);
    BIND(pages);
    BIND(start_place);
    BIND(plate_place);
    BIND(recent_menu);
    BIND(menu_button);
    BIND(edit_menu);
}

static void pin_window_class_init(PinWindowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_window_dispose;
    GTK_WINDOW_CLASS(class)->close_request = pin_window_close_request;
    widget->realize = pin_window_realize;
    g_type_ensure(PIN_TYPE_TRAYS);
    g_type_ensure(PIN_TYPE_FEATURE_LIST);
    g_type_ensure(PIN_TYPE_LAYOUT);
    g_type_ensure(PIN_TYPE_VIEW_BAR);
    g_type_ensure(PIN_TYPE_SECTION_VIEW);
    g_type_ensure(PIN_TYPE_OPERATION_LIST);
    g_type_ensure(PIN_TYPE_DETAILS);
    g_type_ensure(PIN_TYPE_FINDINGS);
    g_type_ensure(PIN_TYPE_READOUT);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/window.ui");
    bind_children(widget);
    window_add_keys(class);
}

static void pin_window_init(PinWindow *window)
{
    gtk_widget_init_template(GTK_WIDGET(window));
    gtk_window_set_default_size(GTK_WINDOW(window), preference_number("window-width"),
                                preference_number("window-height"));
    gtk_widget_set_visible(window->edit_buttons, FALSE);
    gtk_widget_set_visible(window->zoom_buttons, FALSE);
    recent_fill_menu(window->recent_menu);
    window_add_actions(window);
    window_add_file_actions(window);
    window_add_part_actions(window);
    arrange_add_actions(window);
    suggest_add_actions(window);
    action_search_add_action(window);
    window_add_print_actions(window);
    window_add_plate_actions(window);
    figures_add_action(window);
    refit_add_actions(window);
    measured_add_actions(window);
    rack_add_action(window);
    preferences_add_action(window);
    add_keys_action(window);
    window_add_state(window);
    g_signal_connect(window, "notify::is-active", G_CALLBACK(on_active), window);
    window_update_actions(window);
}

PinWindow *pin_window_new(GtkApplication *application)
{
    return g_object_new(PIN_TYPE_WINDOW, "application", application, NULL);
}
