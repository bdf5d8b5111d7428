#include "drawing/hole-table.h"

#include "drawing/hole-label.h"
#include "drawing/plan.h"
#include "drawing/sign.h"
#include "drawing/tolerance.h"

#include <glib.h>
#include <string.h>

static void add_limits(GString *text, const Step *step, FigureStyle style)
{
    char limits[FIGURE_LIMITS];
    if (step->upper != 0 || step->lower != 0)
        g_string_append_printf(text, " %s", figure_limits(style, step->upper, step->lower, limits));
}

static void add_depth(GString *text, const Step *step, FigureStyle style)
{
    char depth[FIGURE_TEXT];
    if (step->through)
        g_string_append(text, " THRU");
    else if (step->depth > 0)
        g_string_append_printf(text, " " SIGN_DEPTH "%s", figure_length(style, step->depth, depth));
}

static void add_step(GString *text, const Step *step, FigureStyle style, bool limits)
{
    char diameter[FIGURE_TEXT], angle[FIGURE_TEXT];
    figure_length(style, step->diameter, diameter);
    if (text->len > 0)
        g_string_append(text, ", ");
    if (step->kind == STEP_TAP && step->thread) {
        g_string_append(text, step->thread);
    } else if (step->kind == STEP_TAP) {
        g_string_append_printf(text, "TAP " SIGN_DIAMETER "%s", diameter);
    } else {
        const char *before = step->kind == STEP_COUNTERBORE   ? SIGN_COUNTERBORE " "
                             : step->kind == STEP_COUNTERSINK ? SIGN_COUNTERSINK " "
                             : step->kind == STEP_SPOT        ? "SPOT "
                                                              : "";
        g_string_append_printf(text, "%s" SIGN_DIAMETER "%s", before, diameter);
        if (limits)
            add_limits(text, step, style);
    }
    if (step->kind == STEP_COUNTERSINK) {
        g_string_append_printf(text, " \u00D7 %s", figure_angle(step->point, angle));
        return;
    }
    add_depth(text, step, style);
    if (step->kind == STEP_REAM)
        g_string_append(text, " REAM");
    else if (step->kind == STEP_BORE)
        g_string_append(text, " BORE");
}

/* Threads and reamed bores say what the hole is; the drill for them follows, then what is cut round
 * the hole's mouth. A spot is said only where there is nothing else. */
static int rank(int kind)
{
    switch (kind) {
    case STEP_TAP:
        return 0;
    case STEP_REAM:
    case STEP_BORE:
        return 1;
    case STEP_DRILL:
        return 2;
    case STEP_COUNTERBORE:
        return 3;
    case STEP_COUNTERSINK:
        return 4;
    default:
        return 5;
    }
}

static char *describe_hole(const Hole *hole, FigureStyle style, bool tolerances)
{
    GString *text = g_string_new(NULL);
    for (int wanted = 0; wanted <= 5; wanted++) {
        if (wanted == 5 && text->len > 0)
            break;
        for (uint32_t i = 0; i < hole->steps.count; i++) {
            const Step *step = LIST_AT(&hole->steps, Step, i);
            if (rank(step->kind) == wanted)
                add_step(text, step, style, tolerances);
        }
    }
    if (tolerances && hole->position_tolerance > 0) {
        char zone[FIGURE_TEXT];
        figure_length(style, hole->position_tolerance, zone);
        g_string_append_printf(text, ", " SIGN_POSITION SIGN_DIAMETER "%s", zone);
    }
    if (hole->note)
        g_string_append_printf(text, ", %s", hole->note);
    return g_string_free(text, FALSE);
}

char *hole_description(const Hole *hole, FigureStyle style)
{
    return describe_hole(hole, style, true);
}

