/* rack.h: which plates of a folder take a part.
 *
 * Positions on two holes or more, of which one at least locates, are looked for on every plate; by
 * the index most plates are never opened for it. What one hole, or screws alone, or a nest would
 * allow is a matter of trying a plate on its own. */
#pragma once

#include "refit/rack-index.h"
#include "refit/refit.h"
#include "trade/speech.h"

typedef struct RackRow {
    char *file; /* its name in the folder */
    RefitVerdict verdict;
    int new_holes;
    uint32_t positions; /* that fit as well as the best */
    char *says;         /* the best answer, or why there is none; a sentence with no full stop */
    bool broken;        /* it can't be read, and `says` says why */
    bool opened;        /* for this search */
} RackRow;

typedef struct RackSearch {
    GPtrArray *rows; /* RackRow, best first, broken ones last */
    uint32_t opened; /* plates that were opened to be searched */
    uint32_t reread; /* files that were read for the index */
    bool stopped;
} RackSearch;

typedef struct RackOptions {
    const char *cache_folder; /* NULL: the user's */
    bool without_index;       /* opens every plate */
    double clearance;         /* as in RefitOptions */
    Unit unit;                /* of what is said */
    const Speech *speech;     /* how it is said; NULL: in English */
    RackGoOn go_on;           /* may be NULL */
    void *data;
} RackOptions;

/* NULL with an error when the folder can't be read. When it was stopped, the rows are those done.
 * Free with rack_search_free. */
RackSearch *rack_search(const char *folder, const Part *part, const RackOptions *options,
                        Error *error);
void rack_search_free(RackSearch *search);
