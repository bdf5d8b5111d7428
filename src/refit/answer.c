/* One answer: its place, its edit, and what the checks say of it. */
#include "refit/refit-private.h"

#include "geometry/words.h"
#include "plate/label.h"

#include <string.h>

RefitAnswer *refit_answer_new(RefitWay way, FeatureId face)
{
    RefitAnswer *answer = g_new0(RefitAnswer, 1);
    answer->way = way;
    answer->face = face;
    answer->always = true;
    answer->uses = g_array_new(FALSE, TRUE, sizeof(RefitUse));
    answer->displaced = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    answer->alike = g_ptr_array_new_with_free_func((GDestroyNotify)refit_answer_free);
    return answer;
}

void refit_answer_free(RefitAnswer *answer)
{
    if (!answer)
        return;
    g_array_unref(answer->uses);
    g_array_unref(answer->displaced);
    g_ptr_array_unref(answer->alike);
    finding_list_clear(&answer->findings);
    g_free(answer);
}

void refit_answer_place(RefitAnswer *answer, Pose pose)
{
    answer->at = (Place){length_from_mm(pose.x), length_from_mm(pose.y)};
    double degrees = atan2(pose.sine, pose.cosine) * (180 / M_PI);
    answer->rotation = angle_normalized(angle_from_degrees(degrees));
    answer->turned_over = pose.turned_over;
}

Pose refit_answer_pose(const RefitAnswer *answer)
{
    return pose_from_model(answer->at.x, answer->at.y, answer->rotation, answer->turned_over);
}

void refit_answer_add_use(RefitAnswer *answer, RefitUse use)
{
    guint at = 0;
    while (at < answer->uses->len &&
           g_array_index(answer->uses, RefitUse, at).part_hole < use.part_hole)
        at++;
    g_array_insert_val(answer->uses, at, use);
    answer->new_holes += use.hole == ID_NONE;
}

/* --- the edit ------------------------------------------------------------------------------- */

static void set_label(const Refit *refit, const Edit *edit, Record *record, char **label)
{
    char text[LABEL_TEXT];
    label_next(refit->plate, edit, record, text);
    *label = *text ? g_strdup(text) : NULL;
}

void refit_set_instead(const RefitAnswer *answer, Station *station)
{
    station->instead_of.count = 0;
    g_clear_pointer(&station->instead_of.items, g_free);
    for (guint i = 0; i < answer->displaced->len; i++)
        *list_append(&station->instead_of, FeatureId) =
            g_array_index(answer->displaced, FeatureId, i);
}

static Record *station_record(const Refit *refit, const RefitAnswer *answer, FeatureId id)
{
    Record *record = record_new(id, RECORD_STATION);
    record->station.face = answer->face;
    record->station.part = refit->part_record->id;
    record->station.at = answer->at;
    record->station.rotation = answer->rotation;
    record->station.turned_over = answer->turned_over;
    refit_set_instead(answer, &record->station);
    return record;
}

static Record *hole_record(const Refit *refit, const RefitAnswer *answer, const RefitUse *use,
                           FeatureId station, FeatureId id)
{
    Record *record = record_new(id, RECORD_HOLE);
    record->hole.face = answer->face;
    record->hole.station = station;
    record->hole.at = LIST_AT(&refit->part->holes, PartHole, use->part_hole - 1)->at;
    hardware_make_steps(&use->hardware, &record->hole);
    return record;
}

static void add_station(const Refit *refit, const RefitAnswer *answer, bool labels, Edit *edit)
{
    Record *station = station_record(refit, answer, refit_station(refit));
    if (labels)
        set_label(refit, edit, station, &station->station.label);
    edit_add(edit, NULL, station);
}

/* Numbers from here on are given to holes and fittings. */
static FeatureId first_use_id(const Refit *refit)
{
    return refit->first_new + refit->part_is_new + (refit->options.replace == ID_NONE);
}

static Record *fitting_record(const Refit *refit, const RefitUse *use, FeatureId id,
                              const Record *before)
{
    Record *record = record_new(id, RECORD_FITTING);
    record->fitting.station = refit_station(refit);
    record->fitting.part_hole = use->part_hole;
    record->fitting.label = before ? g_strdup(record_label(before)) : NULL;
    hardware_make_fitting(&use->hardware, refit->part->thickness, &record->fitting);
    return record;
}

