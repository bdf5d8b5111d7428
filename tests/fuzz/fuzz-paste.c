/* Whatever lies on the clipboard, it is refused with a reason, or pasted and undone without a
 * trace. */
#include "plate/plate-file.h"
#include "session/selection.h"

#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

/* Undone, the plate is what it was before, but for the numbers that no other record may have now.
 */
static void undo_and_redo(Session *session, uint32_t count, Error *error)
{
    size_t length, length_again;
    must(session_undo(session, error));
    char *text = plate_text(session_plate(session), &length);
    must(plate_count(session_plate(session)) == count);
    must(session_redo(session, error) && session_undo(session, error));
    char *again = plate_text(session_plate(session), &length_again);
    must(length == length_again && memcmp(text, again, length) == 0);
    g_free(text);
    g_free(again);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    Error error = {.kind = ERROR_NONE};
    Session *session = session_new(plate_new(200000000, 150000000, 20000000, PLATE_MM), NULL);
    Edit edit = EDIT_EMPTY;
    GArray *pasted = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    uint32_t count = plate_count(session_plate(session));
    if (!selection_paste(session, (const char *)data, size, 1000000, 0, &edit, pasted, &error))
        must(error.kind != ERROR_NONE && *error.message);
    else if (session_do(session, &edit, &error) && session_can_undo(session))
        undo_and_redo(session, count, &error);
    g_array_unref(pasted);
    edit_clear(&edit);
    session_free(session);
    return 0;
}
