/* What the checks and the hand need to see on the plate: findings by sign and number, and the live
 * distances of what is dragged. */
#include "editor/layout-private.h"

#include "editor/palette.h"
#include "editor/sign.h"

#define SIGNS_MOST 200       /* more on one screen say nothing more */
#define SIGN_AWAY 20.0       /* pixels from the place to its sign */
#define DISTANCE_WITHIN 60.0 /* mm: further neighbours are not measured to */

/* --- findings --------------------------------------------------------------------------------- */

void layout_forget_signs(PinLayout *layout)
{
    g_clear_pointer(&layout->mark_node, gsk_render_node_unref);
}

typedef struct SignSpot {
    int finding;
    Point place, at; /* pixels */
} SignSpot;

static bool is_free(const SignSpot *spots, int count, Point at)
{
    for (int i = 0; i < count; i++)
        if (fabs(spots[i].at.x - at.x) < 2 * SIGN_RADIUS &&
            fabs(spots[i].at.y - at.y) < 2 * SIGN_RADIUS)
            return false;
    return true;
}

/* Beside its place, where no other sign is; the first ways are the usual ones. */
static Point sign_spot(const SignSpot *spots, int count, Point place)
{
    static const double ways[8][2] = {{.7, -.7}, {-.7, -.7}, {.7, .7}, {-.7, .7},
                                      {1, 0},    {-1, 0},    {0, -1},  {0, 1}};
    for (int ring = 1; ring <= 3; ring++)
        for (int i = 0; i < 8; i++) {
            Point at = {place.x + ways[i][0] * SIGN_AWAY * ring,
                        place.y + ways[i][1] * SIGN_AWAY * ring};
            if (is_free(spots, count, at))
                return at;
        }
    return (Point){place.x + SIGN_AWAY, place.y - SIGN_AWAY};
}

static int find_spots(PinLayout *layout, SignSpot spots[SIGNS_MOST])
{
    const FindingList *findings = session_shown_findings(pin_document_session(layout->document));
    double width = gtk_widget_get_width(GTK_WIDGET(layout));
    double height = gtk_widget_get_height(GTK_WIDGET(layout));
    int count = 0;
    for (uint32_t i = 0; i < findings->count && count < SIGNS_MOST; i++) {
        const Finding *finding = &findings->items[i];
        if (finding->accepted || finding->face != layout->face)
            continue;
        Point place = layout_from_face(layout, finding->at);
        if (place.x < -20 || place.y < -20 || place.x > width + 20 || place.y > height + 20)
            continue;
        spots[count] = (SignSpot){(int)i, place, sign_spot(spots, count, place)};
        count++;
    }
    return count;
}

static void draw_measured(PinLayout *layout, cairo_t *cairo, const Finding *finding)
{
    Point from = layout_from_face(layout, finding->from);
    Point to = layout_from_face(layout, finding->to);
    if (point_distance(from, to) < 1)
        return;
    cairo_set_line_width(cairo, 2);
    cairo_move_to(cairo, from.x, from.y);
    cairo_line_to(cairo, to.x, to.y);
    cairo_stroke(cairo);
}

static void draw_sign(PinLayout *layout, cairo_t *cairo, const SignSpot *spot,
                      const Finding *finding)
{
    gboolean pointed_out = spot->finding == layout->pointed_out;
    palette_set(cairo, layout->dark, palette_level(finding->level), 1);
    draw_measured(layout, cairo, finding);
    cairo_arc(cairo, spot->place.x, spot->place.y, pointed_out ? 4 : 2.5, 0, 2 * G_PI);
    cairo_fill(cairo);
    cairo_set_line_width(cairo, 1);
    cairo_move_to(cairo, spot->place.x, spot->place.y);
    cairo_line_to(cairo, spot->at.x, spot->at.y);
    cairo_stroke(cairo);
    sign_draw(cairo, layout->lettering, spot->at, finding->level, spot->finding + 1, layout->dark,
              pointed_out);
}

