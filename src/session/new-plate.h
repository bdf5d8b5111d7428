/* new-plate.h: a new plate from a maker's few answers: stock, base with its keep-clears, datum. */
#pragma once

#include "plate/plate.h"

typedef enum NewBase {
    NEW_BASE_NONE,
    NEW_BASE_PINS, /* a round and a relieved pin, and pull-downs at the corners */
    NEW_BASE_KEPT  /* one that another plate carries */
} NewBase;

/* Places are from the stock's front left corner. */
typedef struct NewPlate {
    const char *name, *shop, *material; /* NULL or empty: none */
    Length length, width, thickness;
    int unit, projection, metal; /* PlateUnit, Projection, MetalKind */
    int limits;                  /* LimitPreset */

    int base;              /* NewBase */
    const char *base_name; /* of NEW_BASE_PINS */
    Place round_pin, relieved_pin;
    Length round_diameter, relieved_diameter, pin_depth;
    int pull_downs; /* 0, 2 (front left and back right) or 4 */
    Length pull_down_inset, pull_down_diameter;
    /* Kept clear round each pull-down, right through the plate and up to the height over its top,
     * 0 being however high; no diameter: nothing is kept clear. */
    Length clear_diameter, clear_height;
    const char *clear_name;
    const Plate *kept; /* of NEW_BASE_KEPT: its first base, and its keep-clears on the top */

    Datum datum;
} NewPlate;

/* The plate, or NULL with an error whose place is the field that can't be: "stock", "base" or
 * "datum". Free with plate_free. */
Plate *new_plate_make(const NewPlate *answers, Error *error);

/* The number of the plate's first base; ID_NONE where it has none. */
FeatureId plate_first_base(const Plate *plate);
