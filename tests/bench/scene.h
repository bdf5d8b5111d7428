/* scene.h: plates full of features for benchmarks, and GEOS's way of finding what is close.
 *
 * About 150 mm2 of plate for each hole or slot, radii of 1.5 to 3.5 mm, a quarter of them obrounds.
 */
#pragma once

#include "geometry/shape.h"

#include <stddef.h>
#include <stdint.h>

#include <geos_c.h>

#define LIMIT 3.0        /* mm */
#define CHORD_ERROR 1e-3 /* mm, of GEOS's polygons */

typedef enum SceneKind {
    SCENE_HOLES,    /* circles and obrounds anywhere, also over each other */
    SCENE_SPREAD,   /* the same kept about apart, as on a plate */
    SCENE_MIXED,    /* that, with an outline instead of nine of them in one block of three */
    SCENE_OUTLINES, /* outlines alone, close by each other */
} SceneKind;

typedef struct Scene {
    size_t count;
    Shape *shapes;
    double *limits;
    Outline **outlines; /* count, NULL for what is none */
    GEOSGeometry **flat;
    double side; /* mm, of the square that is filled */
} Scene;

/* Another scene for each seed. */
Scene *scene_new(SceneKind kind, size_t count, uint64_t seed);
void scene_free(Scene *scene);

/* The shape moved by some millimetres, another way for each step. */
Shape scene_moved(const Scene *scene, size_t which, size_t step);

typedef struct GeosScene GeosScene;

/* Builds the tree and prepares each polygon. */
GeosScene *geos_scene_new(const Scene *scene);
void geos_scene_free(GeosScene *scene);
/* The number of pairs within the limit. */
size_t geos_close_pairs(GeosScene *scene);
/* The number of features within the limit of a moved one, prepared anew. */
size_t geos_close_to(GeosScene *scene, size_t which, const GEOSGeometry *moved);

/* Of the processor, so that what else runs on the machine counts for little. */
double seconds_now(void);
