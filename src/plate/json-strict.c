#include "plate/json-strict.h"

#include <errno.h>
#include <glib.h>
#include <stdlib.h>
#include <string.h>

typedef struct Reader {
    const char *start, *at, *end;
    Error *error;
    uint32_t brackets, values;
} Reader;

typedef struct Span {
    const char *start;
    size_t length;
} Span;

static bool refuse(const Reader *reader, ErrorKind kind, const char *why)
{
    unsigned line = 1;
    char place[32];
    for (const char *p = reader->start; p < reader->at; p++)
        line += *p == '\n';
    g_snprintf(place, sizeof place, "line %u", line);
    return error_set(reader->error, kind, place, "%s", why);
}

/* Half of a file is indents: the place is kept in a register on the way. */
static void skip_space(Reader *reader)
{
    const char *at = reader->at, *end = reader->end;
    while (at < end && (*at == ' ' || *at == '\t' || *at == '\n' || *at == '\r'))
        at++;
    reader->at = at;
}

static bool at_digit(const Reader *reader)
{
    return reader->at < reader->end && *reader->at >= '0' && *reader->at <= '9';
}

static bool take(Reader *reader, char wanted)
{
    if (reader->at == reader->end || *reader->at != wanted)
        return false;
    reader->at++;
    return true;
}

static bool read_digits(Reader *reader)
{
    if (!at_digit(reader))
        return refuse(reader, ERROR_FORMAT, "a digit is needed here");
    while (at_digit(reader))
        reader->at++;
    return true;
}

static bool fits_64_bits(const char *start, const char *end)
{
    char text[24];
    if (end - start <= 18)
        return true;
    if (end - start >= (ptrdiff_t)sizeof text)
        return false;
    memcpy(text, start, (size_t)(end - start));
    text[end - start] = 0;
    errno = 0;
    strtoll(text, NULL, 10);
    return errno == 0;
}

static bool read_number(Reader *reader)
{
    const char *start = reader->at;
    bool whole = true;
    take(reader, '-');
    if (!take(reader, '0') && !read_digits(reader))
        return false;
    if (at_digit(reader))
        return refuse(reader, ERROR_FORMAT, "a number can't begin with 0 and go on");
    if (take(reader, '.')) {
        whole = false;
        if (!read_digits(reader))
            return false;
    }
    if (take(reader, 'e') || take(reader, 'E')) {
        whole = false;
        if (!take(reader, '+'))
            take(reader, '-');
        if (!read_digits(reader))
            return false;
    }
    if (whole && !fits_64_bits(start, reader->at))
        return refuse(reader, ERROR_LIMIT, "the whole number is too large");
    if (reader->at - start > 400)
        return refuse(reader, ERROR_LIMIT, "the number has too many digits");
    return true;
}

static bool read_escape(Reader *reader)
{
    if (reader->at < reader->end && strchr("\"\\/bfnrt", *reader->at) && *reader->at) {
        reader->at++;
        return true;
    }
    if (!take(reader, 'u'))
        return refuse(reader, ERROR_FORMAT, "a backslash is followed by no known letter");
    for (int i = 0; i < 4; i++, reader->at++)
        if (reader->at == reader->end || !g_ascii_isxdigit(*reader->at))
            return refuse(reader, ERROR_FORMAT, "four hexadecimal digits are needed after \\u");
    return true;
}

/* Outside of texts whatever is not ASCII is refused as no JSON. */
static bool check_utf8(Reader *reader, Span span)
{
    const char *bad;
    if (g_utf8_validate_len(span.start, span.length, &bad))
        return true;
    reader->at = bad;
    return refuse(reader, ERROR_FORMAT, "a byte here is not UTF-8");
}

static bool read_string(Reader *reader, Span *span)
{
    unsigned char bits = 0;
    span->start = reader->at;
    if (!take(reader, '"'))
        return refuse(reader, ERROR_FORMAT, "a text in quotes is needed here");
    for (;;) {
        const char *at = reader->at, *end = reader->end;
        while (at < end && *at != '"' && *at != '\\' && (unsigned char)*at >= 0x20)
            bits |= (unsigned char)*at++;
        reader->at = at;
        if (at == end || *at == '"')
            break;
        if (!take(reader, '\\'))
            return refuse(reader, ERROR_FORMAT, "a text holds a control character");
        if (!read_escape(reader))
            return false;
    }
    if (!take(reader, '"'))
        return refuse(reader, ERROR_FORMAT, "a text has no closing quote");
    span->length = (size_t)(reader->at - span->start);
    return bits < 0x80 || check_utf8(reader, *span);
}

static bool read_word(Reader *reader, const char *word)
{
    size_t length = strlen(word);
    if ((size_t)(reader->end - reader->at) < length || memcmp(reader->at, word, length) != 0)
        return refuse(reader, ERROR_FORMAT, "this is not JSON");
    reader->at += length;
    return true;
}

