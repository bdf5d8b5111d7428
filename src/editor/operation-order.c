#include "editor/operation-order.h"

#include "editor/intl.h"

static gint by_order(gconstpointer a, gconstpointer b)
{
    const Record *first = *(const Record *const *)a, *second = *(const Record *const *)b;
    const Operation *one = &first->operation, *other = &second->operation;
    if (one->kind != other->kind)
        return one->kind - other->kind;
    if (one->order != other->order)
        return one->order < other->order ? -1 : 1;
    return (first->id > second->id) - (first->id < second->id);
}

GPtrArray *operations_in_order(const Plate *plate)
{
    GPtrArray *operations = g_ptr_array_new();
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_OPERATION)
            g_ptr_array_add(operations, (gpointer)plate_at(plate, i));
    g_ptr_array_sort(operations, by_order);
    return operations;
}

/* --- changing --------------------------------------------------------------------------------- */

static guint number_of(const Plate *plate, OperationKind kind, int32_t *last)
{
    GPtrArray *operations = operations_in_order(plate);
    guint number = 0;
    *last = 0;
    for (guint i = 0; i < operations->len; i++) {
        const Record *record = g_ptr_array_index(operations, i);
        if (record->operation.kind != (int)kind)
            continue;
        number++;
        *last = MAX(*last, record->operation.order);
    }
    g_ptr_array_unref(operations);
    return number;
}

FeatureId operation_add(PinDocument *document, OperationKind kind, FeatureId face)
{
    int32_t last;
    guint number = number_of(pin_document_plate(document), kind, &last);
    Record *record = record_new(session_new_id(pin_document_session(document)), RECORD_OPERATION);
    record->operation.kind = (int)kind;
    record->operation.face = face;
    record->operation.order = last + 1;
    record->operation.name =
        g_strdup_printf(kind == OPERATION_MAKING ? _("Make %u") : _("Run %u"), number + 1);
    FeatureId id = record->id;
    return pin_document_change(document, _("Add an operation"), record) ? id : ID_NONE;
}

static int neighbour(const GPtrArray *operations, FeatureId id, int by, int *at)
{
    for (*at = 0; *at < (int)operations->len; ++*at)
        if (((const Record *)g_ptr_array_index(operations, *at))->id == id)
            break;
    int other = *at + by;
    if (*at >= (int)operations->len || other < 0 || other >= (int)operations->len)
        return -1;
    const Record *one = g_ptr_array_index(operations, *at);
    const Record *next = g_ptr_array_index(operations, other);
    return one->operation.kind == next->operation.kind ? other : -1;
}

gboolean operation_can_shift(const Plate *plate, FeatureId id, int by)
{
    GPtrArray *operations = operations_in_order(plate);
    int at;
    gboolean can = neighbour(operations, id, by, &at) >= 0;
    g_ptr_array_unref(operations);
    return can;
}

/* All of a kind are numbered anew, so that two of one number can't stay. */
gboolean operation_shift(PinDocument *document, FeatureId id, int by)
{
    GPtrArray *operations = operations_in_order(pin_document_plate(document));
    int at, other = neighbour(operations, id, by, &at);
    Edit edit = EDIT_EMPTY;
    if (other < 0) {
        g_ptr_array_unref(operations);
        return FALSE;
    }
    gpointer kept = operations->pdata[at];
    operations->pdata[at] = operations->pdata[other];
    operations->pdata[other] = kept;
    int kind = ((const Record *)kept)->operation.kind;
    int32_t order = 0;
    edit_set_name(&edit, _("Change the order"));
    for (guint i = 0; i < operations->len; i++) {
        Record *record = g_ptr_array_index(operations, i);
        if (record->operation.kind != kind || record->operation.order == ++order)
            continue;
        Record *after = record_copy(record, record->id);
        after->operation.order = order;
        edit_add(&edit, record_ref(record), after);
    }
    g_ptr_array_unref(operations);
    return pin_document_do(document, &edit);
}

/* --- what is there ---------------------------------------------------------------------------- */

static gboolean is_before(const Operation *one, const Operation *other)
{
    return one->kind < other->kind || (one->kind == other->kind && one->order < other->order);
}

/* What nobody has put in a making operation is there from the start. */
static gboolean is_made(const Placed *placed, const Operation *operation, FeatureId made_in)
{
    const Record *record = made_in ? placed_record(placed, made_in) : NULL;
    return !record || record->kind != RECORD_OPERATION || !is_before(operation, &record->operation);
}

static gboolean runs_on(const Placed *placed, const Operation *operation, FeatureId station)
{
    const Feature *feature = placed_find(placed, station);
    return feature && operation_runs(operation, station, feature->face);
}

gboolean operation_shows(const Placed *placed, const Operation *operation, const Feature *feature)
{
    const Record *record = placed_record(placed, feature->id);
    if (!record)
        return FALSE;
    switch (feature->kind) {
    case FEATURE_HOLE:
        return is_made(placed, operation, record->hole.operation);
    case FEATURE_RECESS:
        return is_made(placed, operation, record->recess.operation);
    case FEATURE_PART:
        return runs_on(placed, operation, feature->id);
    case FEATURE_FITTING:
        return operation->kind == OPERATION_RUNNING &&
               (operation_has_fitted(operation, feature->id) ||
                (operation->fitted.count == 0 &&
                 (feature->station == ID_NONE || runs_on(placed, operation, feature->station))));
    case FEATURE_KEEP_CLEAR:
        return TRUE;
    }
    return TRUE;
}

gboolean operation_has_blank(const Plate *plate, const Operation *operation, const Feature *station)
{
    const Record *record = plate_find_kind(plate, station->id, RECORD_STATION);
    if (!record || !station->has_blank)
        return FALSE;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *other = plate_at(plate, i);
        if (other->kind != RECORD_OPERATION || !is_before(&other->operation, operation) ||
            !operation_has_pass(&other->operation, PASS_OUTLINE_OUTSIDE))
            continue;
        /* The part goes on to other stations once it is cut out at one. */
        for (uint32_t k = 0; k < plate_count(plate); k++) {
            const Record *at = plate_at(plate, k);
            if (at->kind == RECORD_STATION && at->station.part == record->station.part &&
                operation_runs(&other->operation, at->id, at->station.face))
                return FALSE;
        }
    }
    return TRUE;
}
