/* Another part at an existing station: the station stays, with its own holes, slots and clamps
 * where they are; its part is another, laid on those holes as well as they allow, and the hardware
 * through the part is chosen anew. */
#include "refit/refit-private.h"

/* --- whether it can be ---------------------------------------------------------------------- */

bool refit_can_replace(const Plate *plate, FeatureId station, Error *error)
{
    const Record *own = plate_find_kind(plate, station, RECORD_STATION);
    if (!own)
        return error_set(error, ERROR_MISSING, NULL, "the plate has no such station");
    bool made = record_made(own);
    for (uint32_t i = 0; i < plate_count(plate) && !made; i++) {
        const Record *record = plate_at(plate, i);
        made = record_station(record) == station && record_made(record);
    }
    return !made || error_set(error, ERROR_CONFLICT, NULL,
                              "station %s is made, or something of it is, and keeps its part; fit "
                              "the new part beside it as a refit, or take the marks off first",
                              record_label(own) ? record_label(own) : "");
}

/* --- its holes ------------------------------------------------------------------------------ */

static bool is_own_user(const Feature *feature, void *data)
{
    void **both = data;
    const Refit *refit = both[0];
    bool *own = both[1];
    const Record *record = placed_record(refit->placed, feature->id);
    if (record->kind == RECORD_FITTING && record->fitting.station == refit->options.replace)
        *own = true;
    return !*own;
}

static bool is_own_hole(const Refit *refit, FeatureId id)
{
    bool own = record_station(placed_record(refit->placed, id)) == refit->options.replace;
    void *both[2] = {(void *)refit, &own};
    if (!own)
        placed_each_on(refit->placed, id, is_own_user, both);
    return own;
}

void refit_keep_own_holes(Refit *refit)
{
    GArray *kept = g_array_new(FALSE, FALSE, sizeof(MatchHole));
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        uint32_t first = kept->len;
        for (uint32_t i = 0; i < face->count; i++) {
            const MatchHole *hole = &g_array_index(refit->holes.holes, MatchHole, face->first + i);
            if (is_own_hole(refit, hole->id))
                g_array_append_val(kept, *hole);
        }
        face->first = first;
        face->count = kept->len - first;
    }
    g_array_unref(refit->holes.holes);
    refit->holes.holes = kept;
}

/* --- the edit ------------------------------------------------------------------------------- */

static Place place_of(Point at)
{
    return (Place){length_from_mm(at.x), length_from_mm(at.y)};
}

/* A copy of a thing of the station that lies where it did, in the station's new coordinates. */
static Record *left_where_it_is(const Record *record, Pose before, Pose after)
{
    Record *moved = record_copy(record, record->id);
    Place *at = record_place(moved);
    Angle *rotation = record_rotation(moved), none = 0;
    Pose own = pose_from_model(at->x, at->y, rotation ? *rotation : none, false);
    Pose again = pose_after(pose_inverse(after), pose_after(before, own));
    *at = place_of((Point){again.x, again.y});
    if (rotation)
        *rotation =
            angle_normalized(angle_from_degrees(atan2(again.sine, again.cosine) * (180 / M_PI)));
    return moved;
}

static bool goes_through_part(const Record *record)
{
    return record->kind == RECORD_FITTING && record->fitting.kind != FITTING_EDGE_CLAMP;
}

/* A nest follows the part; all else of the station stays. */
static bool has_place_of_its_own(const Record *record)
{
    bool nest = record->kind == RECORD_RECESS &&
                (record->recess.kind == RECESS_NEST || record->recess.kind == RECESS_BLANK_NEST);
    return record_place_const(record) != NULL && !nest;
}

static bool same_pose(const Station *station, const RefitAnswer *answer)
{
    return station->at.x == answer->at.x && station->at.y == answer->at.y &&
           station->rotation == answer->rotation && station->turned_over == answer->turned_over;
}

/* --- the hardware through the part ---------------------------------------------------------- */

static bool contains(const GArray *ids, FeatureId id)
{
    for (guint i = 0; i < ids->len; i++)
        if (g_array_index(ids, FeatureId, i) == id)
            return true;
    return false;
}

/* The station's piece of hardware that becomes the one for `use`: the one in the same hole, or
 * else (for `use` NULL) any that has no use yet. */
static FeatureId find_old(const Refit *refit, const GArray *taken, const RefitUse *use)
{
    for (uint32_t i = 0; i < plate_count(refit->plate); i++) {
        const Record *record = plate_at(refit->plate, i);
        if (goes_through_part(record) && record->fitting.station == refit->options.replace &&
            !contains(taken, record->id) && (!use || record->fitting.hole == use->hole))
            return record->id;
    }
    return ID_NONE;
}

GArray *refit_reused(const Refit *refit, const RefitAnswer *answer)
{
    GArray *reused = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    for (guint i = 0; i < answer->uses->len; i++) {
        const RefitUse *use = &g_array_index(answer->uses, RefitUse, i);
        FeatureId id = use->hole ? find_old(refit, reused, use) : ID_NONE;
        g_array_append_val(reused, id);
    }
    for (guint i = 0; i < answer->uses->len; i++) {
        FeatureId *id = &g_array_index(reused, FeatureId, i);
        if (*id == ID_NONE)
            *id = find_old(refit, reused, NULL);
    }
    return reused;
}

