/* checker.h: keeps a plate's findings up to date, and says what an edit would do to them. */
#pragma once

#include "checks/rule.h"

typedef struct Checker Checker;
/* Room to answer checker_try in, used again and again without allocating. */
typedef struct Scratch Scratch;

/* What changed in the findings. Empty it before use; it keeps its memory. */
typedef struct FindingDelta {
    FindingList removed, added;
} FindingDelta;

#define FINDING_DELTA_EMPTY ((FindingDelta){FINDING_LIST_EMPTY, FINDING_LIST_EMPTY})

void finding_delta_clear(FindingDelta *delta);

Checker *checker_new(void);
void checker_free(Checker *checker);

/* Examines again what the placed's last update touched; after placed_new, everything. `delta` may
 * be NULL. */
void checker_update(Checker *checker, const Placed *placed, FindingDelta *delta);

/* All findings, sorted. Owned by the checker, good until the next update. */
const FindingList *checker_findings(const Checker *checker);
/* The limits in force for a rule, in the order of its table. */
const double *checker_limits(const Checker *checker, const Rule *rule);

Scratch *scratch_new(void);
void scratch_free(Scratch *scratch);

/* What the findings would be if what `overlay` shows were carried out. The overlay lies over the
 * placed that the last update saw. The plate is not changed. Doesn't allocate once the scratch and
 * the delta are as large as the answer needs. */
void checker_try(const Checker *checker, const Placed *overlay, Scratch *scratch,
                 FindingDelta *delta);
