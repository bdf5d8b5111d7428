#include "cases.h"

#include "sample.h"

#include "drawing/hatching.h"
#include "drawing/section.h"

#include <glib.h>

/* The metal that a section shows is measured by its hatching: the length of all lines times their
 * pitch is the area, but for what lies between the last line and a border. At a large scale that is
 * little. */

#define SCALE 40.0

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

static double metal(const DrawingSource *source, SectionLine line)
{
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 10000, 2000, "");
    assert_true(section_clip(source, &line));
    section_draw(drawing, source, &line, (ViewMap){{0, 1000}, SCALE});
    double length = 0;
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        if (mark->line != LINE_HATCHING)
            continue;
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        length += hypot(v[1].x - v[0].x, v[1].y - v[0].y);
    }
    return length * HATCHING_PITCH / (SCALE * SCALE);
}

#define MM LENGTH_MM

/* A plate of 60 x 40 x 20 with one hole or recess in its middle, cut along X through it. */
static Sample plate_with(const Step *steps, uint32_t count)
{
    Sample sample = sample_empty(PLATE_MM, 60 * MM, 40 * MM, 20 * MM);
    sample_hole(sample.plate, ID_NONE, 30, 20, steps, count);
    placed_free(sample.placed);
    sample.placed = placed_new(sample.plate);
    sample.source.placed = sample.placed;
    return sample;
}

static void check_near(double measured, double expected)
{
    if (fabs(measured - expected) > 1.5)
        print_message("# measured %.2f, expected %.2f mm2\n", measured, expected);
    assert_true(fabs(measured - expected) <= 1.5);
}

static const SectionLine middle = {{-10, 20}, {100, 20}, 'A'};

static void test_whole(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 60 * MM, 40 * MM, 20 * MM);
    check_near(metal(&sample.source, middle), 60 * 20);
    SectionLine diagonal = {{0, 0}, {60, 40}, 'A'};
    check_near(metal(&sample.source, diagonal), hypot(60, 40) * 20);
    sample_end(&sample);
}

/* A blind hole takes its rectangle and the triangle of its point: 0.3004 D high at 118 degrees
 * (drill handbooks). */
static void test_blind_hole(void **state)
{
    Step drill = {
        .kind = STEP_DRILL, .diameter = 10 * MM, .depth = 12 * MM, .point = 118 * ANGLE_DEGREE};
    Sample sample = plate_with(&drill, 1);
    check_near(metal(&sample.source, middle), 60 * 20 - 10 * 12 - 0.5 * 10 * 3.004);
    /* 3 mm beside the axis the chord is 8 mm. */
    SectionLine beside = {{0, 23}, {60, 23}, 'A'};
    double measured = metal(&sample.source, beside);
    assert_true(measured < 60 * 20 - 8 * 12 + 1.5 && measured > 60 * 20 - 8 * (12 + 3.004));
    /* 5 mm beside it is missed. */
    SectionLine past = {{0, 25.1}, {60, 25.1}, 'A'};
    check_near(metal(&sample.source, past), 60 * 20);
    sample_end(&sample);
}

/* Along Y through a front that falls from a break line at so many mm over 20 degrees; the wedge is
 * a triangle. */
static FeatureId put(Sample *sample, Record *record)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id = record->id;
    edit_add(&edit, NULL, record);
    assert_true(plate_apply(sample->plate, &edit, NULL, NULL, NULL));
    edit_clear(&edit);
    placed_free(sample->placed);
    sample->placed = placed_new(sample->plate);
    sample->source.placed = sample->placed;
    return id;
}

static void test_inclined_front(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 60 * MM, 40 * MM, 20 * MM);
    Record *record = record_new(plate_new_id(sample.plate), RECORD_FACE);
    record->face = (Face){.kind = FACE_INCLINED,
                          .from = {60 * MM, 15 * MM},
                          .to = {0, 15 * MM},
                          .angle = 20 * ANGLE_DEGREE,
                          .extent = 20 * MM};
    FeatureId face = put(&sample, record);
    SectionLine across = {{30, -5}, {30, 50}, 'A'};
    check_near(metal(&sample.source, across), 40 * 20 - 15 * 15 * 0.36397 / 2);
    SectionLine along = {{-5, 5}, {70, 5}, 'A'};
    check_near(metal(&sample.source, along), 60 * (20 - 10 * 0.36397));
    /* A bore square to the face is cut along its axis: its own width times its depth. */
    record = record_new(plate_new_id(sample.plate), RECORD_HOLE);
    record->hole.face = face;
    record->hole.at = (Place){-30 * MM, -8 * MM};
    *list_append(&record->hole.steps, Step) =
        (Step){.kind = STEP_BORE, .diameter = 6 * MM, .depth = 8 * MM};
    put(&sample, record);
    check_near(metal(&sample.source, across), 40 * 20 - 15 * 15 * 0.36397 / 2 - 6 * 8);
    sample_end(&sample);
}

static void test_counterbore(void **state)
{
    Step steps[] = {{.kind = STEP_DRILL, .diameter = 66 * MM / 10, .through = true},
                    {.kind = STEP_COUNTERBORE, .diameter = 11 * MM, .depth = 7 * MM}};
    Sample sample = plate_with(steps, 2);
    check_near(metal(&sample.source, middle), 60 * 20 - 6.6 * 20 - (11 - 6.6) * 7);
    sample_end(&sample);
}

/* 90 degrees: the cone is as deep as its radius. */
static void test_countersink(void **state)
{
    Step steps[] = {{.kind = STEP_DRILL, .diameter = 6 * MM, .through = true},
                    {.kind = STEP_COUNTERSINK,
                     .diameter = 12 * MM,
                     .depth = 6 * MM,
                     .point = 90 * ANGLE_DEGREE}};
    Sample sample = plate_with(steps, 2);
    check_near(metal(&sample.source, middle), 60 * 20 - 6 * 20 - 2 * 0.5 * 3 * 3);
    sample_end(&sample);
}

/* What reaches beyond the line's end is cut off there. */
static void test_line_ends_in_hole(void **state)
{
    Step drill = {.kind = STEP_DRILL, .diameter = 10 * MM, .depth = 12 * MM};
    Sample sample = plate_with(&drill, 1);
    SectionLine line = {{0, 20}, {30, 20}, 'A'};
    check_near(metal(&sample.source, line), 30 * 20 - 5 * 12);
    for (size_t m = 0; m < drawing->mark_count; m++)
        assert_true(drawing->marks[m].box.x0 >= -1e-9 &&
                    drawing->marks[m].box.x1 <= 30 * SCALE + 1e-9);
    sample_end(&sample);
}

static void test_clip(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 60 * MM, 40 * MM, 20 * MM);
    SectionLine line = middle;
    assert_true(section_clip(&sample.source, &line));
    assert_true(line.from.x == 0 && fabs(line.to.x - 60) < 1e-12 && line.from.y == 20);
    SectionLine outside = {{0, 50}, {60, 50}, 'A'}, short_of = {{-5, 20}, {-1, 20}, 'A'};
    SectionLine point = {{10, 10}, {10, 10}, 'A'};
    assert_false(section_clip(&sample.source, &outside));
    assert_false(section_clip(&sample.source, &short_of));
    assert_false(section_clip(&sample.source, &point));
    sample_end(&sample);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whole),          cmocka_unit_test(test_blind_hole),
        cmocka_unit_test(test_inclined_front), cmocka_unit_test(test_counterbore),
        cmocka_unit_test(test_countersink),    cmocka_unit_test(test_line_ends_in_hole),
        cmocka_unit_test(test_clip),
    };
    return cmocka_run_group_tests(tests, start, end);
}
