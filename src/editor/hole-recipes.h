/* hole-recipes.h: the common holes of a fixture plate, step by step, from the trade's tables. */
#pragma once

#include "geometry/error.h"
#include "plate/hole.h"

typedef enum HoleRecipe {
    RECIPE_TAPPED, /* size: a thread, "1/4-20" */
    RECIPE_REAMED, /* size: a dowel, "1/4" */
    RECIPE_SCREW   /* size: a screw's, "1/4": counterbored for its socket head */
} HoleRecipe;

/* Fills `hole` (not initialized; free with schema_clear) for a plate of `thickness`. False with an
 * error when the tables have no such size. */
bool hole_recipe(HoleRecipe recipe, const char *size, Length thickness, Hole *hole, Error *error);
