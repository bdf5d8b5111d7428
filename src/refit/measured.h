/* measured.h: a plate as measured against the plate as drawn, and a plate made from measurements.
 *
 * The table's datum may lie anywhere and its axes any way round: points are matched to holes by the
 * distances between them, and laid on the drawing both by least squares and so that the greatest
 * deviation is least. */
#pragma once

#include "placed/placed.h"
#include "refit/rigid-fit.h"

/* The diameter of the zone that holds the axis of a hole that neither names one nor is one that
 * others go by (placed/hole-tolerance.h), in mm (common practice, no source). */
#define MEASURED_TOLERANCE 0.1
/* How far a measured point may be from a hole and still be that hole, in mm (common practice). */
#define MEASURED_REACH 0.5

#define MEASURED_POINTS_MOST 100000

typedef struct MeasuredPoint {
    char *label;     /* or NULL */
    Place at;        /* from the table's own datum */
    Length diameter; /* 0: not measured */
    long line;       /* of the table */
} MeasuredPoint;

typedef struct MeasuredTable {
    GArray *points; /* MeasuredPoint */
} MeasuredTable;

void measured_table_init(MeasuredTable *table);
void measured_table_clear(MeasuredTable *table);
/* Adds a point; `label` is copied. */
void measured_table_add(MeasuredTable *table, const char *label, Place at, Length diameter,
                        long line);

typedef struct MeasuredOptions {
    FeatureId face;   /* ID_NONE: the top */
    bool turned_over; /* measured from below */
    double tolerance; /* mm, for holes that name none; 0: as the drawing has it */
    double reach;     /* mm; 0: MEASURED_REACH */
} MeasuredOptions;

/* How one measured point compares. Deviations are measured less drawn, on the face, in mm. */
typedef struct MeasuredRow {
    uint32_t point;
    FeatureId hole;                     /* ID_NONE: the plate has none there */
    Point drawn;                        /* where the hole is */
    Point squares, greatest;            /* the deviation by each of the two fits */
    double tolerance;                   /* diameter of the zone */
    double squares_used, greatest_used; /* share of the tolerance used up; over 1: out of it */
    double diameter_off;                /* mm: measured less the nearest step's; NAN: unknown */
    bool outlier;                       /* so far off that the fits leave it out */
    bool label_differs;                 /* it has a label, and not the hole's */
} MeasuredRow;

typedef struct Measured {
    GArray *rows;               /* MeasuredRow, in the table's order */
    GArray *missing;            /* FeatureId: holes of the face that were not measured */
    RigidFit squares, greatest; /* lay the table on the face; figures of what is matched and no
                                   outlier */
    uint32_t matched, outliers, out_of_tolerance;
} Measured;

/* Matches the table to the holes of a face and compares. False with an error where fewer than two
 * points are given, or no position has most of them on holes. Clear with measured_clear. */
bool measured_compare(const MeasuredTable *table, const Plate *plate, const Placed *placed,
                      const MeasuredOptions *options, Measured *measured, Error *error);
void measured_clear(Measured *measured);

typedef struct MeasuredPlate {
    PlateUnit unit;
    Length thickness;     /* of the stock */
    Length length, width; /* of the stock; 0: as large as the points and the margin ask for */
    Length margin;        /* from the outermost points to the edge */
    int metal;            /* MetalKind */
} MeasuredPlate;

/* A plate whose holes are the table's, through and marked as made, with the table's datum as its
 * own. NULL with an error where a point has no diameter or the sizes make no plate. */
Plate *measured_plate_new(const MeasuredTable *table, const MeasuredPlate *wanted, Error *error);

/* ---- for the files of measuring ---- */

/* A hole that can be matched. */
typedef struct DrawnHole {
    FeatureId id;
    Point at;
    const Hole *hole;
} DrawnHole;

/* The step whose diameter is nearest to a measured one. */
Length measured_nearest_step(const Hole *hole, Length diameter);

/* The hole for each point (an index, or -1), and the pose that found them, by the distances between
 * points. False when no position has at least half of the points, and two, on holes. */
bool measured_match(const MeasuredTable *table, const DrawnHole *holes, uint32_t hole_count,
                    bool turned_over, double reach, int *matches, Pose *pose);
