#include "editor/arrange-form.h"

#include "editor/access.h"
#include "editor/close-key.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/plate-picture.h"
#include "editor/speech.h"
#include "session/trial.h"
#include "trade/typed.h"

#define PICTURE_WIDTH 380
#define PICTURE_HEIGHT 280
#define COUNT_MOST 10000

typedef struct Open {
    const Form *form;
    GtkWidget *window, *picture, *accept;
    GtkLabel *found;
    GtkWidget *rows[FORM_FIELDS_MOST];
    PinDocument *document;
    Session *trial;
    GArray *ids;
} Open;

static void open_free(gpointer data)
{
    Open *open = data;
    session_free(open->trial);
    g_object_unref(open->document);
    g_array_unref(open->ids);
    g_free(open);
}

static const FeatureId *ids_of(const Open *open)
{
    return (const FeatureId *)(void *)open->ids->data;
}

/* --- what is typed -------------------------------------------------------------------------------
 */

static gboolean read_row(Open *open, guint number, FormValue *value, Error *error)
{
    const FormField *field = &open->form->fields[number];
    Unit unit = pin_document_unit(open->document);
    if (field->kind == FORM_CHOICE) {
        value->choice = (int)gtk_drop_down_get_selected(GTK_DROP_DOWN(open->rows[number]));
        return TRUE;
    }
    PinFieldRow *row = PIN_FIELD_ROW(open->rows[number]);
    const char *text = pin_field_row_text(row);
    char taken[TYPED_TAKEN_AS] = "";
    gboolean read =
        field->kind == FORM_LENGTH
            ? pin_typed_length_read(text, unit, &value->length, taken, sizeof taken, error)
        : field->kind == FORM_ANGLE ? pin_typed_angle_read(text, &value->angle, error)
                                    : typed_count_read(text, 1, COUNT_MOST, &value->count, error);
    if (read)
        pin_field_row_say(row, taken[0] ? taken : NULL);
    else
        pin_field_row_refuse(row, error);
    return read;
}

static gboolean make(Open *open, Session *session, Edit *edit, GArray *fresh, Error *error)
{
    FormValue values[FORM_FIELDS_MOST];
    for (guint i = 0; i < open->form->count; i++)
        if (!read_row(open, i, &values[i], error))
            return FALSE;
    return open->form->make(session, ids_of(open), open->ids->len, values, edit, fresh, error);
}

/* --- what it would be ----------------------------------------------------------------------------
 */

static void say_found(Open *open)
{
    FindingCounts now = finding_list_counts(session_findings(pin_document_session(open->document)));
    FindingCounts then = finding_list_counts(session_findings(open->trial));
    char *text = g_strdup_printf(
        _("Findings now: %u stop, %u caution, %u note.\nThen: %u stop, %u caution, %u note."),
        now.by_level[LEVEL_STOP], now.by_level[LEVEL_CAUTION], now.by_level[LEVEL_NOTE],
        then.by_level[LEVEL_STOP], then.by_level[LEVEL_CAUTION], then.by_level[LEVEL_NOTE]);
    gtk_label_set_label(open->found, text);
    g_free(text);
}

static void say_refused(Open *open, const Error *error)
{
    char *text = g_strdup(error->message);
    text[0] = g_ascii_toupper(text[0]);
    gtk_label_set_label(open->found, text);
    g_free(text);
}

static void try(Open *open)
{
    Edit edit = EDIT_EMPTY;
    Error error = {.kind = ERROR_NONE};
    bool made =
        make(open, open->trial, &edit, NULL, &error) && session_do(open->trial, &edit, &error);
    edit_clear(&edit);
    gtk_widget_set_sensitive(open->accept, made);
    if (!made) {
        say_refused(open, &error);
        return;
    }
    say_found(open);
    plate_picture_set(open->picture, session_plate(open->trial));
    session_undo(open->trial, NULL);
}

static void on_typed(PinFieldRow *row, const char *text, Open *open)
{
    try(open);
}

static void on_chosen(GtkDropDown *drop_down, GParamSpec *property, Open *open)
{
    try(open);
}

static void on_accept(GtkButton *button, Open *open)
{
    Edit edit = EDIT_EMPTY;
    Error error = {.kind = ERROR_NONE};
    GArray *fresh = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    if (!make(open, pin_document_session(open->document), &edit, fresh, &error)) {
        say_refused(open, &error);
    } else if (pin_document_do(open->document, &edit)) {
        if (fresh->len)
            pin_document_select(open->document, (FeatureId *)(void *)fresh->data, fresh->len);
        gtk_window_destroy(GTK_WINDOW(open->window));
        g_array_unref(fresh);
        return;
    }
    edit_clear(&edit);
    g_array_unref(fresh);
}

