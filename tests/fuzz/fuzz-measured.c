/* Whatever the bytes, a table of measured holes is refused with the line and a reason, or read; a
 * plate made from it is one that its own file reads. */
#include "exchange/measured-csv.h"

#include "fuzz-plate-again.h"

static void make_plate(const MeasuredTable *table)
{
    MeasuredPlate wanted = {.unit = PLATE_MM, .thickness = 12700000, .margin = 10000000};
    Error error = {.kind = ERROR_NONE};
    Plate *plate = measured_plate_new(table, &wanted, &error);
    if (!plate) {
        must(error.kind != ERROR_NONE && *error.message);
        return;
    }
    must_come_back(plate);
    plate_free(plate);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    MeasuredTable table;
    Error error = {.kind = ERROR_NONE};
    if (!measured_csv_read((const char *)data, size, UNIT_INCH, &table, &error)) {
        must(error.kind != ERROR_NONE && *error.message);
        return 0;
    }
    make_plate(&table);
    measured_table_clear(&table);
    return 0;
}
