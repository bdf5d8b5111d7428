/* corners.h: the corners of an outline, sharp and round, as a cutter meets them. */
#pragma once

#include "geometry/outline.h"

typedef struct Corner {
    Point at;      /* the sharp corner, or the middle of the round one; the part's coordinates */
    double radius; /* mm; 0: sharp */
    double turn;   /* radians: how far the border turns there, the metal on its left; more than 0
                      stands out, less than 0 runs in */
} Corner;

/* Calls `check` for each corner of one ring, until it returns false: for each arc, and for each
 * vertex where the border turns. Exact for lines and arcs; corners that one arc and its neighbours
 * make together are told of piece by piece. */
typedef bool (*CornerCheck)(const Corner *corner, void *data);
void each_corner(const Outline *outline, size_t ring, CornerCheck check, void *data);

/* The metal that a cutter of `radius` going round outside leaves in a corner that runs in, measured
 * from the corner's middle: (R - r) (1 / cos(turn / 2) - 1), plane trigonometry. 0 for all others.
 */
double corner_metal_left(const Corner *corner, double radius);
/* The clearance that a corner needs all round in a pocket milled with a cutter of `radius`:
 * (R - r) (1 - cos(turn / 2)), where that is more than R - r; else what R - r asks, nothing. */
double corner_clearance(const Corner *corner, double radius);
