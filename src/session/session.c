#include "session/session.h"

#include "plate/label.h"
#include "session/mirror.h"

struct Session {
    Plate *plate;
    Placed *placed;
    Placed *overlay;
    Checker *checker;
    Scratch *scratch;
    History *history;
    Journal *journal;
    char *path;
    char *journal_folder;
    FileStamp stamp;
    bool trying;
    bool unsaved; /* whatever the history says */
    Error journal_error;
    ChangeSet changes;
    FindingDelta delta;     /* of the last edit */
    FindingDelta try_delta; /* of the last try */
    FindingList shown;      /* findings as tried */
};

/* --- opening and closing ------------------------------------------------------------------------
 */

Session *session_new(Plate *plate, const char *path)
{
    Session *session = g_new0(Session, 1);
    session->plate = plate;
    session->path = g_strdup(path);
    label_all(plate);
    session->placed = placed_new(plate);
    session->overlay = placed_overlay_new(session->placed);
    session->checker = checker_new();
    session->scratch = scratch_new();
    session->history = history_new();
    history_set_saved(session->history);
    session->unsaved = path == NULL;
    checker_update(session->checker, session->placed, NULL);
    return session;
}

Session *session_open(const char *path, Error *error)
{
    FileStamp stamp;
    Plate *plate = plate_read(path, &stamp, error);
    if (!plate)
        return NULL;
    char *absolute = g_canonicalize_filename(path, NULL);
    Session *session = session_new(plate, absolute);
    session->stamp = stamp;
    g_free(absolute);
    return session;
}

void session_free(Session *session)
{
    if (!session)
        return;
    journal_end(session->journal);
    placed_free(session->overlay);
    placed_free(session->placed);
    checker_free(session->checker);
    scratch_free(session->scratch);
    history_free(session->history);
    plate_free(session->plate);
    change_set_clear(&session->changes);
    finding_delta_clear(&session->delta);
    finding_delta_clear(&session->try_delta);
    finding_list_clear(&session->shown);
    g_free(session->path);
    g_free(session->journal_folder);
    g_free(session);
}

/* A plate just begun has nothing to lose until it is edited. */
static bool has_unsaved(const Session *session)
{
    return session->path ? !session_is_saved(session) : session_can_undo(session);
}

bool session_keep_journal(Session *session, const char *folder, Error *error)
{
    g_free(session->journal_folder);
    session->journal_folder = g_strdup(folder);
    journal_end(session->journal);
    session->journal =
        journal_begin(folder, session->path, session->plate, has_unsaved(session), error);
    return session->journal != NULL;
}

const Plate *session_plate(const Session *session)
{
    return session->plate;
}

const Placed *session_placed(const Session *session)
{
    return session->placed;
}

const FindingList *session_findings(const Session *session)
{
    return checker_findings(session->checker);
}

const Checker *session_checker(const Session *session)
{
    return session->checker;
}

Unit session_unit(const Session *session)
{
    return plate_settings(session->plate)->unit == PLATE_INCH ? UNIT_INCH : UNIT_MM;
}

const char *session_path(const Session *session)
{
    return session->path;
}

FeatureId session_new_id(Session *session)
{
    return plate_new_id(session->plate);
}

void session_reserve_ids(Session *session, FeatureId id)
{
    plate_reserve_ids(session->plate, id);
}

static bool give_back_last(Plate *plate, const Edit *edit)
{
    for (uint32_t i = edit->count; i-- > 0;)
        if (!edit->changes[i].before && plate_give_back_id(plate, edit->changes[i].id))
            return true;
    return false;
}

void session_give_back_ids(Session *session, const Edit *edit)
{
    while (give_back_last(session->plate, edit))
        continue;
}

/* --- edits ------------------------------------------------------------------------------------ */

static void write_journal(Session *session, const Edit *edit)
{
    if (!session->journal || journal_add(session->journal, edit, &session->journal_error))
        return;
    journal_leave(session->journal);
    session->journal = NULL;
}

/* The one way in which a plate changes. */
static bool carry_out(Session *session, const Edit *edit, Edit *inverse, Error *error)
{
    session->changes.count = 0;
    session->delta.added.count = session->delta.removed.count = 0;
    session_stop_trying(session);
    if (!plate_apply(session->plate, edit, inverse, &session->changes, error))
        return false;
    placed_update(session->placed, session->plate, &session->changes);
    checker_update(session->checker, session->placed, &session->delta);
    write_journal(session, edit);
    return true;
}

static bool changes_nothing(const Edit *edit)
{
    for (uint32_t i = 0; i < edit->count; i++)
        if (!record_equal(edit->changes[i].before, edit->changes[i].after))
            return false;
    return true;
}

bool session_do(Session *session, const Edit *edit, Error *error)
{
    Edit inverse = EDIT_EMPTY;
    if (changes_nothing(edit)) {
        session->changes.count = 0;
        session->delta.added.count = session->delta.removed.count = 0;
        session_stop_trying(session);
        return true;
    }
    Edit whole = edit_copy(edit);
    mirror_keep(session->plate, &whole);
    bool done = carry_out(session, &whole, &inverse, error);
    edit_clear(&whole);
    if (done)
        history_add(session->history, &inverse);
    return done;
}

