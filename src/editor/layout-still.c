/* What does not move: the drawing's own plan in tiles, each a node that is kept, so that a frame of
 * a drag draws only those anew that something moved over. */
#include "editor/layout-private.h"

#include "editor/palette.h"

#include <stdlib.h>

#define TILE 128         /* pixels */
#define LABEL_HEIGHT 2.4 /* mm of the sheet */
#define LABEL_LEAST 3.5  /* pixels of a hole's radius below which it carries no label */
#define LINE_ROOM 0.5    /* mm of the sheet that a line may reach beyond its mark's box */

/* The marks of one feature, or of what belongs to none. */
typedef struct Run {
    size_t first, count;
    Box box; /* mm of the sheet */
} Run;

typedef struct Still {
    PinLayout *layout;
    const Feature **features;
    size_t count;
    GArray *runs; /* Run */
} Still;

void layout_forget(PinLayout *layout)
{
    g_clear_pointer(&layout->still_node, gsk_render_node_unref);
    layout_forget_signs(layout);
}

void layout_begin_drawing(Drawing *drawing)
{
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 0, 0, "");
}

static int compare_ids(const void *a, const void *b)
{
    FeatureId first = *(const FeatureId *)a, second = *(const FeatureId *)b;
    return (first > second) - (first < second);
}

/* Whether the thing moves with the drag under way. */
static bool moves(PinLayout *layout, FeatureId id)
{
    Drag *drag = pin_document_drag(layout->document);
    if (!drag)
        return false;
    uint32_t count;
    const FeatureId *ids = drag_ids(drag, &count);
    return bsearch(&id, ids, count, sizeof id, compare_ids) != NULL;
}

/* --- the marks ---------------------------------------------------------------------------------
 */

/* Closes the run of the marks added since the last one. */
static void end_run(Still *still)
{
    const Drawing *drawing = still->layout->still;
    guint had = still->runs->len;
    Run run = {0, 0, BOX_EMPTY};
    if (had) {
        const Run *last = &g_array_index(still->runs, Run, had - 1);
        run.first = last->first + last->count;
    }
    run.count = drawing->mark_count - run.first;
    for (size_t i = run.first; i < drawing->mark_count; i++)
        run.box = box_union(run.box, drawing->marks[i].box);
    run.box = box_grown(run.box, LINE_ROOM);
    if (run.count)
        g_array_append_val(still->runs, run);
}

/* Labels stand where they always stand beside their thing, so that nothing jumps in a drag; one
 * that would lie on another is left out until there is room for it. */
static void add_label(PinLayout *layout, Drawing *drawing, const Feature *feature, GArray *taken)
{
    const Record *record = placed_record(layout_source(layout).placed, feature->id);
    const char *label = record ? record_label(record) : NULL;
    if (!label || !*label || feature->kind == FEATURE_FITTING)
        return;
    ViewMap map = layout_map(layout);
    Point centre = {(feature->box.x0 + feature->box.x1) / 2,
                    (feature->box.y0 + feature->box.y1) / 2};
    Point at = view_point(map, centre);
    TextStyle style = {LABEL_HEIGHT, TEXT_MIDDLE, TEXT_CENTRE, 0};
    if (feature->kind == FEATURE_HOLE) {
        double radius = feature->shape.growth * map.scale;
        if (radius * SHEET_PIXELS < LABEL_LEAST)
            return;
        at = point_plus(at, (Point){0.75 * radius + 0.4, 0.75 * radius + 0.4});
        style = (TextStyle){LABEL_HEIGHT, TEXT_START, TEXT_BASE, 0};
    }
    Box box = drawing_text_box(drawing, at, style, label);
    if (feature->kind != FEATURE_HOLE &&
        box.x1 - box.x0 > 0.9 * (feature->box.x1 - feature->box.x0) * map.scale)
        return;
    for (guint i = 0; i < taken->len; i++)
        if (box_meets(box, g_array_index(taken, Box, i)))
            return;
    g_array_append_val(taken, box);
    drawing_about(drawing, ROLE_LABEL, feature->id);
    drawing_text(drawing, at, style, label);
}

/* Only what stays where it is, of what is seen. */
static void gather_features(Still *still, const DrawingSource *source, Box seen)
{
    size_t kept = 0;
    still->features = plan_list(source, still->layout->face, ~0U, &still->count);
    for (size_t i = 0; i < still->count; i++)
        if (!(still->features[i]->kind & still->layout->hidden) &&
            !moves(still->layout, still->features[i]->id) &&
            box_meets(still->features[i]->box, seen) &&
            layout_shows(still->layout, still->features[i]))
            still->features[kept++] = still->features[i];
    still->count = kept;
}

static void add_marks(Still *still, Box seen)
{
    PinLayout *layout = still->layout;
    DrawingSource source = layout_source(layout);
    ViewMap map = layout_map(layout);
    GArray *taken = g_array_new(FALSE, FALSE, sizeof(Box));
    gather_features(still, &source, seen);
    layout_begin_drawing(layout->still);
    plan_face(layout->still, &source, map, layout->face);
    end_run(still);
    plan_origin(layout->still, &source, map, layout->face);
    end_run(still);
    for (size_t i = 0; i < still->count; i++) {
        plan_feature(layout->still, &source, map, still->features[i]);
        layout_draw_blank(layout, layout->still, still->features[i]);
        end_run(still);
    }
    for (size_t i = 0; i < still->count; i++) {
        add_label(layout, layout->still, still->features[i], taken);
        end_run(still);
    }
    g_array_unref(taken);
}

/* --- tints -------------------------------------------------------------------------------------
 */

