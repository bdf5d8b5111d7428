/* match.h: every position at which two or more holes of a part sit on holes of a plate that can
 * locate or hold them. Works on places alone, so that a rack's index serves as well as a plate.
 *
 * All places are in mm: the part's in its own coordinates, the plate's on one face. */
#pragma once

#include "refit/hole-use.h"
#include "refit/rigid-fit.h"

/* Parts with more holes than this are matched by their first ones. */
#define MATCH_HOLES_MOST 24

/* A hole of the plate. */
typedef struct MatchHole {
    Point at;
    uint32_t use; /* which of the uses */
    FeatureId id;
} MatchHole;

/* What is asked: a part's holes, and how each use of a plate hole serves each of them. */
typedef struct MatchQuery {
    int part_count;
    Point part[MATCH_HOLES_MOST];
    uint32_t use_count;
    HoleOptions *options; /* part_count for each use */
} MatchQuery;

/* A hole of the part on a hole of the plate. */
typedef struct MatchPair {
    int part_hole;    /* counted from 0 */
    uint32_t hole;    /* counted from 0 */
    bool locates;     /* or holds */
    double deviation; /* mm between the two axes */
    double play;      /* mm that they may have between them at the kindest sizes */
} MatchPair;

typedef struct Match {
    Pose pose; /* of the part on the face: least squares inside the plays */
    int count;
    MatchPair pairs[MATCH_HOLES_MOST]; /* by rising part hole */
    bool always;                       /* goes on also at the unkindest limits of size */
} Match;

/* Fills a query; free with match_query_clear. `clearance` as in hole_options. */
void match_query_init(MatchQuery *query, const Part *part, const HoleUse *uses, uint32_t use_count,
                      double clearance);
void match_query_clear(MatchQuery *query);
const HoleOptions *match_options(const MatchQuery *query, uint32_t use, int part_hole);

/* Says that work goes on; false stops it. */
typedef bool (*MatchGoOn)(void *data);

/* All matches, an array of Match to unref: each is a set of pairs that fit at one position together
 * and to which no further pair can be added there, nor a holding one be made a locating one. None
 * is missed and none comes twice. NULL when `go_on` (may be NULL) stopped it. */
GArray *match_find(const MatchQuery *query, const MatchHole *holes, uint32_t hole_count,
                   MatchGoOn go_on, void *data);
/* True when there is at least one; quicker. */
bool match_any(const MatchQuery *query, const MatchHole *holes, uint32_t hole_count);
