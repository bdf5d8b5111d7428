/* refit-private.h: what the files of a search share. */
#pragma once

#include "refit/plate-holes.h"
#include "refit/refit.h"

struct Refit {
    const Plate *plate;
    const Placed *placed;
    const Checker *checker;
    const Part *part;
    RefitOptions options;
    Record *part_record; /* the part as it would be embedded, or the one that is */
    bool part_is_new;
    bool metric;
    FeatureId first_new; /* numbers from here on are an answer's own */
    PlateHoles holes;
    MatchQuery query;
    Outline *outline;
    Placed *overlay;
    Scratch *scratch;
    FindingDelta delta;
    GPtrArray *answers; /* RefitAnswer */
};

RefitAnswer *refit_answer_new(RefitWay way, FeatureId face);
void refit_answer_free(RefitAnswer *answer);
/* Puts the answer's station where the pose has the part. */
void refit_answer_place(RefitAnswer *answer, Pose pose);
void refit_answer_add_use(RefitAnswer *answer, RefitUse use);

/* The station says which others it takes the place of. */
void refit_set_instead(const RefitAnswer *answer, Station *station);

/* Tries the answer as it is: fills its findings, displaced stations and counts. */
void refit_try(Refit *refit, RefitAnswer *answer);
/* The best verdict so far. */
RefitVerdict refit_best(const Refit *refit);
/* Tries it, and where that does not do, with as few new holes as will; sets the verdict. */
void refit_judge(Refit *refit, RefitAnswer *answer);
/* Where the answer has the part. */
Pose refit_answer_pose(const RefitAnswer *answer);
/* The edit with or without labels for what is new. */
void refit_fill_edit(const Refit *refit, const RefitAnswer *answer, bool labels, Edit *edit);

/* Each adds answers; false when stopped. `from` and `to` are the shares of the whole. */
bool refit_search_holes(Refit *refit, double from, double to);
bool refit_search_one_hole(Refit *refit, double from, double to);
bool refit_search_nests(Refit *refit, double from, double to);
/* The answer uses the holes of the plate that lie under the part's, each the best of them. */
void refit_use_holes_below(const Refit *refit, RefitAnswer *answer);
/* The nest that keeps the part from lying where the answer has it: one of the holes it uses opens
 * in the nest's floor, and the part, or its blank, is not wholly within the nest. ID_NONE: none. */
FeatureId refit_shut_out(const Refit *refit, const RefitAnswer *answer);
/* For a replacement: leaves the station's own holes alone in the search; adds its changes to an
 * edit; tries the part as the old one lies; says whether a thing is the station or its hardware. */
void refit_keep_own_holes(Refit *refit);
void refit_fill_replacement(const Refit *refit, const RefitAnswer *answer, const GArray *reused,
                            Edit *edit);
/* The station's piece of hardware that serves each use from now on, or ID_NONE; to unref. */
GArray *refit_reused(const Refit *refit, const RefitAnswer *answer);
/* The operations have the new hardware fitted where they had the old. */
void refit_fill_operations(const Refit *refit, const GArray *fittings, Edit *edit);
void refit_search_in_place(Refit *refit);
bool refit_is_replaced(const Refit *refit, FeatureId id);
/* Gathers answers that differ in nothing but the place; they are sorted already. */
void refit_join_alike(GPtrArray *answers);
bool refit_goes_on(const Refit *refit, double done);
