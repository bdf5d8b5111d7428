/* record-list.h: lists of structs inside a record, as a hole's steps or a base's seats, changed in
 * a copy that is not shared yet. */
#pragma once

#include "plate/record.h"

/* The field of the record's own body at `offset`, which is a list of structs or of numbers. */
const Field *record_list_field(RecordKind kind, size_t offset);
List *record_list(Record *record, size_t offset);
/* Takes an item away, with all that it owns. */
void record_list_remove(Record *record, size_t offset, uint32_t index);
/* Moves an item by one place, up (-1) or down (1). */
void record_list_shift(Record *record, size_t offset, uint32_t index, int by);
