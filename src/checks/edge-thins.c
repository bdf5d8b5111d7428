/* edge-thins: on an inclined face the bevel is a plane, so the edge is thinner where the outline
 * lies outside the line of the edge and thicker where it curves away inwards. */
#include "checks/bevel-figures.h"
#include "checks/edge-profile.h"
#include "checks/rule.h"

enum { LEAST, THICKER };

static const RuleLimit limits[] = {
    [LEAST] = {"least", 0.1, VALUE_LENGTH, N_("least thickness of the edge on any stock"),
               N_("common practice, no source")},
    [THICKER] = {"thicker", 0.5, VALUE_LENGTH,
                 N_("how much thicker than drawn the edge may become along its line"),
                 N_("common practice, no source")},
};

enum { CASE_GONE, CASE_THIN, CASE_THICK };

static const RuleCase cases[] = {
    [CASE_GONE] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("the bevels of the part of {a} meet {over} above the last of its edge: the "
                      "outline is cut away there"),
                   N_("make the edge thicker, or its line straighter")},
    [CASE_THIN] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("the edge of the part of {a} can be {value} thick; at least {limit} is needed"),
         N_("make the edge thicker, hold the stock closer, or the edge's line straighter")},
    [CASE_THICK] =
        {LEVEL_NOTE, VALUE_LENGTH,
         N_("the edge of the part of {a} becomes {value} thick where it curves away from "
            "its line; {limit} is allowed"),
         N_("turn the part on the face, or leave the rest to the grinder")},
};

/* One bevel is measured from the side the part lies on: the stock's thickness does not change the
 * edge. Of two, each is measured from the other side: what the stock is thicker, the edge is
 * thinner. */
static double edge_at(const Part *part, double inwards, double thicker)
{
    int sides = part->bevel.both_sides ? 2 : 1;
    double nominal = blade_edge_beyond(length_to_mm(part->bevel.edge_thickness),
                                       angle_to_degrees(part->bevel.angle), sides, -inwards);
    return sides == 2 ? nominal - thicker : nominal;
}

static void report(RuleContext *context, int which, const Feature *station, Point at, double value,
                   double limit)
{
    Finding *finding = rule_report(context, which, station, NULL, value, limit);
    finding->at = finding->from = finding->to = pose_point(station->shape.pose, at);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    EdgeProfile profile;
    const Part *part = bevelled_part(context->placed, a, &profile);
    if (!part)
        return;
    double tolerance = length_to_mm(part->thickness_tolerance);
    double thinnest = edge_at(part, profile.least, tolerance);
    double thickest = edge_at(part, profile.most, -tolerance);
    double most = length_to_mm(part->bevel.edge_thickness) + context->limits[THICKER];
    if (falls_short(thinnest, 0))
        report(context, CASE_GONE, a, profile.outermost, thinnest, 0);
    else if (falls_short(thinnest, context->limits[LEAST]))
        report(context, CASE_THIN, a, profile.outermost, thinnest, context->limits[LEAST]);
    if (falls_short(most, thickest))
        report(context, CASE_THICK, a, profile.innermost, thickest, most);
}

const Rule rule_edge_thins = {
    .slug = "edge-thins",
    .title = N_("Edge thinner or thicker along its line"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
