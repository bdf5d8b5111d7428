/* settings.h: what a plate says of itself as a whole: stock, datum, unit, names, limits. */
#pragma once

#include "plate/schema.h"

typedef enum PlateUnit { PLATE_INCH, PLATE_MM } PlateUnit;
/* Third angle puts the plan above the front elevation, first angle below it (ISO 5456-2). */
typedef enum Projection { PROJECTION_THIRD, PROJECTION_FIRST } Projection;
/* Which standard the sheet's dimensions follow. */
typedef enum SheetStandard { SHEET_STANDARD_ISO, SHEET_STANDARD_ASME } SheetStandard;
typedef enum DatumKind { DATUM_CORNER, DATUM_HOLE, DATUM_POINT } DatumKind;
/* The stock's corner that is the datum, seen from above. */
typedef enum DatumCorner {
    CORNER_FRONT_LEFT,
    CORNER_FRONT_RIGHT,
    CORNER_BACK_RIGHT,
    CORNER_BACK_LEFT
} DatumCorner;
/* Limits of wall thickness differ between the two. */
typedef enum MetalKind { METAL_ALUMINIUM, METAL_STEEL } MetalKind;

/* The bar or plate before anything is cut: a block with its front left corner at the origin. */
typedef struct Stock {
    Length length;    /* along X, left to right */
    Length width;     /* along Y, front to back */
    Length thickness; /* along Z */
    int metal;        /* MetalKind */
    char *material;   /* by its standard designation */
} Stock;

typedef struct Datum {
    int kind;   /* DatumKind */
    int corner; /* DatumCorner, for DATUM_CORNER */
    FeatureId hole;
    Place at; /* for DATUM_POINT */
} Datum;

/* The machine that the plate is run on, where the maker has said it; what is 0 is not known. */
typedef struct Machine {
    char *name;
    Length travel_x, travel_y, travel_z;
    Place plate_at;  /* the stock's front left corner, from where the spindle stands with X and Y at
                        the lower left end of their travel */
    Length daylight; /* from the plate's underside up to the spindle's nose at its highest */
} Machine;

/* A rule's limit that this plate changes. */
typedef struct ChangedLimit {
    char *rule;
    char *limit;   /* which of the rule's limits */
    int64_t value; /* millionths: of mm where it is a length */
    char *unknown;
} ChangedLimit;

/* A finding that the maker has looked at and lets stand. */
typedef struct AcceptedFinding {
    char *rule;
    List features; /* FeatureId, in rising order */
    char *reason;
    char *date; /* as typed or given, year-month-day */
    char *unknown;
} AcceptedFinding;

/* One row of the drawing's revision table. */
typedef struct Revision {
    char *letter;
    char *what;
    char *date; /* as typed, year-month-day */
    char *who;
    char *unknown;
} Revision;

typedef struct Settings {
    char *name;
    char *number;
    char *revision;
    char *shop;  /* the legal owner's field of the title block */
    char *drawn; /* who drew it */
    char *date;  /* of issue; empty stays empty on the prints */
    char *note;
    char *tolerance; /* general tolerances, as the title block says them; empty: ISO 2768-m */
    char *roughness; /* of machined faces; empty: the usual one */
    char *edges;     /* what edges are left like, by ISO 13715; empty: the usual */
    int unit;        /* PlateUnit */
    int projection;  /* Projection */
    int standard;    /* SheetStandard */
    Stock stock;
    Datum datum;
    Machine machine;
    List limits;    /* ChangedLimit */
    List accepted;  /* AcceptedFinding */
    List revisions; /* Revision, the oldest first */
    char *unknown;
} Settings;

extern const Schema settings_schema;
