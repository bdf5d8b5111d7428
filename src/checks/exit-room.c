/* exit-room: room below a part for the drill that comes out of it: in a hole of the plate, and
 * above the base. */
#include "checks/passes.h"

enum { ROOM, DEEP };

static const RuleLimit limits[] = {
    [ROOM] = {"room", 0.5, VALUE_LENGTH, N_("room left below a drill's end for its chips"),
              N_("common practice, no source")},
    [DEEP] = {"deep", 0.5, VALUE_LENGTH, N_("how deep a hole in the plate is more than a mark"),
              N_("common practice, no source")},
};

enum { CASE_DRILLS, CASE_MARKS, CASE_TIGHT, CASE_BASE };

static const RuleCase cases[] = {
    [CASE_DRILLS] =
        {LEVEL_STOP, VALUE_LENGTH,
         N_("at {operation} the drill that comes out of the part of {a} goes {over} into "
            "the plate"),
         N_("drill a wider hole below it, or go less deep")},
    [CASE_MARKS] = {LEVEL_CAUTION, VALUE_LENGTH,
                    N_("at {operation} the drill that comes out of the part of {a} marks the plate "
                       "{over} deep"),
                    N_("drill a wider hole below it, or go less deep")},
    [CASE_TIGHT] = {LEVEL_CAUTION, VALUE_LENGTH,
                    N_("at {operation} the drill that comes out of the part of {a} has {value} of "
                       "room below it; {limit} is wanted for its chips"),
                    N_("make the hole below it {less} deeper, or go less deep")},
    [CASE_BASE] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("at {operation} the drill that comes out of the part of {a} goes through the "
                      "plate and {over} into the base"),
                   N_("go less deep")},
};

/* The hole of the part whose drill has least room, as far as the plate goes, and to the base. */
typedef struct Least {
    double room;
    Point at;
} Least;

typedef struct Exit {
    const Placed *placed;
    const Frame *frame;
    Shape drill;
    double floor, depth; /* over the face: of what takes the drill, and of the underside there */
    Least plate, base;
} Exit;

/* A cone below a hole's full width takes nothing: a hole ends where that does. */
static bool take_drill(const Feature *feature, void *data)
{
    Exit *exit = data;
    Shape hole = feature->shape;
    if (!(feature->kind & FEATURE_CUT) || feature->bottom >= exit->floor)
        return true;
    for (int i = 0; i < feature->slice_count; i++) {
        Gap room;
        const Slice *slice = &feature->slices[i];
        hole.growth = slice->growth;
        if (slice->bottom >= exit->floor)
            continue;
        shape_room(&hole, &exit->drill, &room);
        if (!falls_short(room.distance, 0))
            exit->floor = slice->bottom;
    }
    return true;
}

static void keep_less(Least *least, double room, Point at)
{
    if (room < least->room)
        *least = (Least){room, at};
}

static bool measure(const Sweep *sweep, void *data)
{
    Exit *exit = data;
    Point at = {sweep->path.pose.x, sweep->path.pose.y};
    exit->drill = sweep_area(sweep);
    exit->floor = 0;
    exit->depth = -frame_depth_at(exit->frame, at);
    placed_each_near(exit->placed, sweep->face, shape_box(&exit->drill), take_drill, exit);
    bool through = exit->floor <= exit->depth + 1e-7;
    if (!through)
        keep_less(&exit->plate, sweep->tip - exit->floor, at);
    else if (placed_base(exit->placed))
        keep_less(&exit->base, sweep->tip - exit->depth, at);
    return true;
}

static void report(RuleContext *context, int which, const Record *operation, const Feature *station,
                   const Least *least, double limit)
{
    Finding *finding =
        operation_report(context, which, operation, station, NULL, least->room, limit);
    rule_report_between(finding, least->at, least->at);
}

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const List *passes = &operation->operation.passes;
    Exit exit = {.placed = context->placed,
                 .frame = placed_frame(context->placed, station->face),
                 .plate.room = INFINITY,
                 .base.room = INFINITY};
    for (uint32_t i = 0; i < passes->count; i++) {
        const Pass *pass = LIST_AT(passes, Pass, i);
        if (pass->where == PASS_HOLES)
            sweeps_each(context->placed, station, pass, measure, &exit);
    }
    double room = context->limits[ROOM];
    if (falls_short(exit.plate.room, -context->limits[DEEP]))
        report(context, CASE_DRILLS, operation, station, &exit.plate, 0);
    else if (falls_short(exit.plate.room, 0))
        report(context, CASE_MARKS, operation, station, &exit.plate, 0);
    else if (falls_short(exit.plate.room, room))
        report(context, CASE_TIGHT, operation, station, &exit.plate, room);
    if (falls_short(exit.base.room, 0))
        report(context, CASE_BASE, operation, station, &exit.base, 0);
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_operation(context, a, check_operation, NULL);
}

const Rule rule_exit_room = {
    .slug = "exit-room",
    .title = N_("No room below a part's drill"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
