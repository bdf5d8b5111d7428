#include "editor/field-row.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/typed.h"

struct _PinFieldRow {
    GtkWidget parent_instance;
    GtkLabel *name;
    GtkEntry *entry;
    GtkLabel *caption;
    char *shown; /* the text as it was last set */
};

G_DEFINE_FINAL_TYPE(PinFieldRow, pin_field_row, GTK_TYPE_WIDGET)

static void finish(PinFieldRow *row)
{
    const char *text = gtk_editable_get_text(GTK_EDITABLE(row->entry));
    if (g_strcmp0(text, row->shown) == 0)
        return;
    g_free(row->shown);
    row->shown = g_strdup(text);
    char *typed = g_strdup(text);
    g_object_ref(row);
    g_signal_emit_by_name(row, "typed", typed);
    g_object_unref(row);
    g_free(typed);
}

static void on_activate(GtkEntry *entry, PinFieldRow *row)
{
    finish(row);
    gtk_editable_select_region(GTK_EDITABLE(entry), 0, -1);
}

/* What Enter does, for what has no keys: the toolkit's own action of an entry does nothing here. */
static void on_enter(GtkWidget *widget, const char *action, GVariant *parameter)
{
    finish(PIN_FIELD_ROW(widget));
}

static void on_leave(GtkEventControllerFocus *focus, PinFieldRow *row)
{
    finish(row);
}

/* Before the entry has the key: while nothing is being typed, undo is the plate's and not the
 * entry's. */
static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state,
                       PinFieldRow *row)
{
    GtkEditable *entry = GTK_EDITABLE(row->entry);
    gboolean typing = g_strcmp0(gtk_editable_get_text(entry), row->shown) != 0;
    gboolean undo = (state & GDK_CONTROL_MASK) && (key == GDK_KEY_z || key == GDK_KEY_Z);
    if (undo && !typing)
        return gtk_widget_activate_action(GTK_WIDGET(row),
                                          state & GDK_SHIFT_MASK ? "win.redo" : "win.undo", NULL);
    if (key != GDK_KEY_Escape || !typing)
        return FALSE;
    gtk_editable_set_text(entry, row->shown);
    pin_field_row_say(row, NULL);
    return TRUE;
}

static void pin_field_row_dispose(GObject *object)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_field_row_parent_class)->dispose(object);
}

static void pin_field_row_finalize(GObject *object)
{
    g_free(PIN_FIELD_ROW(object)->shown);
    G_OBJECT_CLASS(pin_field_row_parent_class)->finalize(object);
}

static void pin_field_row_class_init(PinFieldRowClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_field_row_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_field_row_finalize;
    g_signal_new("typed", PIN_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                 1, G_TYPE_STRING);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/field-row.ui");
    gtk_widget_class_bind_template_child(widget, PinFieldRow, name);
    gtk_widget_class_bind_template_child(widget, PinFieldRow, entry);
    gtk_widget_class_bind_template_child(widget, PinFieldRow, caption);
    gtk_widget_class_install_action(widget, "field.enter", NULL, on_enter);
    gtk_widget_class_set_css_name(widget, "fieldrow");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

/* What is typed is read from the left in every language when it is a figure: its sign stands before
 * it. Words are read as the language is. */
static void set_direction(PinFieldRow *row, GtkTextDirection direction)
{
    GtkEditable *text = gtk_editable_get_delegate(GTK_EDITABLE(row->entry));
    gtk_widget_set_direction(GTK_WIDGET(text), direction);
}

static void pin_field_row_init(PinFieldRow *row)
{
    gtk_widget_init_template(GTK_WIDGET(row));
    row->shown = g_strdup("");
    set_direction(row, GTK_TEXT_DIR_LTR);
    g_signal_connect(row->entry, "activate", G_CALLBACK(on_activate), row);
    GtkEventController *focus = gtk_event_controller_focus_new();
    g_signal_connect(focus, "leave", G_CALLBACK(on_leave), row);
    gtk_widget_add_controller(GTK_WIDGET(row->entry), focus);
    GtkEventController *keys = gtk_event_controller_key_new();
    gtk_event_controller_set_propagation_phase(keys, GTK_PHASE_CAPTURE);
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), row);
    gtk_widget_add_controller(GTK_WIDGET(row->entry), keys);
}

