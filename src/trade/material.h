/* material.h: materials by grade. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum MaterialGroup {
    MATERIAL_ALUMINIUM,
    MATERIAL_STEEL,
    MATERIAL_STAINLESS,
    MATERIAL_TITANIUM,
    MATERIAL_COPPER,
    MATERIAL_LAMINATE,
    MATERIAL_POLYMER,
} MaterialGroup;

typedef struct Material {
    const char *name; /* "6061-T6", "440C hardened" */
    MaterialGroup group;
    double density;        /* kg/m3 */
    double expansion;      /* um per m and degree C */
    double yield_strength; /* N/mm2 */
    double shear_strength; /* N/mm2, ultimate */
    double modulus;        /* kN/mm2 */
    double cutting_force;  /* N/mm2 for a chip 1 mm thick */
    double chip_exponent;  /* the force goes with thickness to the minus this */
    const char *source;
} Material;

size_t material_count(void);
const Material *material_at(size_t index);

/* Finds a row by "6061-T6", "440C hardened"; capitals and blanks don't matter. NULL with an error
 * that names the nearest ones when there is none. */
const Material *material_find(const char *name, Error *error);
