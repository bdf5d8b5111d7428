/* program-room.h: what stands in a drilling program's way. Private to the drilling program. */
#pragma once

#include "placed/placed.h"
#include "shopplan/shopplan.h"

/* mm: how near a tool may come to what is fitted, beside it and above it; common practice, no
 * source. */
#define ROOM_BESIDE 1.0
#define ROOM_ABOVE 5.0
#define ROOM_ABOVE_LEAST 1.0

/* What is on the plate at the operation, and the setting that is drilled. */
typedef struct ProgramRoom {
    const Placed *placed;
    const Record *operation; /* NULL: nothing is fitted */
    const Setting *setting;
    const Tool *tools;
    bool tapping; /* taps go down as well */
} ProgramRoom;

/* mm over the face: the highest of all that is fitted and of the keep-clears with a height; 0 when
 * there is none. */
double room_height(const ProgramRoom *room);
/* False with an error that names the hole and the hardware where a tool of the program would go
 * down through what is fitted, or into a keep-clear, or sideways through a keep-clear that reaches
 * above `safe_height` mm. Hardware on other faces counts with the box around it. */
bool room_check(const ProgramRoom *room, double safe_height, Error *error);
/* True for steps that the program does itself. */
bool room_does(const ProgramRoom *room, const PlanStep *step);
