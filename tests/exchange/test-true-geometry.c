/* True geometry, read back by our own reader of outlines: group by group, each within the border of
 * its face, and compared with the plate's records by closed forms. */
#include "exchange/outline-svg.h"
#include "exchange/true-geometry.h"
#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define WITHIN 0.001 /* mm */

static char *geometry_of(const Plate *plate, FeatureId face)
{
    Error error = {.kind = ERROR_NONE};
    Placed *placed = placed_new(plate);
    char *text = true_geometry_text(plate, placed, face, &error);
    placed_free(placed);
    if (!text)
        fail_msg("%s", error.message);
    return text;
}

/* The file with no group but the face's border and the one named. */
static char *group_alone(const char *text, const char *id)
{
    char *begin = g_strdup_printf("  <g id=\"%s\">", id);
    const char *border_end = strstr(text, "  </g>\n");
    const char *group = strstr(text, begin);
    if (!group)
        fail_msg("there is no group %s", id);
    const char *end = strstr(group, "  </g>\n");
    GString *alone = g_string_new_len(text, border_end + 7 - text);
    g_string_append_len(alone, group, end + 7 - group);
    g_string_append(alone, "</svg>\n");
    g_free(begin);
    return g_string_free(alone, FALSE);
}

static unsigned groups_in(const char *text)
{
    unsigned count = 0;
    for (const char *p = text; (p = strstr(p, "<g id=")); p++)
        count++;
    return count - 1; /* the face's border */
}

/* Reads a group within a face of width by height mm. */
static void read_group(const char *text, const char *id, double width, double height,
                       OutlineRead *read)
{
    Error error = {.kind = ERROR_NONE};
    char *alone = group_alone(text, id);
    if (!outline_svg_read(alone, strlen(alone), NULL, read, &error))
        fail_msg("%s: %s: %s", id, error.place, error.message);
    assert_int_equal(read->width, MM(width));
    assert_int_equal(read->height, MM(height));
    assert_int_equal(read->notes->len, 0);
    g_free(alone);
}

static bool has_hole(const OutlineRead *read, double x, double y, double diameter)
{
    for (guint i = 0; i < read->holes->len; i++) {
        RoundHole hole = g_array_index(read->holes, RoundHole, i);
        if (fabs(length_to_mm(hole.x) - x) <= WITHIN && fabs(length_to_mm(hole.y) - y) <= WITHIN &&
            fabs(length_to_mm(hole.diameter) - diameter) <= WITHIN)
            return true;
    }
    return false;
}

/* The i-th opening as an outline of its own. */
static Outline *opening(const OutlineRead *read, size_t i)
{
    size_t first = g_array_index(read->starts, size_t, i + 1);
    size_t last = g_array_index(read->starts, size_t, i + 2);
    Vertex *vertices = g_new(Vertex, last - first);
    for (size_t n = first; n < last; n++) {
        OutlineNode node = g_array_index(read->nodes, OutlineNode, n);
        vertices[n - first] =
            (Vertex){length_to_mm(node.x), length_to_mm(node.y), length_to_mm(node.sagitta)};
    }
    size_t starts[] = {0, last - first};
    Error error = {.kind = ERROR_NONE};
    Outline *outline = outline_new(vertices, starts, 1, &error);
    if (!outline)
        fail_msg("%s", error.message);
    g_free(vertices);
    return outline;
}

/* A point of a side, from 0 to 1 along its chord and out to its arc. */
static Point point_on(Vertex from, Vertex to, double along)
{
    Point chord = {to.x - from.x, to.y - from.y};
    double length = point_length(chord), half = length / 2, s = from.sagitta;
    double off = 0;
    if (s != 0) {
        double radius = (half * half + s * s) / (2 * fabs(s)), d = (along - 0.5) * length;
        off = (sqrt(fmax(0, radius * radius - d * d)) - (radius - fabs(s))) * (s > 0 ? 1 : -1);
    }
    return (Point){from.x + chord.x * along + chord.y / length * off,
                   from.y + chord.y * along - chord.x / length * off};
}

typedef double (*BorderDistance)(Point p, const void *data);

/* Every point of what was read lies on the border that was meant. */
static void assert_on_border(const Outline *outline, BorderDistance distance, const void *data)
{
    size_t count;
    const Vertex *ring = outline_ring(outline, 0, &count);
    for (size_t i = 0; i < count; i++)
        for (int step = 0; step < 20; step++) {
            Point p = point_on(ring[i], ring[(i + 1) % count], step / 20.0);
            double off = distance(p, data);
            if (fabs(off) > WITHIN)
                fail_msg("%g, %g lies %g mm off", p.x, p.y, off);
        }
}

