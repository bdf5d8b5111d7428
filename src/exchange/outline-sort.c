/* outline-sort.c: which of the loops is the outline, which are holes and which openings. */
#include "exchange/outline-read.h"

#include <stdio.h>
#include <string.h>

/* mm: sides shorter than this are rounding and no shape. */
#define SHORTEST 0.0005
/* mm2: a loop with less encloses nothing. */
#define LEAST_AREA 1e-6
/* mm: as near as this is on the border. */
#define NEAR 0.002

typedef enum Role { ROLE_NONE, ROLE_OUTLINE, ROLE_OPENING, ROLE_HOLE } Role;

/* A closed loop with what is known of it. */
typedef struct Ring {
    Loop *loop; /* borrowed */
    double area;
    Outline *outline; /* by itself, rounded to the nanometre; NULL when it makes none */
    Role role;
    RoundHole hole;
} Ring;

static void clear_ring(void *item)
{
    outline_unref(((Ring *)item)->outline);
}

/* ---- each by itself ---- */

/* Leaves out sides that are too short to be one, always measured from the last corner kept. */
static void drop_short_sides(Loop *loop)
{
    size_t kept = 0, n = loop->count;
    Vertex *v = loop->vertices;
    for (size_t i = 0; i < n; i++) {
        const Vertex *next = i + 1 < n ? &v[i + 1] : &v[0];
        Vertex here = v[i];
        if (kept > 0 &&
            v[kept - 1].sagitta == INFINITY) { /* its side was left out: go on from it */
            here.x = v[kept - 1].x;
            here.y = v[kept - 1].y;
            kept--;
        }
        bool is_short =
            hypot(next->x - here.x, next->y - here.y) < SHORTEST && fabs(here.sagitta) < SHORTEST;
        if (is_short)
            here.sagitta = INFINITY;
        v[kept++] = here;
    }
    if (kept > 0 && v[kept - 1].sagitta == INFINITY) /* the last side ends in the first corner */
        kept--;
    loop->count = kept;
}

static void shift_loop(Loop *loop, Point shift)
{
    for (size_t i = 0; i < loop->count; i++) {
        loop->vertices[i].x += shift.x;
        loop->vertices[i].y += shift.y;
    }
    for (size_t i = 0; i < loop->node_count; i++)
        loop->nodes[i] = point_plus(loop->nodes[i], shift);
}

/* Rounds to the nanometre; an arc of less than half of one high is straight. */
static void round_loop(Loop *loop)
{
    for (size_t i = 0; i < loop->count; i++) {
        Vertex *v = &loop->vertices[i];
        v->x = length_to_mm(length_from_mm(v->x));
        v->y = length_to_mm(length_from_mm(v->y));
        v->sagitta = length_to_mm(length_from_mm(v->sagitta));
    }
}

static Outline *make_outline(const Loop *loop, Error *error)
{
    size_t starts[2] = {0, loop->count};
    return outline_new(loop->vertices, starts, 1, error);
}

/* Puts the line into the place of an error about ring `ring`, which the maker can't count. */
static void place_error(Error *error, long line)
{
    if (!error)
        return;
    if (line > 0)
        g_snprintf(error->place, sizeof error->place, "line %ld", line);
    else
        error->place[0] = 0;
}

static int by_area(const void *a, const void *b)
{
    double first = ((const Ring *)a)->area, second = ((const Ring *)b)->area;
    if (first != second)
        return first > second ? -1 : 1;
    /* The order drawn, so that a reading is the same each time. */
    return ((const Ring *)a)->loop < ((const Ring *)b)->loop ? -1 : 1;
}

/* All closed loops with an area, the largest first. */
static GArray *collect_rings(Loops *loops, ReadNotes *notes)
{
    GArray *rings = g_array_new(FALSE, TRUE, sizeof(Ring));
    g_array_set_clear_func(rings, clear_ring);
    for (size_t i = 0; i < loops->all->len; i++) {
        Loop *loop = loops_at(loops, i);
        if (!loop->closed) {
            read_notes_add(notes, NOTE_OPEN, loop->line);
            continue;
        }
        drop_short_sides(loop);
        double area = loop->count >= 2 ? fabs(loop_area(loop)) : 0;
        if (!(area >= LEAST_AREA)) {
            read_notes_add(notes, NOTE_EMPTY, loop->line);
            continue;
        }
        Ring ring = {.loop = loop, .area = area};
        g_array_append_val(rings, ring);
    }
    g_array_sort(rings, by_area);
    return rings;
}

/* ---- one against another ---- */

static Ring *ring_at(const GArray *rings, size_t i)
{
    return &g_array_index(rings, Ring, i);
}