/* --- the window ----------------------------------------------------------------------------------
 */

static GtkWidget *choice_row(Open *open, GtkBox *box, const FormField *field)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = gtk_label_new(_(field->name));
    GtkStringList *list = gtk_string_list_new(NULL);
    for (gsize i = 0; field->choices[i]; i++)
        gtk_string_list_append(list, _(field->choices[i]));
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(list), NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_hexpand(label, TRUE);
    access_choice(GTK_DROP_DOWN(drop_down), _(field->name));
    gtk_box_append(GTK_BOX(row), label);
    gtk_box_append(GTK_BOX(row), drop_down);
    gtk_box_append(box, row);
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen), open);
    return drop_down;
}

static GtkWidget *typed_row(Open *open, GtkBox *box, const FormField *field)
{
    GtkWidget *row = pin_field_row_new(_(field->name));
    gboolean inch = pin_document_unit(open->document) == UNIT_INCH;
    pin_field_row_set(PIN_FIELD_ROW(row), inch ? field->inch : field->mm, TRUE);
    gtk_box_append(box, row);
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), open);
    return row;
}

static GtkWidget *add_label(GtkBox *box, const char *text)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 40);
    gtk_box_append(box, label);
    return label;
}

static void add_buttons(Open *open, GtkBox *box)
{
    GtkWidget *buttons = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *cancel = gtk_button_new_with_label(_("Cancel"));
    open->accept = gtk_button_new_with_label(_(open->form->accept));
    gtk_widget_add_css_class(open->accept, "suggested-action");
    gtk_widget_set_halign(buttons, GTK_ALIGN_END);
    gtk_widget_set_valign(buttons, GTK_ALIGN_END);
    gtk_widget_set_vexpand(buttons, TRUE);
    gtk_box_append(GTK_BOX(buttons), cancel);
    gtk_box_append(GTK_BOX(buttons), open->accept);
    gtk_box_append(box, buttons);
    g_signal_connect_swapped(cancel, "clicked", G_CALLBACK(gtk_window_destroy), open->window);
    g_signal_connect(open->accept, "clicked", G_CALLBACK(on_accept), open);
}

static GtkWidget *left_side(Open *open)
{
    GtkWidget *left = gtk_box_new(GTK_ORIENTATION_VERTICAL, 8);
    gtk_widget_set_size_request(left, 300, -1);
    gtk_widget_add_css_class(add_label(GTK_BOX(left), _(open->form->what)), "dim-label");
    for (guint i = 0; i < open->form->count; i++) {
        const FormField *field = &open->form->fields[i];
        open->rows[i] = field->kind == FORM_CHOICE ? choice_row(open, GTK_BOX(left), field)
                                                   : typed_row(open, GTK_BOX(left), field);
    }
    add_buttons(open, GTK_BOX(left));
    return left;
}

static GtkWidget *right_side(Open *open)
{
    GtkWidget *right = gtk_box_new(GTK_ORIENTATION_VERTICAL, 8);
    open->picture = plate_picture_new(PICTURE_WIDTH, PICTURE_HEIGHT);
    gtk_box_append(GTK_BOX(right), open->picture);
    open->found = GTK_LABEL(add_label(GTK_BOX(right), ""));
    return right;
}

void form_show(GtkWindow *parent, PinDocument *document, const Form *form)
{
    guint count;
    const FeatureId *ids = pin_document_selection(document, &count);
    Open *open = g_new0(Open, 1);
    open->form = form;
    open->document = g_object_ref(document);
    open->ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    g_array_append_vals(open->ids, ids, count);
    open->trial = trial_new(pin_document_session(document));
    open->window = gtk_window_new();
    gtk_window_set_transient_for(GTK_WINDOW(open->window), parent);
    gtk_window_set_modal(GTK_WINDOW(open->window), TRUE);
    gtk_window_set_resizable(GTK_WINDOW(open->window), FALSE);
    gtk_window_set_title(GTK_WINDOW(open->window), _(form->title));
    g_object_set_data_full(G_OBJECT(open->window), "open", open, open_free);
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 20);
    gtk_widget_add_css_class(box, "form");
    gtk_box_append(GTK_BOX(box), left_side(open));
    gtk_box_append(GTK_BOX(box), right_side(open));
    gtk_window_set_child(GTK_WINDOW(open->window), box);
    gtk_window_set_default_widget(GTK_WINDOW(open->window), open->accept);
    close_on_escape(open->window);
    try(open);
    gtk_window_present(GTK_WINDOW(open->window));
}