/* The hardware through the part, and the new holes under it. Adds its numbers to `fittings`. */
static void add_uses(const Refit *refit, const RefitAnswer *answer, bool labels,
                     const GArray *reused, GArray *fittings, Edit *edit)
{
    FeatureId next = first_use_id(refit);
    for (guint i = 0; i < answer->uses->len; i++) {
        const RefitUse *use = &g_array_index(answer->uses, RefitUse, i);
        FeatureId hole_id = use->hole, id = ID_NONE;
        if (use->hole == ID_NONE) {
            hole_id = next++;
            Record *hole = hole_record(refit, answer, use, refit_station(refit), hole_id);
            if (labels)
                set_label(refit, edit, hole, &hole->hole.label);
            edit_add(edit, NULL, hole);
        }
        if (reused)
            id = g_array_index(reused, FeatureId, i);
        const Record *before = id ? plate_find(refit->plate, id) : NULL;
        id = id ? id : next;
        next++;
        Record *fitting = fitting_record(refit, use, id, before);
        fitting->fitting.hole = hole_id;
        edit_add(edit, before ? record_ref(before) : NULL, fitting);
        g_array_append_val(fittings, id);
    }
}

void refit_fill_edit(const Refit *refit, const RefitAnswer *answer, bool labels, Edit *edit)
{
    bool replaces = refit->options.replace != ID_NONE;
    GArray *fittings = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    GArray *reused = replaces ? refit_reused(refit, answer) : NULL;
    if (refit->part_is_new)
        edit_add(edit, NULL, record_ref(refit->part_record));
    if (replaces)
        refit_fill_replacement(refit, answer, reused, edit);
    else
        add_station(refit, answer, labels, edit);
    add_uses(refit, answer, labels, reused, fittings, edit);
    if (replaces) {
        refit_fill_operations(refit, fittings, edit);
        g_array_unref(reused);
    }
    g_array_unref(fittings);
    edit_set_name(edit, replaces ? N_("Replace the part") : N_("Refit"));
}

const Part *refit_part(const Refit *refit)
{
    return refit->part;
}

FeatureId refit_station(const Refit *refit)
{
    return refit->options.replace ? refit->options.replace : refit->first_new + refit->part_is_new;
}

FeatureId refit_replaced(const Refit *refit)
{
    return refit->options.replace;
}

FeatureId refit_use_hole(const Refit *refit, const RefitAnswer *answer, guint i)
{
    FeatureId next = first_use_id(refit);
    for (guint k = 0; k < answer->uses->len; k++) {
        FeatureId hole = g_array_index(answer->uses, RefitUse, k).hole;
        if (hole == ID_NONE)
            hole = next++;
        if (k == i)
            return hole;
        next++; /* its fitting */
    }
    return ID_NONE;
}

Point refit_use_at(const Refit *refit, const RefitAnswer *answer, const RefitUse *use)
{
    const Feature *hole = use->hole ? placed_find(refit->placed, use->hole) : NULL;
    Place own = LIST_AT(&refit->part->holes, PartHole, use->part_hole - 1)->at;
    return hole ? feature_at(hole)
                : pose_point(refit_answer_pose(answer),
                             (Point){length_to_mm(own.x), length_to_mm(own.y)});
}

/* --- trying --------------------------------------------------------------------------------- */

static bool is_displaced(const RefitAnswer *answer, FeatureId station)
{
    for (guint i = 0; i < answer->displaced->len; i++)
        if (g_array_index(answer->displaced, FeatureId, i) == station)
            return true;
    return false;
}

static void displace(const Refit *refit, RefitAnswer *answer, FeatureId station)
{
    if (station && station != refit->options.replace && !is_displaced(answer, station))
        g_array_append_val(answer->displaced, station);
}

typedef struct Users {
    const Refit *refit;
    RefitAnswer *answer;
} Users;

static bool displace_user(const Feature *feature, void *data)
{
    Users *users = data;
    if (feature->kind == FEATURE_FITTING)
        displace(users->refit, users->answer,
                 placed_record(users->refit->placed, feature->id)->fitting.station);
    return true;
}

/* Who has hardware in a hole that the answer uses can't be loaded at the same time. */
static void displace_users(const Refit *refit, RefitAnswer *answer)
{
    Users users = {refit, answer};
    for (guint i = 0; i < answer->uses->len; i++) {
        FeatureId hole = g_array_index(answer->uses, RefitUse, i).hole;
        if (hole)
            placed_each_on(refit->placed, hole, displace_user, &users);
    }
}

