#include "editor/figures-field.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/material.h"
#include "trade/size-words.h"

#include <string.h>

struct _PinFiguresField {
    GtkWidget parent_instance;
    GtkLabel *name, *caption;
    GtkBox *line;
    GtkWidget *input; /* a GtkEntry, GtkDropDown or GtkCheckButton */
    const FormField *field;
    GPtrArray *words; /* of a drop-down: what each choice says to the figure */
    gboolean quiet;
};

G_DEFINE_FINAL_TYPE(PinFiguresField, pin_figures_field, GTK_TYPE_WIDGET)

static void on_edited(PinFiguresField *field)
{
    if (!field->quiet)
        g_signal_emit_by_name(field, "edited");
}

/* --- its input ---------------------------------------------------------------------------------
 */

static GtkWidget *new_choice(PinFiguresField *field)
{
    GtkStringList *names = gtk_string_list_new(NULL);
    field->words = g_ptr_array_new();
    if (field->field->kind == FORM_MATERIAL) {
        if (!field->field->needed) {
            g_ptr_array_add(field->words, (gpointer) "");
            gtk_string_list_append(names, _("not said"));
        }
        for (size_t i = 0; i < material_count(); i++) {
            g_ptr_array_add(field->words, (gpointer)material_at(i)->name);
            char said[80];
            material_said(material_at(i)->name, pin_speech(), said, sizeof said);
            gtk_string_list_append(names, said);
        }
    } else {
        for (int i = 0; field->field->words[i]; i++) {
            g_ptr_array_add(field->words, (gpointer)field->field->words[i]);
            gtk_string_list_append(names, _(field->field->names[i]));
        }
    }
    GtkWidget *choice = gtk_drop_down_new(G_LIST_MODEL(names), NULL);
    gtk_widget_set_valign(choice, GTK_ALIGN_CENTER);
    return choice;
}

static GtkWidget *new_entry(void)
{
    GtkWidget *entry = gtk_entry_new();
    /* Figures are read from the left in every language. */
    gtk_widget_set_direction(GTK_WIDGET(gtk_editable_get_delegate(GTK_EDITABLE(entry))),
                             GTK_TEXT_DIR_LTR);
    gtk_editable_set_width_chars(GTK_EDITABLE(entry), 13);
    gtk_editable_set_max_width_chars(GTK_EDITABLE(entry), 13);
    gtk_widget_set_valign(entry, GTK_ALIGN_CENTER);
    return entry;
}

static void add_input(PinFiguresField *field)
{
    switch (field->field->kind) {
    case FORM_CHOICE:
    case FORM_MATERIAL:
        field->input = new_choice(field);
        g_signal_connect_swapped(field->input, "notify::selected", G_CALLBACK(on_edited), field);
        break;
    case FORM_FLAG:
        field->input = gtk_check_button_new();
        access_check(field->input);
        g_signal_connect_swapped(field->input, "toggled", G_CALLBACK(on_edited), field);
        break;
    default:
        field->input = new_entry();
        g_signal_connect_swapped(field->input, "changed", G_CALLBACK(on_edited), field);
    }
    gtk_box_append(field->line, field->input);
    gtk_label_set_mnemonic_widget(field->name, field->input);
    if (GTK_IS_DROP_DOWN(field->input))
        access_choice(GTK_DROP_DOWN(field->input), gtk_label_get_text(field->name));
    gtk_accessible_update_relation(GTK_ACCESSIBLE(field->input),
                                   GTK_ACCESSIBLE_RELATION_LABELLED_BY, field->name, NULL,
                                   GTK_ACCESSIBLE_RELATION_DESCRIBED_BY, field->caption, NULL, -1);
}

/* --- what is said ------------------------------------------------------------------------------
 */

const char *pin_figures_field_text(PinFiguresField *field)
{
    if (field->words) {
        guint chosen = gtk_drop_down_get_selected(GTK_DROP_DOWN(field->input));
        return chosen < field->words->len ? field->words->pdata[chosen] : "";
    }
    if (field->field->kind == FORM_FLAG)
        return gtk_check_button_get_active(GTK_CHECK_BUTTON(field->input)) ? "yes" : "";
    return gtk_editable_get_text(GTK_EDITABLE(field->input));
}

void pin_figures_field_set(PinFiguresField *field, const char *text)
{
    field->quiet = TRUE;
    if (field->words) {
        for (guint i = 0; i < field->words->len; i++)
            if (!strcmp(field->words->pdata[i], text))
                gtk_drop_down_set_selected(GTK_DROP_DOWN(field->input), i);
    } else if (field->field->kind == FORM_FLAG) {
        gtk_check_button_set_active(GTK_CHECK_BUTTON(field->input), *text != '\0');
    } else {
        char *shown = pin_figures(g_strdup(text));
        if (strcmp(pin_figures_field_text(field), shown) != 0)
            gtk_editable_set_text(GTK_EDITABLE(field->input), shown);
        g_free(shown);
    }
    field->quiet = FALSE;
}

void pin_figures_field_say(PinFiguresField *field, const char *text, gboolean refused)
{
    gboolean any = text && *text;
    gtk_label_set_label(field->caption, any ? text : "");
    gtk_widget_set_visible(GTK_WIDGET(field->caption), any);
    if (refused) {
        gtk_widget_add_css_class(GTK_WIDGET(field), "refused");
        gtk_accessible_update_state(GTK_ACCESSIBLE(field->input), GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE, -1);
    } else {
        gtk_widget_remove_css_class(GTK_WIDGET(field), "refused");
        gtk_accessible_reset_state(GTK_ACCESSIBLE(field->input), GTK_ACCESSIBLE_STATE_INVALID);
    }
}

/* --- the widget --------------------------------------------------------------------------------
 */

static gboolean pin_figures_field_grab_focus(GtkWidget *widget)
{
    return gtk_widget_grab_focus(PIN_FIGURES_FIELD(widget)->input);
}

static void pin_figures_field_dispose(GObject *object)
{
    PinFiguresField *field = PIN_FIGURES_FIELD(object);
    GtkWidget *child;
    field->quiet = TRUE;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    g_clear_pointer(&field->words, g_ptr_array_unref);
    G_OBJECT_CLASS(pin_figures_field_parent_class)->dispose(object);
}

static void pin_figures_field_class_init(PinFiguresFieldClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_figures_field_dispose;
    widget->grab_focus = pin_figures_field_grab_focus;
    g_signal_new("edited", PIN_TYPE_FIGURES_FIELD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/figures-field.ui");
    gtk_widget_class_bind_template_child(widget, PinFiguresField, name);
    gtk_widget_class_bind_template_child(widget, PinFiguresField, line);
    gtk_widget_class_bind_template_child(widget, PinFiguresField, caption);
    gtk_widget_class_set_css_name(widget, "fieldrow");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_figures_field_init(PinFiguresField *field)
{
    gtk_widget_init_template(GTK_WIDGET(field));
}

GtkWidget *pin_figures_field_new(const FormField *form_field, const char *text)
{
    PinFiguresField *field = g_object_new(PIN_TYPE_FIGURES_FIELD, NULL);
    field->field = form_field;
    gtk_label_set_label(field->name, _(form_field->name));
    add_input(field);
    if (text)
        pin_figures_field_set(field, text);
    return GTK_WIDGET(field);
}
