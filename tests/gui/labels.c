/* Loaded into the editor by LD_PRELOAD: on SIGUSR1 it writes what can't be read on the screen to
 * the file that PINPLATE_LABELS names, one thing a line, and ends it with a line "end".
 *
 *   ellipsized TEXT     a label that is shown with ... in it
 *   cut TEXT            a label or a typed text that its place is too small for
 *   outside TEXT        a label that reaches over its window
 *   overlap TEXT | TEXT two labels that lie on each other
 *   large W H           a window that is larger than the screen
 *
 * The accessibility bus tells where a label is, but not how much of it is shown.
 */
#include <glib-unix.h>
#include <gtk/gtk.h>
#include <stdio.h>

typedef struct Shown {
    GtkWidget *label;
    graphene_rect_t box; /* of its letters, in its window, as far as they are not scrolled away */
} Shown;

typedef struct Look {
    FILE *out;
    GtkWidget *root;
    GArray *shown;
} Look;

static void say(Look *look, const char *what, const char *text)
{
    char *line = g_strdelimit(g_strdup(text), "\n", ' ');
    fprintf(look->out, "%s %s\n", what, line);
    g_free(line);
}

/* Takes away what a scrolled ancestor hides; false when nothing is left. */
static gboolean clip(GtkWidget *widget, GtkWidget *root, graphene_rect_t *box)
{
    for (GtkWidget *at = gtk_widget_get_parent(widget); at; at = gtk_widget_get_parent(at)) {
        graphene_rect_t view;
        if (GTK_IS_SCROLLED_WINDOW(at) && gtk_widget_compute_bounds(at, root, &view) &&
            !graphene_rect_intersection(box, &view, box))
            return FALSE;
    }
    return TRUE;
}

static gboolean is_scrolled(GtkWidget *widget)
{
    return gtk_widget_get_ancestor(widget, GTK_TYPE_SCROLLED_WINDOW) != NULL;
}

static void look_at_label(Look *look, GtkWidget *widget)
{
    GtkLabel *label = GTK_LABEL(widget);
    PangoLayout *layout = gtk_label_get_layout(label);
    const char *text = gtk_label_get_text(label);
    int x, y, width, height;
    graphene_rect_t box;
    if (!*text || !gtk_widget_compute_bounds(widget, look->root, &box))
        return;
    if (pango_layout_is_ellipsized(layout))
        say(look, "ellipsized", text);
    pango_layout_get_pixel_size(layout, &width, &height);
    if (width > gtk_widget_get_width(widget) + 1 || height > gtk_widget_get_height(widget) + 1)
        say(look, "cut", text);
    float right = box.origin.x + box.size.width, bottom = box.origin.y + box.size.height;
    if (box.origin.x < -1 || right > (float)gtk_widget_get_width(look->root) + 1 ||
        (!is_scrolled(widget) && bottom > (float)gtk_widget_get_height(look->root) + 1))
        say(look, "outside", text);
    gtk_label_get_layout_offsets(label, &x, &y);
    Shown shown = {widget, box};
    graphene_point_t corner = {(float)x, (float)y};
    if (gtk_widget_compute_point(widget, look->root, &corner, &corner))
        graphene_rect_init(&shown.box, corner.x, corner.y, (float)width, (float)height);
    if (clip(widget, look->root, &shown.box))
        g_array_append_val(look->shown, shown);
}

/* What is typed scrolls in its place; what stands there before anything is typed has to go in. */
static void look_at_typed(Look *look, GtkWidget *widget)
{
    const char *text = gtk_editable_get_text(GTK_EDITABLE(widget));
    PangoLayout *layout = gtk_widget_create_pango_layout(widget, text);
    int width;
    pango_layout_get_pixel_size(layout, &width, NULL);
    if (!gtk_widget_has_focus(widget) && width > gtk_widget_get_width(widget) + 1)
        say(look, "cut", text);
    g_object_unref(layout);
}

static void look_through(Look *look, GtkWidget *widget)
{
    if (!gtk_widget_get_mapped(widget) || gtk_widget_get_opacity(widget) == 0)
        return;
    if (GTK_IS_NATIVE(widget) && widget != look->root)
        return; /* a menu lies on the window on purpose */
    if (GTK_IS_LABEL(widget))
        look_at_label(look, widget);
    else if (GTK_IS_TEXT(widget))
        look_at_typed(look, widget);
    for (GtkWidget *child = gtk_widget_get_first_child(widget); child;
         child = gtk_widget_get_next_sibling(child))
        look_through(look, child);
}

static void look_for_overlaps(Look *look)
{
    for (guint i = 0; i < look->shown->len; i++)
        for (guint j = i + 1; j < look->shown->len; j++) {
            const Shown *a = &g_array_index(look->shown, Shown, i);
            const Shown *b = &g_array_index(look->shown, Shown, j);
            graphene_rect_t both;
            if (graphene_rect_intersection(&a->box, &b->box, &both) && both.size.width > 1.5F &&
                both.size.height > 1.5F)
                fprintf(look->out, "overlap %s | %s\n", gtk_label_get_text(GTK_LABEL(a->label)),
                        gtk_label_get_text(GTK_LABEL(b->label)));
        }
}

static void look_at_window(Look *look, GtkWidget *window)
{
    GdkRectangle screen;
    GdkSurface *surface = gtk_native_get_surface(GTK_NATIVE(window));
    GdkMonitor *monitor =
        gdk_display_get_monitor_at_surface(gtk_widget_get_display(window), surface);
    look->root = window;
    g_array_set_size(look->shown, 0);
    look_through(look, window);
    look_for_overlaps(look);
    if (!monitor)
        return;
    gdk_monitor_get_geometry(monitor, &screen);
    if (gtk_widget_get_width(window) > screen.width ||
        gtk_widget_get_height(window) > screen.height)
        fprintf(look->out, "large %d %d\n", gtk_widget_get_width(window),
                gtk_widget_get_height(window));
}

static gboolean on_asked(gpointer data)
{
    char *part = g_strconcat(data, ".part", NULL);
    Look look = {fopen(part, "w"), NULL, g_array_new(FALSE, FALSE, sizeof(Shown))};
    GListModel *windows = gtk_window_get_toplevels();
    for (guint i = 0; look.out && i < g_list_model_get_n_items(windows); i++) {
        GtkWidget *window = g_list_model_get_item(windows, i);
        if (gtk_widget_get_mapped(window))
            look_at_window(&look, window);
        g_object_unref(window);
    }
    if (look.out) {
        fputs("end\n", look.out);
        fclose(look.out);
        rename(part, data);
    }
    g_array_unref(look.shown);
    g_free(part);
    return G_SOURCE_CONTINUE;
}

__attribute__((constructor)) static void begin(void)
{
    const char *to = g_getenv("PINPLATE_LABELS");
    if (to)
        g_unix_signal_add(SIGUSR1, on_asked, g_strdup(to));
    /* What the program starts is not looked at. */
    g_unsetenv("LD_PRELOAD");
}
