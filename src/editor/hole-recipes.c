#include "editor/hole-recipes.h"

#include "trade/clearance.h"
#include "trade/dowel.h"
#include "trade/drill.h"
#include "trade/screw.h"
#include "trade/thread.h"

static Step *add_step(Hole *hole, StepKind kind, Length diameter)
{
    Step *step = list_append(&hole->steps, Step);
    step->kind = kind;
    step->diameter = diameter;
    step->through = true;
    step->point = kind == STEP_DRILL ? 118 * ANGLE_DEGREE : 0;
    return step;
}

static void make_blind(Step *step, Length depth, Length thickness)
{
    step->through = depth >= thickness;
    step->depth = step->through ? 0 : depth;
}

/* Two diameters of thread are what a hold-down can use; the drill goes through, so that chips fall
 * out. */
static bool tapped(const char *size, Length thickness, Hole *hole, Error *error)
{
    const Thread *thread = thread_find(size, error);
    if (!thread)
        return false;
    const Drill *drill = thread->tap_drill ? drill_find(thread->tap_drill, NULL) : NULL;
    add_step(hole, STEP_DRILL,
             drill ? drill->diameter : length_from_mm(thread_hole_for_cut(thread, 75)));
    Step *tap = add_step(hole, STEP_TAP, thread->major);
    make_blind(tap, 2 * thread->major, thickness);
    tap->thread = g_strdup(thread->name);
    return true;
}

static bool reamed(const char *size, Hole *hole, Error *error)
{
    const Dowel *dowel = dowel_find(size, error);
    if (!dowel)
        return false;
    Length under = dowel->nominal - LENGTH_MM / 5; /* what a reamer is left to cut */
    const Drill *drill = drill_at_or_below(under, DRILL_SET_ALL);
    add_step(hole, STEP_DRILL, drill ? drill->diameter : under);
    Step *ream = add_step(hole, STEP_REAM, dowel->nominal);
    ream->upper = dowel->hole_greatest - dowel->nominal;
    ream->lower = dowel->hole_least - dowel->nominal;
    return true;
}

static bool for_screw(const char *size, Length thickness, Hole *hole, Error *error)
{
    const Screw *screw = screw_of(SCREW_SOCKET_HEAD, size, error);
    const Clearance *clearance = screw ? clearance_find(screw->size, error) : NULL;
    if (!clearance)
        return false;
    const Drill *drill = drill_at_or_above(clearance->normal, DRILL_SET_ALL);
    add_step(hole, STEP_DRILL, drill ? drill->diameter : clearance->normal);
    /* Sunk below the face by a little, with the head free all round. */
    Step *bore = add_step(hole, STEP_COUNTERBORE, screw->head_diameter + LENGTH_MM / 2);
    make_blind(bore, screw->head_height + LENGTH_MM / 4, thickness);
    return true;
}

bool hole_recipe(HoleRecipe recipe, const char *size, Length thickness, Hole *hole, Error *error)
{
    *hole = (Hole){.face = ID_TOP};
    bool made = false;
    switch (recipe) {
    case RECIPE_TAPPED:
        made = tapped(size, thickness, hole, error);
        break;
    case RECIPE_REAMED:
        made = reamed(size, hole, error);
        break;
    case RECIPE_SCREW:
        made = for_screw(size, thickness, hole, error);
        break;
    }
    if (!made)
        schema_clear(&hole_schema, hole);
    return made;
}
