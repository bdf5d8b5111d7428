#include "checks/checker.h"

#include "checks/rule-limits.h"
#include "placed/placed-solids.h"

#include <math.h>
#include <string.h>

struct Scratch {
    GArray *marks;       /* uint32_t by number: the round that last touched it */
    GArray *clamp_marks; /* the same of clamps that are looked at again */
    uint32_t round;
    Limits limits;
    FindingList kept; /* used while findings are sifted */
};

struct Checker {
    Limits limits;
    FindingList findings;
    Scratch *scratch;
};

void finding_delta_clear(FindingDelta *delta)
{
    finding_list_clear(&delta->removed);
    finding_list_clear(&delta->added);
}

Scratch *scratch_new(void)
{
    Scratch *scratch = g_new0(Scratch, 1);
    scratch->marks = g_array_new(FALSE, TRUE, sizeof(uint32_t));
    scratch->clamp_marks = g_array_new(FALSE, TRUE, sizeof(uint32_t));
    return scratch;
}

void scratch_free(Scratch *scratch)
{
    if (!scratch)
        return;
    g_array_unref(scratch->marks);
    g_array_unref(scratch->clamp_marks);
    finding_list_clear(&scratch->kept);
    g_free(scratch);
}

Checker *checker_new(void)
{
    Checker *checker = g_new0(Checker, 1);
    checker->scratch = scratch_new();
    return checker;
}

void checker_free(Checker *checker)
{
    if (!checker)
        return;
    finding_list_clear(&checker->findings);
    scratch_free(checker->scratch);
    g_free(checker);
}

const FindingList *checker_findings(const Checker *checker)
{
    return &checker->findings;
}

const double *checker_limits(const Checker *checker, const Rule *rule)
{
    return checker->limits.values[rule_number(rule)];
}

/* --- what was touched --------------------------------------------------------------------------
 */

static void mark(GArray *marks, uint32_t round, FeatureId id)
{
    if (id >= marks->len)
        g_array_set_size(marks, id + 1);
    g_array_index(marks, uint32_t, id) = round;
}

static bool has_mark(const GArray *marks, uint32_t round, FeatureId id)
{
    return id < marks->len && g_array_index(marks, uint32_t, id) == round;
}

static bool is_marked(const Scratch *scratch, FeatureId id)
{
    return has_mark(scratch->marks, scratch->round, id);
}

static void mark_touched(Scratch *scratch, const Placed *placed)
{
    uint32_t count;
    const FeatureId *touched = placed_touched(placed, &count);
    scratch->round++;
    for (uint32_t i = 0; i < count; i++)
        mark(scratch->marks, scratch->round, touched[i]);
    const FeatureId *clamps = placed_touched_clamps(placed, &count);
    for (uint32_t i = 0; i < count; i++)
        mark(scratch->clamp_marks, scratch->round, clamps[i]);
}

/* A finding is out of date when what its rule looked at was touched. */
static bool is_stale(const Scratch *scratch, const Finding *finding)
{
    if (finding->rule->scope == SCOPE_PLATE)
        return true;
    /* What else the clamp's finding names has touched the clamp when it was touched. */
    if (finding->rule->scope == SCOPE_CLAMP)
        return is_marked(scratch, finding->features[0]) ||
               has_mark(scratch->clamp_marks, scratch->round, finding->features[0]);
    for (int i = 0; i < finding->feature_count; i++)
        if (is_marked(scratch, finding->features[i]))
            return true;
    return false;
}

/* --- examining ---------------------------------------------------------------------------------
 */

#define FEATURE_KINDS 5

typedef struct Examination {
    const Placed *placed;
    const Limits *limits;
    const Scratch *scratch;
    FindingList *findings;
    /* By the rule's number: how far those of pairs look, mm; less than 0: they don't. */
    double reaches[RULES_MOST], reaches_across[RULES_MOST];
    /* By the kind of feature: how far its neighbours are looked for. */
    double reach_of[FEATURE_KINDS], reach_across_of[FEATURE_KINDS];
    const Feature *feature; /* whose neighbours are visited */
    Box box;                /* that feature's, on the face of its neighbours */
} Examination;

static void run_rule(const Examination *examination, int number, const Feature *a, const Feature *b)
{
    RuleContext context = {examination->placed, rule_at(number),
                           examination->limits->values[number], examination->findings};
    rule_at(number)->check(&context, a, b);
}

