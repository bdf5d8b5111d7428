/* program-options.h: what differs between one machine's control and the next, chosen by the person
 * who knows the machine. Nothing here has a default: a word that a control takes for something else
 * drives the tool into the work. */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"
#include "shopplan/tool.h"
#include "trade/unit.h"

#include <glib.h>

/* Which word says inch or millimetre: the standard's (ISO 6983-1), or those that many small
 * controls want in their place. */
typedef enum UnitWord {
    UNIT_WORD_UNCHOSEN,
    UNIT_WORD_G70, /* inch */
    UNIT_WORD_G71, /* mm */
    UNIT_WORD_G20, /* inch */
    UNIT_WORD_G21  /* mm */
} UnitWord;

/* The shift of the origin (ISO 6983-1: G54 to G59). */
typedef enum OffsetWord {
    OFFSET_UNCHOSEN,
    OFFSET_NONE,
    OFFSET_G54,
    OFFSET_G55,
    OFFSET_G56,
    OFFSET_G57,
    OFFSET_G58,
    OFFSET_G59
} OffsetWord;

/* The tool's length: added, taken off, or none, where each tool is touched off by hand. */
typedef enum LengthOffset {
    LENGTH_OFFSET_UNCHOSEN,
    LENGTH_OFFSET_NONE,
    LENGTH_OFFSET_G43,
    LENGTH_OFFSET_G44
} LengthOffset;

typedef enum ProgramMoves { MOVES_UNCHOSEN, MOVES_LONGHAND, MOVES_CYCLES } ProgramMoves;

typedef enum ProgramFeeds { FEEDS_UNCHOSEN, FEEDS_AT_MACHINE, FEEDS_FROM_TABLE } ProgramFeeds;

/* One row of the user's table. */
typedef struct FeedRow {
    int kind;        /* ToolKind */
    Length diameter; /* of the tool */
    double speed;    /* turns a minute */
    Length feed;     /* a minute; 0 for a tap, whose pitch gives it */
} FeedRow;

typedef struct ProgramOptions {
    int unit_word;        /* UnitWord */
    int offset;           /* OffsetWord */
    int length_offset;    /* LengthOffset */
    int moves;            /* ProgramMoves */
    int feeds;            /* ProgramFeeds */
    GArray *feed_rows;    /* FeedRow; owned, NULL without a table */
    Length safe_height;   /* above the face; 0: 5 mm above all that is fitted */
    Length change_height; /* where tools are changed; 0: at the safe height */
    bool tapping;         /* taps by the canned cycle; else they are left to the hand */
    bool line_numbers;
} ProgramOptions;

/* Takes one choice by the name of its option ("unit-word", "offset", "length-offset", "moves") and
 * the word that was typed. False with an error that says what there is to choose from. */
bool program_options_choose(ProgramOptions *options, const char *option, const char *word,
                            Error *error);
/* Reads the user's table of feeds: comma-separated, `tool,diameter,speed,feed`, one tool a line, as
 * "drill,5.1mm,2200,180mm"; lines that begin with # and a first line of these names are passed
 * over. Lengths without a unit are in `unit`. False with an error whose place is the line. */
bool program_options_read_feeds(ProgramOptions *options, const char *text, Unit unit, Error *error);
/* False with a plain sentence while a choice is missing or two of them don't go together. */
bool program_options_check(const ProgramOptions *options, Error *error);
void program_options_clear(ProgramOptions *options);

/* "G71", "G54", "G43"; NULL where there is no word. */
const char *unit_word_text(int unit_word);
const char *offset_word_text(int offset);
const char *length_offset_text(int length_offset);
bool unit_word_is_inch(int unit_word);

/* The row for a tool, or NULL. */
const FeedRow *program_options_feed(const ProgramOptions *options, const Tool *tool);
