#include "drawing/placement.h"

#include "drawing/dimension.h"
#include "drawing/obstacles.h"

#include <glib.h>
#include <string.h>

/* What crossing one costs, in steps that a leader may be longer instead. */
#define COST_LINE 1.5
#define WORD_GAP 1.5  /* more of it between two labels in a row */
#define CLEARANCE 0.6 /* between a text and what is in its way, mm */
#define ARC_PIECES 16 /* chords that stand for an arc; the clearance makes up for their error */

struct Placement {
    Box area;
    Obstacles *obstacles;
};

Placement *placement_new(void)
{
    Placement *placement = g_new0(Placement, 1);
    placement->obstacles = obstacles_new();
    placement_clear(placement);
    return placement;
}

void placement_free(Placement *placement)
{
    if (!placement)
        return;
    obstacles_free(placement->obstacles);
    g_free(placement);
}

void placement_clear(Placement *placement)
{
    obstacles_keep(placement->obstacles, 0);
    placement->area = (Box){-INFINITY, -INFINITY, INFINITY, INFINITY};
}

void placement_set_area(Placement *placement, Box area)
{
    placement->area = area;
}

/* What an obstacle is besides its shape: its kind, and whose line it is. */
typedef struct Sort {
    ObstacleKind kind;
    bool firm;
    uint32_t feature;
} Sort;

static void add_line(Placement *placement, Sort sort, Point from, Point to)
{
    Box box = box_with_point((Box){from.x, from.y, from.x, from.y}, to);
    obstacles_add(placement->obstacles,
                  (Obstacle){sort.kind, box, from, to, 0, sort.firm, sort.feature});
}

static void add_round(Placement *placement, Sort sort, Point centre, double radius)
{
    Box box = box_grown((Box){centre.x, centre.y, centre.x, centre.y}, radius);
    obstacles_add(placement->obstacles,
                  (Obstacle){sort.kind, box, centre, centre, radius, sort.firm, sort.feature});
}

void placement_add_segment(Placement *placement, Point from, Point to)
{
    add_line(placement, (Sort){OBSTACLE_LINE, false, 0}, from, to);
}

