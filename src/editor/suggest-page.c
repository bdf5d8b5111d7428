#include "editor/suggest-page.h"

#include "editor/access.h"
#include "editor/close-key.h"
#include "editor/intl.h"
#include "editor/plate-picture.h"
#include "session/suggest.h"

#define PICTURE_WIDTH 460
#define PICTURE_HEIGHT 330

typedef struct Page {
    GtkWindow *window;
    PinDocument *document;
    GtkWidget *picture, *bar, *begin, *stop, *accept, *refuse;
    GtkLabel *said;
    GtkDropDown *part; /* NULL: stops are to be cleared */
    GArray *parts;     /* FeatureId */
    FeatureId face, like;
    Session *answer;
    guint begun; /* the idle call that runs the search */
    gboolean searching, stopped, closed;
} Page;

static void page_free(gpointer data)
{
    Page *page = data;
    g_clear_handle_id(&page->begun, g_source_remove);
    session_free(page->answer);
    g_object_unref(page->document);
    g_array_unref(page->parts);
    g_free(page);
}

/* --- the search ----------------------------------------------------------------------------------
 */

/* The window lives on between two tries of the search. */
static bool go_on(double fraction, uint32_t found, void *data)
{
    Page *page = data;
    gtk_progress_bar_set_fraction(GTK_PROGRESS_BAR(page->bar), CLAMP(fraction, 0, 1));
    while (g_main_context_pending(NULL) && !page->stopped)
        g_main_context_iteration(NULL, FALSE);
    return !page->stopped;
}

static Session *look(Page *page, uint32_t *count, Error *error)
{
    Session *session = pin_document_session(page->document);
    if (!page->part)
        return suggest_clear(session, go_on, page, count, error);
    gboolean inch = pin_document_unit(page->document) == UNIT_INCH;
    guint chosen = gtk_drop_down_get_selected(page->part);
    FillAsk ask = {g_array_index(page->parts, FeatureId, chosen), page->like, page->face,
                   inch ? LENGTH_INCH / 20 : LENGTH_MM};
    const Record *like = plate_find(session_plate(session), page->like);
    if (!like || like->station.part != ask.part)
        ask.like = ID_NONE;
    return suggest_fill(session, &ask, go_on, page, count, error);
}

static void say(Page *page, const char *text)
{
    char *shown = g_strdup(text);
    shown[0] = g_ascii_toupper(shown[0]);
    gtk_label_set_label(page->said, shown);
    g_free(shown);
}

static char *words_for(Page *page, uint32_t count)
{
    FindingCounts then = finding_list_counts(session_findings(page->answer));
    if (page->part)
        return g_strdup_printf(ngettext("%u more station fits.", "%u more stations fit.", count),
                               count);
    return then.by_level[LEVEL_STOP] == 0
               ? g_strdup_printf(ngettext("%u thing moved clears all stops.",
                                          "%u things moved clear all stops.", count),
                                 count)
               : g_strdup_printf(ngettext("%u thing moved; one or more stops are left.",
                                          "%u things moved; one or more stops are left.", count),
                                 count);
}

static void show_state(Page *page)
{
    gtk_widget_set_visible(page->begin, !page->searching && !page->answer);
    gtk_widget_set_visible(page->stop, page->searching);
    gtk_widget_set_visible(page->accept, page->answer != NULL);
    gtk_widget_set_visible(page->refuse, page->answer != NULL);
    gtk_widget_set_visible(page->bar, page->searching);
    if (page->part)
        gtk_widget_set_sensitive(GTK_WIDGET(page->part), !page->searching);
}

static void run(gpointer data)
{
    Page *page = data;
    uint32_t count = 0;
    Error error;
    page->begun = 0;
    page->answer = look(page, &count, &error);
    page->searching = FALSE;
    if (page->closed) {
        gtk_window_destroy(page->window);
        return;
    }
    if (page->answer) {
        char *words = words_for(page, count);
        plate_picture_set(page->picture, session_plate(page->answer));
        say(page, words);
        g_free(words);
    } else {
        say(page, error.message);
    }
    show_state(page);
    if (page->answer)
        gtk_widget_grab_focus(page->accept);
}

/* --- the hand ------------------------------------------------------------------------------------
 */

static void on_begin(GtkButton *button, Page *page)
{
    page->searching = TRUE;
    page->stopped = FALSE;
    say(page, _("Looking…"));
    show_state(page);
    page->begun = g_idle_add_once(run, page);
}

static void on_stop(GtkButton *button, Page *page)
{
    page->stopped = TRUE;
}

static void on_refuse(GtkButton *button, Page *page)
{
    gtk_window_destroy(page->window);
}

static void on_accept(GtkButton *button, Page *page)
{
    Edit edit = EDIT_EMPTY;
    suggest_edit(pin_document_session(page->document), page->answer,
                 page->part ? "Fill with stations" : "Clear the stops", &edit);
    if (pin_document_do(page->document, &edit))
        gtk_window_destroy(page->window);
}

/* A search that is under way ends first: it holds the page. */
static gboolean on_close(GtkWindow *window, Page *page)
{
    if (!page->searching)
        return FALSE;
    page->stopped = page->closed = TRUE;
    gtk_widget_set_visible(GTK_WIDGET(window), FALSE);
    return TRUE;
}

/* --- the window ----------------------------------------------------------------------------------
 */

