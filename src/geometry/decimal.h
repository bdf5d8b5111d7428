/* decimal.h: exact decimals kept as whole numbers of 10^-places. Private to geometry. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Reads a JSON number (RFC 8259, section 6: no leading zeros, plus sign or spaces) as a whole
 * number of 10^-places. Zeros behind the last place that counts are let through, since nothing is
 * lost. False, leaving `value` alone, when the text is no number, needs more places, or lies
 * outside
 * +-greatest. */
bool decimal_read(const char *text, int places, int64_t greatest, int64_t *value);

/* Writes the shortest exact decimal and returns its length. `text` has LENGTH_TEXT bytes. */
size_t decimal_write(int64_t value, int places, char *text);
