/* scene.h: plates full of features for benchmarks, and GEOS's way of finding what is close.
 *
 * About 150 mm2 of plate for each hole or slot, radii of 1.5 to 3.5 mm, a quarter of them obrounds.
 */
#pragma once

#include "geometry/shape.h"

#include <stddef.h>

#include <geos_c.h>

#define LIMIT 3.0        /* mm */
#define CHORD_ERROR 1e-3 /* mm, of GEOS's polygons */

typedef enum SceneKind {
    SCENE_HOLES,    /* circles and obrounds */
    SCENE_MIXED,    /* one in three blocks of nine of them is an outline instead */
    SCENE_OUTLINES, /* outlines alone */
} SceneKind;

typedef struct Scene {
    size_t count;
    Shape *shapes;
    double *limits;
    Outline **outlines; /* count, NULL for what is none */
    GEOSGeometry **flat;
    double side; /* mm, of the square that is filled */
} Scene;

Scene *scene_new(SceneKind kind, size_t count);
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

double seconds_now(void);
