/* tool.h: one tool that the plate is made with. */
#pragma once

#include "plate/hole.h"
#include "plate/settings.h"

/* In the order in which they are used where nothing else decides. */
typedef enum ToolKind {
    TOOL_SPOT_DRILL,
    TOOL_DRILL,
    TOOL_COUNTERBORE,
    TOOL_COUNTERSINK,
    TOOL_BORING_BAR,
    TOOL_REAMER,
    TOOL_TAP,
    TOOL_CUTTER
} ToolKind;

typedef struct Tool {
    uint32_t number; /* from 1, the same on every print and in every program of the plate */
    int kind;        /* ToolKind */
    Length diameter; /* of a tap: the thread's major one; of a cutter: the largest that the corners
                        allow, 0 where none fits */
    Angle point;     /* included; 0: flat */
    char *thread;    /* of a tap: its designation; owned, NULL where none is stated */
    int tap;         /* of a tap: StepTap, never unstated */
    double pitch;    /* mm, of a tap; 0 where its thread is in no table */
    Length upper, lower; /* of a reamer or a boring bar: limits of the hole's size */
    bool only_tap_drill; /* a drill that every hole it makes is tapped after */
    double reach;        /* mm: how far below the face its tip goes at the most */
} Tool;

/* Less than, equal to or more than 0: the order in which tools are listed, and by which they are
 * told apart. The number, the pitch, `only_tap_drill` and the reach
 * don't count. */
int tool_compare(const Tool *a, const Tool *b);
/* The same, with tap drills behind the other drills: the order that tools are used in where nothing
 * else decides. */
int tool_rank(const Tool *a, const Tool *b);
void tool_clear(Tool *tool);

#define TOOL_TEXT 96

/* Says what it is: "drill No. 7, 0.2010 in", "reamer 9.525 mm +0.0127/0", "tap 8-32 UNC, plug". The
 * characters are all ASCII. Returns `text`. */
const char *tool_text(const Tool *tool, PlateUnit unit, char text[TOOL_TEXT]);
/* The kind alone: "spot drill", "reamer". */
const char *tool_kind_name(int kind);
/* "plug", "bottoming", "spiral-flute", "forming". */
const char *step_tap_name(int tap);
