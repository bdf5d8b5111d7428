/* All close pairs against trying every pair. */
#include "flat.h"
#include "geometry/pairs.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define SHAPES 500

typedef struct Scene {
    Shape shapes[SHAPES];
    double limits[SHAPES];
    Outline *outlines[SHAPES];
} Scene;

static Scene *make_scene(Random *random, double spread, double size, double spare)
{
    Scene *scene = calloc(1, sizeof *scene);
    assert_non_null(scene);
    const OutlineKind kind = {3, 12, size / 2, size, 0.5, 0.5, 0.3};
    for (size_t i = 0; i < SHAPES; i++) {
        ShapeCore core = (ShapeCore)random_below(random, 4);
        scene->outlines[i] = core == CORE_OUTLINE ? random_outline(random, kind) : NULL;
        scene->shapes[i] = random_shape(random, core, scene->outlines[i], size / 2);
        double factor = pow(10, random_between(random, -spare, 0)) * size / 10;
        scene->shapes[i].half_length *= factor;
        scene->shapes[i].half_width *= factor;
        scene->shapes[i].pose = random_pose(random, spread);
        scene->limits[i] = random_between(random, 0, 1) < 0.2 ? 0 : random_between(random, 0, 5);
    }
    return scene;
}

static void free_scene(Scene *scene)
{
    for (size_t i = 0; i < SHAPES; i++) {
        outline_unref(scene->outlines[i]);
    }
    free(scene);
}

static double half_limit(uint32_t a, uint32_t b, void *data)
{
    const double *limits = data;
    assert_true(a < b);
    return fmin(limits[a], limits[b]) / 2;
}

static void check_scene(Scene *scene, PairLimit limit)
{
    Pairs pairs;
    assert_true(pairs_find(scene->shapes, SHAPES, scene->limits, limit, scene->limits, &pairs));
    size_t at = 0;
    for (uint32_t i = 0; i < SHAPES; i++) {
        for (uint32_t j = i + 1; j < SHAPES; j++) {
            Gap gap;
            shape_gap(&scene->shapes[i], &scene->shapes[j], &gap);
            double most =
                limit ? limit(i, j, scene->limits) : fmax(scene->limits[i], scene->limits[j]);
            if (gap.distance > most) {
                continue;
            }
            assert_true(at < pairs.count);
            if (pairs.all[at].a != i || pairs.all[at].b != j ||
                fabs(pairs.all[at].distance - gap.distance) > 1e-12) {
                fail_msg("pair %u, %u at %.17g is missing or is %u, %u at %.17g", i, j,
                         gap.distance, pairs.all[at].a, pairs.all[at].b, pairs.all[at].distance);
            }
            at++;
        }
    }
    assert_int_equal(at, pairs.count);
    pairs_free(&pairs);
}

static void test_pairs_of_one_size(void **state)
{
    Random random = {5};
    for (int i = 0; i < 10; i++) {
        Scene *scene = make_scene(&random, 120, 8, 0.3);
        check_scene(scene, NULL);
        check_scene(scene, half_limit);
        free_scene(scene);
    }
}

static void test_pairs_of_many_sizes(void **state)
{
    Random random = {6};
    for (int i = 0; i < 10; i++) {
        Scene *scene = make_scene(&random, 200, 60, 4);
        check_scene(scene, NULL);
        check_scene(scene, half_limit);
        free_scene(scene);
    }
}

static void test_pairs_few_and_far(void **state)
{
    Random random = {7};
    Scene *scene = make_scene(&random, 9000, 4, 2);
    for (size_t i = 0; i < SHAPES; i += 2) {
        scene->shapes[i].pose = random_pose(&random, 20);
    }
    check_scene(scene, NULL);
    free_scene(scene);
}

static void test_pairs_in_one_place(void **state)
{
    Random random = {8};
    Scene *scene = make_scene(&random, 0, 8, 1);
    check_scene(scene, NULL);
    free_scene(scene);
}

static void test_no_shapes(void **state)
{
    Pairs pairs;
    assert_true(pairs_find(NULL, 0, NULL, NULL, NULL, &pairs));
    assert_int_equal(pairs.count, 0);
    pairs_free(&pairs);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pairs_of_one_size), cmocka_unit_test(test_pairs_of_many_sizes),
        cmocka_unit_test(test_pairs_few_and_far), cmocka_unit_test(test_pairs_in_one_place),
        cmocka_unit_test(test_no_shapes),
    };
    return cmocka_run_group_tests_name("pairs", tests, NULL, NULL);
}
