#include "session/trial.h"

Session *trial_new(const Session *session)
{
    const Plate *plate = session_plate(session);
    Plate *copy = plate_new_empty();
    /* Records are shared as they are: nobody changes one that is. */
    for (uint32_t i = 0; i < plate_count(plate); i++)
        plate_put(copy, record_ref(plate_at(plate, i)), NULL);
    plate_reserve_ids(copy, plate_next_id(plate));
    return session_new(copy, NULL);
}
