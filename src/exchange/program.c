#include "exchange/program.h"

#include "exchange/program-room.h"
#include "exchange/program-words.h"

#include <math.h>
#include <string.h>

/* mm over the face: where a rapid move down ends and the feed begins. */
#define APPROACH 2.0
/* mm: how far above the last bite's end the drill comes back to by rapid. */
#define BACK_OFF 0.5

static const char caution[] =
    "Check every figure against the stock, the tool and the manual of the machine. Prove this "
    "program "
    "above the work first. Clamped work can be thrown: wear eye protection. Local rules and a "
    "qualified machinist come before this program.";

typedef struct Program {
    const ProgramRequest *request;
    const ProgramOptions *options;
    Shopplan *plan;
    ProgramRoom room;
    WordWriter writer;
    Point datum;
    double safe; /* mm, as written */
} Program;

/* --- moves ---------------------------------------------------------------------------------- */

static void rapid_z(Program *program, double z)
{
    block_begin(&program->writer);
    word_add(&program->writer, "G00");
    word_length(&program->writer, 'Z', z);
    block_end(&program->writer);
}

static void rapid_xy(Program *program, Point at)
{
    block_begin(&program->writer);
    word_add(&program->writer, "G00");
    word_length(&program->writer, 'X', at.x);
    word_length(&program->writer, 'Y', at.y);
    block_end(&program->writer);
}

/* The table's feed in the program's unit; a tap's goes by its pitch. */
static void add_feed(Program *program, const Tool *tool)
{
    const FeedRow *row = program_options_feed(program->options, tool);
    if (program->options->feeds != FEEDS_FROM_TABLE || !row)
        return;
    double feed = tool->kind == TOOL_TAP ? tool->pitch * row->speed : length_to_mm(row->feed);
    word_figure(&program->writer, 'F', program->writer.inch ? feed / 25.4 : feed);
}

static void feed_z(Program *program, const Tool *tool, double z)
{
    block_begin(&program->writer);
    word_add(&program->writer, "G01");
    word_length(&program->writer, 'Z', z);
    add_feed(program, tool);
    block_end(&program->writer);
}

/* Bite by bite, lifted out of the hole between, so that chips fall out. */
static void peck_down(Program *program, const Tool *tool, const PlanStep *step)
{
    for (double depth = step->start + step->peck; depth < step->tip - 1e-9; depth += step->peck) {
        feed_z(program, tool, -depth);
        rapid_z(program, APPROACH);
        rapid_z(program, BACK_OFF - depth);
    }
}

/* Reamers and boring bars come out at the feed, so as not to score the hole. */
static bool comes_out_at_feed(const Tool *tool)
{
    return tool->kind == TOOL_REAMER || tool->kind == TOOL_BORING_BAR;
}

static void make_longhand(Program *program, const Tool *tool, const PlanStep *step, Point at)
{
    rapid_xy(program, at);
    rapid_z(program, APPROACH);
    if (step->peck > 0)
        peck_down(program, tool, step);
    feed_z(program, tool, -step->tip);
    if (comes_out_at_feed(tool))
        feed_z(program, tool, APPROACH);
    rapid_z(program, program->safe);
}

/* R is the safe height itself: controls differ in whether a cycle ends there or where it began. */
static void make_by_cycle(Program *program, const Tool *tool, const PlanStep *step, Point at)
{
    WordWriter *writer = &program->writer;
    block_begin(writer);
    word_add(writer, tool->kind == TOOL_TAP    ? "G84"
                     : comes_out_at_feed(tool) ? "G85"
                     : step->peck > 0          ? "G83"
                                               : "G81");
    word_length(writer, 'X', at.x);
    word_length(writer, 'Y', at.y);
    word_length(writer, 'Z', -step->tip);
    word_length(writer, 'R', program->safe);
    if (step->peck > 0)
        word_length(writer, 'Q', step->peck);
    add_feed(program, tool);
    block_end(writer);
}

/* --- tools ---------------------------------------------------------------------------------- */

