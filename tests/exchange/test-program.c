/* Drilling programs, read back by a reader of their own. */
#include "program-check.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* --- cases ---------------------------------------------------------------------------------- */

static Plate *read_example(const char *name)
{
    Error error = {.kind = ERROR_NONE};
    char *path = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", name, NULL);
    Plate *plate = plate_read(path, NULL, &error);
    if (!plate)
        fail_msg("%s: %s", error.place, error.message);
    g_free(path);
    return plate;
}

static void test_examples(void **unused)
{
    static const char *const names[] = {"grafting-blades.plate", "scales.plate", "spacers.plate"};
    for (size_t n = 0; n < G_N_ELEMENTS(names); n++) {
        Plate *plate = read_example(names[n]);
        for (int unit = UNIT_WORD_G70; unit <= UNIT_WORD_G21; unit++)
            for (int moves = MOVES_LONGHAND; moves <= MOVES_CYCLES; moves++)
                for (int length = LENGTH_OFFSET_NONE; length <= LENGTH_OFFSET_G44; length++) {
                    ProgramOptions options = longhand;
                    options.unit_word = unit;
                    options.moves = moves;
                    options.length_offset = length;
                    options.offset = length == LENGTH_OFFSET_NONE ? OFFSET_NONE : OFFSET_G54;
                    options.line_numbers = unit == UNIT_WORD_G70;
                    assert_true(check_settings(plate, &options) > 0);
                }
        plate_free(plate);
    }
}

/* Holes on the top and on an inclined face, at stations turned and turned over, some on each other.
 */
static void test_random_plates(void **unused)
{
    int written = 0, asked = 0;
    for (uint32_t seed = 1; seed <= 25; seed++) {
        Plate *plate = random_plate(seed, 60);
        for (uint32_t i = 0; i < plate_count(plate); i++) {
            const Record *face = plate_at(plate, i);
            if (face->kind != RECORD_FACE)
                continue;
            ProgramOptions options = longhand;
            options.moves = seed % 2 ? MOVES_LONGHAND : MOVES_CYCLES;
            options.unit_word = seed % 3 ? UNIT_WORD_G21 : UNIT_WORD_G20;
            asked++;
            written += check_program(plate, ID_NONE, face->id, &options, 2);
        }
        plate_free(plate);
    }
    assert_true(written >= asked / 3);
}

static Record *new_hole(Plate *plate, double x, double y)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(x), MM(y)};
    return record;
}

static Step *new_step(Record *record, int kind, double diameter, double depth)
{
    Step *step = list_append(&record->hole.steps, Step);
    step->kind = kind;
    step->diameter = MM(diameter);
    step->depth = MM(depth);
    step->through = depth <= 0;
    return step;
}

/* Each kind of step there is, through and blind, with a datum in the back right corner. */
static Plate *plate_of_all_kinds(void)
{
    Plate *plate = plate_new(MM(150), MM(100), MM(25), PLATE_MM);
    Record *record = new_hole(plate, 20, 20);
    new_step(record, STEP_DRILL, 7.8, 20)->point = 118 * ANGLE_DEGREE;
    new_step(record, STEP_REAM, 8, 15)->upper = 15 * LENGTH_UM;
    put_record(plate, record);
    record = new_hole(plate, 60, 20);
    new_step(record, STEP_DRILL, 5, 22)->point = 135 * ANGLE_DEGREE;
    new_step(record, STEP_TAP, 6, 12)->thread = g_strdup("M6");
    put_record(plate, record);
    record = new_hole(plate, 100, 20);
    new_step(record, STEP_DRILL, 6.6, 0);
    new_step(record, STEP_COUNTERBORE, 11, 6.5);
    put_record(plate, record);
    record = new_hole(plate, 100, 60);
    new_step(record, STEP_DRILL, 5.5, 0);
    new_step(record, STEP_COUNTERSINK, 12, 6)->point = 90 * ANGLE_DEGREE;
    put_record(plate, record);
    record = new_hole(plate, 130, 20);
    new_step(record, STEP_DRILL, 11.5, 0);
    new_step(record, STEP_BORE, 12, 0)->upper = 11 * LENGTH_UM;
    put_record(plate, record);
    record = new_hole(plate, 130, 60);
    new_step(record, STEP_DRILL, 15.5, 20)->point = 118 * ANGLE_DEGREE;
    new_step(record, STEP_BORE, 16, 12)->upper = 11 * LENGTH_UM;
    put_record(plate, record);
    record = new_hole(plate, 40.1234, 60.5678);
    new_step(record, STEP_DRILL, 2, 18)->point = 118 * ANGLE_DEGREE; /* pecked */
    put_record(plate, record);
    put_slot(plate, 75, 80, 40, 12, 8);
    return plate;
}

