/* Opening, saving, closing, and what a run that ended badly left behind. */
#include "editor/window-private.h"

#include "editor/ask.h"
#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/recent.h"

#include <glib/gstdio.h>

static Session *session_of(PinWindow *window)
{
    return pin_document_session(window->document);
}

static void on_read(int answer, gpointer data)
{
}

void window_say_error(PinWindow *window, const char *heading, const Error *error)
{
    const char *answers[] = {_("Close"), NULL};
    char line[900];
    error_line(error, line, sizeof line);
    ask(GTK_WINDOW(window), heading, line, answers, on_read, NULL, NULL);
}

/* --- opening -----------------------------------------------------------------------------------
 */

static gboolean offer_for_path(PinWindow *window, const char *path);

/* The window that has the file open already, or NULL. */
static GtkWindow *window_of_path(PinWindow *window, const char *path)
{
    GtkApplication *application = gtk_window_get_application(GTK_WINDOW(window));
    char *absolute = g_canonicalize_filename(path, NULL);
    GtkWindow *found = NULL;
    for (GList *i = gtk_application_get_windows(application); i && !found; i = i->next) {
        PinDocument *document = PIN_IS_WINDOW(i->data) ? PIN_WINDOW(i->data)->document : NULL;
        if (document && g_strcmp0(session_path(pin_document_session(document)), absolute) == 0)
            found = i->data;
    }
    g_free(absolute);
    return found;
}

static gboolean open_now(PinWindow *window, const char *path)
{
    Error error;
    GtkWindow *open = window_of_path(window, path);
    if (open) {
        gtk_window_present(open);
        return TRUE;
    }
    Session *session = session_open(path, &error);
    if (!session) {
        window_say_error(window, _("The plate can't be opened"), &error);
        return FALSE;
    }
    PinWindow *target = window;
    if (window->document) {
        target = pin_window_new(gtk_window_get_application(GTK_WINDOW(window)));
        gtk_window_present(GTK_WINDOW(target));
    }
    pin_window_set_session(target, session);
    return TRUE;
}

gboolean pin_window_open(PinWindow *window, const char *path)
{
    /* A journal of that file is answered for first: opening it begins a new one. */
    return offer_for_path(window, path) || open_now(window, path);
}

static void on_open_chosen(const char *path, gpointer data)
{
    pin_window_open(data, path);
}

static void on_open(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_file_to_open(GTK_WINDOW(data), FILE_PLATE, on_open_chosen, data);
}

/* --- saving ------------------------------------------------------------------------------------
 */

static void save_as(PinWindow *window);

static void after_save(PinWindow *window)
{
    window->file_change_said = FALSE;
    recent_add(session_path(session_of(window)));
    pin_document_changed(window->document);
    if (g_object_get_data(G_OBJECT(window), "close-after-save")) {
        window->may_close = TRUE;
        gtk_window_close(GTK_WINDOW(window));
    }
}

static void on_conflict_answered(int answer, gpointer data)
{
    PinWindow *window = data;
    Error error;
    if (answer == 1) {
        save_as(window);
    } else if (answer == 2) {
        if (session_save(session_of(window), NULL, true, &error))
            after_save(window);
        else
            window_say_error(window, _("The plate was not saved"), &error);
    } else {
        g_object_set_data(G_OBJECT(window), "close-after-save", NULL);
    }
}

static void ask_conflict(PinWindow *window)
{
    const char *answers[] = {_("Cancel"), _("Save as…"), _("Replace it"), NULL};
    ask(GTK_WINDOW(window), _("The file is not as it was opened"),
        _("Somebody else has changed, replaced or taken away the file on the disk since. Nothing "
          "was written."),
        answers, on_conflict_answered, g_object_ref(window), g_object_unref);
}

static void save_to(PinWindow *window, const char *path, bool anyway)
{
    Error error;
    pin_document_drag_cancel(window->document);
    if (session_save(session_of(window), path, anyway, &error))
        after_save(window);
    else if (error.kind == ERROR_CONFLICT && !path)
        ask_conflict(window);
    else
        window_say_error(window, _("The plate was not saved"), &error);
}

