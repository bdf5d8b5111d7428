/* Answers that differ in nothing but the place: on a plate of like stations each position comes
 * once for each of them, and is one answer for the maker. */
#include "refit/refit-private.h"

#include <string.h>

static bool same_use(const RefitUse *a, const RefitUse *b)
{
    return a->part_hole == b->part_hole && (a->hole == ID_NONE) == (b->hole == ID_NONE) &&
           a->hardware.kind == b->hardware.kind && a->hardware.diameter == b->hardware.diameter &&
           a->hardware.upper == b->hardware.upper && a->hardware.lower == b->hardware.lower &&
           strcmp(a->hardware.size, b->hardware.size) == 0 &&
           fabs(a->deviation - b->deviation) < 1e-5;
}

static bool same_findings(const FindingList *a, const FindingList *b)
{
    if (a->count != b->count)
        return false;
    for (uint32_t i = 0; i < a->count; i++)
        if (a->items[i].rule != b->items[i].rule || a->items[i].which != b->items[i].which)
            return false;
    return true;
}

static bool is_alike(const RefitAnswer *a, const RefitAnswer *b)
{
    if (a->verdict != b->verdict || a->way != b->way || a->lie != b->lie || a->face != b->face ||
        a->turned_over != b->turned_over || a->uses->len != b->uses->len ||
        (a->shut_out == ID_NONE) != (b->shut_out == ID_NONE) ||
        ABS(a->rotation - b->rotation) > 1000 || !same_findings(&a->findings, &b->findings))
        return false;
    for (guint i = 0; i < a->uses->len; i++)
        if (!same_use(&g_array_index(a->uses, RefitUse, i), &g_array_index(b->uses, RefitUse, i)))
            return false;
    return true;
}

/* The arcs of single holes are each an answer of their own. */
static bool is_arc(const RefitAnswer *answer)
{
    return answer->way == REFIT_ON_ONE_HOLE && answer->verdict != REFIT_NO;
}

void refit_join_alike(GPtrArray *answers)
{
    guint kept = 0;
    for (guint i = 0; i < answers->len; i++) {
        RefitAnswer *answer = answers->pdata[i];
        RefitAnswer *first = NULL;
        for (guint k = kept; k-- > 0 && !first && !is_arc(answer);) {
            RefitAnswer *other = answers->pdata[k];
            if (other->verdict != answer->verdict || other->stops != answer->stops)
                break;
            if (is_alike(other, answer))
                first = other;
        }
        if (first)
            g_ptr_array_add(first->alike, answer);
        else
            answers->pdata[kept++] = answer;
    }
    /* What moved into another answer is no longer the list's to free. */
    for (guint i = kept; i < answers->len; i++)
        answers->pdata[i] = NULL;
    g_ptr_array_set_size(answers, (gint)kept);
}

/* --- near a place --------------------------------------------------------------------------- */

/* From there to the middle of the part, mm. */
static double distance_to(const Refit *refit, const RefitAnswer *answer, FeatureId face, Point at)
{
    Box box = refit->outline ? outline_box(refit->outline) : (Box){0};
    Point middle = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    if (answer->face != face)
        return INFINITY;
    return point_distance(pose_point(refit_answer_pose(answer), middle), at);
}

/* The nearest of those that are alike leads them. */
static double lead_by_nearest(const Refit *refit, guint i, FeatureId face, Point at)
{
    RefitAnswer *first = refit->answers->pdata[i];
    double nearest = distance_to(refit, first, face, at);
    guint best = first->alike->len;
    for (guint k = 0; k < first->alike->len; k++) {
        double distance = distance_to(refit, first->alike->pdata[k], face, at);
        if (distance < nearest) {
            nearest = distance;
            best = k;
        }
    }
    if (best < first->alike->len) {
        RefitAnswer *leader = first->alike->pdata[best];
        GPtrArray *followers = leader->alike;
        leader->alike = first->alike;
        first->alike = followers;
        leader->alike->pdata[best] = first;
        refit->answers->pdata[i] = leader;
    }
    return nearest;
}

uint32_t refit_lead_nearest(Refit *refit, FeatureId face, Place at)
{
    Point there = {length_to_mm(at.x), length_to_mm(at.y)};
    uint32_t best = 0;
    double nearest = INFINITY;
    bool fits = false;
    for (guint i = 0; i < refit->answers->len; i++) {
        double distance = lead_by_nearest(refit, i, face, there);
        bool here = refit_at(refit, i)->verdict != REFIT_NO;
        if ((here && !fits) || (here == fits && distance < nearest)) {
            best = i;
            nearest = distance;
            fits = here;
        }
    }
    return best;
}
