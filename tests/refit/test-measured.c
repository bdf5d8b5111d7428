/* Measured plates: which point is which hole, however the table lies; deviations; outliers; a plate
 * made of a table. */
#include "plate/label.h"
#include "plate/plate-file.h"
#include "refit/measured.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define HOLES 60
#define near_to(a, b, within) assert_true(fabs((a) - (b)) <= (within))

typedef struct Bench {
    Plate *plate;
    Placed *placed;
    FeatureId ids[HOLES];
    Point at[HOLES];
    double diameters[HOLES];
    uint32_t seed;
} Bench;

/* Holes of four sizes, none within 3 mm of another's centre. */
static Bench bench_new(uint32_t seed)
{
    Bench bench = {.plate = plate_new(MM(300), MM(200), MM(20), PLATE_MM), .seed = seed};
    for (int i = 0; i < HOLES; i++) {
        bool clear = false;
        while (!clear) {
            bench.at[i] = (Point){floor(random_between(&bench.seed, 10, 290) * 100) / 100,
                                  floor(random_between(&bench.seed, 10, 190) * 100) / 100};
            clear = true;
            for (int k = 0; k < i; k++)
                clear = clear && point_distance(bench.at[i], bench.at[k]) > 3;
        }
        bench.diameters[i] = 3 + floor(random_between(&bench.seed, 0, 4));
        bench.ids[i] = put_hole(bench.plate, bench.at[i].x, bench.at[i].y, bench.diameters[i]);
    }
    label_all(bench.plate);
    bench.placed = placed_new(bench.plate);
    return bench;
}

static void bench_free(Bench *bench)
{
    placed_free(bench->placed);
    plate_free(bench->plate);
}

static Pose random_pose(Bench *bench, bool turned_over)
{
    double angle = random_between(&bench->seed, -M_PI, M_PI);
    return (Pose){random_between(&bench->seed, -500, 500), random_between(&bench->seed, -500, 500),
                  cos(angle), sin(angle), turned_over};
}

/* Measures the holes from first to last as the pose has them, off by up to `noise` each way. */
static void measure(Bench *bench, MeasuredTable *table, Pose pose, int first, int last,
                    double noise)
{
    for (int i = first; i < last; i++) {
        Point at = pose_point(pose, bench->at[i]);
        at.x += random_between(&bench->seed, -noise, noise);
        at.y += random_between(&bench->seed, -noise, noise);
        measured_table_add(table, NULL, (Place){MM(at.x), MM(at.y)},
                           i % 5 ? MM(bench->diameters[i]) : 0, i + 2);
    }
}

static const MeasuredRow *row_at(const Measured *measured, guint i)
{
    return &g_array_index(measured->rows, MeasuredRow, i);
}

static void points_are_matched_wherever_the_table_lies(void **state)
{
    for (uint32_t round = 0; round < 40; round++) {
        Bench bench = bench_new(round * 77 + 1);
        Measured measured;
        MeasuredTable table;
        Error error = {.kind = ERROR_NONE};
        MeasuredOptions options = {.turned_over = round % 2};
        int first = (int)(round % 3) * 10, last = first + 5 + (int)round % 26;
        measured_table_init(&table);
        measure(&bench, &table, random_pose(&bench, round % 2), first, last, 0.02);
        /* A few points that are no holes. */
        for (uint32_t i = 0; i < round % 3; i++)
            measured_table_add(&table, NULL, (Place){MM(9000 + 50.0 * i), MM(9000)}, 0, 99);
        if (!measured_compare(&table, bench.plate, bench.placed, &options, &measured, &error))
            fail_msg("round %u: %s", round, error.message);
        assert_int_equal(measured.matched, last - first);
        for (guint i = 0; i < table.points->len; i++) {
            bool is_hole = i < (guint)(last - first);
            assert_int_equal(row_at(&measured, i)->hole,
                             is_hole ? bench.ids[first + (int)i] : ID_NONE);
            assert_true(!is_hole || point_length(row_at(&measured, i)->squares) < 0.06);
        }
        assert_int_equal(measured.missing->len, HOLES - (last - first));
        assert_int_equal(measured.outliers, 0);
        measured_clear(&measured);
        measured_table_clear(&table);
        bench_free(&bench);
    }
}

