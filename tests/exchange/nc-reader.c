#include "nc-reader.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Words {
    bool given[26];
    double value[26];
    int g[16], m[8];
    int g_count, m_count;
} Words;

typedef struct State {
    NcProgram *program;
    double at[3];
    double factor; /* mm of the unit; 0: not said yet */
    int motion;    /* 0, 1, 81, 83, 84, 85; -1: none */
    double cycle_z, cycle_r, cycle_q;
    bool absolute, spindle, stopped_for_tool;
    unsigned tool, waiting, line, number;
    unsigned blocks, numbered;
    double speed, feed;
} State;

static void complain(State *state, const char *what)
{
    if (!*state->program->complaint)
        g_snprintf(state->program->complaint, sizeof state->program->complaint, "line %u: %s",
                   state->line, what);
}

static bool has(const Words *words, char letter)
{
    return words->given[letter - 'A'];
}

static double value(const Words *words, char letter)
{
    return words->value[letter - 'A'];
}

static void move_to(State *state, double x, double y, double z, bool rapid, bool out_at_feed)
{
    NcMove move = {{state->at[0], state->at[1], state->at[2]},
                   {x, y, z},
                   rapid,
                   out_at_feed,
                   state->tool,
                   state->line,
                   state->speed,
                   state->feed};
    if (!state->tool)
        complain(state, "moves before there is a tool");
    if (state->factor == 0)
        complain(state, "moves before the unit is said");
    if (!state->absolute)
        complain(state, "moves before G90");
    if (!rapid && !state->spindle)
        complain(state, "feeds while the spindle stands still");
    g_array_append_val(state->program->moves, move);
    state->at[0] = x;
    state->at[1] = y;
    state->at[2] = z;
}

/* A cycle: over to the place as high as it is, down to R by rapid, down at the feed, and back to R
 * by rapid, or at the feed for reaming and tapping. */
static void cycle(State *state, double x, double y)
{
    bool slow = state->motion == 84 || state->motion == 85;
    if (isnan(state->cycle_z) || isnan(state->cycle_r))
        complain(state, "a cycle without Z or R");
    if (state->motion == 83 && !(state->cycle_q > 0))
        complain(state, "pecks of no length");
    state->program->cycles++;
    move_to(state, x, y, state->at[2], true, false);
    move_to(state, x, y, state->cycle_r, true, false);
    move_to(state, x, y, state->cycle_z, false, false);
    move_to(state, x, y, state->cycle_r, !slow, slow);
}

static void do_motion(State *state, const Words *words)
{
    bool any = has(words, 'X') || has(words, 'Y') || has(words, 'Z');
    double x = has(words, 'X') ? value(words, 'X') * state->factor : state->at[0];
    double y = has(words, 'Y') ? value(words, 'Y') * state->factor : state->at[1];
    double z = has(words, 'Z') ? value(words, 'Z') * state->factor : state->at[2];
    if (!any)
        return;
    if (state->motion < 0)
        complain(state, "a place with nothing that says how to go there");
    if (state->motion <= 1) {
        move_to(state, x, y, z, state->motion == 0, false);
        return;
    }
    if (has(words, 'Z'))
        state->cycle_z = z;
    if (has(words, 'R'))
        state->cycle_r = value(words, 'R') * state->factor;
    if (has(words, 'Q'))
        state->cycle_q = value(words, 'Q') * state->factor;
    cycle(state, x, y);
}

static void do_preparatory(State *state, int g)
{
    NcProgram *program = state->program;
    char word[4];
    g_snprintf(word, sizeof word, "G%02d", g);
    switch (g) {
    case 20:
    case 70:
    case 21:
    case 71:
        if (state->factor != 0)
            complain(state, "the unit is said twice");
        state->factor = g == 20 || g == 70 ? 25.4 : 1;
        g_strlcpy(program->unit_word, word, sizeof program->unit_word);
        break;
    case 54:
    case 55:
    case 56:
    case 57:
    case 58:
    case 59:
        g_strlcpy(program->offset, word, sizeof program->offset);
        break;
    case 43:
    case 44:
        g_strlcpy(program->length_word, word, sizeof program->length_word);
        break;
    case 0:
    case 1:
    case 81:
    case 83:
    case 84:
    case 85:
        if (state->motion != g)
            state->cycle_z = state->cycle_r = state->cycle_q = NAN;
        state->motion = g;
        break;
    case 80:
        state->motion = -1;
        break;
    case 90:
        state->absolute = true;
        break;
    case 17:
    case 40:
    case 94:
        break;
    default:
        complain(state, "a preparatory word that a drilling program has no need of");
    }
}

