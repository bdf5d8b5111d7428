/* angle.h: angles as whole nanodegrees, counter-clockwise from +X. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef int64_t Angle; /* nanodegrees */

#define ANGLE_DEGREE ((Angle)1000000000)
#define ANGLE_TURN ((Angle)360 * ANGLE_DEGREE)

double angle_to_degrees(Angle angle);

/* The nearest nanodegree; only for worked-out values, within 25 million turns. NaN and infinity
 * give 0. */
Angle angle_from_degrees(double degrees);

/* The same direction in 0 (included) to 360 degrees (left out). */
Angle angle_normalized(Angle angle);

/* Cosine and sine, exactly 0, 1 or -1 at whole quarter turns. */
void angle_cos_sin(Angle angle, double *cosine, double *sine);

/* Reads an exact decimal of degrees with at most nine places, between -360 and 360. */
bool angle_read(const char *text, Angle *angle);

/* Writes the shortest exact decimal of degrees. `text` has LENGTH_TEXT bytes. */
size_t angle_write(Angle angle, char *text);
