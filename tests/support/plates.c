#include "support/plates.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void apply(Plate *plate, Edit *edit)
{
    Error error = {.kind = ERROR_NONE};
    if (!plate_apply(plate, edit, NULL, NULL, &error))
        fail_msg("%s: %s", error.place, error.message);
    edit_clear(edit);
}

FeatureId put_record(Plate *plate, Record *record)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id = record->id;
    edit_add(&edit, NULL, record);
    apply(plate, &edit);
    return id;
}

void change_record(Plate *plate, Record *record)
{
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(plate_find(plate, record->id)), record);
    apply(plate, &edit);
}

void take_away(Plate *plate, FeatureId id)
{
    Edit edit = EDIT_EMPTY;
    edit_add(&edit, record_ref(plate_find(plate, id)), NULL);
    apply(plate, &edit);
}

static Record *hole_record(Plate *plate, double x, double y, double diameter, double depth)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(x), MM(y)};
    Step *step = list_append(&record->hole.steps, Step);
    step->kind = STEP_DRILL;
    step->diameter = MM(diameter);
    step->depth = MM(depth);
    step->through = depth <= 0;
    return record;
}

FeatureId put_hole(Plate *plate, double x, double y, double diameter)
{
    return put_record(plate, hole_record(plate, x, y, diameter, 0));
}

FeatureId put_blind_hole(Plate *plate, double x, double y, double diameter, double depth)
{
    return put_record(plate, hole_record(plate, x, y, diameter, depth));
}

FeatureId put_front_face(Plate *plate, double y, double degrees, double extent)
{
    const Settings *settings = &plate_find(plate, ID_SETTINGS)->settings;
    Record *record = record_new(plate_new_id(plate), RECORD_FACE);
    record->face.name = g_strdup("front");
    record->face.kind = FACE_INCLINED;
    record->face.from = (Place){settings->stock.length, MM(y)};
    record->face.to = (Place){0, MM(y)};
    record->face.angle = angle_from_degrees(degrees);
    record->face.extent = MM(extent);
    return put_record(plate, record);
}

void put_on_face(Plate *plate, FeatureId id, FeatureId face, double x, double y)
{
    Record *record = record_copy(plate_find(plate, id), id);
    if (record->kind == RECORD_HOLE)
        record->hole.face = face;
    else
        record->recess.face = face;
    *record_place(record) = (Place){MM(x), MM(y)};
    change_record(plate, record);
}

static Record *slot_record(Plate *plate, double x, double y, double length, double width,
                           double depth)
{
    Record *record = record_new(plate_new_id(plate), RECORD_RECESS);
    record->recess.face = ID_TOP;
    record->recess.kind = RECESS_OBROUND;
    record->recess.at = (Place){MM(x), MM(y)};
    record->recess.length = MM(length);
    record->recess.width = MM(width);
    record->recess.depth = MM(depth);
    return record;
}

FeatureId put_slot(Plate *plate, double x, double y, double length, double width, double depth)
{
    return put_record(plate, slot_record(plate, x, y, length, width, depth));
}

FeatureId put_part(Plate *plate, double length, double width, double thickness, int hole_count,
                   const double *holes)
{
    Record *record = record_new(plate_new_id(plate), RECORD_PART);
    Part *part = &record->part;
    part->name = g_strdup("bar");
    part->thickness = MM(thickness);
    const double corners[4][2] = {{0, 0}, {length, 0}, {length, width}, {0, width}};
    PartRing *ring = list_append(&part->rings, PartRing);
    for (int i = 0; i < 4; i++) {
        OutlineNode *node = list_append(&ring->nodes, OutlineNode);
        *node = (OutlineNode){MM(corners[i][0]), MM(corners[i][1]), 0};
    }
    for (int i = 0; i < hole_count; i++) {
        PartHole *hole = list_append(&part->holes, PartHole);
        hole->at = (Place){MM(holes[3 * i]), MM(holes[3 * i + 1])};
        hole->diameter = MM(holes[3 * i + 2]);
    }
    return put_record(plate, record);
}

FeatureId put_station(Plate *plate, FeatureId part, double x, double y)
{
    Record *record = record_new(plate_new_id(plate), RECORD_STATION);
    record->station.face = ID_TOP;
    record->station.part = part;
    record->station.at = (Place){MM(x), MM(y)};
    return put_record(plate, record);
}

