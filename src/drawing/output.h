/* output.h: files that are whole or not there at all. */
#pragma once

#include "geometry/error.h"

#include <stddef.h>

/* Writes a new file beside `file`, syncs it and renames it over. On failure what was there is left
 * as it was, and the error names the file. */
bool output_write(const char *file, const void *bytes, size_t size, Error *error);