static void test_all_kinds(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    ProgramOptions options = longhand;
    for (int moves = MOVES_LONGHAND; moves <= MOVES_CYCLES; moves++) {
        options.moves = moves;
        assert_true(check_program(plate, ID_NONE, ID_TOP, &options, 5));
    }
    plate_free(plate);
}

static const char feeds[] = "# the shop's own\n"
                            "tool,diameter,speed,feed\n"
                            "spot drill,6mm,2000,100mm\n"
                            "drill,7.8mm,1500,150mm\n"
                            "drill,5mm,2000,160mm\n"
                            "drill, 6.6 mm ,1800,160mm\n"
                            "drill,5.5mm,2000,160mm\n"
                            "drill,2mm,3000,90mm\n"
                            "counterbore,11mm,600,60mm\n"
                            "countersink,12mm,500,50mm\n"
                            "reamer,8mm,400,120mm\n"
                            "drill,11.5mm,900,120mm\n"
                            "drill,15.5mm,700,100mm\n"
                            "boring bar,12mm,600,40mm\n"
                            "boring bar,16mm,500,40mm\n"
                            "tap,6mm,250,\n";

static char *text_of(const Plate *plate, const ProgramOptions *options, Error *error)
{
    Placed *placed = placed_new(plate);
    ProgramRequest request = {plate, placed, ID_NONE, ID_TOP, options};
    char *text = program_text(&request, NULL, error);
    placed_free(placed);
    return text;
}

/* Speeds and feeds from the table, and an M6 tap's feed by its pitch of 1 mm. */
static void test_feeds_and_tapping(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    Error error = {.kind = ERROR_NONE};
    ProgramOptions options = longhand;
    options.moves = MOVES_CYCLES;
    options.tapping = true;
    assert_true(program_options_read_feeds(&options, feeds, UNIT_MM, &error));
    assert_true(check_program(plate, ID_NONE, ID_TOP, &options, 5));
    char *text = text_of(plate, &options, &error);
    NcProgram *nc = nc_read(text);
    bool tapped = false;
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        const char *tool = g_hash_table_lookup(nc->tools, GUINT_TO_POINTER(move->tool));
        if (move->rapid)
            continue;
        if (strstr(tool, ": TAP ")) {
            tapped = true;
            assert_true(move->speed == 250 && fabs(move->feed - 250) < 1e-9);
        }
        if (strstr(tool, ": REAMER "))
            assert_true(move->speed == 400 && fabs(move->feed - 120) < 1e-9);
    }
    assert_true(tapped);
    nc_free(nc);
    g_free(text);
    program_options_clear(&options);
    plate_free(plate);
}

/* --- boring, reaming and tapping ------------------------------------------------------------ */

static void test_ways_out(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    for (int moves = MOVES_LONGHAND; moves <= MOVES_CYCLES; moves++) {
        ProgramOptions options = longhand;
        options.moves = moves;
        options.tapping = moves == MOVES_CYCLES;
        assert_true(program_options_read_feeds(&options, feeds, UNIT_MM, NULL));
        assert_true(check_program(plate, ID_NONE, ID_TOP, &options, 5));
        char *text = text_of(plate, &options, NULL);
        NcProgram *nc = nc_read(text);
        unsigned slow = 0, fast = 0;
        check_ways_out(nc, &slow, &fast);
        /* One reamed hole, two bored ones, and one tapped where taps go down at all. */
        assert_int_equal(slow, moves == MOVES_CYCLES ? 4 : 3);
        assert_true(fast > 8);
        nc_free(nc);
        g_free(text);
        program_options_clear(&options);
    }
    plate_free(plate);
}

