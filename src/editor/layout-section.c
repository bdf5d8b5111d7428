/* The section's line on the layout: drawn by a pull, moved by its ends or as a whole. */
#include "editor/layout-section.h"

#include "drawing/section.h"
#include "editor/layout-private.h"
#include "editor/palette.h"

#define END_REACH 10.0 /* pixels */
#define LINE_REACH 5.0
#define END_RADIUS 5.0
#define LETTER_HEIGHT 3.5 /* mm of the sheet */

gboolean pin_layout_section(PinLayout *layout, SectionLine *line)
{
    *line = (SectionLine){layout->section_ends[0], layout->section_ends[1], 'A'};
    return layout->document && layout->section;
}

static void changed(PinLayout *layout)
{
    gtk_widget_queue_draw(GTK_WIDGET(layout));
    g_signal_emit_by_name(layout, "section-changed");
}

void pin_layout_set_section(PinLayout *layout, gboolean on)
{
    if (!layout->document || layout->section == on)
        return;
    layout->section = on;
    layout->section_new = on;
    gtk_widget_set_cursor_from_name(GTK_WIDGET(layout), on ? "crosshair" : NULL);
    if (on) {
        const Stock *stock = &plate_settings(pin_document_plate(layout->document))->stock;
        double middle = length_to_mm(stock->width) / 2;
        pin_layout_set_face(layout, ID_TOP);
        layout->section_ends[0] = (Point){0, middle};
        layout->section_ends[1] = (Point){length_to_mm(stock->length), middle};
    }
    changed(layout);
}

/* --- by hand ---------------------------------------------------------------------------------- */

/* Drawn to the grid and to holes' centres, as things are. */
static Point snapped(PinLayout *layout, double x, double y)
{
    Place at = layout_place(layout, x, y);
    SnapSettings settings = layout_snap_settings(layout);
    if (settings.features)
        at =
            snap_place(pin_document_session(layout->document), layout->face, at, NULL, 0, &settings)
                .at;
    return (Point){length_to_mm(at.x), length_to_mm(at.y)};
}

static double from_line(PinLayout *layout, double x, double y)
{
    Point from = layout_from_face(layout, layout->section_ends[0]);
    Point to = layout_from_face(layout, layout->section_ends[1]);
    Point way = point_minus(to, from), p = point_minus((Point){x, y}, from);
    double length = point_length(way);
    if (length < 1)
        return point_length(p);
    double along = point_dot(p, way) / length;
    return along < 0 || along > length ? INFINITY : fabs(point_cross(way, p)) / length;
}

static SectionGrip grip_at(PinLayout *layout, double x, double y)
{
    if (layout->section_new)
        return GRIP_NEW;
    for (int end = 0; end < 2; end++)
        if (point_distance(layout_from_face(layout, layout->section_ends[end]), (Point){x, y}) <=
            END_REACH)
            return end ? GRIP_TO : GRIP_FROM;
    return from_line(layout, x, y) <= LINE_REACH ? GRIP_WHOLE : GRIP_NONE;
}

static void on_begin(GtkGestureDrag *gesture, double x, double y, PinLayout *layout)
{
    layout->section_grip = layout->document && layout->section && layout->face == ID_TOP &&
                                   !layout->space_held && layout_sign_at(layout, x, y) < 0
                               ? grip_at(layout, x, y)
                               : GRIP_NONE;
    if (layout->section_grip == GRIP_NONE) {
        gtk_gesture_set_state(GTK_GESTURE(gesture), GTK_EVENT_SEQUENCE_DENIED);
        return;
    }
    gtk_gesture_set_state(GTK_GESTURE(gesture), GTK_EVENT_SEQUENCE_CLAIMED);
    gtk_widget_grab_focus(GTK_WIDGET(layout));
    layout->section_from[0] = layout->section_ends[0];
    layout->section_from[1] = layout->section_ends[1];
    if (layout->section_grip == GRIP_NEW)
        layout->section_from[0] = snapped(layout, x, y);
}