/* Of what the answer puts on the plate, or the station that it changes. */
static bool is_own(const Refit *refit, FeatureId id)
{
    return id >= refit->first_new || refit_is_replaced(refit, id);
}

/* A part that lies where the new one does is taken off first. */
static void displace_overlapped(const Refit *refit, RefitAnswer *answer)
{
    const FindingList *added = &refit->delta.added;
    for (uint32_t i = 0; i < added->count; i++) {
        const Finding *finding = &added->items[i];
        bool own = false;
        if (finding->rule != &rule_parts_overlap)
            continue;
        for (int k = 0; k < finding->feature_count; k++)
            own = own || is_own(refit, finding->features[k]);
        for (int k = 0; own && k < finding->feature_count; k++)
            if (!is_own(refit, finding->features[k]))
                displace(refit, answer, finding->features[k]);
    }
}

/* The parts and the hardware of displaced stations are off the plate while the new part is on it;
 * their holes stay. */
static bool is_off(const Refit *refit, const RefitAnswer *answer, FeatureId id)
{
    const Record *record = placed_record(refit->placed, id);
    if (!record)
        return false;
    if (record->kind == RECORD_STATION)
        return is_displaced(answer, id);
    return record->kind == RECORD_FITTING && is_displaced(answer, record->fitting.station);
}

static bool was_there(const Refit *refit, const Finding *finding)
{
    const FindingList *removed = &refit->delta.removed;
    for (uint32_t i = 0; i < removed->count; i++)
        if (finding_same_key(&removed->items[i], finding))
            return true;
    return false;
}

static bool concerns(const Refit *refit, const RefitAnswer *answer, const Finding *finding)
{
    bool own = false;
    for (int i = 0; i < finding->feature_count; i++) {
        if (is_off(refit, answer, finding->features[i]))
            return false;
        own = own || is_own(refit, finding->features[i]);
    }
    return own || !was_there(refit, finding);
}

/* What was found of the replaced station and still is: it counts as the new part's. */
static void add_standing(const Refit *refit, RefitAnswer *answer)
{
    const FindingList *all = checker_findings(refit->checker);
    for (uint32_t i = 0; i < all->count; i++) {
        const Finding *finding = &all->items[i];
        bool own = false;
        for (int k = 0; k < finding->feature_count; k++)
            own = own || refit_is_replaced(refit, finding->features[k]);
        if (own && !was_there(refit, finding))
            *finding_list_add(&answer->findings) = *finding;
    }
}

void refit_try(Refit *refit, RefitAnswer *answer)
{
    Edit edit = EDIT_EMPTY;
    /* Not known yet: they are those that it is found to meet. */
    g_array_set_size(answer->displaced, 0);
    refit_fill_edit(refit, answer, false, &edit);
    placed_overlay_show(refit->overlay, refit->plate, &edit);
    checker_try(refit->checker, refit->overlay, refit->scratch, &refit->delta);
    edit_clear(&edit);
    displace_users(refit, answer);
    displace_overlapped(refit, answer);
    answer->findings.count = 0;
    for (uint32_t i = 0; i < refit->delta.added.count; i++)
        if (concerns(refit, answer, &refit->delta.added.items[i]))
            *finding_list_add(&answer->findings) = refit->delta.added.items[i];
    if (refit->options.replace) {
        add_standing(refit, answer);
        finding_list_sort(&answer->findings);
    }
    FindingCounts counts = finding_list_counts(&answer->findings);
    answer->shut_out = refit->options.replace ? ID_NONE : refit_shut_out(refit, answer);
    answer->stops = counts.by_level[LEVEL_STOP] + (answer->shut_out != ID_NONE);
    answer->cautions = counts.by_level[LEVEL_CAUTION];
}

void refit_before(const Refit *refit, const RefitAnswer *answer, FindingList *findings)
{
    const FindingList *all = checker_findings(refit->checker);
    for (uint32_t i = 0; i < all->count; i++)
        for (int k = 0; k < all->items[i].feature_count; k++)
            if (is_off(refit, answer, all->items[i].features[k]) ||
                refit_is_replaced(refit, all->items[i].features[k])) {
                *finding_list_add(findings) = all->items[i];
                break;
            }
}

/* --- with more holes ------------------------------------------------------------------------ */

#define TRIES_MOST 200

/* What can be added under one of the part's holes that has nothing yet. */
typedef struct Extra {
    int part_hole;
    Hardware hardware;
} Extra;

