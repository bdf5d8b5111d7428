#include "bench-plates.h"

#include "support/plates.h"

Plate *holes_plate(int holes)
{
    int side = (int)ceil(sqrt(holes));
    Plate *plate = plate_new(MM(side * 12 + 20), MM(side * 12 + 20), MM(20), PLATE_MM);
    for (int i = 0; i < holes; i++) {
        FeatureId id = put_hole(plate, 16 + i % side * 12, 16 + i / side * 12, 5);
        if (i % 3 == 0) {
            add_step(plate, id, STEP_REAM, 5.2, 0, NULL);
            add_step(plate, id, STEP_COUNTERBORE, 8, 3, NULL);
        }
    }
    return plate;
}

/* A blade of 60 sides, some of them arcs. */
static FeatureId put_blade(Plate *plate)
{
    const double holes[] = {10, 8, 4.8, 60, 8, 3.2, 35, 10, 4};
    FeatureId part = put_part(plate, 70, 16, 3, 3, holes);
    Record *record = record_copy(plate_find(plate, part), part);
    PartRing *ring = LIST_AT(&record->part.rings, PartRing, 0);
    g_free(ring->nodes.items);
    ring->nodes = (List){0, NULL};
    for (int i = 0; i < 60; i++) {
        double angle = i * M_PI / 30;
        *list_append(&ring->nodes, OutlineNode) =
            (OutlineNode){MM(35 + 35 * cos(angle)), MM(8 + 8 * sin(angle)), i % 3 ? 0 : MM(0.02)};
    }
    record->part.blank = (Blank){{MM(-4), MM(-4)}, MM(78), MM(24), MM(3)};
    change_record(plate, record);
    return part;
}

static void fill_station(Plate *plate, FeatureId part, double x, double y, List fitted[2])
{
    FeatureId station = put_station(plate, part, x, y);
    static const double at[3][3] = {{10, 8, 4.8}, {60, 8, 3.2}, {35, 10, 4}};
    for (int i = 0; i < 3; i++) {
        FeatureId pin = put_pin(plate, station, i + 1, at[i][0], at[i][1],
                                i < 2 ? FITTING_SHOULDER_SCREW : FITTING_HOLD_DOWN, at[i][2]);
        Record *record = record_copy(plate_find(plate, pin), pin);
        record->fitting.length = MM(3);
        record->fitting.head_diameter = MM(7);
        record->fitting.head_height = MM(3);
        change_record(plate, record);
        *list_append(&fitted[1], FeatureId) = pin;
    }
    put_nest(plate, station, 0.5, 1);
    for (int i = 0; i < 2; i++) {
        put_slot(plate, x + 15 + 40 * i, y + 27, 30, 10, 6);
        *list_append(&fitted[0], FeatureId) =
            put_clamp(plate, ID_NONE, x + 15 + 40 * i, y + 26.5, 270, 12, 20);
    }
    for (int i = 0; i < 9; i++)
        put_blind_hole(plate, x - 6 + 11 * (i % 9), y + 35, 3, 6);
}

static void add_pass(Record *record, int where, double cutter)
{
    Pass *pass = list_append(&record->operation.passes, Pass);
    *pass = (Pass){.where = where, .cutter_diameter = MM(cutter), .flute_length = MM(12)};
    pass->holder_diameter = MM(25);
    pass->gauge_length = MM(35);
    pass->force = 200000000;
}

Plate *stations_plate(int stations)
{
    int across = 8, down = (stations + across - 1) / across;
    Plate *plate = plate_new(MM(100 * across + 20), MM(42 * down + 20), MM(20), PLATE_MM);
    FeatureId part = put_blade(plate);
    List fitted[2] = {{0, NULL}, {0, NULL}};
    for (int i = 0; i < stations; i++)
        fill_station(plate, part, 20 + 100 * (i % across), 14 + 42 * (i / across), fitted);
    for (int i = 0; i < 2; i++) {
        Record *record = record_new(plate_new_id(plate), RECORD_OPERATION);
        record->operation.name = g_strdup(i ? "profile" : "holes");
        record->operation.kind = OPERATION_RUNNING;
        record->operation.order = i;
        record->operation.fitted = fitted[i];
        add_pass(record, i ? PASS_OUTLINE_OUTSIDE : PASS_HOLES, i ? 6 : 3.2);
        put_record(plate, record);
    }
    return plate;
}
