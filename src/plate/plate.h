/* plate.h: the whole document: its records, in the order of their numbers. */
#pragma once

#include "plate/edit.h"

typedef struct Plate Plate;

/* No plate holds more records than this. */
#define PLATE_RECORDS_MOST 200000

/* A new plate with stock of the given size, the datum at its front left corner, and the face
 * `top`. Sizes are taken as they are; plate_apply and files check them. */
Plate *plate_new(Length length, Length width, Length thickness, PlateUnit unit);
/* A plate with no records at all, to be filled by the file reader with plate_put. */
Plate *plate_new_empty(void);
void plate_free(Plate *plate);

/* NULL when there is no record of that number, or it is of another kind. Owned by the plate and
 * good until the next plate_apply; take a reference to keep it longer. */
const Record *plate_find(const Plate *plate, FeatureId id);
const Record *plate_find_kind(const Plate *plate, FeatureId id, RecordKind kind);
const Settings *plate_settings(const Plate *plate);

uint32_t plate_count(const Plate *plate);
/* The i-th record in the order of their numbers. */
const Record *plate_at(const Plate *plate, uint32_t i);

/* A number for a new record; never given twice, not even after undo. */
FeatureId plate_new_id(Plate *plate);
FeatureId plate_next_id(const Plate *plate);
/* Takes a number back that no record has had, when it is the one given last; false otherwise. */
bool plate_give_back_id(Plate *plate, FeatureId id);
/* Makes plate_new_id give `id` or more. */
void plate_reserve_ids(Plate *plate, FeatureId id);

/* Adds a record while a plate is being read; takes the reference over. False when the number is
 * there already. Nothing else writes to a plate but plate_apply. */
bool plate_put(Plate *plate, Record *record, Error *error);
/* Checks every reference and every record's sense; for the end of reading. */
bool plate_check(const Plate *plate, Error *error);

/* Carries an edit out, whole or not at all. Fails, leaving the plate as it was, when a `before`
 * is not what the plate holds, a reference would lead nowhere, a record makes no sense, or a
 * `made` one would be changed otherwise than by taking its mark off. `inverse`, where given, is
 * filled with the edit that takes it back (clear it with edit_clear); `changes`, where given, is
 * added to. */
bool plate_apply(Plate *plate, const Edit *edit, Edit *inverse, ChangeSet *changes, Error *error);

/* Same records and next number. */
bool plate_equal(const Plate *a, const Plate *b);

/* Keys of the file that nobody here knows, kept in their order and written back. The text is JSON.
 */
void plate_keep_unknown(Plate *plate, const char *key, const char *text);
uint32_t plate_unknown_count(const Plate *plate);
const char *plate_unknown_key(const Plate *plate, uint32_t i);
const char *plate_unknown_text(const Plate *plate, uint32_t i);

/* --- finding one's way ---------------------------------------------------------------------- */

/* Where the datum lies on the top, from the origin (the stock's front left corner), exact unless it
 * is a hole of a turned station, then to the nanometre. */
Place plate_datum(const Plate *plate);
/* The thing's own coordinates on its face: through its station where it has one. */
Pose plate_pose(const Plate *plate, const Record *record);
/* True when some record other than itself refers to `id`. */
bool plate_refers_to(const Plate *plate, FeatureId id);
