#include "cases.h"

#include "drawing/shape-path.h"

#include <glib.h>

/* The drawn border of a grown outline is walked and each of its points measured by
 * outline_distance, which knows nothing of how it was drawn. */

static Drawing *drawing;

static int start(void **state)
{
    Lettering *lettering = lettering_new(NULL);
    if (!lettering)
        return -1;
    drawing = drawing_new(lettering);
    lettering_unref(lettering);
    return 0;
}

static int end(void **state)
{
    drawing_free(drawing);
    return 0;
}

static Point on_side(Vertex a, Point b, double share)
{
    if (a.sagitta == 0)
        return (Point){a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
    double radius;
    Point centre = arc_centre(a, b, &radius);
    double from = atan2(a.y - centre.y, a.x - centre.x);
    double to = atan2(b.y - centre.y, b.x - centre.x);
    double sweep = to - from;
    if (a.sagitta > 0 && sweep < 0)
        sweep += 2 * G_PI;
    if (a.sagitta < 0 && sweep > 0)
        sweep -= 2 * G_PI;
    return (Point){centre.x + radius * cos(from + sweep * share),
                   centre.y + radius * sin(from + sweep * share)};
}

/* The greatest difference between the growth and what is measured. */
static double worst(const Outline *outline, Pose pose, double growth)
{
    Shape shape = shape_outline(outline, pose, growth);
    ViewMap map = {{0, 0}, 1};
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 100, 100, "");
    shape_path_draw(drawing, LINE_VISIBLE, &shape, map);
    Pose back = pose_inverse(pose);
    double off = 0;
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        for (size_t i = 0; i < mark->count; i++) {
            const Vertex *next = &v[(i + 1) % mark->count];
            for (int k = 0; k < 20; k++) {
                Point p = on_side(v[i], (Point){next->x, next->y}, k / 20.0);
                double distance = outline_distance(outline, pose_point(back, p), NULL);
                off = fmax(off, fabs(distance - growth));
            }
        }
    }
    return off;
}

static const Vertex blade[] = {{0, 0, 0},        {52, 0, 2.2}, {76, 8.5, -0.6}, {58, 17, 0},
                               {22, 15.5, -0.8}, {14, 14, 0},  {0, 14, 1.5}};

static void test_blade(void **state)
{
    size_t starts[] = {0, 7};
    Outline *outline = outline_new(blade, starts, 1, NULL);
    assert_non_null(outline);
    static const double growths[] = {0, 0.05, 0.5, 1.5, 4};
    for (size_t i = 0; i < G_N_ELEMENTS(growths); i++) {
        assert_true(worst(outline, POSE_IDENTITY, growths[i]) < 1e-9);
        Pose pose = pose_from_model(30 * LENGTH_MM, -7 * LENGTH_MM, 33 * ANGLE_DEGREE, true);
        assert_true(worst(outline, pose, growths[i]) < 1e-9);
    }
    outline_unref(outline);
}

/* Inner corners, an inner arc that the growth eats whole, and an opening. */
static void test_corners_and_openings(void **state)
{
    const Vertex rings[] = {{0, 0, 0},   {40, 0, 0},  {40, 30, 0}, {25, 30, 0}, {25, 12, -0.5},
                            {23, 10, 0}, {15, 10, 0}, {15, 30, 0}, {0, 30, 0},  {5, 3, 0},
                            {12, 3, 0},  {12, 8, 0},  {5, 8, 0}};
    size_t starts[] = {0, 9, 13};
    Outline *outline = outline_new(rings, starts, 2, NULL);
    assert_non_null(outline);
    assert_true(worst(outline, POSE_IDENTITY, 0.3) < 1e-9);
    assert_true(worst(outline, POSE_IDENTITY, 1.2) < 1e-9);
    outline_unref(outline);
}

static void check_border(const Shape *shape)
{
    ViewMap map = {{0, 0}, 1};
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 100, 100, "");
    shape_path_draw(drawing, LINE_VISIBLE, shape, map);
    assert_int_equal(drawing->mark_count, 1);
    Box box = shape_box(shape);
    Box drawn = drawing->marks[0].box;
    assert_true(fabs(box.x0 - drawn.x0) < 1e-9 && fabs(box.y0 - drawn.y0) < 1e-9);
    assert_true(fabs(box.x1 - drawn.x1) < 1e-9 && fabs(box.y1 - drawn.y1) < 1e-9);
}

static void test_plain_shapes(void **state)
{
    Pose turned = pose_from_model(10 * LENGTH_MM, 5 * LENGTH_MM, 30 * ANGLE_DEGREE, false);
    Shape shapes[] = {
        shape_circle((Point){3, 4}, 5),     shape_obround((Point){0, 0}, (Point){10, 7}, 4),
        shape_rectangle(turned, 30, 12, 0), shape_rectangle(turned, 30, 12, 3),
        shape_rectangle(turned, 30, 12, 6), shape_rectangle(turned, 12, 12, 6)};
    for (size_t i = 0; i < G_N_ELEMENTS(shapes); i++)
        check_border(&shapes[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_blade),
        cmocka_unit_test(test_corners_and_openings),
        cmocka_unit_test(test_plain_shapes),
    };
    return cmocka_run_group_tests(tests, start, end);
}
