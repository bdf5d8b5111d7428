/* Whatever a journal left behind holds, it is refused with a reason, or what comes back is a plate
 * that its own file reads. */
#include "plate/journal.h"
#include "plate/plate-file.h"

#include "fuzz-file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static FuzzFile file;
    Error error = {.kind = ERROR_NONE};
    Plate *plate = journal_recover(fuzz_file_fill(&file, data, size), &error);
    if (!plate) {
        must(error.kind != ERROR_NONE && *error.message);
        return 0;
    }
    size_t length;
    char *text = plate_text(plate, &length);
    Plate *again = plate_parse(text, length, &error);
    must(again != NULL);
    plate_free(again);
    g_free(text);
    plate_free(plate);
    return 0;
}