static bool same_shape(const Ring *a, const Ring *b)
{
    if (fabs(a->area - b->area) > 1e-3 * a->area + LEAST_AREA)
        return false;
    Box p = outline_box(a->outline), q = outline_box(b->outline);
    if (fabs(p.x0 - q.x0) > NEAR || fabs(p.y0 - q.y0) > NEAR || fabs(p.x1 - q.x1) > NEAR ||
        fabs(p.y1 - q.y1) > NEAR)
        return false;
    size_t count;
    const Vertex *v = outline_ring(b->outline, 0, &count);
    for (size_t i = 0; i < count; i++)
        if (fabs(outline_distance(a->outline, (Point){v[i].x, v[i].y}, NULL)) > NEAR)
            return false;
    return true;
}

typedef enum Where { WHERE_IN, WHERE_OUT, WHERE_ACROSS } Where;

/* Where b lies in a, by its corners; what they miss is found when all are put together. */
static Where where_in(const Outline *a, const Outline *b)
{
    size_t count, in = 0, out = 0;
    const Vertex *v = outline_ring(b, 0, &count);
    if (!box_meets(outline_box(a), outline_box(b)))
        return WHERE_OUT;
    size_t step = count / 64 + 1;
    for (size_t i = 0; i < count; i += step) {
        double distance = outline_distance(a, (Point){v[i].x, v[i].y}, NULL);
        in += distance < -NEAR;
        out += distance > NEAR;
    }
    if (in && out)
        return WHERE_ACROSS;
    return out ? WHERE_OUT : WHERE_IN;
}

static bool is_twice(const GArray *rings, size_t at)
{
    for (size_t i = at; i-- > 0;) {
        const Ring *other = ring_at(rings, i);
        if (other->area > 1.002 * ring_at(rings, at)->area + 2 * LEAST_AREA)
            return false;
        if (other->outline && same_shape(other, ring_at(rings, at)))
            return true;
    }
    return false;
}

static bool is_island(const GArray *rings, size_t at)
{
    const Outline *outline = ring_at(rings, at)->outline;
    for (size_t i = 1; i < at; i++) {
        const Ring *other = ring_at(rings, i);
        if ((other->role == ROLE_OPENING || other->role == ROLE_HOLE) &&
            where_in(other->outline, outline) == WHERE_IN)
            return true;
    }
    return false;
}

static void decide_hole(Ring *ring, ReadNotes *notes)
{
    Point centre;
    double diameter;
    bool from_straight;
    ring->role = ROLE_OPENING;
    if (!loop_is_round(ring->loop, &centre, &diameter, &from_straight))
        return;
    ring->role = ROLE_HOLE;
    ring->hole =
        (RoundHole){length_from_mm(centre.x), length_from_mm(centre.y), length_from_mm(diameter)};
    if (from_straight)
        read_notes_add(notes, NOTE_POLYGON_HOLE, ring->loop->line);
}

/* Gives each ring behind the first its role. */
static bool decide_roles(GArray *rings, ReadNotes *notes, Error *error)
{
    for (size_t i = 1; i < rings->len; i++) {
        Ring *ring = ring_at(rings, i);
        long line = ring->loop->line;
        Where where = WHERE_OUT;
        if (!ring->outline) {
            read_notes_add(notes, NOTE_CROSSES_ITSELF, line);
            continue;
        }
        if (is_twice(rings, i)) {
            read_notes_add(notes, NOTE_TWICE, line);
            continue;
        }
        where = where_in(ring_at(rings, 0)->outline, ring->outline);
        if (where == WHERE_OUT) {
            read_notes_add(notes, NOTE_OUTSIDE, line);
        } else if (where == WHERE_ACROSS) {
            error_set(error, ERROR_GEOMETRY, NULL,
                      "a shape crosses the outline; an opening must lie inside it");
            place_error(error, line);
            return false;
        } else if (is_island(rings, i)) {
            read_notes_add(notes, NOTE_ISLAND, line);
        } else {
            decide_hole(ring, notes);
        }
    }
    return true;
}

/* ---- the result ---- */

/* Puts the outline, its openings and its holes together once, so that none of them crosses or
 * touches another. */
static bool check_together(const GArray *rings, Error *error)
{
    GArray *vertices = g_array_new(FALSE, FALSE, sizeof(Vertex));
    GArray *starts = g_array_new(FALSE, FALSE, sizeof(size_t));
    GArray *lines = g_array_new(FALSE, FALSE, sizeof(long));
    for (size_t i = 0; i < rings->len; i++) {
        const Ring *ring = ring_at(rings, i);
        size_t start = vertices->len;
        if (ring->role == ROLE_NONE)
            continue;
        g_array_append_val(starts, start);
        g_array_append_val(lines, ring->loop->line);
        g_array_append_vals(vertices, ring->loop->vertices, (guint)ring->loop->count);
    }
    size_t end = vertices->len, count = starts->len;
    g_array_append_val(starts, end);
    Error why = {0};
    Outline *outline = outline_new((const Vertex *)(void *)vertices->data,
                                   (const size_t *)(void *)starts->data, count, &why);
    bool fine = outline != NULL;
    if (!fine) {
        size_t ring;
        long line = 0;
        if (sscanf(why.place, "rings[%zu]", &ring) == 1 && ring < count)
            line = g_array_index(lines, long, ring);
        place_error(&why, line);
        if (error)
            *error = why;
    }
    outline_unref(outline);
    g_array_unref(vertices);
    g_array_unref(starts);
    g_array_unref(lines);
    return fine;
}

