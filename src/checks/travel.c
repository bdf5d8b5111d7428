/* travel: what a pass asks of the machine against what it can do, where the plate stands on it. */
#include "checks/passes.h"

enum { CASE_ACROSS, CASE_LOW, CASE_HIGH };

static const RuleCase cases[] = {
    [CASE_ACROSS] = {LEVEL_STOP, VALUE_LENGTH,
                     N_("at {operation} the spindle must go {over} beyond the machine's travel for "
                        "the part of {a}"),
                     N_("put the plate elsewhere on the machine, or move the station")},
    [CASE_LOW] = {LEVEL_STOP, VALUE_LENGTH,
                  N_("at {operation} the spindle stays {over} too high for the part of {a}"),
                  N_("let the cutter stand further out of its holder, or raise the plate")},
    [CASE_HIGH] = {LEVEL_STOP, VALUE_LENGTH,
                   N_("at {operation} the spindle stays {over} too low to lift the cutter off the "
                      "part of {a}"),
                   N_("let the cutter stand less far out of its holder, or put the plate lower")},
};

typedef struct Stroke {
    const Machine *machine;
    double thickness, highest; /* of the stock; of the work, in the plate's Z */
    double spare[3];           /* by the cases; negative: so much is missing */
    const Pass *pass;
} Stroke;

static void spare(Stroke *stroke, int which, double room)
{
    stroke->spare[which] = fmin(stroke->spare[which], room);
}

/* Where the plate is tilted nobody has said where it then stands: the way alone must fit. */
static void spare_across(Stroke *stroke, double least, double most, Length at, Length travel,
                         bool level)
{
    double far = length_to_mm(travel);
    if (travel <= 0)
        return;
    if (!level) {
        spare(stroke, CASE_ACROSS, far - (most - least));
        return;
    }
    spare(stroke, CASE_ACROSS, least + length_to_mm(at));
    spare(stroke, CASE_ACROSS, far - (most + length_to_mm(at)));
}

static void spare_up_and_down(Stroke *stroke, const Sweep *sweep)
{
    const Machine *machine = stroke->machine;
    double gauge = length_to_mm(stroke->pass->gauge_length);
    double highest = length_to_mm(machine->daylight);
    if (gauge <= 0 || highest <= 0)
        return;
    spare(stroke, CASE_HIGH, highest - (stroke->thickness + stroke->highest + gauge));
    if (machine->travel_z > 0)
        spare(stroke, CASE_LOW,
              stroke->thickness + sweep->tip + gauge - (highest - length_to_mm(machine->travel_z)));
}

static bool measure(const Sweep *sweep, void *data)
{
    Stroke *stroke = data;
    const Machine *machine = stroke->machine;
    Box box = sweep_way_box(sweep);
    bool level = sweep->face == ID_TOP || sweep->face == ID_NONE;
    spare_across(stroke, box.x0, box.x1, machine->plate_at.x, machine->travel_x, level);
    spare_across(stroke, box.y0, box.y1, machine->plate_at.y, machine->travel_y, level);
    if (level)
        spare_up_and_down(stroke, sweep);
    return true;
}

static void check_operation(RuleContext *context, const Record *operation, const Feature *station,
                            void *data)
{
    const List *passes = &operation->operation.passes;
    Stroke stroke = *(const Stroke *)data;
    for (uint32_t i = 0; i < passes->count; i++) {
        stroke.pass = LIST_AT(passes, Pass, i);
        sweeps_each(context->placed, station, stroke.pass, measure, &stroke);
    }
    for (int i = 0; i < 3; i++)
        if (falls_short(stroke.spare[i], 0))
            operation_report(context, i, operation, station, NULL, stroke.spare[i], 0);
}

/* The highest place of a blank on an inclined face is no higher than it would be on the top. */
static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    const Settings *settings = placed_settings(context->placed);
    Stroke stroke = {.machine = &settings->machine,
                     .thickness = length_to_mm(settings->stock.thickness),
                     .highest = fmax(0, placed_seated_blank(context->placed, a).top),
                     .spare = {INFINITY, INFINITY, INFINITY}};
    each_operation(context, a, check_operation, &stroke);
}

const Rule rule_travel = {
    .slug = "travel",
    .title = N_("Beyond the machine's travel"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .check = check,
};
