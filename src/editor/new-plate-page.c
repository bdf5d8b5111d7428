#include "editor/new-plate-page.h"

#include "editor/access.h"
#include "editor/choose-file.h"
#include "editor/field-row.h"
#include "editor/intl.h"
#include "editor/plate-picture.h"
#include "editor/preferences.h"
#include "editor/speech.h"
#include "plate/plate-file.h"
#include "session/new-plate.h"
#include "trade/typed.h"

#define PICTURE_WIDTH 440
#define PICTURE_HEIGHT 340

enum { STEP_STOCK, STEP_BASE, STEP_DATUM, STEP_COUNT };

/* Every length that is typed, in the order of the steps. */
typedef enum Ask {
    ASK_LENGTH,
    ASK_WIDTH,
    ASK_THICKNESS,
    ASK_ROUND_X,
    ASK_ROUND_Y,
    ASK_ROUND_DIAMETER,
    ASK_RELIEVED_X,
    ASK_RELIEVED_Y,
    ASK_RELIEVED_DIAMETER,
    ASK_PIN_DEPTH,
    ASK_INSET,
    ASK_PULL_DOWN,
    ASK_CLEAR,
    ASK_CLEAR_HEIGHT,
    ASK_DATUM_X,
    ASK_DATUM_Y,
    ASK_COUNT
} Ask;

static const char *const size_names[ASK_COUNT] = {
    N_("Length, along X"),
    N_("Width, along Y"),
    N_("Thickness"),
    N_("Round pin, X"),
    N_("Round pin, Y"),
    N_("Its diameter"),
    N_("Relieved pin, X"),
    N_("Relieved pin, Y"),
    N_("Its diameter"),
    N_("Depth in the plate"),
    N_("Inset from the edges"),
    N_("Pull-down's diameter"),
    N_("Kept clear round each"),
    N_("Kept clear above"),
    N_("Datum, X"),
    N_("Datum, Y"),
};

struct _PinNewPlatePage {
    GtkWidget parent_instance;
    GtkLabel *heading, *what, *trouble, *summary, *kept_name;
    GtkStack *steps;
    GtkBox *stock_rows, *base_rows, *pin_rows, *pull_down_rows, *datum_rows, *picture_box;
    GtkWidget *pins, *kept_box;
    GtkButton *back, *next, *create, *choose_kept;

    GtkDropDown *unit, *metal, *base, *pull_downs, *datum, *projection, *limits;
    PinFieldRow *name, *material, *base_name, *sizes[ASK_COUNT];
    GtkWidget *picture;
    Plate *kept;
    gboolean base_typed; /* the base's places are the maker's, no longer worked out */
    int step;
};

G_DEFINE_FINAL_TYPE(PinNewPlatePage, pin_new_plate_page, GTK_TYPE_WIDGET)

static gboolean is_inch(PinNewPlatePage *page)
{
    return gtk_drop_down_get_selected(page->unit) == 0;
}

static Unit unit_of(PinNewPlatePage *page)
{
    return is_inch(page) ? UNIT_INCH : UNIT_MM;
}

/* --- the answers ---------------------------------------------------------------------------------
 */

static gboolean is_asked(PinNewPlatePage *page, Ask size)
{
    if (size >= ASK_DATUM_X)
        return gtk_drop_down_get_selected(page->datum) == 4;
    return size <= ASK_THICKNESS || gtk_drop_down_get_selected(page->base) == NEW_BASE_PINS;
}

/* Reads all that is asked; where `said`, a row that can't be read says why. */
static gboolean read_sizes(PinNewPlatePage *page, gboolean said, Length sizes[ASK_COUNT],
                           int *wrong_step)
{
    gboolean good = TRUE;
    for (int i = 0; i < ASK_COUNT; i++) {
        Ask size = (Ask)i;
        sizes[i] = 0;
        if (!is_asked(page, size))
            continue;
        gboolean read = said ? pin_field_row_length(page->sizes[i], unit_of(page), &sizes[i])
                             : pin_typed_length_read(pin_field_row_text(page->sizes[i]),
                                                     unit_of(page), &sizes[i], NULL, 0, NULL);
        if (!read && good)
            *wrong_step = i >= ASK_DATUM_X    ? STEP_DATUM
                          : i > ASK_THICKNESS ? STEP_BASE
                                              : STEP_STOCK;
        good = good && read;
    }
    return good;
}

