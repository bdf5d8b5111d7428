/* index.h: which of many boxes lie near a place, kept up to date as they move. One for each face.
 */
#pragma once

#include "geometry/box.h"

#include <stddef.h>
#include <stdint.h>

typedef struct Index Index;

/* An empty index; NULL when there is no memory. Free with index_free, which lets NULL through. */
Index *index_new(void);
void index_free(Index *index);

/* Puts a box in under its key, or moves the one that is there. False when there is no memory, with
 * the index as it was; a key that is there moves without allocating and can't fail. An empty box
 * (also one with a NaN) is kept and never found. */
bool index_put(Index *index, uint32_t key, Box box);

/* Takes a key out; one that is not there is let through. Never allocates. */
void index_remove(Index *index, uint32_t key);

size_t index_count(const Index *index);

/* The box under a key; an empty one when there is none. */
Box index_box(const Index *index, uint32_t key);

/* Calls `visit` once for each key whose box meets `box` (a common edge is enough), in ascending
 * order of the keys, until it returns false. Never allocates. `visit` must not change the index. */
void index_each_near(const Index *index, Box box, bool (*visit)(uint32_t key, void *data),
                     void *data);