static void on_update(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    double x, y;
    GdkModifierType keys =
        gtk_event_controller_get_current_event_state(GTK_EVENT_CONTROLLER(gesture));
    if (layout->section_grip == GRIP_NONE || !layout->document)
        return;
    layout->free_held = (keys & GDK_ALT_MASK) != 0;
    gtk_gesture_drag_get_start_point(gesture, &x, &y);
    Point at = snapped(layout, x + dx, y + dy);
    Point by = point_minus(at, snapped(layout, x, y));
    switch (layout->section_grip) {
    case GRIP_NEW:
        layout->section_ends[0] = layout->section_from[0];
        layout->section_ends[1] = at;
        break;
    case GRIP_FROM:
    case GRIP_TO:
        layout->section_ends[layout->section_grip == GRIP_TO] = at;
        break;
    case GRIP_WHOLE:
        layout->section_ends[0] = point_plus(layout->section_from[0], by);
        layout->section_ends[1] = point_plus(layout->section_from[1], by);
        break;
    case GRIP_NONE:
        break;
    }
    changed(layout);
}

static void on_end(GtkGestureDrag *gesture, double dx, double dy, PinLayout *layout)
{
    /* A press alone draws no line. */
    if (layout->section_grip == GRIP_NEW && hypot(dx, dy) > END_REACH) {
        layout->section_new = FALSE;
        gtk_widget_set_cursor(GTK_WIDGET(layout), NULL);
    }
    layout->section_grip = GRIP_NONE;
    changed(layout);
}

void layout_add_section(PinLayout *layout)
{
    GtkGesture *drag = gtk_gesture_drag_new();
    gtk_gesture_single_set_button(GTK_GESTURE_SINGLE(drag), GDK_BUTTON_PRIMARY);
    /* Before the hand that takes hold of things. */
    gtk_event_controller_set_propagation_phase(GTK_EVENT_CONTROLLER(drag), GTK_PHASE_CAPTURE);
    g_signal_connect(drag, "drag-begin", G_CALLBACK(on_begin), layout);
    g_signal_connect(drag, "drag-update", G_CALLBACK(on_update), layout);
    g_signal_connect(drag, "drag-end", G_CALLBACK(on_end), layout);
    gtk_widget_add_controller(GTK_WIDGET(layout), GTK_EVENT_CONTROLLER(drag));
}

/* --- drawing ---------------------------------------------------------------------------------- */

static void add_letters(Drawing *drawing, const SectionLine *line, const Point tails[2])
{
    char letter[] = {line->letter, '\0'};
    TextStyle style = {LETTER_HEIGHT, TEXT_MIDDLE, TEXT_CENTRE, 0};
    Point way = point_minus(tails[1], tails[0]);
    way = point_times(way, LETTER_HEIGHT / fmax(point_length(way), 1e-9));
    drawing_text(drawing, point_minus(tails[0], way), style, letter);
    drawing_text(drawing, point_plus(tails[1], way), style, letter);
}

static void draw_ends(PinLayout *layout, cairo_t *cairo)
{
    for (int end = 0; end < 2; end++) {
        Point at = layout_from_face(layout, layout->section_ends[end]);
        cairo_arc(cairo, at.x, at.y, END_RADIUS, 0, 2 * G_PI);
        palette_set(cairo, layout->dark, INK_STOCK, 1);
        cairo_fill_preserve(cairo);
        palette_set(cairo, layout->dark, INK_CHOSEN, 1);
        cairo_set_line_width(cairo, 2);
        cairo_stroke(cairo);
    }
}

void layout_draw_section(PinLayout *layout, GtkSnapshot *snapshot)
{
    SectionLine line;
    DrawingSource source = layout_source(layout);
    if (layout->face != ID_TOP || !pin_layout_section(layout, &line))
        return;
    Box box = BOX_EMPTY;
    for (int end = 0; end < 2; end++)
        box = box_with_point(box, layout_from_face(layout, layout->section_ends[end]));
    gboolean meets = section_clip(&source, &line);
    if (meets) {
        box = box_with_point(box, layout_from_face(layout, line.from));
        box = box_with_point(box, layout_from_face(layout, line.to));
    }
    cairo_t *cairo = layout_append(layout, snapshot, box_grown(box, 60));
    if (!cairo)
        return;
    if (meets) {
        Screen screen = {layout->dark, false};
        PlayStyle style = palette_screen_style(&screen);
        Point tails[2];
        layout_begin_drawing(layout->moving);
        section_mark(layout->moving, &line, layout_map(layout), tails);
        add_letters(layout->moving, &line, tails);
        cairo_save(cairo);
        cairo_translate(cairo, layout->x, layout->y);
        cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
        play_cairo_marks(layout->moving, 0, layout->moving->mark_count, 0, &style, cairo);
        cairo_restore(cairo);
    }
    draw_ends(layout, cairo);
    cairo_destroy(cairo);
}