/* An obround or a rectangle with rounded corners: a box of half sizes, turned, grown by a radius.
 */
typedef struct Rounded {
    double x, y, degrees, half_length, half_width, radius;
} Rounded;

static double rounded_distance(Point p, const void *data)
{
    const Rounded *shape = data;
    double angle = shape->degrees * G_PI / 180, dx = p.x - shape->x, dy = p.y - shape->y;
    double u = fabs(dx * cos(angle) + dy * sin(angle)) - shape->half_length;
    double v = fabs(dy * cos(angle) - dx * sin(angle)) - shape->half_width;
    return hypot(fmax(u, 0), fmax(v, 0)) + fmin(0, fmax(u, v)) - shape->radius;
}

static double rounded_area(const Rounded *shape)
{
    return 4 * (shape->half_length * shape->half_width +
                shape->radius * (shape->half_length + shape->half_width)) +
           G_PI * shape->radius * shape->radius;
}

static void assert_opening(const OutlineRead *read, size_t i, const Rounded *shape)
{
    Outline *outline = opening(read, i);
    assert_on_border(outline, rounded_distance, shape);
    assert_true(fabs(outline_area(outline) - rounded_area(shape)) < 0.01);
    outline_unref(outline);
}

/* --- cases ---------------------------------------------------------------------------------- */

static Record *slot_record(Plate *plate, int kind, const double place[3], const double size[4])
{
    Record *record = record_new(plate_new_id(plate), RECORD_RECESS);
    record->recess.kind = kind;
    record->recess.face = ID_TOP;
    record->recess.at = (Place){MM(place[0]), MM(place[1])};
    record->recess.rotation = angle_from_degrees(place[2]);
    record->recess.length = MM(size[0]);
    record->recess.width = MM(size[1]);
    record->recess.corner_radius = MM(size[2]);
    record->recess.depth = MM(size[3]);
    return record;
}

static void test_slots(void **unused)
{
    Plate *plate = plate_new(MM(200), MM(120), MM(20), PLATE_MM);
    put_record(plate, slot_record(plate, RECESS_OBROUND, (double[]){50.1234, 40, 33},
                                  (double[]){40, 14.224, 0, 8}));
    put_record(plate, slot_record(plate, RECESS_RECTANGLE, (double[]){140, 60, -20.5},
                                  (double[]){50, 30, 4, 6}));
    put_record(plate, slot_record(plate, RECESS_RECTANGLE, (double[]){140, 15, 0},
                                  (double[]){20, 10, 0, 7.62}));
    /* As long as it is wide: a circle. */
    put_record(plate,
               slot_record(plate, RECESS_OBROUND, (double[]){30, 90, 0}, (double[]){10, 10, 0, 3}));
    char *text = geometry_of(plate, ID_TOP);
    OutlineRead read;
    assert_int_equal(groups_in(text), 4);
    read_group(text, "slot-depth-8", 200, 120, &read);
    assert_opening(&read, 0, &(Rounded){50.1234, 40, 33, (40 - 14.224) / 2, 0, 7.112});
    outline_read_clear(&read);
    read_group(text, "slot-depth-6", 200, 120, &read);
    assert_opening(&read, 0, &(Rounded){140, 60, -20.5, 21, 11, 4});
    outline_read_clear(&read);
    read_group(text, "slot-depth-7.62", 200, 120, &read);
    assert_opening(&read, 0, &(Rounded){140, 15, 0, 10, 5, 0});
    outline_read_clear(&read);
    read_group(text, "slot-depth-3", 200, 120, &read);
    assert_true(has_hole(&read, 30, 90, 10));
    outline_read_clear(&read);
    g_free(text);
    plate_free(plate);
}

static void add(Record *record, int kind, double diameter, double depth)
{
    Step *step = list_append(&record->hole.steps, Step);
    step->kind = kind;
    step->diameter = MM(diameter);
    step->depth = MM(depth);
    step->through = depth <= 0;
}

static void put_stepped(Plate *plate, double x, double y, bool made)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(x), MM(y)};
    record->hole.made = made;
    add(record, STEP_DRILL, 6.6, 0);
    add(record, STEP_COUNTERBORE, 11.1125, 6.5);
    put_record(plate, record);
}

