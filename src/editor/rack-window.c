#include "editor/rack-window.h"

#include "editor/access.h"
#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/plate-picture.h"
#include "editor/refit-bar.h"
#include "editor/speech.h"
#include "editor/window-private.h"
#include "plate/plate-file.h"
#include "refit/rack.h"

#define KEPT "rack-window"
#define PICTURE_WIDTH 150
#define PICTURE_HEIGHT 96
#define ROWS_MOST 500     /* longer lists say nothing more; the best stand first */
#define PROGRESS_EVERY 80 /* ms */

/* One search in a thread of its own; the window lets go of it when it begins another or closes. */
typedef struct Search {
    char *folder;
    Record *part;
    Unit unit;
    GThread *thread;
    gint stop, thousandths; /* both threads' */
    RackSearch *found;
    Error error;
    struct Rack *rack; /* NULL: nobody waits for it */
} Search;

typedef struct Rack {
    PinWindow *window;
    GtkWidget *top, *list, *progress, *search_button, *stop_button;
    GtkLabel *folder_label, *part_label, *summary;
    char *folder;
    Record *part;
    Search *search; /* the one under way */
    guint timer, pictures;
    int next_picture; /* the row that gets its picture next */
} Rack;

/* --- the search --------------------------------------------------------------------------------
 */

static void search_free(Search *search)
{
    rack_search_free(search->found);
    record_unref(search->part);
    g_free(search->folder);
    g_free(search);
}

static bool goes_on(double done, const char *file, void *data)
{
    Search *search = data;
    g_atomic_int_set(&search->thousandths, (gint)(1000 * done));
    return !g_atomic_int_get(&search->stop);
}

static void show_found(Rack *rack, Search *search);

static gboolean on_over(gpointer data)
{
    Search *search = data;
    g_thread_join(search->thread);
    if (search->rack)
        show_found(search->rack, search);
    search_free(search);
    return G_SOURCE_REMOVE;
}

static gpointer run(gpointer data)
{
    Search *search = data;
    RackOptions options = {
        .unit = search->unit, .speech = pin_speech(), .go_on = goes_on, .data = search};
    search->found = rack_search(search->folder, &search->part->part, &options, &search->error);
    g_idle_add(on_over, search);
    return NULL;
}

static void leave_search(Rack *rack)
{
    if (!rack->search)
        return;
    g_atomic_int_set(&rack->search->stop, 1);
    rack->search->rack = NULL;
    rack->search = NULL;
}

/* --- what is shown -----------------------------------------------------------------------------
 */

static void update_state(Rack *rack, const char *best)
{
    GVariantDict state;
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(rack->top), "state");
    double left = 0, top = 0;
    gtk_native_get_surface_transform(GTK_NATIVE(rack->top), &left, &top);
    g_variant_dict_init(&state, NULL);
    g_variant_dict_insert(&state, "left", "d", left);
    g_variant_dict_insert(&state, "top", "d", top);
    g_variant_dict_insert(&state, "searching", "b", rack->search != NULL);
    g_variant_dict_insert(&state, "best", "s", best);
    g_simple_action_set_state(G_SIMPLE_ACTION(action), g_variant_dict_end(&state));
}

static void show_searching(Rack *rack)
{
    gboolean searching = rack->search != NULL;
    gtk_widget_set_visible(rack->progress, searching);
    gtk_widget_set_visible(rack->stop_button, searching);
    gtk_widget_set_visible(rack->search_button, !searching);
    gtk_widget_set_sensitive(rack->search_button, rack->folder && rack->part);
}

static GtkWidget *label_new(const char *text, const char *css)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    if (css)
        gtk_widget_add_css_class(label, css);
    return label;
}

static char *verdict_words(const RackRow *row)
{
    if (row->broken)
        return g_strdup(_("can't be read"));
    switch (row->verdict) {
    case REFIT_FITS:
        return g_strdup(_("fits as it stands"));
    case REFIT_ONE_HOLE:
        return g_strdup(_("fits with one more hole"));
    case REFIT_MORE_HOLES:
        return g_strdup_printf(_("fits with %d more holes"), row->new_holes);
    case REFIT_NO:
        break;
    }
    return g_strdup(_("does not fit"));
}

