#include "editor/preferences-window.h"

#include "editor/access.h"
#include "editor/close-key.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/preferences.h"
#include "editor/speech.h"

#define WIDTH 460
#define HEIGHT_MOST 560

/* What is chosen of a few; a key of the settings with its values and how they are said. */
typedef struct Choice {
    const char *key, *name;
    const char *values[3], *words[3];
} Choice;

static const Choice choices[] = {
    {"unit", N_("Unit"), {"inch", "mm"}, {N_("inch"), N_("millimetre")}},
    {"projection",
     N_("Projection of the drawing"),
     {"third", "first"},
     {N_("third angle"), N_("first angle")}},
    {"limits",
     N_("Limits of the checks"),
     {"usual", "wider"},
     {N_("the usual ones"), N_("walls and threads half as much again")}},
};

/* What is typed; a length is kept as it was typed. */
static const struct Typed {
    const char *key, *name;
    gboolean words;
    Unit unit;
} typed[] = {
    {"shop", N_("Name of the shop"), TRUE, UNIT_MM},
    {"grid-inch", N_("Grid of plates in inches"), FALSE, UNIT_INCH},
    {"grid-mm", N_("Grid of plates in millimetres"), FALSE, UNIT_MM},
};

/* --- the hand ------------------------------------------------------------------------------------
 */

static void on_chosen(GtkDropDown *drop_down, GParamSpec *property, gpointer data)
{
    const Choice *choice = data;
    guint at = gtk_drop_down_get_selected(drop_down);
    if (at < G_N_ELEMENTS(choice->values) && choice->values[at])
        preference_set_text(choice->key, choice->values[at]);
}

static void on_typed(PinFieldRow *row, const char *text, gpointer data)
{
    const struct Typed *field = data;
    Length length;
    Error error;
    if (!field->words && !pin_field_row_length(row, field->unit, &length))
        return;
    if (!field->words && length < 0) {
        error_set(&error, ERROR_TYPED, NULL, "%s", _("a grid's step is more than 0; 0 is no grid"));
        pin_field_row_refuse(row, &error);
        return;
    }
    preference_set_text(field->key, text);
}

/* --- the window ----------------------------------------------------------------------------------
 */

static void add_heading(GtkBox *box, const char *text)
{
    GtkWidget *label = g_object_new(GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_HEADING,
                                    "label", text, "xalign", 0.0, "wrap", TRUE, NULL);
    gtk_widget_add_css_class(label, "group-heading");
    gtk_box_append(box, label);
}

static void add_choice(GtkBox *box, const Choice *choice)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = gtk_label_new(_(choice->name));
    GtkStringList *words = gtk_string_list_new(NULL);
    char *now = preference_text(choice->key);
    guint at = 0;
    for (guint i = 0; i < G_N_ELEMENTS(choice->values) && choice->values[i]; i++) {
        gtk_string_list_append(words, _(choice->words[i]));
        if (g_str_equal(choice->values[i], now))
            at = i;
    }
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(words), NULL);
    gtk_drop_down_set_selected(GTK_DROP_DOWN(drop_down), at);
    access_choice(GTK_DROP_DOWN(drop_down), _(choice->name));
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_widget_set_valign(drop_down, GTK_ALIGN_CENTER);
    gtk_box_append(GTK_BOX(row), label);
    gtk_box_append(GTK_BOX(row), drop_down);
    gtk_box_append(box, row);
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen), (gpointer)choice);
    g_free(now);
}

static void add_typed(GtkBox *box, const struct Typed *field)
{
    GtkWidget *row = pin_field_row_new(_(field->name));
    char *now = preference_text(field->key);
    if (field->words)
        pin_field_row_set_wide(PIN_FIELD_ROW(row));
    pin_field_row_set(PIN_FIELD_ROW(row), field->words ? now : pin_figures(now), TRUE);
    gtk_box_append(box, row);
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), (gpointer)field);
    g_free(now);
}

/* The window's own actions keep these, and the menu shows them too. */
static void add_check(GtkBox *box, const char *action, const char *name)
{
    GtkWidget *check = gtk_check_button_new_with_label(name);
    access_check(check);
    gtk_actionable_set_action_name(GTK_ACTIONABLE(check), action);
    gtk_box_append(box, check);
}

static GtkWidget *all_rows(void)
{
    GtkBox *box = GTK_BOX(gtk_box_new(GTK_ORIENTATION_VERTICAL, 8));
    gtk_widget_add_css_class(GTK_WIDGET(box), "form");
    add_heading(box, _("New plates"));
    for (guint i = 0; i < G_N_ELEMENTS(choices); i++)
        add_choice(box, &choices[i]);
    add_typed(box, &typed[0]);
    add_heading(box, _("Handling"));
    add_check(box, "plate.snap", _("Snap while dragging"));
    add_check(box, "plate.both-units", _("Both units in the readout"));
    for (guint i = 1; i < G_N_ELEMENTS(typed); i++)
        add_typed(box, &typed[i]);
    return GTK_WIDGET(box);
}

static void on_preferences(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    GtkWidget *window = gtk_window_new(), *scrolled = gtk_scrolled_window_new();
    gtk_window_set_transient_for(GTK_WINDOW(window), data);
    gtk_window_set_modal(GTK_WINDOW(window), TRUE);
    gtk_window_set_title(GTK_WINDOW(window), _("Preferences"));
    gtk_window_set_default_size(GTK_WINDOW(window), WIDTH, -1);
    gtk_widget_insert_action_group(window, "plate", G_ACTION_GROUP(data));
    access_name(scrolled, _("Preferences"));
    gtk_scrolled_window_set_policy(GTK_SCROLLED_WINDOW(scrolled), GTK_POLICY_NEVER,
                                   GTK_POLICY_AUTOMATIC);
    gtk_scrolled_window_set_propagate_natural_height(GTK_SCROLLED_WINDOW(scrolled), TRUE);
    gtk_scrolled_window_set_max_content_height(GTK_SCROLLED_WINDOW(scrolled), HEIGHT_MOST);
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scrolled), all_rows());
    gtk_window_set_child(GTK_WINDOW(window), scrolled);
    close_on_escape(window);
    gtk_window_present(GTK_WINDOW(window));
}

void preferences_add_action(PinWindow *window)
{
    static const GActionEntry entries[] = {{.name = "preferences", .activate = on_preferences}};
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