/* One group for each kind and depth; what is made already stands apart. */
static void test_holes(void **unused)
{
    Plate *plate = plate_new(MM(200), MM(120), MM(20), PLATE_MM);
    put_stepped(plate, 20, 30, false);
    put_stepped(plate, 60.000001, 30, false);
    put_stepped(plate, 100, 30, true);
    put_blind_hole(plate, 20, 90, 5, 12.3456);
    char *text = geometry_of(plate, ID_TOP);
    OutlineRead read;
    assert_int_equal(groups_in(text), 5);
    read_group(text, "drill-through", 200, 120, &read);
    assert_int_equal(read.holes->len, 2);
    assert_true(has_hole(&read, 20, 30, 6.6) && has_hole(&read, 60, 30, 6.6));
    outline_read_clear(&read);
    read_group(text, "counterbore-depth-6.5", 200, 120, &read);
    assert_int_equal(read.holes->len, 2);
    assert_true(has_hole(&read, 20, 30, 11.1125));
    outline_read_clear(&read);
    read_group(text, "made-counterbore-depth-6.5", 200, 120, &read);
    assert_int_equal(read.holes->len, 1);
    assert_true(has_hole(&read, 100, 30, 11.1125));
    outline_read_clear(&read);
    read_group(text, "drill-depth-12.3456", 200, 120, &read);
    assert_true(has_hole(&read, 20, 90, 5));
    outline_read_clear(&read);
    g_free(text);
    plate_free(plate);
}

/* A part on the face, to ask how far a point is from its outline. */
typedef struct Nest {
    const Outline *outline;
    double x, y, degrees, clearance;
    bool turned_over;
} Nest;

static double nest_distance(Point p, const void *data)
{
    const Nest *nest = data;
    double angle = nest->degrees * G_PI / 180, dx = p.x - nest->x, dy = p.y - nest->y;
    Point own = {dx * cos(angle) + dy * sin(angle), dy * cos(angle) - dx * sin(angle)};
    if (nest->turned_over)
        own.y = -own.y;
    return outline_distance(nest->outline, own, NULL) - nest->clearance;
}

/* A bar of 40 by 20 mm with a slit 0.8 mm wide and 10 deep from the middle of its upper side. Grown
 * by 0.5 the slit is closed but for a notch between two arcs, whose area is the rectangle of 0.8 by
 * 0.5 less two pieces under a quarter of a circle: 0.4 - (0.12 + 0.25 asin 0.8). */
static void test_nest_closes_a_slit(void **unused)
{
    static const double corners[8][2] = {{0, 0},     {40, 0},    {40, 20},   {20.4, 20},
                                         {20.4, 10}, {19.6, 10}, {19.6, 20}, {0, 20}};
    Plate *plate = plate_new(MM(200), MM(120), MM(20), PLATE_MM);
    Record *part = record_new(plate_new_id(plate), RECORD_PART);
    PartRing *ring = list_append(&part->part.rings, PartRing);
    for (int i = 0; i < 8; i++)
        *list_append(&ring->nodes, OutlineNode) =
            (OutlineNode){MM(corners[i][0]), MM(corners[i][1]), 0};
    part->part.thickness = MM(3);
    Outline *bar = part_outline(&part->part, NULL);
    put_nest(plate, put_station(plate, put_record(plate, part), 50, 50), 0.5, 1.5);
    char *text = geometry_of(plate, ID_TOP);
    OutlineRead read;
    read_group(text, "nest-depth-1.5", 200, 120, &read);
    Outline *outline = opening(&read, 0);
    assert_on_border(outline, nest_distance, &(Nest){bar, 50, 50, 0, 0.5, false});
    double notch = 0.4 - (0.12 + 0.25 * asin(0.8));
    double grown = 40 * 20 + 2 * (40 + 20) * 0.5 + G_PI * 0.25 - notch;
    assert_true(fabs(outline_area(outline) - grown) < 0.0005);
    outline_unref(outline);
    outline_unref(bar);
    outline_read_clear(&read);
    g_free(text);
    plate_free(plate);
}

static Plate *plate_of_blade(Nest *nest, Outline **outline)
{
    Error error = {.kind = ERROR_NONE};
    char *path = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples",
                                  "grafting-blade.platepart", NULL);
    Record *read = part_read(path, &error);
    if (!read)
        fail_msg("%s", error.message);
    Plate *plate = plate_new(MM(200), MM(120), MM(20), PLATE_MM);
    Record *part = record_copy(read, plate_new_id(plate));
    *outline = part_outline(&part->part, &error);
    FeatureId id = put_record(plate, part);
    Record *station = record_new(plate_new_id(plate), RECORD_STATION);
    station->station.face = ID_TOP;
    station->station.part = id;
    station->station.at = (Place){MM(nest->x), MM(nest->y)};
    station->station.rotation = angle_from_degrees(nest->degrees);
    station->station.turned_over = nest->turned_over;
    put_nest(plate, put_record(plate, station), nest->clearance, 1.5);
    nest->outline = *outline;
    record_unref(read);
    g_free(path);
    return plate;
}