bool session_can_undo(const Session *session)
{
    return history_can_undo(session->history);
}

bool session_can_redo(const Session *session)
{
    return history_can_redo(session->history);
}

const char *session_undo_name(const Session *session)
{
    return history_undo_name(session->history);
}

const char *session_redo_name(const Session *session)
{
    return history_redo_name(session->history);
}

bool session_undo(Session *session, Error *error)
{
    Edit inverse = EDIT_EMPTY;
    const Edit *edit = history_undo_edit(session->history);
    if (!edit)
        return error_set(error, ERROR_MISSING, NULL, "there is nothing to undo");
    if (!carry_out(session, edit, &inverse, error))
        return false;
    history_undone(session->history, &inverse);
    return true;
}

bool session_redo(Session *session, Error *error)
{
    Edit inverse = EDIT_EMPTY;
    const Edit *edit = history_redo_edit(session->history);
    if (!edit)
        return error_set(error, ERROR_MISSING, NULL, "there is nothing to redo");
    if (!carry_out(session, edit, &inverse, error))
        return false;
    history_redone(session->history, &inverse);
    return true;
}

const ChangeSet *session_last_changes(const Session *session)
{
    return &session->changes;
}

const FindingDelta *session_last_findings(const Session *session)
{
    return &session->delta;
}

const Error *session_journal_error(const Session *session)
{
    return session->journal_error.kind != ERROR_NONE ? &session->journal_error : NULL;
}

/* --- trying ------------------------------------------------------------------------------------
 */

static bool was_removed(const FindingDelta *delta, const Finding *finding)
{
    for (uint32_t i = 0; i < delta->removed.count; i++)
        if (finding_compare(&delta->removed.items[i], finding) == 0)
            return true;
    return false;
}

/* Both lists are sorted, and so is the answer. */
static void merge_findings(Session *session)
{
    const FindingList *now = checker_findings(session->checker);
    const FindingList *added = &session->try_delta.added;
    FindingList *shown = &session->shown;
    uint32_t k = 0;
    shown->count = 0;
    for (uint32_t i = 0; i < now->count; i++) {
        if (was_removed(&session->try_delta, &now->items[i]))
            continue;
        while (k < added->count && finding_compare(&added->items[k], &now->items[i]) < 0)
            *finding_list_add(shown) = added->items[k++];
        *finding_list_add(shown) = now->items[i];
    }
    while (k < added->count)
        *finding_list_add(shown) = added->items[k++];
}

void session_try(Session *session, const Edit *edit)
{
    placed_overlay_show(session->overlay, session->plate, edit);
    checker_try(session->checker, session->overlay, session->scratch, &session->try_delta);
    merge_findings(session);
    session->trying = true;
}

void session_stop_trying(Session *session)
{
    static const Edit nothing = {NULL, 0, 0, NULL};
    if (session->trying)
        placed_overlay_show(session->overlay, session->plate, &nothing);
    session->trying = false;
}

bool session_is_trying(const Session *session)
{
    return session->trying;
}

const Placed *session_shown(const Session *session)
{
    return session->trying ? session->overlay : session->placed;
}

const FindingList *session_shown_findings(const Session *session)
{
    return session->trying ? &session->shown : checker_findings(session->checker);
}

/* --- files -------------------------------------------------------------------------------------
 */

bool session_is_saved(const Session *session)
{
    return !session->unsaved && history_is_saved(session->history);
}

bool session_file_changed(const Session *session)
{
    return session->path && session->stamp.exists &&
           !file_stamp_equal(session->stamp, file_stamp(session->path));
}

static bool may_overwrite(const Session *session, const char *path, bool same, Error *error)
{
    if (same && session_file_changed(session)) {
        error_set(error, ERROR_CONFLICT, NULL,
                  "the file has been changed by somebody else since it was opened; save under "
                  "another name, or save over it on purpose");
        error_set_file(error, path);
        return false;
    }
    if ((!same || !session->stamp.exists) && file_stamp(path).exists) {
        error_set(error, ERROR_CONFLICT, NULL, "a file of that name exists already");
        error_set_file(error, path);
        return false;
    }
    return true;
}

/* A journal tells of the edits since the last save, so it begins anew with each. */
static void restart_journal(Session *session)
{
    if (!session->journal_folder)
        return;
    journal_end(session->journal);
    session->journal = journal_begin(session->journal_folder, session->path, session->plate, false,
                                     &session->journal_error);
}

bool session_save(Session *session, const char *path, bool anyway, Error *error)
{
    if (!path && !session->path)
        return error_set(error, ERROR_MISSING, NULL, "the plate has no file yet; give it a name");
    char *target = path ? g_canonicalize_filename(path, NULL) : g_strdup(session->path);
    bool same = g_strcmp0(target, session->path) == 0;
    bool saved = (anyway || may_overwrite(session, target, same, error)) &&
                 plate_save(session->plate, target, &session->stamp, error);
    if (saved) {
        g_free(session->path);
        session->path = g_steal_pointer(&target);
        session->unsaved = false;
        history_set_saved(session->history);
        restart_journal(session);
    }
    g_free(target);
    return saved;
}

void session_set_unsaved(Session *session)
{
    session->unsaved = true;
}