static bool looks_at_pairs(const Rule *rule)
{
    return rule->scope == SCOPE_PAIR || rule->scope == SCOPE_FEATURE_AND_PAIR;
}

static bool looks_at_features(const Rule *rule)
{
    return rule->scope == SCOPE_FEATURE || rule->scope == SCOPE_FEATURE_AND_PAIR;
}

/* Rules of pairs say which kind comes first; of two that could stand either way, the lower number
 * does, so that a pair is examined the same way whoever moved. */
static void run_pair_rules(const Examination *examination, const Feature *a, const Feature *b,
                           double apart)
{
    const Feature *low = a->id < b->id ? a : b;
    const Feature *high = low == a ? b : a;
    const double *reaches = a->face != b->face ? examination->reaches_across : examination->reaches;
    for (int r = 0; r < rule_count(); r++) {
        const Rule *rule = rule_at(r);
        if (apart > reaches[r])
            continue;
        if ((rule->kinds & low->kind) && (rule->other_kinds & high->kind))
            run_rule(examination, r, low, high);
        else if ((rule->kinds & high->kind) && (rule->other_kinds & low->kind))
            run_rule(examination, r, high, low);
    }
}

static bool visit_neighbour(const Feature *other, void *data)
{
    const Examination *examination = data;
    const Feature *feature = examination->feature;
    /* Of two touched features the one with the lower number sees to the pair. */
    if (other->id == feature->id ||
        (is_marked(examination->scratch, other->id) && other->id < feature->id))
        return true;
    run_pair_rules(examination, feature, other,
                   box_distance(examination->box, feature_whole_box(other)));
    return true;
}

static int kind_number(FeatureKind kind)
{
    int number = 0;
    while (number < FEATURE_KINDS - 1 && !(kind & (1U << number)))
        number++;
    return number;
}

/* Seen square on to a face, two things are no further apart than they are in space. */
static void examine_across_faces(Examination *examination, const Feature *feature, double reach)
{
    const Placed *placed = examination->placed;
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        const Frame *frame = placed_frame_at(placed, i);
        if (frame->face == feature->face)
            continue;
        examination->box = placed_solids_box(placed, feature, frame);
        placed_each_near(placed, frame->face, box_grown(examination->box, reach), visit_neighbour,
                         examination);
    }
}

static void examine_clamp(const Examination *examination, const Feature *feature)
{
    for (int r = 0; r < rule_count(); r++)
        if (rule_at(r)->scope == SCOPE_CLAMP)
            run_rule(examination, r, feature, NULL);
}

static void examine_feature(Examination *examination, const Feature *feature)
{
    if (feature->kind == FEATURE_FITTING)
        examine_clamp(examination, feature);
    for (int r = 0; r < rule_count(); r++) {
        const Rule *rule = rule_at(r);
        bool takes = (looks_at_features(rule) && (rule->kinds & feature->kind)) ||
                     (rule->scope == SCOPE_STATION && feature->kind == FEATURE_PART);
        if (takes)
            run_rule(examination, r, feature, NULL);
    }
    int kind = kind_number(feature->kind);
    examination->feature = feature;
    examination->box = feature_whole_box(feature);
    placed_each_near(examination->placed, feature->face,
                     box_grown(examination->box, fmax(0, examination->reach_of[kind])),
                     visit_neighbour, examination);
    if (examination->reach_across_of[kind] >= 0)
        examine_across_faces(examination, feature, examination->reach_across_of[kind]);
}

/* How far a rule looks on one face, and across two; less than 0 where it looks at no such pairs. */
static Reach reach_of_rule(const Examination *examination, int number)
{
    const Rule *rule = rule_at(number);
    const double *limits = examination->limits->values[number];
    if (!looks_at_pairs(rule))
        return (Reach){-1, -1};
    if (rule->reach_anywhere)
        return rule->reach_anywhere(examination->placed, limits);
    double reach = rule->reach ? rule->reach(limits) : 0;
    return rule->across_faces ? (Reach){-1, reach} : (Reach){reach, -1};
}

