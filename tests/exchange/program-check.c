#include "program-check.h"

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

const ProgramOptions longhand = {
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
    case STEP_BORE:
        wanted->kind = "BORING BAR ";
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

bool goes_sideways(const NcMove *move)
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

bool check_program(const Plate *plate, FeatureId operation, FeatureId face,
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
        print_message("# refused: %s %s\n", error.place, error.message);
    }
    g_free(text);
    program_answer_clear(&answer);
    placed_free(placed);
    return text != NULL;
}

int check_settings(const Plate *plate, const ProgramOptions *options)
{
    int settings = 0;
    for (uint32_t i = 0; i <= plate_count(plate); i++) {
        const Record *operation = i < plate_count(plate) ? plate_at(plate, i) : NULL;
        if (operation &&
            (operation->kind != RECORD_OPERATION || operation->operation.kind != OPERATION_MAKING))
            continue;
        for (uint32_t f = 0; f < plate_count(plate); f++) {
            const Record *face = plate_at(plate, f);
            ProgramRequest request = {plate, NULL, operation ? operation->id : ID_NONE, face->id,
                                      options};
            if (face->kind != RECORD_FACE)
                continue;
            GArray *wanted = wanted_of(plate, &request);
            if (wanted->len > 0)
                assert_true(check_program(plate, request.operation, face->id, options, 5));
            settings += wanted->len > 0;
            g_array_unref(wanted);
        }
    }
    return settings;
}

/* What a tool's comment says behind its number. */
static const char *comment_of(const NcProgram *nc, unsigned tool)
{
    const char *comment = g_hash_table_lookup(nc->tools, GUINT_TO_POINTER(tool));
    const char *kind = comment ? strstr(comment, ": ") : NULL;
    return kind ? kind + 2 : "";
}

static bool is_slow_out(const char *kind)
{
    return g_str_has_prefix(kind, "REAMER ") || g_str_has_prefix(kind, "BORING BAR ") ||
           g_str_has_prefix(kind, "TAP ");
}

void check_ways_out(const NcProgram *nc, unsigned *slow, unsigned *fast)
{
    for (guint i = 0; i < nc->moves->len; i++) {
        const NcMove *move = &g_array_index(nc->moves, NcMove, i);
        if (goes_sideways(move) || !(move->from[2] < 0) || move->to[2] <= move->from[2])
            continue;
        bool want_slow = is_slow_out(comment_of(nc, move->tool));
        if (move->rapid == want_slow)
            fail_msg("line %u comes out %s: %s", move->line, move->rapid ? "by rapid" : "slowly",
                     comment_of(nc, move->tool));
        *(want_slow ? slow : fast) += 1;
    }
}
