#include "exchange/program-options.h"

#include "trade/typed.h"

#include <string.h>

static const char *const unit_words[] = {NULL, "G70", "G71", "G20", "G21"};
static const char *const offset_words[] = {NULL, "none", "G54", "G55", "G56", "G57", "G58", "G59"};
static const char *const length_words[] = {NULL, "none", "G43", "G44"};
static const char *const moves_words[] = {NULL, "longhand", "cycles"};

/* One choice: its option, its words, where it is kept, and why it must be made. */
typedef struct Choice {
    const char *option;
    const char *const *words;
    size_t word_count;
    size_t offset;
    const char *why;
} Choice;

static const Choice choices[] = {
    {"unit-word", unit_words, G_N_ELEMENTS(unit_words), offsetof(ProgramOptions, unit_word),
     "choose the word that your control takes for the unit: --unit-word G71 (mm) or G70 (inch) as "
     "ISO 6983-1 has them, or G21 (mm) or G20 (inch) as many small controls want"},
    {"offset", offset_words, G_N_ELEMENTS(offset_words), offsetof(ProgramOptions, offset),
     "choose the word for the work's origin: --offset G54 to G59, or none where the control has "
     "none"},
    {"length-offset", length_words, G_N_ELEMENTS(length_words),
     offsetof(ProgramOptions, length_offset),
     "choose how the tools' lengths are taken in: --length-offset G43 or G44, or none where each "
     "tool is touched off on the plate"},
    {"moves", moves_words, G_N_ELEMENTS(moves_words), offsetof(ProgramOptions, moves),
     "choose how holes are written: --moves longhand (every move, the safer where the control is "
     "not known well) or cycles (canned cycles, G81 and on)"},
};

static int *member(ProgramOptions *options, const Choice *choice)
{
    return (int *)(void *)((char *)options + choice->offset);
}

bool program_options_choose(ProgramOptions *options, const char *option, const char *word,
                            Error *error)
{
    for (size_t c = 0; c < G_N_ELEMENTS(choices); c++) {
        if (strcmp(choices[c].option, option) != 0)
            continue;
        for (size_t i = 1; i < choices[c].word_count; i++)
            if (g_ascii_strcasecmp(choices[c].words[i], word) == 0) {
                *member(options, &choices[c]) = (int)i;
                return true;
            }
        return error_set(error, ERROR_TYPED, option, "\"%.20s\" is none of them; %s", word,
                         choices[c].why);
    }
    return error_set(error, ERROR_TYPED, NULL, "there is no choice \"%.40s\"", option);
}

bool program_options_check(const ProgramOptions *options, Error *error)
{
    for (size_t c = 0; c < G_N_ELEMENTS(choices); c++) {
        ProgramOptions *chosen = (ProgramOptions *)options;
        if (*member(chosen, &choices[c]) == 0)
            return error_set(error, ERROR_TYPED, NULL, "%s", choices[c].why);
    }
    if (options->feeds == FEEDS_UNCHOSEN)
        return error_set(error, ERROR_TYPED, NULL,
                         "choose where speeds and feeds come from: --feeds machine (set by hand, "
                         "the program has no S and F words) or --feeds TABLE.csv");
    if (options->tapping && options->moves != MOVES_CYCLES)
        return error_set(error, ERROR_TYPED, "--tapping",
                         "tapping needs the control's own cycle: --moves cycles; without it the "
                         "taps are left to the hand");
    if (options->tapping && options->feeds != FEEDS_FROM_TABLE)
        return error_set(error, ERROR_TYPED, "--tapping",
                         "tapping needs a speed for each tap: --feeds TABLE.csv");
    return true;
}

void program_options_clear(ProgramOptions *options)
{
    if (options->feed_rows)
        g_array_unref(options->feed_rows);
    *options = (ProgramOptions){.unit_word = UNIT_WORD_UNCHOSEN};
}

const char *unit_word_text(int unit_word)
{
    return unit_words[unit_word];
}

const char *offset_word_text(int offset)
{
    return offset == OFFSET_NONE ? NULL : offset_words[offset];
}

const char *length_offset_text(int length_offset)
{
    return length_offset == LENGTH_OFFSET_NONE ? NULL : length_words[length_offset];
}

bool unit_word_is_inch(int unit_word)
{
    return unit_word == UNIT_WORD_G70 || unit_word == UNIT_WORD_G20;
}

/* --- the table of feeds --------------------------------------------------------------------- */

static bool read_kind(const char *word, int *kind, Error *error)
{
    for (int i = 0; i < TOOL_CUTTER; i++)
        if (g_ascii_strcasecmp(word, tool_kind_name(i)) == 0) {
            *kind = i;
            return true;
        }
    return error_set(error, ERROR_FORMAT, NULL,
                     "\"%.30s\" is no tool of a drilling program; there are spot drill, drill, "
                     "counterbore, countersink, boring bar, reamer and tap",
                     word);
}

static bool read_feed(const char *word, Unit unit, FeedRow *row, Error *error)
{
    if (row->kind == TOOL_TAP && !*word)
        return true;
    if (!typed_length_read(word, unit, &row->feed, NULL, 0, error))
        return false;
    return row->feed > 0 || error_set(error, ERROR_FORMAT, NULL, "a feed is more than 0 a minute");
}

static bool read_row(char **cells, Unit unit, FeedRow *row, Error *error)
{
    for (int i = 0; i < 4; i++)
        g_strstrip(cells[i]);
    return read_kind(cells[0], &row->kind, error) &&
           typed_length_read(cells[1], unit, &row->diameter, NULL, 0, error) &&
           typed_number_read(cells[2], 1, 1000000, &row->speed, error) &&
           read_feed(cells[3], unit, row, error);
}

static bool add_line(ProgramOptions *options, char *line, Unit unit, Error *error)
{
    g_strstrip(line);
    if (!*line || *line == '#' || g_ascii_strncasecmp(line, "tool,", 5) == 0)
        return true;
    char **cells = g_strsplit(line, ",", -1);
    FeedRow row = {.kind = TOOL_DRILL};
    bool good = g_strv_length(cells) == 4
                    ? read_row(cells, unit, &row, error)
                    : error_set(error, ERROR_FORMAT, NULL,
                                "a line has four columns: tool, diameter, speed, feed");
    if (good)
        g_array_append_val(options->feed_rows, row);
    g_strfreev(cells);
    return good;
}

bool program_options_read_feeds(ProgramOptions *options, const char *text, Unit unit, Error *error)
{
    if (!options->feed_rows)
        options->feed_rows = g_array_new(FALSE, TRUE, sizeof(FeedRow));
    options->feeds = FEEDS_FROM_TABLE;
    char **lines = g_strsplit(text, "\n", -1);
    bool good = true;
    for (int i = 0; lines[i] && good; i++) {
        good = add_line(options, lines[i], unit, error);
        if (!good && error)
            g_snprintf(error->place, sizeof error->place, "line %d", i + 1);
    }
    g_strfreev(lines);
    return good;
}

const FeedRow *program_options_feed(const ProgramOptions *options, const Tool *tool)
{
    for (guint i = 0; options->feed_rows && i < options->feed_rows->len; i++) {
        const FeedRow *row = &g_array_index(options->feed_rows, FeedRow, i);
        if (row->kind == tool->kind && row->diameter == tool->diameter)
            return row;
    }
    return NULL;
}
