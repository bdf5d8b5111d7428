#include "cases.h"

#include "plate/plate-file.h"
#include "sample.h"

#include <glib.h>
#include <string.h>

/* No text may meet a line, a feature or another text. Lines are walked in small steps here, which
 * is not how they were kept apart. */

#define STEP 0.2

static Drawing *drawing;
static size_t leaders; /* seen so far */

static int start(void **state)
{
    Lettering *lettering = lettering_new(NULL);
    if (!lettering)
        return -1;
    drawing = drawing_new(lettering);
    lettering_unref(lettering);
    return 0;
}

static int end(void **state)
{
    drawing_free(drawing);
    return leaders > 100 ? 0 : -1;
}

typedef bool (*PointTaker)(Point p, void *user);

static bool walk_arc(Point centre, double radius, double from, double sweep, PointTaker take,
                     void *user)
{
    int steps = (int)ceil(fabs(sweep) * radius / STEP) + 1;
    for (int i = 0; i <= steps; i++) {
        double angle = from + sweep * i / steps;
        if (!take((Point){centre.x + radius * cos(angle), centre.y + radius * sin(angle)}, user))
            return false;
    }
    return true;
}

static bool walk_side(Vertex a, Point b, PointTaker take, void *user)
{
    if (a.sagitta != 0) {
        double radius;
        Point centre = arc_centre(a, b, &radius);
        double from = atan2(a.y - centre.y, a.x - centre.x);
        double sweep = atan2(b.y - centre.y, b.x - centre.x) - from;
        sweep += a.sagitta > 0 && sweep < 0 ? 2 * G_PI : a.sagitta < 0 && sweep > 0 ? -2 * G_PI : 0;
        return walk_arc(centre, radius, from, sweep, take, user);
    }
    int steps = (int)ceil(hypot(b.x - a.x, b.y - a.y) / STEP) + 1;
    for (int i = 0; i <= steps; i++) {
        if (!take((Point){a.x + (b.x - a.x) * i / steps, a.y + (b.y - a.y) * i / steps}, user))
            return false;
    }
    return true;
}

static bool walk_mark(const Mark *mark, PointTaker take, void *user)
{
    const Vertex *v = drawing_mark_vertices(drawing, mark);
    if (mark->count == 1)
        return walk_arc((Point){v->x, v->y}, v->sagitta, 0, 2 * G_PI, take, user);
    for (size_t i = 0; i + (mark->closed ? 0 : 1) < mark->count; i++) {
        const Vertex *next = &v[(i + 1) % mark->count];
        if (!walk_side(v[i], (Point){next->x, next->y}, take, user))
            return false;
    }
    return true;
}

static bool is_outside(Point p, void *user)
{
    const Box *box = user;
    return p.x <= box->x0 || p.x >= box->x1 || p.y <= box->y0 || p.y >= box->y1;
}

static size_t count_texts(const Sheet *sheet)
{
    size_t texts = 0;
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++)
        texts += drawing->marks[m].kind == MARK_TEXT;
    return texts;
}

static bool check_text(const Sheet *sheet, const Mark *text)
{
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
        const Mark *mark = &drawing->marks[m];
        Box box = text->box;
        if (mark == text || !box_meets(box, mark->box))
            continue;
        /* Upright boxes round texts that are upright or level, so boxes are all there is to ask. */
        if (mark->kind == MARK_TEXT || !walk_mark(mark, is_outside, &box)) {
            print_message("# \"%s\" at %.2f, %.2f meets %s %s of feature %u\n",
                          drawing_mark_text(drawing, text), text->at.x, text->at.y,
                          mark_role_name(mark->role),
                          mark->kind == MARK_TEXT ? drawing_mark_text(drawing, mark)
                                                  : line_kind_name(mark->line),
                          mark->feature);
            return false;
        }
    }
    return true;
}

/* Whether two straight pieces cross each other, not only touch. */
static bool pieces_cross(Point a, Point b, Point c, Point d)
{
    double c_side = point_cross(point_minus(b, a), point_minus(c, a));
    double d_side = point_cross(point_minus(b, a), point_minus(d, a));
    double a_side = point_cross(point_minus(d, c), point_minus(a, c));
    double b_side = point_cross(point_minus(d, c), point_minus(b, c));
    return c_side * d_side < -1e-9 && a_side * b_side < -1e-9;
}

static Point corner_at(const Mark *mark, size_t i)
{
    const Vertex *v = &drawing_mark_vertices(drawing, mark)[i];
    return (Point){v->x, v->y};
}

