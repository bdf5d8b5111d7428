#include "editor/face-new.h"

#include "editor/access.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "session/inclined.h"
#include "trade/typed.h"

/* The ways a face can lie; the first four are FallsTo. */
#define BY_BREAK_LINE 4

struct _PinFaceNew {
    GtkWindow parent_instance;
    GtkBox *rows;
    GtkLabel *problem;
    GtkWidget *make, *cancel;
    GtkWidget *way;
    PinFieldRow *name, *angle, *run, *extent, *ends[2][2];
    PinDocument *document;
};

G_DEFINE_FINAL_TYPE(PinFaceNew, pin_face_new, GTK_TYPE_WINDOW)

static gboolean read_angle(PinFaceNew *question, Angle *angle)
{
    Error error;
    if (pin_typed_angle_read(pin_field_row_text(question->angle), angle, &error)) {
        pin_field_row_say(question->angle, NULL);
        return TRUE;
    }
    pin_field_row_refuse(question->angle, &error);
    return FALSE;
}

static gboolean read_place(PinFaceNew *question, int end, Place *at)
{
    Unit unit = pin_document_unit(question->document);
    Place datum = plate_datum(pin_document_plate(question->document));
    if (!pin_field_row_length(question->ends[end][0], unit, &at->x) ||
        !pin_field_row_length(question->ends[end][1], unit, &at->y))
        return FALSE;
    at->x += datum.x;
    at->y += datum.y;
    return TRUE;
}

static FeatureId make_along_side(PinFaceNew *question, FallsTo side, Edit *edit, Error *error)
{
    Angle angle;
    Length run;
    const char *name = pin_field_row_text(question->name);
    error->message[0] = '\0';
    if (!read_angle(question, &angle) ||
        !pin_field_row_length(question->run, pin_document_unit(question->document), &run))
        return ID_NONE;
    return new_inclined_face(pin_document_session(question->document), *name ? name : NULL, side,
                             run, angle, edit, error);
}

static FeatureId make_by_line(PinFaceNew *question, Edit *edit, Error *error)
{
    Face face = {.kind = FACE_INCLINED};
    const char *name = pin_field_row_text(question->name);
    error->message[0] = '\0';
    if (!read_angle(question, &face.angle) || !read_place(question, 0, &face.from) ||
        !read_place(question, 1, &face.to) ||
        !pin_field_row_length(question->extent, pin_document_unit(question->document),
                              &face.extent))
        return ID_NONE;
    Record *record =
        record_new(session_new_id(pin_document_session(question->document)), RECORD_FACE);
    record->face = face;
    record->face.name = g_strdup(*name ? name : _("Inclined face"));
    edit_set_name(edit, _("Make an inclined face"));
    edit_add(edit, NULL, record);
    return record->id;
}

static void on_make(PinFaceNew *question)
{
    Edit edit = EDIT_EMPTY;
    Error error;
    guint way = gtk_drop_down_get_selected(GTK_DROP_DOWN(question->way));
    FeatureId face = way == BY_BREAK_LINE ? make_by_line(question, &edit, &error)
                                          : make_along_side(question, (FallsTo)way, &edit, &error);
    bool made =
        face != ID_NONE && session_do(pin_document_session(question->document), &edit, &error);
    edit_clear(&edit);
    if (!made) {
        char *text = g_strdup(error.message);
        text[0] = g_ascii_toupper(text[0]);
        gtk_label_set_label(question->problem, text);
        gtk_widget_set_visible(GTK_WIDGET(question->problem), *text != '\0');
        g_free(text);
        return;
    }
    pin_document_changed(question->document);
    g_signal_emit_by_name(question, "made", face);
    gtk_window_destroy(GTK_WINDOW(question));
}

static void show_way(PinFaceNew *question)
{
    guint way = gtk_drop_down_get_selected(GTK_DROP_DOWN(question->way));
    gtk_widget_set_visible(GTK_WIDGET(question->run), way != BY_BREAK_LINE);
    gtk_widget_set_visible(GTK_WIDGET(question->extent), way == BY_BREAK_LINE);
    for (int end = 0; end < 2; end++)
        for (int i = 0; i < 2; i++)
            gtk_widget_set_visible(GTK_WIDGET(question->ends[end][i]), way == BY_BREAK_LINE);
}

/* The bevel of the first part that has one is what such a face is for. */
static Angle usual_angle(const Plate *plate)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_PART && record->part.bevel.angle > 0)
            return record->part.bevel.angle;
    }
    return 5 * ANGLE_DEGREE;
}