static Datum datum_of(PinNewPlatePage *page, const Length *sizes)
{
    guint chosen = gtk_drop_down_get_selected(page->datum);
    if (chosen < 4)
        return (Datum){.kind = DATUM_CORNER, .corner = (int)chosen};
    return (Datum){.kind = DATUM_POINT, .at = {sizes[ASK_DATUM_X], sizes[ASK_DATUM_Y]}};
}

static NewPlate answers_of(PinNewPlatePage *page, const Length *sizes, const char *shop)
{
    static const int counts[] = {0, 2, 4};
    return (NewPlate){
        .name = pin_field_row_text(page->name),
        .material = pin_field_row_text(page->material),
        .shop = shop,
        .length = sizes[ASK_LENGTH],
        .width = sizes[ASK_WIDTH],
        .thickness = sizes[ASK_THICKNESS],
        .unit = is_inch(page) ? PLATE_INCH : PLATE_MM,
        .projection = (int)gtk_drop_down_get_selected(page->projection),
        .metal = (int)gtk_drop_down_get_selected(page->metal),
        .limits = (int)gtk_drop_down_get_selected(page->limits),
        .base = (int)gtk_drop_down_get_selected(page->base),
        .base_name = pin_field_row_text(page->base_name),
        .round_pin = {sizes[ASK_ROUND_X], sizes[ASK_ROUND_Y]},
        .relieved_pin = {sizes[ASK_RELIEVED_X], sizes[ASK_RELIEVED_Y]},
        .round_diameter = sizes[ASK_ROUND_DIAMETER],
        .relieved_diameter = sizes[ASK_RELIEVED_DIAMETER],
        .pin_depth = sizes[ASK_PIN_DEPTH],
        .pull_downs = counts[gtk_drop_down_get_selected(page->pull_downs)],
        .pull_down_inset = sizes[ASK_INSET],
        .pull_down_diameter = sizes[ASK_PULL_DOWN],
        .clear_diameter = sizes[ASK_CLEAR],
        .clear_height = sizes[ASK_CLEAR_HEIGHT],
        .clear_name = _("pull-down"),
        .kept = page->kept,
        .datum = datum_of(page, sizes),
    };
}

/* The plate as the answers stand; NULL with what is wrong and the step it is in. */
static Plate *make(PinNewPlatePage *page, gboolean said, int *wrong_step, Error *error)
{
    Length sizes[ASK_COUNT];
    error->message[0] = '\0';
    if (!read_sizes(page, said, sizes, wrong_step))
        return NULL;
    char *shop = preference_text("shop");
    NewPlate answers = answers_of(page, sizes, shop);
    Plate *plate = new_plate_make(&answers, error);
    if (!plate)
        *wrong_step = g_str_equal(error->place, "base")    ? STEP_BASE
                      : g_str_equal(error->place, "datum") ? STEP_DATUM
                                                           : STEP_STOCK;
    g_free(shop);
    return plate;
}

/* --- what is seen --------------------------------------------------------------------------------
 */

static void say_summary(PinNewPlatePage *page, const Plate *plate)
{
    const Stock *stock = &plate_settings(plate)->stock;
    char length[LENGTH_PEOPLE_TEXT], width[LENGTH_PEOPLE_TEXT], thickness[LENGTH_PEOPLE_TEXT];
    pin_length_text(stock->length, unit_of(page), length);
    pin_length_text(stock->width, unit_of(page), width);
    pin_length_text_with_unit(stock->thickness, unit_of(page), thickness);
    const Record *base = plate_find(plate, plate_first_base(plate));
    char *text = g_strdup_printf("%s × %s × %s\n%s", length, width, thickness,
                                 base ? base->base.name : _("no base"));
    gtk_label_set_label(page->summary, text);
    g_free(text);
}

static void say_trouble(PinNewPlatePage *page, const char *text)
{
    char *shown = g_strdup(text);
    shown[0] = g_ascii_toupper(shown[0]);
    gtk_label_set_label(page->trouble, shown);
    g_free(shown);
}

static void update(PinNewPlatePage *page)
{
    Error error;
    int wrong;
    guint base = gtk_drop_down_get_selected(page->base);
    gtk_widget_set_visible(page->pins, base == NEW_BASE_PINS);
    gtk_widget_set_visible(GTK_WIDGET(page->base_name), base == NEW_BASE_PINS);
    gtk_widget_set_visible(page->kept_box, base == NEW_BASE_KEPT);
    gboolean point = gtk_drop_down_get_selected(page->datum) == 4;
    gtk_widget_set_visible(GTK_WIDGET(page->sizes[ASK_DATUM_X]), point);
    gtk_widget_set_visible(GTK_WIDGET(page->sizes[ASK_DATUM_Y]), point);
    Plate *plate = make(page, FALSE, &wrong, &error);
    plate_picture_set(page->picture, plate);
    say_trouble(page, plate ? "" : error.message);
    gtk_label_set_label(page->summary, "");
    if (plate)
        say_summary(page, plate);
    plate_free(plate);
}