static bool marks_cross(const Mark *one, const Mark *other)
{
    for (size_t i = 0; i + 1 < one->count; i++) {
        for (size_t j = 0; j + 1 < other->count; j++) {
            if (pieces_cross(corner_at(one, i), corner_at(one, i + 1), corner_at(other, j),
                             corner_at(other, j + 1)))
                return true;
        }
    }
    return false;
}

/* A dimension's or ordinate's line; the outlines of details are closed. */
static bool is_dimension(const Mark *mark)
{
    return mark->kind == MARK_STROKE && mark->role == ROLE_DIMENSION && !mark->closed;
}

static bool meets_hole(const Mark *line, const Mark *circle)
{
    Point centre = corner_at(circle, 0);
    double radius = drawing_mark_vertices(drawing, circle)->sagitta;
    for (size_t i = 0; i + 1 < line->count; i++) {
        Point a = corner_at(line, i), way = point_minus(corner_at(line, i + 1), a);
        double length = point_dot(way, way);
        double share = length > 0 ? point_dot(point_minus(centre, a), way) / length : 0;
        share = fmin(fmax(share, 0), 1);
        if (point_distance(point_plus(a, point_times(way, share)), centre) < radius - 1e-9)
            return true;
    }
    return false;
}

/* A path from a feature to its label or frame. */
static bool is_leader(const Mark *mark)
{
    bool role = mark->role == ROLE_LABEL || mark->role == ROLE_PART || mark->role == ROLE_DIMENSION;
    return mark->kind == MARK_STROKE && role && mark->line == LINE_DIMENSION && !mark->closed &&
           mark->count == 3;
}

/* An outline that no leader may cross but one from within. */
static bool is_outline(const Mark *mark)
{
    bool role = mark->role == ROLE_RECESS || mark->role == ROLE_PART ||
                mark->role == ROLE_KEEP_CLEAR || mark->role == ROLE_FITTING;
    return mark->kind == MARK_STROKE && role && mark->closed && mark->count > 1;
}

static bool collect(Point p, void *user)
{
    g_array_append_val((GArray *)user, p);
    return true;
}

/* How often the leader crosses the outline; `*within` is whether it begins inside. */
static int count_crossings(const Mark *leader, const Mark *outline, bool *within)
{
    GArray *points = g_array_new(FALSE, FALSE, sizeof(Point));
    walk_mark(outline, collect, points);
    Point start = corner_at(leader, 0), far = {start.x + 2000, start.y + 777};
    int crossings = 0, inside = 0;
    for (guint i = 0; i < points->len; i++) {
        Point a = g_array_index(points, Point, i);
        Point b = g_array_index(points, Point, (i + 1) % points->len);
        inside += pieces_cross(a, b, start, far);
        for (size_t j = 0; j + 1 < leader->count; j++)
            crossings += pieces_cross(a, b, corner_at(leader, j), corner_at(leader, j + 1));
    }
    g_array_unref(points);
    *within = inside % 2 == 1;
    return crossings;
}

/* A hole drilled into another: its leader can't but begin there. */
static bool is_in_hole(Point p, const Mark *circle)
{
    return point_distance(p, corner_at(circle, 0)) <=
           drawing_mark_vertices(drawing, circle)->sagitta;
}

static bool leader_clears(const Mark *leader, const Mark *other)
{
    bool within;
    if (is_leader(other))
        return !marks_cross(leader, other);
    if (other->kind == MARK_STROKE && other->role == ROLE_DIMENSION &&
        other->line == LINE_DIMENSION && !other->closed)
        return !marks_cross(leader, other);
    if (other->feature == leader->feature)
        return true;
    if (other->role == ROLE_HOLE && other->count == 1)
        return !meets_hole(leader, other) || is_in_hole(corner_at(leader, 0), other);
    return !is_outline(other) || count_crossings(leader, other, &within) == 0 || within;
}

/* No leader of a label or a frame crosses a feature, a dimension or another leader. */
static void check_leaders(const Sheet *sheet)
{
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
        const Mark *leader = &drawing->marks[m];
        for (size_t n = sheet->first; is_leader(leader) && n < sheet->first + sheet->count; n++) {
            const Mark *other = &drawing->marks[n];
            if (n == m || !box_meets(leader->box, other->box) || leader_clears(leader, other))
                continue;
            print_message("# the leader of %u meets %s of %u on %s\n", leader->feature,
                          mark_role_name(other->role), other->feature, sheet->name);
            fail();
        }
        leaders += is_leader(leader);
    }
}

