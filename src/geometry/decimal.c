/* decimal.c: exact decimals, read and written without passing through a double. */
#include "geometry/decimal.h"

/* Larger than any text is long, so that an exponent of this size can't be balanced by digits. */
#define EXPONENT_MOST ((int64_t)1 << 50)

/* The digits of a number, as they stand in the text. */
typedef struct Digits {
    const char *first, *last; /* the first and last digit that is not 0; NULL when all are */
    const char *point;        /* the decimal point, or where it would stand */
    int64_t exponent;
    bool negative;
} Digits;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Passes over digits, noting those that count. NULL when there is none. */
static const char *read_digits(const char *at, Digits *digits)
{
    if (!is_digit(*at)) {
        return NULL;
    }
    for (; is_digit(*at); at++) {
        if (*at != '0') {
            digits->last = at;
            if (!digits->first) {
                digits->first = at;
            }
        }
    }
    return at;
}

static const char *read_exponent(const char *at, int64_t *exponent)
{
    bool negative = *at == '-';
    if (*at == '-' || *at == '+') {
        at++;
    }
    if (!is_digit(*at)) {
        return NULL;
    }
    int64_t size = 0;
    for (; is_digit(*at); at++) {
        size = size < EXPONENT_MOST ? size * 10 + (*at - '0') : size;
    }
    *exponent = negative ? -size : size;
    return at;
}

static bool read_number(const char *at, Digits *digits)
{
    *digits = (Digits){0};
    if (*at == '-') {
        digits->negative = true;
        at++;
    }
    bool leading_zero = *at == '0' && is_digit(at[1]);
    at = read_digits(at, digits);
    if (!at || leading_zero) {
        return false;
    }
    digits->point = at;
    if (*at == '.') {
        at = read_digits(at + 1, digits);
    }
    if (at && (*at == 'e' || *at == 'E')) {
        at = read_exponent(at + 1, &digits->exponent);
    }
    return at && *at == '\0';
}

/* The power of ten of the digit at `at`, before the exponent. */
static int64_t digit_power(const Digits *digits, const char *at)
{
    return at < digits->point ? digits->point - at - 1 : digits->point - at;
}

bool decimal_read(const char *text, int places, int64_t greatest, int64_t *value)
{
    Digits digits;
    if (!read_number(text, &digits)) {
        return false;
    }
    if (!digits.first) {
        *value = 0;
        return true;
    }
    int64_t lowest = digit_power(&digits, digits.last) + digits.exponent + places;
    int64_t highest = digit_power(&digits, digits.first) + digits.exponent + places;
    if (lowest < 0 || highest > 18) {
        return false;
    }
    uint64_t size = 0; /* at most 19 digits, which fit in 64 bits without a sign */
    for (const char *at = digits.first; at <= digits.last; at++) {
        if (*at != '.') {
            size = size * 10 + (uint64_t)(*at - '0');
        }
    }
    for (; lowest > 0; lowest--) {
        size *= 10;
    }
    if (size > (uint64_t)greatest) {
        return false;
    }
    *value = digits.negative ? -(int64_t)size : (int64_t)size;
    return true;
}

size_t decimal_write(int64_t value, int places, char *text)
{
    uint64_t rest = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    char digits[24];
    char *end = digits + sizeof digits, *at = end;
    int count = 0;
    for (; rest > 0 || count <= places; rest /= 10, count++) {
        *--at = (char)('0' + rest % 10);
    }
    const char *point = end - places;
    while (end > point && end[-1] == '0') {
        end--;
    }
    char *out = text;
    if (value < 0) {
        *out++ = '-';
    }
    while (at < end) {
        if (at == point) {
            *out++ = '.';
        }
        *out++ = *at++;
    }
    *out = '\0';
    return (size_t)(out - text);
}