/* The deviations are those of the rigid fits to the true pairs, which have a test of their own. */
static void deviations_are_those_of_the_two_fits(void **state)
{
    Bench bench = bench_new(5);
    Measured measured;
    MeasuredTable table;
    Point from[HOLES];
    RigidFit squares, greatest;
    measured_table_init(&table);
    measure(&bench, &table, random_pose(&bench, false), 0, HOLES, 0.03);
    assert_true(measured_compare(&table, bench.plate, bench.placed, NULL, &measured, NULL));
    for (guint i = 0; i < HOLES; i++) {
        Place at = g_array_index(table.points, MeasuredPoint, i).at;
        from[i] = (Point){length_to_mm(at.x), length_to_mm(at.y)};
    }
    rigid_fit_squares(from, bench.at, HOLES, false, &squares);
    rigid_fit_greatest(from, bench.at, NULL, HOLES, false, &greatest, NULL);
    near_to(measured.squares.rms, squares.rms, 1e-9);
    near_to(measured.greatest.greatest, greatest.greatest, 1e-9);
    assert_true(measured.greatest.greatest <= measured.squares.greatest);
    for (guint i = 0; i < HOLES; i++) {
        const MeasuredRow *row = row_at(&measured, i);
        Point off = point_minus(pose_point(squares.pose, from[i]), bench.at[i]);
        near_to(row->squares.x, off.x, 1e-9);
        near_to(row->squares.y, off.y, 1e-9);
        near_to(row->squares_used, 2 * point_length(off) / 0.1, 1e-6);
        assert_true(i % 5 ? fabs(row->diameter_off) < 1e-9 : isnan(row->diameter_off));
    }
    measured_clear(&measured);
    measured_table_clear(&table);
    bench_free(&bench);
}

static void outliers_are_named_and_left_out(void **state)
{
    for (uint32_t round = 0; round < 20; round++) {
        Bench bench = bench_new(round + 900);
        Measured measured;
        MeasuredTable table;
        measured_table_init(&table);
        measure(&bench, &table, random_pose(&bench, false), 0, HOLES, 0.01);
        const guint wrong[] = {7, 21, 40};
        for (size_t i = 0; i < G_N_ELEMENTS(wrong); i++)
            g_array_index(table.points, MeasuredPoint, wrong[i]).at.x += MM(0.3);
        assert_true(measured_compare(&table, bench.plate, bench.placed, NULL, &measured, NULL));
        assert_int_equal(measured.outliers, 3);
        assert_int_equal(measured.out_of_tolerance, 3);
        for (size_t i = 0; i < G_N_ELEMENTS(wrong); i++)
            assert_true(row_at(&measured, wrong[i])->outlier);
        assert_true(measured.squares.greatest < 0.03 && measured.greatest.greatest < 0.02);
        measured_clear(&measured);
        measured_table_clear(&table);
        bench_free(&bench);
    }
}

/* A square of four holes fits four ways: the least turn is taken, unless labels say otherwise. */
static void labels_and_the_least_turn_choose_between_equals(void **state)
{
    const double corners[4][2] = {{10, 10}, {90, 10}, {90, 90}, {10, 90}};
    Plate *plate = plate_new(MM(100), MM(100), MM(20), PLATE_MM);
    FeatureId ids[4];
    for (int i = 0; i < 4; i++)
        ids[i] = put_hole(plate, corners[i][0], corners[i][1], 5);
    label_all(plate);
    Placed *placed = placed_new(plate);
    for (int shift = 0; shift < 4; shift++) {
        for (int labelled = 0; labelled < 2; labelled++) {
            Measured measured;
            MeasuredTable table;
            measured_table_init(&table);
            for (int i = 0; i < 4; i++) {
                char label[8];
                g_snprintf(label, sizeof label, "A%d", (i + shift) % 4 + 1);
                measured_table_add(&table, labelled ? label : NULL,
                                   (Place){MM(corners[i][0] + 40), MM(corners[i][1] - 7)}, MM(5),
                                   i + 1);
            }
            assert_true(measured_compare(&table, plate, placed, NULL, &measured, NULL));
            for (int i = 0; i < 4; i++) {
                int which = labelled ? (i + shift) % 4 : i;
                assert_int_equal(row_at(&measured, (guint)i)->hole, ids[which]);
                assert_false(row_at(&measured, (guint)i)->label_differs);
            }
            measured_clear(&measured);
            measured_table_clear(&table);
        }
    }
    placed_free(placed);
    plate_free(plate);
}