static void on_save_chosen(const char *path, gpointer data)
{
    /* The chooser has asked before an old file is replaced. */
    save_to(data, path, true);
}

static void save_as(PinWindow *window)
{
    const char *path = session_path(session_of(window));
    const char *plate_name = plate_settings(pin_document_plate(window->document))->name;
    char *name = path         ? g_path_get_basename(path)
                 : plate_name ? g_strdelimit(g_strdup(plate_name), "/", '-')
                              : g_strdup(_("new"));
    char *folder = path ? g_path_get_dirname(path) : NULL;
    choose_file_to_save(GTK_WINDOW(window), FILE_PLATE, name, folder, on_save_chosen, window);
    g_free(name);
    g_free(folder);
}

static void on_save(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    if (session_path(session_of(window)))
        save_to(window, NULL, false);
    else
        save_as(window);
}

static void on_save_as(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    save_as(data);
}

void window_check_file(PinWindow *window)
{
    if (window->file_change_said || !session_path(session_of(window)) ||
        !session_file_changed(session_of(window)))
        return;
    window->file_change_said = TRUE;
    window_say(window, _("The file on the disk was changed by somebody else since it was opened. "
                         "It will not be replaced without asking."));
}

/* --- closing -----------------------------------------------------------------------------------
 */

static void on_close_answered(int answer, gpointer data)
{
    PinWindow *window = data;
    if (answer == 1) {
        window->may_close = TRUE;
        gtk_window_close(GTK_WINDOW(window));
    } else if (answer == 2) {
        g_object_set_data(G_OBJECT(window), "close-after-save", window);
        g_action_group_activate_action(G_ACTION_GROUP(window), "save", NULL);
    }
}

gboolean window_on_close(PinWindow *window)
{
    if (!window->document || window->may_close)
        return FALSE;
    pin_document_drag_cancel(window->document);
    Session *session = session_of(window);
    /* A new plate that nothing was done to is no loss. */
    if (session_is_saved(session) ||
        (!session_path(session) && !session_can_undo(session) && !session_can_redo(session)))
        return FALSE;
    const char *answers[] = {_("Cancel"), _("Close without saving"), _("Save"), NULL};
    g_object_set_data(G_OBJECT(window), "close-after-save", NULL);
    ask(GTK_WINDOW(window), _("Save the changes?"),
        _("The plate has changes that are not on the disk. Closed without saving, they are lost."),
        answers, on_close_answered, g_object_ref(window), g_object_unref);
    return TRUE;
}

static void on_close(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    gtk_window_close(GTK_WINDOW(data));
}

/* --- recovery ----------------------------------------------------------------------------------
 */

typedef struct Offer {
    PinWindow *window;
    char *file;   /* the journal's */
    char *path;   /* the plate's, or NULL */
    bool opening; /* the plate was about to be opened */
} Offer;

static void offer_free(gpointer data)
{
    Offer *offer = data;
    g_object_unref(offer->window);
    g_free(offer->file);
    g_free(offer->path);
    g_free(offer);
}

static void add_difference(Edit *edit, const Plate *from, const Plate *to, FeatureId id)
{
    const Record *before = plate_find(from, id), *after = plate_find(to, id);
    if (!record_equal(before, after))
        edit_add(edit, before ? record_ref((Record *)before) : NULL,
                 after ? record_ref((Record *)after) : NULL);
}

/* What makes one plate into the other, as one edit. */
static Edit difference(const Plate *from, const Plate *to)
{
    Edit edit = EDIT_EMPTY;
    edit_set_name(&edit, _("Bring back"));
    for (uint32_t i = 0; i < plate_count(to); i++)
        add_difference(&edit, from, to, plate_at(to, i)->id);
    for (uint32_t i = 0; i < plate_count(from); i++)
        if (!plate_find(to, plate_at(from, i)->id))
            add_difference(&edit, from, to, plate_at(from, i)->id);
    return edit;
}

/* The plate as its file has it, or an empty one, for the lost changes to be made to again, so that
 * they can be undone. */
