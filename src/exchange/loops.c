#include "exchange/loops.h"

#include <string.h>

static void clear_loop(void *item)
{
    Loop *loop = item;
    g_free(loop->vertices);
    g_free(loop->nodes);
}

Loops *loops_new(void)
{
    Loops *loops = g_new0(Loops, 1);
    loops->all = g_array_new(FALSE, FALSE, sizeof(Loop));
    g_array_set_clear_func(loops->all, clear_loop);
    return loops;
}

void loops_free(Loops *loops)
{
    if (!loops)
        return;
    g_array_free(loops->all, TRUE);
    g_free(loops);
}

static double vertex_distance(const Vertex *a, const Vertex *b)
{
    return hypot(a->x - b->x, a->y - b->y);
}

bool loops_add(Loops *loops, const Curve *chain, const Point *nodes, size_t node_count, bool closed,
               long line, Error *error)
{
    size_t count = chain->count;
    if (count < 2)
        return true;
    /* A last point on the first says the same thing twice. A millionth of a millimetre is rounding.
     */
    if (closed && vertex_distance(&chain->vertices[0], &chain->vertices[count - 1]) < 1e-6)
        count--;
    if (loops->all->len >= LOOPS_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "more than %d outlines; simplify the drawing",
                         LOOPS_MOST);
    loops->sides += count;
    if (loops->sides > LOOP_SIDES_MOST)
        return error_set(error, ERROR_LIMIT, NULL,
                         "more than %d lines and arcs; simplify the drawing", LOOP_SIDES_MOST);
    Loop loop = {.count = count, .node_count = node_count, .closed = closed, .line = line};
    loop.vertices = g_memdup2(chain->vertices, count * sizeof *loop.vertices);
    loop.nodes = g_memdup2(nodes, node_count * sizeof *nodes);
    if (!closed)
        loop.vertices[count - 1].sagitta = 0;
    g_array_append_val(loops->all, loop);
    return true;
}

/* ---- joining ---- */

static void turn_round(Loop *loop)
{
    size_t n = loop->count;
    for (size_t i = 0; i < n / 2; i++) {
        Vertex swap = loop->vertices[i];
        loop->vertices[i] = loop->vertices[n - 1 - i];
        loop->vertices[n - 1 - i] = swap;
    }
    /* A side's sagitta stands with its first vertex, which was its last until now. */
    for (size_t i = 0; i + 1 < n; i++)
        loop->vertices[i].sagitta = -loop->vertices[i + 1].sagitta;
    loop->vertices[n - 1].sagitta = 0;
}

/* Puts `more` behind `loop`; its first vertex is where the last of `loop` was. Empties `more`. */
static void append_loop(Loop *loop, Loop *more)
{
    size_t n = loop->count - 1;
    loop->vertices = g_renew(Vertex, loop->vertices, n + more->count);
    memcpy(&loop->vertices[n], more->vertices, more->count * sizeof *more->vertices);
    loop->count = n + more->count;
    loop->nodes = g_renew(Point, loop->nodes, loop->node_count + more->node_count);
    if (more->node_count)
        memcpy(&loop->nodes[loop->node_count], more->nodes, more->node_count * sizeof *more->nodes);
    loop->node_count += more->node_count;
    clear_loop(more);
    *more = (Loop){0};
}

static double gap_of(const Loop *loop)
{
    return vertex_distance(&loop->vertices[0], &loop->vertices[loop->count - 1]);
}

/* A chain of at least two sides whose ends meet is a loop. */
static bool close_loop(Loop *loop, size_t *gaps)
{
    double gap = gap_of(loop);
    if (loop->count < 3 || gap > LOOP_CLOSING)
        return false;
    loop->closed = true;
    loop->count--;
    *gaps += gap > 1e-6;
    return true;
}

/* The open chain that has an end nearest to the last point of chain i, within LOOP_CLOSING. */
static Loop *nearest_end(Loops *loops, size_t i, bool *turned)
{
    const Loop *loop = loops_at(loops, i);
    const Vertex *end = &loop->vertices[loop->count - 1];
    double nearest = LOOP_CLOSING;
    Loop *found = NULL;
    for (size_t k = 0; k < loops->all->len; k++) {
        Loop *other = loops_at(loops, k);
        if (k == i || other->closed || other->count == 0)
            continue;
        double first = vertex_distance(end, &other->vertices[0]);
        double last = vertex_distance(end, &other->vertices[other->count - 1]);
        if (fmin(first, last) > nearest)
            continue;
        nearest = fmin(first, last);
        *turned = last < first;
        found = other;
    }
    return found;
}

size_t loops_join(Loops *loops)
{
    size_t gaps = 0;
    for (size_t i = 0; i < loops->all->len; i++)
        if (!loops_at(loops, i)->closed)
            close_loop(loops_at(loops, i), &gaps);
    for (size_t i = 0; i < loops->all->len; i++) {
        Loop *loop = loops_at(loops, i);
        if (loop->closed || loop->count == 0)
            continue;
        bool turned, other_end = false;
        while (!loop->closed) {
            Loop *next = nearest_end(loops, i, &turned);
            if (!next && other_end)
                break;
            if (!next) { /* nothing meets this end; try the other one */
                turn_round(loop);
                other_end = true;
                continue;
            }
            if (turned)
                turn_round(next);
            gaps += vertex_distance(&loop->vertices[loop->count - 1], &next->vertices[0]) > 1e-6;
            append_loop(loop, next);
            close_loop(loop, &gaps);
        }
    }
    for (size_t i = loops->all->len; i-- > 0;)
        if (loops_at(loops, i)->count == 0)
            g_array_remove_index(loops->all, i);
    return gaps;
}