static void add_row(Rack *rack, const RackRow *row)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    GtkWidget *words = gtk_box_new(GTK_ORIENTATION_VERTICAL, 2);
    GtkWidget *picture = plate_picture_new(PICTURE_WIDTH, PICTURE_HEIGHT);
    char *verdict = verdict_words(row);
    char *heading = g_strdup_printf("%s: %s", row->file, verdict);
    gtk_box_append(GTK_BOX(words), label_new(heading, "heading"));
    gtk_box_append(GTK_BOX(words), label_new(row->says, NULL));
    gtk_widget_set_valign(words, GTK_ALIGN_CENTER);
    gtk_widget_set_hexpand(words, TRUE);
    gtk_box_append(GTK_BOX(box), picture);
    gtk_box_append(GTK_BOX(box), words);
    gtk_list_box_append(GTK_LIST_BOX(rack->list), box);
    GtkWidget *item = gtk_widget_get_last_child(rack->list);
    gtk_list_box_row_set_activatable(GTK_LIST_BOX_ROW(item), !row->broken);
    access_name(item, heading);
    access_row(item);
    g_object_set_data_full(G_OBJECT(item), "file", g_build_filename(rack->folder, row->file, NULL),
                           g_free);
    g_object_set_data(G_OBJECT(item), "picture", row->broken ? NULL : picture);
    g_free(heading);
    g_free(verdict);
}

/* One plate is read for its picture at a time, while nothing else is to be done. */
static gboolean on_picture(gpointer data)
{
    Rack *rack = data;
    GtkListBoxRow *row =
        gtk_list_box_get_row_at_index(GTK_LIST_BOX(rack->list), rack->next_picture++);
    if (!row) {
        rack->pictures = 0;
        return G_SOURCE_REMOVE;
    }
    GtkWidget *picture = g_object_get_data(G_OBJECT(row), "picture");
    Plate *plate =
        picture ? plate_read(g_object_get_data(G_OBJECT(row), "file"), NULL, NULL) : NULL;
    if (plate)
        plate_picture_set(picture, plate);
    plate_free(plate);
    return G_SOURCE_CONTINUE;
}

static void clear_rows(Rack *rack)
{
    GtkListBoxRow *row;
    g_clear_handle_id(&rack->pictures, g_source_remove);
    while ((row = gtk_list_box_get_row_at_index(GTK_LIST_BOX(rack->list), 0)))
        gtk_list_box_remove(GTK_LIST_BOX(rack->list), GTK_WIDGET(row));
}

static void say_summary(Rack *rack, const RackSearch *found)
{
    guint fit = 0;
    for (guint i = 0; i < found->rows->len; i++)
        fit += ((const RackRow *)found->rows->pdata[i])->verdict != REFIT_NO;
    char *text = g_strdup_printf(found->stopped ? _("Stopped: %u plates were looked at, %u fit.")
                                                : _("%u plates, %u fit."),
                                 found->rows->len, fit);
    gtk_label_set_label(rack->summary, text);
    g_free(text);
}

static void show_found(Rack *rack, Search *search)
{
    RackSearch *found = search->found;
    rack->search = NULL;
    g_clear_handle_id(&rack->timer, g_source_remove);
    show_searching(rack);
    clear_rows(rack);
    if (!found) {
        gtk_label_set_label(rack->summary, search->error.message);
        update_state(rack, "");
        return;
    }
    for (guint i = 0; i < MIN(found->rows->len, ROWS_MOST); i++)
        add_row(rack, found->rows->pdata[i]);
    say_summary(rack, found);
    rack->next_picture = 0;
    rack->pictures = g_idle_add_full(G_PRIORITY_LOW, on_picture, rack, NULL);
    const RackRow *best = found->rows->len ? found->rows->pdata[0] : NULL;
    update_state(rack, best ? refit_verdict_name(best->verdict) : "none");
}

/* --- what is pressed ---------------------------------------------------------------------------
 */

static gboolean on_timer(gpointer data)
{
    Rack *rack = data;
    if (rack->search)
        gtk_progress_bar_set_fraction(
            GTK_PROGRESS_BAR(rack->progress),
            CLAMP(g_atomic_int_get(&rack->search->thousandths) / 1000.0, 0, 1));
    return G_SOURCE_CONTINUE;
}

static void begin(Rack *rack)
{
    if (!rack->folder || !rack->part)
        return;
    leave_search(rack);
    g_clear_handle_id(&rack->timer, g_source_remove);
    Search *search = g_new0(Search, 1);
    search->folder = g_strdup(rack->folder);
    search->part = record_copy(rack->part, ID_NONE);
    search->unit = rack->window->document ? pin_document_unit(rack->window->document) : UNIT_MM;
    search->rack = rack;
    rack->search = search;
    search->thread = g_thread_new("rack", run, search);
    rack->timer = g_timeout_add(PROGRESS_EVERY, on_timer, rack);
    gtk_label_set_label(rack->summary, _("Looking through the plates…"));
    show_searching(rack);
    update_state(rack, "");
}