static void assert_refused(const Plate *plate, const ProgramOptions *options, const char *says)
{
    Error error = {.kind = ERROR_NONE};
    char *text = text_of(plate, options, &error);
    if (text)
        fail_msg("it was not refused: %s", says);
    if (!strstr(error.message, says))
        fail_msg("it says: %s", error.message);
}

/* No choice is made for the maker. */
static void test_choices(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    Error error = {.kind = ERROR_NONE};
    ProgramOptions options = {.unit_word = UNIT_WORD_UNCHOSEN};
    assert_refused(plate, &options, "--unit-word");
    assert_false(program_options_choose(&options, "unit-word", "mm", &error));
    assert_true(program_options_choose(&options, "unit-word", "g71", &error));
    assert_refused(plate, &options, "--offset");
    assert_true(program_options_choose(&options, "offset", "none", &error));
    assert_refused(plate, &options, "--length-offset");
    assert_true(program_options_choose(&options, "length-offset", "none", &error));
    assert_refused(plate, &options, "--moves");
    assert_true(program_options_choose(&options, "moves", "longhand", &error));
    assert_refused(plate, &options, "--feeds");
    options.feeds = FEEDS_AT_MACHINE;
    char *text = text_of(plate, &options, &error);
    assert_non_null(text);
    NcProgram *nc = nc_read(text);
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        assert_true(move->speed == 0 && move->feed == 0);
    }
    nc_free(nc);
    g_free(text);
    options.tapping = true;
    assert_refused(plate, &options, "--moves cycles");
    options.tapping = false;
    options.safe_height = MM(1);
    assert_refused(plate, &options, "at the least");
    plate_free(plate);
}

static void test_bad_feeds(void **unused)
{
    static const char *const bad[] = {"drill,5mm,2000",        "saw,5mm,2000,100mm",
                                      "drill,blue,2000,100mm", "drill,5mm,0,100mm",
                                      "drill,5mm,2000,-1mm",   "drill,5mm,2000,100mm,7",
                                      "drill,5mm,2000,"};
    for (size_t i = 0; i < G_N_ELEMENTS(bad); i++) {
        ProgramOptions options = longhand;
        Error error = {.kind = ERROR_NONE};
        if (program_options_read_feeds(&options, bad[i], UNIT_MM, &error))
            fail_msg("%s was read", bad[i]);
        assert_string_equal(error.place, "line 1");
        program_options_clear(&options);
    }
    /* A tool without a row. */
    Plate *plate = plate_of_all_kinds();
    ProgramOptions options = longhand;
    assert_true(program_options_read_feeds(&options, "drill,5mm,2000,100mm", UNIT_MM, NULL));
    assert_refused(plate, &options, "no row for the spot drill 6 mm");
    program_options_clear(&options);
    plate_free(plate);
}

/* --- hardware ------------------------------------------------------------------------------- */

typedef struct Fixture {
    Plate *plate;
    FeatureId operation, fitting, held, free, between;
} Fixture;

static FeatureId claimed_hole(Plate *plate, double x, double y, FeatureId operation)
{
    Record *record = new_hole(plate, x, y);
    new_step(record, STEP_DRILL, 5, 0);
    record->hole.operation = operation;
    return put_record(plate, record);
}

/* Three holes in a row at Y 50, and a screw 30 mm high with its head of 20 mm in the middle between
 * the first two. */
static Fixture fixture_new(void)
{
    Fixture fixture = {.plate = plate_new(MM(150), MM(100), MM(20), PLATE_MM)};
    Plate *plate = fixture.plate;
    Record *operation = record_new(plate_new_id(plate), RECORD_OPERATION);
    operation->operation.name = g_strdup("holes on the base");
    operation->operation.face = ID_TOP;
    fixture.operation = put_record(plate, operation);
    fixture.held = put_hole(plate, 60, 50, 8);
    fixture.free = claimed_hole(plate, 30, 50, fixture.operation);
    claimed_hole(plate, 90, 50, fixture.operation);
    Record *screw = record_new(plate_new_id(plate), RECORD_FITTING);
    screw->fitting.kind = FITTING_HOLD_DOWN;
    screw->fitting.hole = fixture.held;
    screw->fitting.diameter = MM(8);
    screw->fitting.length = MM(22);
    screw->fitting.head_diameter = MM(20);
    screw->fitting.head_height = MM(8);
    screw->fitting.size = g_strdup("socket head M8");
    fixture.fitting = put_record(plate, screw);
    Record *fitted = record_copy(plate_find(plate, fixture.operation), fixture.operation);
    *list_append(&fitted->operation.fitted, FeatureId) = fixture.fitting;
    change_record(plate, fitted);
    return fixture;
}

