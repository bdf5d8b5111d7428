#include "plate/json-text.h"

#include "geometry/angle.h"
#include "geometry/length.h"

#include <glib.h>
#include <string.h>

#define TREE_LINES (JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE)
#define TREE_ONE_LINE (JSON_C_TO_STRING_PLAIN | JSON_C_TO_STRING_NOSLASHESCAPE)

/* Room for `size` bytes more, and where they go; the caller adds what it used to `size`. */
static char *reserve(JsonText *text, size_t size)
{
    if (text->room - text->size < size) {
        text->room = MAX(text->room * 2, text->size + size + 1024);
        text->bytes = g_realloc(text->bytes, text->room);
    }
    return text->bytes + text->size;
}

void json_text_raw(JsonText *text, const char *bytes, size_t size)
{
    memcpy(reserve(text, size), bytes, size);
    text->size += size;
}

/* A new line where lines are wanted, so far in as brackets are open. There is room for it. */
static char *put_line_end(const JsonText *text, char *at)
{
    if (!text->lines)
        return at;
    *at++ = '\n';
    for (unsigned i = 0; i < text->depth; i++) {
        *at++ = ' ';
        *at++ = ' ';
    }
    return at;
}

static size_t line_room(const JsonText *text)
{
    return (size_t)text->depth * 2 + 1;
}

static void line_end(JsonText *text)
{
    char *start = reserve(text, line_room(text));
    text->size += (size_t)(put_line_end(text, start) - start);
}

/* What stands before each value but the first, and its line end. */
static char *put_next(JsonText *text, char *at)
{
    if (!text->first)
        *at++ = ',';
    text->first = false;
    return put_line_end(text, at);
}

void json_text_open(JsonText *text, char bracket)
{
    *reserve(text, 1) = bracket;
    text->size++;
    text->depth++;
    text->first = true;
}

void json_text_close(JsonText *text, char bracket)
{
    text->depth--;
    char *start = reserve(text, line_room(text) + 1), *at = put_line_end(text, start);
    *at++ = bracket;
    text->size += (size_t)(at - start);
    text->first = false;
}

void json_text_next(JsonText *text)
{
    char *start = reserve(text, line_room(text) + 1);
    text->size += (size_t)(put_next(text, start) - start);
}

void json_text_key(JsonText *text, const char *key)
{
    size_t length = strlen(key);
    char *start = reserve(text, line_room(text) + length + 4), *at = put_next(text, start);
    *at++ = '"';
    memcpy(at, key, length);
    at += length;
    *at++ = '"';
    *at++ = ':';
    text->size += (size_t)(at - start);
}

void json_text_foreign_key(JsonText *text, const char *key)
{
    json_text_next(text);
    json_text_string(text, key);
    json_text_raw(text, ":", 1);
}

/* The letter that stands behind a backslash for a byte, 'u' for one written by its number, 0 for
 * one that stands for itself (RFC 8259, section 7). */
static char escape_letter(unsigned char byte)
{
    switch (byte) {
    case '"':
    case '\\':
        return (char)byte;
    case '\b':
        return 'b';
    case '\f':
        return 'f';
    case '\n':
        return 'n';
    case '\r':
        return 'r';
    case '\t':
        return 't';
    default:
        return byte < 0x20 ? 'u' : 0;
    }
}

void json_text_string(JsonText *text, const char *string)
{
    static const char hexadecimal[] = "0123456789abcdef";
    size_t length = strlen(string);
    char *start = reserve(text, length * 6 + 2), *at = start;
    *at++ = '"';
    for (size_t i = 0; i < length; i++) {
        unsigned char byte = (unsigned char)string[i];
        char letter = escape_letter(byte);
        if (letter)
            *at++ = '\\';
        *at++ = letter ? letter : string[i];
        if (letter == 'u') {
            memcpy(at, "00", 2);
            at[2] = hexadecimal[byte >> 4];
            at[3] = hexadecimal[byte & 15];
            at += 4;
        }
    }
    *at++ = '"';
    text->size += (size_t)(at - start);
}

void json_text_whole(JsonText *text, int64_t number)
{
    char digits[24], *end = digits + sizeof digits, *at = end;
    uint64_t rest = number < 0 ? 0 - (uint64_t)number : (uint64_t)number;
    do
        *--at = (char)('0' + rest % 10);
    while (rest /= 10);
    if (number < 0)
        *--at = '-';
    json_text_raw(text, at, (size_t)(end - at));
}

void json_text_millionths(JsonText *text, int64_t millionths)
{
    text->size += millionths_write(millionths, reserve(text, LENGTH_TEXT));
}

void json_text_degrees(JsonText *text, Angle angle)
{
    text->size += angle_write(angle, reserve(text, LENGTH_TEXT));
}

void json_text_tree(JsonText *text, json_object *json)
{
    size_t length;
    const char *at = json_object_to_json_string_length(
                   json, text->lines ? TREE_LINES : TREE_ONE_LINE, &length),
               *end = at + length;
    /* A string in it has no line ends of its own, so each one ends a line of the tree's. */
    for (const char *stop; (stop = memchr(at, '\n', (size_t)(end - at))); at = stop + 1) {
        json_text_raw(text, at, (size_t)(stop - at));
        line_end(text);
    }
    json_text_raw(text, at, (size_t)(end - at));
}

char *json_text_take(JsonText *text, size_t *size)
{
    reserve(text, 1)[0] = 0;
    char *bytes = text->bytes;
    *size = text->size;
    text->bytes = NULL;
    text->size = text->room = 0;
    return bytes;
}