static void check_drawing(void)
{
    for (size_t s = 0; s < drawing->sheet_count; s++) {
        const Sheet *sheet = &drawing->sheets[s];
        assert_true(count_texts(sheet) > 8);
        for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
            const Mark *mark = &drawing->marks[m];
            if (mark->box.x0 < 0 || mark->box.y0 < 0 || mark->box.x1 > sheet->width ||
                mark->box.y1 > sheet->height)
                fail_msg("a %s of %u is beyond the sheet %s", mark_role_name(mark->role),
                         mark->feature, sheet->name);
            if (mark->kind != MARK_TEXT)
                continue;
            assert_true(mark->height >= SHEET_LETTERING);
            assert_true(check_text(sheet, mark));
        }
        check_leaders(sheet);
    }
}

static void check_sample(Sample *sample, const ViewSpec *spec)
{
    Error error = {.kind = ERROR_NONE};
    bool built = drawing_build(drawing, &sample->source, spec, &error);
    if (!built)
        print_message("# %s\n", error.message);
    assert_true(built);
    assert_int_equal(drawing->unknown_count, 0);
    check_drawing();
}

/* Every hole has one label on the first sheet, and one row in the table. */
static void check_labels(const Sample *sample)
{
    assert_int_equal(drawing->unplaced_count, 0);
    for (uint32_t i = 0; i < plate_count(sample->plate); i++) {
        const Record *record = plate_at(sample->plate, i);
        if (record->kind != RECORD_HOLE)
            continue;
        size_t labels = 0, rows = 0;
        for (size_t m = 0; m < drawing->mark_count; m++) {
            const Mark *mark = &drawing->marks[m];
            labels +=
                mark->feature == record->id && mark->role == ROLE_LABEL && mark->kind == MARK_TEXT;
            rows += mark->feature == record->id && mark->role == ROLE_TABLE;
        }
        assert_int_equal(labels, 1);
        assert_true(rows >= 4);
    }
}

static void test_blades(void **state)
{
    for (int unit = 0; unit < 2; unit++) {
        Sample sample = sample_blades((PlateUnit)unit);
        ViewSpec spec = {.show_fittings = true};
        check_sample(&sample, &spec);
        check_labels(&sample);
        for (int size = 0; size < SHEET_SIZE_COUNT; size++) {
            spec = (ViewSpec){.choose_sheet = true, .sheet = (SheetSize)size};
            check_sample(&sample, &spec);
        }
        sample_end(&sample);
    }
}

/* No dimension crosses a hole or another dimension. An overall size's own lines may: where it is
 * narrow its arrows stand outside. */
static void check_dimensions(void)
{
    size_t lines = 0;
    for (size_t s = 0; s < drawing->sheet_count; s++) {
        const Sheet *sheet = &drawing->sheets[s];
        for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
            const Mark *line = &drawing->marks[m];
            if (!is_dimension(line))
                continue;
            lines++;
            for (size_t n = sheet->first; n < sheet->first + sheet->count; n++) {
                const Mark *other = &drawing->marks[n];
                bool sizes = line->feature == ID_SETTINGS && other->feature == ID_SETTINGS;
                if (n > m && is_dimension(other) && !sizes)
                    assert_false(marks_cross(line, other));
                if (other->role == ROLE_HOLE && other->count == 1)
                    assert_false(meets_hole(line, other));
            }
        }
    }
    assert_true(lines > 6);
}

/* All prints of all examples. */
static void test_examples(void **state)
{
    Error error = {.kind = ERROR_NONE};
    char *folder = g_build_filename(g_getenv("TEST_SOURCE_ROOT"), "examples", NULL);
    GDir *dir = g_dir_open(folder, 0, NULL);
    size_t count = 0;
    for (const char *name = g_dir_read_name(dir); name; name = g_dir_read_name(dir)) {
        if (!g_str_has_suffix(name, ".plate"))
            continue;
        char *path = g_build_filename(folder, name, NULL);
        Sample sample = {.plate = plate_read(path, NULL, &error)};
        assert_non_null(sample.plate);
        sample.placed = placed_new(sample.plate);
        sample.source = (DrawingSource){sample.plate, sample.placed};
        for (int manner = 0; manner < 4; manner++) {
            ViewSpec spec = {.both_units = manner & 1, .chained = manner & 2, .prints = 63};
            check_sample(&sample, &spec);
            check_dimensions();
        }
        sample_end(&sample);
        g_free(path);
        count++;
    }
    g_dir_close(dir);
    g_free(folder);
    assert_true(count >= 5);
}