GtkWidget *pin_field_row_new(const char *name)
{
    PinFieldRow *row = g_object_new(PIN_TYPE_FIELD_ROW, NULL);
    gtk_label_set_label(row->name, name);
    access_name(GTK_WIDGET(row), name);
    return GTK_WIDGET(row);
}

void pin_field_row_set(PinFieldRow *row, const char *text, gboolean anyway)
{
    const char *now = gtk_editable_get_text(GTK_EDITABLE(row->entry));
    gboolean typing = g_strcmp0(now, row->shown) != 0;
    if (g_strcmp0(text, row->shown) == 0 && !typing)
        return;
    if (typing && !anyway)
        return;
    g_free(row->shown);
    row->shown = g_strdup(text);
    gtk_editable_set_text(GTK_EDITABLE(row->entry), text);
}

const char *pin_field_row_text(PinFieldRow *row)
{
    return gtk_editable_get_text(GTK_EDITABLE(row->entry));
}

void pin_field_row_say(PinFieldRow *row, const char *caption)
{
    if (gtk_widget_has_css_class(GTK_WIDGET(row), "refused"))
        gtk_accessible_reset_property(GTK_ACCESSIBLE(row->entry),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
    gtk_widget_remove_css_class(GTK_WIDGET(row), "refused");
    gtk_label_set_label(row->caption, caption ? caption : "");
    gtk_widget_set_visible(GTK_WIDGET(row->caption), caption && *caption);
    gtk_accessible_reset_state(GTK_ACCESSIBLE(row->entry), GTK_ACCESSIBLE_STATE_INVALID);
}

void pin_field_row_refuse(PinFieldRow *row, const Error *error)
{
    pin_field_row_say(row, error->message);
    gtk_widget_add_css_class(GTK_WIDGET(row), "refused");
    gtk_accessible_update_state(GTK_ACCESSIBLE(row->entry), GTK_ACCESSIBLE_STATE_INVALID,
                                GTK_ACCESSIBLE_INVALID_TRUE, -1);
    gtk_accessible_update_property(GTK_ACCESSIBLE(row->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                   error->message, -1);
}

void pin_field_row_mark(PinFieldRow *row, const char *finding)
{
    gtk_entry_set_icon_from_icon_name(row->entry, GTK_ENTRY_ICON_SECONDARY,
                                      finding ? "dialog-warning-symbolic" : NULL);
    gtk_entry_set_icon_activatable(row->entry, GTK_ENTRY_ICON_SECONDARY, FALSE);
    gtk_entry_set_icon_tooltip_text(row->entry, GTK_ENTRY_ICON_SECONDARY, finding);
    if (finding)
        gtk_accessible_update_property(GTK_ACCESSIBLE(row->entry),
                                       GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, finding, -1);
    else
        gtk_accessible_reset_property(GTK_ACCESSIBLE(row->entry),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION);
    if (finding)
        gtk_widget_add_css_class(GTK_WIDGET(row), "found");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(row), "found");
}

void pin_field_row_set_wide(PinFieldRow *row)
{
    set_direction(row, GTK_TEXT_DIR_NONE);
    GtkWidget *box = gtk_widget_get_parent(GTK_WIDGET(row->name));
    gtk_orientable_set_orientation(GTK_ORIENTABLE(box), GTK_ORIENTATION_VERTICAL);
    gtk_box_set_spacing(GTK_BOX(box), 2);
    gtk_editable_set_max_width_chars(GTK_EDITABLE(row->entry), -1);
    gtk_widget_set_hexpand(GTK_WIDGET(row->entry), TRUE);
}

gboolean pin_field_row_length(PinFieldRow *row, Unit unit, Length *length)
{
    char taken_as[TYPED_TAKEN_AS];
    Error error;
    if (!pin_typed_length_read(pin_field_row_text(row), unit, length, taken_as, sizeof taken_as,
                               &error)) {
        pin_field_row_refuse(row, &error);
        return FALSE;
    }
    pin_field_row_say(row, taken_as);
    return TRUE;
}
