/* base.h: what the plate drops onto. Many plates carry the same record; it is embedded in each. */
#pragma once

#include "plate/schema.h"

typedef enum BaseSeatKind {
    BASE_ROUND_PIN,
    BASE_RELIEVED_PIN,
    BASE_BUSH,
    BASE_PULL_DOWN,
    BASE_PRY_SLOT
} BaseSeatKind;

/* One thing of the base that meets the plate's underside, seen from above. */
typedef struct BaseSeat {
    int kind; /* BaseSeatKind */
    Place at;
    Length diameter;
    Length depth; /* into the plate, from its underside */
    char *unknown;
} BaseSeat;

typedef struct Base {
    char *name;
    Length repeatability; /* greatest shift between one seating and the next */
    List seats;           /* BaseSeat */
    char *unknown;
} Base;

extern const Schema base_schema;
