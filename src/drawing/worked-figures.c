#include "drawing/worked-figures.h"

#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "checks/locators.h"
#include "drawing/figure.h"
#include "drawing/plan.h"
#include "drawing/sign.h"
#include "drawing/tolerance.h"
#include "shopplan/shopplan.h"
#include "trade/engagement.h"
#include "trade/holding.h"
#include "trade/location-error.h"

#include <string.h>

/* Threads longer than this many diameters hold no more: the first turns carry most (common
 * practice, no source). */
#define THREAD_COUNTS 1.5
/* Of the screw, N/mm2: only the screw's own thread goes by it, which the torque does not. */
#define SCREW_STRENGTH 800.0

/* --- how far a profile can be off ----------------------------------------------------------- */

static double zone_of(const DrawingSource *source, const Locator *locator)
{
    const Record *hole = placed_record(source->placed, locator->fitting->hole);
    if (!hole || hole->kind != RECORD_HOLE)
        return 0;
    return length_to_mm(
        hole_zone(&hole->hole, figure_style(plate_settings(source->plate)).unit));
}

static bool is_relieved(const Locator *locator)
{
    return locator->fitting->kind == FITTING_RELIEVED_PIN;
}

/* The two locators through the part's holes that stand furthest apart, a relieved one last. */
static bool find_pair(const Locator *locators, int count, const Locator *pair[2])
{
    double furthest = 0;
    for (int i = 0; i < count; i++) {
        for (int j = i + 1; j < count; j++) {
            double apart = point_distance(locators[i].at, locators[j].at);
            if (!locators[i].part_hole || !locators[j].part_hole || apart <= furthest)
                continue;
            furthest = apart;
            bool swap = is_relieved(&locators[i]);
            pair[0] = swap ? &locators[j] : &locators[i];
            pair[1] = swap ? &locators[i] : &locators[j];
        }
    }
    return furthest > 0;
}

static Location locate(const DrawingSource *source, const Locator *pair[2])
{
    Location location = {.relieved = is_relieved(pair[1])};
    for (int i = 0; i < 2; i++) {
        location.locators[i] = pair[i]->at;
        location.clearance[i] = fmax(pair[i]->clearance_greatest, 0);
        location.plate_position[i] = zone_of(source, pair[i]);
        location.part_position[i] = length_to_mm(pair[i]->part_hole->position_tolerance);
    }
    const Record *base = plate_find(source->plate, placed_base(source->placed));
    if (base && base->kind == RECORD_BASE)
        location.repeat_shift = length_to_mm(base->base.repeatability);
    return location;
}

/* The greatest error along the part's border, at its corners. */
static bool worst_error(const DrawingSource *source, const Feature *station,
                        const Location *location, LocationError *worst)
{
    const Record *record = placed_record(source->placed, station->id);
    const Outline *outline = placed_outline(source->placed, record->station.part);
    size_t count = 0;
    const Vertex *ring = outline ? outline_ring(outline, 0, &count) : NULL;
    *worst = (LocationError){.greatest = -1};
    for (size_t i = 0; i < count; i++) {
        Point at = pose_point(station->shape.pose, (Point){ring[i].x, ring[i].y});
        LocationError error;
        if (location_error_at(location, at, &error, NULL) && error.greatest > worst->greatest)
            *worst = error;
    }
    return worst->greatest >= 0;
}

static void add_station(TableText *text, const DrawingSource *source, const Feature *station)
{
    Locator locators[LOCATORS_MOST];
    const Locator *pair[2];
    int count = station_locators(source->placed, station, locators);
    if (!station_part(source->placed, station) ||
        !find_pair(locators, MIN(count, LOCATORS_MOST), pair))
        return;
    Location location = locate(source, pair);
    LocationError error;
    if (!worst_error(source, station, &location, &error))
        return;
    char figure[FIGURE_TEXT], name[NAME_TEXT];
    table_text_add(text, shopplan_name(placed_record(source->placed, station->id), name));
    double parts[] = {error.play,   error.plate_position, error.part_position,
                      error.repeat, error.greatest,       error.root_sum_square};
    for (size_t i = 0; i < G_N_ELEMENTS(parts); i++)
        table_text_add(text, figure_length(figure_style(plate_settings(source->plate)),
                                           length_from_mm(parts[i]), figure));
}

