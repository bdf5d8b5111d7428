/* The rules about bevels: each with a case that just passes and one that just fails, 1 um apart, by
 * closed forms that stand beside them. The bevel is 45 degrees a side where that makes figures
 * plain: a tangent of 1. */
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define UM 0.001

typedef struct Bench {
    Plate *plate;
    FeatureId face, part, station;
} Bench;

/* A bar 60 x 20 and 3 thick with its edge along its lower side, on a face that falls away from the
 * top at 45 degrees. A hole of 4 mm lies `up` above the edge. */
static Bench bench(double up, double edge, bool both_sides)
{
    const double holes[] = {30, up, 4};
    Bench made = {.plate = plate_new(MM(100), MM(80), MM(40), PLATE_MM)};
    Record *face = record_new(plate_new_id(made.plate), RECORD_FACE);
    face->face.name = g_strdup("front");
    face->face.kind = FACE_INCLINED;
    face->face.from = (Place){MM(100), MM(40)};
    face->face.to = (Place){MM(0), MM(40)};
    face->face.angle = 45 * ANGLE_DEGREE;
    face->face.extent = MM(40);
    made.face = put_record(made.plate, face);
    made.part = put_part(made.plate, 60, 20, 3, 1, holes);
    Record *part = record_copy(plate_find(made.plate, made.part), made.part);
    part->part.bevel = (Bevel){.angle = 45 * ANGLE_DEGREE,
                               .edge_thickness = MM(edge),
                               .both_sides = both_sides,
                               .from = {0, 0},
                               .to = {MM(60), 0}};
    change_record(made.plate, part);
    Record *station = record_new(plate_new_id(made.plate), RECORD_STATION);
    station->station.face = made.face;
    station->station.part = made.part;
    station->station.at = (Place){MM(-80), MM(-30)};
    made.station = put_record(made.plate, station);
    return made;
}

static void set_part(Bench *made, double thickness, double tolerance)
{
    Record *record = record_copy(plate_find(made->plate, made->part), made->part);
    record->part.thickness = MM(thickness);
    record->part.thickness_tolerance = MM(tolerance);
    change_record(made->plate, record);
}

/* Moves one of the ring's corners, which are 0, 0; 60, 0; 60, 20; 0, 20. */
static void move_corner(Bench *made, int i, double x, double y, double sagitta)
{
    Record *record = record_copy(plate_find(made->plate, made->part), made->part);
    PartRing *ring = LIST_AT(&record->part.rings, PartRing, 0);
    *LIST_AT(&ring->nodes, OutlineNode, i) = (OutlineNode){MM(x), MM(y), MM(sagitta)};
    change_record(made->plate, record);
}

/* One side at 45 degrees: a bevel as high as the stock is thick over the edge. 21 of stock with an
 * edge of 1 is 20 high, as the blade is. */
static void test_higher_than_blade(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(10, 1, false);
        set_part(&made, 21 + fails * UM, 0);
        FindingList findings = findings_of(made.plate);
        const Finding *first = NULL;
        int count = count_of(&findings, "bevel-runs-out", &first);
        int spines = 0;
        for (uint32_t i = 0; i < findings.count; i++)
            spines += strcmp(findings.items[i].rule->slug, "bevel-runs-out") == 0 &&
                      findings.items[i].which == 0;
        assert_int_equal(spines, fails);
        /* It reaches the hole in any case. */
        assert_int_equal(count, 1 + fails);
        finding_list_clear(&findings);
        plate_free(made.plate);
    }
    /* Two sides are half as high: 3 less 1 is 2, of which each takes 1. The hole's rim is 1 up, and
     * 1 um of tolerance reaches it. */
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(3, 1, true);
        set_part(&made, 3, fails * UM);
        expect_findings(made.plate, "bevel-runs-out", LEVEL_CAUTION, fails, -UM);
    }
}

static void test_head_at_bevel(void **state)
{
    /* 1 high; a head of 6 mm whose centre is 4.5 up stays 0.5 clear. */
    for (int fails = 0; fails < 2; fails++) {
        Bench made = bench(10, 1, true);
        FeatureId screw =
            put_pin(made.plate, made.station, 0, 20, 4.5 - fails * UM, FITTING_HOLD_DOWN, 3);
        Record *record = record_copy(plate_find(made.plate, screw), screw);
        record->fitting.head_diameter = MM(6);
        record->fitting.length = MM(3);
        change_record(made.plate, record);
        FeatureId hole = plate_find(made.plate, screw)->fitting.hole;
        record = record_copy(plate_find(made.plate, hole), hole);
        record->hole.face = made.face;
        change_record(made.plate, record);
        expect_findings(made.plate, "bevel-runs-out", LEVEL_STOP, fails, 0.5 - UM);
    }
}