FeatureId put_pin(Plate *plate, FeatureId station, int part_hole, double x, double y, int kind,
                  double diameter)
{
    Record *hole = hole_record(plate, x, y, diameter, 0);
    hole->hole.station = station;
    FeatureId hole_id = put_record(plate, hole);
    Record *record = record_new(plate_new_id(plate), RECORD_FITTING);
    record->fitting.kind = kind;
    record->fitting.station = station;
    record->fitting.hole = hole_id;
    record->fitting.part_hole = part_hole;
    record->fitting.diameter = MM(diameter);
    return put_record(plate, record);
}

static Record *copy_of(const Plate *plate, FeatureId id)
{
    return record_copy(plate_find(plate, id), id);
}

void add_step(Plate *plate, FeatureId hole, int kind, double diameter, double depth,
              const char *thread)
{
    Record *record = copy_of(plate, hole);
    Step *step = list_append(&record->hole.steps, Step);
    step->kind = kind;
    step->diameter = MM(diameter);
    step->depth = MM(depth);
    step->through = depth <= 0;
    step->thread = g_strdup(thread);
    change_record(plate, record);
}

void set_size(Plate *plate, FeatureId fitting, const char *size, double length, double upper,
              double lower)
{
    Record *record = copy_of(plate, fitting);
    g_free(record->fitting.size);
    record->fitting.size = g_strdup(size);
    record->fitting.length = MM(length);
    record->fitting.upper = MM(upper);
    record->fitting.lower = MM(lower);
    change_record(plate, record);
}

FeatureId put_nest(Plate *plate, FeatureId station, double clearance, double depth)
{
    Record *record = record_new(plate_new_id(plate), RECORD_RECESS);
    record->recess.kind = RECESS_NEST;
    record->recess.face = ID_TOP;
    record->recess.station = station;
    record->recess.clearance = MM(clearance);
    record->recess.depth = MM(depth);
    return put_record(plate, record);
}

FeatureId put_clamp(Plate *plate, FeatureId station, double x, double y, double degrees,
                    double length, double width)
{
    Record *record = record_new(plate_new_id(plate), RECORD_FITTING);
    record->fitting.kind = FITTING_EDGE_CLAMP;
    record->fitting.station = station;
    record->fitting.at = (Place){MM(x), MM(y)};
    record->fitting.rotation = angle_from_degrees(degrees);
    record->fitting.length = MM(length);
    record->fitting.width = MM(width);
    record->fitting.travel_greatest = MM(1);
    return put_record(plate, record);
}

void change_limit(Plate *plate, const char *rule, const char *limit, double value)
{
    Record *record = copy_of(plate, ID_SETTINGS);
    ChangedLimit *changed = list_append(&record->settings.limits, ChangedLimit);
    changed->rule = g_strdup(rule);
    changed->limit = g_strdup(limit);
    changed->value = llround(value * 1e6);
    change_record(plate, record);
}

double random_between(uint32_t *seed, double least, double greatest)
{
    /* Numbers from the xorshift family (Marsaglia 2003, from memory). */
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return least + (greatest - least) * (*seed / 4294967296.0);
}

static int random_count(uint32_t *seed, int count)
{
    return (int)random_between(seed, 0, count);
}

static void resize_hole(Plate *plate, FeatureId hole, double diameter)
{
    Record *record = copy_of(plate, hole);
    LIST_AT(&record->hole.steps, Step, 0)->diameter = MM(diameter);
    change_record(plate, record);
}

/* A shoulder screw, a dowel, a hold-down and a clamp, some of them in threads and nests that are
 * too shallow or of the wrong size. */