static void add_arc(Placement *placement, Sort sort, Vertex from, Point to)
{
    Point before = {from.x, from.y};
    if (from.sagitta == 0) {
        add_line(placement, sort, before, to);
        return;
    }
    double radius;
    Point centre = arc_centre(from, to, &radius);
    double start = atan2(from.y - centre.y, from.x - centre.x);
    double chord = point_distance(before, to);
    double sweep = 4 * atan2(2 * from.sagitta, chord); /* tan(sweep / 4) = sagitta / half chord */
    for (int i = 1; i <= ARC_PIECES; i++) {
        double angle = start + sweep * i / ARC_PIECES;
        Point next = {centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
        add_line(placement, sort, before, next);
        before = next;
    }
}

void placement_add_arc(Placement *placement, Vertex from, Point to)
{
    add_arc(placement, (Sort){OBSTACLE_LINE, false, 0}, from, to);
}

void placement_add_circle(Placement *placement, Point centre, double radius)
{
    add_round(placement, (Sort){OBSTACLE_CIRCLE, false, 0}, centre, radius);
}

void placement_add_disc(Placement *placement, Point centre, double radius)
{
    add_round(placement, (Sort){OBSTACLE_DISC, true, 0}, centre, radius);
}

void placement_add_box(Placement *placement, Box box)
{
    obstacles_add(placement->obstacles, (Obstacle){OBSTACLE_BOX, box, {0, 0}, {0, 0}, 0, true, 0});
}

static Sort sort_of(const Mark *mark)
{
    bool leader = mark->line == LINE_DIMENSION && !mark->closed; /* or a dimension */
    switch (mark->role) {
    case ROLE_LABEL:
        return (Sort){OBSTACLE_LEADER, true, 0};
    case ROLE_PART:
        return leader ? (Sort){OBSTACLE_LEADER, true, 0}
                      : (Sort){OBSTACLE_LINE, true, mark->feature};
    case ROLE_HOLE:
    case ROLE_RECESS:
    case ROLE_KEEP_CLEAR:
    case ROLE_FITTING:
        return (Sort){OBSTACLE_LINE, true, mark->feature};
    case ROLE_DIMENSION: /* closed ones are the outlines of details */
        return (Sort){OBSTACLE_LINE, leader, 0};
    default:
        return (Sort){OBSTACLE_LINE, false, 0};
    }
}

void placement_add_marks(Placement *placement, const Drawing *drawing, size_t first, size_t count)
{
    for (size_t i = first; i < first + count; i++) {
        const Mark *mark = &drawing->marks[i];
        if (mark->kind == MARK_TEXT || mark->kind == MARK_FILL) {
            placement_add_box(placement, mark->box);
            continue;
        }
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        Sort sort = sort_of(mark);
        if (mark->count == 1) {
            Sort round = {OBSTACLE_CIRCLE, sort.firm, sort.feature};
            add_round(placement, round, (Point){v->x, v->y}, v->sagitta);
            continue;
        }
        for (size_t j = 0; j + (mark->closed ? 0 : 1) < mark->count; j++) {
            const Vertex *next = &v[(j + 1) % mark->count];
            add_arc(placement, sort, v[j], (Point){next->x, next->y});
        }
    }
}

/* Whether a segment touches a box, by cutting it at the box's four sides (Liang and Barsky). */
static bool segment_meets_box(Point a, Point b, Box box)
{
    double from = 0, to = 1;
    double starts[] = {a.x, a.y}, ways[] = {b.x - a.x, b.y - a.y};
    double lows[] = {box.x0, box.y0}, highs[] = {box.x1, box.y1};
    for (int i = 0; i < 2; i++) {
        if (ways[i] == 0) {
            if (starts[i] < lows[i] || starts[i] > highs[i])
                return false;
            continue;
        }
        double enter = (lows[i] - starts[i]) / ways[i], leave = (highs[i] - starts[i]) / ways[i];
        from = fmax(from, fmin(enter, leave));
        to = fmin(to, fmax(enter, leave));
    }
    return from <= to;
}

static bool round_meets_box(const Obstacle *round, Box box)
{
    Point c = round->from;
    double dx = fmax(fmax(box.x0 - c.x, c.x - box.x1), 0);
    double dy = fmax(fmax(box.y0 - c.y, c.y - box.y1), 0);
    if (dx * dx + dy * dy > round->radius * round->radius)
        return false;
    if (round->kind == OBSTACLE_DISC)
        return true;
    /* A box whose furthest corner lies inside meets no line. */
    double fx = fmax(fabs(box.x0 - c.x), fabs(box.x1 - c.x));
    double fy = fmax(fabs(box.y0 - c.y), fabs(box.y1 - c.y));
    return fx * fx + fy * fy >= round->radius * round->radius;
}

static bool lets_box_be(const Obstacle *obstacle, void *user)
{
    const Box *box = user;
    switch (obstacle->kind) {
    case OBSTACLE_BOX:
        return false;
    case OBSTACLE_LINE:
    case OBSTACLE_LEADER:
        return !segment_meets_box(obstacle->from, obstacle->to, *box);
    default:
        return !round_meets_box(obstacle, *box);
    }
}

bool placement_box_is_free(const Placement *placement, Box box)
{
    Box area = placement->area;
    if (box.x0 < area.x0 || box.y0 < area.y0 || box.x1 > area.x1 || box.y1 > area.y1)
        return false;
    box = box_grown(box, CLEARANCE);
    return obstacles_near(placement->obstacles, box, lets_box_be, &box);
}

static double segment_distance(Point a, Point b, Point p)
{
    Point d = point_minus(b, a);
    double length = point_dot(d, d);
    double t = length > 0 ? point_dot(point_minus(p, a), d) / length : 0;
    t = fmin(fmax(t, 0), 1);
    return point_distance(p, point_plus(a, point_times(d, t)));
}

static bool segments_cross(Point a, Point b, Point c, Point d)
{
    Point u = point_minus(b, a), v = point_minus(d, c);
    double side_c = point_cross(u, point_minus(c, a)), side_d = point_cross(u, point_minus(d, a));
    double side_a = point_cross(v, point_minus(a, c)), side_b = point_cross(v, point_minus(b, c));
    return side_c * side_d < 0 && side_a * side_b < 0;
}

/* Whether two pieces that do not cross are nowhere nearer than the clearance. */
static bool ends_keep_off(Point a, Point b, Point c, Point d)
{
    return fmin(fmin(segment_distance(a, b, c), segment_distance(a, b, d)),
                fmin(segment_distance(c, d, a), segment_distance(c, d, b))) >= CLEARANCE;
}

/* A leader that is asked for, and how much it disturbs. */
typedef struct Way {
    Point from, to;
    const LabelRequest *request;
    double cost;
} Way;

/* Whether the leader may cross that outline: it comes from within. */
static bool may_cross(const LabelRequest *request, const Obstacle *obstacle)
{
    if (!obstacle->firm)
        return true;
    for (size_t i = 0; obstacle->feature && i < request->around_count; i++) {
        if (request->around[i] == obstacle->feature)
            return true;
    }
    /* The circle that is labelled, or a wrong one about its centre. */
    return obstacle->kind != OBSTACLE_LINE &&
           point_distance(request->centre, obstacle->from) < fmax(obstacle->radius, 1e-6);
}

static bool lets_line_be(const Obstacle *obstacle, void *user)
{
    Way *way = user;
    switch (obstacle->kind) {
    case OBSTACLE_BOX:
        return !segment_meets_box(way->from, way->to, box_grown(obstacle->box, CLEARANCE));
    case OBSTACLE_LEADER: /* nor does it pass so near that one seems to go on as the other */
        return !segments_cross(way->from, way->to, obstacle->from, obstacle->to) &&
               ends_keep_off(way->from, way->to, obstacle->from, obstacle->to);
    case OBSTACLE_LINE:
        if (!segments_cross(way->from, way->to, obstacle->from, obstacle->to))
            return true;
        way->cost += COST_LINE;
        return may_cross(way->request, obstacle);
    default:
        return may_cross(way->request, obstacle) ||
               segment_distance(way->from, way->to, obstacle->from) >= obstacle->radius + CLEARANCE;
    }
}

/* Infinite where the leader may not be. */
static double leader_cost(const Placement *placement, const LabelRequest *request, Point from,
                          Point to)
{
    Way way = {from, to, request, 0};
    Box box = box_with_point((Box){from.x, from.y, from.x, from.y}, to);
    bool free_way =
        obstacles_near(placement->obstacles, box_grown(box, CLEARANCE), lets_line_be, &way);
    return free_way ? way.cost : INFINITY;
}

/* The eight sides, the ones a reader looks at first leading. */
static const Point sides[] = {{1, 1}, {-1, 1}, {1, -1}, {-1, -1}, {0, 1}, {0, -1}, {1, 0}, {-1, 0}};

/* The box of a text that stands close on one side of a circle. */
static Box box_beside(Point centre, double radius, Point side, double width, double height)
{
    bool diagonal = side.x != 0 && side.y != 0;
    double off = (diagonal ? radius * (G_SQRT2 / 2) : radius) + CLEARANCE + (diagonal ? 0.4 : 0.3);
    Point near = {centre.x + side.x * off, centre.y + side.y * off};
    double x0 = side.x > 0 ? near.x : side.x < 0 ? near.x - width : near.x - width / 2;
    double y0 = side.y > 0 ? near.y : side.y < 0 ? near.y - height : near.y - height / 2;
    return (Box){x0, y0, x0 + width, y0 + height};
}

static bool place_beside(const Placement *placement, const LabelRequest *r, LabelPlace *place)
{
    /* Past a centre mark's arms too. */
    double offs[] = {r->radius, r->radius + DIMENSION_OVERSHOOT + 0.2};
    for (size_t o = 0; o < G_N_ELEMENTS(offs); o++) {
        for (size_t i = 0; i < G_N_ELEMENTS(sides); i++) {
            Box box = box_beside(r->centre, offs[o], sides[i], r->width, r->height);
            if (!placement_box_is_free(placement, box))
                continue;
            *place = (LabelPlace){true, box, false, {0, 0}, false, {0, 0}};
            return true;
        }
    }
    return false;
}

/* How often all labels are tried anew when some found no place. */
#define ROUNDS 12
/* More misses than this and an eighth of all are no matter of their order. */
#define HOPELESS 2

#define LEADER_DIRECTIONS 72
#define LEADER_STEP 3.0
#define LEADER_STEPS 40

static Box box_at_knee(Point knee, bool right, double width, double height)
{
    double along = DIMENSION_SHOULDER + 1;
    double x0 = right ? knee.x + along : knee.x - along - width;
    return (Box){x0, knee.y - height / 2, x0 + width, knee.y + height / 2};
}

typedef struct Candidate {
    Box box;
    Point tip, knee;
    bool right;
    double cost;
} Candidate;

/* The leader in the i-th direction with its knee so many steps from the circle; false where it
 * meets something it may not. */
static bool try_leader(const Placement *placement, const LabelRequest *r, int step, int i,
                       bool back, Candidate *candidate)
{
    /* From 45 degrees on, so that leaders are seldom level or upright. */
    double angle = G_PI / 4 + 2 * G_PI * (i * 7 % LEADER_DIRECTIONS) / LEADER_DIRECTIONS;
    Point way = {cos(angle), sin(angle)};
    if (fabs(way.x) < 0.1 || fabs(way.y) < 0.1)
        return false;
    Point tip = point_plus(r->centre, point_times(way, r->radius));
    Point knee = point_plus(r->centre, point_times(way, r->radius + step * LEADER_STEP));
    bool right = (knee.x >= r->centre.x) != back;
    Box box = box_at_knee(knee, right, r->width, r->height);
    Point end = {right ? box.x0 : box.x1, knee.y};
    if (!placement_box_is_free(placement, box) ||
        (back && segment_meets_box(tip, knee, box_grown(box, CLEARANCE))))
        return false;
    double cost = leader_cost(placement, r, tip, knee) + leader_cost(placement, r, knee, end);
    *candidate = (Candidate){box, tip, knee, right, step + cost + (back ? COST_LINE : 0)};
    return isfinite(cost);
}

/* The best leader from one place, where it is better than `best`. */
static void seek_leader(const Placement *placement, const LabelRequest *r, Candidate *best)
{
    /* A longer leader costs its steps, so the search ends where no crossing can make up for them.
     */
    for (int step = 2; step < LEADER_STEPS && step < best->cost; step++) {
        for (int i = 0; i < LEADER_DIRECTIONS * (r->either_side ? 2 : 1); i++) {
            Candidate candidate;
            bool back = i >= LEADER_DIRECTIONS;
            if (try_leader(placement, r, step, i % LEADER_DIRECTIONS, back, &candidate) &&
                candidate.cost < best->cost)
                *best = candidate;
        }
    }
}

bool placement_find_leader(const Placement *placement, const LabelRequest *r, LabelPlace *place,
                           double *cost)
{
    Candidate best = {.cost = INFINITY};
    for (size_t i = 0; i < r->tip_count; i++) {
        LabelRequest from = *r;
        from.centre = r->tips[i];
        seek_leader(placement, &from, &best);
    }
    if (r->tip_count == 0)
        seek_leader(placement, r, &best);
    *cost = best.cost;
    if (!isfinite(best.cost))
        return false;
    *place = (LabelPlace){true, best.box, true, best.knee, best.right, best.tip};
    return true;
}

void placement_take(Placement *placement, const LabelPlace *place)
{
    /* Two labels side by side must not read as one. */
    Box box = place->box;
    placement_add_box(placement, (Box){box.x0 - WORD_GAP, box.y0, box.x1 + WORD_GAP, box.y1});
    if (!place->leader)
        return;
    Sort sort = {OBSTACLE_LEADER, true, 0};
    Point end = {place->right ? place->box.x0 : place->box.x1, place->knee.y};
    add_line(placement, sort, place->tip, place->knee);
    add_line(placement, sort, place->knee, end);
}

static bool place_inside(const Placement *placement, const LabelRequest *request, LabelPlace *place)
{
    double half_width = request->width / 2, half_height = request->height / 2;
    for (size_t i = 0; i < request->spot_count; i++) {
        Point c = request->spots[i];
        Box box = {c.x - half_width, c.y - half_height, c.x + half_width, c.y + half_height};
        if (!placement_box_is_free(placement, box))
            continue;
        *place = (LabelPlace){true, box, false, {0, 0}, false, {0, 0}};
        return true;
    }
    return false;
}

static bool place_label(Placement *placement, const LabelRequest *r, LabelPlace *place)
{
    *place = (LabelPlace){false, BOX_EMPTY, false, {0, 0}, false, {0, 0}};
    double cost;
    bool close = !r->inside && !r->at_leader;
    bool found = place_inside(placement, r, place) ||
                 (close && place_beside(placement, r, place)) ||
                 placement_find_leader(placement, r, place, &cost);
    if (found)
        placement_take(placement, place);
    return found;
}

/* Places all in the given order; those that find no place come to the front of it. */
static size_t place_all(Placement *placement, const LabelRequest *requests, size_t count,
                        size_t *order, size_t *spare, LabelPlace *places)
{
    size_t missed = 0, found = 0;
    for (size_t i = 0; i < count; i++) {
        size_t which = order[i];
        if (place_label(placement, &requests[which], &places[which]))
            spare[count - 1 - found++] = which;
        else
            spare[missed++] = which;
    }
    for (size_t i = 0; i < missed; i++)
        order[i] = spare[i];
    for (size_t i = 0; i < found; i++)
        order[missed + i] = spare[count - 1 - i];
    return missed;
}

size_t placement_labels(Placement *placement, const LabelRequest *requests, size_t count,
                        LabelPlace *places)
{
    if (count == 0)
        return 0;
    size_t obstacles = obstacles_count(placement->obstacles);
    size_t *order = g_new(size_t, count), *spare = g_new(size_t, count);
    LabelPlace *tried = g_new(LabelPlace, count);
    size_t least = SIZE_MAX;
    for (size_t i = 0; i < count; i++)
        order[i] = i;
    for (int round = 0; round < ROUNDS && least > 0; round++) {
        obstacles_keep(placement->obstacles, obstacles);
        size_t missed = place_all(placement, requests, count, order, spare, tried);
        if (missed < least) {
            least = missed;
            memcpy(places, tried, count * sizeof *places);
        }
        if (missed > HOPELESS + count / 8)
            break;
    }
    g_free(order);
    g_free(spare);
    g_free(tried);
    return least;
}

bool placement_spread(double *positions, size_t count, double pitch, double low, double high)
{
    if (count == 0)
        return true;
    if ((double)(count - 1) * pitch > high - low) {
        for (size_t i = 0; i < count; i++)
            positions[i] = count == 1 ? (low + high) / 2
                                      : low + (high - low) * (double)i / (double)(count - 1);
        return false;
    }
    /* With i * pitch taken off, the positions only have to rise: the nearest such row is found by
     * pooling neighbours that don't and giving each pool its mean (pool adjacent violators). */
    typedef struct Pool {
        double sum;
        size_t size;
    } Pool;
    Pool *pools = g_new(Pool, count);
    size_t pool_count = 0;
    for (size_t i = 0; i < count; i++) {
        pools[pool_count++] = (Pool){positions[i] - (double)i * pitch, 1};
        while (pool_count > 1 &&
               pools[pool_count - 2].sum / (double)pools[pool_count - 2].size >
                   pools[pool_count - 1].sum / (double)pools[pool_count - 1].size) {
            pools[pool_count - 2].sum += pools[pool_count - 1].sum;
            pools[pool_count - 2].size += pools[pool_count - 1].size;
            pool_count--;
        }
    }
    double greatest = high - (double)(count - 1) * pitch;
    size_t i = 0;
    for (size_t p = 0; p < pool_count; p++) {
        double mean = pools[p].sum / (double)pools[p].size;
        mean = fmin(fmax(mean, low), greatest);
        for (size_t j = 0; j < pools[p].size; j++, i++) {
            /* A position that needn't move keeps its exact value, so that its line stays straight.
             */
            if (pools[p].size > 1 || mean != positions[i] - (double)i * pitch)
                positions[i] = mean + (double)i * pitch;
        }
    }
    g_free(pools);
    return true;
}
