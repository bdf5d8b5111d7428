#include "plate/label.h"

#include <stdlib.h>
#include <string.h>

/* S and N are the slots' and nests'. */
static const char letters[] = "ABCDEFGHJKLMPRTUVWXYZ";
#define LETTERS (sizeof letters - 1)

/* The letters for the n-th group: A … Z, then AA, AB … */
static void group_letters(unsigned n, char text[8])
{
    char reversed[8];
    int count = 0;
    for (n++; n > 0 && count < 7; n = (n - 1) / LETTERS)
        reversed[count++] = letters[(n - 1) % LETTERS];
    for (int i = 0; i < count; i++)
        text[i] = reversed[count - 1 - i];
    text[count] = 0;
}

/* Splits "AB12" into letters and number; false when it is not of this form. */
static bool split(const char *label, char group[8], unsigned *number)
{
    size_t count = label ? strspn(label, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") : 0;
    if (!label || count > 6 || !g_ascii_isdigit(label[count]))
        return false;
    char *end;
    memcpy(group, label, count);
    group[count] = 0;
    unsigned long value = strtoul(label + count, &end, 10);
    *number = (unsigned)MIN(value, 1000000);
    return *end == 0;
}

typedef struct Search {
    const Plate *plate;
    const Edit *edit;
    uint32_t next;
} Search;

/* The records as they will be once the edit is done. */
static const Record *next_record(Search *search)
{
    uint32_t plate_part = plate_count(search->plate);
    while (search->next < plate_part + (search->edit ? search->edit->count : 0)) {
        uint32_t i = search->next++;
        if (i >= plate_part) {
            if (search->edit->changes[i - plate_part].after)
                return search->edit->changes[i - plate_part].after;
            continue;
        }
        const Record *record = plate_at(search->plate, i);
        bool changed = false;
        for (uint32_t k = 0; search->edit && k < search->edit->count; k++)
            changed = changed || search->edit->changes[k].id == record->id;
        if (!changed)
            return record;
    }
    return NULL;
}

/* Steps alone say whether two holes are alike. */
static bool same_steps(const Record *a, const Record *b)
{
    const Hole *one = &a->hole;
    Hole as_one = {.steps = b->hole.steps,
                   .face = one->face,
                   .station = one->station,
                   .at = one->at,
                   .label = one->label,
                   .position_tolerance = one->position_tolerance,
                   .operation = one->operation,
                   .made = one->made,
                   .locked = one->locked,
                   .note = one->note,
                   .unknown = one->unknown};
    return schema_equal(&hole_schema, one, &as_one);
}

static bool group_is_used(const Plate *plate, const Edit *edit, const char *wanted)
{
    Search search = {plate, edit, 0};
    char group[8];
    unsigned number;
    for (const Record *record; (record = next_record(&search));)
        if (record->kind == RECORD_HOLE && split(record_label(record), group, &number) &&
            strcmp(group, wanted) == 0)
            return true;
    return false;
}

static void hole_group(const Plate *plate, const Edit *edit, const Record *hole, char group[8])
{
    Search search = {plate, edit, 0};
    unsigned number;
    for (const Record *record; (record = next_record(&search));)
        if (record->kind == RECORD_HOLE && record->id != hole->id &&
            split(record_label(record), group, &number) && *group && same_steps(record, hole))
            return;
    for (unsigned n = 0;; n++) {
        group_letters(n, group);
        if (!group_is_used(plate, edit, group))
            return;
    }
}

static unsigned next_number(const Plate *plate, const Edit *edit, RecordKind kind,
                            const char *wanted)
{
    Search search = {plate, edit, 0};
    char group[8];
    unsigned number, greatest = 0;
    for (const Record *record; (record = next_record(&search));)
        if (record->kind == kind && split(record_label(record), group, &number) &&
            strcmp(group, wanted) == 0)
            greatest = MAX(greatest, number);
    return greatest + 1;
}

void label_next(const Plate *plate, const Edit *edit, const Record *record, char label[LABEL_TEXT])
{
    char group[8] = "";
    *label = 0;
    if (record->kind == RECORD_HOLE)
        hole_group(plate, edit, record, group);
    else if (record->kind == RECORD_RECESS)
        strcpy(group, record->recess.kind >= RECESS_NEST ? "N" : "S");
    else if (record->kind != RECORD_STATION)
        return;
    g_snprintf(label, LABEL_TEXT, "%s%u", group, next_number(plate, edit, record->kind, group));
}

static char **label_of(Record *record)
{
    switch (record->kind) {
    case RECORD_HOLE:
        return &record->hole.label;
    case RECORD_RECESS:
        return &record->recess.label;
    case RECORD_STATION:
        return &record->station.label;
    default:
        return NULL;
    }
}

bool label_all(Plate *plate)
{
    bool any = false;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        char label[LABEL_TEXT];
        Record *record = (Record *)plate_at(plate, i);
        char **own = label_of(record);
        if (own && !*own) {
            label_next(plate, NULL, record, label);
            *own = g_strdup(label);
            any = true;
        }
    }
    return any;
}

int label_compare(const char *a, const char *b)
{
    char group_a[8], group_b[8];
    unsigned number_a, number_b;
    if (!a || !b)
        return (a == NULL) - (b == NULL);
    if (!split(a, group_a, &number_a) || !split(b, group_b, &number_b))
        return strcmp(a, b);
    int order = (int)strlen(group_a) - (int)strlen(group_b);
    if (!order)
        order = strcmp(group_a, group_b);
    return order ? order : (number_a > number_b) - (number_a < number_b);
}
