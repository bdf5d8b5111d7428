/* hole-label.h: labels for what has none yet, and the order labels are read in. */
#pragma once

#include "drawing/hole-table.h"

/* Gives every row without a label one, then puts the rows in order: by kind, then by label with its
 * numbers as numbers (A2 before A10). */
void hole_labels_give(HoleTable *table);
