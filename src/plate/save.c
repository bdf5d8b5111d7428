#include "plate/save.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static FileStamp stamp_of(const struct stat *status)
{
    return (FileStamp){true, (uint64_t)status->st_dev, (uint64_t)status->st_ino,
                       (int64_t)status->st_size,
                       (int64_t)status->st_mtim.tv_sec * 1000000000 + status->st_mtim.tv_nsec};
}

FileStamp file_stamp(const char *path)
{
    struct stat status;
    if (stat(path, &status) != 0)
        return (FileStamp){false, 0, 0, 0, 0};
    return stamp_of(&status);
}

bool file_stamp_equal(FileStamp a, FileStamp b)
{
    return a.exists == b.exists && a.device == b.device && a.inode == b.inode && a.size == b.size &&
           a.modified_ns == b.modified_ns;
}

static bool failed(Error *error, const char *path, const char *what, int code)
{
    error_set(error, ERROR_FILE, NULL, "%s: %s", what, g_strerror(code));
    error_set_file(error, path);
    return false;
}

bool write_all(int file, const char *bytes, size_t size)
{
    while (size > 0) {
        ssize_t written = write(file, bytes, size);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        bytes += written;
        size -= (size_t)written;
    }
    return true;
}

void sync_folder_of(const char *path)
{
    char *folder = g_path_get_dirname(path);
    int file = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (file >= 0) {
        fsync(file);
        close(file);
    }
    g_free(folder);
}

/* Fills the open file and gives it its final permissions. Returns 0 or an errno. */
static int fill_file(int file, const char *target, const void *bytes, size_t size, FileStamp *stamp)
{
    struct stat status;
    mode_t mode = 0666;
    if (stat(target, &status) == 0) {
        mode = status.st_mode & 07777;
    } else {
        mode_t mask = umask(0);
        umask(mask);
        mode &= ~mask;
    }
    if (fchmod(file, mode) != 0 || !write_all(file, bytes, size) || fsync(file) != 0)
        return errno ? errno : EIO;
    if (stamp && fstat(file, &status) == 0)
        *stamp = stamp_of(&status);
    return 0;
}

static bool replace_file(const char *target, const void *bytes, size_t size, FileStamp *stamp,
                         Error *error)
{
    char *beside = g_strconcat(target, ".XXXXXX", NULL);
    int file = mkostemp(beside, O_CLOEXEC);
    int code = file < 0 ? errno : fill_file(file, target, bytes, size, stamp);
    if (file >= 0 && close(file) != 0 && code == 0)
        code = errno;
    if (code == 0 && rename(beside, target) != 0)
        code = errno;
    if (code != 0 && file >= 0)
        unlink(beside);
    g_free(beside);
    if (code != 0)
        return failed(error, target, "could not be saved; the file is as it was", code);
    sync_folder_of(target);
    return true;
}

bool save_bytes(const char *path, const void *bytes, size_t size, FileStamp *stamp, Error *error)
{
    struct stat status;
    char *real = realpath(path, NULL);
    const char *target = real ? real : path;
    bool saved;
    errno = 0;
    /* A device or pipe is written straight: it can't be replaced. */
    if (stat(target, &status) == 0 && !S_ISREG(status.st_mode))
        saved = S_ISDIR(status.st_mode) ? failed(error, path, "could not be saved", EISDIR)
                                        : failed(error, path, "could not be saved", ENOTSUP);
    else
        saved = replace_file(target, bytes, size, stamp, error);
    free(real);
    return saved;
}

static char *read_open_file(int file, size_t size, size_t *got)
{
    char *bytes = g_try_malloc(size + 1);
    size_t have = 0;
    while (bytes && have < size) {
        ssize_t count = read(file, bytes + have, size - have);
        if (count < 0 && errno == EINTR)
            continue;
        if (count < 0) {
            g_free(bytes);
            return NULL;
        }
        if (count == 0)
            break;
        have += (size_t)count;
    }
    if (bytes)
        bytes[have] = 0;
    *got = have;
    return bytes;
}

char *read_bytes(const char *path, size_t most, size_t *size, FileStamp *stamp, Error *error)
{
    struct stat status;
    char *bytes = NULL;
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) {
        failed(error, path, "can't be opened", errno);
        return NULL;
    }
    if (fstat(file, &status) != 0) {
        failed(error, path, "can't be read", errno);
    } else if (!S_ISREG(status.st_mode)) {
        error_set(error, ERROR_FILE, NULL, "is not a plain file");
    } else if ((uint64_t)status.st_size > most) {
        error_set(error, ERROR_LIMIT, NULL, "is larger than %zu MiB", most >> 20);
    } else {
        errno = ENOMEM;
        bytes = read_open_file(file, (size_t)status.st_size, size);
        if (!bytes)
            failed(error, path, "can't be read", errno);
        if (stamp)
            *stamp = stamp_of(&status);
    }
    error_set_file(error, path);
    close(file);
    return bytes;
}
