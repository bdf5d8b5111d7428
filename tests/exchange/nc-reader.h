/* nc-reader.h: a reader of drilling programs, written from the words of ISO 6983-1 (from memory)
 * and from nothing in src/exchange, so that what the writer thinks it says and what it says can be
 * told apart. */
#pragma once

#include <glib.h>
#include <stdbool.h>

/* One straight move; lengths in mm. Before the first word of an axis its place is NaN. */
typedef struct NcMove {
    double from[3], to[3];
    bool rapid;
    bool out_at_feed; /* the way out of a reaming or tapping cycle */
    unsigned tool;
    unsigned line; /* of the file, from 1 */
    double speed;  /* S in force; 0: none yet */
    double feed;   /* F in force, mm a minute; 0: none yet */
} NcMove;

typedef struct NcProgram {
    GArray *moves;       /* NcMove */
    GPtrArray *comments; /* char *: without their brackets */
    GHashTable *tools;   /* number: char *, the comment that begins with "T<number>:" */
    unsigned tool_changes, stops;
    char offset[4];      /* "G54", or empty */
    char length_word[4]; /* "G43", or empty */
    char unit_word[4];   /* "G71" */
    bool ended;          /* M30 was read */
    bool numbered;       /* every block has its number, rising */
    unsigned cycles;     /* blocks with a canned cycle */
    char complaint[160]; /* what is wrong with it; empty when nothing is */
} NcProgram;

NcProgram *nc_read(const char *text);
void nc_free(NcProgram *program);
