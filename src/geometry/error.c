/* error.c: filling, placing and printing errors. */
#include "geometry/error.h"

#include "geometry/words.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Takes off a character that the end of the buffer cut in two, so that the text stays UTF-8. */
static void drop_cut_character(char *text)
{
    size_t length = strlen(text);
    size_t start = length;
    while (start > 0 && ((unsigned char)text[start - 1] & 0xC0) == 0x80) {
        start--;
    }
    if (start == 0) {
        return;
    }
    unsigned char lead = (unsigned char)text[start - 1];
    size_t wanted = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
    if (length - (start - 1) < wanted) {
        text[start - 1] = '\0';
    }
}

/* Copies as much of `from` as goes in. `from` may not overlap `to`. */
static void copy_text(char *to, size_t size, const char *from)
{
    size_t length = strlen(from);
    if (length < size) {
        memcpy(to, from, length + 1);
        return;
    }
    memcpy(to, from, size - 1);
    to[size - 1] = '\0';
    drop_cut_character(to);
}

static ErrorSayer *said_by;

void error_set_sayer(ErrorSayer *sayer)
{
    said_by = sayer;
}

__attribute__((format(printf, 3, 0))) static int in_english(char *text, unsigned long size,
                                                            const char *format, va_list values)
{
    return vsnprintf(text, size, format, values);
}

bool error_set(Error *error, ErrorKind kind, const char *place, const char *format, ...)
{
    if (!error) {
        return false;
    }
    error->kind = kind;
    error->file[0] = '\0';
    copy_text(error->place, sizeof error->place, place ? place : "");
    va_list values;
    va_start(values, format);
    ErrorSayer *sayer = said_by ? said_by : in_english;
    int wanted = sayer(error->message, sizeof error->message, format, values);
    va_end(values);
    if (wanted >= (int)sizeof error->message) {
        drop_cut_character(error->message);
    }
    return false;
}

void error_set_file(Error *error, const char *file)
{
    if (error && error->file[0] == '\0' && file) {
        copy_text(error->file, sizeof error->file, file);
    }
}

void error_within(Error *error, const char *outer)
{
    if (!error || !outer || outer[0] == '\0') {
        return;
    }
    char inner[sizeof error->place];
    memcpy(inner, error->place, sizeof inner);
    copy_text(error->place, sizeof error->place, outer);
    size_t used = strlen(error->place);
    if (inner[0] != '\0' && inner[0] != '[' && used + 1 < sizeof error->place) {
        error->place[used++] = '.';
        error->place[used] = '\0';
    }
    copy_text(error->place + used, sizeof error->place - used, inner);
}

/* Adds `text` behind what is in the buffer. */
static void add_text(char *buffer, size_t size, const char *text)
{
    size_t used = strlen(buffer);
    copy_text(buffer + used, size - used, text);
}

__attribute__((format(printf, 3, 4))) static void say(char *text, size_t size, const char *format,
                                                      ...)
{
    va_list values;
    va_start(values, format);
    (said_by ? said_by : in_english)(text, size, format, values);
    va_end(values);
}

/* "line 3" and "column 7" are words; what else a place may be is a name of the file's own. */
static void add_place(char *buffer, size_t size, const char *place)
{
    char text[sizeof((Error *)0)->place + 32];
    if (strncmp(place, "line ", 5) == 0) {
        say(text, sizeof text, N_("line %s"), place + 5);
    } else if (strncmp(place, "column ", 7) == 0) {
        say(text, sizeof text, N_("column %s"), place + 7);
    } else {
        copy_text(text, sizeof text, place);
    }
    add_text(buffer, size, text);
}

void error_line(const Error *error, char *buffer, unsigned long size)
{
    if (size == 0) {
        return;
    }
    buffer[0] = '\0';
    if (error->file[0] != '\0') {
        add_text(buffer, size, error->file);
        add_text(buffer, size, ": ");
    }
    if (error->place[0] != '\0') {
        add_place(buffer, size, error->place);
        add_text(buffer, size, ": ");
    }
    add_text(buffer, size, error->message);
}
