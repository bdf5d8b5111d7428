/* finding.h: one answer of a check: a rule, numbers of features, and figures. No sentences. */
#pragma once

#include "placed/placed.h"

typedef struct Rule Rule;

typedef enum FindingLevel { LEVEL_STOP, LEVEL_CAUTION, LEVEL_NOTE } FindingLevel;

#define FINDING_FEATURES_MOST 4

/* A move that is sure to mend it, in the feature's face, in mm. */
typedef struct Remedy {
    FeatureId move; /* ID_NONE: there is no sure remedy */
    Point by;
} Remedy;

typedef struct Finding {
    const Rule *rule;
    int which; /* the rule's case */
    FindingLevel level;
    FeatureId face;
    FeatureId operation; /* the one at which it happens, or ID_NONE */
    uint8_t feature_count;
    FeatureId features[FINDING_FEATURES_MOST];
    Point at;            /* on the face: where to look */
    Point from, to;      /* the two places measured between; equal where nothing was measured */
    double value, limit; /* in what the case says: mm, degrees or a count */
    Remedy remedy;
    bool accepted; /* the maker lets it stand */
} Finding;

/* An array of findings that keeps its memory when it is emptied. */
typedef struct FindingList {
    uint32_t count, room;
    Finding *items;
} FindingList;

#define FINDING_LIST_EMPTY ((FindingList){0, 0, NULL})

/* A new finding at the end, all zero. */
Finding *finding_list_add(FindingList *list);
void finding_list_clear(FindingList *list);
/* Worst first, then by rule, face and features; the same findings always stand the same way. */
void finding_list_sort(FindingList *list);
int finding_compare(const Finding *a, const Finding *b);
/* True when both are the same trouble of the same features at the same operation, whatever the
 * figures. */
bool finding_same_key(const Finding *a, const Finding *b);

typedef struct FindingCounts {
    uint32_t by_level[3]; /* those that are not accepted */
    uint32_t accepted;
} FindingCounts;

FindingCounts finding_list_counts(const FindingList *list);
