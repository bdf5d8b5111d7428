#include "editor/figures-page.h"

#include "editor/figure-picture.h"
#include "editor/figures-answer.h"
#include "editor/figures-field.h"
#include "editor/figures-use.h"
#include "editor/figures-words.h"
#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/typed.h"

#include <string.h>

struct _PinFiguresPage {
    GtkWidget parent_instance;
    GtkBox *rows, *picture_place, *long_results;
    GtkLabel *answer_name, *answer_text, *formula, *source, *selected;
    GtkGrid *results;
    GtkWidget *use_bar, *sources;
    GtkButton *use;
    GtkWidget *picture;

    const FigureForm *form;
    GtkWidget *fields[FIGURES_FIELDS_MOST]; /* NULL for headings */
    Unit unit;
    gboolean touched; /* something was typed or chosen */
    PinDocument *document;
    FigureAnswer answer;
    FigureUse offered;
};

G_DEFINE_FINAL_TYPE(PinFiguresPage, pin_figures_page, GTK_TYPE_WIDGET)

/* --- results -----------------------------------------------------------------------------------
 */

#define LONG_TEXT 26 /* characters that still stand in a column */

static GtkWidget *new_label(const char *text, const char *class)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_yalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_wrap_mode(GTK_LABEL(label), PANGO_WRAP_WORD_CHAR);
    gtk_widget_add_css_class(label, class);
    return label;
}

static void empty(GtkWidget *box)
{
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(box)))
        gtk_widget_unparent(child);
}

/* Two columns, read down and then across; what is long stands below by itself. */
static void show_results(PinFiguresPage *page)
{
    const Figure *figure = &page->answer.figure;
    char texts[FIGURE_VALUES_MOST][FIGURES_TEXT];
    size_t shown[FIGURE_VALUES_MOST], count = 0;
    empty(GTK_WIDGET(page->results));
    empty(GTK_WIDGET(page->long_results));
    for (size_t i = 0; page->answer.worked_out && i < figure->result_count; i++) {
        const FigureValue *value = &figure->result[i];
        figures_text(value, page->unit, texts[i]);
        if (!strcmp(value->name, page->form->answer))
            continue;
        if (g_utf8_strlen(texts[i], -1) <= LONG_TEXT) {
            shown[count++] = i;
            continue;
        }
        char *name = figures_name(value), *line = g_strdup_printf("%s: %s", name, texts[i]);
        gtk_box_append(page->long_results, new_label(line, "numeric"));
        g_free(line);
        g_free(name);
    }
    size_t height = (count + 1) / 2;
    for (size_t i = 0; i < count; i++) {
        char *name = figures_name(&figure->result[shown[i]]);
        GtkWidget *name_label = new_label(name, "dim-label");
        GtkWidget *value_label = new_label(texts[shown[i]], "numeric");
        int column = (int)(i / height) * 2, row = (int)(i % height);
        gtk_label_set_width_chars(GTK_LABEL(name_label), 16);
        gtk_label_set_max_width_chars(GTK_LABEL(name_label), 16);
        gtk_label_set_wrap(GTK_LABEL(value_label), FALSE);
        gtk_widget_set_hexpand(value_label, TRUE);
        gtk_accessible_update_relation(GTK_ACCESSIBLE(value_label),
                                       GTK_ACCESSIBLE_RELATION_LABELLED_BY, name_label, value_label,
                                       NULL, -1);
        gtk_grid_attach(page->results, name_label, column, row, 1, 1);
        gtk_grid_attach(page->results, value_label, column + 1, row, 1, 1);
        g_free(name);
    }
}

static void set_class(GtkLabel *label, const char *class, gboolean on)
{
    if (on)
        gtk_widget_add_css_class(GTK_WIDGET(label), class);
    else
        gtk_widget_remove_css_class(GTK_WIDGET(label), class);
}

static void show_answer(PinFiguresPage *page)
{
    const FigureAnswer *answer = &page->answer;
    const FigureValue *value =
        answer->worked_out ? figure_result(&answer->figure, page->form->answer) : NULL;
    if (answer->worked_out && !value && answer->figure.result_count)
        value = &answer->figure.result[0];
    char text[FIGURES_TEXT];
    char *name = value ? figures_name(value) : NULL;
    gtk_label_set_label(page->answer_name, name ? name : "");
    gtk_widget_set_visible(GTK_WIDGET(page->answer_name), name != NULL);
    gtk_label_set_label(page->answer_text,
                        value ? figures_text(value, page->unit, text) : answer->problem);
    g_free(name);
    set_class(page->answer_text, "page-heading", answer->worked_out);
    set_class(page->answer_text, "error", !answer->worked_out && !answer->waiting);
    gtk_widget_set_visible(page->sources, answer->worked_out);
    if (!answer->worked_out)
        return;
    char *formula =
        g_strdup_printf(_("Formula: %s"), speech_say(pin_speech(), answer->figure.formula));
    char *source =
        g_strdup_printf(_("Source: %s"), speech_say(pin_speech(), answer->figure.source));
    gtk_label_set_label(page->formula, formula);
    gtk_label_set_label(page->source, source);
    g_free(formula);
    g_free(source);
}

