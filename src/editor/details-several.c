/* Several things: moved and turned together by typed figures. */
#include "editor/details-private.h"

#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "session/selection.h"
#include "trade/typed.h"

static void on_move_by(PinFieldRow *row, const char *text, PinDetails *details)
{
    gboolean y = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(row), "y"));
    Length by;
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    if (!*text || !pin_field_row_length(row, pin_document_unit(details->document), &by))
        return;
    if (!selection_move(pin_document_session(details->document), ids, count, y ? 0 : by, y ? by : 0,
                        &edit, &error)) {
        pin_field_row_refuse(row, &error);
        return;
    }
    pin_document_do(details->document, &edit);
    pin_field_row_set(row, "", TRUE);
}

static Place middle_of(PinDetails *details)
{
    const Placed *placed = session_placed(pin_document_session(details->document));
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Box box = BOX_EMPTY;
    for (guint i = 0; i < count; i++) {
        const Feature *feature = placed_find(placed, ids[i]);
        if (feature)
            box = box_union(box, feature->box);
    }
    return (Place){length_from_mm((box.x0 + box.x1) / 2), length_from_mm((box.y0 + box.y1) / 2)};
}

static void on_turn_by(PinFieldRow *row, const char *text, PinDetails *details)
{
    Angle by;
    guint count;
    const FeatureId *ids = pin_document_selection(details->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    if (!*text)
        return;
    if (!pin_typed_angle_read(text, &by, &error) ||
        !selection_turn(pin_document_session(details->document), ids, count, middle_of(details), by,
                        &edit, &error)) {
        pin_field_row_refuse(row, &error);
        return;
    }
    pin_document_do(details->document, &edit);
    pin_field_row_set(row, "", TRUE);
}

static void add_group_row(PinDetails *details, const char *name, GCallback typed, gboolean y)
{
    GtkWidget *row = pin_field_row_new(name);
    g_object_set_data(G_OBJECT(row), "y", GINT_TO_POINTER(y));
    g_signal_connect(row, "typed", typed, details);
    gtk_box_append(details->rows, row);
}

void details_add_several(PinDetails *details)
{
    add_group_row(details, _("Move along X by"), G_CALLBACK(on_move_by), FALSE);
    add_group_row(details, _("Move along Y by"), G_CALLBACK(on_move_by), TRUE);
    add_group_row(details, _("Turn about the middle by"), G_CALLBACK(on_turn_by), FALSE);
}
