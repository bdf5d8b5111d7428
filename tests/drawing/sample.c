#include "sample.h"

#include <glib.h>

static Length mm(double value)
{
    return length_from_mm(value);
}

static void put(Plate *plate, Record *record)
{
    Error error = {.kind = ERROR_NONE};
    if (!plate_put(plate, record, &error))
        g_error("%s", error.message);
}

static Sample placed_sample(Plate *plate)
{
    Error error = {.kind = ERROR_NONE};
    if (!plate_check(plate, &error))
        g_error("%s: %s", error.place, error.message);
    Sample sample = {plate, placed_new(plate), {NULL, NULL}};
    sample.source = (DrawingSource){sample.plate, sample.placed};
    return sample;
}

void sample_end(Sample *sample)
{
    placed_free(sample->placed);
    plate_free(sample->plate);
}

/* Settings can be changed only through an edit. */
static void name_plate(Plate *plate, PlateUnit unit)
{
    const Record *before = plate_find(plate, ID_SETTINGS);
    Record *after = record_copy(before, ID_SETTINGS);
    Settings *settings = &after->settings;
    settings->name = g_strdup("Grafting knife blade, drilling and profile");
    settings->number = g_strdup("GK-104");
    settings->revision = g_strdup("B");
    settings->shop = g_strdup("Larch and Quince");
    settings->date = g_strdup("2024-05-02");
    settings->standard = unit == PLATE_MM ? SHEET_STANDARD_ISO : SHEET_STANDARD_ASME;
    settings->projection = unit == PLATE_MM ? PROJECTION_FIRST : PROJECTION_THIRD;
    g_free(settings->stock.material);
    settings->stock.material = g_strdup("EN AW-6082 T651");
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(before), after);
    Error error = {.kind = ERROR_NONE};
    if (!plate_apply(plate, &edit, NULL, NULL, &error))
        g_error("%s", error.message);
    edit_clear(&edit);
}

Sample sample_empty(PlateUnit unit, Length length, Length width, Length thickness)
{
    Plate *plate = plate_new(length, width, thickness, unit);
    name_plate(plate, unit);
    return placed_sample(plate);
}

FeatureId sample_hole(Plate *plate, FeatureId station, double x, double y, const Step *steps,
                      uint32_t count)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.station = station;
    record->hole.at = (Place){mm(x), mm(y)};
    for (uint32_t i = 0; i < count; i++) {
        Step *step = list_append(&record->hole.steps, Step);
        *step = steps[i];
        step->thread = g_strdup(steps[i].thread);
    }
    put(plate, record);
    return record->id;
}

static void add_recess(Plate *plate, Recess recess)
{
    Record *record = record_new(plate_new_id(plate), RECORD_RECESS);
    record->recess = recess;
    record->recess.face = ID_TOP;
    put(plate, record);
}

static FeatureId add_blade(Plate *plate)
{
    static const OutlineNode corners[] = {{0, 0, 0},
                                          {52000000, 0, 2200000},
                                          {76000000, 8500000, -600000},
                                          {58000000, 17000000, 0},
                                          {22000000, 15500000, -800000},
                                          {14000000, 14000000, 0},
                                          {0, 14000000, 1500000}};
    Record *record = record_new(plate_new_id(plate), RECORD_PART);
    Part *part = &record->part;
    part->name = g_strdup("GK blade");
    part->thickness = mm(2.5);
    PartRing *ring = list_append(&part->rings, PartRing);
    for (size_t i = 0; i < G_N_ELEMENTS(corners); i++)
        *list_append(&ring->nodes, OutlineNode) = corners[i];
    static const double holes[][3] = {{7, 7, 4.8}, {19, 7.5, 3.2}, {40, 9, 3.2}};
    for (size_t i = 0; i < G_N_ELEMENTS(holes); i++) {
        PartHole *hole = list_append(&part->holes, PartHole);
        hole->at = (Place){mm(holes[i][0]), mm(holes[i][1])};
        hole->diameter = mm(holes[i][2]);
    }
    part->blank = (Blank){{mm(-3), mm(-3)}, mm(82), mm(23), mm(2.7)};
    put(plate, record);
    return record->id;
}

static FeatureId add_station(Plate *plate, FeatureId part, double x, double y, double degrees,
                             bool turned_over)
{
    Record *record = record_new(plate_new_id(plate), RECORD_STATION);
    record->station.face = ID_TOP;
    record->station.part = part;
    record->station.at = (Place){mm(x), mm(y)};
    record->station.rotation = angle_from_degrees(degrees);
    record->station.turned_over = turned_over;
    put(plate, record);
    return record->id;
}

static void fill_station(Plate *plate, FeatureId station)
{
    const Step locator[] = {
        {.kind = STEP_SPOT, .diameter = mm(6), .depth = mm(1), .point = 90 * ANGLE_DEGREE},
        {.kind = STEP_DRILL, .diameter = mm(4.6), .depth = mm(13), .point = 118 * ANGLE_DEGREE},
        {.kind = STEP_REAM, .diameter = mm(4.8), .depth = mm(10), .upper = 12000}};
    const Step thread[] = {
        {.kind = STEP_DRILL, .diameter = mm(2.5), .depth = mm(11), .point = 118 * ANGLE_DEGREE},
        {.kind = STEP_TAP, .diameter = mm(3), .depth = mm(8), .thread = (char *)"M3\u00D70.5"}};
    const Step through[] = {{.kind = STEP_DRILL, .diameter = mm(3.2), .through = true}};
    sample_hole(plate, station, 7, 7, locator, 3);
    sample_hole(plate, station, 19, 7.5, thread, 2);
    sample_hole(plate, station, 40, 9, thread, 2);
    sample_hole(plate, station, 62, 8, through, 1);
    add_recess(
        plate,
        (Recess){.kind = RECESS_NEST, .station = station, .clearance = mm(1.5), .depth = mm(1.2)});
    add_recess(plate, (Recess){.kind = RECESS_OBROUND,
                               .station = station,
                               .at = {mm(40), mm(-14)},
                               .length = mm(34),
                               .width = mm(10),
                               .depth = mm(8)});
}

