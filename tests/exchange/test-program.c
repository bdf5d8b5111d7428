/* Drilling programs, read back by a reader of their own. What is expected comes from the plate's
 * records and from arithmetic that stands here, never from the plan that the writer goes by. */
#include "exchange/program.h"
#include "nc-reader.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Half of the last decimal: 0.001 mm, 0.0001 in. */
#define MM_STEP 0.000501
#define INCH_STEP 0.001271

static const ProgramOptions longhand = {
    .unit_word = UNIT_WORD_G71,
    .offset = OFFSET_G54,
    .length_offset = LENGTH_OFFSET_G43,
    .moves = MOVES_LONGHAND,
    .feeds = FEEDS_AT_MACHINE,
};

/* --- what the plate wants ------------------------------------------------------------------- */

typedef struct Wanted {
    FeatureId hole;
    const char *kind;   /* how the tool's comment goes on behind its number */
    char size[2][32];   /* one of them stands in the tool's comment; empty: any */
    double x, y;        /* mm from the datum */
    double least, most; /* mm below the face */
    double radius;
    bool met;
} Wanted;

/* By the definition in pose.h: turned over, then rotated, then shifted. */
static void place_hole(const Plate *plate, const Record *hole, double *x, double *y)
{
    *x = length_to_mm(hole->hole.at.x);
    *y = length_to_mm(hole->hole.at.y);
    const Record *station = plate_find(plate, hole->hole.station);
    if (!hole->hole.station || !station)
        return;
    double own_y = station->station.turned_over ? -*y : *y, own_x = *x;
    double angle = (double)station->station.rotation / 1e9 * G_PI / 180;
    *x = length_to_mm(station->station.at.x) + own_x * cos(angle) - own_y * sin(angle);
    *y = length_to_mm(station->station.at.y) + own_x * sin(angle) + own_y * cos(angle);
}

/* How much metal is below a place of a face that falls away by an angle, along the tool, where it
 * is most at the side of a hole of that radius. */
static double metal_at(const Plate *plate, FeatureId face, double y, double radius)
{
    double thickness = length_to_mm(plate_settings(plate)->stock.thickness);
    const Record *record = plate_find(plate, face);
    if (record->face.kind == FACE_TOP)
        return thickness;
    double angle = (double)record->face.angle / 1e9 * G_PI / 180;
    return (thickness + y * sin(angle)) / cos(angle) + radius * tan(angle);
}

static double cone(const Step *step, double usual)
{
    double degrees = step->point ? (double)step->point / 1e9 : usual;
    return degrees > 0 ? length_to_mm(step->diameter) / 2 / tan(degrees * G_PI / 360) : 0;
}

/* A drill of a metric size is called by it in an inch plate too, and the other way round. */
static void say_size(Length diameter, char size[2][32])
{
    g_snprintf(size[0], 32, "%.4f IN", length_to_mm(diameter) / 25.4);
    millionths_write(diameter, size[1]);
    g_strlcat(size[1], " MM", 32);
}

/* False for steps that no program of this kind makes. */
static bool want_step(const Step *step, double metal, bool tapping, Wanted *wanted)
{
    double depth = length_to_mm(step->depth), diameter = length_to_mm(step->diameter);
    bool through = step->through || depth >= metal;
    say_size(step->diameter, wanted->size);
    wanted->radius = diameter / 2;
    switch (step->kind) {
    case STEP_DRILL:
        wanted->kind = "DRILL ";
        wanted->least = through ? metal + cone(step, 118) : depth + cone(step, 0);
        wanted->most = wanted->least + (through ? 1.5 : 0);
        return true;
    case STEP_COUNTERBORE:
        wanted->kind = "COUNTERBORE ";
        wanted->least = wanted->most = depth;
        return true;
    case STEP_COUNTERSINK:
        wanted->kind = "COUNTERSINK ";
        wanted->least = wanted->most = depth;
        return true;
    case STEP_REAM:
        wanted->kind = "REAMER ";
        wanted->least = through ? metal : depth;
        wanted->most = wanted->least + 3;
        return true;
    case STEP_TAP:
        wanted->kind = "TAP ";
        *wanted->size[0] = *wanted->size[1] = 0;
        wanted->least = through ? metal : depth;
        wanted->most = wanted->least + 8;
        return tapping;
    default:
        return false;
    }
}

