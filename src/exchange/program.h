/* program.h: a drilling program in the words of ISO 6983-1 (from memory).
 *
 * X and Y are counted from the plate's datum on the top, from the face's own origin on an inclined
 * face; Z is 0 on the face that is drilled. Words used: G00 G01 G17 G40 G80 G90 G94; G81 drill, G83
 * drill with pecks, G84 tap, G85 feed in and out; M00 stop, M03 spindle on, M05 off, M06 tool
 * change, M30 end. */
#pragma once

#include "exchange/program-options.h"
#include "placed/placed.h"

typedef struct ProgramRequest {
    const Plate *plate;
    const Placed *placed;
    FeatureId operation; /* a making one; ID_NONE: what none claims */
    FeatureId face;
    const ProgramOptions *options;
} ProgramRequest;

/* What was written, to be told. */
typedef struct ProgramAnswer {
    uint32_t tools, changes, holes;
    double safe_height; /* mm */
    GPtrArray *remarks; /* char *: as in shopplan.h */
} ProgramAnswer;

/* The program's text, the same for the same request always; free with g_free. NULL with an error:
 * a choice is missing, nothing is drilled there, a tool has no row in the table of feeds, the safe
 * height asked for is too low, or hardware is in the way. `answer` may be NULL; clear it with
 * program_answer_clear. */
char *program_text(const ProgramRequest *request, ProgramAnswer *answer, Error *error);
void program_answer_clear(ProgramAnswer *answer);