static void draw_stations(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {
        {"Station", TEXT_START, 0, 30, false}, {"By play", TEXT_END, 0, 0, false},
        {"By plate", TEXT_END, 0, 0, false},   {"By part", TEXT_END, 0, 0, false},
        {"By base", TEXT_END, 0, 0, false},    {"Greatest", TEXT_END, 0, 0, false},
        {"Likely", TEXT_END, 0, 0, false}};
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        const Feature *station = placed_find(source->placed, record->id);
        if (record->kind == RECORD_STATION && station)
            add_station(&text, source, station);
    }
    if (table_text_rows(&text) > 0) {
        flow_heading(flow, "How far a profile can be off from the part's holes");
        flow_lead(flow, "Greatest: all at their worst at once, at the worst place of the "
                        "outline. Likely: root of the sum of squares. From the limits of "
                        "size, the position tolerances, and how well the plate repeats on "
                        "its base; temperature and leaning pins left out.");
    }
    flow_table(flow, &text, 0, false);
    table_text_end(&text);
}

/* --- threads -------------------------------------------------------------------------------- */

/* Where the hole is on its face. */
static Point place_of(const DrawingSource *source, const Hole *hole)
{
    const Feature *station = hole->station ? placed_find(source->placed, hole->station) : NULL;
    Point at = {length_to_mm(hole->at.x), length_to_mm(hole->at.y)};
    return station ? pose_point(station->shape.pose, at) : at;
}

double worked_torque(const DrawingSource *source, const Hole *hole, const char **why)
{
    const Step *tap = hole_tap(hole);
    const Frame *frame = placed_frame(source->placed, hole->face);
    const Thread *screw = tap ? hardware_thread(tap) : NULL;
    const Material *metal = hardware_plate_material(plate_settings(source->plate));
    Thread tapped;
    Engagement engagement;
    if (!screw || !frame || !hardware_tapped_thread(tap, &tapped) ||
        !engagement_needed(&tapped, metal, SCREW_STRENGTH, &engagement, NULL))
        return 0;
    double diameter = length_to_mm(screw->major);
    double length = fmin(step_depth(tap, frame, place_of(source, hole)), THREAD_COUNTS * diameter);
    double by_screw = SCREW_STRESS * thread_tensile_area(screw);
    double by_plate = engagement.internal_area * length * metal->shear_strength / 2;
    if (why)
        *why = by_screw <= by_plate ? "the screw" : "the plate's thread";
    return fmin(by_screw, by_plate) / screw_preload(1, diameter);
}

/* The step that a tap's hole is drilled with, or NULL. */
static const Step *drill_before(const Hole *hole, const Step *tap)
{
    const Step *drill = step_before(hole, tap);
    return drill && drill->kind == STEP_DRILL ? drill : NULL;
}

static char *thread_words(const DrawingSource *source, const Record *record)
{
    const Step *tap = hole_tap(&record->hole);
    const Step *drill = tap ? drill_before(&record->hole, tap) : NULL;
    Thread tapped;
    if (!tap || !hardware_tapped_thread(tap, &tapped))
        return NULL;
    char figure[FIGURE_TEXT], number[G_ASCII_DTOSTR_BUF_SIZE];
    GString *text = g_string_new(tap->thread ? tap->thread : tapped.name);
    if (drill) {
        figure_length(figure_style(plate_settings(source->plate)), drill->diameter, figure);
        double share = thread_per_cent(&tapped, length_to_mm(drill->diameter));
        g_ascii_formatd(number, sizeof number, "%.0f", share);
        g_string_append_printf(text, "|" SIGN_DIAMETER "%s|%s %%", figure, number);
    } else {
        g_string_append(text, "||");
    }
    const char *why = "";
    double torque = worked_torque(source, &record->hole, &why);
    figure_torque(figure_style(plate_settings(source->plate)), torque, figure);
    g_string_append_printf(text, torque > 0 ? "|%s, by %s" : "|", figure, why);
    return g_string_free(text, FALSE);
}

static void draw_threads(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {{"Thread", TEXT_START, 0, 40, false},
                                          {"Tap drill", TEXT_START, 0, 0, false},
                                          {"Of full thread", TEXT_END, 0, 0, false},
                                          {"Torque", TEXT_START, 0, 0, false}};
    GHashTable *seen = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        char *words = record->kind == RECORD_HOLE ? thread_words(source, record) : NULL;
        if (!words || !g_hash_table_add(seen, words))
            continue;
        char **cells = g_strsplit(words, "|", 4);
        for (int c = 0; c < 4; c++)
            table_text_add(&text, cells[c]);
        g_strfreev(cells);
    }
    if (table_text_rows(&text) > 0) {
        flow_heading(flow, "Threads");
        flow_lead(flow, "Torque: the lesser of what stresses the screw to 200 N/mm2 (29 000 psi) "
                        "and of "
                        "half of what strips the plate's thread, dry, nut factor 0.2: common "
                        "practice, an estimate.");
    }
    flow_table(flow, &text, 3, false);
    table_text_end(&text);
    g_hash_table_unref(seen);
}

void worked_figures_draw(Flow *flow, const DrawingSource *source)
{
    draw_stations(flow, source);
    draw_threads(flow, source);
}