static bool has_spot(const Hole *hole)
{
    for (uint32_t i = 0; i < hole->steps.count; i++)
        if (LIST_AT(&hole->steps, Step, i)->kind == STEP_SPOT)
            return true;
    return false;
}

static void want_hole(const Plate *plate, const Record *record, bool tapping, GArray *all)
{
    Wanted wanted = {.hole = record->id};
    double y;
    place_hole(plate, record, &wanted.x, &y);
    wanted.y = y;
    double radius = length_to_mm(hole_largest_diameter(&record->hole)) / 2;
    double metal = metal_at(plate, record->hole.face, y, radius);
    if (metal <= 0) /* an inclined face may be drawn further down than the plate is thick */
        return;
    if (!has_spot(&record->hole)) {
        wanted.kind = "SPOT DRILL ";
        wanted.least = 0;
        wanted.most = 4; /* shallow */
        wanted.radius = 3.2;
        g_array_append_val(all, wanted);
    }
    for (uint32_t i = 0; i < record->hole.steps.count; i++)
        if (want_step(LIST_AT(&record->hole.steps, Step, i), metal, tapping, &wanted))
            g_array_append_val(all, wanted);
}

static GArray *wanted_of(const Plate *plate, const ProgramRequest *request)
{
    GArray *all = g_array_new(FALSE, FALSE, sizeof(Wanted));
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_HOLE || record->hole.made || record->hole.face != request->face)
            continue;
        if (request->operation == record->hole.operation)
            want_hole(plate, record, request->options->tapping, all);
    }
    return all;
}

/* --- what the program does ------------------------------------------------------------------ */

/* One visit: all moves up and down at one place with one tool. */
typedef struct Plunge {
    double x, y, depth;
    unsigned tool;
} Plunge;

static bool goes_sideways(const NcMove *move)
{
    return isnan(move->from[0]) || move->from[0] != move->to[0] || move->from[1] != move->to[1];
}

/* Nothing goes sideways but high, nothing falls by rapid onto metal, nothing is left in a hole. */
static void check_moves(const NcProgram *nc, double safe)
{
    double deepest = 0;
    unsigned tool = 0;
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        bool across = goes_sideways(move) && !isnan(move->to[0]);
        if (across || move->tool != tool) {
            if (across && (!(move->from[2] >= safe - 1e-9) || !(move->to[2] >= safe - 1e-9)))
                fail_msg("line %u goes sideways at %g", move->line, move->to[2]);
            deepest = 0;
        }
        tool = move->tool;
        if (move->rapid && move->to[2] <= deepest)
            if (!(deepest < 0 && move->to[2] > deepest) && move->to[2] <= 0)
                fail_msg("line %u goes into metal by rapid", move->line);
        if (!move->rapid)
            deepest = fmin(deepest, move->to[2]);
    }
}

static GArray *plunges_of(const NcProgram *nc)
{
    GArray *all = g_array_new(FALSE, FALSE, sizeof(Plunge));
    Plunge now = {.depth = 0};
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        if (goes_sideways(move) || move->tool != now.tool) {
            if (now.depth > 0)
                g_array_append_val(all, now);
            now = (Plunge){move->to[0], move->to[1], 0, move->tool};
        }
        if (!move->rapid)
            now.depth = fmax(now.depth, -move->to[2]);
    }
    if (now.depth > 0)
        g_array_append_val(all, now);
    return all;
}

static bool tool_is(const NcProgram *nc, unsigned tool, const Wanted *wanted)
{
    const char *comment = g_hash_table_lookup(nc->tools, GUINT_TO_POINTER(tool));
    const char *kind = comment ? strstr(comment, ": ") : NULL;
    return kind && g_str_has_prefix(kind + 2, wanted->kind) &&
           (strstr(kind, wanted->size[0]) || strstr(kind, wanted->size[1]));
}

