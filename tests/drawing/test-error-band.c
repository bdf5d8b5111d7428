#include "cases.h"

#include "drawing/error-band.h"
#include "plate/plate-file.h"
#include "sample.h"

#include <glib.h>

/* A locator of a station as the records have it. */
typedef struct Pin {
    Point at;     /* mm on the face */
    double reach; /* how far the part's hole may be from where it should, mm */
    bool relieved;
} Pin;

/* By the definition in pose.h: turned over, then rotated, then shifted. */
static Point on_face(const Station *station, Place place)
{
    double x = length_to_mm(place.x), y = length_to_mm(place.y);
    double angle = (double)station->rotation / 1e9 * G_PI / 180;
    y = station->turned_over ? -y : y;
    return (Point){length_to_mm(station->at.x) + x * cos(angle) - y * sin(angle),
                   length_to_mm(station->at.y) + x * sin(angle) + y * cos(angle)};
}

static const PartHole *part_hole_at(const Part *part, Place at)
{
    for (uint32_t i = 0; i < part->holes.count; i++) {
        const PartHole *hole = LIST_AT(&part->holes, PartHole, i);
        if (llabs(hole->at.x - at.x) < 1000 && llabs(hole->at.y - at.y) < 1000)
            return hole;
    }
    return NULL;
}

/* 0.001 in on an inch plate, where a hole states no position of its own. */
#define USUAL_ZONE (LENGTH_INCH / 1000)

static size_t find_pins(const Plate *plate, const Record *station, Pin *pins, size_t most)
{
    const Record *part = plate_find(plate, station->station.part);
    size_t count = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != RECORD_FITTING || record->fitting.kind > FITTING_RELIEVED_PIN)
            continue;
        const Record *hole = plate_find(plate, record->fitting.hole);
        if (!hole || hole->kind != RECORD_HOLE || hole->hole.station != station->id)
            continue;
        const PartHole *own = part_hole_at(&part->part, hole->hole.at);
        if (!own || count == most)
            continue;
        Length zone = hole->hole.position_tolerance;
        Length clearance =
            own->diameter + own->upper - record->fitting.diameter - record->fitting.lower;
        Length all = clearance + (zone > 0 ? zone : USUAL_ZONE) + own->position_tolerance;
        pins[count++] = (Pin){on_face(&station->station, hole->hole.at), length_to_mm(all) / 2,
                              record->fitting.kind == FITTING_RELIEVED_PIN};
    }
    return count;
}

/* How far a place of the part gets at the most, of all the ways that it can lie on its two pins:
 * each tried in steps, and turned truly and not by a small angle's rule. */
static double search(const Pin *first, const Pin *second, Point at)
{
    double apart = point_distance(first->at, second->at), most = 0;
    double turn = (first->reach + second->reach) / apart;
    Point line = point_times(point_minus(second->at, first->at), 1 / apart);
    for (int r = 0; r <= 8; r++) {
        for (int a = 0; a < 72; a++) {
            double off = first->reach * r / 8, angle = 2 * G_PI * a / 72;
            Point moved = {first->at.x + off * cos(angle), first->at.y + off * sin(angle)};
            for (int t = -200; t <= 200; t++) {
                double c = cos(turn * t / 200), s = sin(turn * t / 200);
                Point far = point_minus(second->at, first->at), p = point_minus(at, first->at);
                far = (Point){moved.x + far.x * c - far.y * s, moved.y + far.x * s + far.y * c};
                p = (Point){moved.x + p.x * c - p.y * s, moved.y + p.x * s + p.y * c};
                Point slip = point_minus(far, second->at);
                double off_second =
                    second->relieved ? fabs(point_cross(line, slip)) : point_length(slip);
                if (off_second <= second->reach)
                    most = fmax(most, point_distance(p, at));
            }
        }
    }
    return most;
}

static Plate *read_example(const char *name)
{
    char *path = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", name, NULL);
    Plate *plate = plate_read(path, NULL, NULL);
    assert_non_null(plate);
    g_free(path);
    return plate;
}

