/* clamp-backing: what an edge clamp pushes the blank against: a nest's wall that is high and thick
 * enough, or the station's locators. */
#include "checks/clamp-contact.h"
#include "checks/locators.h"

enum { WALL_ALUMINIUM, WALL_STEEL, HEIGHT };

static const RuleLimit limits[] = {
    [WALL_ALUMINIUM] = {"wall_aluminium", 2.0, VALUE_LENGTH,
                        N_("wall that takes a clamp's push in aluminium"),
                        N_("common practice, no source")},
    [WALL_STEEL] = {"wall_steel", 1.5, VALUE_LENGTH, N_("wall that takes a clamp's push in steel"),
                    N_("common practice, no source")},
    [HEIGHT] = {"height", 0.5, VALUE_LENGTH,
                N_("height of the nest's wall that takes a clamp's push"),
                N_("common practice, no source")},
};

enum { CASE_NOTHING, CASE_LOW, CASE_THIN };

static const RuleCase cases[] = {
    [CASE_NOTHING] =
        {LEVEL_CAUTION, VALUE_NONE,
         N_("{a} pushes the blank of {b} against nothing: it has no nest and no locator"),
         N_("cut a nest for the blank, or put pins behind it")},
    [CASE_LOW] = {LEVEL_CAUTION, VALUE_LENGTH,
                  N_("{a} pushes the blank of {b} against a nest {value} deep; {limit} is needed"),
                  N_("make the nest {less} deeper")},
    [CASE_THIN] = {LEVEL_CAUTION, VALUE_LENGTH,
                   N_("{a} pushes the blank of {b} against a wall of {value}; {limit} is needed"),
                   N_("move what lies behind the wall {less} away")},
};

typedef struct Wall {
    const Placed *placed;
    const ClampContact *contact;
    double clearance, depth; /* of the deepest nest; a depth of 0: there is none */
    Shape side;              /* the blank's far side, moved against the nest's wall */
    Box behind;              /* what lies outside of it has nothing to do with the clamp */
    double thickness, most;
} Wall;

static const Recess *nest_of(const Wall *wall, const Feature *feature)
{
    if (feature->kind != FEATURE_RECESS)
        return NULL;
    const Recess *recess = &placed_record(wall->placed, feature->id)->recess;
    bool nest = recess->kind == RECESS_NEST || recess->kind == RECESS_BLANK_NEST;
    return nest && recess->station == wall->contact->part->id ? recess : NULL;
}

static bool find_nest(const Feature *feature, void *data)
{
    Wall *wall = data;
    const Recess *nest = nest_of(wall, feature);
    if (nest && -feature->bottom > wall->depth) {
        wall->depth = -feature->bottom;
        wall->clearance = length_to_mm(nest->clearance);
    }
    return true;
}

static bool thin_by(const Feature *feature, void *data)
{
    Wall *wall = data;
    if (feature->kind != FEATURE_RECESS || !box_meets(feature->box, wall->behind) ||
        nest_of(wall, feature))
        return true;
    wall->thickness = fmin(wall->thickness, way_to_touch(&wall->side, wall->contact->way,
                                                         &feature->shape, wall->most));
    return true;
}

/* How far the wall reaches before the face's edge: as in way_to_touch, each step is safe. */
static double way_to_edge(const Wall *wall, const Shape *extent)
{
    double gone = 0;
    for (int i = 0; i < 64 && gone <= wall->most; i++) {
        Gap room;
        Shape moved = shape_moved(&wall->side, wall->contact->way, gone);
        shape_room(extent, &moved, &room);
        if (room.distance <= 1e-9)
            return gone;
        gone += room.distance;
    }
    return INFINITY;
}

static void measure_wall(Wall *wall)
{
    const ClampContact *contact = wall->contact;
    double far = contact->distance + contact->across + wall->clearance;
    wall->behind = box_grown(shape_box(&contact->blank), CLAMP_REACH);
    wall->side = shape_moved(&contact->jaw, contact->way, far);
    wall->thickness = way_to_edge(wall, &placed_frame(wall->placed, contact->clamp->face)->extent);
    Shape end = shape_moved(&wall->side, contact->way, wall->most);
    placed_each_near(wall->placed, contact->clamp->face,
                     box_union(shape_box(&wall->side), shape_box(&end)), thin_by, wall);
}

static bool has_locators(const Placed *placed, const Feature *station)
{
    Locator locators[LOCATORS_MOST];
    return station_locators(placed, station, locators) > 0;
}

static void check_one(RuleContext *context, const ClampContact *contact)
{
    if (!contact->part)
        return;
    double limit = rule_limit_by_metal(context, WALL_ALUMINIUM, WALL_STEEL);
    Wall wall = {.placed = context->placed, .contact = contact, .most = limit};
    placed_each_on(context->placed, contact->part->id, find_nest, &wall);
    if (wall.depth <= 0) {
        if (!has_locators(context->placed, contact->part))
            clamp_report(context, CASE_NOTHING, contact, 0, 0);
        return;
    }
    measure_wall(&wall);
    if (falls_short(wall.depth, context->limits[HEIGHT]))
        clamp_report(context, CASE_LOW, contact, wall.depth, context->limits[HEIGHT]);
    else if (falls_short(wall.thickness, limit))
        clamp_report(context, CASE_THIN, contact, wall.thickness, limit);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    ClampContact contact;
    if (clamp_contact(context->placed, a, &contact))
        check_one(context, &contact);
}

const Rule rule_clamp_backing = {
    .slug = "clamp-backing",
    .title = N_("What a clamp pushes against"),
    .scope = SCOPE_CLAMP,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