static void put_random_station(Plate *plate, FeatureId part, double x, double y, uint32_t *seed)
{
    static const char *const threads[] = {"8-32", "coil 8-32", "10-24", "8-32"};
    FeatureId station = put_station(plate, part, x, y);
    FeatureId screw = put_pin(plate, station, 1, 10, 8, FITTING_SHOULDER_SCREW, 4.7625);
    FeatureId hole = plate_find(plate, screw)->fitting.hole;
    double depth = random_between(seed, 3, 12);
    Record *head = copy_of(plate, screw);
    head->fitting.head_diameter = MM(7.9);
    head->fitting.head_height = MM(4);
    change_record(plate, head);
    set_size(plate, screw, "shoulder screw 3/16", random_between(seed, 2, 4), -0.0635, -0.1143);
    if (random_count(seed, 3))
        resize_hole(plate, hole, 3.4544);
    add_step(plate, hole, STEP_TAP, 4.1656, depth, threads[random_count(seed, 4)]);
    if (random_count(seed, 2)) {
        FeatureId pin = put_pin(plate, station, 2, 60, 8, FITTING_DOWEL, 3.175);
        set_size(plate, pin, "dowel 1/8", 3, 0, 0);
        hole = plate_find(plate, pin)->fitting.hole;
        resize_hole(plate, hole, random_between(seed, 2.6, 3.1));
        add_step(plate, hole, STEP_REAM, random_between(seed, 3.16, 3.19), 0, NULL);
    }
    if (random_count(seed, 2)) {
        FeatureId hold_down = put_pin(plate, station, 3, 35, 10, FITTING_HOLD_DOWN, 3.5);
        set_size(plate, hold_down, "socket head #6", 3, 0, 0);
        hole = plate_find(plate, hold_down)->fitting.hole;
        resize_hole(plate, hole, 2.7);
        add_step(plate, hole, STEP_TAP, 3.5052, depth, "6-32");
    }
    if (random_count(seed, 2))
        put_nest(plate, station, 0.5, random_between(seed, 0.5, 3));
    if (random_count(seed, 2)) {
        /* Above the blank's side, of the station or where it would stand without one. */
        bool own = random_count(seed, 2);
        double up = random_between(seed, 24, 26.5);
        FeatureId clamp = put_clamp(plate, own ? station : ID_NONE, own ? 35 : x + 35,
                                    own ? up : y + up, 270, 10, 12);
        Record *record = copy_of(plate, clamp);
        record->fitting.head_height = MM(random_between(seed, 0.5, 3.5));
        record->fitting.force = llround(random_between(seed, 1000, 60000)) * 1000000;
        change_record(plate, record);
    }
}

static void give_blank(Plate *plate, FeatureId part)
{
    Record *record = copy_of(plate, part);
    record->part.blank = (Blank){{MM(-3), MM(-3)}, MM(76), MM(22), MM(3)};
    record->part.material = g_strdup("1095");
    record->part.bevel = (Bevel){.angle = 10 * ANGLE_DEGREE,
                                 .edge_thickness = MM(0.3),
                                 .from = {MM(1), 0},
                                 .to = {MM(69), 0},
                                 .both_sides = true};
    record->part.thickness_tolerance = MM(0.05);
    PartRing *ring = list_append(&record->part.rings, PartRing);
    const double opening[4][2] = {{42, 6}, {42, 13}, {54, 13}, {54, 6}};
    for (int i = 0; i < 4; i++)
        *list_append(&ring->nodes, OutlineNode) =
            (OutlineNode){MM(opening[i][0]), MM(opening[i][1]), 0};
    for (int i = 0; i < 2; i++)
        LIST_AT(&record->part.holes, PartHole, i)->position_tolerance = MM(0.03);
    change_record(plate, record);
}

/* Holes and slots on an inclined face at the front, deep enough to meet those of the top. */
static FeatureId put_random_front(Plate *plate, FeatureId part, uint32_t *seed, int things)
{
    FeatureId face = put_front_face(plate, 50, random_between(seed, 3, 30), 50);
    for (int i = 0; i < things; i++) {
        double across = random_between(seed, 4, 9), depth = random_between(seed, 2, 15);
        FeatureId id = random_count(seed, 3) ? put_blind_hole(plate, 0, 0, across, depth)
                                             : put_slot(plate, 0, 0, 2 * across, across, depth);
        double x = random_between(seed, -203, 0);
        put_on_face(plate, id, face, x, random_between(seed, -48, 0));
    }
    /* And a blade whose bevel is cut there. */
    FeatureId station = put_station(plate, part, 0, 0);
    FeatureId pin = put_pin(plate, station, 1, 10, 8, FITTING_DOWEL, 4.75);
    Record *record = copy_of(plate, station);
    record->station.face = face;
    record->station.at = (Place){MM(random_between(seed, -200, -70)), MM(-40)};
    change_record(plate, record);
    put_on_face(plate, plate_find(plate, pin)->fitting.hole, face, 10, 8);
    return face;
}

