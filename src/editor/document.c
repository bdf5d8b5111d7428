#include "editor/document.h"

#include <string.h>

struct _PinDocument {
    GObject parent_instance;
    Session *session;
    GArray *selection; /* FeatureId */
    Drag *drag;
    FeatureId ghost; /* the first new thing of a ghost that is dragged */
};

G_DEFINE_FINAL_TYPE(PinDocument, pin_document, G_TYPE_OBJECT)

enum { CHANGED, TRIED, SELECTION_CHANGED, REFUSED, SAID, SIGNAL_COUNT };

static guint signals[SIGNAL_COUNT];

static void pin_document_finalize(GObject *object)
{
    PinDocument *document = PIN_DOCUMENT(object);
    if (document->drag)
        drag_cancel(document->drag);
    session_free(document->session);
    g_array_unref(document->selection);
    G_OBJECT_CLASS(pin_document_parent_class)->finalize(object);
}

static guint add_signal(const char *name, guint texts)
{
    return g_signal_new(name, PIN_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                        G_TYPE_NONE, texts, G_TYPE_STRING);
}

static void pin_document_class_init(PinDocumentClass *class)
{
    G_OBJECT_CLASS(class)->finalize = pin_document_finalize;
    signals[CHANGED] = add_signal("changed", 0);
    signals[TRIED] = add_signal("tried", 0);
    signals[SELECTION_CHANGED] = add_signal("selection-changed", 0);
    signals[REFUSED] = add_signal("refused", 1);
    signals[SAID] = add_signal("said", 1);
}

static void pin_document_init(PinDocument *document)
{
    document->selection = g_array_new(FALSE, FALSE, sizeof(FeatureId));
}

PinDocument *pin_document_new(Session *session)
{
    PinDocument *document = g_object_new(PIN_TYPE_DOCUMENT, NULL);
    document->session = session;
    return document;
}

Session *pin_document_session(PinDocument *document)
{
    return document->session;
}

const Plate *pin_document_plate(PinDocument *document)
{
    return session_plate(document->session);
}

Unit pin_document_unit(PinDocument *document)
{
    return session_unit(document->session);
}

/* --- selection ------------------------------------------------------------------------------- */

const FeatureId *pin_document_selection(PinDocument *document, guint *count)
{
    *count = document->selection->len;
    return (const FeatureId *)(void *)document->selection->data;
}

FeatureId pin_document_selected_one(PinDocument *document)
{
    return document->selection->len == 1 ? g_array_index(document->selection, FeatureId, 0)
                                         : ID_NONE;
}

static int selected_at(PinDocument *document, FeatureId id)
{
    for (guint i = 0; i < document->selection->len; i++)
        if (g_array_index(document->selection, FeatureId, i) == id)
            return (int)i;
    return -1;
}

gboolean pin_document_is_selected(PinDocument *document, FeatureId id)
{
    return selected_at(document, id) >= 0;
}

void pin_document_select(PinDocument *document, const FeatureId *ids, guint count)
{
    gboolean same = count == document->selection->len;
    for (guint i = 0; same && i < count; i++)
        same = g_array_index(document->selection, FeatureId, i) == ids[i];
    if (same)
        return;
    GArray *selection = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    g_array_append_vals(selection, ids, count);
    g_array_unref(document->selection);
    document->selection = selection;
    g_signal_emit(document, signals[SELECTION_CHANGED], 0);
}

void pin_document_select_one(PinDocument *document, FeatureId id)
{
    pin_document_select(document, &id, id == ID_NONE ? 0 : 1);
}

void pin_document_select_toggle(PinDocument *document, FeatureId id)
{
    int at = selected_at(document, id);
    if (at >= 0)
        g_array_remove_index(document->selection, (guint)at);
    else
        g_array_append_val(document->selection, id);
    g_signal_emit(document, signals[SELECTION_CHANGED], 0);
}

/* What undo took away can't stay selected. */
static void drop_missing(PinDocument *document)
{
    gboolean missing = FALSE;
    for (guint i = document->selection->len; i-- > 0;) {
        FeatureId id = g_array_index(document->selection, FeatureId, i);
        if (plate_find(session_plate(document->session), id))
            continue;
        g_array_remove_index(document->selection, i);
        missing = TRUE;
    }
    if (missing)
        g_signal_emit(document, signals[SELECTION_CHANGED], 0);
}

/* --- edits ------------------------------------------------------------------------------------ */

