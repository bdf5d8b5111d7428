/* dependents.h: which records stand on which: a station's holes, a hole's screw, a part's stations.
 */
#pragma once

#include "plate/plate.h"

typedef struct Dependents Dependents;

Dependents *dependents_new(void);
void dependents_free(Dependents *dependents);

/* Takes what `record` refers to into the book, or out of it. Only records that have a place on a
 * face are kept: the rest don't move with what they name. */
void dependents_add(Dependents *dependents, const Record *record);
void dependents_remove(Dependents *dependents, const Record *record);

/* Those that refer to `id`; owned by the book. */
const FeatureId *dependents_of(const Dependents *dependents, FeatureId id, uint32_t *count);
