#include "drawing/build.h"

#include "drawing/face-sheets.h"
#include "drawing/finding-sheets.h"
#include "drawing/note-sheets.h"
#include "drawing/operation-sheets.h"
#include "drawing/plan.h"
#include "drawing/setup-sheets.h"
#include "drawing/template-sheets.h"
#include "drawing/tool-list.h"

#include <glib.h>

static void describe(Drawing *drawing, const DrawingSource *source)
{
    const Settings *settings = plate_settings(source->plate);
    g_strlcpy(drawing->title, settings->name ? settings->name : "Fixture plate",
              sizeof drawing->title);
    g_strlcpy(drawing->author, settings->shop ? settings->shop : "", sizeof drawing->author);
    g_snprintf(drawing->subject, sizeof drawing->subject, "Fixture plate%s%s%s%s",
               settings->number ? " " : "", settings->number ? settings->number : "",
               settings->revision ? ", revision " : "",
               settings->revision ? settings->revision : "");
}

/* The faces that are asked for: one, or the top and then the inclined ones by their numbers. */
static GArray *list_faces(const DrawingSource *source, FeatureId asked)
{
    GArray *faces = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    FeatureId top = ID_TOP;
    if (asked != ID_NONE) {
        g_array_append_val(faces, asked);
        return faces;
    }
    g_array_append_val(faces, top);
    for (uint32_t i = 0; i < plate_count(source->plate); i++) {
        const Record *record = plate_at(source->plate, i);
        if (record->kind == RECORD_FACE && record->id != ID_TOP &&
            placed_frame(source->placed, record->id))
            g_array_append_val(faces, record->id);
    }
    return faces;
}

/* All that a print is made from. */
typedef struct Build {
    Drawing *drawing;
    const DrawingSource *source;
    const ViewSpec *spec;
    Shopplan *plan;
    HoleTable *table;    /* the rows of all faces that are asked for */
    const GArray *asked; /* FeatureId: the faces */
    FaceSheets *faces;   /* the same in views; none where no views are asked for */
    guint face_count;
} Build;

static bool start_faces(Build *build, Error *error)
{
    for (guint i = 0; i < build->face_count; i++) {
        if (!face_sheets_start(&build->faces[i], build->drawing, build->source, build->plan,
                               build->spec, g_array_index(build->asked, FeatureId, i), error))
            return false;
    }
    return true;
}

/* Tables and texts are put on the sheets that small printers have. */
static SheetSize text_sheet(const Build *build)
{
    if (build->spec->choose_sheet)
        return build->spec->sheet;
    bool asme = plate_settings(build->source->plate)->standard == SHEET_STANDARD_ASME;
    return asme ? SHEET_LETTER : SHEET_A4;
}

static Flow start_flow(const Build *build, const char *name, int total)
{
    Flow flow;
    flow_start(&flow, build->drawing, build->source, text_sheet(build), name, name, total);
    if (build->spec->both_units)
        flow_set_both_units(&flow);
    return flow;
}

static void draw_notes(const Build *build, int total)
{
    Flow flow = start_flow(build, "Notes", total);
    note_sheets_draw(&flow, build->source, build->table);
}

static void draw_tools(const Build *build, int total)
{
    Flow flow = start_flow(build, "Tool list", total);
    tool_list_draw(&flow, build->source, build->plan, NULL);
}

/* Those that make the plate, on the face that is asked for or on all, and those that run it. */
static void draw_operations(const Build *build, int total)
{
    Flow flow = start_flow(build, "Operation sheet", total);
    for (uint32_t i = 0; i < build->plan->setting_count; i++) {
        const Setting *setting = &build->plan->settings[i];
        if (build->spec->face == ID_NONE || build->spec->face == setting->face)
            operation_sheets_draw(&flow, build->source, build->plan, setting, build->table);
    }
    flow = start_flow(build, "Set-up sheet", total);
    setup_sheets_draw(&flow, build->source);
}

static void draw_faces(const Build *build, int total)
{
    size_t unplaced = 0;
    for (guint i = 0; i < build->face_count; i++) {
        int first = (int)build->drawing->sheet_count + 1;
        face_sheets_draw(&build->faces[i], build->drawing, first, total);
        unplaced += build->faces[i].unplaced;
    }
    build->drawing->unplaced_count = unplaced;
}