void pin_document_refuse(PinDocument *document, const Error *error)
{
    char line[900];
    Error shown = *error;
    if (strpbrk(shown.place, "[."))
        shown.place[0] = '\0'; /* names a field of the file, not a thing on the window */
    error_line(&shown, line, sizeof line);
    g_signal_emit(document, signals[REFUSED], 0, line);
}

void pin_document_say(PinDocument *document, const char *text)
{
    g_signal_emit(document, signals[SAID], 0, text);
}

void pin_document_changed(PinDocument *document)
{
    drop_missing(document);
    g_signal_emit(document, signals[CHANGED], 0);
    const Error *error = session_journal_error(document->session);
    if (error)
        pin_document_refuse(document, error);
}

static gboolean done(PinDocument *document, bool ok, const Error *error)
{
    if (ok)
        pin_document_changed(document);
    else
        pin_document_refuse(document, error);
    return ok;
}

gboolean pin_document_do(PinDocument *document, Edit *edit)
{
    Error error;
    bool ok = session_do(document->session, edit, &error);
    edit_clear(edit);
    return done(document, ok, &error);
}

gboolean pin_document_change(PinDocument *document, const char *name, Record *after)
{
    const Record *before = plate_find(session_plate(document->session), after->id);
    Edit edit = EDIT_EMPTY;
    edit_set_name(&edit, name);
    edit_add(&edit, before ? record_ref((Record *)before) : NULL, after);
    return pin_document_do(document, &edit);
}

void pin_document_undo(PinDocument *document)
{
    Error error;
    pin_document_drag_cancel(document);
    if (session_can_undo(document->session))
        done(document, session_undo(document->session, &error), &error);
}

void pin_document_redo(PinDocument *document)
{
    Error error;
    pin_document_drag_cancel(document);
    if (session_can_redo(document->session))
        done(document, session_redo(document->session, &error), &error);
}

/* --- dragging --------------------------------------------------------------------------------- */

Drag *pin_document_drag(PinDocument *document)
{
    return document->drag;
}

static void tried(PinDocument *document)
{
    g_signal_emit(document, signals[TRIED], 0);
}

gboolean pin_document_drag_begin(PinDocument *document)
{
    Error error;
    pin_document_drag_cancel(document);
    document->ghost = ID_NONE;
    document->drag = drag_begin(document->session, (FeatureId *)(void *)document->selection->data,
                                document->selection->len, &error);
    if (!document->drag) {
        pin_document_refuse(document, &error);
        return FALSE;
    }
    tried(document);
    return TRUE;
}

/* The thing of a ghost that the maker thinks of: its station, else whatever lies on a face. */
static FeatureId main_thing(const Edit *edit)
{
    FeatureId found = ID_NONE;
    for (guint i = 0; i < edit->count; i++) {
        const Record *after = edit->changes[i].after;
        if (!after || edit->changes[i].before)
            continue;
        if (after->kind == RECORD_STATION)
            return after->id;
        if (found == ID_NONE && record_face(after) != ID_NONE)
            found = after->id;
    }
    return found;
}

void pin_document_drag_begin_ghost(PinDocument *document, Edit *ghost, Place hold)
{
    pin_document_drag_cancel(document);
    document->ghost = main_thing(ghost);
    document->drag = drag_begin_ghost(document->session, ghost, hold);
    tried(document);
}

void pin_document_drag_move(PinDocument *document, Length dx, Length dy)
{
    if (!document->drag)
        return;
    drag_move(document->drag, dx, dy);
    tried(document);
}

void pin_document_drag_move_to(PinDocument *document, Place to)
{
    if (!document->drag)
        return;
    drag_move_to(document->drag, to);
    tried(document);
}

void pin_document_drag_turn(PinDocument *document, Place about, Angle by)
{
    if (!document->drag)
        return;
    drag_turn(document->drag, about, by);
    tried(document);
}

gboolean pin_document_drag_drop(PinDocument *document)
{
    Error error;
    if (!document->drag)
        return FALSE;
    bool ok = drag_drop(document->drag, &error);
    document->drag = NULL;
    tried(document);
    if (!done(document, ok, &error))
        return FALSE;
    if (document->ghost != ID_NONE)
        pin_document_select_one(document, document->ghost);
    return TRUE;
}

void pin_document_drag_cancel(PinDocument *document)
{
    if (!document->drag)
        return;
    drag_cancel(document->drag);
    document->drag = NULL;
    tried(document);
}
