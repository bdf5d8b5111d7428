/* session.h: one open plate, with all that keeps up with it: history, journal, placed, findings.
 * The editor and the subcommands both work on this and on nothing below it. */
#pragma once

#include "checks/checker.h"
#include "plate/history.h"
#include "plate/journal.h"
#include "plate/plate-file.h"
#include "trade/unit.h"

typedef struct Session Session;

/* Opens a session on a plate, which it takes over; `path` may be NULL for one never saved. Labels
 * are given to all that lacks one. */
Session *session_new(Plate *plate, const char *path);
/* Reads the file. NULL with an error. */
Session *session_open(const char *path, Error *error);
/* Closes it. What is not saved is lost, and its journal with it. */
void session_free(Session *session);

/* Keeps a recovery journal in `folder` from now on; what is not saved by then is in it from the
 * start. False with an error where it can't be written;
 * the session goes on without. */
bool session_keep_journal(Session *session, const char *folder, Error *error);

const Plate *session_plate(const Session *session);
const Placed *session_placed(const Session *session);
/* All findings, sorted. */
const FindingList *session_findings(const Session *session);
const Checker *session_checker(const Session *session);
/* The document's unit. */
Unit session_unit(const Session *session);
/* NULL while it was never saved. */
const char *session_path(const Session *session);
/* A number that no record has had. */
FeatureId session_new_id(Session *session);
/* No number below `id` is given any more: what had them is gone. */
void session_reserve_ids(Session *session, FeatureId id);
/* Takes the numbers back of an edit's new records, which are not going to be carried out, as far as
 * no number was given after them: what is only tried leaves no gap. */
void session_give_back_ids(Session *session, const Edit *edit);

/* --- edits ----------------------------------------------------------------------------------- */

/* Carries an edit out, remembers it for undo, and brings everything up to date. The edit stays the
 * caller's. False with an error when it does not fit; then nothing has changed. An edit of nothing,
 * or that changes nothing, is true and leaves no trace. What keeps a pair of stations mirror images
 * (mirror.h) is done along with it. */
bool session_do(Session *session, const Edit *edit, Error *error);
bool session_can_undo(const Session *session);
bool session_can_redo(const Session *session);
const char *session_undo_name(const Session *session);
const char *session_redo_name(const Session *session);
bool session_undo(Session *session, Error *error);
bool session_redo(Session *session, Error *error);
/* What the last session_do, undo or redo changed: records, features touched, findings. Owned by the
 * session, good until the next. */
const ChangeSet *session_last_changes(const Session *session);
const FindingDelta *session_last_findings(const Session *session);
/* A journal that stopped working says so once here, then is forgotten; NULL: none. */
const Error *session_journal_error(const Session *session);

/* --- trying ---------------------------------------------------------------------------------- */

/* Shows what an edit would do, without carrying it out: a drag, a ghost, a suggestion. The same
 * edit with other numbers in its records can be tried again and again without allocating. */
void session_try(Session *session, const Edit *edit);
void session_stop_trying(Session *session);
bool session_is_trying(const Session *session);
/* The plate as tried, or as it is. */
const Placed *session_shown(const Session *session);
/* The findings as tried, or as they are; sorted. Owned by the session, good until the next try. */
const FindingList *session_shown_findings(const Session *session);

/* --- files ------------------------------------------------------------------------------------ */

/* True when the plate is as its file has it. */
bool session_is_saved(const Session *session);
/* True when somebody else has changed, replaced or taken away the file since it was read. */
bool session_file_changed(const Session *session);
/* Saves under `path`, or where it came from (NULL). Refuses with ERROR_CONFLICT, writing nothing,
 * when the file was changed by somebody else since, or is another one that exists, unless
 * `anyway`. */
bool session_save(Session *session, const char *path, bool anyway, Error *error);
/* Marks the plate as not saved, as one just recovered is. */
void session_set_unsaved(Session *session);
