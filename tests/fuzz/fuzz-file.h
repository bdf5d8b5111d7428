/* fuzz-file.h: bytes as a file with a name, for readers that take no bytes; it lies in memory. */
#pragma once

#include "fuzz.h"

#include <stdio.h>
#include <sys/mman.h>
#include <unistd.h>

typedef struct FuzzFile {
    int descriptor; /* 0: not made yet */
    char path[64];
} FuzzFile;

/* The file with these bytes and no others. */
static inline const char *fuzz_file_fill(FuzzFile *file, const uint8_t *data, size_t size)
{
    if (!file->descriptor) {
        file->descriptor = memfd_create("fuzz", MFD_CLOEXEC);
        must(file->descriptor > 0);
        snprintf(file->path, sizeof file->path, "/proc/self/fd/%d", file->descriptor);
    }
    must(ftruncate(file->descriptor, 0) == 0);
    must(pwrite(file->descriptor, data, size, 0) == (ssize_t)size);
    return file->path;
}
