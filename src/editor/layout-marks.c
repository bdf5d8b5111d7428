/* What the checks and the hand need to see on the plate: findings by sign and number, and the live
 * distances of what is dragged. */
#include "editor/layout-private.h"

#include "editor/palette.h"
#include "editor/sign.h"
#include "editor/speech.h"

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

/* While one operation is shown: only what is wrong with what is there. */
static gboolean is_now(PinLayout *layout, const Finding *finding)
{
    if (layout->operation == ID_NONE)
        return TRUE;
    if (finding->operation != ID_NONE && finding->operation != layout->operation)
        return FALSE;
    const Placed *placed = session_shown(pin_document_session(layout->document));
    for (int i = 0; i < finding->feature_count; i++) {
        const Feature *feature = placed_find(placed, finding->features[i]);
        if (feature && !layout_shows(layout, feature))
            return FALSE;
    }
    return TRUE;
}

static int find_spots(PinLayout *layout, SignSpot spots[SIGNS_MOST])
{
    const FindingList *findings = session_shown_findings(pin_document_session(layout->document));
    double width = gtk_widget_get_width(GTK_WIDGET(layout));
    double height = gtk_widget_get_height(GTK_WIDGET(layout));
    int count = 0;
    for (uint32_t i = 0; i < findings->count && count < SIGNS_MOST; i++) {
        const Finding *finding = &findings->items[i];
        if (finding->accepted || finding->face != layout->face || !is_now(layout, finding))
            continue;
        Point place = layout_from_face(layout, finding->at);
        if (place.x < -20 || place.y < -20 || place.x > width + 20 || place.y > height + 20)
            continue;
        spots[count] = (SignSpot){(int)i, place, sign_spot(spots, count, place)};
        count++;
    }
    return count;
}

static Box with_pixel(Box box, Point p, double room)
{
    return box_union(box, (Box){p.x - room, p.y - room, p.x + room, p.y + room});
}

