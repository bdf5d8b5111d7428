/* Temporary guides across the layout, the things measured on it, and which kinds are shown. */
#include "editor/layout-guide.h"

#include "editor/intl.h"
#include "editor/layout-private.h"
#include "editor/palette.h"
#include "editor/speech.h"

#define GUIDE_REACH 5.0 /* pixels */
#define SPOT_REACH 7.0  /* pixels */

/* --- guides --------------------------------------------------------------------------------------
 */

static Length reach_of(PinLayout *layout, double pixels)
{
    return length_from_mm(pixels / layout->scale);
}

gboolean layout_guide_press(PinLayout *layout, double x, double y)
{
    layout->guide = guides_near(&layout->guides, layout->face, layout_place(layout, x, y),
                                reach_of(layout, GUIDE_REACH));
    return layout->guide >= 0;
}

void layout_guide_pull(PinLayout *layout, double x, double y)
{
    if (layout->guide < 0 || (guint)layout->guide >= layout->guides.count)
        return;
    Guide *guide = &layout->guides.items[layout->guide];
    SnapSettings settings = layout_snap_settings(layout);
    settings.guides = NULL;
    Snap snap = snap_place(pin_document_session(layout->document), layout->face,
                           layout_place(layout, x, y), NULL, 0, &settings);
    guide->at = guide->upright ? snap.at.x : snap.at.y;
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void layout_guide_drop(PinLayout *layout, double x, double y)
{
    gboolean inside = gtk_widget_contains(GTK_WIDGET(layout), x, y);
    if (!inside && layout->guide >= 0 && (guint)layout->guide < layout->guides.count)
        guides_remove(&layout->guides, (guint)layout->guide);
    layout->guide = -1;
    g_signal_emit_by_name(layout, "viewed");
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void pin_layout_add_guide(PinLayout *layout, gboolean upright, Length at)
{
    guides_add(&layout->guides, (Guide){layout->face, upright, at});
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void pin_layout_clear_guides(PinLayout *layout)
{
    layout->guides.count = 0;
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

guint pin_layout_guide_count(PinLayout *layout)
{
    return layout->guides.count;
}

static void append_guide(PinLayout *layout, GtkSnapshot *snapshot, const Guide *guide)
{
    GtkWidget *widget = GTK_WIDGET(layout);
    double value = length_to_mm(guide->at);
    Point at = layout_from_face(layout, (Point){value, value});
    GdkRGBA colour = palette_rgba(layout->dark, INK_CHOSEN);
    colour.alpha = 0.75f;
    float along =
        (float)(guide->upright ? gtk_widget_get_height(widget) : gtk_widget_get_width(widget));
    for (float from = 0; from < along; from += 12) {
        float dash = MIN(8, along - from);
        graphene_rect_t rect = guide->upright
                                   ? GRAPHENE_RECT_INIT((float)round(at.x), from, 1, dash)
                                   : GRAPHENE_RECT_INIT(from, (float)round(at.y), dash, 1);
        gtk_snapshot_append_color(snapshot, &colour, &rect);
    }
}

/* --- measuring -----------------------------------------------------------------------------------
 */

static const Placed *shown(PinLayout *layout)
{
    return session_shown(pin_document_session(layout->document));
}

/* As it is now: what it belongs to may have moved, or gone. */
static Spot refreshed(PinLayout *layout, const Spot *spot)
{
    if (spot->kind == SPOT_CENTRE || spot->kind == SPOT_EDGE)
        return spot_of(shown(layout), spot->feature, spot->kind == SPOT_CENTRE);
    return *spot;
}

static gboolean measured_now(PinLayout *layout, Measured *measured)
{
    if (layout->spot_count < 2)
        return FALSE;
    Spot from = refreshed(layout, &layout->spots[0]), to = refreshed(layout, &layout->spots[1]);
    return from.face == layout->face && measure_between(&from, &to, measured);
}

static void say_measured(PinLayout *layout)
{
    Measured measured;
    char distance[LENGTH_PEOPLE_TEXT], dx[LENGTH_PEOPLE_TEXT], dy[LENGTH_PEOPLE_TEXT];
    Unit unit = pin_document_unit(layout->document);
    if (!measured_now(layout, &measured)) {
        pin_document_say(layout->document, _("The two do not lie on this face."));
        return;
    }
    pin_length_text_both(length_from_mm(measured.distance), unit, distance);
    pin_length_text(length_from_mm(measured.dx), unit, dx);
    pin_length_text(length_from_mm(measured.dy), unit, dy);
    char *text = measured.distance < 0
                     ? g_strdup(_("The two overlap."))
                     : g_strdup_printf(_("Distance %s, along X %s, along Y %s"), distance, dx, dy);
    pin_document_say(layout->document, text);
    g_free(text);
}

static void measure_begin(PinLayout *layout)
{
    layout->spot_count = 0;
    layout->measuring = TRUE;
    gtk_widget_set_cursor_from_name(GTK_WIDGET(layout), "crosshair");
    pin_document_say(layout->document,
                     _("Press the two edges or centres to measure between; Escape ends it."));
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

void pin_layout_measure(PinLayout *layout, gboolean centres)
{
    guint count;
    const FeatureId *ids = pin_document_selection(layout->document, &count);
    if (count != 2) {
        measure_begin(layout);
        return;
    }
    for (int i = 0; i < 2; i++)
        layout->spots[i] = spot_of(shown(layout), ids[i], centres);
    layout->spot_count = 2;
    say_measured(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}

gboolean layout_measure_press(PinLayout *layout, double x, double y)
{
    if (!layout->measuring)
        return FALSE;
    layout->given_up = TRUE; /* the press is used up: no band follows it */
    layout->spots[layout->spot_count++] = spot_at(
        shown(layout), layout->face, layout_to_face(layout, x, y), SPOT_REACH / layout->scale);
    if (layout->spot_count == 2) {
        layout->measuring = FALSE;
        gtk_widget_set_cursor(GTK_WIDGET(layout), NULL);
        say_measured(layout);
    }
    gtk_widget_queue_draw(GTK_WIDGET(layout));
    return TRUE;
}

gboolean layout_measure_end(PinLayout *layout)
{
    gboolean had = layout->measuring || layout->spot_count > 0;
    layout->measuring = FALSE;
    layout->spot_count = 0;
    if (had) {
        gtk_widget_set_cursor(GTK_WIDGET(layout), NULL);
        gtk_widget_queue_draw(GTK_WIDGET(layout));
    }
    return had;
}

double pin_layout_measured(PinLayout *layout)
{
    Measured measured;
    return layout->document && measured_now(layout, &measured) ? measured.distance : -1;
}

/* What would be taken if the pointer pressed now: a ring about a centre, a bar along an edge. */
static void append_spot(PinLayout *layout, GtkSnapshot *snapshot, const Spot *spot)
{
    Gap gap;
    Shape pointer = shape_circle(layout_to_face(layout, layout->pointer_x, layout->pointer_y), 0);
    Point at = {spot->shape.pose.x, spot->shape.pose.y};
    if (spot->kind == SPOT_EDGE || spot->kind == SPOT_FACE_EDGE) {
        shape_gap(&spot->shape, &pointer, &gap);
        if (shape_contains(&spot->shape, (Point){pointer.pose.x, pointer.pose.y}))
            shape_room(&spot->shape, &pointer, &gap);
        at = gap.on_a;
    }
    at = layout_from_face(layout, at);
    cairo_t *cairo = layout_append(layout, snapshot, (Box){at.x - 9, at.y - 9, at.x + 9, at.y + 9});
    if (!cairo)
        return;
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_set_line_width(cairo, 2);
    if (spot->kind == SPOT_CENTRE)
        cairo_arc(cairo, at.x, at.y, 7, 0, 2 * G_PI);
    else
        cairo_rectangle(cairo, at.x - 4, at.y - 4, 8, 8);
    cairo_stroke(cairo);
    cairo_destroy(cairo);
}

static void draw_measured(PinLayout *layout, GtkSnapshot *snapshot)
{
    Measured measured;
    if (measured_now(layout, &measured)) {
        Gap gap = {measured.distance, measured.from, measured.to};
        layout_append_distance(layout, snapshot, &gap);
    }
    if (!layout->measuring || !layout->pointer_inside)
        return;
    Spot spot = spot_at(shown(layout), layout->face,
                        layout_to_face(layout, layout->pointer_x, layout->pointer_y),
                        SPOT_REACH / layout->scale);
    append_spot(layout, snapshot, &spot);
}

void layout_draw_guides(PinLayout *layout, GtkSnapshot *snapshot)
{
    for (uint32_t i = 0; i < layout->guides.count; i++)
        if (layout->guides.items[i].face == layout->face)
            append_guide(layout, snapshot, &layout->guides.items[i]);
    draw_measured(layout, snapshot);
}

/* --- kinds ---------------------------------------------------------------------------------------
 */

void pin_layout_show_kind(PinLayout *layout, unsigned kind, gboolean show)
{
    layout->hidden = show ? layout->hidden & ~kind : layout->hidden | kind;
    layout_forget(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
}
