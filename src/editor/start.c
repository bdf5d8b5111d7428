#include "editor/start.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/new-plate-page.h"
#include "editor/plate-picture.h"
#include "editor/recent.h"
#include "plate/plate-file.h"

#define PICTURE_WIDTH 190
#define PICTURE_HEIGHT 130
/* A larger file is read when it is opened and not for its picture. */
#define PICTURE_FILE_MOST (2 << 20)
#define EXAMPLES EDITOR_PATH "examples/"

struct _PinStart {
    GtkWidget parent_instance;
    GtkStack *pages;
    GtkButton *create;
    GtkFlowBox *recent, *examples;
    GtkLabel *no_recent;
    PinNewPlatePage *new_plate;
    GQueue waiting; /* cards whose pictures are not made yet; each held */
    guint idle;
};

G_DEFINE_FINAL_TYPE(PinStart, pin_start, GTK_TYPE_WIDGET)

/* --- pictures, one at a time while nothing else is to be done ------------------------------------
 */

static Plate *read_resource(const char *path)
{
    GBytes *bytes = g_resources_lookup_data(path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
    Plate *plate =
        bytes ? plate_parse(g_bytes_get_data(bytes, NULL), g_bytes_get_size(bytes), NULL) : NULL;
    g_clear_pointer(&bytes, g_bytes_unref);
    return plate;
}

static Plate *read_small(const char *path)
{
    return file_stamp(path).size > PICTURE_FILE_MOST ? NULL : plate_read(path, NULL, NULL);
}

static gboolean draw_next(gpointer data)
{
    PinStart *start = data;
    GtkWidget *card = g_queue_pop_head(&start->waiting);
    if (!card) {
        start->idle = 0;
        return G_SOURCE_REMOVE;
    }
    const char *path = g_object_get_data(G_OBJECT(card), "path");
    Plate *plate = g_str_has_prefix(path, EXAMPLES) ? read_resource(path) : read_small(path);
    plate_picture_set(g_object_get_data(G_OBJECT(card), "picture"), plate);
    plate_free(plate);
    g_object_unref(card);
    return G_SOURCE_CONTINUE;
}

static void on_map(GtkWidget *widget, PinStart *start)
{
    if (!start->idle)
        start->idle = g_idle_add(draw_next, start);
}

/* --- cards ---------------------------------------------------------------------------------------
 */

static void add_card(PinStart *start, GtkFlowBox *flow, const char *path, const char *name,
                     const char *tip)
{
    GtkWidget *child = gtk_flow_box_child_new(), *label = gtk_label_new(name);
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_VERTICAL, 4);
    GtkWidget *picture = plate_picture_new(PICTURE_WIDTH, PICTURE_HEIGHT);
    gtk_label_set_ellipsize(GTK_LABEL(label), PANGO_ELLIPSIZE_MIDDLE);
    gtk_label_set_max_width_chars(GTK_LABEL(label), 24);
    gtk_box_append(GTK_BOX(box), picture);
    gtk_box_append(GTK_BOX(box), label);
    gtk_flow_box_child_set_child(GTK_FLOW_BOX_CHILD(child), box);
    gtk_widget_add_css_class(child, "card");
    gtk_widget_set_tooltip_text(child, tip);
    access_name(child, name);
    access_row(child);
    g_object_set_data_full(G_OBJECT(child), "path", g_strdup(path), g_free);
    g_object_set_data(G_OBJECT(child), "picture", picture);
    gtk_flow_box_append(flow, child);
    g_queue_push_tail(&start->waiting, g_object_ref(child));
}

static void fill_recent(PinStart *start)
{
    GPtrArray *paths = recent_paths();
    for (guint i = 0; i < paths->len; i++) {
        char *name = g_path_get_basename(paths->pdata[i]);
        add_card(start, start->recent, paths->pdata[i], name, paths->pdata[i]);
        g_free(name);
    }
    gtk_widget_set_visible(GTK_WIDGET(start->no_recent), paths->len == 0);
    gtk_widget_set_visible(GTK_WIDGET(start->recent), paths->len > 0);
    g_ptr_array_unref(paths);
}

static void fill_examples(PinStart *start)
{
    static const struct {
        const char *file, *name;
    } examples[] = {
        {"grafting-blades.plate", N_("Grafting blades")},
        {"scales.plate", N_("Handle scales")},
        {"spacers.plate", N_("Back spacers")},
        {"bad.plate", N_("Much that is wrong")},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(examples); i++) {
        char *path = g_strconcat(EXAMPLES, examples[i].file, NULL);
        add_card(start, start->examples, path, _(examples[i].name),
                 _("Open a copy of the example"));
        g_free(path);
    }
}

/* --- the hand ------------------------------------------------------------------------------------
 */

static void on_recent(GtkFlowBox *flow, GtkFlowBoxChild *child, PinStart *start)
{
    g_signal_emit_by_name(start, "wanted", g_object_get_data(G_OBJECT(child), "path"));
}

static void on_example(GtkFlowBox *flow, GtkFlowBoxChild *child, PinStart *start)
{
    Plate *plate = read_resource(g_object_get_data(G_OBJECT(child), "path"));
    if (plate)
        g_signal_emit_by_name(start, "made", plate);
}

static void on_create(GtkButton *button, PinStart *start)
{
    pin_start_new_plate(start);
}

static void on_made(PinNewPlatePage *page, gpointer plate, PinStart *start)
{
    g_signal_emit_by_name(start, "made", plate);
}

static void on_left(PinNewPlatePage *page, PinStart *start)
{
    gtk_stack_set_visible_child_name(start->pages, "first");
    gtk_widget_grab_focus(GTK_WIDGET(start->create));
}

void pin_start_new_plate(PinStart *start)
{
    gtk_stack_set_visible_child_name(start->pages, "new");
    pin_new_plate_page_begin(start->new_plate);
}

/* --- the widget ----------------------------------------------------------------------------------
 */

static void pin_start_dispose(GObject *object)
{
    PinStart *start = PIN_START(object);
    GtkWidget *child;
    g_clear_handle_id(&start->idle, g_source_remove);
    g_queue_clear_full(&start->waiting, g_object_unref);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    G_OBJECT_CLASS(pin_start_parent_class)->dispose(object);
}

#define BIND(member) gtk_widget_class_bind_template_child(widget, PinStart, member)

static void pin_start_class_init(PinStartClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_start_dispose;
    g_signal_new("made", PIN_TYPE_START, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 G_TYPE_POINTER);
    g_signal_new("wanted", PIN_TYPE_START, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                 G_TYPE_STRING);
    g_type_ensure(PIN_TYPE_NEW_PLATE_PAGE);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/start.ui");
    BIND(pages);
    BIND(create);
    BIND(recent);
    BIND(examples);
    BIND(no_recent);
    BIND(new_plate);
    gtk_widget_class_set_css_name(widget, "startpage");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_start_init(PinStart *start)
{
    gtk_widget_init_template(GTK_WIDGET(start));
    g_queue_init(&start->waiting);
    fill_recent(start);
    fill_examples(start);
    g_signal_connect(start, "map", G_CALLBACK(on_map), start);
    g_signal_connect(start->create, "clicked", G_CALLBACK(on_create), start);
    g_signal_connect(start->recent, "child-activated", G_CALLBACK(on_recent), start);
    g_signal_connect(start->examples, "child-activated", G_CALLBACK(on_example), start);
    g_signal_connect(start->new_plate, "made", G_CALLBACK(on_made), start);
    g_signal_connect(start->new_plate, "left", G_CALLBACK(on_left), start);
}
