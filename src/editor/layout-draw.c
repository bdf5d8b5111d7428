/* The layout's picture: the drawing's own plan, kept as one node while nothing in it changes, and
 * what moves or is selected drawn over it. */
#include "editor/layout-private.h"

#include "drawing/shape-path.h"
#include "editor/palette.h"

ViewMap layout_map(PinLayout *layout)
{
    return (ViewMap){{0, 0}, layout->scale / SHEET_PIXELS};
}

DrawingSource layout_source(PinLayout *layout)
{
    Session *session = pin_document_session(layout->document);
    return (DrawingSource){session_plate(session), session_shown(session)};
}

/* Plays what moves or is selected, with the face's origin at the context's, which is in pixels. */
static void play(PinLayout *layout, cairo_t *cairo, double widths)
{
    Screen screen = {layout->dark, true};
    PlayStyle style = palette_screen_style(&screen);
    style.width_factor *= widths;
    cairo_save(cairo);
    cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
    play_cairo_marks(layout->moving, 0, layout->moving->mark_count, 0, &style, cairo);
    cairo_restore(cairo);
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
    double scale = layout->scale, room = 18; /* for lines and centre marks beyond the box */
    graphene_rect_t area =
        GRAPHENE_RECT_INIT((float)(box.x0 * scale - room), (float)(-box.y1 * scale - room),
                           (float)((box.x1 - box.x0) * scale + 2 * room),
                           (float)((box.y1 - box.y0) * scale + 2 * room));
    graphene_rect_t seen = layout_seen(layout, 0), both;
    if (box_is_empty(box) || !graphene_rect_intersection(&area, &seen, &both))
        return NULL;
    return gtk_snapshot_append_cairo(snapshot, &both);
}

static void append_moving(PinLayout *layout, GtkSnapshot *snapshot)
{
    Drag *drag = pin_document_drag(layout->document);
    DrawingSource source = layout_source(layout);
    ViewMap map = layout_map(layout);
    Box box = BOX_EMPTY;
    uint32_t count;
    const FeatureId *ids = drag_ids(drag, &count);
    layout_begin_drawing(layout->moving);
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
            layout_tint_feature(layout, cairo, feature);
    }
    cairo_restore(cairo);
    play(layout, cairo, 1);
    cairo_destroy(cairo);
}

static void append_selected(PinLayout *layout, GtkSnapshot *snapshot)
{
    DrawingSource source = layout_source(layout);
    ViewMap map = layout_map(layout);
    Box box = BOX_EMPTY;
    guint count;
    const FeatureId *ids = pin_document_selection(layout->document, &count);
    layout_begin_drawing(layout->moving);
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
    play(layout, cairo, 1.8);
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

/* What the dragged thing was drawn to: another thing, or the datum. */
static Point snapped_to(PinLayout *layout, FeatureId id)
{
    const Feature *feature = placed_find(layout_source(layout).placed, id);
    if (feature)
        return feature_at(feature);
    Place datum = {0, 0};
    if (layout->face == ID_TOP)
        datum = plate_datum(pin_document_plate(layout->document));
    return (Point){length_to_mm(datum.x), length_to_mm(datum.y)};
}

/* A line from there to the place, upright or level. */
static void append_snap_line(PinLayout *layout, GtkSnapshot *snapshot, Point at, Point from,
                             gboolean upright)
{
    GdkRGBA colour = palette_rgba(layout->dark, INK_CHOSEN);
    colour.alpha = 0.6f;
    double start = upright ? fmin(at.y, from.y) : fmin(at.x, from.x);
    double length = upright ? fabs(at.y - from.y) : fabs(at.x - from.x);
    graphene_rect_t line =
        upright ? GRAPHENE_RECT_INIT((float)round(at.x), (float)start, 1, (float)length)
                : GRAPHENE_RECT_INIT((float)start, (float)round(at.y), (float)length, 1);
    gtk_snapshot_append_color(snapshot, &colour, &line);
}

static void append_snap_lines(PinLayout *layout, GtkSnapshot *snapshot)
{
    if (!layout->snap_shown || !pin_document_drag(layout->document))
        return;
    const Snap *snapped = &layout->snapped;
    Point at =
        layout_from_face(layout, (Point){length_to_mm(snapped->at.x), length_to_mm(snapped->at.y)});
    if (snapped->on_x)
        append_snap_line(layout, snapshot, at,
                         layout_from_face(layout, snapped_to(layout, snapped->to_x)), TRUE);
    if (snapped->on_y)
        append_snap_line(layout, snapshot, at,
                         layout_from_face(layout, snapped_to(layout, snapped->to_y)), FALSE);
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
    layout_draw_still(layout, snapshot);
    /* What is dragged is marked out as it is: fewer nodes change from frame to frame. */
    if (pin_document_drag(layout->document))
        append_moving(layout, snapshot);
    else
        append_selected(layout, snapshot);
    gtk_snapshot_restore(snapshot);
    layout_draw_guides(layout, snapshot);
    append_snap_lines(layout, snapshot);
    append_band(layout, snapshot);
    layout_draw_error_band(layout, snapshot);
    layout_draw_section(layout, snapshot);
    layout_draw_handle(layout, snapshot);
    layout_draw_signs(layout, snapshot);
    layout_draw_distances(layout, snapshot);
}
