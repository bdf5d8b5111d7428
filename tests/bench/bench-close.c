/* Everything close on a plate, and what is close to one moved feature: ours and GEOS's time in the
 * same run. Usage: bench-close holes|mixed|outlines [greatest number] */
#include "geometry/index.h"
#include "geometry/pairs.h"

#include "flat.h"
#include "scene.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The best of several runs, for what takes no time; at least three. */
static double time_pairs(const Scene *scene, size_t *found)
{
    double best = INFINITY, spent = 0;
    for (int i = 0; i < 3 || spent < 0.3; i++) {
        Pairs pairs;
        double start = seconds_now();
        if (!pairs_find(scene->shapes, scene->count, scene->limits, NULL, NULL, &pairs)) {
            abort();
        }
        double took = seconds_now() - start;
        *found = pairs.count;
        pairs_free(&pairs);
        best = fmin(best, took);
        spent += took;
    }
    return best;
}

static double time_geos_pairs(const Scene *scene, size_t *found)
{
    double best = INFINITY, spent = 0;
    for (int i = 0; i < 1 || spent < 0.3; i++) {
        double start = seconds_now();
        GeosScene *geos = geos_scene_new(scene);
        *found = geos_close_pairs(geos);
        double took = seconds_now() - start;
        geos_scene_free(geos);
        best = fmin(best, took);
        spent += took;
    }
    return best;
}

typedef struct Move {
    const Scene *scene;
    Shape moved;
    uint32_t which;
    size_t found;
} Move;

static bool measure(uint32_t key, void *data)
{
    Move *move = data;
    if (key != move->which) {
        Gap gap;
        move->found += shape_gap_within(&move->moved, &move->scene->shapes[key], LIMIT, &gap);
    }
    return true;
}

#define MOVES 2000

/* Time for each move: the box put in anew, and the gap to all that is near. */
static double time_moves(const Scene *scene, size_t *found)
{
    Index *index = index_new();
    for (size_t i = 0; i < scene->count; i++) {
        index_put(index, (uint32_t)i, shape_box(&scene->shapes[i]));
    }
    double best = INFINITY;
    for (int round = 0; round < 5; round++) {
        *found = 0;
        double start = seconds_now();
        for (size_t i = 0; i < MOVES; i++) {
            /* One feature is dragged for a while, then another. */
            uint32_t which = (uint32_t)((i / 100 * 7919) % scene->count);
            Move move = {.scene = scene, .which = which, .moved = scene_moved(scene, which, i)};
            Box box = shape_box(&move.moved);
            index_put(index, which, box);
            index_each_near(index, box_grown(box, LIMIT), measure, &move);
            *found += move.found;
            if (i % 100 == 99) {
                index_put(index, which, shape_box(&scene->shapes[which]));
            }
        }
        best = fmin(best, seconds_now() - start);
    }
    index_free(index);
    return best / MOVES;
}

static double time_geos_moves(const Scene *scene, size_t *found)
{
    GeosScene *geos = geos_scene_new(scene);
    geos_close_to(geos, 0, scene->flat[0]); /* builds the tree */
    *found = 0;
    double spent = 0;
    for (size_t i = 0; i < MOVES; i++) {
        size_t which = (i / 100 * 7919) % scene->count;
        Shape moved = scene_moved(scene, which, i);
        GEOSGeometry *flat = flat_shape(&moved, CHORD_ERROR);
        double start = seconds_now();
        *found += geos_close_to(geos, which, flat);
        spent += seconds_now() - start;
        GEOSGeom_destroy(flat);
    }
    geos_scene_free(geos);
    return spent / MOVES;
}

static void be_quiet(const char *format, ...)
{
}

int main(int argc, char **argv)
{
    const char *name = argc > 1 ? argv[1] : "holes";
    size_t most = argc > 2 ? strtoul(argv[2], NULL, 10) : 100000;
    SceneKind kind = strcmp(name, "mixed") == 0      ? SCENE_MIXED
                     : strcmp(name, "outlines") == 0 ? SCENE_OUTLINES
                                                     : SCENE_HOLES;
    initGEOS(be_quiet, be_quiet);
    printf("%s: GEOS's time over ours, all close pairs and one moved feature\n", name);
    printf("%8s %10s %10s %8s | %8s %8s %8s | %9s\n", "features", "pairs", "of GEOS", "ratio",
           "moves", "of GEOS", "ratio", "growth");
    double before = 0;
    for (size_t count = 100; count <= most; count *= 10) {
        Scene *scene = scene_new(kind, count);
        size_t pairs, geos_pairs, moves, geos_moves;
        double ours = time_pairs(scene, &pairs), theirs = time_geos_pairs(scene, &geos_pairs);
        double move = time_moves(scene, &moves);
        double geos_move = time_geos_moves(scene, &geos_moves);
        /* Time over n log n, against the same with a tenth of the features. */
        double each = ours / ((double)count * log((double)count));
        printf("%8zu %10zu %10zu %8.0f | %8zu %8zu %8.0f | %9.2f\n", count, pairs, geos_pairs,
               theirs / ours, moves, geos_moves, geos_move / move, before > 0 ? each / before : 1);
        if (getenv("BENCH_TIMES")) {
            printf("         ours %.4g us, GEOS %.4g us a feature; move %.4g and %.4g us\n",
                   ours / (double)count * 1e6, theirs / (double)count * 1e6, move * 1e6,
                   geos_move * 1e6);
        }
        fflush(stdout);
        before = each;
        scene_free(scene);
    }
    finishGEOS();
    return 0;
}
