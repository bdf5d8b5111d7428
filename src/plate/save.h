/* save.h: reading whole files and writing them so that a crash leaves the old or the new one. */
#pragma once

#include "geometry/error.h"

#include <glib.h>
#include <stddef.h>
#include <stdint.h>

/* What a file was when it was read or written, to notice that somebody else has changed it. */
typedef struct FileStamp {
    bool exists;
    uint64_t device, inode;
    int64_t size;
    int64_t modified_ns;
} FileStamp;

FileStamp file_stamp(const char *path);
bool file_stamp_equal(FileStamp a, FileStamp b);

/* Writes a new file beside `path`, syncs it, renames it over `path` and syncs the folder. A link is
 * followed, so that what it points to is replaced; permissions of an old file are kept. On failure
 * the old file is as it was and nothing is left beside it. Fills `stamp` where given. */
bool save_bytes(const char *path, const void *bytes, size_t size, FileStamp *stamp, Error *error);

/* Writes all the bytes to an open file, however often the system stops in between. False with
 * errno.
 */
bool write_all(int file, const char *bytes, size_t size);

/* Puts the folder that `path` lies in on the disk: a rename is only safe from a power cut once it
 * is. A file system that can't sync a folder has nothing more to give: that is not an error. */
void sync_folder_of(const char *path);

/* Reads a whole regular file of at most `most` bytes, adding a zero byte that is not counted. NULL
 * with an error; free with g_free. Fills `stamp` where given, from the same open file. */
char *read_bytes(const char *path, size_t most, size_t *size, FileStamp *stamp, Error *error);