static void do_miscellaneous(State *state, int m)
{
    switch (m) {
    case 0:
        state->program->stops++;
        state->stopped_for_tool = true;
        break;
    case 3:
        if (!state->stopped_for_tool)
            complain(state, "the spindle starts before the stop for the tool");
        state->spindle = true;
        break;
    case 5:
        state->spindle = false;
        break;
    case 6:
        if (state->spindle)
            complain(state, "the tool is changed while the spindle turns");
        state->tool = state->waiting;
        state->stopped_for_tool = false;
        state->program->tool_changes++;
        break;
    case 30:
        if (state->spindle)
            complain(state, "it ends while the spindle turns");
        state->program->ended = true;
        break;
    default:
        complain(state, "a miscellaneous word that a drilling program has no need of");
    }
}

static void do_block(State *state, const Words *words)
{
    if (state->program->ended)
        complain(state, "a block after the end");
    state->blocks++;
    if (has(words, 'N')) {
        state->numbered += value(words, 'N') > state->number;
        state->number = (unsigned)value(words, 'N');
    }
    if (has(words, 'T'))
        state->waiting = (unsigned)value(words, 'T');
    if (has(words, 'S'))
        state->speed = value(words, 'S');
    if (has(words, 'F'))
        state->feed = value(words, 'F') * state->factor;
    for (int i = 0; i < words->g_count; i++)
        do_preparatory(state, words->g[i]);
    if (has(words, 'H') && (unsigned)value(words, 'H') != state->tool)
        complain(state, "the length of another tool");
    /* The standard starts the spindle before the move of its block and stops it after. */
    do_motion(state, words);
    for (int i = 0; i < words->m_count; i++)
        do_miscellaneous(state, words->m[i]);
}

static void add_word(State *state, Words *words, char letter, const char *figure)
{
    double number = g_ascii_strtod(figure, NULL);
    if (!strchr("NGXYZRQFSTHM", letter)) {
        complain(state, "an address that is not known");
    } else if (letter == 'G' && words->g_count < 16) {
        words->g[words->g_count++] = (int)number;
    } else if (letter == 'M' && words->m_count < 8) {
        words->m[words->m_count++] = (int)number;
    } else {
        if (words->given[letter - 'A'])
            complain(state, "an address twice in one block");
        if (strchr("XYZRQ", letter) && !strchr(figure, '.'))
            complain(state, "a length without its decimal point");
        words->given[letter - 'A'] = true;
        words->value[letter - 'A'] = number;
    }
}

static void add_comment(State *state, const char *text, size_t length)
{
    NcProgram *program = state->program;
    char *comment = g_strndup(text, length);
    unsigned tool;
    g_ptr_array_add(program->comments, comment);
    if (sscanf(comment, "T%u:", &tool) == 1)
        g_hash_table_insert(program->tools, GUINT_TO_POINTER(tool), comment);
}

static void read_line(State *state, const char *line)
{
    Words words = {.g_count = 0};
    bool any = false;
    for (const char *p = line; *p;) {
        if (*p == ' ') {
            p++;
        } else if (*p == '(') {
            size_t length = strcspn(p + 1, "()");
            if (p[1 + length] != ')')
                complain(state, "a comment that does not end on its line");
            add_comment(state, p + 1, length);
            p += length + (p[1 + length] == ')' ? 2 : 1);
        } else if (*p >= 'A' && *p <= 'Z') {
            size_t length = strspn(p + 1, "+-.0123456789");
            char *figure = g_strndup(p + 1, length);
            if (length == 0)
                complain(state, "an address with no figure");
            add_word(state, &words, *p, figure);
            g_free(figure);
            any = true;
            p += 1 + length;
        } else {
            complain(state, "a character that does not belong there");
            return;
        }
    }
    if (any)
        do_block(state, &words);
}

NcProgram *nc_read(const char *text)
{
    NcProgram *program = g_new0(NcProgram, 1);
    State state = {.program = program, .at = {NAN, NAN, NAN}, .motion = -1};
    program->moves = g_array_new(FALSE, FALSE, sizeof(NcMove));
    program->comments = g_ptr_array_new_with_free_func(g_free);
    program->tools = g_hash_table_new(NULL, NULL);
    char **lines = g_strsplit(text, "\n", -1);
    for (int i = 0; lines[i]; i++) {
        state.line = (unsigned)i + 1;
        bool last = !lines[i + 1];
        if (strcmp(lines[i], "%") == 0 && (i == 0 || program->ended))
            continue;
        if (i == 0)
            complain(&state, "it does not begin with %");
        if (!last || *lines[i])
            read_line(&state, lines[i]);
    }
    g_strfreev(lines);
    program->numbered = state.blocks > 0 && state.numbered == state.blocks;
    if (!program->ended)
        complain(&state, "it has no end");
    return program;
}

void nc_free(NcProgram *program)
{
    g_array_unref(program->moves);
    g_ptr_array_unref(program->comments);
    g_hash_table_unref(program->tools);
    g_free(program);
}
