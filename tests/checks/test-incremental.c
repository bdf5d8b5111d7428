/* Whatever was edited, the findings kept up to date are those of a fresh start; and what a try says
 * is what comes when it is carried out. */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static void assert_same(const FindingList *kept, const FindingList *fresh, uint32_t seed, int step)
{
    for (uint32_t i = 0; i < kept->count && i < fresh->count; i++) {
        const Finding *a = &kept->items[i], *b = &fresh->items[i];
        if (finding_compare(a, b) != 0 || fabs(a->value - b->value) > 1e-9)
            fail_msg("seed %u, step %d: %s of %u is %g, fresh %s of %u is %g", seed, step,
                     a->rule->slug, a->features[0], a->value, b->rule->slug, b->features[0],
                     b->value);
    }
    if (kept->count != fresh->count)
        fail_msg("seed %u, step %d: %u findings kept, %u fresh", seed, step, kept->count,
                 fresh->count);
}

typedef struct Kept {
    Plate *plate;
    Placed *placed, *overlay;
    Checker *checker;
    Scratch *scratch;
    FindingDelta delta;
} Kept;

/* The findings that checker_try expects: those it does not take away, and those it adds. */
static FindingList expected_by_try(Kept *kept, const Edit *edit)
{
    FindingList expected = FINDING_LIST_EMPTY;
    placed_overlay_show(kept->overlay, kept->plate, edit);
    checker_try(kept->checker, kept->overlay, kept->scratch, &kept->delta);
    const FindingList *now = checker_findings(kept->checker);
    for (uint32_t i = 0; i < now->count; i++) {
        bool removed = false;
        for (uint32_t k = 0; k < kept->delta.removed.count; k++)
            removed =
                removed || finding_compare(&now->items[i], &kept->delta.removed.items[k]) == 0;
        if (!removed)
            *finding_list_add(&expected) = now->items[i];
    }
    for (uint32_t i = 0; i < kept->delta.added.count; i++)
        *finding_list_add(&expected) = kept->delta.added.items[i];
    finding_list_sort(&expected);
    return expected;
}

static void one_step(Kept *kept, uint32_t *seed, uint32_t start, int step)
{
    Edit edit = EDIT_EMPTY, inverse = EDIT_EMPTY;
    ChangeSet changes = CHANGE_SET_EMPTY;
    random_edit(kept->plate, seed, &edit);
    uint32_t before = plate_count(kept->plate);
    if (plate_apply(kept->plate, &edit, &inverse, NULL, NULL)) {
        /* Taken back first, so that it can be tried. */
        assert_true(plate_apply(kept->plate, &inverse, NULL, NULL, NULL));
        assert_int_equal(plate_count(kept->plate), before);
        FindingList expected = expected_by_try(kept, &edit);
        assert_true(plate_apply(kept->plate, &edit, NULL, &changes, NULL));
        placed_update(kept->placed, kept->plate, &changes);
        checker_update(kept->checker, kept->placed, NULL);
        FindingList fresh = findings_of(kept->plate);
        assert_same(checker_findings(kept->checker), &fresh, start, step);
        assert_same(&expected, &fresh, start, step);
        finding_list_clear(&fresh);
        finding_list_clear(&expected);
    }
    edit_clear(&edit);
    edit_clear(&inverse);
    change_set_clear(&changes);
}

/* What there was at the start of those rules that are hardest to keep up to date. */
static const char *const rules[] = {"cross-drilled",
                                    "cutter-meets-hardware",
                                    "cutter-meets-neighbour",
                                    "cutter-cuts-plate",
                                    "holder-meets-clamp",
                                    "access",
                                    "exit-room",
                                    "reach",
                                    "comes-loose",
                                    "unsupported",
                                    "inside-corner",
                                    "clamp-travel",
                                    "clamp-height",
                                    "clamp-backing"};
static int counts[G_N_ELEMENTS(rules)];

/* Some as high as anything may be, beside the screws of stations. */
static void put_keep_clears(Plate *plate, uint32_t *seed)
{
    uint32_t count = plate_count(plate);
    for (uint32_t i = 0; i < count; i++) {
        const Record *station = plate_at(plate, i);
        if (station->kind != RECORD_STATION || random_between(seed, 0, 3) > 1)
            continue;
        Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
        record->keep_clear = (KeepClear){.face = station->station.face,
                                         .length = MM(4),
                                         .width = MM(random_between(seed, 3, 12)),
                                         .at = station->station.at};
        record->keep_clear.at.x += MM(random_between(seed, 0, 25));
        record->keep_clear.at.y += MM(random_between(seed, -5, 20));
        record->keep_clear.height = random_between(seed, 0, 2) < 1 ? 0 : MM(8);
        put_record(plate, record);
    }
}

static void storm(uint32_t start, int steps)
{
    uint32_t seed = start;
    Kept kept = {.plate = random_plate(start, 40)};
    put_keep_clears(kept.plate, &seed);
    kept.placed = placed_new(kept.plate);
    kept.overlay = placed_overlay_new(kept.placed);
    kept.checker = checker_new();
    kept.scratch = scratch_new();
    checker_update(kept.checker, kept.placed, NULL);
    for (size_t i = 0; i < G_N_ELEMENTS(rules); i++)
        counts[i] += count_of(checker_findings(kept.checker), rules[i], NULL);
    for (int step = 0; step < steps; step++)
        one_step(&kept, &seed, start, step);
    finding_delta_clear(&kept.delta);
    scratch_free(kept.scratch);
    checker_free(kept.checker);
    placed_free(kept.overlay);
    placed_free(kept.placed);
    plate_free(kept.plate);
}

static void test_storm(void **state)
{
    int steps = getenv("PINPLATE_LONG") ? 5000 : 120;
    for (uint32_t seed = 1; seed <= 6; seed++)
        storm(seed * 7919, steps);
    for (size_t i = 0; i < G_N_ELEMENTS(rules); i++)
        if (counts[i] == 0)
            fail_msg("no plate has a finding of %s", rules[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_storm)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
