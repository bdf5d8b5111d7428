/* nest-burr: the burr on a blank's lower edges has a groove in the nest's floor to lie in. */
#include "checks/nests.h"

enum { DEPTH, REACH };

static const RuleLimit limits[] = {
    [DEPTH] = {"depth", 0.3, VALUE_LENGTH, N_("depth of a burr groove below the nest's floor"),
               N_("common practice, no source")},
    [REACH] = {"reach", 0.5, VALUE_LENGTH, N_("how far a burr groove reaches under the blank"),
               N_("common practice, no source")},
};

enum { CASE_NONE, CASE_SHALLOW, CASE_NARROW };

static const RuleCase cases[] = {
    [CASE_NONE] =
        {LEVEL_NOTE, VALUE_NONE,
         N_("{a} has no groove under the edges of its blank: a burr lifts it off the floor"),
         N_("take the burrs off every blank, or mill grooves along the nest's walls")},
    [CASE_SHALLOW] =
        {LEVEL_CAUTION, VALUE_LENGTH,
         N_("a burr groove of {a} is {value} deeper than its floor; {limit} is needed"),
         N_("mill it {less} deeper")},
    [CASE_NARROW] = {LEVEL_CAUTION, VALUE_LENGTH,
                     N_("a burr groove of {a} reaches {value} under the blank; {limit} is needed"),
                     N_("make it {less} wider, or move it further in")},
};

/* One of the blank's four sides, and the best groove along it. */
typedef struct Edge {
    const NestLook *look;
    Point from, to, inward; /* on the face */
    bool found;
    double depth, reach; /* mm below the floor, and from the edge inwards */
} Edge;

/* A groove along the edge holds all of a line on it but for its ends, where the grooves of the
 * other sides cross it: how far that line can be moved inwards. */
static double reach_under(const Edge *edge, const Feature *groove)
{
    Gap room;
    Point way = point_minus(edge->to, edge->from);
    double length = point_length(way), ends = 2 * groove->shape.growth;
    if (length <= 2 * ends)
        return 0;
    Point along = point_times(way, 1 / length);
    Point middle = point_times(point_plus(edge->from, edge->to), 0.5);
    Shape line = {
        CORE_SEGMENT, {middle.x, middle.y, along.x, along.y, false}, 0, length / 2 - ends, 0, NULL};
    shape_room(&groove->shape, &line, &room);
    if (room.distance < 0)
        return 0;
    /* The groove's far side lies as far in as the line can go. */
    double far = -INFINITY;
    Box box = groove->box;
    const Point corners[] = {
        {box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    for (int i = 0; i < 4; i++)
        far = fmax(far, point_dot(point_minus(corners[i], middle), edge->inward));
    double low = 0, high = far;
    for (int i = 0; i < 60; i++) {
        double in = (low + high) / 2;
        Shape moved = line;
        moved.pose.x += edge->inward.x * in;
        moved.pose.y += edge->inward.y * in;
        shape_room(&groove->shape, &moved, &room);
        if (room.distance >= 0)
            low = in;
        else
            high = in;
    }
    return low;
}

static bool look_at(const Feature *feature, void *data)
{
    Edge *edge = data;
    double deeper = edge->look->nest->bottom - feature->bottom;
    if (feature->kind != FEATURE_RECESS || deeper <= 1e-9)
        return true;
    double reach = reach_under(edge, feature);
    if (reach > 0 && (!edge->found || reach > edge->reach)) {
        edge->found = true;
        edge->reach = reach;
        edge->depth = deeper;
    }
    return true;
}

/* False once something is reported. */
static bool check_edge(RuleContext *context, const NestLook *look, const Edge *edge)
{
    Finding *finding = NULL;
    if (!edge->found)
        finding = rule_report(context, CASE_NONE, look->nest, look->station, 0, 0);
    else if (falls_short(edge->depth, context->limits[DEPTH]))
        finding = rule_report(context, CASE_SHALLOW, look->nest, look->station, edge->depth,
                              context->limits[DEPTH]);
    else if (falls_short(edge->reach, context->limits[REACH]))
        finding = rule_report(context, CASE_NARROW, look->nest, look->station, edge->reach,
                              context->limits[REACH]);
    if (finding)
        rule_report_between(finding, edge->from, edge->to);
    return !finding;
}

static void check_nest(RuleContext *context, const NestLook *look)
{
    static const double signs[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    if (!look->for_blank || !look->station->has_blank)
        return;
    const Shape *blank = &look->station->blank;
    Point corners[4], middle = {blank->pose.x, blank->pose.y};
    for (int i = 0; i < 4; i++)
        corners[i] = pose_point(blank->pose, (Point){signs[i][0] * blank->half_length,
                                                     signs[i][1] * blank->half_width});
    for (int i = 0; i < 4; i++) {
        Edge edge = {.look = look, .from = corners[i], .to = corners[(i + 1) % 4]};
        Point way = point_minus(edge.to, edge.from);
        Point in = {-way.y / point_length(way), way.x / point_length(way)};
        bool away = point_dot(in, point_minus(middle, edge.from)) < 0;
        edge.inward = away ? point_times(in, -1) : in;
        each_cut_near_part(context, look, look_at, &edge);
        if (!check_edge(context, look, &edge))
            return;
    }
}

static void check(RuleContext *context, const Feature *a, const Feature *b)
{
    each_nest(context, a, check_nest);
}

const Rule rule_nest_burr = {
    .slug = "nest-burr",
    .title = N_("No room for a blank's burr"),
    .scope = SCOPE_STATION,
    .cases = cases,
    .case_count = G_N_ELEMENTS(cases),
    .limits = limits,
    .limit_count = G_N_ELEMENTS(limits),
    .check = check,
};
