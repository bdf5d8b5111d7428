/* program-check.h: a drilling program read back and held against the plate's records. What is
 * expected comes from those and from arithmetic of its own, never from the plan that the writer
 * goes by. A check that does not hold fails the test that asks for it. */
#pragma once

#include "exchange/program.h"
#include "nc-reader.h"

/* The choices that most tests start from: mm, G54, G43, long-hand moves, no feeds. */
extern const ProgramOptions longhand;

/* Writes the program and reads it: every hole at its place and depth with its tool, once, and
 * nothing else; no way sideways below `safe` mm. False where the writer refuses. */
bool check_program(const Plate *plate, FeatureId operation, FeatureId face,
                   const ProgramOptions *options, double safe);

/* The same for every setting that something is drilled in: those of operations, and what none
 * claims. Returns how many those are. */
int check_settings(const Plate *plate, const ProgramOptions *options);

bool goes_sideways(const NcMove *move);

/* What cuts a close hole or a thread comes out of it at its feed: a reamer or a boring bar pulled
 * out by rapid scores the wall, and a tap would tear its thread. A drill comes out by rapid. Counts
 * the ways out of either kind. */
void check_ways_out(const NcProgram *nc, unsigned *slow, unsigned *fast);