static bool read_value(Reader *reader, int depth);

static bool read_array(Reader *reader, int depth)
{
    reader->at++;
    skip_space(reader);
    if (take(reader, ']'))
        return true;
    do {
        if (!read_value(reader, depth))
            return false;
    } while (take(reader, ','));
    return take(reader, ']') ||
           refuse(reader, ERROR_FORMAT, "a comma or a closing square bracket is needed here");
}

/* Keys with escapes are compared as they are written: ours have none, and a stranger's that mean
 * the same in two spellings come to no harm, json-c keeps the last. */
static bool is_new_key(const Span *keys, size_t count, Span key)
{
    for (size_t i = 0; i < count; i++)
        if (keys[i].length == key.length && memcmp(keys[i].start, key.start, key.length) == 0)
            return false;
    return true;
}

static bool read_member(Reader *reader, int depth, Span *keys, size_t *count)
{
    Span key;
    skip_space(reader);
    if (!read_string(reader, &key))
        return false;
    if (*count == JSON_KEYS_MOST)
        return refuse(reader, ERROR_LIMIT, "an object has more than 256 keys");
    if (!is_new_key(keys, *count, key))
        return refuse(reader, ERROR_FORMAT, "a key stands twice in one object");
    keys[(*count)++] = key;
    skip_space(reader);
    if (!take(reader, ':'))
        return refuse(reader, ERROR_FORMAT, "a colon is needed after a key");
    return read_value(reader, depth);
}

static bool read_object(Reader *reader, int depth)
{
    Span keys[JSON_KEYS_MOST];
    size_t count = 0;
    reader->at++;
    skip_space(reader);
    if (take(reader, '}'))
        return true;
    do {
        if (!read_member(reader, depth, keys, &count))
            return false;
    } while (take(reader, ','));
    return take(reader, '}') ||
           refuse(reader, ERROR_FORMAT, "a comma or a closing brace is needed here");
}

static bool read_scalar(Reader *reader)
{
    Span span;
    if (reader->at == reader->end)
        return refuse(reader, ERROR_FORMAT, "the file ends in the middle");
    switch (*reader->at) {
    case '"':
        return read_string(reader, &span);
    case 't':
        return read_word(reader, "true");
    case 'f':
        return read_word(reader, "false");
    case 'n':
        return read_word(reader, "null");
    case '-':
        return read_number(reader);
    default:
        return at_digit(reader) ? read_number(reader)
                                : refuse(reader, ERROR_FORMAT, "this is not JSON");
    }
}

static bool read_value(Reader *reader, int depth)
{
    bool good;
    skip_space(reader);
    bool bracket = reader->at < reader->end && (*reader->at == '{' || *reader->at == '[');
    if (bracket && depth == JSON_DEPTH_MOST)
        return refuse(reader, ERROR_LIMIT, "more than 32 brackets stand inside each other");
    if (bracket && reader->brackets++ == JSON_BRACKETS_MOST)
        return refuse(reader, ERROR_LIMIT, "the file has more than 1,500,000 lists and objects");
    if (reader->values++ == JSON_VALUES_MOST)
        return refuse(reader, ERROR_LIMIT, "the file has more than 6,000,000 values");
    if (reader->at < reader->end && *reader->at == '{')
        good = read_object(reader, depth + 1);
    else if (reader->at < reader->end && *reader->at == '[')
        good = read_array(reader, depth + 1);
    else
        good = read_scalar(reader);
    skip_space(reader);
    return good;
}

bool json_strict_check(const char *bytes, size_t size, Error *error)
{
    Reader reader = {bytes, bytes, bytes + size, error, 0, 0};
    if (size > JSON_BYTES_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "the file is larger than 64 MiB");
    if (!read_value(&reader, 0))
        return false;
    return reader.at == reader.end ||
           refuse(&reader, ERROR_FORMAT, "something follows after the end");
}

json_object *json_strict_parse(const char *bytes, size_t size, Error *error)
{
    if (!json_strict_check(bytes, size, error))
        return NULL;
    json_tokener *tokener = json_tokener_new_ex(JSON_DEPTH_MOST + 4);
    if (!tokener) {
        error_set(error, ERROR_INTERNAL, NULL, "there is no memory left to read the file");
        return NULL;
    }
    json_object *json = json_tokener_parse_ex(tokener, bytes, (int)size);
    /* A bare number may go on as far as json-c can tell; the closing zero ends it. */
    if (!json && json_tokener_get_error(tokener) == json_tokener_continue)
        json = json_tokener_parse_ex(tokener, "", 1);
    if (!json)
        error_set(error, ERROR_FORMAT, NULL, "the file is no JSON: %s",
                  json_tokener_error_desc(json_tokener_get_error(tokener)));
    json_tokener_free(tokener);
    return json;
}
