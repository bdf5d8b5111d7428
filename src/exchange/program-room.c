#include "exchange/program-room.h"

/* Keep-clears of no stated height reach higher than this (mm). */
#define ANY_HEIGHT 9000.0

/* A fitted thing or a keep-clear, as it lies over the face that is drilled. */
typedef struct Hindrance {
    const Record *record;
    Shape shape;
    double top; /* mm over the face */
} Hindrance;

bool room_does(const ProgramRoom *room, const PlanStep *step)
{
    int kind = room->tools[step->tool].kind;
    return kind != TOOL_CUTTER && (kind != TOOL_TAP || room->tapping);
}

/* The box around a thing of another face, seen square on to this one. */
static Hindrance seen_from(const ProgramRoom *room, const Feature *feature, const Record *record)
{
    const Frame *own = placed_frame(room->placed, feature->face);
    const Frame *here = placed_frame(room->placed, room->setting->face);
    Box plan = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    double top = -INFINITY;
    for (int corner = 0; corner < 8; corner++) {
        Point p = {corner & 1 ? feature->box.x0 : feature->box.x1,
                   corner & 2 ? feature->box.y0 : feature->box.y1};
        double height;
        Space space = frame_to_space(own, p, corner & 4 ? feature->top : feature->bottom);
        Point q = frame_from_space(here, space, &height);
        plan =
            (Box){fmin(plan.x0, q.x), fmin(plan.y0, q.y), fmax(plan.x1, q.x), fmax(plan.y1, q.y)};
        top = fmax(top, height);
    }
    Pose middle = {(plan.x0 + plan.x1) / 2, (plan.y0 + plan.y1) / 2, 1, 0, false};
    return (Hindrance){record, shape_rectangle(middle, plan.x1 - plan.x0, plan.y1 - plan.y0, 0),
                       top};
}

static void add_hindrance(const ProgramRoom *room, const Feature *feature, GArray *all)
{
    const Record *record = placed_record(room->placed, feature->id);
    Hindrance hindrance = {record, feature->shape, feature->top};
    if (feature->face != room->setting->face)
        hindrance = seen_from(room, feature, record);
    g_array_append_val(all, hindrance);
}

typedef struct Gathering {
    const ProgramRoom *room;
    GArray *all;
} Gathering;

static bool visit_keep_clear(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind == FEATURE_KEEP_CLEAR && feature->face == gathering->room->setting->face)
        add_hindrance(gathering->room, feature, gathering->all);
    return true;
}

static int by_number(const void *a, const void *b)
{
    FeatureId first = ((const Hindrance *)a)->record->id;
    FeatureId second = ((const Hindrance *)b)->record->id;
    return (first > second) - (first < second);
}

static GArray *hindrances(const ProgramRoom *room)
{
    GArray *all = g_array_new(FALSE, FALSE, sizeof(Hindrance));
    const List *fitted = room->operation ? &room->operation->operation.fitted : NULL;
    for (uint32_t i = 0; fitted && i < fitted->count; i++) {
        const Feature *feature = placed_find(room->placed, *LIST_AT(fitted, FeatureId, i));
        if (feature)
            add_hindrance(room, feature, all);
    }
    Gathering gathering = {room, all};
    placed_each(room->placed, visit_keep_clear, &gathering);
    g_array_sort(all, by_number); /* so that the same plate gives the same complaint */
    return all;
}

double room_height(const ProgramRoom *room)
{
    GArray *all = hindrances(room);
    double height = 0;
    for (guint i = 0; i < all->len; i++) {
        const Hindrance *hindrance = &g_array_index(all, Hindrance, i);
        if (hindrance->top < ANY_HEIGHT)
            height = fmax(height, hindrance->top);
    }
    g_array_unref(all);
    return height;
}

static bool overlap(const Shape *a, const Shape *b)
{
    Gap gap;
    shape_gap(a, b, &gap);
    return gap.distance < 0;
}

static const char *kind_of(const Hindrance *hindrance)
{
    return hindrance->record->kind == RECORD_KEEP_CLEAR ? "the keep-clear" : "the hardware";
}

static const char *name_of(const Hindrance *hindrance, char text[NAME_TEXT])
{
    const Record *record = hindrance->record;
    const char *name = record->kind == RECORD_KEEP_CLEAR ? record->keep_clear.name
                       : record->fitting.label           ? record->fitting.label
                                                         : record->fitting.size;
    if (name && *name)
        g_snprintf(text, NAME_TEXT, "%s", name);
    else
        shopplan_name(record, text);
    return text;
}

static bool check_down(const ProgramRoom *room, const Hindrance *hindrance, const PlanStep *step,
                       Error *error)
{
    char hole[NAME_TEXT], thing[NAME_TEXT];
    double diameter = length_to_mm(room->tools[step->tool].diameter) + 2 * ROOM_BESIDE;
    Shape tool = shape_circle(step->at, diameter);
    if (hindrance->top <= -step->tip || !overlap(&tool, &hindrance->shape))
        return true;
    return error_set(
        error, ERROR_CONFLICT, NULL,
        "%s can't be made there: %s %s would be in the tool's way; take it off at this "
        "operation, or make the hole at another one",
        shopplan_name(placed_record(room->placed, step->feature), hole), kind_of(hindrance),
        name_of(hindrance, thing));
}

static bool check_across(const ProgramRoom *room, const Hindrance *hindrance, const PlanStep *from,
                         const PlanStep *to, Error *error)
{
    char thing[NAME_TEXT], first[NAME_TEXT], second[NAME_TEXT];
    double diameter = length_to_mm(room->tools[to->tool].diameter) + 2 * ROOM_BESIDE;
    Shape move = shape_obround(from->at, to->at, diameter);
    if (!overlap(&move, &hindrance->shape))
        return true;
    return error_set(error, ERROR_CONFLICT, NULL,
                     "the way from %s to %s crosses %s %s, which reaches above the safe height; "
                     "give it a height, or make the holes at another operation",
                     shopplan_name(placed_record(room->placed, from->feature), first),
                     shopplan_name(placed_record(room->placed, to->feature), second),
                     kind_of(hindrance), name_of(hindrance, thing));
}

static bool check_hindrance(const ProgramRoom *room, const Hindrance *hindrance, double safe_height,
                            Error *error)
{
    const PlanStep *before = NULL;
    bool tall = hindrance->top > safe_height;
    for (uint32_t i = 0; i < room->setting->step_count; i++) {
        const PlanStep *step = &room->setting->steps[i];
        if (!room_does(room, step))
            continue;
        if (!check_down(room, hindrance, step, error))
            return false;
        if (tall && before && !check_across(room, hindrance, before, step, error))
            return false;
        before = step;
    }
    return true;
}

bool room_check(const ProgramRoom *room, double safe_height, Error *error)
{
    GArray *all = hindrances(room);
    bool good = true;
    for (guint i = 0; i < all->len && good; i++)
        good = check_hindrance(room, &g_array_index(all, Hindrance, i), safe_height, error);
    g_array_unref(all);
    return good;
}