static bool meets(const NcProgram *nc, const Plunge *plunge, const Wanted *wanted, double step)
{
    return fabs(plunge->x - wanted->x) <= step && fabs(plunge->y - wanted->y) <= step &&
           plunge->depth >= wanted->least - step && plunge->depth <= wanted->most + step &&
           tool_is(nc, plunge->tool, wanted);
}

/* Each thing wanted is done once, and nothing else. */
static void check_holes(const NcProgram *nc, GArray *wanted, double step)
{
    GArray *plunges = plunges_of(nc);
    for (guint p = 0; p < plunges->len; p++) {
        const Plunge *plunge = &g_array_index(plunges, Plunge, p);
        bool found = false;
        for (guint w = 0; w < wanted->len && !found; w++) {
            Wanted *want = &g_array_index(wanted, Wanted, w);
            found = !want->met && meets(nc, plunge, want, step);
            want->met = want->met || found;
        }
        if (!found)
            fail_msg("nobody wants T%u at %g, %g to a depth of %g", plunge->tool, plunge->x,
                     plunge->y, plunge->depth);
    }
    for (guint w = 0; w < wanted->len; w++) {
        const Wanted *want = &g_array_index(wanted, Wanted, w);
        if (!want->met)
            fail_msg("hole %u has no %s%s at %g, %g from %g to %g deep", want->hole, want->kind,
                     want->size[0], want->x, want->y, want->least, want->most);
    }
    g_array_unref(plunges);
}

static void check_words(const NcProgram *nc, const ProgramOptions *options)
{
    static const char *const units[] = {"", "G70", "G71", "G20", "G21"};
    if (*nc->complaint)
        fail_msg("%s", nc->complaint);
    assert_string_equal(nc->unit_word, units[options->unit_word]);
    assert_string_equal(nc->offset, options->offset == OFFSET_NONE ? "" : "G54");
    assert_string_equal(nc->length_word, options->length_offset == LENGTH_OFFSET_NONE  ? ""
                                         : options->length_offset == LENGTH_OFFSET_G43 ? "G43"
                                                                                       : "G44");
    assert_int_equal(nc->stops, nc->tool_changes);
    assert_int_equal(nc->numbered, options->line_numbers);
    assert_int_equal(nc->cycles > 0, options->moves == MOVES_CYCLES);
    bool cautioned = false;
    for (guint i = 0; i < nc->comments->len; i++)
        cautioned = cautioned || g_str_has_prefix(nc->comments->pdata[i], "CAUTION:");
    assert_true(cautioned);
}

/* Writes and reads; false where the writer refuses. */
static bool check_program(const Plate *plate, FeatureId operation, FeatureId face,
                          const ProgramOptions *options, double safe)
{
    Placed *placed = placed_new(plate);
    ProgramRequest request = {plate, placed, operation, face, options};
    Error error = {.kind = ERROR_NONE};
    ProgramAnswer answer = {.tools = 0};
    char *text = program_text(&request, &answer, &error);
    if (text) {
        char *again = program_text(&request, NULL, &error);
        assert_string_equal(text, again);
        bool inch = options->unit_word == UNIT_WORD_G70 || options->unit_word == UNIT_WORD_G20;
        NcProgram *nc = nc_read(text);
        GArray *wanted = wanted_of(plate, &request);
        check_words(nc, options);
        check_moves(nc, safe - 2 * INCH_STEP);
        check_holes(nc, wanted, inch ? INCH_STEP : MM_STEP);
        assert_int_equal(nc->tool_changes, answer.changes + 1);
        g_array_unref(wanted);
        nc_free(nc);
        g_free(again);
    } else {
        assert_true(*error.message);
    }
    g_free(text);
    program_answer_clear(&answer);
    placed_free(placed);
    return text != NULL;
}

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
                    assert_true(check_program(plate, ID_NONE, ID_TOP, &options, 5));
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
