/* What never allocates doesn't, and what does says so when there is no memory.
 *
 * The linker sends each call of malloc, calloc, realloc and aligned_alloc from our own objects
 * here.
 */
#include "flat.h"
#include "geometry/index.h"
#include "geometry/pairs.h"
#include "geometry/region.h"
#include "geometry/section.h"
#include "geometry/solid.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__real_aligned_alloc(size_t to, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);
void *__wrap_aligned_alloc(size_t to, size_t size);

static size_t calls;
static size_t fails_at = SIZE_MAX; /* the number of the call that gets nothing */

static bool gets_nothing(void)
{
    return ++calls == fails_at;
}

/* What memory that was used before holds: pairs of this shape with ones that there are not. */
static uint32_t left_behind;

static void *leave_behind(void *block, size_t size)
{
    Pair pair = {.a = left_behind, .b = UINT32_MAX};
    for (size_t at = 0; block && left_behind && at + sizeof pair <= size; at += sizeof pair) {
        memcpy((char *)block + at, &pair, sizeof pair);
    }
    return block;
}

void *__wrap_malloc(size_t size)
{
    return gets_nothing() ? NULL : leave_behind(__real_malloc(size), size);
}

void *__wrap_calloc(size_t count, size_t size)
{
    return gets_nothing() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size)
{
    return gets_nothing() ? NULL : __real_realloc(old, size);
}

void *__wrap_aligned_alloc(size_t to, size_t size)
{
    return gets_nothing() ? NULL : __real_aligned_alloc(to, size);
}

/* A few shapes of each kind. */
#define SHAPES 24

typedef struct Scene {
    Shape shapes[SHAPES];
    double limits[SHAPES];
    Outline *outlines[SHAPES];
} Scene;

static int make_scene(void **state)
{
    Random random = {21};
    const OutlineKind kind = {5, 40, 5, 12, 0.5, 0.5, 0.5};
    Scene *scene = calloc(1, sizeof *scene);
    for (size_t i = 0; i < SHAPES; i++) {
        ShapeCore core = (ShapeCore)(i % 4);
        scene->outlines[i] = core == CORE_OUTLINE ? random_outline(&random, kind) : NULL;
        scene->shapes[i] = random_shape(&random, core, scene->outlines[i], 3);
        scene->shapes[i].pose = random_pose(&random, 20);
        scene->shapes[i].growth += 0.1;
        scene->limits[i] = 5;
    }
    *state = scene;
    return 0;
}

static int free_scene(void **state)
{
    Scene *scene = *state;
    for (size_t i = 0; i < SHAPES; i++) {
        outline_unref(scene->outlines[i]);
    }
    free(scene);
    return 0;
}

static bool count_key(uint32_t key, void *data)
{
    *(size_t *)data += key;
    return true;
}

static void test_measuring_never_allocates(void **state)
{
    const Scene *scene = *state;
    Index *index = index_new();
    for (uint32_t i = 0; i < SHAPES; i++) {
        assert_true(index_put(index, i, shape_box(&scene->shapes[i])));
    }
    calls = 0;
    size_t found = 0;
    for (uint32_t i = 0; i < SHAPES; i++) {
        const Shape *a = &scene->shapes[i];
        Point from = {-30, i}, to = {30, -(double)i}, places[4];
        Stretch stretches[4];
        found += shape_contains(a, from);
        found += shape_section(a, from, to, stretches, 4);
        for (uint32_t j = 0; j < SHAPES; j++) {
            const Shape *b = &scene->shapes[j];
            Gap gap;
            shape_gap(a, b, &gap);
            shape_gap_within(a, b, 1, &gap);
            shape_room(a, b, &gap);
            found += shape_crossings(a, b, places, 4);
            Solid upright = solid_of_shape(a, &PLACEMENT_IDENTITY, -5, 0);
            Solid leaning = solid_of_shape(
                b, &(Placement){{0, 0, 3}, {1, 0, 0}, {0, 0.8, 0.6}, {0, -0.6, 0.8}}, -5, 0);
            SolidGap solid;
            found += solid_gap_within(&upright, &leaning, 1, &solid);
            /* A box of any size, anywhere, under a key that is there. */
            index_put(index, j, box_grown(shape_loose_box(a), j * 10.0));
            index_each_near(index, shape_box(b), count_key, &found);
        }
    }
    index_remove(index, 3);
    assert_int_equal(calls, 0);
    assert_true(found > 0);
    index_free(index);
}

