#include "operation-bench.h"

Bench bench(int hole_count, const double *holes)
{
    Bench made = {.plate = plate_new(MM(200), MM(150), MM(20), PLATE_MM)};
    made.part = put_part(made.plate, 60, 20, 3, hole_count, holes);
    made.station = put_station(made.plate, made.part, 50, 50);
    return made;
}

void run(Bench *made, int where, double cutter, void (*fill)(Pass *pass, double figure),
         double figure)
{
    Record *record = record_new(plate_new_id(made->plate), RECORD_OPERATION);
    record->operation.name = g_strdup("cut");
    record->operation.kind = OPERATION_RUNNING;
    Pass *pass = list_append(&record->operation.passes, Pass);
    pass->where = where;
    pass->cutter_diameter = MM(cutter);
    if (fill)
        fill(pass, figure);
    made->operation = put_record(made->plate, record);
}

void fit(Bench *made, FeatureId fitting)
{
    Record *record = record_copy(plate_find(made->plate, made->operation), made->operation);
    *list_append(&record->operation.fitted, FeatureId) = fitting;
    change_record(made->plate, record);
}

FeatureId clamp(Bench *made, double apart, double height)
{
    FeatureId id = put_clamp(made->plate, ID_NONE, 80, 70 + apart + 6, 270, 12, 10);
    Record *record = record_copy(plate_find(made->plate, id), id);
    record->fitting.head_height = MM(height);
    change_record(made->plate, record);
    return id;
}

void set_head(Bench *made, FeatureId fitting, double diameter)
{
    Record *record = record_copy(plate_find(made->plate, fitting), fitting);
    record->fitting.length = MM(3);
    record->fitting.head_diameter = MM(diameter);
    record->fitting.head_height = MM(3);
    change_record(made->plate, record);
}

Bench on_slope(double down)
{
    Bench made = bench(0, NULL);
    FeatureId face = put_front_face(made.plate, 50, 10, 50);
    Record *record = record_copy(plate_find(made.plate, made.part), made.part);
    record->part.bevel = (Bevel){.angle = 10 * ANGLE_DEGREE,
                                 .edge_thickness = MM(1),
                                 .from = {0, MM(20)},
                                 .to = {MM(60), MM(20)}};
    change_record(made.plate, record);
    record = record_copy(plate_find(made.plate, made.station), made.station);
    record->station.face = face;
    record->station.at = (Place){MM(-130), MM(-20 - down)};
    change_record(made.plate, record);
    return made;
}
