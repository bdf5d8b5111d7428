/* label.h: labels that a thing is given once and keeps: A1, A2 for holes alike, S1 for slots, N1
 * for nests, plain numbers for stations. I, O and Q are left out, being read as 1 and 0. */
#pragma once

#include "plate/plate.h"

#define LABEL_TEXT 24

/* The label that `record`, about to be added to the plate by `edit` (may be NULL), should get: the
 * letter of holes with the same steps, or the first unused letter, with the next number. Empty for
 * kinds that have none. Numbers once used and given up are not used again while a higher one is. */
void label_next(const Plate *plate, const Edit *edit, const Record *record, char label[LABEL_TEXT]);

/* Gives labels to all that has none, in the order of their numbers. True when there were any. For a
 * plate that was just read and that nobody else sees yet. */
bool label_all(Plate *plate);

/* Labels in the order a person counts: by letters, then by number. NULL comes last. */
int label_compare(const char *a, const char *b);