static void set_size(PinNewPlatePage *page, Ask size, Length value)
{
    char text[LENGTH_PEOPLE_TEXT];
    pin_length_text(value, unit_of(page), text);
    pin_field_row_set(page->sizes[size], text, TRUE);
}

/* The pins stand on the middle line, near the ends; of two sizes, so that the plate goes on one way
 * round only. */
static void work_out_base(PinNewPlatePage *page)
{
    Length sizes[ASK_COUNT], inch = is_inch(page);
    int wrong;
    if (page->base_typed || !read_sizes(page, FALSE, sizes, &wrong))
        return;
    Length in = inch ? LENGTH_INCH * 3 / 4 : 20 * LENGTH_MM;
    Length step = inch ? LENGTH_INCH / 20 : LENGTH_MM / 2;
    Length middle = sizes[ASK_WIDTH] / 2 / step * step;
    set_size(page, ASK_ROUND_X, in);
    set_size(page, ASK_ROUND_Y, middle);
    set_size(page, ASK_RELIEVED_X, sizes[ASK_LENGTH] - in);
    set_size(page, ASK_RELIEVED_Y, middle);
    set_size(page, ASK_INSET, in);
}

static void set_starting_sizes(PinNewPlatePage *page)
{
    gboolean inch = is_inch(page);
    static const struct {
        Ask size;
        const char *inch, *mm;
    } starting[] = {
        {ASK_LENGTH, "8", "200"},
        {ASK_WIDTH, "6", "150"},
        {ASK_THICKNESS, "0.75", "20"},
        {ASK_ROUND_DIAMETER, "3/8", "10"},
        {ASK_RELIEVED_DIAMETER, "5/16", "8"},
        {ASK_PIN_DEPTH, "3/8", "10"},
        {ASK_PULL_DOWN, "1/4", "6"},
        {ASK_CLEAR, "5/8", "16"},
        {ASK_CLEAR_HEIGHT, "0", "0"},
        {ASK_DATUM_X, "0", "0"},
        {ASK_DATUM_Y, "0", "0"},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(starting); i++) {
        char *text = pin_figures(g_strdup(inch ? starting[i].inch : starting[i].mm));
        pin_field_row_set(page->sizes[starting[i].size], text, TRUE);
        g_free(text);
    }
    page->base_typed = FALSE;
    work_out_base(page);
}

/* As the maker chose before, or in the preferences. */
static void set_starting_choices(PinNewPlatePage *page)
{
    char *unit = preference_text("unit"), *projection = preference_text("projection");
    char *limits = preference_text("limits");
    gtk_drop_down_set_selected(page->unit, g_str_equal(unit, "mm") ? 1 : 0);
    gtk_drop_down_set_selected(page->projection, g_str_equal(projection, "first") ? 1 : 0);
    gtk_drop_down_set_selected(page->limits, g_str_equal(limits, "wider") ? 1 : 0);
    g_free(unit);
    g_free(projection);
    g_free(limits);
}

static void show_step(PinNewPlatePage *page, int step)
{
    static const char *const names[] = {"stock", "base", "datum"};
    static const char *const headings[] = {N_("New plate: stock"), N_("New plate: base"),
                                           N_("New plate: datum")};
    static const char *const what[] = {
        N_("Step 1 of 3. The stock as it lies on the machine, seen from above. Everything can be "
           "changed later."),
        N_("Step 2 of 3. What the plate drops onto: a round pin and a relieved one in its "
           "underside, and what pulls it down. Places are from the stock's front left corner."),
        N_("Step 3 of 3. What all drawn coordinates are measured from."),
    };
    page->step = step;
    gtk_stack_set_visible_child_name(page->steps, names[step]);
    gtk_label_set_label(page->heading, _(headings[step]));
    gtk_label_set_label(page->what, _(what[step]));
    gtk_widget_set_visible(GTK_WIDGET(page->next), step < STEP_DATUM);
}

/* --- the hand ------------------------------------------------------------------------------------
 */