char *recess_description(const Recess *recess, FigureStyle style)
{
    char length[FIGURE_TEXT], width[FIGURE_TEXT], radius[FIGURE_TEXT], turn[FIGURE_TEXT];
    GString *text = g_string_new(NULL);
    switch (recess->kind) {
    case RECESS_OBROUND:
        g_string_append_printf(text, "Slot %s \u00D7 %s, round ends",
                               figure_length(style, recess->length, length),
                               figure_length(style, recess->width, width));
        break;
    case RECESS_RECTANGLE:
        g_string_append_printf(text, "Slot %s \u00D7 %s",
                               figure_length(style, recess->length, length),
                               figure_length(style, recess->width, width));
        if (recess->corner_radius > 0)
            g_string_append_printf(text, " R%s",
                                   figure_length(style, recess->corner_radius, radius));
        break;
    default:
        g_string_append_printf(text, "Nest: %s +%s",
                               recess->kind == RECESS_NEST ? "part's outline" : "blank",
                               figure_length(style, recess->clearance, length));
        break;
    }
    if (recess->through)
        g_string_append(text, " THRU");
    else
        g_string_append_printf(text, " " SIGN_DEPTH "%s",
                               figure_length(style, recess->depth, length));
    if (recess->kind == RECESS_NEST)
        g_string_append(text, ", from the part's origin");
    if (recess->rotation != 0 && recess->kind <= RECESS_RECTANGLE)
        g_string_append_printf(text, " at %s", figure_angle(recess->rotation, turn));
    return g_string_free(text, FALSE);
}

static char *station_description(const DrawingSource *source, const Station *station)
{
    char turn[FIGURE_TEXT];
    const Record *part = placed_record(source->placed, station->part);
    GString *text = g_string_new("Part");
    if (part && part->kind == RECORD_PART && part->part.name)
        g_string_append_printf(text, " %s", part->part.name);
    g_string_append(text, ", its origin");
    if (station->rotation != 0)
        g_string_append_printf(text, ", at %s", figure_angle(station->rotation, turn));
    if (station->turned_over)
        g_string_append(text, ", turned over");
    return g_string_free(text, FALSE);
}

static char *keep_clear_description(const KeepClear *area, FigureStyle style)
{
    char length[FIGURE_TEXT], width[FIGURE_TEXT], turn[FIGURE_TEXT];
    GString *text = g_string_new(NULL);
    g_string_append_printf(text, "Keep clear %s \u00D7 %s",
                           figure_length(style, area->length, length),
                           figure_length(style, area->width, width));
    if (area->rotation != 0)
        g_string_append_printf(text, " at %s", figure_angle(area->rotation, turn));
    if (area->name)
        g_string_append_printf(text, ": %s", area->name);
    return g_string_free(text, FALSE);
}

static char *describe(const DrawingSource *source, const Record *record, FigureStyle style)
{
    switch (record->kind) {
    case RECORD_HOLE:
        return hole_description(&record->hole, style);
    case RECORD_RECESS:
        return recess_description(&record->recess, style);
    case RECORD_KEEP_CLEAR:
        return keep_clear_description(&record->keep_clear, style);
    default:
        return station_description(source, &record->station);
    }
}

/* Limits of size, and below them the zone of position where the hole has one. */
static char *describe_tolerance(const HoleRow *row, const Record *record, FigureStyle style)
{
    if (!row->locates)
        return g_strdup(row->limits);
    char zone[FIGURE_TEXT];
    figure_length(style, hole_zone(&record->hole, style.unit), zone);
    bool datum = g_str_has_prefix(row->frame, SIGN_SQUARENESS);
    return g_strdup_printf("%s%s%s" SIGN_DIAMETER "%s", row->limits, *row->limits ? "\n" : "",
                           datum ? SIGN_SQUARENESS : SIGN_POSITION, zone);
}

static char *figure_from(double mm, Length datum, FigureStyle style)
{
    char text[FIGURE_TEXT];
    return g_strdup(figure_length(style, length_from_mm(mm) - datum, text));
}

