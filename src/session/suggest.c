/* What the searches share. */
#include "session/suggest-private.h"

uint32_t suggest_stops(const Session *session)
{
    return finding_list_counts(session_shown_findings(session)).by_level[LEVEL_STOP];
}

bool suggest_go_on(Search *search, double fraction, uint32_t found)
{
    double whole = search->from + fraction * (search->to - search->from);
    if (!search->stopped && search->go_on && !search->go_on(whole, found, search->data))
        search->stopped = true;
    return !search->stopped;
}

static void add_difference(const Plate *from, const Plate *to, FeatureId id, Edit *edit)
{
    const Record *before = plate_find(from, id), *after = plate_find(to, id);
    if (!record_equal(before, after))
        edit_add(edit, before ? record_ref(before) : NULL, after ? record_ref(after) : NULL);
}

void suggest_edit(const Session *from, const Session *to, const char *name, Edit *edit)
{
    const Plate *old = session_plate(from), *new = session_plate(to);
    edit_set_name(edit, name);
    for (uint32_t i = 0; i < plate_count(new); i++)
        add_difference(old, new, plate_at(new, i)->id, edit);
    for (uint32_t i = 0; i < plate_count(old); i++)
        if (!plate_find(new, plate_at(old, i)->id))
            add_difference(old, new, plate_at(old, i)->id, edit);
}