static void what_fits_nowhere_is_refused(void **state)
{
    Bench bench = bench_new(3);
    Measured measured;
    MeasuredTable table;
    Error error = {.kind = ERROR_NONE};
    measured_table_init(&table);
    assert_false(measured_compare(&table, bench.plate, bench.placed, NULL, &measured, &error));
    assert_int_equal(error.kind, ERROR_FORMAT);
    /* The same holes in a scale of one to two. */
    for (int i = 0; i < HOLES; i++)
        measured_table_add(&table, NULL, (Place){MM(bench.at[i].x / 2), MM(bench.at[i].y / 2)},
                           MM(bench.diameters[i]), i + 1);
    assert_false(measured_compare(&table, bench.plate, bench.placed, NULL, &measured, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    measured_table_clear(&table);
    bench_free(&bench);
}

static void a_plate_is_made_of_a_table(void **state)
{
    MeasuredTable table;
    MeasuredPlate wanted = {.unit = PLATE_MM, .thickness = MM(20), .margin = MM(12)};
    Error error = {.kind = ERROR_NONE};
    measured_table_init(&table);
    measured_table_add(&table, "P", (Place){MM(-30), MM(4)}, MM(6), 1);
    measured_table_add(&table, NULL, (Place){MM(50), MM(64.5)}, MM(8), 2);
    Plate *plate = measured_plate_new(&table, &wanted, &error);
    assert_non_null(plate);
    assert_true(plate_check(plate, &error));
    assert_int_equal(plate_settings(plate)->stock.length, MM(104));
    assert_int_equal(plate_settings(plate)->stock.width, MM(84.5));
    Place datum = plate_datum(plate);
    int holes = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_HOLE)
            continue;
        const MeasuredPoint *point = &g_array_index(table.points, MeasuredPoint, (guint)holes++);
        assert_true(record->hole.made && record->hole.label);
        assert_int_equal(record->hole.at.x - datum.x, point->at.x);
        assert_int_equal(record->hole.at.y - datum.y, point->at.y);
    }
    assert_int_equal(holes, 2);
    plate_free(plate);
    measured_table_add(&table, NULL, (Place){MM(1), MM(1)}, 0, 7);
    assert_null(measured_plate_new(&table, &wanted, &error));
    assert_string_equal(error.place, "line 7");
    measured_table_clear(&table);
}

/* A plate made of a table is one that its own file reads: holes of 1 um and places up to 10 m. */
static void what_no_file_holds_is_refused(void **state)
{
    MeasuredPlate wanted = {.unit = PLATE_MM,
                            .thickness = MM(20),
                            .length = MM(500),
                            .width = MM(500),
                            .margin = MM(10)};
    const struct {
        Place far;
        Length diameter;
        bool fine;
    } cases[] = {{{MM(9980), 0}, LENGTH_UM, true},
                 {{MM(9980), 0}, LENGTH_UM - 1, false},
                 {{MM(9991), 0}, MM(5), false},
                 {{0, MM(9991)}, MM(5), false}};
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        MeasuredTable table;
        Error error = {.kind = ERROR_NONE};
        size_t size;
        measured_table_init(&table);
        measured_table_add(&table, NULL, (Place){0, 0}, MM(6), 1);
        measured_table_add(&table, NULL, cases[i].far, cases[i].diameter, 2);
        Plate *plate = measured_plate_new(&table, &wanted, &error);
        assert_int_equal(plate != NULL, cases[i].fine);
        assert_int_equal(error.kind != ERROR_NONE, !cases[i].fine);
        if (plate) {
            char *text = plate_text(plate, &size);
            Plate *again = plate_parse(text, size, &error);
            assert_non_null(again);
            plate_free(again);
            g_free(text);
        }
        plate_free(plate);
        measured_table_clear(&table);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_are_matched_wherever_the_table_lies),
        cmocka_unit_test(deviations_are_those_of_the_two_fits),
        cmocka_unit_test(outliers_are_named_and_left_out),
        cmocka_unit_test(labels_and_the_least_turn_choose_between_equals),
        cmocka_unit_test(what_fits_nowhere_is_refused),
        cmocka_unit_test(a_plate_is_made_of_a_table),
        cmocka_unit_test(what_no_file_holds_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