static char *fixture_text(const Fixture *fixture, const ProgramOptions *options, Error *error)
{
    Placed *placed = placed_new(fixture->plate);
    ProgramRequest request = {fixture->plate, placed, fixture->operation, ID_TOP, options};
    char *text = program_text(&request, NULL, error);
    placed_free(placed);
    return text;
}

/* The screw's top is 30 mm up: the way over it lies above that, and asking for less is refused. */
static void test_over_hardware(void **unused)
{
    Fixture fixture = fixture_new();
    Error error = {.kind = ERROR_NONE};
    ProgramOptions options = longhand;
    assert_true(check_program(fixture.plate, fixture.operation, ID_TOP, &options, 30.9));
    options.safe_height = MM(30.5);
    assert_null(fixture_text(&fixture, &options, &error));
    assert_non_null(strstr(error.message, "31.000 mm at the least"));
    options.safe_height = MM(40);
    assert_true(check_program(fixture.plate, fixture.operation, ID_TOP, &options, 40));
    /* What is not fitted at the operation is not there. */
    assert_true(check_program(fixture.plate, ID_NONE, ID_TOP, &longhand, 4.9));
    plate_free(fixture.plate);
}

static double distance_to_way(const NcMove *move, double x, double y)
{
    double from_x = isnan(move->from[0]) ? move->to[0] : move->from[0];
    double from_y = isnan(move->from[1]) ? move->to[1] : move->from[1];
    double least = INFINITY;
    for (int i = 0; i <= 1000; i++) {
        double share = i / 1000.0;
        least = fmin(least, hypot(from_x + share * (move->to[0] - from_x) - x,
                                  from_y + share * (move->to[1] - from_y) - y));
    }
    return least;
}

/* No tool comes lower than the screw's head within the head and the tool's own radius. The head is
 * 20 mm wide and stands 30 mm over the plate; no tool is wider than 12 mm. */
static void check_clear_of_screw(const NcProgram *nc)
{
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        if (isnan(move->to[0]) ||
            fmin(move->to[2], isnan(move->from[2]) ? move->to[2] : move->from[2]) > 30)
            continue;
        if (distance_to_way(move, 60, 50) < 10 + 6)
            fail_msg("line %u goes through the screw", move->line);
    }
}

/* A reamed, a bored and a tapped hole with a screw fitted between them: long-hand and by cycles
 * every hole is at its place and depth, and every way lies over the screw or beside it. */
static void test_close_holes_beside_hardware(void **unused)
{
    Fixture fixture = fixture_new();
    Record *record = new_hole(fixture.plate, 30, 80);
    new_step(record, STEP_DRILL, 7.8, 0);
    new_step(record, STEP_REAM, 8, 0)->upper = 15 * LENGTH_UM;
    record->hole.operation = fixture.operation;
    put_record(fixture.plate, record);
    record = new_hole(fixture.plate, 90, 20);
    new_step(record, STEP_DRILL, 11.5, 15)->point = 118 * ANGLE_DEGREE;
    new_step(record, STEP_BORE, 12, 10)->upper = 11 * LENGTH_UM;
    record->hole.operation = fixture.operation;
    put_record(fixture.plate, record);
    record = new_hole(fixture.plate, 120, 52);
    new_step(record, STEP_DRILL, 5, 18)->point = 118 * ANGLE_DEGREE;
    new_step(record, STEP_TAP, 6, 8)->thread = g_strdup("M6");
    record->hole.operation = fixture.operation;
    put_record(fixture.plate, record);
    for (int moves = MOVES_LONGHAND; moves <= MOVES_CYCLES; moves++) {
        ProgramOptions options = longhand;
        options.moves = moves;
        options.tapping = moves == MOVES_CYCLES;
        assert_true(program_options_read_feeds(&options, feeds, UNIT_MM, NULL));
        assert_true(check_program(fixture.plate, fixture.operation, ID_TOP, &options, 30.9));
        Error error = {.kind = ERROR_NONE};
        char *text = fixture_text(&fixture, &options, &error);
        NcProgram *nc = nc_read(text);
        unsigned slow = 0, fast = 0;
        check_ways_out(nc, &slow, &fast);
        assert_int_equal(slow, moves == MOVES_CYCLES ? 3 : 2);
        check_clear_of_screw(nc);
        nc_free(nc);
        g_free(text);
        program_options_clear(&options);
    }
    /* A hole to bore beneath the head is refused either way. */
    record = new_hole(fixture.plate, 72, 50);
    new_step(record, STEP_BORE, 12, 10);
    record->hole.operation = fixture.operation;
    put_record(fixture.plate, record);
    for (int moves = MOVES_LONGHAND; moves <= MOVES_CYCLES; moves++) {
        ProgramOptions options = longhand;
        options.moves = moves;
        Error error = {.kind = ERROR_NONE};
        assert_null(fixture_text(&fixture, &options, &error));
        assert_non_null(strstr(error.message, "socket head M8"));
    }
    plate_free(fixture.plate);
}