void layout_tint_feature(PinLayout *layout, cairo_t *cairo, const Feature *feature)
{
    switch (feature->kind) {
    case FEATURE_HOLE:
    case FEATURE_RECESS:
        palette_set(cairo, layout->dark, INK_CUT, feature->kind == FEATURE_HOLE ? 1 : 0.75);
        break;
    case FEATURE_PART:
        palette_set(cairo, layout->dark, INK_PART, 0.08);
        break;
    case FEATURE_KEEP_CLEAR:
        palette_set(cairo, layout->dark, INK_KEEP_CLEAR, 0.12);
        break;
    case FEATURE_FITTING:
        palette_set(cairo, layout->dark, INK_FITTING, 0.10);
        break;
    }
    layout_tint(cairo, &feature->shape);
}

/* Milled recesses lie below parts, and holes show through all. */
static const unsigned tint_order[] = {FEATURE_KEEP_CLEAR, FEATURE_RECESS, FEATURE_PART,
                                      FEATURE_HOLE, FEATURE_FITTING};

static void tint_features(const Still *still, cairo_t *cairo, Box area)
{
    for (size_t kind = 0; kind < G_N_ELEMENTS(tint_order); kind++)
        for (size_t i = 0; i < still->count; i++)
            if (still->features[i]->kind == tint_order[kind] &&
                box_meets(still->features[i]->box, area)) {
                layout_tint_blank(still->layout, cairo, still->features[i]);
                layout_tint_feature(still->layout, cairo, still->features[i]);
            }
}

static void tint_stock(PinLayout *layout, cairo_t *cairo)
{
    const Frame *frame = layout_frame(layout);
    if (!frame)
        return;
    palette_set(cairo, layout->dark, INK_STOCK, 1);
    layout_tint(cairo, &frame->extent);
}

/* --- tiles -------------------------------------------------------------------------------------
 */

/* From pixels right and down of the face's origin to the face. */
static Box face_box(PinLayout *layout, const graphene_rect_t *area)
{
    double scale = layout->scale;
    return (Box){area->origin.x / scale, -(area->origin.y + area->size.height) / scale,
                 (area->origin.x + area->size.width) / scale, -area->origin.y / scale};
}

static void play_runs(const Still *still, cairo_t *cairo, const graphene_rect_t *area)
{
    PinLayout *layout = still->layout;
    Screen screen = {layout->dark, false};
    PlayStyle style = palette_screen_style(&screen);
    Box box = {area->origin.x / SHEET_PIXELS, -(area->origin.y + area->size.height) / SHEET_PIXELS,
               (area->origin.x + area->size.width) / SHEET_PIXELS, -area->origin.y / SHEET_PIXELS};
    cairo_save(cairo);
    cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
    for (guint i = 0; i < still->runs->len; i++) {
        const Run *run = &g_array_index(still->runs, Run, i);
        if (box_meets(run->box, box))
            play_cairo_marks(layout->still, run->first, run->count, 0, &style, cairo);
    }
    cairo_restore(cairo);
}

static GskRenderNode *draw_tile(const Still *still, const graphene_rect_t *area)
{
    PinLayout *layout = still->layout;
    GskRenderNode *node = gsk_cairo_node_new(area);
    cairo_t *cairo = gsk_cairo_node_get_draw_context(node);
    cairo_save(cairo);
    cairo_scale(cairo, layout->scale, -layout->scale);
    tint_stock(layout, cairo);
    tint_features(still, cairo, face_box(layout, area));
    layout_tint_sweeps(layout, cairo);
    cairo_restore(cairo);
    play_runs(still, cairo, area);
    cairo_destroy(cairo);
    return node;
}

static GskRenderNode *draw_tiles(PinLayout *layout)
{
    const graphene_rect_t *all = &layout->still_area;
    Still still = {layout, NULL, 0, g_array_new(FALSE, FALSE, sizeof(Run))};
    GPtrArray *tiles = g_ptr_array_new_with_free_func((GDestroyNotify)gsk_render_node_unref);
    add_marks(&still, face_box(layout, all));
    for (float y = all->origin.y; y < all->origin.y + all->size.height; y += TILE)
        for (float x = all->origin.x; x < all->origin.x + all->size.width; x += TILE)
            g_ptr_array_add(tiles, draw_tile(&still, &GRAPHENE_RECT_INIT(x, y, TILE, TILE)));
    GskRenderNode *node = gsk_container_node_new((GskRenderNode **)tiles->pdata, tiles->len);
    g_ptr_array_unref(tiles);
    g_array_unref(still.runs);
    g_free(still.features);
    return node;
}

graphene_rect_t layout_seen(PinLayout *layout, double room)
{
    double width = gtk_widget_get_width(GTK_WIDGET(layout));
    double height = gtk_widget_get_height(GTK_WIDGET(layout));
    return GRAPHENE_RECT_INIT(
        (float)floor(-layout->x - room * width), (float)floor(-layout->y - room * height),
        (float)ceil(width * (1 + 2 * room)), (float)ceil(height * (1 + 2 * room)));
}

void layout_draw_still(PinLayout *layout, GtkSnapshot *snapshot)
{
    graphene_rect_t seen = layout_seen(layout, 0);
    gboolean dragging = pin_document_drag(layout->document) != NULL;
    if (!layout->still_node || layout->still_scale != layout->scale ||
        layout->still_dragging != dragging ||
        !graphene_rect_contains_rect(&layout->still_area, &seen)) {
        g_clear_pointer(&layout->still_node, gsk_render_node_unref);
        layout->still_scale = layout->scale;
        layout->still_dragging = dragging;
        layout->still_area = layout_seen(layout, 0.25);
        layout->still_node = draw_tiles(layout);
    }
    gtk_snapshot_append_node(snapshot, layout->still_node);
}
