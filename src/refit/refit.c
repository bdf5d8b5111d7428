#include "refit/refit-private.h"

#include <stdlib.h>

static const char *const verdict_names[] = {"fits", "one-hole", "more-holes", "no"};
static const char *const way_names[] = {"holes", "one-hole", "nest", "place"};

static const char *const lie_names[] = {"middle", "pressed", "hole"};

const char *nest_lie_name(NestLie lie)
{
    return lie_names[lie];
}

const char *refit_verdict_name(RefitVerdict verdict)
{
    return verdict_names[verdict];
}

const char *refit_way_name(RefitWay way)
{
    return way_names[way];
}

/* The plate's own record of an equal part, or a new one. */
static void find_part(Refit *refit)
{
    for (uint32_t i = 0; i < plate_count(refit->plate); i++) {
        const Record *record = plate_at(refit->plate, i);
        if (record->kind == RECORD_PART && schema_equal(&part_schema, &record->part, refit->part)) {
            refit->part_record = record_ref(record);
            return;
        }
    }
    refit->part_is_new = true;
    refit->part_record = record_new(refit->first_new, RECORD_PART);
    schema_copy(&part_schema, &refit->part_record->part, refit->part);
}

Refit *refit_new(const Plate *plate, const Placed *placed, const Checker *checker, const Part *part,
                 const RefitOptions *options)
{
    Refit *refit = g_new0(Refit, 1);
    refit->plate = plate;
    refit->placed = placed;
    refit->checker = checker;
    refit->part = part;
    refit->options = options ? *options : (RefitOptions){0};
    if (refit->options.clearance <= 0)
        refit->options.clearance = length_to_mm(LOCATOR_CLEARANCE_MOST);
    refit->metric = plate_settings(plate)->unit == PLATE_MM;
    refit->first_new = plate_next_id(plate);
    find_part(refit);
    plate_holes_init(&refit->holes, placed);
    if (refit->options.replace)
        refit_keep_own_holes(refit);
    match_query_init(&refit->query, part, (const HoleUse *)(void *)refit->holes.uses->data,
                     refit->holes.uses->len, refit->options.clearance);
    refit->outline = part_outline(part, NULL);
    refit->overlay = placed_overlay_new(placed);
    refit->scratch = scratch_new();
    refit->answers = g_ptr_array_new_with_free_func((GDestroyNotify)refit_answer_free);
    return refit;
}

void refit_free(Refit *refit)
{
    if (!refit)
        return;
    g_ptr_array_unref(refit->answers);
    finding_delta_clear(&refit->delta);
    scratch_free(refit->scratch);
    placed_free(refit->overlay);
    outline_unref(refit->outline);
    match_query_clear(&refit->query);
    plate_holes_clear(&refit->holes);
    record_unref(refit->part_record);
    g_free(refit);
}

bool refit_goes_on(const Refit *refit, double done)
{
    return !refit->options.go_on || refit->options.go_on(done, refit->options.data);
}

/* --- two or more holes ---------------------------------------------------------------------- */

static const HoleOption *pair_option(const Refit *refit, const FaceHoles *face,
                                     const MatchPair *pair, bool locates)
{
    const MatchHole *hole = &g_array_index(refit->holes.holes, MatchHole, face->first + pair->hole);
    const HoleOptions *options = match_options(&refit->query, hole->use, pair->part_hole);
    return locates ? &options->locate : &options->hold;
}

/* Two locators fix a part; a third one only fights them. The two furthest apart stay, and the
 * others hold the part down where they can. */
static void locate_by_two(const Refit *refit, const FaceHoles *face, Match *match)
{
    int one = -1, other = -1;
    double furthest = -1;
    for (int i = 0; i < match->count; i++) {
        for (int k = 0; k < i; k++) {
            const MatchPair *a = &match->pairs[i], *b = &match->pairs[k];
            double apart =
                point_distance(refit->query.part[a->part_hole], refit->query.part[b->part_hole]);
            if (a->locates && b->locates && apart > furthest) {
                furthest = apart;
                one = i;
                other = k;
            }
        }
    }
    for (int i = 0; i < match->count; i++) {
        MatchPair *pair = &match->pairs[i];
        const HoleOption *hold = pair_option(refit, face, pair, false);
        if (one < 0 || i == one || i == other || !pair->locates || !hold->serves ||
            pair->deviation > hold->play)
            continue;
        pair->locates = false;
        pair->play = hold->play;
    }
}

static RefitAnswer *answer_of_match(const Refit *refit, const FaceHoles *face, const Match *found)
{
    RefitAnswer *answer = refit_answer_new(REFIT_ON_HOLES, face->face);
    Match match = *found;
    double squares = 0;
    locate_by_two(refit, face, &match);
    refit_answer_place(answer, match.pose);
    answer->always = match.always;
    for (int i = 0; i < match.count; i++) {
        const MatchPair *pair = &match.pairs[i];
        const MatchHole *hole =
            &g_array_index(refit->holes.holes, MatchHole, face->first + pair->hole);
        const HoleOption *option = pair_option(refit, face, pair, pair->locates);
        squares += pair->deviation * pair->deviation;
        refit_answer_add_use(answer, (RefitUse){pair->part_hole + 1, hole->id, option->hardware,
                                                pair->deviation, pair->play});
    }
    answer->rms = sqrt(squares / match.count);
    return answer;
}

