/* The layout's picture: the drawing's own plan, kept as one node while nothing in it changes, and
 * what moves or is selected drawn over it. */
#include "editor/layout-private.h"

#include "drawing/shape-path.h"
#include "editor/palette.h"

#include <stdlib.h>

#define LABEL_HEIGHT 2.4 /* mm of the sheet */
#define LABEL_LEAST 3.5  /* pixels of a hole's radius below which it carries no label */

void layout_forget(PinLayout *layout)
{
    g_clear_pointer(&layout->still_node, gsk_render_node_unref);
    layout_forget_signs(layout);
}

static ViewMap sheet_map(PinLayout *layout)
{
    return (ViewMap){{0, 0}, layout->scale / SHEET_PIXELS};
}

static DrawingSource shown(PinLayout *layout)
{
    Session *session = pin_document_session(layout->document);
    return (DrawingSource){session_plate(session), session_shown(session)};
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

/* --- labels ----------------------------------------------------------------------------------- */

/* Labels stand where they always stand beside their thing, so that nothing jumps in a drag; one
 * that would lie on another is left out until there is room for it. */
static void add_label(PinLayout *layout, Drawing *drawing, const Feature *feature, GArray *taken)
{
    const Record *record = placed_record(shown(layout).placed, feature->id);
    const char *label = record ? record_label(record) : NULL;
    if (!label || !*label || feature->kind == FEATURE_FITTING)
        return;
    ViewMap map = sheet_map(layout);
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

/* --- what does not move ----------------------------------------------------------------------- */

static void tint_feature(PinLayout *layout, cairo_t *cairo, const Feature *feature)
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

static void tint_features(PinLayout *layout, cairo_t *cairo, const Feature **features, size_t count,
                          Box seen)
{
    for (size_t kind = 0; kind < G_N_ELEMENTS(tint_order); kind++)
        for (size_t i = 0; i < count; i++)
            if (features[i]->kind == tint_order[kind] && box_meets(features[i]->box, seen))
                tint_feature(layout, cairo, features[i]);
}

static void tint_stock(PinLayout *layout, cairo_t *cairo)
{
    const Frame *frame = layout_frame(layout);
    if (!frame)
        return;
    palette_set(cairo, layout->dark, INK_STOCK, 1);
    layout_tint(cairo, &frame->extent);
}

/* Plays marks with the face's origin at the context's, which is in pixels. */
static void play(PinLayout *layout, cairo_t *cairo, const Drawing *drawing, bool chosen,
                 double widths)
{
    Screen screen = {layout->dark, chosen};
    PlayStyle style = palette_screen_style(&screen);
    style.width_factor *= widths;
    cairo_save(cairo);
    cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
    play_cairo_marks(drawing, 0, drawing->mark_count, 0, &style, cairo);
    cairo_restore(cairo);
}

static void begin_drawing(Drawing *drawing)
{
    drawing_clear(drawing);
    drawing_begin_sheet(drawing, 0, 0, "");
}

/* Only what stays where it is, of what is seen. */
static const Feature **still_features(PinLayout *layout, DrawingSource *source, Box seen,
                                      size_t *count)
{
    const Feature **features = plan_list(source, layout->face, ~0U, count);
    size_t kept = 0;
    for (size_t i = 0; i < *count; i++)
        if (!moves(layout, features[i]->id) && box_meets(features[i]->box, seen))
            features[kept++] = features[i];
    *count = kept;
    return features;
}

static Box area_box(PinLayout *layout, const graphene_rect_t *area)
{
    double scale = layout->scale;
    return (Box){area->origin.x / scale, -(area->origin.y + area->size.height) / scale,
                 (area->origin.x + area->size.width) / scale, -area->origin.y / scale};
}

static void draw_still(PinLayout *layout, cairo_t *cairo)
{
    DrawingSource source = shown(layout);
    ViewMap map = sheet_map(layout);
    Box seen = area_box(layout, &layout->still_area);
    size_t count;
    const Feature **features = still_features(layout, &source, seen, &count);
    GArray *taken = g_array_new(FALSE, FALSE, sizeof(Box));

    begin_drawing(layout->still);
    if (layout->face == ID_TOP) {
        plan_stock(layout->still, &source, map);
        plan_datum(layout->still, &source, map);
    }
    for (size_t i = 0; i < count; i++)
        plan_feature(layout->still, &source, map, features[i]);
    for (size_t i = 0; i < count; i++)
        add_label(layout, layout->still, features[i], taken);

    cairo_save(cairo);
    cairo_scale(cairo, layout->scale, -layout->scale);
    tint_stock(layout, cairo);
    tint_features(layout, cairo, features, count, seen);
    cairo_restore(cairo);
    play(layout, cairo, layout->still, false, 1);
    g_array_unref(taken);
    g_free(features);
}

/* What is seen, from the face's origin, with some room round it for panning. */
static graphene_rect_t seen_area(PinLayout *layout, double room)
{
    double width = gtk_widget_get_width(GTK_WIDGET(layout));
    double height = gtk_widget_get_height(GTK_WIDGET(layout));
    return GRAPHENE_RECT_INIT((float)(-layout->x - room * width),
                              (float)(-layout->y - room * height), (float)(width * (1 + 2 * room)),
                              (float)(height * (1 + 2 * room)));
}

static void append_still(PinLayout *layout, GtkSnapshot *snapshot)
{
    graphene_rect_t seen = seen_area(layout, 0);
    gboolean dragging = pin_document_drag(layout->document) != NULL;
    if (!layout->still_node || layout->still_scale != layout->scale ||
        layout->still_dragging != dragging ||
        !graphene_rect_contains_rect(&layout->still_area, &seen)) {
        g_clear_pointer(&layout->still_node, gsk_render_node_unref);
        layout->still_scale = layout->scale;
        layout->still_dragging = dragging;
        layout->still_area = seen_area(layout, 0.25);
        layout->still_node = gsk_cairo_node_new(&layout->still_area);
        cairo_t *cairo = gsk_cairo_node_get_draw_context(layout->still_node);
        draw_still(layout, cairo);
        cairo_destroy(cairo);
    }
    gtk_snapshot_append_node(snapshot, layout->still_node);
}

/* --- what moves or is selected -----------------------------------------------------------------
 */

static Box with_feature(Box box, const Feature *feature)
{
    return feature ? box_union(box, feature->box) : box;
}

/* A node over the box of some features, which is all that a frame of a drag draws anew. */
static cairo_t *append_over(PinLayout *layout, GtkSnapshot *snapshot, Box box)
{
    double scale = layout->scale, room = 48;
    graphene_rect_t area =
        GRAPHENE_RECT_INIT((float)(box.x0 * scale - room), (float)(-box.y1 * scale - room),
                           (float)((box.x1 - box.x0) * scale + 2 * room),
                           (float)((box.y1 - box.y0) * scale + 2 * room));
    graphene_rect_t seen = seen_area(layout, 0), both;
    if (box_is_empty(box) || !graphene_rect_intersection(&area, &seen, &both))
        return NULL;
    return gtk_snapshot_append_cairo(snapshot, &both);
}

static void append_moving(PinLayout *layout, GtkSnapshot *snapshot)
{
    Drag *drag = pin_document_drag(layout->document);
    if (!drag)
        return;
    DrawingSource source = shown(layout);
    ViewMap map = sheet_map(layout);
    Box box = BOX_EMPTY;
    uint32_t count;
    const FeatureId *ids = drag_ids(drag, &count);
    begin_drawing(layout->moving);
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = placed_find(source.placed, ids[i]);
        if (!feature || feature->face != layout->face)
            continue;
        plan_feature(layout->moving, &source, map, feature);
        box = with_feature(box, feature);
    }
    cairo_t *cairo = append_over(layout, snapshot, box);
    if (!cairo)
        return;
    cairo_save(cairo);
    cairo_scale(cairo, layout->scale, -layout->scale);
    for (uint32_t i = 0; i < count; i++) {
        const Feature *feature = placed_find(source.placed, ids[i]);
        if (feature && feature->face == layout->face)
            tint_feature(layout, cairo, feature);
    }
    cairo_restore(cairo);
    play(layout, cairo, layout->moving, true, 1);
    cairo_destroy(cairo);
}

static void append_selected(PinLayout *layout, GtkSnapshot *snapshot)
{
    DrawingSource source = shown(layout);
    ViewMap map = sheet_map(layout);
    Box box = BOX_EMPTY;
    guint count;
    const FeatureId *ids = pin_document_selection(layout->document, &count);
    begin_drawing(layout->moving);
    for (guint i = 0; i < count; i++) {
        const Feature *feature = placed_find(source.placed, ids[i]);
        if (!feature || feature->face != layout->face)
            continue;
        drawing_about(layout->moving, ROLE_NOTE, feature->id);
        shape_path_draw(layout->moving, LINE_VISIBLE, &feature->shape, map);
        box = with_feature(box, feature);
    }
    cairo_t *cairo = append_over(layout, snapshot, box);
    if (!cairo)
        return;
    play(layout, cairo, layout->moving, true, 1.8);
    cairo_destroy(cairo);
}

/* --- what belongs to the hand ------------------------------------------------------------------
 */

static void append_band(PinLayout *layout, GtkSnapshot *snapshot)
{
    if (layout->pull != PULL_BAND)
        return;
    GdkRGBA colour = palette_rgba(layout->dark, INK_CHOSEN);
    graphene_rect_t band = GRAPHENE_RECT_INIT((float)MIN(layout->press_x, layout->pull_x),
                                              (float)MIN(layout->press_y, layout->pull_y),
                                              (float)fabs(layout->pull_x - layout->press_x),
                                              (float)fabs(layout->pull_y - layout->press_y));
    GskRoundedRect border;
    gsk_rounded_rect_init_from_rect(&border, &band, 0);
    gtk_snapshot_append_border(snapshot, &border, (const float[4]){1, 1, 1, 1},
                               (const GdkRGBA[4]){colour, colour, colour, colour});
    colour.alpha = 0.1f;
    gtk_snapshot_append_color(snapshot, &colour, &band);
}

/* The lines that the dragged thing was drawn to. */
static void append_snap_lines(PinLayout *layout, GtkSnapshot *snapshot)
{
    if (!layout->snap_shown || !pin_document_drag(layout->document))
        return;
    Point at = layout_from_face(
        layout, (Point){length_to_mm(layout->snapped.at.x), length_to_mm(layout->snapped.at.y)});
    float width = (float)gtk_widget_get_width(GTK_WIDGET(layout));
    float height = (float)gtk_widget_get_height(GTK_WIDGET(layout));
    GdkRGBA colour = palette_rgba(layout->dark, INK_CHOSEN);
    colour.alpha = 0.45f;
    if (layout->snapped.on_x)
        gtk_snapshot_append_color(snapshot, &colour,
                                  &GRAPHENE_RECT_INIT(roundf((float)at.x), 0, 1, height));
    if (layout->snapped.on_y)
        gtk_snapshot_append_color(snapshot, &colour,
                                  &GRAPHENE_RECT_INIT(0, roundf((float)at.y), width, 1));
}

static void append_no_lettering(PinLayout *layout, GtkSnapshot *snapshot)
{
    char line[900];
    error_line(&layout->lettering_error, line, sizeof line);
    PangoLayout *text = gtk_widget_create_pango_layout(GTK_WIDGET(layout), line);
    pango_layout_set_width(text, (gtk_widget_get_width(GTK_WIDGET(layout)) - 40) * PANGO_SCALE);
    gtk_snapshot_render_layout(snapshot, gtk_widget_get_style_context(GTK_WIDGET(layout)), 20, 20,
                               text);
    g_object_unref(text);
}

void layout_draw(PinLayout *layout, GtkSnapshot *snapshot)
{
    if (!layout->document)
        return;
    if (!layout->lettering) {
        append_no_lettering(layout, snapshot);
        return;
    }
    gboolean dark = palette_is_dark(GTK_WIDGET(layout));
    if (dark != layout->dark)
        layout_forget(layout);
    layout->dark = dark;
    gtk_snapshot_save(snapshot);
    gtk_snapshot_translate(snapshot, &GRAPHENE_POINT_INIT((float)layout->x, (float)layout->y));
    append_still(layout, snapshot);
    append_moving(layout, snapshot);
    append_selected(layout, snapshot);
    gtk_snapshot_restore(snapshot);
    append_snap_lines(layout, snapshot);
    append_band(layout, snapshot);
    layout_draw_handle(layout, snapshot);
    layout_draw_signs(layout, snapshot);
    layout_draw_distances(layout, snapshot);
}
