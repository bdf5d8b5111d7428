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

Plate *random_plate(uint32_t seed, int things)
{
    Plate *plate = plate_new(MM(203.2), MM(152.4), MM(19.05), PLATE_INCH);
    const double holes[] = {10, 8, 4.8, 60, 8, 3.2, 35, 10, 4};
    FeatureId part = put_part(plate, 70, 16, 3, 3, holes);
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
            FeatureId station = put_station(plate, part, x, y);
            put_pin(plate, station, 1, 10, 8, FITTING_SHOULDER_SCREW,
                    random_between(&seed, 4.7, 4.85));
            if (what == 9)
                put_pin(plate, station, 2, 60, 8, FITTING_DOWEL, 3.15);
        }
    }
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
    edit_add(edit, record_ref(record), copy);
}

static void resize_randomly(const Record *record, uint32_t *seed, Edit *edit)
{
    Record *copy = record_copy(record, record->id);
    if (copy->kind == RECORD_HOLE)
        LIST_AT(&copy->hole.steps, Step, 0)->diameter = MM(random_between(seed, 1, 12));
    else if (copy->kind == RECORD_RECESS)
        copy->recess.depth = MM(random_between(seed, 0.5, 25));
    else if (copy->kind == RECORD_SETTINGS)
        copy->settings.stock.length = MM(random_between(seed, 150, 260));
    else if (copy->kind == RECORD_PART)
        LIST_AT(&copy->part.holes, PartHole, 0)->diameter = MM(random_between(seed, 4, 6));
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