/* A 5 mm drill beside a head of 20 mm: 12.5 mm from axis to axis would touch, and 1 mm more is kept
 * free. */
static void test_through_hardware(void **unused)
{
    static const struct {
        double x;
        bool fine;
    } cases[] = {{60, false}, {48, false}, {60 + 13.499, false}, {60 + 13.501, true}};
    for (size_t i = 0; i < G_N_ELEMENTS(cases); i++) {
        Fixture fixture = fixture_new();
        Error error = {.kind = ERROR_NONE};
        claimed_hole(fixture.plate, cases[i].x, 50, fixture.operation);
        /* The spot drill is 6 mm wide: leave it out of the figure. */
        char *text = fixture_text(&fixture, &longhand, &error);
        if (cases[i].x > 60) {
            /* 6 mm: half a millimetre more. */
            assert_null(text);
            g_free(text);
            plate_free(fixture.plate);
            fixture = fixture_new();
            claimed_hole(fixture.plate, cases[i].x + 0.5, 50, fixture.operation);
            text = fixture_text(&fixture, &longhand, &error);
        }
        assert_int_equal(text != NULL, cases[i].fine);
        if (!text)
            assert_non_null(strstr(error.message, "socket head M8"));
        g_free(text);
        plate_free(fixture.plate);
    }
}

static FeatureId put_keep_clear(Plate *plate, double height)
{
    Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
    record->keep_clear.face = ID_TOP;
    record->keep_clear.name = g_strdup("vise jaw");
    record->keep_clear.at = (Place){MM(75), MM(40)};
    record->keep_clear.length = MM(4);
    record->keep_clear.width = MM(90);
    record->keep_clear.height = MM(height);
    return put_record(plate, record);
}

/* A keep-clear with a height is flown over; one with none can't be. */
static void test_keep_clear(void **unused)
{
    Plate *plate = plate_new(MM(150), MM(100), MM(20), PLATE_MM);
    put_hole(plate, 30, 50, 5);
    put_hole(plate, 120, 50, 5);
    FeatureId jaw = put_keep_clear(plate, 18);
    assert_true(check_program(plate, ID_NONE, ID_TOP, &longhand, 22.9));
    take_away(plate, jaw);
    put_keep_clear(plate, 0);
    assert_refused(plate, &longhand, "crosses the keep-clear vise jaw");
    put_hole(plate, 75, 50, 5);
    assert_refused(plate, &longhand, "vise jaw would be in the tool's way");
    plate_free(plate);
}

/* A screw on the top is in the way of a hole in an inclined face beside it, and not of one further
 * off. */