void layout_draw_signs(PinLayout *layout, GtkSnapshot *snapshot)
{
    const FindingList *findings = session_shown_findings(pin_document_session(layout->document));
    if (findings->count == 0)
        return;
    if (!layout->mark_node) {
        SignSpot spots[SIGNS_MOST];
        int count = find_spots(layout, spots);
        layout->mark_node = gsk_cairo_node_new(
            &GRAPHENE_RECT_INIT(0, 0, (float)gtk_widget_get_width(GTK_WIDGET(layout)),
                                (float)gtk_widget_get_height(GTK_WIDGET(layout))));
        cairo_t *cairo = gsk_cairo_node_get_draw_context(layout->mark_node);
        /* The first are the worst: they are drawn last, over the others. */
        for (int i = count; i-- > 0;)
            draw_sign(layout, cairo, &spots[i], &findings->items[spots[i].finding]);
        cairo_destroy(cairo);
    }
    gtk_snapshot_append_node(snapshot, layout->mark_node);
}

int layout_sign_at(PinLayout *layout, double x, double y)
{
    SignSpot spots[SIGNS_MOST];
    int count = find_spots(layout, spots);
    for (int i = 0; i < count; i++)
        if (point_distance(spots[i].at, (Point){x, y}) <= SIGN_RADIUS)
            return spots[i].finding;
    return -1;
}

/* --- live distances --------------------------------------------------------------------------- */

static void draw_figure(PinLayout *layout, cairo_t *cairo, Point middle, double distance)
{
    char text[LENGTH_PEOPLE_TEXT];
    length_text_with_unit(length_from_mm(distance), pin_document_unit(layout->document), text);
    double height = 9;
    TextExtent extent = lettering_extent(layout->lettering, text, height);
    cairo_rectangle(cairo, middle.x - extent.width / 2 - 4, middle.y - height / 2 - 4,
                    extent.width + 8, height + 8);
    palette_set(cairo, layout->dark, INK_STOCK, 0.9);
    cairo_fill(cairo);
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_save(cairo);
    cairo_translate(cairo, middle.x - extent.width / 2, middle.y + height / 2);
    lettering_show(layout->lettering, cairo, text, height);
    cairo_restore(cairo);
}

static void draw_distance(PinLayout *layout, cairo_t *cairo, const Gap *gap)
{
    Point from = layout_from_face(layout, gap->on_a), to = layout_from_face(layout, gap->on_b);
    Point along = point_minus(to, from);
    double length = point_length(along);
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_set_line_width(cairo, 1);
    cairo_move_to(cairo, from.x, from.y);
    cairo_line_to(cairo, to.x, to.y);
    if (length > 1) {
        Point across = {-along.y / length * 5, along.x / length * 5};
        cairo_move_to(cairo, from.x - across.x, from.y - across.y);
        cairo_line_to(cairo, from.x + across.x, from.y + across.y);
        cairo_move_to(cairo, to.x - across.x, to.y - across.y);
        cairo_line_to(cairo, to.x + across.x, to.y + across.y);
    }
    cairo_stroke(cairo);
    Point middle = point_times(point_plus(from, to), 0.5);
    /* A short distance is written beside itself, where it hides nothing. */
    if (length < 70 && length > 0)
        middle = point_plus(middle, (Point){-along.y / length * 26, along.x / length * 26});
    draw_figure(layout, cairo, middle, gap->distance);
}

/* The thing that the hand holds. */
static FeatureId held(PinLayout *layout)
{
    FeatureId one = pin_document_selected_one(layout->document);
    uint32_t count;
    const FeatureId *ids = drag_ids(pin_document_drag(layout->document), &count);
    for (uint32_t i = 0; i < count; i++)
        if (ids[i] == one)
            return one;
    const Placed *placed = session_shown(pin_document_session(layout->document));
    for (uint32_t i = 0; i < count; i++)
        if (placed_find(placed, ids[i]))
            return ids[i];
    return ID_NONE;
}

void layout_draw_distances(PinLayout *layout, GtkSnapshot *snapshot)
{
    if (!pin_document_drag(layout->document))
        return;
    const Placed *placed = session_shown(pin_document_session(layout->document));
    FeatureId id = held(layout);
    if (!placed_find(placed, id))
        return;
    NearestGaps gaps = nearest_gaps(placed, id, DISTANCE_WITHIN);
    cairo_t *cairo = gtk_snapshot_append_cairo(
        snapshot, &GRAPHENE_RECT_INIT(0, 0, (float)gtk_widget_get_width(GTK_WIDGET(layout)),
                                      (float)gtk_widget_get_height(GTK_WIDGET(layout))));
    if (gaps.has_neighbour)
        draw_distance(layout, cairo, &gaps.neighbour);
    if (gaps.has_edge)
        draw_distance(layout, cairo, &gaps.edge);
    cairo_destroy(cairo);
}