static Session *session_to_recover(const Offer *offer)
{
    Session *session = offer->path ? session_open(offer->path, NULL) : NULL;
    if (session)
        return session;
    session = session_new(plate_new(LENGTH_INCH, LENGTH_INCH, LENGTH_INCH, PLATE_MM), offer->path);
    session_set_unsaved(session);
    return session;
}

static void recover(Offer *offer)
{
    Error error;
    Plate *plate = journal_recover(offer->file, &error);
    if (!plate) {
        window_say_error(offer->window, _("The changes can't be brought back"), &error);
        return;
    }
    PinWindow *window = offer->window;
    Session *session = session_to_recover(offer);
    Edit edit = difference(session_plate(session), plate);
    /* What was made and taken away again had numbers too. */
    session_reserve_ids(session, plate_next_id(plate));
    plate_free(plate);
    bool back = session_do(session, &edit, &error);
    edit_clear(&edit);
    if (!back) {
        session_free(session);
        window_say_error(window, _("The changes can't be brought back"), &error);
        return;
    }
    if (window->document) {
        window = pin_window_new(gtk_window_get_application(GTK_WINDOW(window)));
        gtk_window_present(GTK_WINDOW(window));
    }
    /* The new journal has the changes before the old one goes: one of the same file takes its
     * place, one of a plate that was never saved has a name of its own. */
    pin_window_set_session(window, session);
    if (!offer->path)
        journal_discard(offer->file);
}

static void on_offer_answered(int answer, gpointer data)
{
    Offer *offer = data;
    if (answer == 1) {
        recover(offer);
    } else if (answer == 0) {
        journal_discard(offer->file);
        if (offer->opening)
            open_now(offer->window, offer->path);
    }
}

/* True when the plate's file is younger than the journal. */
static gboolean changed_since(const JournalFound *found)
{
    GStatBuf plate, journal;
    return found->path && g_stat(found->path, &plate) == 0 && g_stat(found->file, &journal) == 0 &&
           plate.st_mtime > journal.st_mtime;
}

static void offer_one(PinWindow *window, const JournalFound *found, bool opening)
{
    Offer *offer = g_new0(Offer, 1);
    *offer = (Offer){g_object_ref(window), g_strdup(found->file), g_strdup(found->path), opening};
    char *name = found->path ? g_path_get_basename(found->path) : g_strdup(_("a new plate"));
    char *text = g_strdup_printf(
        _("Pinplate ended before the last changes of %s were saved.%s"), name,
        changed_since(found) ? _(" Somebody has changed the file since: compare before you save.")
                             : "");
    const char *answers[] = {_("Throw them away"), _("Bring them back"), NULL};
    ask(GTK_WINDOW(window), _("Bring back unsaved changes?"), text, answers, on_offer_answered,
        offer, offer_free);
    g_free(text);
    g_free(name);
}

static gboolean offer_for_path(PinWindow *window, const char *path)
{
    char *folder = journal_folder(), *absolute = g_canonicalize_filename(path, NULL);
    GArray *found = journal_find(folder);
    gboolean offered = FALSE;
    for (guint i = 0; i < found->len && !offered; i++) {
        const JournalFound *journal = &g_array_index(found, JournalFound, i);
        offered = g_strcmp0(journal->path, absolute) == 0;
        if (offered)
            offer_one(window, journal, true);
    }
    g_array_unref(found);
    g_free(absolute);
    g_free(folder);
    return offered;
}

void pin_window_offer_recovery(PinWindow *window)
{
    char *folder = journal_folder();
    GArray *found = journal_find(folder);
    for (guint i = 0; i < found->len; i++)
        offer_one(window, &g_array_index(found, JournalFound, i), false);
    g_array_unref(found);
    g_free(folder);
}

/* --- all of them -------------------------------------------------------------------------------
 */

void window_add_file_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "open", .activate = on_open},
        {.name = "save", .activate = on_save},
        {.name = "save-as", .activate = on_save_as},
        {.name = "close", .activate = on_close},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
