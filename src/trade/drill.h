/* drill.h: twist drills in one sorted list: number, letter, fraction and metric sizes. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum DrillSeries {
    DRILL_NUMBER,   /* #1 to #97 */
    DRILL_LETTER,   /* A to Z */
    DRILL_FRACTION, /* by 64ths to 1 in */
    DRILL_METRIC,   /* by 0.1 mm to 13 mm */
} DrillSeries;

#define DRILL_SERIES_COUNT 4

/* A set of series, for a shop that has only some of them. */
typedef unsigned DrillSet;
#define DRILL_SET(series) (1u << (series))
#define DRILL_SET_ALL ((1u << DRILL_SERIES_COUNT) - 1)

typedef struct Drill {
    const char *name; /* "#7", "F", "13/64", "5.1mm" */
    Length diameter;
    DrillSeries series;
    const char *source;
} Drill;

/* The list, from the smallest to the largest; drills of one size follow each other. */
size_t drill_count(void);
const Drill *drill_at(size_t index);

/* Finds a drill by its name, as a person writes it: "#7", "No. 7", "f", "13/64", "26/128" (a
 * fraction not in its lowest terms), "5.1mm", "5.1 mm". NULL with an error that names the nearest
 * sizes when there is none. */
const Drill *drill_find(const char *name, Error *error);

/* The nearest drill at or above, at or below, or on either side of a diameter, out of `set`. On a
 * tie the one nearest the head of the list. NULL when the list has none. */
const Drill *drill_at_or_above(Length diameter, DrillSet set);
const Drill *drill_at_or_below(Length diameter, DrillSet set);
const Drill *drill_nearest(Length diameter, DrillSet set);

/* The length in mm of the point of a drill or spot of `diameter` mm and a point angle in degrees
 * (over 0, under 180): diameter / (2 tan(angle / 2)), plane geometry. */
double drill_point_length(double diameter, double point_angle);

/* Writes what a drill is: "drill No. 7, 0.2010 in", "drill F, 0.2570 in", "drill 5.1 mm". Returns
 * the length of the text, cut off at `size`. */
size_t drill_text(const Drill *drill, char *text, size_t size);