static GtkWidget *add_button(GtkBox *box, const char *name, GCallback pressed, Page *page)
{
    GtkWidget *button = gtk_button_new_with_label(name);
    g_signal_connect(button, "clicked", pressed, page);
    gtk_box_append(box, button);
    return button;
}

static GtkWidget *add_label(GtkBox *box, const char *text)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 60);
    gtk_box_append(box, label);
    return label;
}

static void add_parts(Page *page, GtkBox *box)
{
    const Plate *plate = pin_document_plate(page->document);
    GtkStringList *names = gtk_string_list_new(NULL);
    FeatureId part = ID_NONE;
    const Record *like = plate_find_kind(plate, page->like, RECORD_STATION);
    guint chosen = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_PART)
            continue;
        part = record->id;
        if (like && like->station.part == part)
            chosen = page->parts->len;
        gtk_string_list_append(names, record->part.name ? record->part.name : _("part"));
        g_array_append_val(page->parts, part);
    }
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new(_("Part"));
    page->part = GTK_DROP_DOWN(gtk_drop_down_new(G_LIST_MODEL(names), NULL));
    gtk_drop_down_set_selected(page->part, chosen);
    access_choice(page->part, _("Part"));
    gtk_box_append(GTK_BOX(row), label);
    gtk_box_append(GTK_BOX(row), GTK_WIDGET(page->part));
    gtk_box_append(box, row);
}

static void add_buttons(Page *page, GtkBox *box)
{
    GtkWidget *buttons = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    gtk_widget_set_halign(buttons, GTK_ALIGN_END);
    page->begin = add_button(GTK_BOX(buttons), _("Look for it"), G_CALLBACK(on_begin), page);
    page->stop = add_button(GTK_BOX(buttons), _("Stop"), G_CALLBACK(on_stop), page);
    page->refuse = add_button(GTK_BOX(buttons), _("Refuse"), G_CALLBACK(on_refuse), page);
    page->accept = add_button(GTK_BOX(buttons), _("Accept"), G_CALLBACK(on_accept), page);
    gtk_widget_add_css_class(page->begin, "suggested-action");
    gtk_widget_add_css_class(page->accept, "suggested-action");
    gtk_box_append(box, buttons);
}

static void fill_window(Page *page, gboolean stations)
{
    GtkBox *box = GTK_BOX(gtk_box_new(GTK_ORIENTATION_VERTICAL, 10));
    gtk_widget_add_css_class(GTK_WIDGET(box), "form");
    gtk_widget_add_css_class(
        add_label(box, stations ? _("As many more stations of a part as fit without a new stop. A "
                                    "station that is selected is copied with its nest and clamps.")
                                : _("The least moves that clear the stops. What is made or locked "
                                    "stays.")),
        "dim-label");
    if (stations)
        add_parts(page, box);
    page->picture = plate_picture_new(PICTURE_WIDTH, PICTURE_HEIGHT);
    plate_picture_set(page->picture, pin_document_plate(page->document));
    gtk_box_append(box, page->picture);
    page->bar = gtk_progress_bar_new();
    gtk_accessible_update_property(GTK_ACCESSIBLE(page->bar), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("How far the search is"), -1);
    gtk_box_append(box, page->bar);
    page->said = GTK_LABEL(add_label(box, ""));
    add_buttons(page, box);
    gtk_window_set_child(page->window, GTK_WIDGET(box));
}

static void open_page(PinWindow *window, gboolean stations)
{
    FeatureId one = pin_document_selected_one(window->document);
    Page *page = g_new0(Page, 1);
    pin_document_drag_cancel(window->document);
    page->document = g_object_ref(window->document);
    page->parts = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    page->face = pin_layout_face(window->layout);
    if (plate_find_kind(pin_document_plate(window->document), one, RECORD_STATION))
        page->like = one;
    page->window = GTK_WINDOW(gtk_window_new());
    gtk_window_set_transient_for(page->window, GTK_WINDOW(window));
    gtk_window_set_modal(page->window, TRUE);
    gtk_window_set_resizable(page->window, FALSE);
    gtk_window_set_title(page->window, stations ? _("Fill with stations") : _("Clear the stops"));
    g_object_set_data_full(G_OBJECT(page->window), "page", page, page_free);
    g_signal_connect(page->window, "close-request", G_CALLBACK(on_close), page);
    close_on_escape(GTK_WIDGET(page->window));
    fill_window(page, stations);
    show_state(page);
    gtk_widget_grab_focus(page->begin);
    gtk_window_present(page->window);
}

/* --- the actions ---------------------------------------------------------------------------------
 */

static void on_fill(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    open_page(data, TRUE);
}

static void on_clear(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    open_page(data, FALSE);
}

static gboolean has_part(PinWindow *window)
{
    const Plate *plate = pin_document_plate(window->document);
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_PART)
            return TRUE;
    return FALSE;
}

static void enable(PinWindow *window, const char *name, gboolean enabled)
{
    g_simple_action_set_enabled(
        G_SIMPLE_ACTION(g_action_map_lookup_action(G_ACTION_MAP(window), name)), enabled);
}

void suggest_update_actions(PinWindow *window)
{
    gboolean open = window->document != NULL;
    enable(window, "suggest-stations", open && has_part(window));
    enable(window, "suggest-moves", open);
}

void suggest_add_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "suggest-stations", .activate = on_fill},
        {.name = "suggest-moves", .activate = on_clear},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
    suggest_update_actions(window);
}
