/* wall-to-face: metal between a hole or recess and the surface of another face, or of the stock's
 * side, that it was not cut from. */
#include "checks/rule.h"
#include "placed/placed-solids.h"

enum { WALL_ALUMINIUM, WALL_STEEL };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("least wall to another face in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH, N_("least wall to another face in steel"),
                    N_("common practice, no source")},
};

enum { CASE_FACE, CASE_SIDE };

static const RuleCase cases[] = {
    [CASE_FACE] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("{a} leaves {value} of metal to an inclined face; at least {limit} is needed"),
         N_("move it {less} away, or make it shallower")},
    [CASE_SIDE] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("{a} leaves {value} of metal to the side of the plate; at least {limit} is "
                      "needed"),
                   N_("move it {less} away, or make it shallower")},
};

/* The face's surface, as thin as a solid may be and outside the metal. */
static Solid surface_of(const Frame *frame)
{
    Placement placement = frame_placement(frame);
    return solid_of_shape(&frame->extent, &placement, 0, 1);
}

typedef struct Pieces {
    Solid solids[SOLIDS_MOST];
    int count;
} Pieces;

/* The nearest place of another face's surface; false where it runs out there, which is meant or
 * some other rule's business, or is further away than the wall. */
static bool nearest_of(const Pieces *pieces, const Frame *frame, double wall, SolidGap *least)
{
    SolidGap gap;
    Solid surface = surface_of(frame);
    *least = (SolidGap){.distance = INFINITY};
    for (int i = 0; i < pieces->count; i++)
        if (solid_gap_within(&pieces->solids[i], &surface, wall, &gap) &&
            gap.distance < least->distance)
            *least = gap;
    return falls_short(least->distance, wall) && !falls_short(least->distance, 0);
}

static void check_surfaces(RuleContext *context, const Feature *a, const Pieces *pieces,
                           double wall)
{
    const Placed *placed = context->placed;
    SolidGap worst = {.distance = INFINITY}, gap;
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        const Frame *frame = placed_frame_at(placed, i);
        if (frame->face != a->face && frame->face != ID_TOP &&
            nearest_of(pieces, frame, wall, &gap) && gap.distance < worst.distance)
            worst = gap;
    }
    if (isinf(worst.distance))
        return;
    const Frame *own = placed_frame(placed, a->face);
    Finding *finding = rule_report(context, CASE_FACE, a, NULL, worst.distance, wall);
    rule_report_between(finding, frame_from_space(own, worst.on_a, NULL),
                        frame_from_space(own, worst.on_b, NULL));
}

/* Nearer to a side of the stock, deep inside, than where it is cut from the face. */
static void check_sides(RuleContext *context, const Feature *a, const Pieces *pieces, double wall)
{
    Gap room;
    const Stock *stock = &placed_settings(context->placed)->stock;
    double length = length_to_mm(stock->length), width = length_to_mm(stock->width);
    double least = INFINITY;
    for (int i = 0; i < pieces->count; i++) {
        SpaceBox box = solid_box(&pieces->solids[i]);
        least = fmin(least, fmin(fmin(box.least.x, length - box.most.x),
                                 fmin(box.least.y, width - box.most.y)));
    }
    shape_room(&placed_frame(context->placed, a->face)->extent, &a->shape, &room);
    if (falls_short(least, wall) && !falls_short(room.distance, wall))
        rule_report(context, CASE_SIDE, a, NULL, least, wall);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Placed *placed = context->placed;
    if (placed_frame_count(placed) < 2)
        return;
    Pieces pieces;
    double wall = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    pieces.count = placed_solids(placed, a, pieces.solids);
    if (a->face != ID_TOP)
        check_sides(context, a, &pieces, wall);
    check_surfaces(context, a, &pieces, wall);
}

const Rule rule_wall_to_face = {
    .slug = "wall-to-face",
    .title = N_("Thin wall to another face"),
    .scope = SCOPE_FEATURE,
    .kinds = FEATURE_CUT,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
