/* clamp-travel: an edge clamp's jaw reaches the blank within its travel, and lets it in. */
#include "checks/clamp-contact.h"

enum { CASE_NOTHING, CASE_NEAR, CASE_FAR };

static const RuleCase cases[] = {
    [CASE_NOTHING] = {LEVEL_CAUTION, VALUE_NONE, N_("nothing lies where {a} pushes"),
                      N_("turn the clamp towards its blank")},
    [CASE_NEAR] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} stands {less} too near: the blank of {b} does not go in"),
                   N_("move the clamp and its slot {less} away from the blank")},
    [CASE_FAR] = {LEVEL_STOP, VALUE_LENGTH,
                  N_("{a} stands {value} from the blank of {b}; its jaw reaches {limit}"),
                  N_("move the clamp and its slot {more} nearer")},
};

static void check_one(RuleContext *context, const ClampContact *contact)
{
    double least = length_to_mm(contact->fitting->travel_least);
    double greatest = length_to_mm(contact->fitting->travel_greatest);
    if (!contact->part)
        clamp_report(context, CASE_NOTHING, contact, 0, 0);
    else if (falls_short(contact->distance, least))
        clamp_report(context, CASE_NEAR, contact, contact->distance, least);
    else if (falls_short(greatest, contact->distance))
        clamp_report(context, CASE_FAR, contact, contact->distance, greatest);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    ClampContact contact;
    if (clamp_contact(context->placed, a, &contact))
        check_one(context, &contact);
}

const Rule rule_clamp_travel = {
    .slug = "clamp-travel",
    .title = N_("Clamp out of reach of its blank"),
    .scope = SCOPE_CLAMP,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
