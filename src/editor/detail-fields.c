#include "editor/detail-fields-private.h"

const DetailField *detail_fields(RecordKind kind, size_t *count)
{
    static const DetailTable *const tables[RECORD_KINDS] = {
        [RECORD_SETTINGS] = &detail_settings,
        [RECORD_FACE] = &detail_face,
        [RECORD_BASE] = &detail_base,
        [RECORD_PART] = &detail_part,
        [RECORD_STATION] = &detail_station,
        [RECORD_HOLE] = &detail_hole,
        [RECORD_RECESS] = &detail_recess,
        [RECORD_FITTING] = &detail_fitting,
        [RECORD_KEEP_CLEAR] = &detail_keep_clear,
        [RECORD_OPERATION] = &detail_operation,
    };
    *count = tables[kind]->count;
    return tables[kind]->fields;
}
