/* The handle that turns the one thing that is selected. */
#include "editor/layout-private.h"

#include "editor/palette.h"

#define HANDLE_AWAY 26.0 /* pixels beyond the thing */
#define HANDLE_RADIUS 6.0

gboolean layout_handle(PinLayout *layout, Point *at, Point *about)
{
    FeatureId id = pin_document_selected_one(layout->document);
    Session *session = pin_document_session(layout->document);
    const Feature *feature = placed_find(session_shown(session), id);
    const Record *record = plate_find(session_plate(session), id);
    if (!feature || !record || feature->face != layout->face || record_made(record) ||
        record_locked(record) || !record_rotation((Record *)record))
        return FALSE;
    if (record->kind == RECORD_RECESS && record->recess.kind >= RECESS_NEST)
        return FALSE; /* goes with its station */
    Point middle = {(feature->box.x0 + feature->box.x1) / 2,
                    (feature->box.y0 + feature->box.y1) / 2};
    *about = middle;
    Point top = layout_from_face(layout, (Point){middle.x, feature->box.y1});
    *at = (Point){top.x, top.y - HANDLE_AWAY};
    return TRUE;
}

void layout_draw_handle(PinLayout *layout, GtkSnapshot *snapshot)
{
    Point at, about;
    if (pin_document_drag(layout->document) && layout->pull != PULL_TURN)
        return;
    if (!layout_handle(layout, &at, &about))
        return;
    if (layout->pull == PULL_TURN)
        at = (Point){layout->pull_x, layout->pull_y};
    Point centre = layout_from_face(layout, about);
    Box box = {at.x - 10, at.y - 10, at.x + 10, at.y + HANDLE_AWAY + 2};
    if (layout->pull == PULL_TURN)
        box = box_grown(box_with_point(box, centre), 2);
    cairo_t *cairo = layout_append(layout, snapshot, box);
    if (!cairo)
        return;
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_set_line_width(cairo, 1);
    if (layout->pull == PULL_TURN)
        cairo_move_to(cairo, centre.x, centre.y);
    else
        cairo_move_to(cairo, at.x, at.y + HANDLE_AWAY - 4);
    cairo_line_to(cairo, at.x, at.y);
    cairo_stroke(cairo);
    cairo_arc(cairo, at.x, at.y, HANDLE_RADIUS, 0, 2 * G_PI);
    palette_set(cairo, layout->dark, INK_STOCK, 1);
    cairo_fill_preserve(cairo);
    palette_set(cairo, layout->dark, INK_CHOSEN, 1);
    cairo_set_line_width(cairo, 2);
    cairo_stroke(cairo);
    cairo_destroy(cairo);
}
