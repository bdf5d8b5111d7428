#include "drawing/note-sheets.h"

#include "drawing/datum-letter.h"
#include "drawing/end-view.h"
#include "drawing/hole-kinds.h"
#include "drawing/item-list.h"
#include "drawing/limit-list.h"
#include "drawing/sign.h"
#include "drawing/tilt-table.h"
#include "drawing/tolerance.h"

static void add_note(Flow *flow, int *number, const char *words)
{
    char *text = g_strdup_printf("%d. %s", ++*number, words);
    flow_paragraph(flow, text);
    g_free(text);
}

static void take_note(Flow *flow, int *number, char *words)
{
    add_note(flow, number, words);
    g_free(words);
}

static bool has_inclined_face(const DrawingSource *source)
{
    return placed_frame_count(source->placed) > 1;
}

static void add_tolerances(Flow *flow, const DrawingSource *source, int *number)
{
    const Settings *settings = plate_settings(source->plate);
    bool asme = settings->standard == SHEET_STANDARD_ASME;
    take_note(flow, number,
              g_strdup_printf(
                  "Tolerances not stated: %s. Dimensions and geometrical tolerances are "
                  "read by %s.",
                  tolerance_general(settings), asme ? "ASME Y14.5" : "ISO 129-1 and ISO 1101"));
    char *letters = datum_words(source);
    take_note(flow, number, g_strdup_printf("Datums. %s", letters));
    g_free(letters);
    take_note(flow, number,
              g_strdup_printf("X and Y of holes with a position (" SIGN_POSITION
                              ") are %s dimensions, in tables and along edges. Make these holes in "
                              "one setting.",
                              asme ? "basic" : "theoretically exact"));
    take_note(flow, number,
              g_strdup_printf("Roughness %s where not stated, by ISO 21920-1.",
                              tolerance_roughness(settings)));
    take_note(flow, number,
              g_strdup_printf("Edges by ISO 13715: %s.%s", tolerance_edges(settings),
                              has_inclined_face(source)
                                  ? " Do not break the edges where inclined faces leave the top."
                                  : ""));
}

static void draw_notes(Flow *flow, const DrawingSource *source)
{
    const Settings *settings = plate_settings(source->plate);
    int number = 0;
    flow_heading(flow, "Notes");
    add_note(flow, &number,
             "Depth (" SIGN_DEPTH ") means the depth of the full diameter, without the drill's "
             "point; in threads it means full thread.");
    if (flow->style.both)
        take_note(flow, &number,
                  g_strdup_printf("Figures in square brackets are %s, rounded, for reading only; "
                                  "those in %s hold.",
                                  figure_unit(figure_other(flow->style)),
                                  figure_unit(flow->style)));
    add_tolerances(flow, source, &number);
    take_note(flow, &number,
              g_strdup_printf(
                  "Stamp on the front edge: FRONT%s%s%s%s.", settings->number ? ", " : "",
                  settings->number ? settings->number : "", settings->revision ? ", revision " : "",
                  settings->revision ? settings->revision : ""));
    if (settings->limits.count > 0)
        add_note(flow, &number, "Limits of the checks are changed for this plate: see below.");
    if (settings->note && *settings->note)
        add_note(flow, &number, settings->note);
}

/* Each with its angle, which the frame holds. */
static void add_inclined_faces(TableText *text, const DrawingSource *source)
{
    char frame[FIGURE_FRAME], angle[FIGURE_TEXT];
    tolerance_angularity(plate_settings(source->plate), frame);
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        if (record->kind != RECORD_FACE || record->face.kind != FACE_INCLINED)
            continue;
        table_text_take(text, g_strdup_printf("Face %s, %c, at %s",
                                              record->face.name ? record->face.name : "",
                                              datum_letter(source, record->id),
                                              figure_angle(record->face.angle, angle)));
        table_text_add(text, frame);
    }
}

static void draw_faces(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {{"Face", TEXT_START, 0, 0, false},
                                          {"Tolerance", TEXT_START, 0, 0, true}};
    const Settings *settings = plate_settings(source->plate);
    char frame[FIGURE_FRAME];
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    table_text_add(&text, "Top, A");
    tolerance_flatness(settings, frame);
    table_text_add(&text, frame);
    table_text_add(&text, "Underside");
    tolerance_parallelism(settings, frame);
    table_text_add(&text, frame);
    table_text_add(&text, "Edges that are datums");
    tolerance_squareness(settings, frame);
    table_text_add(&text, frame);
    add_inclined_faces(&text, source);
    flow_heading(flow, "Faces");
    flow_table(flow, &text, 0, false);
    table_text_end(&text);
}

static void draw_revisions(Flow *flow, const DrawingSource *source)
{
    static const TableColumn columns[] = {{"Revision", TEXT_START, 0, 0, false},
                                          {"What was changed", TEXT_START, 0, 0, false},
                                          {"Date", TEXT_START, 0, 40, false},
                                          {"By", TEXT_START, 0, 40, false}};
    const Settings *settings = plate_settings(source->plate);
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < settings->revisions.count; i++) {
        const Revision *revision = LIST_AT(&settings->revisions, Revision, i);
        table_text_add(&text, revision->letter);
        table_text_add(&text, revision->what);
        table_text_add(&text, revision->date);
        table_text_add(&text, revision->who);
    }
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Revisions");
    flow_table(flow, &text, 1, true);
    table_text_end(&text);
}

void note_sheets_draw(Flow *flow, const DrawingSource *source, const HoleTable *table)
{
    draw_notes(flow, source);
    draw_faces(flow, source);
    end_views_draw(flow, source);
    hole_kinds_draw(flow, table);
    for (uint32_t i = 0; i < placed_frame_count(source->placed); i++)
        tilt_table_draw(flow, source, table, placed_frame_at(source->placed, i)->face);
    item_list_draw(flow, source);
    limit_list_draw_changed(flow, source);
    draw_revisions(flow, source);
}