/* ---- measures ---- */

static const Vertex *next_vertex(const Loop *loop, size_t i)
{
    return &loop->vertices[i + 1 < loop->count ? i + 1 : 0];
}

double loop_area(const Loop *loop)
{
    double twice = 0;
    const Vertex *o = &loop->vertices[0];
    for (size_t i = 0; i < loop->count; i++) {
        const Vertex *a = &loop->vertices[i], *b = next_vertex(loop, i);
        twice += (a->x - o->x) * (b->y - o->y) - (b->x - o->x) * (a->y - o->y);
        double chord = vertex_distance(a, b), h = a->sagitta;
        if (h == 0 || chord == 0)
            continue;
        /* A segment of a circle: R2 (sweep - sin sweep), twice its area. For flat arcs the two
         * terms cancel; there it is 4/3 of chord times sagitta. */
        double sweep = 4 * atan2(2 * fabs(h), chord);
        double radius = (chord * chord / 4 + h * h) / (2 * fabs(h));
        double segment =
            sweep < 1e-3 ? 4.0 / 3 * chord * fabs(h) : radius * radius * (sweep - sin(sweep));
        twice += h > 0 ? segment : -segment;
    }
    return twice / 2;
}

/* ---- circles ---- */

static Point middle_of(const Vertex *a, const Vertex *b)
{
    Point middle = {(a->x + b->x) / 2, (a->y + b->y) / 2};
    double chord = vertex_distance(a, b);
    if (a->sagitta == 0 || chord == 0)
        return middle;
    return (Point){middle.x + a->sagitta * (b->y - a->y) / chord,
                   middle.y - a->sagitta * (b->x - a->x) / chord};
}

/* The circle through points by least squares of |p|^2 - 2 c.p - k (a linear problem). */
static bool fit_circle(const Point *points, size_t count, Point *centre, double *radius)
{
    Point mean = {0, 0};
    for (size_t i = 0; i < count; i++)
        mean = point_plus(mean, point_times(points[i], 1.0 / (double)count));
    double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0, z = 0;
    for (size_t i = 0; i < count; i++) {
        Point p = point_minus(points[i], mean);
        double square = point_dot(p, p);
        xx += p.x * p.x, xy += p.x * p.y, yy += p.y * p.y;
        xz += p.x * square, yz += p.y * square, z += square;
    }
    double determinant = xx * yy - xy * xy;
    if (!(determinant > 1e-6 * z * z))
        return false;
    Point c = {(xz * yy - yz * xy) / (2 * determinant), (yz * xx - xz * xy) / (2 * determinant)};
    *centre = point_plus(mean, c);
    *radius = sqrt(point_dot(c, c) + z / (double)count);
    return true;
}

static bool fit_loop(const Loop *loop, Point *centre, double *radius)
{
    /* The drawing's own points lie on the circle that was meant; what lies between them on Bézier
     * curves is a little outside it. */
    if (loop->node_count >= 3 && fit_circle(loop->nodes, loop->node_count, centre, radius))
        return true;
    /* Two half circles give two points of their own; then the arcs themselves speak. */
    Point *points = g_new(Point, 2 * loop->count);
    size_t count = 0;
    for (size_t i = 0; i < loop->count; i++) {
        points[count++] = (Point){loop->vertices[i].x, loop->vertices[i].y};
        if (loop->vertices[i].sagitta != 0)
            points[count++] = middle_of(&loop->vertices[i], next_vertex(loop, i));
    }
    bool fitted = fit_circle(points, count, centre, radius);
    g_free(points);
    return fitted;
}

bool loop_is_round(const Loop *loop, Point *centre, double *diameter, bool *from_straight)
{
    double radius;
    if (!loop->closed || loop->count < 2 || !fit_loop(loop, centre, &radius))
        return false;
    double allowed = fmax(0.002, radius / 2500);
    bool straight = loop->count >= 24;
    for (size_t i = 0; i < loop->count; i++)
        straight &= fabs(loop->vertices[i].sagitta) < 1e-6;
    for (size_t i = 0; i < loop->count; i++) {
        const Vertex *a = &loop->vertices[i], *b = next_vertex(loop, i);
        double end = point_distance(*centre, (Point){a->x, a->y});
        double middle = point_distance(*centre, middle_of(a, b));
        if (fabs(end - radius) > allowed)
            return false;
        /* 24 equal sides lie 0.0086 of the radius inside at their middles. */
        if (fabs(middle - radius) > (straight ? fmax(allowed, 0.01 * radius) : allowed))
            return false;
    }
    /* Once round, and no more. */
    double area = fabs(loop_area(loop)) / (G_PI * radius * radius);
    if (fabs(area - 1) > 0.02 && fabs(area - 1) * radius > 2 * allowed)
        return false;
    *diameter = 2 * radius;
    *from_straight = straight;
    return true;
}
