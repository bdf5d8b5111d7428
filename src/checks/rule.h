/* rule.h: what a rule is, and the table of them all. One rule a file; rules.c lists them.
 *
 * To add one: write its file with a `const Rule rule_…`, declare it here, put it in the table of
 * rules.c in its group, and add its test and its page in the guide. */
#pragma once

#include "checks/finding.h"
#include "geometry/words.h"
#include "placed/sweep.h"

typedef enum RuleScope {
    SCOPE_FEATURE,          /* looks at one feature and its face */
    SCOPE_PAIR,             /* looks at two features of one face within reach of each other */
    SCOPE_FEATURE_AND_PAIR, /* looks at one feature and its face, and at it with each neighbour */
    SCOPE_STATION,          /* looks at a station and all that stands on it */
    SCOPE_CLAMP, /* looks at an edge clamp, the blank before it and what is behind that */
    SCOPE_PLATE  /* looks at everything, after every change */
} RuleScope;

typedef enum ValueKind { VALUE_NONE, VALUE_LENGTH, VALUE_ANGLE, VALUE_COUNT, VALUE_AREA } ValueKind;

/* One way in which a rule can fail. In the sentences {a} and {b} are the features, {operation} the
 * operation, {value} and {limit} the figures, {less} how far the value falls short of the limit,
 * {more} how far it goes beyond it. */
typedef struct RuleCase {
    FindingLevel level;
    ValueKind kind;
    const char *message;
    const char *remedy;
} RuleCase;

/* A number that a plate can change. */
typedef struct RuleLimit {
    const char *name;
    double starting; /* in what `kind` says: mm, mm2, degrees, a count or ratio */
    ValueKind kind;
    const char *says;   /* what it limits, in a few words */
    const char *source; /* where the starting value comes from */
} RuleLimit;

#define RULE_LIMITS_MOST 6

typedef struct RuleContext {
    const Placed *placed;
    const Rule *rule;
    const double *limits; /* those in force, in the order of the rule's table */
    FindingList *findings;
} RuleContext;

struct Rule {
    const char *slug;
    const char *title; /* what the maker reads at the head of its page */
    RuleScope scope;
    uint32_t kinds;       /* of the feature, or of the pair's first: FeatureKind bits */
    uint32_t other_kinds; /* of the pair's second */
    bool across_faces;    /* of a pair: looks at those of two faces, in space, not of one */
    const RuleCase *cases;
    int case_count;
    const RuleLimit *limits;
    int limit_count;
    /* Of rules of pairs: those further apart than this, in mm, can't fail; NULL: pairs that don't
     * meet can't. */
    double (*reach)(const double *limits);
    /* Instead of it, of those that look at pairs of one face and of two alike, as what cutters go
     * through needs: how far on one face, and how far in space. */
    Reach (*reach_anywhere)(const Placed *placed, const double *limits);
    /* `a` is the feature, the pair's first, or the station's part; NULL for the plate. */
    void (*check)(RuleContext *context, const Feature *a, const Feature *b);
};

/* Is a worked-out length or angle short of its limit? Coordinates are whole nanometres but their
 * distances are not: what meets the limit to a tenth of a nanometre has met it. */
static inline bool falls_short(double value, double limit)
{
    return value < limit - 1e-7;
}

/* Reports a failure of features a and b (either may be NULL), at a's place until changed. */
Finding *rule_report(RuleContext *context, int which, const Feature *a, const Feature *b,
                     double value, double limit);
/* Says where it was measured; the place to look is the middle. */
void rule_report_between(Finding *finding, Point from, Point to);
/* Offers to move a feature by `by`, when the maker may move it at all and it stands on no station.
 */
void rule_offer_move(RuleContext *context, Finding *finding, const Feature *feature, Point by);

/* The limit of two that holds for the plate's metal. */
double rule_limit_by_metal(const RuleContext *context, int aluminium, int steel);

int rule_count(void);
const Rule *rule_at(int i);
const Rule *rule_by_slug(const char *slug);
/* The rule's place in the table. */
int rule_number(const Rule *rule);

extern const Rule rule_outside_plate, rule_edge_distance, rule_web, rule_overlap, rule_floor,
    rule_breaks_through, rule_cross_drilled, rule_datum_lost;
extern const Rule rule_keep_clear, rule_parts_overlap, rule_part_overhang;
extern const Rule rule_cutter_meets_hardware, rule_cutter_meets_neighbour, rule_cutter_cuts_plate,
    rule_holder_meets_clamp, rule_access, rule_exit_room, rule_reach, rule_travel;
extern const Rule rule_unsupported, rule_inside_corner;
extern const Rule rule_insert_room;
extern const Rule rule_two_locators, rule_locator_fit, rule_locator_pitch, rule_shoulder_length,
    rule_shoulder_bearing, rule_shoulder_seat, rule_shoulder_guided, rule_loads_wrong,
    rule_plate_reverses;
extern const Rule rule_comes_loose, rule_clamp_travel, rule_clamp_height, rule_clamp_backing,
    rule_clamp_bows;
extern const Rule rule_thread_engagement, rule_tap_depth, rule_tap_drill, rule_drill_ratio,
    rule_ream_stock;
extern const Rule rule_wall_to_face, rule_spoils_locator, rule_turned_over_agrees,
    rule_reference_hole, rule_offcut_loose, rule_nest_burr, rule_lift_out, rule_ream_floor,
    rule_pin_removal, rule_drill_entry, rule_one_setting, rule_chip_trap;
extern const Rule rule_bevel_runs_out, rule_edge_thins;
