/* error.h: what went wrong, said to the maker.
 *
 * An Error is a value with no memory of its own. Functions that can fail return false (or NULL)
 * and fill the Error they were given; NULL may be passed by a caller that does not want to know.
 */
#pragma once

#include <stdarg.h>
#include <stdbool.h>

typedef enum ErrorKind {
    ERROR_NONE,
    ERROR_TYPED,    /* what a person typed can't be read */
    ERROR_FILE,     /* the file can't be opened, read or written */
    ERROR_FORMAT,   /* the file's contents are not what they should be */
    ERROR_LIMIT,    /* larger, deeper or more than the stated limit */
    ERROR_GEOMETRY, /* an outline or shape that means nothing */
    ERROR_CONFLICT, /* the edit does not fit the plate as it is */
    ERROR_MISSING,  /* something asked for by name does not exist */
    ERROR_INTERNAL, /* a library refused; says which */
} ErrorKind;

typedef struct Error {
    ErrorKind kind;
    char file[256];    /* the file it is about, or empty */
    char place[160];   /* where in it: "line 3", "holes[4].steps[1].depth", or empty */
    char message[400]; /* what is wrong and what to do, a plain sentence with no full stop */
} Error;

/* Fills `error` (unless it is NULL) and leaves its file empty. `place` may be NULL.
 * Returns false always, so that a caller can write `return error_set(…);`. */
bool error_set(Error *error, ErrorKind kind, const char *place, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Writes at most `size` bytes of the sentence to `text` as vsnprintf does. */
typedef int ErrorSayer(char *text, unsigned long size, const char *format, va_list values);

/* Has all sentences said by `sayer` from now on, in its language; NULL: in English, as they are at
 * the start. For the editor's first moments alone: no other thread may be at work. A sentence that
 * was made elsewhere comes with the format "%s". */
void error_set_sayer(ErrorSayer *sayer);

/* Names the file that an error is about; keeps a name that is there already. */
void error_set_file(Error *error, const char *file);

/* Puts `outer` in front of the error's place, as in outer "holes[4]" and place "depth":
 * "holes[4].depth". A place that begins with '[' is joined without a dot. */
void error_within(Error *error, const char *outer);

/* Writes "file: place: message" in one line, leaving out what is empty. `size` is the buffer's. */
void error_line(const Error *error, char *buffer, unsigned long size);