static void show_fields(PinFiguresPage *page)
{
    const FigureAnswer *answer = &page->answer;
    for (int i = 0; page->form->fields[i].name; i++) {
        if (!page->fields[i])
            continue;
        gboolean wrong = i == answer->field && !answer->worked_out && !answer->waiting;
        pin_figures_field_say(PIN_FIGURES_FIELD(page->fields[i]),
                              wrong ? answer->problem : answer->taken_as[i], wrong);
    }
}

/* --- use ---------------------------------------------------------------------------------------
 */

static const Record *selected_record(PinFiguresPage *page)
{
    if (!page->document)
        return NULL;
    FeatureId id = pin_document_selected_one(page->document);
    return id == ID_NONE ? NULL : plate_find(pin_document_plate(page->document), id);
}

static char *selected_words(PinFiguresPage *page, const Record *record)
{
    const char *label = record ? record_label(record) : NULL;
    if (!page->document)
        return g_strdup(_("On a plate the answer can be used in a selected hole."));
    if (!record || record->kind != RECORD_HOLE)
        return g_strdup(_("Select one hole on the plate to use the answer in it."));
    if (!page->answer.worked_out)
        return g_strdup_printf(_("Hole %s is selected."), label ? label : "");
    switch (page->offered.used) {
    case USE_MADE:
        return g_strdup_printf(_("Hole %s is made: it can't be changed."), label ? label : "");
    case USE_LOCKED:
        return g_strdup_printf(_("Hole %s is locked: unlock it first."), label ? label : "");
    case USE_SAME:
        return g_strdup_printf(_("Hole %s has it so."), label ? label : "");
    case USE_OFFERED:
        return g_strdup_printf(_("Hole %s is selected."), label ? label : "");
    default:
        return g_strdup_printf(_("Hole %s has no one step that this is for."), label ? label : "");
    }
}

static void forget_use(PinFiguresPage *page)
{
    if (page->offered.after)
        record_unref(page->offered.after);
    page->offered = (FigureUse){0};
}

static void offer(PinFiguresPage *page)
{
    const Record *record = selected_record(page);
    forget_use(page);
    if (page->answer.worked_out)
        page->offered = figures_use(&page->answer.figure, record);
    char *words = selected_words(page, record);
    gtk_label_set_label(page->selected, words);
    g_free(words);
    gtk_button_set_label(page->use, page->offered.used == USE_OFFERED
                                        ? page->offered.words
                                        : _("Use in the selected thing"));
    gtk_widget_set_sensitive(GTK_WIDGET(page->use), page->offered.used == USE_OFFERED);
}

static void on_use(GtkButton *button, PinFiguresPage *page)
{
    if (page->offered.used != USE_OFFERED || !page->document)
        return;
    FigureUse use = page->offered;
    page->offered = (FigureUse){0};
    pin_document_change(page->document, use.name, use.after);
    offer(page);
    g_signal_emit_by_name(page, "answered");
}

/* --- answering ---------------------------------------------------------------------------------
 */

static void answer(PinFiguresPage *page)
{
    char *texts[FIGURES_FIELDS_MOST] = {0};
    for (int i = 0; page->form->fields[i].name; i++)
        texts[i] = pin_typed_plain(
            page->fields[i] ? pin_figures_field_text(PIN_FIGURES_FIELD(page->fields[i])) : "");
    figures_answer(page->form, (const char *const *)texts, page->unit, &page->answer);
    for (int i = 0; page->form->fields[i].name; i++)
        g_free(texts[i]);
    show_fields(page);
    show_answer(page);
    show_results(page);
    figure_picture_set(page->picture, page->answer.worked_out ? &page->answer.figure : NULL,
                       page->unit);
    offer(page);
    g_signal_emit_by_name(page, "answered");
}

static void on_edited(GtkWidget *field, PinFiguresPage *page)
{
    page->touched = TRUE;
    for (int i = 0; page->form->fields[i].name; i++) {
        const char *instead = page->form->fields[i].instead;
        if (page->fields[i] != field || !instead ||
            !*pin_figures_field_text(PIN_FIGURES_FIELD(field)))
            continue;
        for (int j = 0; page->form->fields[j].name; j++)
            if (page->fields[j] && !g_strcmp0(page->form->fields[j].option, instead))
                pin_figures_field_set(PIN_FIGURES_FIELD(page->fields[j]), "");
    }
    answer(page);
}

/* --- the unit ----------------------------------------------------------------------------------
 */

/* The same length for another unit: as it was where it names its unit, with its unit added where
 * that can be read, else worked out. Free with g_free. */
