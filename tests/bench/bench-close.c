/* Everything close on a plate, and what is close to one moved feature: ours and GEOS's time in the
 * same run. Usage: bench-close holes|spread|mixed|outlines [greatest number] */
#include "geometry/index.h"
#include "geometry/pairs.h"

#include "flat.h"
#include "scene.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Several small plates, so that neither side has all of one in its caches and its guesses. */
typedef struct Plates {
    size_t count;
    Scene *scenes[100];
} Plates;

#define FEATURES_LEAST 20000
#define OUTLINES_LEAST 2000

static Plates plates_new(SceneKind kind, size_t features)
{
    size_t least = kind == SCENE_OUTLINES ? OUTLINES_LEAST : FEATURES_LEAST;
    Plates plates = {.count = least / features};
    plates.count = plates.count < 1 ? 1 : plates.count > 100 ? 100 : plates.count;
    for (size_t i = 0; i < plates.count; i++) {
        plates.scenes[i] = scene_new(kind, features, features * 1000 + i);
    }
    return plates;
}

static void plates_free(Plates *plates)
{
    for (size_t i = 0; i < plates->count; i++) {
        scene_free(plates->scenes[i]);
    }
}

/* Seconds for all plates and the pairs found on them. */
typedef struct Timing {
    double seconds;
    size_t found;
} Timing;

static Timing time_pairs(const Plates *plates)
{
    Timing best = {INFINITY, 0};
    for (int round = 0; round < 5; round++) {
        Timing timing = {0, 0};
        for (size_t i = 0; i < plates->count; i++) {
            const Scene *scene = plates->scenes[i];
            Pairs pairs;
            double start = seconds_now();
            if (!pairs_find(scene->shapes, scene->count, scene->limits, NULL, NULL, &pairs)) {
                abort();
            }
            timing.seconds += seconds_now() - start;
            timing.found += pairs.count;
            pairs_free(&pairs);
        }
        best = timing.seconds < best.seconds ? timing : best;
    }
    return best;
}

static Timing time_geos_pairs(const Plates *plates)
{
    Timing best = {INFINITY, 0};
    for (int round = 0; round < 2; round++) {
        Timing timing = {0, 0};
        for (size_t i = 0; i < plates->count; i++) {
            double start = seconds_now();
            GeosScene *geos = geos_scene_new(plates->scenes[i]);
            timing.found += geos_close_pairs(geos);
            timing.seconds += seconds_now() - start;
            geos_scene_free(geos);
        }
        best = timing.seconds < best.seconds ? timing : best;
    }
    return best;
}

/* One feature is dragged for a while, then another. */
#define MOVES 2000
#define MOVES_OF_ONE 100

static size_t which_moves(const Scene *scene, size_t move)
{
    return (move / MOVES_OF_ONE * 7919) % scene->count;
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
    Gap gap;
    if (key != move->which) {
        move->found += shape_gap_within(&move->moved, &move->scene->shapes[key], LIMIT, &gap);
    }
    return true;
}

/* The box put in anew for each move, and the gap to all that is near. */
static Timing time_moves(const Scene *scene)
{
    Index *index = index_new();
    for (size_t i = 0; i < scene->count; i++) {
        index_put(index, (uint32_t)i, shape_loose_box(&scene->shapes[i]));
    }
    Timing best = {INFINITY, 0};
    for (int round = 0; round < 5; round++) {
        Timing timing = {0, 0};
        double start = seconds_now();
        for (size_t i = 0; i < MOVES; i++) {
            uint32_t which = (uint32_t)which_moves(scene, i);
            Move move = {.scene = scene, .which = which, .moved = scene_moved(scene, which, i)};
            Box box = shape_loose_box(&move.moved);
            index_put(index, which, box);
            index_each_near(index, box_grown(box, LIMIT), measure, &move);
            timing.found += move.found;
            if (i % MOVES_OF_ONE == MOVES_OF_ONE - 1) {
                index_put(index, which, shape_loose_box(&scene->shapes[which]));
            }
        }
        timing.seconds = seconds_now() - start;
        best = timing.seconds < best.seconds ? timing : best;
    }
    index_free(index);
    return best;
}

static Timing time_geos_moves(const Scene *scene)
{
    GeosScene *geos = geos_scene_new(scene);
    geos_close_to(geos, 0, scene->flat[0]); /* builds the tree */
    Timing timing = {0, 0};
    for (size_t i = 0; i < MOVES; i++) {
        size_t which = which_moves(scene, i);
        Shape moved = scene_moved(scene, which, i);
        GEOSGeometry *flat = flat_shape(&moved, CHORD_ERROR);
        double start = seconds_now();
        timing.found += geos_close_to(geos, which, flat);
        timing.seconds += seconds_now() - start;
        GEOSGeom_destroy(flat);
    }
    geos_scene_free(geos);
    return timing;
}

/* Prints a line, returns the time of all pairs over n log n. */
static double run(SceneKind kind, size_t features, double before)
{
    Plates plates = plates_new(kind, features);
    Timing ours = time_pairs(&plates), theirs = time_geos_pairs(&plates);
    Timing move = time_moves(plates.scenes[0]), geos_move = time_geos_moves(plates.scenes[0]);
    double all = (double)(features * plates.count);
    double each = ours.seconds / (all * log((double)features));
    printf("%8zu %9zu %9zu %6.0f | %7zu %7zu %6.0f | %6.2f\n", features, ours.found, theirs.found,
           theirs.seconds / ours.seconds, move.found, geos_move.found,
           geos_move.seconds / move.seconds, before > 0 ? each / before : 1);
    if (getenv("BENCH_TIMES")) {
        printf("         %.4g and %.4g us a feature, %.4g and %.4g us a move\n",
               ours.seconds / all * 1e6, theirs.seconds / all * 1e6, move.seconds / MOVES * 1e6,
               geos_move.seconds / MOVES * 1e6);
    }
    fflush(stdout);
    plates_free(&plates);
    return each;
}

static void be_quiet(const char *format, ...)
{
}

int main(int argc, char **argv)
{
    static const char *const names[] = {"holes", "spread", "mixed", "outlines"};
    int kind = 0;
    while (argc > 1 && kind < 3 && strcmp(argv[1], names[kind]) != 0) {
        kind++;
    }
    size_t most = argc > 2 ? strtoul(argv[2], NULL, 10) : 100000;
    initGEOS(be_quiet, be_quiet);
    printf("%s: GEOS's time over ours for all close pairs, and for one moved feature; and how our "
           "time over n log n has grown\n",
           names[kind]);
    printf("features     pairs   by GEOS  ratio |   moved by GEOS  ratio | growth\n");
    double before = 0;
    for (size_t features = 100; features <= most; features *= 10) {
        before = run((SceneKind)kind, features, before);
    }
    finishGEOS();
    return 0;
}