static void spindle_off(Program *program)
{
    block_begin(&program->writer);
    word_add(&program->writer, "M05");
    block_end(&program->writer);
}

static void start_spindle(Program *program, const Tool *tool)
{
    const FeedRow *row = program_options_feed(program->options, tool);
    block_begin(&program->writer);
    if (program->options->feeds == FEEDS_FROM_TABLE && row)
        word_figure(&program->writer, 'S', row->speed);
    word_add(&program->writer, "M03");
    block_end(&program->writer);
}

static PlateUnit unit_of(const Program *program)
{
    return (PlateUnit)plate_settings(program->request->plate)->unit;
}

static void take_tool(Program *program, const Tool *tool)
{
    char text[TOOL_TEXT];
    WordWriter *writer = &program->writer;
    const char *length_word = length_offset_text(program->options->length_offset);
    remark_add(writer, "T%u: %s", tool->number, tool_text(tool, unit_of(program), text));
    block_begin(writer);
    word_whole(writer, 'T', tool->number);
    word_add(writer, "M06");
    block_end(writer);
    if (!length_word)
        remark_add(writer, "touch this tool off: Z 0 on the face of the plate");
    block_begin(writer);
    word_add(writer, "M00");
    block_end(writer);
    block_begin(writer);
    word_add(writer, "G00");
    if (length_word)
        word_add(writer, length_word);
    word_length(writer, 'Z', program->safe);
    if (length_word)
        word_whole(writer, 'H', tool->number);
    block_end(writer);
    start_spindle(program, tool);
}

/* Every hole has ended at the safe height. */
static void leave_tool(Program *program)
{
    if (program->options->moves == MOVES_CYCLES) {
        block_begin(&program->writer);
        word_add(&program->writer, "G80");
        block_end(&program->writer);
        rapid_z(program, program->safe);
    }
    spindle_off(program);
    double change = length_to_mm(program->options->change_height);
    if (change > program->safe)
        rapid_z(program, change);
}

static void make_steps(Program *program)
{
    const Setting *setting = program->room.setting;
    const Tool *in_hand = NULL;
    for (uint32_t i = 0; i < setting->step_count; i++) {
        const PlanStep *step = &setting->steps[i];
        const Tool *tool = &program->plan->tools[step->tool];
        if (!room_does(&program->room, step))
            continue;
        if (tool != in_hand) {
            if (in_hand)
                leave_tool(program);
            take_tool(program, tool);
            in_hand = tool;
        }
        Point at = point_minus(step->at, program->datum);
        if (program->options->moves == MOVES_CYCLES)
            make_by_cycle(program, tool, step, at);
        else
            make_longhand(program, tool, step, at);
    }
    if (in_hand)
        leave_tool(program);
}

/* --- what stands round the moves ------------------------------------------------------------ */

static const char *datum_text(const Program *program)
{
    static const char *const corners[] = {
        "front left corner of the stock", "front right corner of the stock",
        "back right corner of the stock", "back left corner of the stock"};
    const Datum *datum = &plate_settings(program->request->plate)->datum;
    if (program->request->face != ID_TOP)
        return "the end of the break line that the face is drawn from";
    return datum->kind == DATUM_HOLE    ? "the axis of the datum hole"
           : datum->kind == DATUM_POINT ? "the datum point"
                                        : corners[datum->corner];
}

/* mm: how far the longest tool comes out below through holes. */
static double comes_out_by(const Program *program)
{
    const Setting *setting = program->room.setting;
    double most = 0;
    for (uint32_t i = 0; i < setting->step_count; i++) {
        const PlanStep *step = &setting->steps[i];
        if (step->through && room_does(&program->room, step))
            most = fmax(most, step->tip - step->metal);
    }
    return most;
}

static void remark_length(Program *program, const char *before, double mm, const char *after)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    bool inch = program->writer.inch;
    g_ascii_formatd(text, sizeof text, inch ? "%.4f" : "%.3f", inch ? mm / 25.4 : mm);
    remark_add(&program->writer, "%s %s%s", before, text, after);
}