static void test_hardware_of_another_face(void **unused)
{
    static const double places[] = {-50, -90};
    for (int i = 0; i < 2; i++) {
        Plate *plate = plate_new(MM(150), MM(100), MM(20), PLATE_MM);
        Record *face = record_new(plate_new_id(plate), RECORD_FACE);
        face->face.name = g_strdup("front");
        face->face.kind = FACE_INCLINED;
        face->face.from = (Place){MM(150), MM(30)};
        face->face.to = (Place){0, MM(30)};
        face->face.angle = 10 * ANGLE_DEGREE;
        face->face.extent = MM(30);
        FeatureId front = put_record(plate, face);
        Record *operation = record_new(plate_new_id(plate), RECORD_OPERATION);
        operation->operation.name = g_strdup("front");
        operation->operation.face = front;
        FeatureId id = put_record(plate, operation);
        FeatureId held = put_hole(plate, 100, 35, 8);
        Record *screw = record_new(plate_new_id(plate), RECORD_FITTING);
        screw->fitting.kind = FITTING_HOLD_DOWN;
        screw->fitting.hole = held;
        screw->fitting.diameter = MM(8);
        screw->fitting.length = MM(2);
        screw->fitting.head_diameter = MM(13);
        screw->fitting.head_height = MM(8);
        FeatureId fitting = put_record(plate, screw);
        Record *fitted = record_copy(plate_find(plate, id), id);
        *list_append(&fitted->operation.fitted, FeatureId) = fitting;
        change_record(plate, fitted);
        Record *hole = new_hole(plate, places[i], -1);
        hole->hole.face = front;
        hole->hole.operation = id;
        new_step(hole, STEP_DRILL, 5, 6);
        put_record(plate, hole);
        /* The head is 10 mm above the top: no less above the front's plane, which falls away. */
        bool written = check_program(plate, id, front, &longhand, 10);
        assert_int_equal(written, i == 1);
        plate_free(plate);
    }
}

/* Names with brackets, quotes and other alphabets stay inside one comment of plain characters. */
static void test_names(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    Record *settings = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    settings->settings.name = g_strdup("a) M30 (b\n%\nG01 Z-50 \303\244\342\202\254 \"x\"");
    settings->settings.number = g_strnfill(500, 'W');
    change_record(plate, settings);
    assert_true(check_program(plate, ID_NONE, ID_TOP, &longhand, 5));
    Error error = {.kind = ERROR_NONE};
    char *text = text_of(plate, &longhand, &error);
    for (const char *p = text; *p; p++)
        assert_true(*p == '\n' || (*p >= ' ' && *p <= '~'));
    char **lines = g_strsplit(text, "\n", -1);
    for (int i = 0; lines[i]; i++)
        assert_true(strlen(lines[i]) <= 80);
    g_strfreev(lines);
    g_free(text);
    plate_free(plate);
}

/* Tools are changed where there is room for a hand, 80 mm up. */
static void test_change_height(void **unused)
{
    Plate *plate = plate_of_all_kinds();
    Error error = {.kind = ERROR_NONE};
    ProgramOptions options = longhand;
    options.change_height = MM(80);
    assert_true(check_program(plate, ID_NONE, ID_TOP, &options, 5));
    char *text = text_of(plate, &options, &error);
    NcProgram *nc = nc_read(text);
    double height = NAN;
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        const NcMove *before = i ? &g_array_index(nc->moves, NcMove, i - 1) : move;
        if (move->tool != before->tool)
            assert_true(height == 80);
        height = move->to[2];
    }
    assert_true(height == 80);
    nc_free(nc);
    g_free(text);
    plate_free(plate);
}

static void test_nothing_to_drill(void **unused)
{
    Plate *plate = plate_new(MM(150), MM(100), MM(20), PLATE_MM);
    assert_refused(plate, &longhand, "nothing to drill");
    put_slot(plate, 75, 50, 40, 12, 8);
    assert_refused(plate, &longhand, "nothing to drill");
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_examples),
        cmocka_unit_test(test_random_plates),
        cmocka_unit_test(test_all_kinds),
        cmocka_unit_test(test_feeds_and_tapping),
        cmocka_unit_test(test_ways_out),
        cmocka_unit_test(test_close_holes_beside_hardware),
        cmocka_unit_test(test_choices),
        cmocka_unit_test(test_bad_feeds),
        cmocka_unit_test(test_over_hardware),
        cmocka_unit_test(test_through_hardware),
        cmocka_unit_test(test_keep_clear),
        cmocka_unit_test(test_hardware_of_another_face),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_change_height),
        cmocka_unit_test(test_nothing_to_drill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
