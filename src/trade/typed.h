/* typed.h: lengths, angles and numbers as a person types them.
 *
 * A length is typed as the trade says it: `0.201`, `13/64`, `1 1/8`, `#7`, `F`, `5.1mm`, `0.5in`,
 * `1/4"`, `201 thou`, with + - * / and brackets. A number with no unit has the document's unit. The
 * arithmetic is exact and the answer is rounded once, to the nearest nanometre (nanodegree); what
 * is too long to work out exactly is refused. The decimal sign is a point in every language.
 *
 * All errors are ERROR_TYPED (ERROR_LIMIT for what is too long, too deep or too large); the place
 * is "column N", counted in characters from 1, and the message says what to type.
 */
#pragma once

#include "geometry/angle.h"
#include "geometry/error.h"
#include "geometry/length.h"
#include "trade/speech.h"

/* No typed text may be longer than this, in bytes. */
#define TYPED_BYTES_MOST 1024

/* Room for what a typed length was taken as. */
#define TYPED_TAKEN_AS 160

/* Reads a length between +-LENGTH_GREATEST. `taken_as` (may be NULL; `size` bytes) says what a
 * named size or an ambiguous form was taken as ("drill No. 7, 0.2010 in"), and is empty where there
 * is nothing to say. On failure neither `length` nor `taken_as` means anything. */
bool typed_length_read(const char *text, Unit unit, Length *length, char *taken_as, size_t size,
                       Error *error);
/* The same; `taken_as` is said in the person's language. What is typed has a point all the same. */
bool typed_length_read_said(const char *text, Unit unit, const Speech *speech, Length *length,
                            char *taken_as, size_t size, Error *error);

/* Reads an angle between -360 and 360 degrees: `6.5`, `6 deg`, `6° 30'`, `6° 30' 15"`, with + - * /
 * and brackets. A number with no unit is in degrees. */
bool typed_angle_read(const char *text, Angle *angle, Error *error);

/* Reads a plain number (a friction, a factor, a per cent without its sign) in `least` to
 * `greatest`, with + - * / and brackets. */
bool typed_number_read(const char *text, double least, double greatest, double *number,
                       Error *error);

/* Reads a whole number from `least` to `greatest`; no arithmetic. */
bool typed_count_read(const char *text, int least, int greatest, int *count, Error *error);