static bool try_outline(const Scene *scene, Error *error)
{
    const Outline *old = scene->outlines[3];
    size_t count;
    const Vertex *v = outline_ring(old, 0, &count);
    Outline *outline = outline_new(v, (const size_t[]){0, count}, 1, error);
    outline_unref(outline);
    return outline;
}

static bool try_posed(const Scene *scene, Error *error)
{
    Outline *outline = outline_posed(scene->outlines[3], scene->shapes[1].pose, error);
    outline_unref(outline);
    return outline;
}

static bool try_grown(const Scene *scene, Error *error)
{
    Outline *outline = shape_to_outline(&scene->shapes[3], error);
    outline_unref(outline);
    return outline;
}

static bool try_region(const Scene *scene, Error *error)
{
    Region *a = region_from_shape(&scene->shapes[2], 0.01, error);
    Region *b = a ? region_from_shape(&scene->shapes[3], 0.01, error) : NULL;
    Region *both = b ? region_union(a, b, error) : NULL;
    Region *grown = both ? region_offset(both, 1, 0.01, error) : NULL;
    region_free(a);
    region_free(b);
    region_free(both);
    region_free(grown);
    return grown;
}

static bool try_pairs(const Scene *scene, Error *error)
{
    Pairs pairs;
    bool good = pairs_find(scene->shapes, SHAPES, scene->limits, NULL, NULL, &pairs);
    pairs_free(&pairs);
    return good || error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for pairs");
}

static bool try_index(const Scene *scene, Error *error)
{
    Index *index = index_new();
    bool good = index;
    for (uint32_t i = 0; good && i < 500; i++) {
        good = index_put(index, i, box_grown(shape_box(&scene->shapes[i % SHAPES]), i));
        /* What could not be put in is not there, all else still is. */
        assert_int_equal(index_count(index), i + (good ? 1 : 0));
    }
    index_free(index);
    return good || error_set(error, ERROR_INTERNAL, NULL, "there is no memory left for an index");
}

/* Each of the calls for memory fails once; a leak is found by the sanitizer. */
static void fail_each(const Scene *scene, bool (*attempt)(const Scene *scene, Error *error))
{
    calls = 0;
    Error error;
    assert_true(attempt(scene, &error));
    size_t all = calls;
    assert_true(all > 0);
    size_t refused = 0;
    for (size_t i = 1; i <= all; i++) {
        calls = 0;
        fails_at = i;
        memset(&error, 0, sizeof error);
        bool good = attempt(scene, &error);
        fails_at = SIZE_MAX;
        /* A table that can't grow may only make it slower. */
        if (!good) {
            assert_int_equal(error.kind, ERROR_INTERNAL);
            assert_non_null(strstr(error.message, "memory"));
            refused++;
        }
    }
    assert_true(refused > 0);
}

static void test_each_allocation_fails_once(void **state)
{
    const Scene *scene = *state;
    fail_each(scene, try_outline);
    fail_each(scene, try_posed);
    fail_each(scene, try_grown);
    fail_each(scene, try_region);
    fail_each(scene, try_pairs);
    fail_each(scene, try_index);
}

/* What memory held before makes no difference. */
static void test_used_memory_is_as_good(void **state)
{
    const Scene *scene = *state;
    Pairs clean, used;
    assert_true(pairs_find(scene->shapes, SHAPES, scene->limits, NULL, NULL, &clean));
    assert_true(clean.count > SHAPES);
    for (uint32_t i = 1; i < SHAPES; i++) {
        left_behind = i;
        bool good = pairs_find(scene->shapes, SHAPES, scene->limits, NULL, NULL, &used);
        left_behind = 0;
        assert_true(good);
        assert_int_equal(used.count, clean.count);
        for (size_t k = 0; k < used.count; k++) {
            assert_int_equal(used.all[k].a, clean.all[k].a);
            assert_int_equal(used.all[k].b, clean.all[k].b);
        }
        pairs_free(&used);
    }
    pairs_free(&clean);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_measuring_never_allocates),
        cmocka_unit_test(test_each_allocation_fails_once),
        cmocka_unit_test(test_used_memory_is_as_good),
    };
    return cmocka_run_group_tests_name("allocation", tests, make_scene, free_scene);
}