static void on_search(GtkButton *button, Rack *rack)
{
    begin(rack);
}

static void on_stop(GtkButton *button, Rack *rack)
{
    if (rack->search)
        g_atomic_int_set(&rack->search->stop, 1);
}

static void take_part(const char *path, gpointer data)
{
    Rack *rack = data;
    Error error;
    Record *part = part_read(path, &error);
    if (!part) {
        gtk_label_set_label(rack->summary, error.message);
        return;
    }
    g_clear_pointer(&rack->part, record_unref);
    rack->part = part;
    gtk_label_set_label(rack->part_label, part->part.name ? part->part.name : _("part"));
    begin(rack);
    show_searching(rack);
}

static void on_part(GtkButton *button, Rack *rack)
{
    choose_file_to_open(GTK_WINDOW(rack->top), FILE_PART, take_part, rack);
}

static void take_folder(Rack *rack, const char *path)
{
    g_free(rack->folder);
    rack->folder = g_strdup(path);
    gtk_label_set_label(rack->folder_label, path);
    begin(rack);
    show_searching(rack);
}

static void on_folder_response(GtkNativeDialog *dialog, int response, Rack *rack)
{
    GFile *file = response == GTK_RESPONSE_ACCEPT
                      ? gtk_file_chooser_get_file(GTK_FILE_CHOOSER(dialog))
                      : NULL;
    char *path = file ? g_file_get_path(file) : NULL;
    gtk_native_dialog_destroy(dialog);
    if (path)
        take_folder(rack, path);
    g_free(path);
    g_clear_object(&file);
    g_object_unref(dialog);
}

static void on_folder(GtkButton *button, Rack *rack)
{
    GtkFileChooserNative *native = gtk_file_chooser_native_new(
        _("The folder with the plates"), GTK_WINDOW(rack->top),
        GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _("Take it"), _("Cancel"));
    gtk_native_dialog_set_modal(GTK_NATIVE_DIALOG(native), TRUE);
    g_signal_connect(native, "response", G_CALLBACK(on_folder_response), rack);
    gtk_native_dialog_show(GTK_NATIVE_DIALOG(native));
}

/* The window that the plate is open in, or NULL. */
static PinWindow *window_of(GtkWindow *near_to, const char *path)
{
    GtkApplication *application = gtk_window_get_application(near_to);
    for (GList *i = gtk_application_get_windows(application); i; i = i->next) {
        PinDocument *document = PIN_IS_WINDOW(i->data) ? PIN_WINDOW(i->data)->document : NULL;
        if (document && g_strcmp0(session_path(pin_document_session(document)), path) == 0)
            return i->data;
    }
    return NULL;
}

/* Opened at its answers, the best of which is shown first. */
static void on_row(GtkListBox *list, GtkListBoxRow *row, Rack *rack)
{
    const char *path = g_object_get_data(G_OBJECT(row), "file");
    pin_window_open(rack->window, path);
    PinWindow *window = window_of(GTK_WINDOW(rack->top), path);
    if (window)
        refit_show_answers(window, &rack->part->part, ID_NONE, NULL);
}

/* The same without a chooser, for scripts and tests. */
static void on_take(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    const char *path = g_variant_get_string(parameter, NULL);
    if (g_str_equal(g_action_get_name(G_ACTION(action)), "take-part"))
        take_part(path, data);
    else
        take_folder(data, path);
}

/* --- the window --------------------------------------------------------------------------------
 */

static GtkWidget *button_new(const char *label, GCallback pressed, Rack *rack)
{
    GtkWidget *button = gtk_button_new_with_label(label);
    g_signal_connect(button, "clicked", pressed, rack);
    return button;
}

static GtkLabel *add_choice(GtkWidget *box, const char *button, const char *none, GCallback pressed,
                            Rack *rack)
{
    GtkWidget *label = label_new(none, NULL);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_START);
    gtk_label_set_width_chars(GTK_LABEL(label), (int)g_utf8_strlen(none, -1));
    gtk_label_set_wrap(GTK_LABEL(label), FALSE);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_box_append(GTK_BOX(box), button_new(button, pressed, rack));
    gtk_box_append(GTK_BOX(box), label);
    return GTK_LABEL(label);
}