static void draw_findings(const Build *build, int total)
{
    Flow flow = start_flow(build, "Findings", total);
    finding_sheets_draw(&flow, build->source);
}

static bool check_template(const Build *build, Error *error)
{
    int count = 0;
    for (guint i = 0; i < build->asked->len; i++)
        count += template_sheets_count(build->source, g_array_index(build->asked, FeatureId, i));
    return count <= TEMPLATE_SHEETS_MOST ||
           error_set(error, ERROR_LIMIT, NULL,
                     "a full-size template would take %d sheets; print it for one face, or have "
                     "the drawing printed 1:1 on a large sheet",
                     count);
}

static void draw_templates(const Build *build, int total)
{
    for (guint i = 0; i < build->asked->len; i++) {
        FeatureId face = g_array_index(build->asked, FeatureId, i);
        HoleTable *table = hole_table_new(build->source, face);
        template_sheets_draw(build->drawing, build->source, table, face, total);
        hole_table_free(table);
    }
}

/* All sheets behind those of the faces. */
static void draw_others(const Build *build, int total)
{
    if (view_spec_has(build->spec, PRINT_DRAWING))
        draw_notes(build, total);
    if (view_spec_has(build->spec, PRINT_OPERATIONS))
        draw_operations(build, total);
    if (view_spec_has(build->spec, PRINT_TOOLS))
        draw_tools(build, total);
    if (view_spec_has(build->spec, PRINT_TEMPLATE))
        draw_templates(build, total);
    if (view_spec_has(build->spec, PRINT_FINDINGS))
        draw_findings(build, total);
}

static void draw_all(const Build *build)
{
    Drawing *drawing = build->drawing;
    drawing_clear(drawing);
    draw_others(build, 0); /* only to count the sheets */
    int total = (int)drawing->sheet_count;
    for (guint i = 0; i < build->face_count; i++)
        total += build->faces[i].count;
    drawing_clear(drawing);
    describe(drawing, build->source);
    draw_faces(build, total);
    draw_others(build, total);
}

bool drawing_build(Drawing *drawing, const DrawingSource *source, const ViewSpec *spec,
                   Error *error)
{
    if (spec->face != ID_NONE && !placed_frame(source->placed, spec->face))
        return error_set(error, ERROR_MISSING, NULL, "the plate has no face with that number");
    GArray *faces = list_faces(source, spec->face);
    bool views = view_spec_has(spec, PRINT_DRAWING) || view_spec_has(spec, PRINT_HOLES);
    Build build = {.drawing = drawing,
                   .source = source,
                   .spec = spec,
                   .plan = shopplan_new(source->plate, source->placed),
                   .table = hole_table_new_in(source, spec->face, view_style(source, spec)),
                   .asked = faces,
                   .faces = g_new0(FaceSheets, faces->len),
                   .face_count = views ? faces->len : 0};
    hole_table_add_tools(build.table, build.plan);
    bool started = start_faces(&build, error) &&
                   (!view_spec_has(spec, PRINT_TEMPLATE) || check_template(&build, error));
    if (started)
        draw_all(&build);
    if (started && drawing->sheet_count == 0)
        started = error_set(error, ERROR_MISSING, NULL,
                            "there is nothing to print: the plate has nothing to be made or run");
    for (guint i = 0; i < build.face_count; i++)
        face_sheets_end(&build.faces[i]);
    hole_table_free(build.table);
    shopplan_free(build.plan);
    g_free(build.faces);
    g_array_unref(faces);
    return started;
}

void drawing_build_layout(Drawing *drawing, const DrawingSource *source, double scale,
                          double margin)
{
    const Stock *stock = &plate_settings(source->plate)->stock;
    drawing_clear(drawing);
    describe(drawing, source);
    drawing_begin_sheet(drawing, length_to_mm(stock->length) * scale + 2 * margin,
                        length_to_mm(stock->width) * scale + 2 * margin, "Layout");
    ViewMap map = {{margin, margin}, scale};
    plan_ground(drawing, source, map, ID_TOP);
    plan_stock(drawing, source, map);
    plan_features(drawing, source, map, ID_TOP, ~0U);
    plan_datum(drawing, source, map);
}