static void fill_row(HoleRow *row, const DrawingSource *source, const Feature *feature,
                     const Record *record, FigureStyle style)
{
    Place datum = face_view(source, feature->face).datum;
    const char *label = record_label(record);
    *row =
        (HoleRow){.feature = feature->id,
                  .face = feature->face,
                  .kind = feature->kind,
                  .label = label && *label ? g_strdup(label) : NULL,
                  .description = describe(source, record, style),
                  .frame = tolerance_frame_text(source, record),
                  .at = feature_at(feature),
                  .locates = record->kind == RECORD_HOLE && hole_is_close(source->placed, record)};
    bool hole = record->kind == RECORD_HOLE;
    row->plain = hole ? describe_hole(&record->hole, style, false) : g_strdup(row->description);
    row->limits = hole ? tolerance_limits(&record->hole, style) : g_strdup("");
    row->tolerance = describe_tolerance(row, record, style);
    row->x = figure_from(row->at.x, datum.x, style);
    row->y = figure_from(row->at.y, datum.y, style);
}

static void clear_row(HoleRow *row)
{
    g_free(row->label);
    g_free(row->x);
    g_free(row->y);
    g_free(row->description);
    g_free(row->plain);
    g_free(row->limits);
    g_free(row->tolerance);
    g_free(row->frame);
    g_free(row->tools);
}

/* Rows for all that stands on a face, behind those that are there. */
static void add_face(GArray *rows, const DrawingSource *source, FeatureId face, FigureStyle style)
{
    static const unsigned kinds = FEATURE_HOLE | FEATURE_RECESS | FEATURE_PART | FEATURE_KEEP_CLEAR;
    size_t count;
    const Feature **features = plan_list(source, face, kinds, &count);
    for (size_t i = 0; i < count; i++) {
        const Record *record = placed_record(source->placed, features[i]->id);
        HoleRow row;
        if (!record)
            continue;
        fill_row(&row, source, features[i], record, style);
        g_array_append_val(rows, row);
    }
    g_free(features);
}

HoleTable *hole_table_new(const DrawingSource *source, FeatureId face)
{
    return hole_table_new_in(source, face, figure_style(plate_settings(source->plate)));
}

HoleTable *hole_table_new_in(const DrawingSource *source, FeatureId face, FigureStyle style)
{
    GArray *rows = g_array_new(FALSE, TRUE, sizeof(HoleRow));
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++)
        add_face(rows, source, placed_frame_at(source->placed, i)->face, style);
    HoleTable *table = g_new0(HoleTable, 1);
    table->style = style;
    table->count = rows->len;
    table->rows = (HoleRow *)(void *)g_array_free(rows, FALSE);
    /* No label may stand on two faces, so all are given before one face's rows are taken. */
    hole_labels_give(table);
    size_t kept = 0;
    for (size_t i = 0; i < table->count; i++) {
        if (face == ID_NONE || table->rows[i].face == face)
            table->rows[kept++] = table->rows[i];
        else
            clear_row(&table->rows[i]);
    }
    table->count = kept;
    return table;
}

static void add_tool(HoleRow *row, uint32_t number)
{
    char *before = row->tools;
    row->tools = before ? g_strdup_printf("%s, %u", before, number) : g_strdup_printf("%u", number);
    g_free(before);
}

void hole_table_add_tools(HoleTable *table, const Shopplan *plan)
{
    GHashTable *rows = g_hash_table_new(g_direct_hash, g_direct_equal);
    for (size_t i = 0; i < table->count; i++)
        g_hash_table_insert(rows, GUINT_TO_POINTER(table->rows[i].feature), &table->rows[i]);
    for (uint32_t s = 0; s < plan->setting_count; s++) {
        for (uint32_t i = 0; i < plan->settings[s].step_count; i++) {
            const PlanStep *step = &plan->settings[s].steps[i];
            HoleRow *row = g_hash_table_lookup(rows, GUINT_TO_POINTER(step->feature));
            if (row)
                add_tool(row, plan->tools[step->tool].number);
        }
    }
    g_hash_table_unref(rows);
}

void hole_table_free(HoleTable *table)
{
    if (!table)
        return;
    for (size_t i = 0; i < table->count; i++)
        clear_row(&table->rows[i]);
    g_free(table->rows);
    g_free(table);
}