static void on_typed(PinFieldRow *row, const char *text, PinNewPlatePage *page)
{
    Length length;
    for (int i = 0; i < ASK_COUNT; i++) {
        if (page->sizes[i] != row || !pin_field_row_length(row, unit_of(page), &length))
            continue;
        if (i > ASK_THICKNESS && i < ASK_DATUM_X)
            page->base_typed = TRUE;
        else if (i <= ASK_THICKNESS)
            work_out_base(page);
    }
    update(page);
}

static void on_chosen(GtkDropDown *drop_down, GParamSpec *property, PinNewPlatePage *page)
{
    update(page);
}

static void on_unit(GtkDropDown *drop_down, GParamSpec *property, PinNewPlatePage *page)
{
    set_starting_sizes(page);
    update(page);
}

static void take_kept(const char *path, gpointer data)
{
    PinNewPlatePage *page = data;
    Error error;
    Plate *plate = plate_read(path, NULL, &error);
    if (!plate) {
        char line[900];
        char *name = g_path_get_basename(path);
        g_strlcpy(error.file, name, sizeof error.file);
        error_line(&error, line, sizeof line);
        say_trouble(page, line);
        g_free(name);
        return;
    }
    g_clear_pointer(&page->kept, plate_free);
    page->kept = plate;
    const Record *base = plate_find(plate, plate_first_base(plate));
    char *file = g_path_get_basename(path);
    char *text = base ? g_strdup_printf(_("%s, from %s"), base->base.name, file)
                      : g_strdup_printf(_("%s carries no base."), file);
    gtk_label_set_label(page->kept_name, text);
    g_free(text);
    g_free(file);
    update(page);
}

static void on_choose_kept(GtkButton *button, PinNewPlatePage *page)
{
    choose_file_to_open(GTK_WINDOW(gtk_widget_get_root(GTK_WIDGET(page))), FILE_PLATE, take_kept,
                        page);
}

static void on_back(GtkButton *button, PinNewPlatePage *page)
{
    if (page->step == STEP_STOCK)
        g_signal_emit_by_name(page, "left");
    else
        show_step(page, page->step - 1);
}

static void on_next(GtkButton *button, PinNewPlatePage *page)
{
    show_step(page, page->step + 1);
}

static void on_create(GtkButton *button, PinNewPlatePage *page)
{
    Error error;
    int wrong;
    Plate *plate = make(page, TRUE, &wrong, &error);
    if (!plate) {
        show_step(page, wrong);
        say_trouble(page, error.message);
        return;
    }
    preference_set_text("unit", is_inch(page) ? "inch" : "mm");
    preference_set_text("projection",
                        gtk_drop_down_get_selected(page->projection) ? "first" : "third");
    preference_set_text("limits", gtk_drop_down_get_selected(page->limits) ? "wider" : "usual");
    g_signal_emit_by_name(page, "made", plate);
}

void pin_new_plate_page_begin(PinNewPlatePage *page)
{
    set_starting_choices(page);
    show_step(page, STEP_STOCK);
    gtk_widget_child_focus(GTK_WIDGET(page->stock_rows), GTK_DIR_TAB_FORWARD);
}

/* --- the widget ----------------------------------------------------------------------------------
 */

static GtkDropDown *add_choice(PinNewPlatePage *page, GtkBox *box, const char *name,
                               const char *const *choices)
{
    GtkWidget *row = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new(name);
    GtkStringList *list = gtk_string_list_new(NULL);
    for (gsize i = 0; choices[i]; i++)
        gtk_string_list_append(list, _(choices[i]));
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(list), NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_hexpand(label, TRUE);
    access_choice(GTK_DROP_DOWN(drop_down), name);
    gtk_box_append(GTK_BOX(row), label);
    gtk_box_append(GTK_BOX(row), drop_down);
    gtk_box_append(box, row);
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen), page);
    return GTK_DROP_DOWN(drop_down);
}

static PinFieldRow *add_words(PinNewPlatePage *page, GtkBox *box, const char *name)
{
    GtkWidget *row = pin_field_row_new(name);
    pin_field_row_set_wide(PIN_FIELD_ROW(row));
    g_signal_connect(row, "typed", G_CALLBACK(on_typed), page);
    gtk_box_append(box, row);
    return PIN_FIELD_ROW(row);
}

static void add_sizes(PinNewPlatePage *page, GtkBox *box, Ask first, Ask last)
{
    for (int i = (int)first; i <= (int)last; i++) {
        GtkWidget *row = pin_field_row_new(_(size_names[i]));
        g_signal_connect(row, "typed", G_CALLBACK(on_typed), page);
        gtk_box_append(box, row);
        page->sizes[i] = PIN_FIELD_ROW(row);
    }
}