static void add_heading(Program *program)
{
    WordWriter *writer = &program->writer;
    const Settings *settings = plate_settings(program->request->plate);
    const Record *face = plate_find(program->request->plate, program->request->face);
    const Record *operation = program->room.operation;
    remark_add(writer, "Plate: %s", settings->name ? settings->name : "no name");
    remark_add(writer, "Number: %s, revision: %s", settings->number ? settings->number : "none",
               settings->revision ? settings->revision : "none");
    remark_add(writer, "Operation: %s. Face: %s",
               operation ? operation->operation.name : "none chosen",
               face && face->face.name ? face->face.name : "top");
    remark_add(writer, "Drilling alone. Lengths in %s", writer->inch ? "inch" : "mm");
    remark_add(writer, "X 0 Y 0: %s", datum_text(program));
    if (program->request->face == ID_TOP) {
        remark_add(writer, "Z 0: top of the plate");
    } else {
        char angle[LENGTH_TEXT];
        angle_write(face->face.angle, angle);
        remark_add(writer, "Z 0: the face, set level: the plate tilted by %s degrees", angle);
    }
    remark_length(program, "Safe height: Z", program->safe, ". No move sideways lies below it");
    if (comes_out_by(program) > 0)
        remark_length(program, "Tools come out below the plate by up to", comes_out_by(program),
                      ": nothing may stand there");
    if (program->options->feeds == FEEDS_AT_MACHINE)
        remark_add(writer, "No S and F words: set speed and feed at the machine for each tool");
    if (program->options->moves == MOVES_CYCLES)
        remark_add(writer, "Cycles return to R, the safe height. Q is one peck");
    remark_add(writer, "CAUTION: %s", caution);
    for (guint i = 0; i < program->plan->remarks->len; i++)
        remark_add(writer, "NOTE: %s", (const char *)program->plan->remarks->pdata[i]);
}

/* The features whose steps the program leaves to somebody else, each once. */
static void add_left_out(Program *program, int kind, const char *what)
{
    const Setting *setting = program->room.setting;
    GString *names = g_string_new(NULL);
    for (uint32_t i = 0; i < setting->step_count; i++) {
        const PlanStep *step = &setting->steps[i];
        const Tool *tool = &program->plan->tools[step->tool];
        char name[NAME_TEXT];
        if (tool->kind != kind || room_does(&program->room, step))
            continue;
        const Record *record = plate_find(program->request->plate, step->feature);
        g_string_append_printf(names, " %s", shopplan_name(record, name));
    }
    if (names->len > 0)
        remark_add(&program->writer, "%s:%s", what, names->str);
    g_string_free(names, TRUE);
}

static void write_program(Program *program)
{
    WordWriter *writer = &program->writer;
    const char *offset = offset_word_text(program->options->offset);
    g_string_append(writer->text, "%\n");
    add_heading(program);
    block_begin(writer);
    word_add(writer, unit_word_text(program->options->unit_word));
    block_end(writer);
    block_begin(writer);
    word_add(writer, "G17 G40 G80 G90 G94");
    block_end(writer);
    if (offset) {
        block_begin(writer);
        word_add(writer, offset);
        block_end(writer);
    }
    make_steps(program);
    add_left_out(program, TOOL_TAP, "Left to tap by hand");
    add_left_out(program, TOOL_CUTTER, "Left to mill");
    block_begin(writer);
    word_add(writer, "M30");
    block_end(writer);
    g_string_append(writer->text, "%\n");
}

/* --- before anything is written ------------------------------------------------------------- */

