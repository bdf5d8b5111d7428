/* length.h: lengths as whole nanometres, and their decimals.
 *
 * 0.0001 in (2,540 nm), 1/64 in (396,875 nm) and 1 um are all whole numbers of nanometres, so
 * nothing drifts between inch and millimetre.
 */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int64_t Length; /* nanometres */

#define LENGTH_UM ((Length)1000)
#define LENGTH_MM ((Length)1000000)
#define LENGTH_INCH ((Length)25400000)

/* No length in a model may be larger than this either way: 10 m. */
#define LENGTH_GREATEST ((Length)10000 * LENGTH_MM)

/* Room for any length's decimal with its sign and the closing zero. */
#define LENGTH_TEXT 32

/* The length in millimetres. Exact to a double's last place. */
double length_to_mm(Length length);

/* The nearest whole nanometre to `mm`; values outside +-LENGTH_GREATEST, and NaN, give the limit or
 * 0, so use it on worked-out values alone, never on a file's. */
Length length_from_mm(double mm);

/* Reads a JSON number's text as an exact decimal with at most six places ("12", "-0.5", "1e2").
 * Works for any quantity kept as millionths. False when the text is no number, has more places than
 * six once its exponent is taken in, or lies outside +-`greatest`. */
bool millionths_read(const char *text, int64_t greatest, int64_t *value);

/* Writes millionths as the shortest exact decimal ("12", "-0.5"). Returns the length of the text.
 * `text` has LENGTH_TEXT bytes. */
size_t millionths_write(int64_t value, char *text);
