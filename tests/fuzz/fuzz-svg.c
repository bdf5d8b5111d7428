#include "exchange/outline-svg.h"

#include "fuzz-outline.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    OutlineRead read;
    Error error = {0};
    bool fine = outline_svg_read((const char *)data, size, NULL, &read, &error);
    check_read(fine, &read, &error);
    return 0;
}
