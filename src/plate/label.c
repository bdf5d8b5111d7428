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

/* Steps alone say whether two holes are alike. */
static bool same_steps(const Record *a, const Record *b)
{
    const Hole *one = &a->hole;
    Hole as_one = *one;
    as_one.steps = b->hole.steps;
    return schema_equal(&hole_schema, one, &as_one);
}

/* What is known of one group of labels. */
typedef struct Group {
    RecordKind kind;
    char letters[8];
    const Record *like; /* a hole with the group's steps; NULL for other kinds */
    unsigned greatest;  /* number used */
} Group;

static Group *group_by_letters(GArray *groups, RecordKind kind, const char *wanted)
{
    for (guint i = 0; i < groups->len; i++) {
        Group *group = &g_array_index(groups, Group, i);
        if (group->kind == kind && strcmp(group->letters, wanted) == 0)
            return group;
    }
    Group group = {.kind = kind};
    g_strlcpy(group.letters, wanted, sizeof group.letters);
    g_array_append_val(groups, group);
    return &g_array_index(groups, Group, groups->len - 1);
}

static void note_label(GArray *groups, const Record *record)
{
    char group_name[8];
    unsigned number;
    bool labelled = record && split(record_label(record), group_name, &number);
    bool hole = record && record->kind == RECORD_HOLE;
    if (!labelled || (hole && !*group_name) ||
        (!hole && record->kind != RECORD_RECESS && record->kind != RECORD_STATION))
        return;
    Group *group = group_by_letters(groups, record->kind, group_name);
    group->greatest = MAX(group->greatest, number);
    if (hole && !group->like)
        group->like = record;
}

/* All groups that labels of the plate, and of what an edit adds to it, belong to. A label that the
 * edit itself gives up counts too: the numbers only get a gap by it. */
static GArray *groups_of(const Plate *plate, const Edit *edit)
{
    GArray *groups = g_array_new(FALSE, FALSE, sizeof(Group));
    for (uint32_t i = 0; i < plate_count(plate); i++)
        note_label(groups, plate_at(plate, i));
    for (uint32_t i = 0; edit && i < edit->count; i++)
        note_label(groups, edit->changes[i].after);
    return groups;
}

static Group *group_for_hole(GArray *groups, const Record *hole)
{
    for (guint i = 0; i < groups->len; i++) {
        Group *group = &g_array_index(groups, Group, i);
        if (group->like && same_steps(group->like, hole))
            return group;
    }
    for (unsigned n = 0;; n++) {
        char unused[8];
        group_letters(n, unused);
        Group *group = group_by_letters(groups, RECORD_HOLE, unused);
        if (!group->like) {
            group->like = hole;
            return group;
        }
    }
}

static void give_label(GArray *groups, const Record *record, char label[LABEL_TEXT])
{
    Group *group;
    *label = 0;
    if (record->kind == RECORD_HOLE)
        group = group_for_hole(groups, record);
    else if (record->kind == RECORD_RECESS)
        group =
            group_by_letters(groups, RECORD_RECESS, record->recess.kind >= RECESS_NEST ? "N" : "S");
    else if (record->kind == RECORD_STATION)
        group = group_by_letters(groups, RECORD_STATION, "");
    else
        return;
    g_snprintf(label, LABEL_TEXT, "%s%u", group->letters, ++group->greatest);
}

void label_next(const Plate *plate, const Edit *edit, const Record *record, char label[LABEL_TEXT])
{
    GArray *groups = groups_of(plate, edit);
    give_label(groups, record, label);
    g_array_unref(groups);
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
    GArray *groups = groups_of(plate, NULL);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        char label[LABEL_TEXT];
        Record *record = (Record *)plate_at(plate, i);
        char **own = label_of(record);
        if (own && !*own) {
            give_label(groups, record, label);
            *own = g_strdup(label);
            any = true;
        }
    }
    g_array_unref(groups);
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