static void find_reaches(Examination *examination)
{
    for (int k = 0; k < FEATURE_KINDS; k++)
        examination->reach_of[k] = examination->reach_across_of[k] = -1;
    for (int r = 0; r < rule_count(); r++) {
        Reach reach = reach_of_rule(examination, r);
        examination->reaches[r] = reach.beside;
        examination->reaches_across[r] = reach.away;
        for (int k = 0; k < FEATURE_KINDS; k++) {
            if (!((rule_at(r)->kinds | rule_at(r)->other_kinds) & (1U << k)))
                continue;
            examination->reach_of[k] = fmax(examination->reach_of[k], reach.beside);
            examination->reach_across_of[k] = fmax(examination->reach_across_of[k], reach.away);
        }
    }
}

/* A finding names its features in the order of its sentence, an accepted one in rising order. */
static bool is_accepted_by(const AcceptedFinding *accepted, const Finding *finding)
{
    if (g_strcmp0(finding->rule->slug, accepted->rule) != 0 ||
        finding->feature_count != accepted->features.count)
        return false;
    for (int i = 0; i < finding->feature_count; i++) {
        bool named = false;
        for (uint32_t k = 0; !named && k < accepted->features.count; k++)
            named = *LIST_AT(&accepted->features, FeatureId, k) == finding->features[i];
        if (!named)
            return false;
    }
    return true;
}

static void mark_accepted(FindingList *findings, const Settings *settings)
{
    for (uint32_t a = 0; a < settings->accepted.count; a++) {
        const AcceptedFinding *accepted = LIST_AT(&settings->accepted, AcceptedFinding, a);
        for (uint32_t i = 0; i < findings->count; i++)
            if (is_accepted_by(accepted, &findings->items[i]))
                findings->items[i].accepted = true;
    }
}

/* Adds to `findings` what the rules say of all that is marked. */
static void examine(const Placed *placed, const Limits *limits, const Scratch *scratch,
                    FindingList *findings)
{
    uint32_t count;
    Examination examination = {
        .placed = placed, .limits = limits, .scratch = scratch, .findings = findings};
    const FeatureId *touched = placed_touched(placed, &count);
    find_reaches(&examination);
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = placed_find(placed, touched[i]);
        if (feature)
            examine_feature(&examination, feature);
    }
    const FeatureId *clamps = placed_touched_clamps(placed, &count);
    for (uint32_t i = 0; i < count; i++) {
        const Feature *clamp = placed_find(placed, clamps[i]);
        if (clamp && !is_marked(scratch, clamps[i]))
            examine_clamp(&examination, clamp);
    }
    for (int r = 0; r < rule_count(); r++)
        if (rule_at(r)->scope == SCOPE_PLATE)
            run_rule(&examination, r, NULL, NULL);
    mark_accepted(findings, placed_settings(placed));
}

void checker_update(Checker *checker, const Placed *placed, FindingDelta *delta)
{
    Scratch *scratch = checker->scratch;
    FindingList *kept = &scratch->kept;
    if (placed_all_touched(placed))
        limits_read(&checker->limits, placed_settings(placed));
    mark_touched(scratch, placed);
    kept->count = 0;
    for (uint32_t i = 0; i < checker->findings.count; i++) {
        const Finding *finding = &checker->findings.items[i];
        bool stale = placed_all_touched(placed) || is_stale(scratch, finding);
        if (!stale)
            *finding_list_add(kept) = *finding;
        else if (delta)
            *finding_list_add(&delta->removed) = *finding;
    }
    uint32_t before = kept->count;
    examine(placed, &checker->limits, scratch, kept);
    for (uint32_t i = before; delta && i < kept->count; i++)
        *finding_list_add(&delta->added) = kept->items[i];
    FindingList old = checker->findings;
    checker->findings = *kept;
    *kept = old;
    finding_list_sort(&checker->findings);
}

void checker_try(const Checker *checker, const Placed *overlay, Scratch *scratch,
                 FindingDelta *delta)
{
    delta->removed.count = 0;
    delta->added.count = 0;
    const Limits *limits = &checker->limits;
    if (placed_all_touched(overlay)) {
        limits_read(&scratch->limits, placed_settings(overlay));
        limits = &scratch->limits;
    }
    mark_touched(scratch, overlay);
    for (uint32_t i = 0; i < checker->findings.count; i++) {
        const Finding *finding = &checker->findings.items[i];
        if (placed_all_touched(overlay) || is_stale(scratch, finding))
            *finding_list_add(&delta->removed) = *finding;
    }
    examine(overlay, limits, scratch, &delta->added);
    finding_list_sort(&delta->added);
}
