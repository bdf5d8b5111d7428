#include "drawing/output.h"

#include <gio/gio.h>

bool output_write(const char *file, const void *bytes, size_t size, Error *error)
{
    GError *cause = NULL;
    if (g_file_set_contents_full(file, bytes, (gssize)size,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666,
                                 &cause))
        return true;
    error_set(error, ERROR_FILE, NULL,
              "can't be written; is the folder there, and may you write in "
              "it? (%s)",
              cause->message);
    error_set_file(error, file);
    g_error_free(cause);
    return false;
}
