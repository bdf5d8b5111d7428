/* operation-order.h: the operations of a plate in the order they are done: those that make it, then
 * those that run parts on it. */
#pragma once

#include "editor/document.h"

/* All of them; the caller unrefs the array of const Record *, good until the next edit. */
GPtrArray *operations_in_order(const Plate *plate);
/* One step of undo each. */
/* Adds one at the end of its kind; returns its number, ID_NONE where it was refused. */
FeatureId operation_add(PinDocument *document, OperationKind kind, FeatureId face);
/* By one place among its kind, earlier (-1) or later (1). */
gboolean operation_shift(PinDocument *document, FeatureId id, int by);
/* False for the first (-1) or the last (1) of its kind. */
gboolean operation_can_shift(const Plate *plate, FeatureId id, int by);

/* What is there while an operation is under way. The operation is a running or a making one. */

/* Whether the feature is shown: a recess once it is made, hardware that is fitted, a part that is
 * worked on. */
gboolean operation_shows(const Placed *placed, const Operation *operation, const Feature *feature);
/* True while the part of the station is still its blank when the operation begins. */
gboolean operation_has_blank(const Plate *plate, const Operation *operation,
                             const Feature *station);