Sample sample_blades(PlateUnit unit)
{
    bool metric = unit == PLATE_MM;
    Plate *plate = metric ? plate_new(mm(200), mm(150), mm(20), unit)
                          : plate_new(8 * LENGTH_INCH, 6 * LENGTH_INCH, LENGTH_INCH * 3 / 4, unit);
    name_plate(plate, unit);
    FeatureId part = add_blade(plate);
    static const double stations[][3] = {{22, 110, 0}, {22, 60, 0}, {182, 50, 180}};
    for (size_t i = 0; i < G_N_ELEMENTS(stations); i++)
        fill_station(plate, add_station(plate, part, stations[i][0], stations[i][1], stations[i][2],
                                        i == 2));
    const Step pull_down[] = {{.kind = STEP_DRILL, .diameter = mm(6.6), .through = true},
                              {.kind = STEP_COUNTERBORE, .diameter = mm(11), .depth = mm(6.8)}};
    const Step bush[] = {{.kind = STEP_DRILL, .diameter = mm(11.7), .through = true},
                         {.kind = STEP_BORE, .diameter = mm(12), .through = true, .upper = 18000}};
    const Step flat[] = {{.kind = STEP_DRILL, .diameter = mm(5.5), .through = true},
                         {.kind = STEP_COUNTERSINK,
                          .diameter = mm(11),
                          .point = 90 * ANGLE_DEGREE,
                          .depth = mm(5.5)}};
    sample_hole(plate, ID_NONE, 12, 12, pull_down, 2);
    sample_hole(plate, ID_NONE, 188, 12, pull_down, 2);
    sample_hole(plate, ID_NONE, 12, 138, pull_down, 2);
    sample_hole(plate, ID_NONE, 188, 138, pull_down, 2);
    sample_hole(plate, ID_NONE, 140, 75, bush, 2);
    sample_hole(plate, ID_NONE, 160, 120, flat, 2);
    Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
    record->keep_clear = (KeepClear){.face = ID_TOP,
                                     .at = {mm(168), mm(90)},
                                     .length = mm(30),
                                     .width = mm(18),
                                     .corner_radius = mm(4)};
    put(plate, record);
    return placed_sample(plate);
}

Sample sample_inclined(PlateUnit unit, FeatureId *face)
{
    Plate *plate = plate_new(mm(200), mm(120), mm(25), unit);
    name_plate(plate, unit);
    Record *record = record_new(plate_new_id(plate), RECORD_FACE);
    record->face = (Face){.name = g_strdup("bevel"),
                          .kind = FACE_INCLINED,
                          .from = {mm(190), mm(50)},
                          .to = {mm(10), mm(50)},
                          .angle = 6 * ANGLE_DEGREE,
                          .extent = mm(45)};
    put(plate, record);
    *face = record->id;
    const Step ream[] = {{.kind = STEP_REAM, .diameter = mm(6), .depth = mm(10), .upper = 12000}};
    const Step thread[] = {
        {.kind = STEP_DRILL, .diameter = mm(3.3), .depth = mm(12), .point = 118 * ANGLE_DEGREE},
        {.kind = STEP_TAP, .diameter = mm(4), .depth = mm(9), .thread = (char *)"M4\u00D70.7"}};
    sample_hole(plate, ID_NONE, 20, 90, ream, 1);
    for (int i = 0; i < 4; i++) {
        FeatureId id =
            sample_hole(plate, ID_NONE, -20 - i * 45, -15, i % 2 ? ream : thread, 2 - i % 2);
        /* A record is nobody else's before the plate is checked. */
        Record *hole = (Record *)plate_find(plate, id);
        hole->hole.face = *face;
    }
    return placed_sample(plate);
}

Sample sample_strewn(uint32_t seed, unsigned count, PlateUnit unit)
{
    Plate *plate = plate_new(mm(220), mm(160), mm(20), unit);
    name_plate(plate, unit);
    GRand *random = g_rand_new_with_seed(seed);
    GArray *places = g_array_new(FALSE, FALSE, sizeof(Point));
    static const double sizes[] = {3.3, 4.2, 5, 6.6, 8, 12};
    for (unsigned tries = 0; places->len < count && tries < 40000; tries++) {
        /* Tenths of a millimetre, as a maker would choose them. */
        Point p = {g_rand_int_range(random, 80, 2120) / 10.0,
                   g_rand_int_range(random, 80, 1520) / 10.0};
        bool free_place = true;
        for (guint i = 0; i < places->len && free_place; i++)
            free_place = point_distance(p, g_array_index(places, Point, i)) > 8.5;
        if (!free_place)
            continue;
        double diameter = sizes[g_rand_int_range(random, 0, count > 80 ? 4 : 6)];
        Step steps[] = {{.kind = STEP_DRILL,
                         .diameter = mm(diameter),
                         .depth = mm(12),
                         .point = 118 * ANGLE_DEGREE},
                        {.kind = STEP_TAP,
                         .diameter = mm(diameter + 1),
                         .depth = mm(9),
                         .thread = (char *)"M6"}};
        sample_hole(plate, ID_NONE, p.x, p.y, steps, diameter == 5 ? 2 : 1);
        g_array_append_val(places, p);
    }
    g_array_unref(places);
    g_rand_free(random);
    return placed_sample(plate);
}