static GtkWidget *fill_window(Rack *rack)
{
    GtkWidget *all = gtk_box_new(GTK_ORIENTATION_VERTICAL, 8);
    GtkWidget *choices = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *scroller = gtk_scrolled_window_new();
    rack->folder_label =
        add_choice(choices, _("Folder…"), _("no folder chosen"), G_CALLBACK(on_folder), rack);
    rack->part_label =
        add_choice(choices, _("New part…"), _("no part chosen"), G_CALLBACK(on_part), rack);
    rack->search_button = button_new(_("Search"), G_CALLBACK(on_search), rack);
    rack->stop_button = button_new(_("Stop"), G_CALLBACK(on_stop), rack);
    gtk_box_append(GTK_BOX(choices), rack->search_button);
    gtk_box_append(GTK_BOX(choices), rack->stop_button);
    rack->progress = gtk_progress_bar_new();
    rack->summary =
        GTK_LABEL(label_new(_("Which plates of a folder take a part: choose both."), NULL));
    rack->list = gtk_list_box_new();
    gtk_list_box_set_selection_mode(GTK_LIST_BOX(rack->list), GTK_SELECTION_BROWSE);
    access_name(rack->list, _("Plates of the rack"));
    access_name(scroller, _("Plates of the rack"));
    g_signal_connect(rack->list, "row-activated", G_CALLBACK(on_row), rack);
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scroller), rack->list);
    gtk_widget_set_vexpand(scroller, TRUE);
    gtk_widget_set_margin_top(all, 10);
    gtk_widget_set_margin_bottom(all, 10);
    gtk_widget_set_margin_start(all, 10);
    gtk_widget_set_margin_end(all, 10);
    gtk_box_append(GTK_BOX(all), choices);
    gtk_box_append(GTK_BOX(all), rack->progress);
    gtk_box_append(GTK_BOX(all), GTK_WIDGET(rack->summary));
    gtk_box_append(GTK_BOX(all), scroller);
    return all;
}

static void rack_free(gpointer data)
{
    Rack *rack = data;
    leave_search(rack);
    g_clear_handle_id(&rack->timer, g_source_remove);
    g_clear_handle_id(&rack->pictures, g_source_remove);
    record_unref(rack->part);
    g_free(rack->folder);
    g_free(rack);
}

static void on_window_gone(gpointer data, GObject *window)
{
    g_signal_handlers_disconnect_by_data(data, window);
    gtk_window_destroy(GTK_WINDOW(data));
}

static void forget_window(GtkWidget *top, PinWindow *window)
{
    g_object_weak_unref(G_OBJECT(window), on_window_gone, top);
    g_object_set_data(G_OBJECT(window), KEPT, NULL);
}

static GtkWidget *rack_new(PinWindow *window)
{
    Rack *rack = g_new0(Rack, 1);
    rack->window = window;
    rack->top = gtk_application_window_new(gtk_window_get_application(GTK_WINDOW(window)));
    gtk_window_set_title(GTK_WINDOW(rack->top), _("Rack"));
    gtk_window_set_default_size(GTK_WINDOW(rack->top), 900, 640);
    GSimpleAction *state =
        g_simple_action_new_stateful("state", NULL, g_variant_new("a{sv}", NULL));
    g_simple_action_set_enabled(state, FALSE);
    static const GActionEntry entries[] = {
        {.name = "take-part", .activate = on_take, .parameter_type = "s"},
        {.name = "take-folder", .activate = on_take, .parameter_type = "s"},
    };
    g_action_map_add_action(G_ACTION_MAP(rack->top), G_ACTION(state));
    g_action_map_add_action_entries(G_ACTION_MAP(rack->top), entries, G_N_ELEMENTS(entries), rack);
    g_object_unref(state);
    gtk_window_set_titlebar(GTK_WINDOW(rack->top), gtk_header_bar_new());
    gtk_window_set_child(GTK_WINDOW(rack->top), fill_window(rack));
    g_object_set_data_full(G_OBJECT(rack->top), KEPT, rack, rack_free);
    show_searching(rack);
    update_state(rack, "");
    return rack->top;
}

static void on_rack(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    GtkWidget *top = g_object_get_data(G_OBJECT(data), KEPT);
    if (!top) {
        top = rack_new(data);
        g_object_set_data(G_OBJECT(data), KEPT, top);
        g_object_weak_ref(G_OBJECT(data), on_window_gone, top);
        g_signal_connect(top, "destroy", G_CALLBACK(forget_window), data);
    }
    gtk_window_present(GTK_WINDOW(top));
}

void rack_add_action(PinWindow *window)
{
    static const GActionEntry entries[] = {{.name = "rack", .activate = on_rack}};
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
