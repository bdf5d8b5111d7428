/* json-text.h: JSON written straight into its bytes, with no tree of it in between.
 *
 * The form is json-c's, so that what is kept of a stranger's keys stands in the file as our own
 * does: two spaces for each bracket, or all of it on one line. */
#pragma once

#include <json-c/json.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct JsonText {
    char *bytes; /* ends with a zero byte once taken; owned */
    size_t size, room;
    unsigned depth;
    bool lines; /* a line for each value; else all on one */
    bool first; /* nothing stands in the innermost bracket yet */
} JsonText;

#define JSON_TEXT_LINES ((JsonText){NULL, 0, 0, 0, true, true})
#define JSON_TEXT_ONE_LINE ((JsonText){NULL, 0, 0, 0, false, true})

/* Begins and ends an object or a list: '{' and '}', '[' and ']'. */
void json_text_open(JsonText *text, char bracket);
void json_text_close(JsonText *text, char bracket);

/* What comes before each value: in an object its key, in a list only the comma. Keys are written as
 * they are where they are the program's own; a stranger's go through json_text_foreign_key. */
void json_text_key(JsonText *text, const char *key);
void json_text_foreign_key(JsonText *text, const char *key);
void json_text_next(JsonText *text);

/* The value itself. */
void json_text_string(JsonText *text, const char *string);
void json_text_whole(JsonText *text, int64_t number);
/* A whole number of millionths, and an angle in degrees, as exact decimals. */
void json_text_millionths(JsonText *text, int64_t millionths);
void json_text_degrees(JsonText *text, int64_t angle);
/* Bytes that are JSON already. */
void json_text_raw(JsonText *text, const char *bytes, size_t size);
/* A tree of json-c's, which stays the caller's; NULL is null. */
void json_text_tree(JsonText *text, json_object *json);

/* The bytes with a zero byte behind them, which the caller frees with g_free; the text is empty
 * after. */
char *json_text_take(JsonText *text, size_t *size);
