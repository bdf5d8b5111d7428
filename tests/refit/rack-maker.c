#include "refit/rack-maker.h"

#include "refit/hardware.h"
#include "support/plates.h"

#include <glib/gstdio.h>
#include <math.h>

#define LENGTH 300.0
#define WIDTH 200.0

static const double part_holes[4][3] = {
    {9.4, 11.9, 4.7117}, {66.3, 9.1, 3.1369}, {24.8, 8.1, 5.3}, {44.7, 10.2, 5.3}};

Record *rack_maker_part(void)
{
    Record *record = record_new(ID_NONE, RECORD_PART);
    Part *part = &record->part;
    const double corners[4][2] = {{0, 0}, {78, 0}, {78, 20}, {0, 20}};
    part->name = g_strdup("bar with four holes");
    part->thickness = MM(2.54);
    PartRing *ring = list_append(&part->rings, PartRing);
    for (int i = 0; i < 4; i++) {
        OutlineNode *node = list_append(&ring->nodes, OutlineNode);
        *node = (OutlineNode){MM(corners[i][0]), MM(corners[i][1]), 0};
    }
    for (int i = 0; i < 4; i++) {
        PartHole *hole = list_append(&part->holes, PartHole);
        hole->at = (Place){MM(part_holes[i][0]), MM(part_holes[i][1])};
        hole->diameter = MM(part_holes[i][2]);
    }
    return record;
}

bool rack_maker_is_plant(const RackMaker *maker, uint32_t plate)
{
    uint32_t each = maker->plates / maker->plants;
    return plate % each == 0 && plate / each < maker->plants;
}

static void add_hole(Plate *plate, Edit *edit, Point at, const Hardware *hardware)
{
    Record *record = record_new(plate_new_id(plate), RECORD_HOLE);
    record->hole.face = ID_TOP;
    record->hole.at = (Place){MM(at.x), MM(at.y)};
    record->hole.made = true;
    hardware_make_steps(hardware, &record->hole);
    edit_add(edit, NULL, record);
}

#define KINDS 14

static Hardware choose_hardware(uint32_t kind)
{
    PartHole hole = {.diameter = MM(3 + 0.61 * kind)};
    Hardware hardware;
    if (kind < 2)
        return hardware_for_locating(&(PartHole){.diameter = MM(part_holes[kind][2])});
    if (kind < 3)
        hole.diameter = MM(part_holes[2][2]);
    return hardware_for_holding(&hole, false, &hardware) ? hardware : hardware_for_locating(&hole);
}

/* The part's hardware first, then that of eleven other sizes of hole. */
static Hardware hardware_of(uint32_t kind)
{
    static Hardware kinds[KINDS];
    static bool chosen;
    for (uint32_t i = 0; i < KINDS && !chosen; i++)
        kinds[i] = choose_hardware(i);
    chosen = true;
    return kinds[kind];
}

static void add_plant(Plate *plate, Edit *edit, uint32_t *seed)
{
    double angle = random_between(seed, -M_PI, M_PI);
    Pose pose = {0, 0, cos(angle), sin(angle), random_between(seed, 0, 1) < 0.5};
    Point middle = pose_point(pose, (Point){39, 10});
    pose.x = LENGTH / 2 - middle.x + random_between(seed, -40, 40);
    pose.y = WIDTH / 2 - middle.y + random_between(seed, -30, 30);
    for (uint32_t i = 0; i < 4; i++) {
        Hardware hardware = hardware_of(MIN(i, 2));
        PartHole hole = {.diameter = MM(part_holes[i][2])};
        double play = hardware_clearance_least(&hardware, &hole) / 2;
        double way = random_between(seed, -M_PI, M_PI), off = random_between(seed, 0, play / 2);
        Point at = pose_point(pose, (Point){part_holes[i][0], part_holes[i][1]});
        add_hole(plate, edit, (Point){at.x + off * cos(way), at.y + off * sin(way)}, &hardware);
    }
}

/* The two locating holes, too far apart or too near by more than screws alone would let pass. */
static void add_near_miss(Plate *plate, Edit *edit, uint32_t *seed)
{
    double way = random_between(seed, -M_PI, M_PI);
    double pitch = hypot(part_holes[1][0] - part_holes[0][0], part_holes[1][1] - part_holes[0][1]);
    pitch += random_between(seed, 0.6, 1.2) * (random_between(seed, 0, 1) < 0.5 ? -1 : 1);
    Point at = {LENGTH / 2 + random_between(seed, -40, 40), WIDTH / 2};
    for (uint32_t i = 0; i < 2; i++) {
        Hardware hardware = hardware_of(i);
        add_hole(plate, edit, (Point){at.x + i * pitch * cos(way), at.y + i * pitch * sin(way)},
                 &hardware);
    }
}

static bool is_threaded_as(const Hardware *hardware, uint32_t kind)
{
    return hardware->thread && hardware->thread == hardware_of(kind).thread;
}

/* Never those that the part is located in, and those of its screws now and then. */
static Hardware random_hardware(double screws, uint32_t *seed)
{
    for (;;) {
        Hardware hardware = hardware_of((uint32_t)random_between(seed, 2, KINDS));
        if (is_threaded_as(&hardware, 2) && random_between(seed, 0, 1) >= screws)
            continue;
        if (!is_threaded_as(&hardware, 0) && !is_threaded_as(&hardware, 1))
            return hardware;
    }
}

/* Random holes of a planted plate keep clear of the plant's middle, so that nothing breaks into its
 * holes; the part itself may lie over any. */
static Point random_place(const Edit *edit, uint32_t *seed)
{
    for (;;) {
        Point at = {random_between(seed, 12, LENGTH - 12), random_between(seed, 12, WIDTH - 12)};
        bool clear = true;
        for (uint32_t i = 0; i < edit->count && clear; i++) {
            Place there = edit->changes[i].after->hole.at;
            clear = hypot(length_to_mm(there.x) - at.x, length_to_mm(there.y) - at.y) > 14;
        }
        if (clear)
            return at;
    }
}

static Plate *make_plate(const RackMaker *maker, uint32_t number, uint32_t *seed)
{
    Plate *plate = plate_new(MM(LENGTH), MM(WIDTH), MM(19.05), PLATE_INCH);
    Edit edit = EDIT_EMPTY;
    if (rack_maker_is_plant(maker, number))
        add_plant(plate, &edit, seed);
    else
        add_near_miss(plate, &edit, seed);
    while (edit.count < maker->holes) {
        Hardware hardware = random_hardware(maker->screws, seed);
        add_hole(plate, &edit, random_place(&edit, seed), &hardware);
    }
    plate_apply(plate, &edit, NULL, NULL, NULL);
    edit_clear(&edit);
    return plate;
}

bool rack_maker_write(const char *folder, const RackMaker *maker)
{
    uint32_t seed = maker->seed;
    for (uint32_t i = 0; i < maker->plates; i++) {
        char name[32];
        size_t size;
        g_snprintf(name, sizeof name, "plate-%05u.plate", i);
        char *path = g_build_filename(folder, name, NULL);
        Plate *plate = make_plate(maker, i, &seed);
        char *text = plate_text(plate, &size);
        bool written = g_file_set_contents(path, text, (gssize)size, NULL);
        g_free(text);
        plate_free(plate);
        g_free(path);
        if (!written)
            return false;
    }
    return true;
}

void rack_maker_remove(const char *folder)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    for (const char *name; dir && (name = g_dir_read_name(dir));) {
        char *path = g_build_filename(folder, name, NULL);
        g_remove(path);
        g_free(path);
    }
    if (dir)
        g_dir_close(dir);
    g_rmdir(folder);
}
