/* program-words.h: the blocks of a program, word by word. Private to the drilling program. */
#pragma once

#include <glib.h>
#include <stdbool.h>

/* What is written so far and how figures stand in it. */
typedef struct WordWriter {
    GString *text;
    bool inch;         /* figures of length in inches with four decimals; else mm with three */
    bool line_numbers; /* N10, N20, … before each block */
    unsigned next_number;
} WordWriter;

/* Begins and ends a block; words go between. */
void block_begin(WordWriter *writer);
void block_end(WordWriter *writer);
/* A word as it stands: "G90". */
void word_add(WordWriter *writer, const char *word);
/* An address and a length in mm: X10.000. Always with its decimal point, which many controls would
 * else take for the last decimal. */
void word_length(WordWriter *writer, char address, double mm);
/* An address and a whole number: T2. */
void word_whole(WordWriter *writer, char address, unsigned number);
/* An address and a plain figure with up to four decimals: S, F. */
void word_figure(WordWriter *writer, char address, double figure);
/* What word_length would write of a length, back in mm. */
double word_rounded(const WordWriter *writer, double mm);

/* A remark between control-out and control-in, "(" and ")", in capitals and in the characters of
 * ISO 6983-1 alone, over as many lines as it takes. */
void remark_add(WordWriter *writer, const char *format, ...) G_GNUC_PRINTF(2, 3);