static void fit_randomly(const Plate *plate, Operation *operation, bool clamps, uint32_t *seed)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_FITTING && random_count(seed, 5) &&
            (record->fitting.kind == FITTING_EDGE_CLAMP) == clamps)
            *list_append(&operation->fitted, FeatureId) = record->id;
    }
}

static void add_random_pass(Operation *operation, int where, uint32_t *seed)
{
    Pass *pass = list_append(&operation->passes, Pass);
    *pass = (Pass){.where = where};
    pass->force = llround(random_between(seed, 100, 1500)) * 1000000;
    pass->cutter_diameter = MM(random_between(seed, where == PASS_HOLES ? 2 : 3, 6));
    pass->flute_length = MM(random_between(seed, 3, 12));
    pass->holder_diameter = MM(random_between(seed, 8, 40));
    pass->gauge_length = random_count(seed, 4) ? MM(random_between(seed, 4, 30)) : 0;
    pass->depth_below = MM(random_between(seed, 0, 2));
    pass->stock_left = random_count(seed, 2) ? MM(0.2) : 0;
    pass->point = where == PASS_HOLES ? 118 * ANGLE_DEGREE : 0;
}

/* The blanks are drilled under clamps, the profiles cut under screws, the bevels cut, all of it
 * hard. One operation names its stations, the others run what is on their face. */
static void put_random_operations(Plate *plate, FeatureId front, uint32_t *seed)
{
    static const int wheres[] = {PASS_HOLES, PASS_OUTLINE_OUTSIDE, PASS_BEVEL, PASS_OUTLINE_INSIDE};
    for (int i = 0; i < 4; i++) {
        Record *record = record_new(plate_new_id(plate), RECORD_OPERATION);
        record->operation.name = g_strdup_printf("operation %d", i);
        record->operation.kind = OPERATION_RUNNING;
        record->operation.order = i < 3 ? i : random_count(seed, 3);
        record->operation.face = i == 2 ? front : i == 0 ? ID_TOP : ID_NONE;
        for (uint32_t k = 0; i == 1 && k < plate_count(plate); k++)
            if (plate_at(plate, k)->kind == RECORD_STATION)
                *list_append(&record->operation.stations, FeatureId) = plate_at(plate, k)->id;
        fit_randomly(plate, &record->operation, i == 0, seed);
        add_random_pass(&record->operation, wheres[i], seed);
        if (random_count(seed, 2))
            add_random_pass(&record->operation, wheres[i], seed);
        put_record(plate, record);
    }
}

Plate *random_plate(uint32_t seed, int things)
{
    Plate *plate = plate_new(MM(203.2), MM(152.4), MM(19.05), PLATE_INCH);
    const double holes[] = {10, 8, 4.8, 60, 8, 3.2, 35, 10, 4};
    FeatureId part = put_part(plate, 70, 16, 3, 3, holes);
    give_blank(plate, part);
    for (int i = 0; i < things; i++) {
        double x = random_between(&seed, -5, 208), y = random_between(&seed, -5, 157);
        int what = random_count(&seed, 10);
        if (what < 5) {
            put_hole(plate, x, y, random_between(&seed, 2, 9));
        } else if (what < 7) {
            put_slot(plate, x, y, random_between(&seed, 12, 30), random_between(&seed, 4, 11),
                     random_between(&seed, 1, 20));
        } else if (what < 8) {
            put_blind_hole(plate, x, y, random_between(&seed, 2, 9), random_between(&seed, 2, 20));
        } else {
            put_random_station(plate, part, x, y, &seed);
        }
    }
    FeatureId front = put_random_front(plate, part, &seed, things / 4);
    put_random_operations(plate, front, &seed);
    return plate;
}

static const Record *random_record(const Plate *plate, uint32_t *seed)
{
    return plate_at(plate, (uint32_t)random_count(seed, (int)plate_count(plate)));
}

static void move_randomly(const Record *record, uint32_t *seed, Edit *edit)
{
    Record *copy = record_copy(record, record->id);
    Place *place = record_place(copy);
    if (!place) {
        record_unref(copy);
        return;
    }
    place->x += MM(random_between(seed, -20, 20));
    place->y += MM(random_between(seed, -20, 20));
    if (copy->kind == RECORD_STATION) {
        copy->station.rotation = angle_from_degrees(floor(random_between(seed, 0, 8)) * 45);
        copy->station.turned_over = random_count(seed, 2);
    }
    if (copy->kind == RECORD_FITTING)
        copy->fitting.rotation = angle_from_degrees(floor(random_between(seed, 0, 8)) * 45);
    edit_add(edit, record_ref(record), copy);
}