/* On the top no bevel is cut, and nothing is said. */
static void test_not_on_top(void **state)
{
    Bench made = bench(3, 0, true);
    Record *record = record_copy(plate_find(made.plate, made.station), made.station);
    record->station.face = ID_TOP;
    record->station.at = (Place){MM(20), MM(50)};
    change_record(made.plate, record);
    set_part(&made, 3, 1);
    FindingList findings = findings_of(made.plate);
    assert_int_equal(count_of(&findings, "bevel-runs-out", NULL), 0);
    assert_int_equal(count_of(&findings, "edge-thins", NULL), 0);
    finding_list_clear(&findings);
    plate_free(made.plate);
}

/* Both sides at 45 degrees take 2 off the edge for each 1 outside its line, and thicker stock as
 * much as it is thicker. */
static void test_edge_thins(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        /* 0.3 less 0.2 of stock is the least, 0.1. */
        Bench made = bench(10, 0.3, true);
        set_part(&made, 3, 0.2 + fails * UM);
        expect_findings(made.plate, "edge-thins", LEVEL_CAUTION, fails, 0.1 - UM);
        /* A corner 0.2 below the line: 0.5 less 0.4. */
        made = bench(10, 0.5, true);
        move_corner(&made, 1, 60, -0.2 - fails * UM, 0);
        expect_findings(made.plate, "edge-thins", LEVEL_CAUTION, fails, 0.1 - 2 * UM);
        /* An arc that bulges 0.2 below it (a sagitta to the right of the way). */
        made = bench(10, 0.5, true);
        move_corner(&made, 0, 0, 0, 0.2 + fails * UM);
        expect_findings(made.plate, "edge-thins", LEVEL_CAUTION, fails, 0.1 - 2 * UM);
        /* Nothing is left of it. */
        made = bench(10, 0.5, true);
        move_corner(&made, 1, 60, -0.25 - fails * UM, 0);
        expect_findings(made.plate, "edge-thins", LEVEL_STOP, fails, -2 * UM);
        /* One side alone: stock does not count, and 1 for each 1. */
        made = bench(10, 0.3, false);
        set_part(&made, 3, 2);
        move_corner(&made, 1, 60, -0.2 - fails * UM, 0);
        expect_findings(made.plate, "edge-thins", LEVEL_CAUTION, fails, 0.1 - UM);
    }
}

static void test_edge_thickens(void **state)
{
    for (int fails = 0; fails < 2; fails++) {
        /* 0.25 inside the line twice is 0.5 more. */
        Bench made = bench(10, 0.5, true);
        move_corner(&made, 1, 60, 0.25 + fails * UM, 0);
        expect_findings(made.plate, "edge-thins", LEVEL_NOTE, fails, 1 + 2 * UM);
        /* An arc that bulges inwards. */
        made = bench(10, 0.5, true);
        move_corner(&made, 0, 0, 0, -0.25 - fails * UM);
        expect_findings(made.plate, "edge-thins", LEVEL_NOTE, fails, 1 + 2 * UM);
        /* Drawn the other way, with the blade to the right of the line, and turned over. */
        made = bench(10, 0.5, true);
        move_corner(&made, 1, 60, 0.25 + fails * UM, 0);
        Record *part = record_copy(plate_find(made.plate, made.part), made.part);
        part->part.bevel.from = (Place){MM(60), 0};
        part->part.bevel.to = (Place){0, 0};
        change_record(made.plate, part);
        Record *station = record_copy(plate_find(made.plate, made.station), made.station);
        station->station.turned_over = true;
        change_record(made.plate, station);
        expect_findings(made.plate, "edge-thins", LEVEL_NOTE, fails, 1 + 2 * UM);
    }
}

/* The flattest arcs there are, a nanometre high over 60 mm, on circles of 450 km. */
static void test_flat_arcs(void **state)
{
    for (int way = -1; way <= 1; way += 2) {
        Bench made = bench(10, 0.3, true);
        Record *record = record_copy(plate_find(made.plate, made.part), made.part);
        const List *rings = &record->part.rings;
        for (int i = 0; i < 4; i += 2)
            LIST_AT(&LIST_AT(rings, PartRing, 0)->nodes, OutlineNode, i)->sagitta = way;
        change_record(made.plate, record);
        change_limit(made.plate, "edge-thins", "thicker", 0.001);
        change_limit(made.plate, "edge-thins", "least", 0.299);
        FindingList findings = findings_of(made.plate);
        assert_int_equal(count_of(&findings, "edge-thins", NULL), 0);
        assert_int_equal(count_of(&findings, "bevel-runs-out", NULL), 0);
        finding_list_clear(&findings);
        plate_free(made.plate);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_higher_than_blade), cmocka_unit_test(test_head_at_bevel),
        cmocka_unit_test(test_not_on_top),        cmocka_unit_test(test_edge_thins),
        cmocka_unit_test(test_edge_thickens),     cmocka_unit_test(test_flat_arcs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
