/* Another part at an existing station: what stays, what is changed, and that it can be undone. */
#include "plate/label.h"
#include "plate/plate-file.h"
#include "refit/refit-change.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

typedef struct Bench {
    Plate *plate;
    Placed *placed;
    Checker *checker;
    Record *part;
    FeatureId station;
} Bench;

static char *example(const char *name)
{
    return g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", name, NULL);
}

static FeatureId station_named(const Plate *plate, const char *label)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION && g_strcmp0(record_label(record), label) == 0)
            return record->id;
    }
    return ID_NONE;
}

static Bench bench_new(void)
{
    char *plate = example("grafting-blades.plate"), *part = example("budding-blade.platepart");
    Bench bench = {.plate = plate_read(plate, NULL, NULL), .part = part_read(part, NULL)};
    assert_non_null(bench.plate);
    assert_non_null(bench.part);
    label_all(bench.plate);
    bench.placed = placed_new(bench.plate);
    bench.checker = checker_new();
    checker_update(bench.checker, bench.placed, NULL);
    bench.station = station_named(bench.plate, "2");
    g_free(plate);
    g_free(part);
    return bench;
}

static void bench_free(Bench *bench)
{
    checker_free(bench->checker);
    placed_free(bench->placed);
    record_unref(bench->part);
    plate_free(bench->plate);
}

static Refit *search(const Bench *bench)
{
    RefitOptions options = {.replace = bench->station};
    Refit *refit =
        refit_new(bench->plate, bench->placed, bench->checker, &bench->part->part, &options);
    assert_true(refit_search(refit));
    assert_true(refit_count(refit) > 0);
    return refit;
}

/* Each answer is an edit that the plate takes, and its inverse takes it back whole. */
static void every_answer_can_be_taken_and_taken_back(void **state)
{
    Bench bench = bench_new();
    Refit *refit = search(&bench);
    for (uint32_t i = 0; i < refit_count(refit); i++) {
        Plate *again;
        size_t size;
        char *text = plate_text(bench.plate, &size);
        Edit edit = EDIT_EMPTY, inverse = EDIT_EMPTY;
        Error error = {.kind = ERROR_NONE};
        again = plate_parse(text, size, NULL);
        refit_edit(refit, refit_at(refit, i), &edit);
        if (!plate_apply(again, &edit, &inverse, NULL, &error))
            fail_msg("answer %u: %s", i + 1, error.message);
        const Record *station = plate_find(again, bench.station);
        const Record *part = plate_find(again, station->station.part);
        assert_string_equal(part->part.name, bench.part->part.name);
        assert_true(plate_apply(again, &inverse, NULL, NULL, &error));
        for (uint32_t k = 0; k < plate_count(again); k++)
            assert_true(record_equal(plate_at(again, k), plate_at(bench.plate, k)));
        assert_int_equal(plate_count(again), plate_count(bench.plate));
        edit_clear(&edit);
        edit_clear(&inverse);
        plate_free(again);
        g_free(text);
    }
    refit_free(refit);
    bench_free(&bench);
}

typedef struct Where {
    const Placed *before;
    uint32_t seen;
} Where;

static bool stays_where_it_was(const Feature *feature, void *data)
{
    Where *where = data;
    const Feature *old = placed_find(where->before, feature->id);
    if (feature->kind == FEATURE_HOLE && old) {
        assert_true(point_distance(feature_at(feature), feature_at(old)) < 2e-6);
        where->seen++;
    }
    return true;
}

/* However the new part lies, the plate's holes are where they were. */
static void holes_stay_where_they_are(void **state)
{
    Bench bench = bench_new();
    Refit *refit = search(&bench);
    for (uint32_t i = 0; i < refit_count(refit); i++) {
        Where where = {bench.placed, 0};
        placed_each(refit_show(refit, i), stays_where_it_was, &where);
        assert_true(where.seen > 10);
    }
    refit_free(refit);
    bench_free(&bench);
}

/* Every finding before and every one after stands in one row, on its own side. */
static void findings_stand_side_by_side(void **state)
{
    Bench bench = bench_new();
    Refit *refit = search(&bench);
    for (uint32_t i = 0; i < refit_count(refit); i++) {
        const RefitAnswer *answer = refit_at(refit, i);
        FindingList before = FINDING_LIST_EMPTY;
        uint32_t left = 0, right = 0;
        refit_before(refit, answer, &before);
        assert_true(before.count > 0);
        GArray *rows = refit_changes(&before, answer);
        for (guint k = 0; k < rows->len; k++) {
            const RefitChange *row = &g_array_index(rows, RefitChange, k);
            left += row->before != NULL;
            right += row->after != NULL;
            if (row->before && row->after)
                assert_ptr_equal(row->before->rule, row->after->rule);
        }
        assert_int_equal(left, before.count);
        assert_int_equal(right, answer->findings.count);
        g_array_unref(rows);
        finding_list_clear(&before);
    }
    refit_free(refit);
    bench_free(&bench);
}

static void what_is_made_keeps_its_part(void **state)
{
    Bench bench = bench_new();
    Error error = {.kind = ERROR_NONE};
    assert_true(refit_can_replace(bench.plate, bench.station, &error));
    assert_false(refit_can_replace(bench.plate, ID_TOP, &error));
    assert_int_equal(error.kind, ERROR_MISSING);
    const Record *hole = NULL;
    for (uint32_t i = 0; i < plate_count(bench.plate) && !hole; i++)
        if (record_station(plate_at(bench.plate, i)) == bench.station &&
            plate_at(bench.plate, i)->kind == RECORD_HOLE)
            hole = plate_at(bench.plate, i);
    Record *made = record_copy(hole, hole->id);
    Edit edit = EDIT_EMPTY;
    made->hole.made = true;
    edit_add(&edit, record_ref(hole), made);
    assert_true(plate_apply(bench.plate, &edit, NULL, NULL, NULL));
    assert_false(refit_can_replace(bench.plate, bench.station, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    edit_clear(&edit);
    bench_free(&bench);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_answer_can_be_taken_and_taken_back),
        cmocka_unit_test(holes_stay_where_they_are),
        cmocka_unit_test(findings_stand_side_by_side),
        cmocka_unit_test(what_is_made_keeps_its_part),
    };
    return cmocka_run_group_tests_name("replace", tests, NULL, NULL);
}