static bool is_old(const Refit *refit, FeatureId id)
{
    const Record *record = plate_find(refit->plate, id);
    return record && goes_through_part(record) && record->fitting.station == refit->options.replace;
}

void refit_fill_operations(const Refit *refit, const GArray *fittings, Edit *edit)
{
    for (uint32_t i = 0; i < plate_count(refit->plate); i++) {
        const Record *record = plate_at(refit->plate, i);
        bool had = false;
        if (record->kind != RECORD_OPERATION)
            continue;
        Record *after = record_copy(record, record->id);
        const List *before = &record->operation.fitted;
        List *fitted = &after->operation.fitted;
        fitted->count = 0;
        for (uint32_t k = 0; k < before->count; k++) {
            FeatureId id = *LIST_AT(before, FeatureId, k);
            had = had || is_old(refit, id);
            if (!is_old(refit, id) || contains(fittings, id))
                *list_append(fitted, FeatureId) = id;
        }
        /* What is new is fitted wherever some of the old was. */
        for (guint k = 0; had && k < fittings->len; k++) {
            FeatureId id = g_array_index(fittings, FeatureId, k);
            if (!plate_find(refit->plate, id))
                *list_append(fitted, FeatureId) = id;
        }
        if (had)
            edit_add(edit, record_ref(record), after);
        else
            record_unref(after);
    }
}

/* --- the station ---------------------------------------------------------------------------- */

void refit_fill_replacement(const Refit *refit, const RefitAnswer *answer, const GArray *reused,
                            Edit *edit)
{
    FeatureId id = refit->options.replace;
    const Record *old = plate_find(refit->plate, id);
    Record *station = record_copy(old, id);
    bool moves = !same_pose(&old->station, answer);
    Pose before = pose_from_model(old->station.at.x, old->station.at.y, old->station.rotation,
                                  old->station.turned_over);
    station->station.part = refit->part_record->id;
    station->station.at = answer->at;
    station->station.rotation = answer->rotation;
    station->station.turned_over = answer->turned_over;
    refit_set_instead(answer, &station->station);
    edit_add(edit, record_ref(old), station);
    for (uint32_t i = 0; i < plate_count(refit->plate); i++) {
        const Record *record = plate_at(refit->plate, i);
        if (record->id == id || record_station(record) != id)
            continue;
        if (goes_through_part(record)) {
            if (!contains(reused, record->id))
                edit_add(edit, record_ref(record), NULL);
        } else if (moves && has_place_of_its_own(record))
            edit_add(edit, record_ref(record),
                     left_where_it_is(record, before, refit_answer_pose(answer)));
    }
}

/* --- as it lies ----------------------------------------------------------------------------- */

/* The hole under a hole of the part that locates it, or else holds it; the nearest of several. */
static void use_what_is_under(const Refit *refit, RefitAnswer *answer, const FaceHoles *face,
                              int part_hole)
{
    Point at = pose_point(refit_answer_pose(answer), refit->query.part[part_hole]);
    RefitUse best = {0};
    bool best_locates = false;
    for (uint32_t i = 0; i < face->count; i++) {
        const MatchHole *hole = &g_array_index(refit->holes.holes, MatchHole, face->first + i);
        const HoleOptions *options = match_options(&refit->query, hole->use, part_hole);
        double off = point_distance(hole->at, at);
        bool locates = options->locate.serves && off <= options->locate.play;
        const HoleOption *option = locates ? &options->locate : &options->hold;
        if (!option->serves || off > option->play || (best.hole && best_locates && !locates) ||
            (best.hole && best_locates == locates && off >= best.deviation))
            continue;
        best = (RefitUse){part_hole + 1, hole->id, option->hardware, off, option->play};
        best_locates = locates;
    }
    if (best.hole)
        refit_answer_add_use(answer, best);
}

static bool is_known(const Refit *refit, const RefitAnswer *answer)
{
    for (guint i = 0; i < refit->answers->len; i++) {
        const RefitAnswer *other = refit->answers->pdata[i];
        if (other->at.x == answer->at.x && other->at.y == answer->at.y &&
            other->rotation == answer->rotation && other->turned_over == answer->turned_over)
            return true;
    }
    return false;
}

void refit_use_holes_below(const Refit *refit, RefitAnswer *answer)
{
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        for (int i = 0; face->face == answer->face && i < refit->query.part_count; i++)
            use_what_is_under(refit, answer, face, i);
    }
}

void refit_search_in_place(Refit *refit)
{
    const Station *station = &plate_find(refit->plate, refit->options.replace)->station;
    RefitAnswer *answer = refit_answer_new(REFIT_IN_PLACE, station->face);
    answer->at = station->at;
    answer->rotation = station->rotation;
    answer->turned_over = station->turned_over;
    refit_use_holes_below(refit, answer);
    if (is_known(refit, answer)) {
        refit_answer_free(answer);
        return;
    }
    refit_judge(refit, answer);
    g_ptr_array_add(refit->answers, answer);
}

/* --- findings ------------------------------------------------------------------------------- */

bool refit_is_replaced(const Refit *refit, FeatureId id)
{
    const Record *record = id ? placed_record(refit->placed, id) : NULL;
    return refit->options.replace && record &&
           (id == refit->options.replace ||
            (record->kind == RECORD_FITTING && record->fitting.station == refit->options.replace));
}
