/* refit.h: where and how a part fits on a plate that exists already.
 *
 * A search looks at every position at which two or more of the part's holes sit on holes of the
 * plate that can locate or hold them; where none of these does with one more hole at the most, at
 * the positions that one hole of the plate allows; and at the plate's nests. Each is tried on an
 * overlay with all checks; nothing changes the plate. */
#pragma once

#include "checks/checker.h"
#include "refit/hardware.h"

typedef enum RefitVerdict {
    REFIT_FITS,       /* as it stands */
    REFIT_ONE_HOLE,   /* with one more hole */
    REFIT_MORE_HOLES, /* with more than one */
    REFIT_NO
} RefitVerdict;

/* How a part lies in a nest that it does not fill. */
typedef enum NestLie {
    LIE_MIDDLE,  /* where it has the same room all round */
    LIE_PRESSED, /* against the wall that edge clamps push it to */
    LIE_ON_HOLE  /* as near to a hole of the plate as the nest lets it */
} NestLie;

typedef enum RefitWay {
    REFIT_ON_HOLES,    /* two or more of the plate's */
    REFIT_ON_ONE_HOLE, /* turned about one of them */
    REFIT_IN_NEST,
    REFIT_IN_PLACE /* at a station whose part is replaced, as that lies */
} RefitWay;

/* What one hole of the part goes over. */
typedef struct RefitUse {
    int part_hole;  /* counted from 1 */
    FeatureId hole; /* of the plate; ID_NONE: it has to be made */
    Hardware hardware;
    double deviation; /* mm between the axes of the part's hole and the plate's */
    double play;      /* mm that they may have at the kindest limits of size */
} RefitUse;

typedef struct RefitAnswer {
    RefitVerdict verdict;
    RefitWay way;
    FeatureId face;
    Place at; /* of the station */
    Angle rotation;
    bool turned_over;
    bool always;  /* goes on also at the unkindest limits of size */
    double rms;   /* mm: of the deviations */
    GArray *uses; /* RefitUse, by rising part hole */
    int new_holes;
    FeatureId about;        /* on one hole: that hole; in a nest: the recess */
    NestLie lie;            /* in a nest */
    FeatureId shut_out;     /* the nest that a hole it uses lies in and the part does not go into */
    Angle arc_from, arc_to; /* on one hole: the rotations that the rules allow round this one */
    GArray *displaced;      /* FeatureId: stations that can't be loaded at the same time */
    FindingList findings;   /* what would be new, worst first; ids as refit_show has them */
    uint32_t stops, cautions;
    GPtrArray *alike; /* RefitAnswer: the same at other places, as on a plate of like stations */
} RefitAnswer;

typedef struct RefitOptions {
    double clearance; /* mm: the most a locator may be smaller than the part's hole; 0: the usual */
    bool holes_alone; /* leave nests and single holes out */
    bool located;     /* leave positions out at which the plate's holes hold and none locates */
    bool everything;  /* single holes also where two fit */
    bool best_alone;  /* once one fits as it stands no more holes are tried at the others */
    FeatureId replace; /* the station whose part is taken off for good, its own holes being all
                          that are used; ID_NONE: a new station */
    /* Says how much is done, 0 to 1; false stops. May be NULL. */
    bool (*go_on)(double done, void *data);
    void *data;
} RefitOptions;

typedef struct Refit Refit;

/* Whether the part at a station can be another: nothing of the station may be made. */
bool refit_can_replace(const Plate *plate, FeatureId station, Error *error);

/* Degrees: about a single hole no arc longer than this, on which the part may be turned, is missed;
 * the second where a station's part is replaced, whose clamps and cutters make each try dear. The
 * ends of those that are found are right to a hundredth of a degree. */
#define REFIT_ARC_LEAST 0.5
#define REFIT_ARC_LEAST_REPLACED 2.5
/* Which of the two holds for this search. */
double refit_arc_least(const Refit *refit);

/* Prepares a search; all that it is given must outlive it, unchanged. */
Refit *refit_new(const Plate *plate, const Placed *placed, const Checker *checker, const Part *part,
                 const RefitOptions *options);
void refit_free(Refit *refit);
/* Searches. False when it was stopped; then the answers are those found so far. */
bool refit_search(Refit *refit);

/* The answers, best first; those that do not fit come last. What differs in nothing but the place
 * is one answer, with the others among its `alike`. */
uint32_t refit_count(const Refit *refit);
const RefitAnswer *refit_at(const Refit *refit, uint32_t i);
/* Of answers that are alike the one nearest to a place leads from now on. Returns the answer that
 * is nearest to it of those that fit, or where none does, of all; on another face it is far away.
 */
uint32_t refit_lead_nearest(Refit *refit, FeatureId face, Place at);
/* The plate as it would be with an answer. Good until the next call. */
const Placed *refit_show(Refit *refit, uint32_t i);
/* The same for any of them, also one of the `alike`. */
const Placed *refit_show_answer(Refit *refit, const RefitAnswer *answer);
/* Fills `edit` with what puts the part there: the part, a station, its hardware and the new holes,
 * with numbers from the plate's next one on. */
void refit_edit(const Refit *refit, const RefitAnswer *answer, Edit *edit);
/* What is being fitted; borrowed. */
const Part *refit_part(const Refit *refit);
/* The station whose part is replaced, or ID_NONE. */
FeatureId refit_replaced(const Refit *refit);
/* The number that an answer's station has in its edit. */
FeatureId refit_station(const Refit *refit);
/* The hole under the i-th of an answer's uses: the plate's, or the new one of its edit. */
FeatureId refit_use_hole(const Refit *refit, const RefitAnswer *answer, guint i);
/* Where that hole is, mm on the face. */
Point refit_use_at(const Refit *refit, const RefitAnswer *answer, const RefitUse *use);
/* Adds the plate's present findings about the stations that the answer displaces, and about the one
 * whose part it replaces. */
void refit_before(const Refit *refit, const RefitAnswer *answer, FindingList *findings);

/* "fits", "one-hole", "more-holes", "no". */
const char *refit_verdict_name(RefitVerdict verdict);
/* "holes", "one-hole", "nest", "place". */
const char *refit_way_name(RefitWay way);
/* "middle", "pressed", "hole". */
const char *nest_lie_name(NestLie lie);
