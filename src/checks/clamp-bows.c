/* clamp-bows: an edge clamp does not press a thin blank into a bow. An estimate. */
#include "checks/clamp-contact.h"
#include "checks/hardware.h"

enum { FACTOR };

static const RuleLimit limits[] = {
    [FACTOR] = {"factor", 4, VALUE_COUNT,
                N_("how many times the clamp's force the blank stands before it bows"),
                N_("common practice, no source; bowing by the handbook case of a plate strip")},
};

static const RuleCase cases[] = {
    {LEVEL_CAUTION, VALUE_COUNT,
     N_("the blank of {b} bows at {value} times the force of {a}; {limit} times is safe (an "
        "estimate)"),
     N_("clamp it with less force, more clamps, or nearer to a thicker or narrower place")},
};

/* A strip as wide as the jaw, as long as the blank is wide, hinged at both ends, bows at
 * pi2 E I / ((1 - 0.3^2) L2), I = width thickness3 / 12: Euler's strut with a plate's stiffness
 * (handbook). Newtons from kN/mm2 and mm. */
static double bowing_force(const Material *material, double jaw, double thickness, double across)
{
    double inertia = jaw * thickness * thickness * thickness / 12;
    return M_PI * M_PI * material->modulus * 1000 * inertia / (1 - 0.09) / (across * across);
}

static const Material *material_of(const Placed *placed, const Feature *station)
{
    const Record *record = placed_record(placed, station->id);
    const Record *part = placed_record(placed, record->station.part);
    return part && part->kind == RECORD_PART ? hardware_part_material(&part->part) : NULL;
}

static void check_one(RuleContext *context, const ClampContact *contact)
{
    double force = (double)contact->fitting->force / 1e6;
    const Material *material = contact->part ? material_of(context->placed, contact->part) : NULL;
    double thickness = contact->part ? contact->top + contact->seat : 0;
    if (force <= 0 || !material || contact->across <= 0 || thickness <= 0)
        return;
    double jaw = 2 * contact->jaw.half_length;
    double factor = bowing_force(material, jaw, thickness, contact->across) / force;
    if (falls_short(factor, context->limits[FACTOR]))
        clamp_report(context, 0, contact, factor, context->limits[FACTOR]);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    ClampContact contact;
    if (clamp_contact(context->placed, a, &contact))
        check_one(context, &contact);
}

const Rule rule_clamp_bows = {
    .slug = "clamp-bows",
    .title = N_("Clamp bows a thin blank"),
    .scope = SCOPE_CLAMP,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