/* What a finding's marks cover, in pixels: no frame draws more of the layout anew than that. */
static Box spot_box(PinLayout *layout, const SignSpot *spot, const Finding *finding)
{
    Box box = with_pixel(BOX_EMPTY, spot->place, 6);
    box = with_pixel(box, spot->at, 2 * SIGN_RADIUS);
    box = with_pixel(box, layout_from_face(layout, finding->from), 3);
    return with_pixel(box, layout_from_face(layout, finding->to), 3);
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

cairo_t *layout_append(PinLayout *layout, GtkSnapshot *snapshot, Box box)
{
    Box all = {0, 0, gtk_widget_get_width(GTK_WIDGET(layout)),
               gtk_widget_get_height(GTK_WIDGET(layout))};
    box = (Box){floor(fmax(box.x0, all.x0)), floor(fmax(box.y0, all.y0)),
                ceil(fmin(box.x1, all.x1)), ceil(fmin(box.y1, all.y1))};
    if (!(box.x0 < box.x1 && box.y0 < box.y1))
        return NULL;
    return gtk_snapshot_append_cairo(snapshot, &GRAPHENE_RECT_INIT((float)box.x0, (float)box.y0,
                                                                   (float)(box.x1 - box.x0),
                                                                   (float)(box.y1 - box.y0)));
}

static GskRenderNode *draw_signs(PinLayout *layout, const FindingList *findings)
{
    SignSpot spots[SIGNS_MOST];
    int count = find_spots(layout, spots);
    GtkSnapshot *snapshot = gtk_snapshot_new();
    /* The first are the worst: they are drawn last, over the others. */
    for (int i = count; i-- > 0;) {
        const Finding *finding = &findings->items[spots[i].finding];
        cairo_t *cairo = layout_append(layout, snapshot, spot_box(layout, &spots[i], finding));
        if (!cairo)
            continue;
        draw_sign(layout, cairo, &spots[i], finding);
        cairo_destroy(cairo);
    }
    return gtk_snapshot_free_to_node(snapshot);
}

static gboolean same_marks(const Finding *a, const Finding *b)
{
    return finding_same_key(a, b) && a->level == b->level && a->accepted == b->accepted &&
           point_distance(a->at, b->at) == 0 && point_distance(a->from, b->from) == 0 &&
           point_distance(a->to, b->to) == 0;
}

/* In a drag most findings stay as they are from frame to frame. */
static gboolean are_drawn(PinLayout *layout, const FindingList *findings)
{
    if (!layout->mark_node || layout->marked.count != findings->count)
        return FALSE;
    for (uint32_t i = 0; i < findings->count; i++)
        if (!same_marks(&layout->marked.items[i], &findings->items[i]))
            return FALSE;
    return TRUE;
}

static void remember(PinLayout *layout, const FindingList *findings)
{
    layout->marked.count = 0;
    for (uint32_t i = 0; i < findings->count; i++)
        *finding_list_add(&layout->marked) = findings->items[i];
}

void layout_draw_signs(PinLayout *layout, GtkSnapshot *snapshot)
{
    const FindingList *findings = session_shown_findings(pin_document_session(layout->document));
    if (findings->count == 0)
        return;
    if (!are_drawn(layout, findings)) {
        layout_forget_signs(layout);
        layout->mark_node = draw_signs(layout, findings);
        remember(layout, findings);
    }
    if (layout->mark_node)
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

#define FIGURE_HEIGHT 9.0

static void draw_figure(PinLayout *layout, cairo_t *cairo, Point middle, const char *text,
                        double width)
{
    cairo_rectangle(cairo, middle.x - width / 2 - 4, middle.y - FIGURE_HEIGHT / 2 - 4, width + 8,
                    FIGURE_HEIGHT + 8);
    palette_set(cairo, layout->dark, INK_STOCK, 0.9);
    cairo_fill(cairo);
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_save(cairo);
    cairo_translate(cairo, middle.x - width / 2, middle.y + FIGURE_HEIGHT / 2);
    lettering_show(layout->lettering, cairo, text, FIGURE_HEIGHT);
    cairo_restore(cairo);
}

static void draw_line(PinLayout *layout, cairo_t *cairo, Point from, Point to, double length)
{
    Point along = point_minus(to, from);
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
}

void layout_append_distance(PinLayout *layout, GtkSnapshot *snapshot, const Gap *gap)
{
    char text[LENGTH_PEOPLE_TEXT];
    Point from = layout_from_face(layout, gap->on_a), to = layout_from_face(layout, gap->on_b);
    double length = point_distance(from, to);
    pin_length_text_with_unit(length_from_mm(gap->distance), pin_document_unit(layout->document),
                              text);
    double width = lettering_extent(layout->lettering, text, FIGURE_HEIGHT).width;
    Point middle = point_times(point_plus(from, to), 0.5);
    /* A short distance is written beside itself, where it hides nothing. */
    if (length < 70 && length > 0) {
        double away = (fabs(to.y - from.y) / length * width + FIGURE_HEIGHT) / 2 + 12;
        middle = point_plus(
            middle, (Point){-(to.y - from.y) / length * away, (to.x - from.x) / length * away});
    }
    Box box = with_pixel(with_pixel(BOX_EMPTY, from, 6), to, 6);
    box = box_union(box, (Box){middle.x - width / 2 - 4, middle.y - FIGURE_HEIGHT / 2 - 4,
                               middle.x + width / 2 + 4, middle.y + FIGURE_HEIGHT / 2 + 4});
    cairo_t *cairo = layout_append(layout, snapshot, box);
    if (!cairo)
        return;
    draw_line(layout, cairo, from, to, length);
    draw_figure(layout, cairo, middle, text, width);
    cairo_destroy(cairo);
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
    if (gaps.has_neighbour)
        layout_append_distance(layout, snapshot, &gaps.neighbour);
    if (gaps.has_edge)
        layout_append_distance(layout, snapshot, &gaps.edge);
}
