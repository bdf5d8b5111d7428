/* part.h: what is made on the plate: its outline, holes, thickness, bevel and blank. */
#pragma once

#include "geometry/outline.h"
#include "plate/outline-node.h"
#include "plate/schema.h"

/* The first ring is the outside, the others are openings. */
typedef struct PartRing {
    List nodes; /* OutlineNode */
} PartRing;

/* A round hole of the part. */
typedef struct PartHole {
    char *name;
    Place at;
    Length diameter;
    Length upper, lower;       /* limits of size: added to the diameter */
    Length position_tolerance; /* diameter of the zone that holds the axis; 0: not stated */
    char *unknown;
} PartHole;

/* The ground or milled slope that makes the edge; runs along the line from `from` to `to`. */
typedef struct Bevel {
    Angle angle; /* of each side to the middle plane */
    Length edge_thickness;
    bool both_sides;
    Place from, to;
} Bevel;

/* The stock a part is cut from, a rectangle in the part's own coordinates. */
typedef struct Blank {
    Place at; /* its lower left corner */
    Length length, width, thickness;
} Blank;

typedef struct Part {
    char *name;
    char *number;
    char *material;
    Length thickness;
    Length thickness_tolerance; /* either way */
    int64_t growth;             /* in heat treatment between its holes and this plate: millionths
                                   of a per cent */
    List rings;                 /* PartRing */
    List holes;                 /* PartHole */
    Bevel bevel;                /* no angle: the part has none */
    Blank blank;                /* no length: none given */
    char *unknown;
} Part;

extern const Schema part_schema;

/* The part's outline as geometry. NULL with a named error when the rings make no outline; a part in
 * a plate has been through this once and makes one. Free with outline_unref. */
Outline *part_outline(const Part *part, Error *error);
