/* Whatever the cache of a rack holds, it is taken for empty or searched without harm. */
#include "refit/rack-index.h"
#include "refit/rack-maker.h"

#include "fuzz-file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static FuzzFile file;
    static Record *part;
    if (!part)
        part = rack_maker_part();
    RackIndex *index = rack_index_load(fuzz_file_fill(&file, data, size));
    bool *marks = g_new0(bool, index->entries->len + 1);
    rack_index_mark(index, &part->part, 0.06, marks);
    g_free(marks);
    rack_index_free(index);
    return 0;
}
