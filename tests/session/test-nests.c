/* What a nest is offered, and that taking it leaves the plate sound. */
#include "session/nest-offers.h"
#include "support/plates.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* A square blank of 60 x 30, 3 thick, turned by 30 degrees, in a nest 2 deep; its part's own nest
 * where asked. */
static Session *open_nest(bool blank, FeatureId *nest)
{
    const double holes[] = {10, 10, 5, 45, 10, 5};
    Plate *plate = plate_new(MM(150), MM(150), MM(20), PLATE_MM);
    FeatureId part = put_part(plate, 55, 25, 3, 2, holes);
    Record *record = record_copy(plate_find(plate, part), part);
    record->part.blank = (Blank){{-MM(2.5), -MM(2.5)}, MM(60), MM(30), MM(3)};
    change_record(plate, record);
    FeatureId station = put_station(plate, part, 60, 50);
    Record *turned = record_copy(plate_find(plate, station), station);
    turned->station.rotation = 30 * ANGLE_DEGREE;
    change_record(plate, turned);
    put_pin(plate, station, 1, 10, 10, FITTING_DOWEL, 4.99);
    put_pin(plate, station, 2, 45, 10, FITTING_DOWEL, 4.9);
    *nest = put_nest(plate, station, 0.5, 2);
    if (blank) {
        Record *changed = record_copy(plate_find(plate, *nest), *nest);
        changed->recess.kind = RECESS_BLANK_NEST;
        change_record(plate, changed);
    }
    return session_new(plate, NULL);
}

static uint32_t stops_and_cautions(const Session *session)
{
    FindingCounts counts = finding_list_counts(session_findings(session));
    return counts.by_level[LEVEL_STOP] + counts.by_level[LEVEL_CAUTION];
}

static uint32_t records(const Session *session)
{
    return plate_count(session_plate(session));
}

static void test_all_offers_are_taken_once(void **state)
{
    static const uint32_t adds[NEST_OFFERS] = {4, 4, 1, 1};
    FeatureId nest;
    Session *session = open_nest(true, &nest);
    for (int offer = 0; offer < NEST_OFFERS; offer++) {
        Edit edit = EDIT_EMPTY;
        Error error = {.kind = ERROR_NONE};
        uint32_t before = records(session);
        assert_true(nest_offered(session, nest, (NestOffer)offer));
        if (!nest_take_offer(session, nest, (NestOffer)offer, &edit, &error))
            fail_msg("%s: %s", nest_offer_name((NestOffer)offer), error.message);
        assert_true(session_do(session, &edit, &error));
        edit_clear(&edit);
        assert_int_equal(records(session), before + adds[offer]);
        assert_false(nest_offered(session, nest, (NestOffer)offer));
        assert_false(nest_take_offer(session, nest, (NestOffer)offer, &edit, &error));
        assert_int_equal(error.kind, ERROR_CONFLICT);
        edit_clear(&edit);
    }
    /* What the rules about nests ask for is all there, and nobody complains of it. */
    static const char *const rules[] = {"nest-burr", "chip-trap", "lift-out", "overlap", "web"};
    for (size_t i = 0; i < G_N_ELEMENTS(rules); i++)
        assert_int_equal(count_of(session_findings(session), rules[i], NULL), 0);
    session_free(session);
}

static void test_drain_and_notch_do_no_harm(void **state)
{
    FeatureId nest;
    for (int blank = 0; blank < 2; blank++) {
        Session *session = open_nest(blank, &nest);
        uint32_t before = stops_and_cautions(session);
        for (int offer = NEST_OFFER_DRAIN; offer < NEST_OFFERS; offer++) {
            Edit edit = EDIT_EMPTY;
            assert_true(nest_take_offer(session, nest, (NestOffer)offer, &edit, NULL));
            assert_true(session_do(session, &edit, NULL));
            edit_clear(&edit);
            assert_int_equal(stops_and_cautions(session), before);
        }
        assert_false(nest_offered(session, nest, NEST_OFFER_NOTCH));
        assert_false(nest_offered(session, nest, NEST_OFFER_DRAIN));
        session_free(session);
    }
}

static void test_profiled_parts_have_no_square_corners(void **state)
{
    FeatureId nest;
    Session *session = open_nest(false, &nest);
    assert_false(nest_offered(session, nest, NEST_OFFER_CORNERS));
    assert_false(nest_offered(session, nest, NEST_OFFER_BURR));
    assert_true(nest_offered(session, nest, NEST_OFFER_DRAIN));
    assert_false(nest_offered(session, ID_TOP, NEST_OFFER_DRAIN));
    session_free(session);
}

/* What a cutter of the relief's size leaves in a wall's corner lies between the corner and the
 * cutter's circle in it: no further from the corner than the radius, so the relief takes it all. */
static void test_relief_takes_the_corner(void **state)
{
    FeatureId nest;
    Edit edit = EDIT_EMPTY;
    Session *session = open_nest(true, &nest);
    assert_true(nest_take_offer(session, nest, NEST_OFFER_CORNERS, &edit, NULL));
    assert_int_equal(edit.count, 4);
    const Recess *relief = &edit.changes[0].after->recess;
    assert_int_equal(relief->at.x, MM(-3));
    assert_int_equal(relief->at.y, MM(-3));
    double radius = length_to_mm(relief->length) / 2;
    for (int i = 0; i <= 90; i++) {
        double turn = i * M_PI / 180;
        double x = radius - radius * cos(turn), y = radius - radius * sin(turn);
        assert_true(hypot(x, y) <= radius + 1e-12);
    }
    edit_clear(&edit);
    session_free(session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_offers_are_taken_once),
        cmocka_unit_test(test_drain_and_notch_do_no_harm),
        cmocka_unit_test(test_profiled_parts_have_no_square_corners),
        cmocka_unit_test(test_relief_takes_the_corner),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