static bool has_use(const RefitAnswer *answer, int part_hole)
{
    for (guint i = 0; i < answer->uses->len; i++)
        if (g_array_index(answer->uses, RefitUse, i).part_hole == part_hole)
            return true;
    return false;
}

static GArray *extras_of(const Refit *refit, const RefitAnswer *answer)
{
    GArray *extras = g_array_new(FALSE, FALSE, sizeof(Extra));
    for (int number = 1; number <= (int)refit->part->holes.count; number++) {
        const PartHole *hole = LIST_AT(&refit->part->holes, PartHole, number - 1);
        if (has_use(answer, number))
            continue;
        Extra extra = {number, hardware_for_locating(hole)};
        g_array_append_val(extras, extra);
        if (hardware_for_holding(hole, refit->metric, &extra.hardware))
            g_array_append_val(extras, extra);
    }
    return extras;
}

static RefitAnswer *copy_plan(const RefitAnswer *answer)
{
    RefitAnswer *copy = refit_answer_new(answer->way, answer->face);
    GArray *uses = copy->uses, *displaced = copy->displaced;
    GPtrArray *alike = copy->alike;
    *copy = *answer;
    copy->uses = uses;
    copy->displaced = displaced;
    copy->alike = alike;
    copy->findings = FINDING_LIST_EMPTY;
    g_array_append_vals(uses, answer->uses->data, answer->uses->len);
    return copy;
}

/* Stops that a new hole under the part can't mend: all but those about too few locators or screws.
 */
static bool is_beyond_holes(const RefitAnswer *answer)
{
    if (answer->shut_out)
        return true;
    for (uint32_t i = 0; i < answer->findings.count; i++) {
        const Finding *finding = &answer->findings.items[i];
        bool mends = finding->rule == &rule_two_locators || finding->rule == &rule_comes_loose;
        if (finding->level == LEVEL_STOP && !finding->accepted && !mends)
            return true;
    }
    return false;
}

typedef struct Adding {
    Refit *refit;
    const GArray *extras;
    int tries;
    RefitAnswer *best; /* with the fewest stops, and of these the fewest cautions; NULL at first */
} Adding;

static bool is_better(const RefitAnswer *answer, const RefitAnswer *than)
{
    if (!than || answer->stops != than->stops)
        return !than || answer->stops < than->stops;
    return answer->cautions < than->cautions;
}

/* Adds `left` more of the extras from `from` on, each hole once. */
static void try_adding(Adding *adding, const RefitAnswer *plan, guint from, int left)
{
    for (guint i = from; i < adding->extras->len && adding->tries < TRIES_MOST; i++) {
        const Extra *extra = &g_array_index(adding->extras, Extra, i);
        if (has_use(plan, extra->part_hole))
            continue;
        RefitAnswer *next = copy_plan(plan);
        refit_answer_add_use(next, (RefitUse){extra->part_hole, ID_NONE, extra->hardware, 0, 0});
        if (left > 1) {
            try_adding(adding, next, i + 1, left - 1);
        } else {
            adding->tries++;
            refit_try(adding->refit, next);
            if (is_better(next, adding->best)) {
                RefitAnswer *worse = adding->best;
                adding->best = next;
                next = worse;
            }
        }
        refit_answer_free(next);
    }
}

/* The answer takes over what the better plan has. */
static void take_plan(RefitAnswer *answer, RefitAnswer *plan)
{
    RefitAnswer own = *answer;
    *answer = *plan;
    *plan = own;
    refit_answer_free(plan);
}

void refit_judge(Refit *refit, RefitAnswer *answer)
{
    refit_try(refit, answer);
    answer->verdict = REFIT_NO;
    bool enough = refit->options.best_alone && refit_best(refit) == REFIT_FITS;
    if (answer->stops && !enough && !is_beyond_holes(answer)) {
        GArray *extras = extras_of(refit, answer);
        Adding adding = {refit, extras, 0, NULL};
        for (int more = 1; more <= (int)extras->len; more++) {
            try_adding(&adding, answer, 0, more);
            if (adding.best && adding.best->stops == 0)
                break;
        }
        /* Where nothing does, what comes nearest says why. */
        if (adding.best && adding.best->stops <= answer->stops)
            take_plan(answer, adding.best);
        else
            refit_answer_free(adding.best);
        g_array_unref(extras);
    }
    if (answer->stops == 0)
        answer->verdict = answer->new_holes == 0   ? REFIT_FITS
                          : answer->new_holes == 1 ? REFIT_ONE_HOLE
                                                   : REFIT_MORE_HOLES;
}