static void test_strewn(void **state)
{
    for (uint32_t seed = 0; seed < 50; seed++) {
        Sample sample = sample_strewn(seed, 1 + seed * 59 / 49, (PlateUnit)(seed % 2));
        ViewSpec spec = {0};
        check_sample(&sample, &spec);
        check_labels(&sample);
        check_dimensions();
        sample_end(&sample);
    }
}

static void test_two_hundred_holes(void **state)
{
    Sample sample = sample_strewn(99, 200, PLATE_MM);
    ViewSpec spec = {0};
    check_sample(&sample, &spec);
    check_labels(&sample);
    check_dimensions();
    spec = (ViewSpec){.choose_sheet = true, .sheet = SHEET_A1};
    check_sample(&sample, &spec);
    check_dimensions();
    sample_end(&sample);
}

/* The same with both units, with chained dimensions, and with both. */
static void test_other_manners(void **state)
{
    for (int manner = 1; manner < 4; manner++) {
        ViewSpec spec = {.both_units = manner & 1, .chained = manner & 2};
        for (uint32_t seed = 0; seed < 12; seed++) {
            Sample sample = sample_strewn(seed, 1 + seed * 5, (PlateUnit)(seed % 2));
            check_sample(&sample, &spec);
            check_labels(&sample);
            check_dimensions();
            sample_end(&sample);
        }
        for (int unit = 0; unit < 2; unit++) {
            FeatureId face;
            Sample samples[] = {sample_blades((PlateUnit)unit),
                                sample_inclined((PlateUnit)unit, &face),
                                sample_strewn(99, manner == 3 ? 200 : 30, (PlateUnit)unit)};
            for (size_t i = 0; i < G_N_ELEMENTS(samples); i++) {
                check_sample(&samples[i], &spec);
                check_labels(&samples[i]);
                sample_end(&samples[i]);
            }
        }
    }
}

/* On a sheet too small for all labels some are left out, and counted, but none overlap. */
static void test_crowded_sheet(void **state)
{
    Sample sample = sample_strewn(99, 200, PLATE_MM);
    ViewSpec spec = {.choose_sheet = true, .sheet = SHEET_A4};
    check_sample(&sample, &spec);
    sample_end(&sample);
}

static void test_odd_plates(void **state)
{
    static const double sizes[][3] = {
        {10, 10, 3}, {1000, 20, 10}, {20, 1000, 10}, {2000, 1500, 50}, {100, 100, 100}};
    for (size_t i = 0; i < G_N_ELEMENTS(sizes); i++) {
        Sample sample = sample_empty((PlateUnit)(i % 2), length_from_mm(sizes[i][0]),
                                     length_from_mm(sizes[i][1]), length_from_mm(sizes[i][2]));
        ViewSpec spec = {0};
        check_sample(&sample, &spec);
        sample_end(&sample);
    }
}

static void test_inclined_face(void **state)
{
    for (int unit = 0; unit < 2; unit++) {
        FeatureId face;
        Sample sample = sample_inclined((PlateUnit)unit, &face);
        ViewSpec spec = {0};
        check_sample(&sample, &spec);
        check_labels(&sample);
        size_t all = drawing->sheet_count;
        spec.face = face;
        check_sample(&sample, &spec);
        assert_true(drawing->sheet_count < all);
        size_t circles = 0;
        for (size_t m = 0; m < drawing->mark_count; m++)
            circles += drawing->marks[m].role == ROLE_HOLE && drawing->marks[m].count == 1;
        assert_int_equal(circles, 4);
        spec.face = 4711;
        Error error = {.kind = ERROR_NONE};
        assert_false(drawing_build(drawing, &sample.source, &spec, &error));
        assert_int_equal(error.kind, ERROR_MISSING);
        sample_end(&sample);
    }
}

