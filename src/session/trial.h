/* trial.h: a copy of the open plate to try things on, away from the maker's own. */
#pragma once

#include "session/session.h"

/* A session of its own on a copy of the plate, with the same numbers; it has no file and no
 * journal. Free with session_free. */
Session *trial_new(const Session *session);