static char *kept_length(const char *text, Unit from, Unit to)
{
    Length was, now;
    if (!pin_typed_length_read(text, from, &was, NULL, 0, NULL) ||
        (pin_typed_length_read(text, to, &now, NULL, 0, NULL) && now == was))
        return g_strdup(text);
    char *named = g_strconcat(text, " ", unit_name(from), NULL);
    if (pin_typed_length_read(named, to, &now, NULL, 0, NULL) && now == was)
        return named;
    g_free(named);
    char exact[LENGTH_TEXT];
    millionths_write(was, exact);
    return g_strconcat(pin_figures(exact), " mm", NULL);
}

static char *kept_limits(const char *text, Unit from, Unit to)
{
    const char *colon = strchr(text, ':');
    if (!colon)
        return g_strdup(text);
    char *first = g_strndup(text, (gsize)(colon - text));
    char *a = kept_length(first, from, to), *b = kept_length(colon + 1, from, to);
    char *both = g_strconcat(a, ":", b, NULL);
    g_free(first);
    g_free(a);
    g_free(b);
    return both;
}

static char *kept_text(const FormField *field, const char *text, Unit from, Unit to)
{
    switch (field->kind) {
    case FORM_DRILL:
    case FORM_HOLE:
    case FORM_LENGTH:
        return kept_length(text, from, to);
    case FORM_TEXT:
        return kept_limits(text, from, to);
    default:
        return g_strdup(text);
    }
}

void pin_figures_page_set_unit(PinFiguresPage *page, Unit unit)
{
    if (unit == page->unit)
        return;
    for (int i = 0; page->form->fields[i].name; i++) {
        if (!page->fields[i])
            continue;
        PinFiguresField *field = PIN_FIGURES_FIELD(page->fields[i]);
        const FormField *form = &page->form->fields[i];
        const char *start = unit == UNIT_INCH ? form->inch : form->mm;
        char *text = !page->touched && start
                         ? g_strdup(start)
                         : kept_text(form, pin_figures_field_text(field), page->unit, unit);
        pin_figures_field_set(field, text);
        g_free(text);
    }
    page->unit = unit;
    answer(page);
}

/* --- the widget --------------------------------------------------------------------------------
 */

void pin_figures_page_look(PinFiguresPage *page, PinDocument *document)
{
    g_set_object(&page->document, document);
    offer(page);
    g_signal_emit_by_name(page, "answered");
}

const char *pin_figures_page_answer(PinFiguresPage *page)
{
    return gtk_label_get_label(page->answer_text);
}

gboolean pin_figures_page_usable(PinFiguresPage *page)
{
    return page->offered.used == USE_OFFERED;
}

static void add_field(PinFiguresPage *page, int i)
{
    const FormField *field = &page->form->fields[i];
    GtkWidget *row;
    if (field->kind == FORM_HEADING) {
        row = new_label(_(field->name), "group-heading");
    } else {
        row = pin_figures_field_new(field, page->unit == UNIT_INCH ? field->inch : field->mm);
        page->fields[i] = row;
        g_signal_connect(row, "edited", G_CALLBACK(on_edited), page);
    }
    gtk_box_append(page->rows, row);
}

GtkWidget *pin_figures_page_new(const FigureForm *form, Lettering *lettering, Unit unit)
{
    PinFiguresPage *page = g_object_new(PIN_TYPE_FIGURES_PAGE, NULL);
    page->form = form;
    page->unit = unit;
    for (int i = 0; i < FIGURES_FIELDS_MOST && form->fields[i].name; i++)
        add_field(page, i);
    page->picture = figure_picture_new(lettering, _(form->picture));
    gtk_box_append(page->picture_place, page->picture);
    gtk_widget_set_visible(page->use_bar, figures_use_any(form->what));
    answer(page);
    return GTK_WIDGET(page);
}

static gboolean pin_figures_page_grab_focus(GtkWidget *widget)
{
    PinFiguresPage *page = PIN_FIGURES_PAGE(widget);
    return page->fields[0] && gtk_widget_grab_focus(page->fields[0]);
}

static void pin_figures_page_dispose(GObject *object)
{
    PinFiguresPage *page = PIN_FIGURES_PAGE(object);
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    g_clear_object(&page->document);
    forget_use(page);
    G_OBJECT_CLASS(pin_figures_page_parent_class)->dispose(object);
}

#define BIND(member) gtk_widget_class_bind_template_child(widget, PinFiguresPage, member)

static void pin_figures_page_class_init(PinFiguresPageClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_figures_page_dispose;
    widget->grab_focus = pin_figures_page_grab_focus;
    g_signal_new("answered", PIN_TYPE_FIGURES_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/figures-page.ui");
    BIND(rows);
    BIND(picture_place);
    BIND(long_results);
    BIND(answer_name);
    BIND(answer_text);
    BIND(formula);
    BIND(source);
    BIND(selected);
    BIND(results);
    BIND(use_bar);
    BIND(sources);
    BIND(use);
    gtk_widget_class_set_css_name(widget, "figurespage");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_figures_page_init(PinFiguresPage *page)
{
    gtk_widget_init_template(GTK_WIDGET(page));
    g_signal_connect(page->use, "clicked", G_CALLBACK(on_use), page);
}
