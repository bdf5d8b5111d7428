/* scene.c: plates full of features for benchmarks, and GEOS's way of finding what is close. */
#include "scene.h"

#include "flat.h"

#include <stdlib.h>
#include <time.h>

/* A side of the square that one hole or slot gets: 150 mm2. */
#define HOLE_CELL 12.247448713915890
#define BLOCK (3 * HOLE_CELL)

double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* 30 to 200 lines and arcs round a wavy circle, as a part's profile has. */
static Outline *wavy_outline(Random *random, double radius)
{
    Vertex vertices[200];
    for (;;) {
        size_t count = 30 + random_below(random, 171);
        double deep = random_between(random, 0.05, 0.25), turn = random_between(random, 0, 6);
        for (size_t i = 0; i < count; i++) {
            double angle = 2 * M_PI * (double)i / (double)count;
            double r = radius * (1 - deep + deep * sin(3 * angle + turn) * cos(7 * angle));
            vertices[i] = (Vertex){r * cos(angle), r * sin(angle), 0};
            if (random_between(random, 0, 1) < 0.5) {
                double chord = 2 * M_PI * r / (double)count;
                vertices[i].sagitta = chord * random_between(random, -0.1, 0.25);
            }
        }
        Outline *outline = outline_new(vertices, (const size_t[]){0, count}, 1, NULL);
        if (outline) {
            return outline;
        }
    }
}

static Shape random_hole(Random *random, Point at)
{
    double radius = random_between(random, 1.5, 3.5);
    if (random_between(random, 0, 1) >= 0.25) {
        return shape_circle(at, 2 * radius);
    }
    double half = random_between(random, 1.5, 5), angle = random_between(random, 0, M_PI);
    Point along = {half * cos(angle), half * sin(angle)};
    return shape_obround(point_minus(at, along), point_plus(at, along), 2 * radius);
}

static void add_shape(Scene *scene, Shape shape, Outline *outline)
{
    scene->shapes[scene->count] = shape;
    scene->outlines[scene->count] = outline;
    scene->limits[scene->count++] = LIMIT;
}

/* Fills one block: with nine holes and slots, or with one outline that nearly fills it. */
static void fill_block(Scene *scene, Random *random, size_t most, Point corner, bool with_outline)
{
    Point middle = point_plus(corner, (Point){BLOCK / 2, BLOCK / 2});
    if (with_outline) {
        Outline *outline = wavy_outline(random, random_between(random, 15, 19));
        Pose pose = random_pose(random, 1.5);
        pose.x += middle.x;
        pose.y += middle.y;
        add_shape(scene, shape_outline(outline, pose, random_between(random, 0, 0.5)), outline);
        return;
    }
    for (int i = 0; i < 9 && scene->count < most; i++) {
        Point at = {corner.x + (i % 3 + 0.5) * HOLE_CELL, corner.y + (i / 3 + 0.5) * HOLE_CELL};
        at.x += random_between(random, -3, 3);
        at.y += random_between(random, -3, 3);
        add_shape(scene, random_hole(random, at), NULL);
    }
}

/* Numbers have nothing to do with places. */
static void shuffle(Scene *scene, Random *random)
{
    for (size_t i = scene->count; i > 1; i--) {
        size_t j = random_below(random, i);
        Shape shape = scene->shapes[i - 1];
        scene->shapes[i - 1] = scene->shapes[j];
        scene->shapes[j] = shape;
        Outline *outline = scene->outlines[i - 1];
        scene->outlines[i - 1] = scene->outlines[j];
        scene->outlines[j] = outline;
    }
}

/* A grown outline as a polygon: with its growth left off, which is taken from the limit instead. */
static GEOSGeometry *flatten(const Shape *shape)
{
    return flat_shape(shape, CHORD_ERROR);
}

Scene *scene_new(SceneKind kind, size_t count, uint64_t seed)
{
    Scene *scene = calloc(1, sizeof *scene);
    scene->shapes = calloc(count, sizeof *scene->shapes);
    scene->limits = calloc(count, sizeof *scene->limits);
    scene->outlines = calloc(count, sizeof *scene->outlines);
    scene->flat = calloc(count, sizeof *scene->flat);
    Random random = {seed};
    double per_block = kind == SCENE_MIXED ? 19 / 3.0 : kind == SCENE_OUTLINES ? 1 : 9;
    size_t blocks = (size_t)ceil(sqrt((double)count / per_block));
    scene->side = (double)blocks * BLOCK;
    for (size_t i = 0; scene->count < count; i++) {
        Point corner = {(double)(i % blocks) * BLOCK, (double)(i / blocks) * BLOCK};
        bool with_outline = kind == SCENE_OUTLINES ||
                            (kind == SCENE_MIXED && random_between(&random, 0, 1) < 1 / 3.0);
        if (kind == SCENE_HOLES) {
            Point at = {random_between(&random, 0, scene->side),
                        random_between(&random, 0, scene->side)};
            add_shape(scene, random_hole(&random, at), NULL);
        } else {
            fill_block(scene, &random, count, corner, with_outline);
        }
    }
    shuffle(scene, &random);
    for (size_t i = 0; i < count; i++) {
        scene->flat[i] = flatten(&scene->shapes[i]);
    }
    return scene;
}