static void fill_length(PinFieldRow *row, Length length, Unit unit)
{
    char text[LENGTH_PEOPLE_TEXT];
    pin_length_text(length, unit, text);
    pin_field_row_set(row, text, TRUE);
}

static void fill(PinFaceNew *question)
{
    const Plate *plate = pin_document_plate(question->document);
    const Stock *stock = &plate_settings(plate)->stock;
    Unit unit = pin_document_unit(question->document);
    Place datum = plate_datum(plate);
    char text[LENGTH_TEXT];
    pin_angle_write(usual_angle(plate), text);
    pin_field_row_set(question->angle, text, TRUE);
    Length run = unit == UNIT_INCH ? LENGTH_INCH : 25 * LENGTH_MM;
    fill_length(question->run, run, unit);
    fill_length(question->extent, run, unit);
    /* From right to left along the front, so that the face falls to the front. */
    fill_length(question->ends[0][0], stock->length - datum.x, unit);
    fill_length(question->ends[0][1], run - datum.y, unit);
    fill_length(question->ends[1][0], -datum.x, unit);
    fill_length(question->ends[1][1], run - datum.y, unit);
}

static PinFieldRow *add_row(PinFaceNew *question, const char *name)
{
    GtkWidget *row = pin_field_row_new(name);
    gtk_box_append(question->rows, row);
    return PIN_FIELD_ROW(row);
}

static void add_rows(PinFaceNew *question)
{
    static const char *const ways[] = {N_("to the front"),      N_("to the right"),
                                       N_("to the back"),       N_("to the left"),
                                       N_("from a break line"), NULL};
    GtkStringList *words = gtk_string_list_new(NULL);
    for (int i = 0; ways[i]; i++)
        gtk_string_list_append(words, _(ways[i]));
    question->name = add_row(question, _("Name"));
    pin_field_row_set_wide(question->name);
    question->way = gtk_drop_down_new(G_LIST_MODEL(words), NULL);
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = gtk_label_new(_("It falls"));
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_label_set_mnemonic_widget(GTK_LABEL(label), question->way);
    access_choice(GTK_DROP_DOWN(question->way), _("It falls"));
    gtk_box_append(GTK_BOX(box), label);
    gtk_box_append(GTK_BOX(box), question->way);
    gtk_box_append(question->rows, box);
    question->angle = add_row(question, _("Angle below the top"));
    question->run = add_row(question, _("Break line from that side"));
    question->ends[0][0] = add_row(question, _("First end, X from the datum"));
    question->ends[0][1] = add_row(question, _("First end, Y from the datum"));
    question->ends[1][0] = add_row(question, _("Second end, X from the datum"));
    question->ends[1][1] = add_row(question, _("Second end, Y from the datum"));
    question->extent = add_row(question, _("Extent down the slope"));
    g_signal_connect_swapped(question->way, "notify::selected", G_CALLBACK(show_way), question);
}

GtkWidget *pin_face_new_new(GtkWindow *parent, PinDocument *document)
{
    PinFaceNew *question = g_object_new(PIN_TYPE_FACE_NEW, "transient-for", parent, NULL);
    question->document = g_object_ref(document);
    fill(question);
    show_way(question);
    return GTK_WIDGET(question);
}

static void pin_face_new_finalize(GObject *object)
{
    g_clear_object(&PIN_FACE_NEW(object)->document);
    G_OBJECT_CLASS(pin_face_new_parent_class)->finalize(object);
}

static void pin_face_new_class_init(PinFaceNewClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = pin_face_new_finalize;
    g_signal_new("made", PIN_TYPE_FACE_NEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 G_TYPE_UINT);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/face-new.ui");
    gtk_widget_class_bind_template_child(widget, PinFaceNew, rows);
    gtk_widget_class_bind_template_child(widget, PinFaceNew, problem);
    gtk_widget_class_bind_template_child(widget, PinFaceNew, make);
    gtk_widget_class_bind_template_child(widget, PinFaceNew, cancel);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void pin_face_new_init(PinFaceNew *question)
{
    gtk_widget_init_template(GTK_WIDGET(question));
    add_rows(question);
    g_signal_connect_swapped(question->make, "clicked", G_CALLBACK(on_make), question);
    g_signal_connect_swapped(question->cancel, "clicked", G_CALLBACK(gtk_window_close), question);
}