static void change_operation(Operation *operation, uint32_t *seed)
{
    Pass *pass = LIST_AT(&operation->passes, Pass, 0);
    int what = random_count(seed, 6);
    if (what == 0)
        pass->force = random_count(seed, 1500) * 1000000LL;
    else if (what == 1)
        pass->cutter_diameter = MM(random_between(seed, 1, 8));
    else if (what == 2)
        pass->depth_below = MM(random_between(seed, 0, 4));
    else if (what == 3)
        operation->order = random_count(seed, 5);
    else if (what == 4 && operation->fitted.count > 0)
        operation->fitted.count--;
    else
        pass->gauge_length = MM(random_between(seed, 0, 25));
}

static void resize_randomly(const Record *record, uint32_t *seed, Edit *edit)
{
    Record *copy = record_copy(record, record->id);
    if (copy->kind == RECORD_HOLE)
        LIST_AT(&copy->hole.steps, Step, 0)->diameter = MM(random_between(seed, 1, 12));
    else if (copy->kind == RECORD_RECESS)
        copy->recess.depth = MM(random_between(seed, 0.5, 25));
    else if (copy->kind == RECORD_FACE && copy->face.kind == FACE_INCLINED)
        copy->face.angle = angle_from_degrees(random_between(seed, 3, 30));
    else if (copy->kind == RECORD_SETTINGS)
        copy->settings.stock.length = MM(random_between(seed, 150, 260));
    else if (copy->kind == RECORD_PART && random_count(seed, 2))
        LIST_AT(&copy->part.holes, PartHole, 0)->diameter = MM(random_between(seed, 4, 6));
    else if (copy->kind == RECORD_PART)
        copy->part.thickness = MM(random_between(seed, 0.5, 5));
    else if (copy->kind == RECORD_OPERATION)
        change_operation(&copy->operation, seed);
    else if (copy->kind == RECORD_FITTING)
        copy->fitting.length = MM(random_between(seed, 0.5, 5));
    edit_add(edit, record_ref(record), copy);
}

void random_edit(const Plate *plate, uint32_t *seed, Edit *edit)
{
    const Record *record = random_record(plate, seed);
    int what = random_count(seed, 12);
    if (what < 7) {
        move_randomly(record, seed, edit);
    } else if (what < 9) {
        resize_randomly(record, seed, edit);
    } else if (what < 10) {
        edit_add(edit, record_ref(record), NULL);
    } else if (record->kind == RECORD_HOLE || record->kind == RECORD_RECESS) {
        FeatureId id = plate_next_id(plate);
        Record *copy = record_copy(record, id);
        record_place(copy)->x += MM(random_between(seed, -40, 40));
        edit_add(edit, NULL, copy);
    }
}

FindingList findings_of(const Plate *plate)
{
    Placed *placed = placed_new(plate);
    Checker *checker = checker_new();
    FindingList copy = FINDING_LIST_EMPTY;
    checker_update(checker, placed, NULL);
    const FindingList *findings = checker_findings(checker);
    for (uint32_t i = 0; i < findings->count; i++)
        *finding_list_add(&copy) = findings->items[i];
    checker_free(checker);
    placed_free(placed);
    return copy;
}

int count_of(const FindingList *findings, const char *slug, const Finding **first)
{
    int count = 0;
    for (uint32_t i = 0; i < findings->count; i++) {
        if (strcmp(findings->items[i].rule->slug, slug) != 0)
            continue;
        if (count++ == 0 && first)
            *first = &findings->items[i];
    }
    return count;
}

void expect_findings(Plate *plate, const char *slug, FindingLevel level, int count, double value)
{
    const Finding *first = NULL;
    FindingList findings = findings_of(plate);
    int found = 0;
    for (uint32_t i = 0; i < findings.count; i++) {
        const Finding *finding = &findings.items[i];
        if (strcmp(finding->rule->slug, slug) == 0 && finding->level == level && found++ == 0)
            first = finding;
    }
    if (found != count)
        fail_msg("%s: %d findings, %d expected", slug, found, count);
    if (count && fabs(first->value - value) > 1e-6)
        fail_msg("%s: the figure is %.7f, %.7f expected", slug, first->value, value);
    finding_list_clear(&findings);
    plate_free(plate);
}
