/* quiet-place.h: where a new thing can stand without a new stop or caution. */
#pragma once

#include "session/session.h"

/* Tries the new record, not yet in the edit, at each place in turn and leaves it at the first where
 * edit and record together bring no more stops and cautions than the edit alone; false when there
 * is no such place, the record then being at the last one. */
bool quiet_place(Session *session, const Edit *edit, Record *record, const Place *places,
                 size_t count);
