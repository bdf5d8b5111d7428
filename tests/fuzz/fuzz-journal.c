/* Whatever a journal left behind holds, it is refused with a reason, or what comes back is a plate
 * that its own file reads. */
#include "plate/journal.h"

#include "fuzz-file.h"
#include "fuzz-plate-again.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static FuzzFile file;
    Error error = {.kind = ERROR_NONE};
    Plate *plate = journal_recover(fuzz_file_fill(&file, data, size), &error);
    if (!plate) {
        must(error.kind != ERROR_NONE && *error.message);
        return 0;
    }
    must_come_back(plate);
    plate_free(plate);
    return 0;
}
