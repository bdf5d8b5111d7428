#include "session/quiet-place.h"

static uint32_t serious_with(Session *session, const Edit *edit)
{
    session_try(session, edit);
    FindingCounts counts = finding_list_counts(session_shown_findings(session));
    session_stop_trying(session);
    return counts.by_level[LEVEL_STOP] + counts.by_level[LEVEL_CAUTION];
}

bool quiet_place(Session *session, const Edit *edit, Record *record, const Place *places,
                 size_t count)
{
    uint32_t before = serious_with(session, edit);
    Edit trial = edit_copy(edit);
    bool found = false;
    edit_add(&trial, NULL, (Record *)(uintptr_t)record_ref(record));
    for (size_t i = 0; !found && i < count; i++) {
        *record_place(record) = places[i];
        found = serious_with(session, &trial) <= before;
    }
    edit_clear(&trial);
    return found;
}