/* The blade's outline of lines and arcs that are all but tangent, grown by a clearance, turned, and
 * turned over: each point lies as far from the blade as the clearance, and the whole is as long as
 * the way round the blade and one circle about it, less what its inner corners cut short. */
static void test_nest(void **unused)
{
    static const double turns[] = {0, 30, 150, 331};
    for (int i = 0; i < 8; i++) {
        Nest nest = {NULL, 90, 60, turns[i / 2], 0.508, i % 2};
        Outline *blade;
        Plate *plate = plate_of_blade(&nest, &blade);
        char *text = geometry_of(plate, ID_TOP);
        OutlineRead read;
        read_group(text, "nest-depth-1.5", 200, 120, &read);
        Outline *outline = opening(&read, 0);
        assert_on_border(outline, nest_distance, &nest);
        double around = outline_length(blade) + 2 * G_PI * nest.clearance;
        assert_true(outline_length(outline) <= around + WITHIN);
        assert_true(outline_length(outline) >= around - 4 * nest.clearance);
        double grown = outline_area(blade) + outline_length(blade) * nest.clearance +
                       G_PI * nest.clearance * nest.clearance;
        assert_true(fabs(outline_area(outline) - grown) < nest.clearance * nest.clearance);
        outline_unref(outline);
        outline_unref(blade);
        outline_read_clear(&read);
        g_free(text);
        plate_free(plate);
    }
}

/* The example: every hole of it, at stations, by the records' own figures. */
static void test_example(void **unused)
{
    Error error = {.kind = ERROR_NONE};
    char *path =
        g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", "grafting-blades.plate", NULL);
    Plate *plate = plate_read(path, NULL, &error);
    if (!plate)
        fail_msg("%s", error.message);
    char *text = geometry_of(plate, ID_TOP);
    OutlineRead read;
    read_group(text, "drill-through", 203.2, 177.8, &read);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_HOLE || record->hole.face != ID_TOP)
            continue;
        const Step *step = LIST_AT(&record->hole.steps, Step, 0);
        double x = length_to_mm(record->hole.at.x), y = length_to_mm(record->hole.at.y);
        const Record *station = plate_find(plate, record->hole.station);
        if (!step->through || step->kind != STEP_DRILL ||
            (station && (station->station.rotation || station->station.turned_over)))
            continue;
        if (record->hole.station && station) {
            x += length_to_mm(station->station.at.x);
            y += length_to_mm(station->station.at.y);
        }
        if (!has_hole(&read, x, y, length_to_mm(step->diameter)))
            fail_msg("hole %u is not there", record->id);
    }
    outline_read_clear(&read);
    g_free(text);
    g_free(path);
    plate_free(plate);
}

/* An inclined face stands by itself, square on, from its own upper left corner. */
static void test_inclined_face(void **unused)
{
    Plate *plate = plate_new(MM(150), MM(100), MM(20), PLATE_MM);
    Record *face = record_new(plate_new_id(plate), RECORD_FACE);
    face->face.name = g_strdup("front & side");
    face->face.kind = FACE_INCLINED;
    face->face.from = (Place){MM(150), MM(30)};
    face->face.to = (Place){0, MM(30)};
    face->face.angle = 6500000000;
    face->face.extent = MM(30);
    FeatureId front = put_record(plate, face);
    Record *hole = record_new(plate_new_id(plate), RECORD_HOLE);
    hole->hole.face = front;
    hole->hole.at = (Place){MM(-40), MM(-10)};
    add(hole, STEP_DRILL, 5, 6);
    put_record(plate, hole);
    char *text = geometry_of(plate, front);
    OutlineRead read;
    assert_non_null(strstr(text, "front &amp; side"));
    read_group(text, "drill-depth-6", 150, 30, &read);
    /* The face reaches from -150 to 0 and from -30 to 0. */
    assert_true(has_hole(&read, 110, 20, 5));
    outline_read_clear(&read);
    g_free(text);
    Placed *placed = placed_new(plate);
    Error error = {.kind = ERROR_NONE};
    assert_null(true_geometry_text(plate, placed, 999, &error));
    assert_true(*error.message);
    placed_free(placed);
    plate_free(plate);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_slots),   cmocka_unit_test(test_holes),
        cmocka_unit_test(test_nest),    cmocka_unit_test(test_nest_closes_a_slit),
        cmocka_unit_test(test_example), cmocka_unit_test(test_inclined_face),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