static void add_rows(PinNewPlatePage *page)
{
    static const char *const units[] = {N_("inch"), N_("millimetre"), NULL};
    static const char *const metals[] = {N_("aluminium"), N_("steel"), NULL};
    static const char *const bases[] = {N_("No base yet"), N_("Two pins and pull-downs"),
                                        N_("The base of another plate"), NULL};
    static const char *const pull_downs[] = {N_("none"), N_("two"), N_("four"), NULL};
    static const char *const datums[] = {N_("Front left corner"), N_("Front right corner"),
                                         N_("Back right corner"), N_("Back left corner"),
                                         N_("A point"),           NULL};
    static const char *const projections[] = {N_("third angle"), N_("first angle"), NULL};
    static const char *const limits[] = {N_("the usual ones"),
                                         N_("walls and threads half as much again"), NULL};
    page->unit = add_choice(page, page->stock_rows, _("Unit"), units);
    page->name = add_words(page, page->stock_rows, _("Name of the plate"));
    add_sizes(page, page->stock_rows, ASK_LENGTH, ASK_THICKNESS);
    page->metal = add_choice(page, page->stock_rows, _("Metal"), metals);
    page->material = add_words(page, page->stock_rows, _("Material, by its designation"));
    page->base = add_choice(page, page->base_rows, _("Base"), bases);
    page->base_name = add_words(page, page->base_rows, _("Name of the base"));
    add_sizes(page, page->pin_rows, ASK_ROUND_X, ASK_PIN_DEPTH);
    page->pull_downs = add_choice(page, page->pull_down_rows, _("Pull-downs"), pull_downs);
    add_sizes(page, page->pull_down_rows, ASK_INSET, ASK_CLEAR_HEIGHT);
    page->datum = add_choice(page, page->datum_rows, _("Datum"), datums);
    add_sizes(page, page->datum_rows, ASK_DATUM_X, ASK_DATUM_Y);
    page->projection =
        add_choice(page, page->datum_rows, _("Projection of the drawing"), projections);
    page->limits = add_choice(page, page->datum_rows, _("Limits of the checks"), limits);
}

static void pin_new_plate_page_dispose(GObject *object)
{
    GtkWidget *child;
    PinNewPlatePage *page = PIN_NEW_PLATE_PAGE(object);
    g_clear_pointer(&page->kept, plate_free);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_new_plate_page_parent_class)->dispose(object);
}

#define BIND(member) gtk_widget_class_bind_template_child(widget, PinNewPlatePage, member)

static void pin_new_plate_page_class_init(PinNewPlatePageClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_new_plate_page_dispose;
    g_signal_new("made", PIN_TYPE_NEW_PLATE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 1, G_TYPE_POINTER);
    g_signal_new("left", PIN_TYPE_NEW_PLATE_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                 G_TYPE_NONE, 0);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/new-plate-page.ui");
    BIND(heading);
    BIND(what);
    BIND(trouble);
    BIND(summary);
    BIND(kept_name);
    BIND(steps);
    BIND(stock_rows);
    BIND(base_rows);
    BIND(pin_rows);
    BIND(pull_down_rows);
    BIND(datum_rows);
    BIND(picture_box);
    BIND(pins);
    BIND(kept_box);
    BIND(back);
    BIND(next);
    BIND(create);
    BIND(choose_kept);
    gtk_widget_class_set_css_name(widget, "newplate");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_new_plate_page_init(PinNewPlatePage *page)
{
    gtk_widget_init_template(GTK_WIDGET(page));
    page->picture = plate_picture_new(PICTURE_WIDTH, PICTURE_HEIGHT);
    gtk_box_prepend(page->picture_box, page->picture);
    add_rows(page);
    pin_field_row_set(page->base_name, _("Mill base 1"), TRUE);
    gtk_drop_down_set_selected(page->pull_downs, 2);
    set_starting_choices(page);
    set_starting_sizes(page);
    g_signal_connect(page->unit, "notify::selected", G_CALLBACK(on_unit), page);
    g_signal_connect(page->choose_kept, "clicked", G_CALLBACK(on_choose_kept), page);
    g_signal_connect(page->back, "clicked", G_CALLBACK(on_back), page);
    g_signal_connect(page->next, "clicked", G_CALLBACK(on_next), page);
    g_signal_connect(page->create, "clicked", G_CALLBACK(on_create), page);
    show_step(page, STEP_STOCK);
    update(page);
}