/* At points of the outline, against the search; the plate's repeat on its base comes on top. */
static void test_against_search(void **state)
{
    Plate *plate = read_example("grafting-blades.plate");
    Placed *placed = placed_new(plate);
    DrawingSource source = {plate, placed};
    const Record *base = plate_find(plate, placed_base(placed));
    double repeat = base && base->kind == RECORD_BASE ? length_to_mm(base->base.repeatability) : 0;
    int stations = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *station = plate_at(plate, i);
        ErrorBand band;
        Pin pins[8];
        if (station->kind != RECORD_STATION || !error_band_make(&source, station->id, &band))
            continue;
        size_t count = find_pins(plate, station, pins, G_N_ELEMENTS(pins));
        assert_true(count >= 2);
        size_t first = 0, second = 1;
        for (size_t a = 0; a < count; a++)
            for (size_t b = a + 1; b < count; b++)
                if (point_distance(pins[a].at, pins[b].at) >
                    point_distance(pins[first].at, pins[second].at)) {
                    first = a;
                    second = b;
                }
        assert_true(band.count > 60);
        for (size_t p = 0; p < band.count; p += 9) {
            double own = band.points[p].error.greatest - repeat;
            double found = search(&pins[first], &pins[second], band.points[p].at);
            assert_true(found <= own * 1.0001);
            assert_true(found >= own * 0.985); /* the steps of the search */
        }
        error_band_clear(&band);
        stations++;
    }
    assert_true(stations >= 3);
    placed_free(placed);
    plate_free(plate);
}

static double distance_to_ring(const Drawing *drawing, Point p)
{
    double least = INFINITY;
    for (size_t m = 0; m < drawing->mark_count; m++) {
        const Mark *mark = &drawing->marks[m];
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        for (size_t i = 0; i < mark->count; i++) {
            Point a = {v[i].x, v[i].y};
            const Vertex *next = &v[(i + 1) % mark->count];
            Point way = {next->x - a.x, next->y - a.y};
            double square = point_dot(way, way);
            double share = square > 0 ? point_dot(point_minus(p, a), way) / square : 0;
            share = fmin(fmax(share, 0), 1);
            least = fmin(least, point_distance(p, point_plus(a, point_times(way, share))));
        }
    }
    return least;
}

/* The band is as wide as the error says: its borders keep off every place of the outline by the
 * error there, and nowhere by more than the greatest. */
static void test_as_drawn(void **state)
{
    const double scale = 0.5;
    Plate *plate = read_example("grafting-blades.plate");
    Placed *placed = placed_new(plate);
    DrawingSource source = {plate, placed};
    Lettering *lettering = lettering_new(NULL);
    Drawing *drawing = drawing_new(lettering);
    ErrorBand band = {.points = NULL};
    for (uint32_t i = 0; i < plate_count(plate) && !band.points; i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION)
            error_band_make(&source, record->id, &band);
    }
    double factor = error_band_factor(&band, scale), all = factor * scale;
    assert_true(band.worst.greatest * all <= ERROR_BAND_WIDEST);
    assert_true(band.worst.greatest * all * 2.5 > ERROR_BAND_WIDEST);
    drawing_begin_sheet(drawing, 300, 300, "band");
    error_band_draw(drawing, &band, (ViewMap){{20, 20}, scale}, factor);
    assert_true(drawing->mark_count >= 2); /* outside and inside */
    for (size_t p = 0; p < band.count; p++) {
        Point at = {20 + band.points[p].at.x * scale, 20 + band.points[p].at.y * scale};
        double off = distance_to_ring(drawing, at);
        assert_true(off >= band.points[p].error.greatest * all - 0.021);
        assert_true(off <= band.worst.greatest * all + 0.001);
    }
    error_band_clear(&band);
    drawing_free(drawing);
    lettering_unref(lettering);
    placed_free(placed);
    plate_free(plate);
}

/* 0.1 mm at half size: 50 times is 2.5 mm on the sheet, 100 times would be 5. */
static void test_factor(void **state)
{
    ErrorBand band = {.worst = {.greatest = 0.1}};
    assert_true(error_band_factor(&band, 0.5) == 50);
    band.worst.greatest = 0.09;
    assert_true(error_band_factor(&band, 1) == 20); /* 50 would be 4.5 mm */
    band.worst.greatest = 100;
    assert_true(error_band_factor(&band, 1) == 1);
}

/* A station with nothing to locate it has no band. */
static void test_none(void **state)
{
    Sample sample = sample_empty(PLATE_MM, 100 * LENGTH_MM, 80 * LENGTH_MM, 10 * LENGTH_MM);
    ErrorBand band;
    assert_false(error_band_make(&sample.source, ID_TOP, &band));
    assert_false(error_band_make(&sample.source, 4711, &band));
    assert_null(band.points);
    sample_end(&sample);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_against_search),
        cmocka_unit_test(test_as_drawn),
        cmocka_unit_test(test_factor),
        cmocka_unit_test(test_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
