#include "drawing/worked-figures.h"

#include "checks/hardware.h"
#include "checks/hole-steps.h"
#include "drawing/error-band.h"
#include "drawing/figure.h"
#include "drawing/labels.h"
#include "drawing/plan.h"
#include "drawing/setting-picture.h"
#include "drawing/sign.h"
#include "shopplan/shopplan.h"
#include "trade/engagement.h"
#include "trade/holding.h"

#include <string.h>

/* Threads longer than this many diameters hold no more: the first turns carry most (common
 * practice, no source). */
#define THREAD_COUNTS 1.5
/* Of the screw, N/mm2: only the screw's own thread goes by it, which the torque does not. */
#define SCREW_STRENGTH 800.0

/* --- how far a profile can be off ----------------------------------------------------------- */

/* The station's row; its band is for the picture. */
static bool add_station(TableText *text, const DrawingSource *source, FeatureId station,
                        ErrorBand *band)
{
    FigureStyle style = figure_style(plate_settings(source->plate));
    char figure[FIGURE_TEXT], name[NAME_TEXT];
    if (!error_band_make(source, station, band))
        return false;
    LocationError error = band->worst;
    table_text_add(text, shopplan_name(placed_record(source->placed, station), name));
    double parts[] = {error.play,   error.plate_position, error.part_position,
                      error.repeat, error.greatest,       error.root_sum_square};
    for (size_t i = 0; i < G_N_ELEMENTS(parts); i++)
        table_text_add(text, figure_length(style, length_from_mm(parts[i]), figure));
    return true;
}

/* --- the bands ------------------------------------------------------------------------------ */

#define PICTURE 105.0
#define BELOW 4.0
#define AROUND 14.0 /* for bands and labels */

typedef struct StationBand {
    FeatureId station;
    ErrorBand band;
} StationBand;

static const char *face_name(const DrawingSource *source, FeatureId face)
{
    const Record *record = placed_record(source->placed, face);
    return record && record->kind == RECORD_FACE && record->face.name ? record->face.name : "top";
}

static bool stands_on(const DrawingSource *source, const StationBand *own, FeatureId face)
{
    const Feature *feature = placed_find(source->placed, own->station);
    return feature && feature->face == face;
}

/* The marks of the stations, where they meet no band. */
static void label_stations(Flow *flow, const DrawingSource *source, ViewMap map,
                           const FaceView *view, const StationBand *bands, size_t count, Box room)
{
    HoleTable *table = hole_table_new(source, view->face);
    HoleTable shown = {.rows = g_new(HoleRow, table->count + 1)}; /* its texts are the table's */
    for (size_t i = 0; i < table->count; i++) {
        bool has_band = false;
        for (size_t b = 0; b < count && !has_band; b++)
            has_band = bands[b].station == table->rows[i].feature;
        if (has_band)
            shown.rows[shown.count++] = table->rows[i];
    }
    LabelTask task = {.table = &shown, .area = room};
    labels_draw(flow->drawing, source, map, view, &task);
    g_free(shown.rows);
    hole_table_free(table);
}

/* The profiles of one face in their bands, all drawn as many times as large. */
static void draw_face_bands(Flow *flow, const DrawingSource *source, const StationBand *bands,
                            size_t count, FeatureId face)
{
    FaceView view = face_view(source, face);
    ErrorBand worst = {.points = NULL};
    Box box = BOX_EMPTY;
    view.front = false; /* the word has no edge to stand at */
    for (size_t i = 0; i < count; i++) {
        if (!stands_on(source, &bands[i], face))
            continue;
        box = box_union(box, placed_find(source->placed, bands[i].station)->box);
        if (bands[i].band.worst.greatest > worst.worst.greatest)
            worst.worst = bands[i].band.worst;
    }
    if (worst.worst.greatest <= 0)
        return;
    Box room = {0, 0, flow->body.x1 - flow->body.x0, PICTURE};
    ViewMap map = setting_picture_map(box, room);
    double factor = error_band_factor(&worst, map.scale);
    char *words = g_strdup_printf("Face %s: the band round each profile is where its outline can "
                                  "lie, the error drawn %g times as large as the profile.",
                                  face_name(source, face), factor);
    flow_lead(flow, words);
    g_free(words);
    room = flow_room(flow, fmin((box.y1 - box.y0) * map.scale + 2 * AROUND, PICTURE));
    map = setting_picture_map(box, room);
    for (size_t i = 0; i < count; i++) {
        if (!stands_on(source, &bands[i], face))
            continue;
        plan_feature(flow->drawing, source, map, placed_find(source->placed, bands[i].station));
        drawing_about(flow->drawing, ROLE_NOTE, ID_NONE);
        error_band_draw(flow->drawing, &bands[i].band, map, factor);
    }
    label_stations(flow, source, map, &view, bands, count, room);
    flow_gap(flow, BELOW);
}

static void draw_bands(Flow *flow, const DrawingSource *source, const StationBand *bands,
                       size_t count)
{
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++)
        draw_face_bands(flow, source, bands, count, placed_frame_at(source->placed, i)->face);
}

static void draw_stations(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {
        {"Station", TEXT_START, 0, 30, false}, {"By play", TEXT_END, 0, 0, false},
        {"By plate", TEXT_END, 0, 0, false},   {"By part", TEXT_END, 0, 0, false},
        {"By base", TEXT_END, 0, 0, false},    {"Greatest", TEXT_END, 0, 0, false},
        {"Likely", TEXT_END, 0, 0, false}};
    TableText text;
    GArray *bands = g_array_new(FALSE, FALSE, sizeof(StationBand));
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        StationBand own = {record->id, {.points = NULL}};
        if (record->kind == RECORD_STATION && add_station(&text, source, record->id, &own.band))
            g_array_append_val(bands, own);
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
    draw_bands(flow, source, (const StationBand *)(const void *)bands->data, bands->len);
    for (guint i = 0; i < bands->len; i++)
        error_band_clear(&g_array_index(bands, StationBand, i).band);
    g_array_unref(bands);
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