static bool locates(const Match *match)
{
    for (int i = 0; i < match->count; i++)
        if (match->pairs[i].locates)
            return true;
    return false;
}

/* What has the most to stand on is the likeliest to fit. */
static gint compare_matches(gconstpointer a, gconstpointer b)
{
    return ((const Match *)b)->count - ((const Match *)a)->count;
}

typedef struct MatchProgress {
    const Refit *refit;
    double done;
} MatchProgress;

static bool match_goes_on(void *data)
{
    const MatchProgress *progress = data;
    return refit_goes_on(progress->refit, progress->done);
}

bool refit_search_holes(Refit *refit, double from, double to)
{
    for (guint f = 0; f < refit->holes.faces->len; f++) {
        const FaceHoles *face = &g_array_index(refit->holes.faces, FaceHoles, f);
        const MatchHole *holes = (const MatchHole *)(void *)refit->holes.holes->data;
        MatchProgress progress = {refit, from};
        if (face->count < 2)
            continue;
        GArray *matches =
            match_find(&refit->query, holes + face->first, face->count, match_goes_on, &progress);
        bool goes_on = matches != NULL;
        if (matches)
            g_array_sort(matches, compare_matches);
        for (guint i = 0; goes_on && i < matches->len; i++) {
            const Match *match = &g_array_index(matches, Match, i);
            if (refit->options.located && !locates(match))
                continue;
            RefitAnswer *answer = answer_of_match(refit, face, match);
            refit_judge(refit, answer);
            g_ptr_array_add(refit->answers, answer);
            goes_on = refit_goes_on(refit, from + (to - from) * (i + 1) / matches->len);
        }
        if (matches)
            g_array_unref(matches);
        if (!goes_on)
            return false;
    }
    return true;
}

/* --- the order of answers ------------------------------------------------------------------- */

static int sign_of(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_answers(gconstpointer a, gconstpointer b)
{
    const RefitAnswer *one = *(RefitAnswer *const *)a, *other = *(RefitAnswer *const *)b;
    const double keys[][2] = {
        {one->verdict, other->verdict},
        {one->stops, other->stops},
        {one->new_holes, other->new_holes},
        {one->way, other->way},
        {other->uses->len, one->uses->len},
        {!one->always, !other->always},
        {one->cautions, other->cautions},
        {one->displaced->len, other->displaced->len},
        /* Deviations that differ by less than a nanometre are alike. */
        {round(one->rms * 1e6), round(other->rms * 1e6)},
        {one->face, other->face},
        {(double)one->at.x, (double)other->at.x},
        {(double)one->at.y, (double)other->at.y},
        {(double)one->rotation, (double)other->rotation},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(keys); i++)
        if (keys[i][0] != keys[i][1])
            return sign_of(keys[i][0], keys[i][1]);
    return one->turned_over - other->turned_over;
}

RefitVerdict refit_best(const Refit *refit)
{
    RefitVerdict best = REFIT_NO;
    for (guint i = 0; i < refit->answers->len; i++)
        best = MIN(best, ((const RefitAnswer *)refit->answers->pdata[i])->verdict);
    return best;
}

double refit_arc_least(const Refit *refit)
{
    return refit->options.replace ? REFIT_ARC_LEAST_REPLACED : REFIT_ARC_LEAST;
}

bool refit_search(Refit *refit)
{
    bool alone = refit->options.holes_alone;
    g_ptr_array_set_size(refit->answers, 0);
    bool done = refit_search_holes(refit, 0, alone ? 1 : 0.4);
    if (done && refit->options.replace)
        refit_search_in_place(refit);
    if (done && !alone && (refit->options.everything || refit_best(refit) > REFIT_ONE_HOLE))
        done = refit_search_one_hole(refit, 0.4, 0.9);
    if (done && !alone && !refit->options.replace)
        done = refit_search_nests(refit, 0.9, 1);
    g_ptr_array_sort(refit->answers, compare_answers);
    refit_join_alike(refit->answers);
    return done;
}

uint32_t refit_count(const Refit *refit)
{
    return refit->answers->len;
}

const RefitAnswer *refit_at(const Refit *refit, uint32_t i)
{
    return refit->answers->pdata[i];
}

void refit_edit(const Refit *refit, const RefitAnswer *answer, Edit *edit)
{
    refit_fill_edit(refit, answer, true, edit);
}

const Placed *refit_show(Refit *refit, uint32_t i)
{
    return refit_show_answer(refit, refit_at(refit, i));
}

const Placed *refit_show_answer(Refit *refit, const RefitAnswer *answer)
{
    Edit edit = EDIT_EMPTY;
    refit_edit(refit, answer, &edit);
    placed_overlay_show(refit->overlay, refit->plate, &edit);
    edit_clear(&edit);
    return refit->overlay;
}