static void add_ring(OutlineRead *read, const Loop *loop)
{
    for (size_t i = 0; i < loop->count; i++) {
        const Vertex *v = &loop->vertices[i];
        OutlineNode node = {length_from_mm(v->x), length_from_mm(v->y), length_from_mm(v->sagitta)};
        g_array_append_val(read->nodes, node);
    }
    size_t end = read->nodes->len;
    g_array_append_val(read->starts, end);
}

static void fill(OutlineRead *read, const GArray *rings, const ReadNotes *notes)
{
    size_t start = 0;
    read->nodes = g_array_new(FALSE, FALSE, sizeof(OutlineNode));
    read->starts = g_array_new(FALSE, FALSE, sizeof(size_t));
    read->holes = g_array_new(FALSE, FALSE, sizeof(RoundHole));
    g_array_append_val(read->starts, start);
    for (size_t i = 0; i < rings->len; i++) {
        const Ring *ring = ring_at(rings, i);
        if (ring->role == ROLE_OUTLINE || ring->role == ROLE_OPENING)
            add_ring(read, ring->loop);
        else if (ring->role == ROLE_HOLE)
            g_array_append_val(read->holes, ring->hole);
    }
    Box box = outline_box(ring_at(rings, 0)->outline);
    read->width = length_from_mm(box.x1 - box.x0);
    read->height = length_from_mm(box.y1 - box.y0);
    read->notes = read_notes_write(notes);
}

static void shift_rings(GArray *rings, double x, double y)
{
    for (size_t i = 0; i < rings->len; i++)
        shift_loop(ring_at(rings, i)->loop, (Point){x, y});
}

static Box corner_box(const Loop *loop)
{
    Box box = BOX_EMPTY;
    for (size_t i = 0; i < loop->count; i++)
        box = box_with_point(box, (Point){loop->vertices[i].x, loop->vertices[i].y});
    return box;
}

/* Measures the outline as it is drawn, and shifts its lower left corner to 0, 0 where asked. */
static bool measure_drawn(GArray *rings, bool to_corner, OutlineRead *read, Error *error)
{
    const Loop *loop = ring_at(rings, 0)->loop;
    Box box = corner_box(loop);
    if (to_corner) /* first by its corners, so that an error tells places as they would be shown */
        shift_rings(rings, -box.x0, -box.y0);
    Outline *drawn = make_outline(loop, error);
    if (!drawn)
        return false;
    box = outline_box(drawn);
    outline_unref(drawn);
    read->drawn_width = box.x1 - box.x0;
    read->drawn_height = box.y1 - box.y0;
    if (to_corner)
        shift_rings(rings, -box.x0, -box.y0);
    return true;
}

/* The largest ring, with everything shifted and rounded. */
static bool take_outline(GArray *rings, bool to_corner, OutlineRead *read, Error *error)
{
    Ring *first = ring_at(rings, 0);
    bool fine = measure_drawn(rings, to_corner, read, error);
    for (size_t i = 0; fine && i < rings->len; i++) {
        Ring *ring = ring_at(rings, i);
        round_loop(ring->loop);
        ring->outline = make_outline(ring->loop, i == 0 ? error : NULL);
        fine = i > 0 || ring->outline;
    }
    if (!fine)
        place_error(error, first->loop->line);
    first->role = ROLE_OUTLINE;
    return fine;
}

bool outline_read_sort(Loops *loops, bool to_corner, ReadNotes *notes, OutlineRead *read,
                       Error *error)
{
    *read = (OutlineRead){0};
    for (size_t gaps = loops_join(loops); gaps > 0; gaps--)
        read_notes_add(notes, NOTE_GAPS, 0);
    GArray *rings = collect_rings(loops, notes);
    bool fine = rings->len > 0;
    if (!fine) {
        error_set(error, ERROR_GEOMETRY, NULL,
                  notes->counts[NOTE_OPEN] > 0
                      ? "there are only open lines; draw the part's outline as one closed shape"
                      : "there is no closed outline; draw the part as one closed shape");
        place_error(error, notes->lines[NOTE_OPEN]);
    }
    fine = fine && take_outline(rings, to_corner, read, error) &&
           decide_roles(rings, notes, error) && check_together(rings, error);
    if (fine)
        fill(read, rings, notes);
    else
        *read = (OutlineRead){0};
    g_array_unref(rings);
    return fine;
}
