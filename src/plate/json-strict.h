/* json-strict.h: JSON as RFC 8259 has it and nothing besides.
 *
 * json-c, even when told to be strict, lets through NaN, `[1.]`, keys that stand twice and whole
 * numbers that overflow. These bytes are read once here first, and refused with their line. */
#pragma once

#include "geometry/error.h"

#include <json-c/json.h>
#include <stddef.h>

/* Limits of any file of ours. */
#define JSON_BYTES_MOST ((size_t)64 << 20)
#define JSON_DEPTH_MOST 32
#define JSON_KEYS_MOST 256 /* in one object */
/* Lists and objects, and values of all kinds, in a file: an empty list of two bytes takes hundreds
 * in json-c's tree. A plate of PLATE_RECORDS_MOST holes has fewer of both. */
#define JSON_BRACKETS_MOST 1500000
#define JSON_VALUES_MOST 6000000

/* True when json_strict_parse would take the bytes. */
bool json_strict_check(const char *bytes, size_t size, Error *error);

/* Reads the bytes into a tree that the caller owns, or returns NULL with an error whose place is a
 * line. Refuses all that RFC 8259 does, and keys that stand twice in one object, whole numbers
 * beyond 64 bits, bytes that are no UTF-8, and more than the limits above. */
json_object *json_strict_parse(const char *bytes, size_t size, Error *error);