void scene_free(Scene *scene)
{
    for (size_t i = 0; i < scene->count; i++) {
        outline_unref(scene->outlines[i]);
        GEOSGeom_destroy(scene->flat[i]);
    }
    free(scene->shapes);
    free(scene->limits);
    free(scene->outlines);
    free(scene->flat);
    free(scene);
}

Shape scene_moved(const Scene *scene, size_t which, size_t step)
{
    Shape shape = scene->shapes[which];
    shape.pose.x += 4 * sin((double)step);
    shape.pose.y += 4 * cos(1.7 * (double)step);
    return shape;
}

struct GeosScene {
    const Scene *scene;
    GEOSSTRtree *tree;
    const GEOSPreparedGeometry **prepared;
    size_t *numbers;
};

GeosScene *geos_scene_new(const Scene *scene)
{
    GeosScene *geos = calloc(1, sizeof *geos);
    geos->scene = scene;
    geos->tree = GEOSSTRtree_create(10);
    geos->prepared = calloc(scene->count, sizeof *geos->prepared);
    geos->numbers = calloc(scene->count, sizeof *geos->numbers);
    for (size_t i = 0; i < scene->count; i++) {
        geos->numbers[i] = i;
        geos->prepared[i] = GEOSPrepare(scene->flat[i]);
        GEOSSTRtree_insert(geos->tree, scene->flat[i], &geos->numbers[i]);
    }
    return geos;
}

void geos_scene_free(GeosScene *geos)
{
    for (size_t i = 0; i < geos->scene->count; i++) {
        GEOSPreparedGeom_destroy(geos->prepared[i]);
    }
    GEOSSTRtree_destroy(geos->tree);
    free(geos->prepared);
    free(geos->numbers);
    free(geos);
}

typedef struct Query {
    const Scene *scene;
    const GEOSPreparedGeometry *prepared;
    double growth;
    size_t which;
    bool all; /* also what has a smaller number */
    size_t found;
} Query;

static double growth_left_off(const Shape *shape)
{
    return shape->core == CORE_OUTLINE ? shape->growth : 0;
}

static void look_at(void *item, void *data)
{
    Query *query = data;
    size_t other = *(const size_t *)item;
    if (other == query->which || (other < query->which && !query->all)) {
        return;
    }
    double distance;
    GEOSPreparedDistance(query->prepared, query->scene->flat[other], &distance);
    double growths = query->growth + growth_left_off(&query->scene->shapes[other]);
    query->found += distance - growths <= LIMIT;
}

static void search(GeosScene *geos, const GEOSGeometry *flat, Query *query)
{
    double x0, y0, x1, y1, by = LIMIT + query->growth + 0.5;
    GEOSGeom_getXMin(flat, &x0);
    GEOSGeom_getYMin(flat, &y0);
    GEOSGeom_getXMax(flat, &x1);
    GEOSGeom_getYMax(flat, &y1);
    GEOSGeometry *box = GEOSGeom_createRectangle(x0 - by, y0 - by, x1 + by, y1 + by);
    GEOSSTRtree_query(geos->tree, box, look_at, query);
    GEOSGeom_destroy(box);
}

size_t geos_close_pairs(GeosScene *geos)
{
    size_t found = 0;
    for (size_t i = 0; i < geos->scene->count; i++) {
        Query query = {
            geos->scene, geos->prepared[i], growth_left_off(&geos->scene->shapes[i]), i, false, 0};
        search(geos, geos->scene->flat[i], &query);
        found += query.found;
    }
    return found;
}

size_t geos_close_to(GeosScene *geos, size_t which, const GEOSGeometry *moved)
{
    const GEOSPreparedGeometry *prepared = GEOSPrepare(moved);
    Query query = {geos->scene, prepared, growth_left_off(&geos->scene->shapes[which]),
                   which,       true,     0};
    search(geos, moved, &query);
    GEOSPreparedGeom_destroy(prepared);
    return query.found;
}
