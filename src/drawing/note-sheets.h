/* note-sheets.h: what the drawing says in words: notes, tolerances of faces, holes by kind,
 * hardware, changed limits and revisions. */
#pragma once

#include "drawing/flow.h"
#include "drawing/hole-table.h"

/* Sets them all; `table` holds the rows of every face that is drawn, with their tools. */
void note_sheets_draw(Flow *flow, const DrawingSource *source, const HoleTable *table);