/* What is printed beside the drawing keeps to the same. */
static void test_other_prints(void **state)
{
    ViewSpec spec = {.prints = PRINT_OPERATIONS | PRINT_TOOLS | PRINT_TEMPLATE | PRINT_FINDINGS};
    FeatureId face;
    for (int unit = 0; unit < 2; unit++) {
        Sample samples[] = {sample_blades((PlateUnit)unit), sample_inclined((PlateUnit)unit, &face),
                            sample_strewn(7, 60, (PlateUnit)unit)};
        for (size_t i = 0; i < G_N_ELEMENTS(samples); i++) {
            check_sample(&samples[i], &spec);
            sample_end(&samples[i]);
        }
    }
    Sample large =
        sample_empty(PLATE_MM, length_from_mm(2000), length_from_mm(1500), length_from_mm(20));
    Error error = {.kind = ERROR_NONE};
    assert_false(drawing_build(drawing, &large.source, &spec, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    sample_end(&large);
}

static void check_sectioned(Sample *sample, SectionLine line, size_t more)
{
    ViewSpec spec = {0};
    check_sample(sample, &spec);
    size_t plain = drawing->sheet_count;
    spec.sections[0] = line;
    check_sample(sample, &spec);
    assert_int_equal(drawing->sheet_count, plain + more);
    assert_int_equal(drawing->unplaced_count, 0);
}

/* A section is a sheet more, and its letters stand on the plan; one beside the plate is none. */
static void test_sections(void **state)
{
    for (int unit = 0; unit < 2; unit++) {
        Sample sample = sample_blades((PlateUnit)unit);
        check_sectioned(&sample, (SectionLine){{-5, 67}, {300, 67}, 'A'}, 1);
        check_sectioned(&sample, (SectionLine){{10, 5}, {190, 140}, 'B'}, 1);
        check_sectioned(&sample, (SectionLine){{12, 200}, {12, -9}, 'C'}, 1);
        check_sectioned(&sample, (SectionLine){{-10, 200}, {300, 200}, 'D'}, 0);
        sample_end(&sample);
    }
}

/* Names as long as a file may hold them: sheets stay whole, and the table within its frame. */
static void test_endless_texts(void **state)
{
    char *endless = g_strnfill(4000, 'W');
    Sample blades = sample_blades(PLATE_MM);
    const Record *before = plate_find(blades.plate, ID_SETTINGS);
    Record *after = record_copy(before, ID_SETTINGS);
    char **fields[] = {&after->settings.name,     &after->settings.number,
                       &after->settings.shop,     &after->settings.date,
                       &after->settings.revision, &after->settings.stock.material};
    for (size_t i = 0; i < G_N_ELEMENTS(fields); i++) {
        g_free(*fields[i]);
        *fields[i] = g_strdup(endless);
    }
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(before), after);
    int changed = 0;
    for (uint32_t i = 0; i < plate_count(blades.plate) && changed < 2; i++) {
        const Record *hole = plate_at(blades.plate, i);
        if (hole->kind != RECORD_HOLE)
            continue;
        Record *renamed = record_copy(hole, hole->id);
        g_free(renamed->hole.label);
        renamed->hole.label = g_strdup(endless);
        renamed->hole.note = g_strdup(endless);
        edit_add(&edit, record_ref(hole), renamed);
        changed++;
    }
    assert_true(plate_apply(blades.plate, &edit, NULL, NULL, NULL));
    edit_clear(&edit);
    placed_free(blades.placed);
    blades.placed = placed_new(blades.plate);
    blades.source.placed = blades.placed;
    ViewSpec spec = {.choose_sheet = true, .sheet = SHEET_A4};
    check_sample(&blades, &spec);
    assert_int_equal(drawing->unplaced_count, 2);
    sample_end(&blades);
    g_free(endless);
}

static void test_asked_scale(void **state)
{
    Sample sample = sample_blades(PLATE_MM);
    Error error = {.kind = ERROR_NONE};
    ViewSpec spec = {.choose_sheet = true, .sheet = SHEET_A4, .scale = 1};
    assert_false(drawing_build(drawing, &sample.source, &spec, &error));
    assert_int_equal(error.kind, ERROR_LIMIT);
    assert_non_null(strstr(error.message, "1:2"));
    spec.scale = 0.2;
    assert_true(drawing_build(drawing, &sample.source, &spec, &error));
    spec.sheet = SHEET_A1;
    spec.scale = 1;
    assert_true(drawing_build(drawing, &sample.source, &spec, &error));
    /* The table stands beside the views; the notes have a sheet of their own. */
    assert_int_equal(drawing->sheet_count, 2);
    sample_end(&sample);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_blades),        cmocka_unit_test(test_examples),
        cmocka_unit_test(test_strewn),        cmocka_unit_test(test_two_hundred_holes),
        cmocka_unit_test(test_other_manners), cmocka_unit_test(test_crowded_sheet),
        cmocka_unit_test(test_inclined_face), cmocka_unit_test(test_odd_plates),
        cmocka_unit_test(test_asked_scale),   cmocka_unit_test(test_endless_texts),
        cmocka_unit_test(test_sections),      cmocka_unit_test(test_other_prints),
    };
    return cmocka_run_group_tests(tests, start, end);
}