static bool check_feeds(const Program *program, Error *error)
{
    const Setting *setting = program->room.setting;
    for (uint32_t i = 0; i < setting->step_count; i++) {
        const Tool *tool = &program->plan->tools[setting->steps[i].tool];
        char text[TOOL_TEXT];
        if (program->options->feeds == FEEDS_FROM_TABLE &&
            room_does(&program->room, &setting->steps[i]) &&
            !program_options_feed(program->options, tool))
            return error_set(error, ERROR_MISSING, "--feeds",
                             "the table has no row for the %s; add one, or say --feeds machine",
                             tool_text(tool, unit_of(program), text));
        if (tool->kind == TOOL_TAP && room_does(&program->room, &setting->steps[i]) &&
            tool->pitch <= 0)
            return error_set(error, ERROR_MISSING, "--tapping",
                             "the pitch of the %s is in no table, so it can't be tapped by a "
                             "program",
                             tool_text(tool, unit_of(program), text));
    }
    return true;
}

static bool choose_safe_height(Program *program, Error *error)
{
    double wanted = length_to_mm(program->options->safe_height);
    double height = room_height(&program->room);
    double least = fmax(height + ROOM_ABOVE_LEAST, APPROACH);
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    if (wanted > 0 && wanted < least) {
        g_ascii_formatd(text, sizeof text, "%.3f", least);
        return error_set(error, ERROR_CONFLICT, "--safe-height",
                         "it must be %s mm at the least, above all that is fitted", text);
    }
    program->safe = word_rounded(&program->writer, wanted > 0 ? wanted : height + ROOM_ABOVE);
    return true;
}

static bool has_work(const ProgramRoom *room)
{
    for (uint32_t i = 0; room->setting && i < room->setting->step_count; i++)
        if (room_does(room, &room->setting->steps[i]))
            return true;
    return false;
}

static void fill_answer(const Program *program, ProgramAnswer *answer)
{
    const Setting *setting = program->room.setting;
    GHashTable *tools = g_hash_table_new(NULL, NULL), *holes = g_hash_table_new(NULL, NULL);
    uint32_t in_hand = UINT32_MAX;
    *answer = (ProgramAnswer){.safe_height = program->safe,
                              .remarks = g_ptr_array_ref(program->plan->remarks)};
    for (uint32_t i = 0; i < setting->step_count; i++) {
        const PlanStep *step = &setting->steps[i];
        if (!room_does(&program->room, step))
            continue;
        g_hash_table_add(tools, GUINT_TO_POINTER(step->tool));
        g_hash_table_add(holes, GUINT_TO_POINTER(step->feature));
        answer->changes += in_hand != UINT32_MAX && in_hand != step->tool;
        in_hand = step->tool;
    }
    answer->tools = g_hash_table_size(tools);
    answer->holes = g_hash_table_size(holes);
    g_hash_table_unref(tools);
    g_hash_table_unref(holes);
}

void program_answer_clear(ProgramAnswer *answer)
{
    if (answer->remarks)
        g_ptr_array_unref(answer->remarks);
    *answer = (ProgramAnswer){.tools = 0};
}

static bool prepare(Program *program, Error *error)
{
    if (!has_work(&program->room))
        return error_set(error, ERROR_MISSING, NULL,
                         "there is nothing to drill at that operation on that face");
    return check_feeds(program, error) && choose_safe_height(program, error) &&
           room_check(&program->room, program->safe, error);
}

char *program_text(const ProgramRequest *request, ProgramAnswer *answer, Error *error)
{
    if (!program_options_check(request->options, error))
        return NULL;
    Shopplan *plan = shopplan_new(request->plate, request->placed);
    Program program = {
        .request = request,
        .options = request->options,
        .plan = plan,
        .room = {request->placed,
                 plate_find_kind(request->plate, request->operation, RECORD_OPERATION),
                 shopplan_setting(plan, request->operation, request->face), plan->tools,
                 request->options->tapping},
        .writer = {.inch = unit_word_is_inch(request->options->unit_word),
                   .line_numbers = request->options->line_numbers},
        .datum = shopplan_datum(request->plate, request->face),
    };
    char *text = NULL;
    if (prepare(&program, error)) {
        program.writer.text = g_string_new(NULL);
        write_program(&program);
        text = g_string_free(program.writer.text, FALSE);
        if (answer)
            fill_answer(&program, answer);
    }
    shopplan_free(plan);
    return text;
}
