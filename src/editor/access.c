#include "editor/access.h"

#include "editor/intl.h"

void access_name(GtkWidget *widget, const char *name)
{
    gtk_accessible_update_property(GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void describe(GtkWidget *widget, const char *text)
{
    gtk_accessible_update_property(GTK_ACCESSIBLE(widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                   text, -1);
}

/* --- rows and checks ---------------------------------------------------------------------------
 */

static void on_activate(GSimpleAction *action, GVariant *parameter, gpointer widget)
{
    gtk_widget_activate(widget);
}

static void on_item(GSimpleAction *action, GVariant *parameter, gpointer child)
{
    gtk_widget_activate_action(child, "listitem.select", "(bb)", FALSE, FALSE);
}

static void add_action(GtkWidget *widget, const char *prefix, const char *name,
                       void (*activate)(GSimpleAction *, GVariant *, gpointer))
{
    GSimpleActionGroup *group = g_simple_action_group_new();
    const GActionEntry entries[] = {{.name = name, .activate = activate}};
    g_action_map_add_action_entries(G_ACTION_MAP(group), entries, G_N_ELEMENTS(entries), widget);
    gtk_widget_insert_action_group(widget, prefix, G_ACTION_GROUP(group));
    g_object_unref(group);
}

void access_row(GtkWidget *row)
{
    add_action(row, "row", "choose", on_activate);
}

void access_check(GtkWidget *check)
{
    add_action(check, "check", "toggle", on_activate);
}

void access_item(GtkWidget *child)
{
    add_action(child, "row", "choose", on_item);
}

void access_name_item(GtkWidget *child, const char *name)
{
    /* The toolkit's own widget of an item is its child's parent, and what takes the focus. */
    GtkWidget *item = gtk_widget_get_parent(child);
    if (item)
        access_name(item, name);
}

/* --- drop-downs --------------------------------------------------------------------------------
 */

static guint count_of(GtkDropDown *choice)
{
    GListModel *model = gtk_drop_down_get_model(choice);
    return model ? g_list_model_get_n_items(model) : 0;
}

static void step(GtkDropDown *choice, int by)
{
    guint at = gtk_drop_down_get_selected(choice), count = count_of(choice);
    if (at == GTK_INVALID_LIST_POSITION)
        at = 0;
    else if (by < 0 ? at > 0 : at + 1 < count)
        at += (guint)by;
    if (count > 0 && gtk_widget_is_sensitive(GTK_WIDGET(choice)))
        gtk_drop_down_set_selected(choice, at);
}

static void on_next(GSimpleAction *action, GVariant *parameter, gpointer choice)
{
    step(choice, 1);
}

static void on_previous(GSimpleAction *action, GVariant *parameter, gpointer choice)
{
    step(choice, -1);
}

static const char *chosen_text(GtkDropDown *choice)
{
    gpointer item = gtk_drop_down_get_selected_item(choice);
    return GTK_IS_STRING_OBJECT(item) ? gtk_string_object_get_string(item) : "";
}

static GtkWidget *child_of_type(GtkWidget *widget, GType type)
{
    for (GtkWidget *i = gtk_widget_get_first_child(widget); i; i = gtk_widget_get_next_sibling(i)) {
        GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE(i, type) ? i : child_of_type(i, type);
        if (found)
            return found;
    }
    return NULL;
}

static void name_part(GtkWidget *widget, const char *name)
{
    if (widget)
        access_name(widget, name);
}

static void on_chosen(GtkDropDown *choice)
{
    const char *text = chosen_text(choice);
    GtkWidget *button = child_of_type(GTK_WIDGET(choice), GTK_TYPE_TOGGLE_BUTTON);
    GType shown = g_type_from_name("GtkListItemWidget");
    describe(GTK_WIDGET(choice), text);
    if (!button)
        return;
    describe(button, text);
    if (shown)
        name_part(child_of_type(button, shown), text);
}

/* The rows of the list look as the toolkit's own do: the text, and a sign at what is chosen. */
static void on_list_setup(GtkListItemFactory *factory, GtkListItem *item, GtkDropDown *choice)
{
    GtkWidget *box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 8);
    GtkWidget *label = gtk_label_new(NULL);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_set_hexpand(label, TRUE);
    gtk_box_append(GTK_BOX(box), label);
    gtk_box_append(GTK_BOX(box), gtk_image_new_from_icon_name("object-select-symbolic"));
    gtk_list_item_set_child(item, box);
}

static void sign_chosen(GtkDropDown *choice, GParamSpec *property, GtkListItem *item)
{
    GtkWidget *sign = gtk_widget_get_last_child(gtk_list_item_get_child(item));
    gboolean chosen = gtk_list_item_get_item(item) == gtk_drop_down_get_selected_item(choice);
    gtk_widget_set_opacity(sign, chosen ? 1 : 0);
}

static void on_list_bind(GtkListItemFactory *factory, GtkListItem *item, GtkDropDown *choice)
{
    GtkWidget *box = gtk_list_item_get_child(item);
    const char *text = gtk_string_object_get_string(gtk_list_item_get_item(item));
    gtk_label_set_label(GTK_LABEL(gtk_widget_get_first_child(box)), text);
    access_name_item(box, text);
    sign_chosen(choice, NULL, item);
    g_signal_connect_object(choice, "notify::selected-item", G_CALLBACK(sign_chosen), item, 0);
}

static void on_list_unbind(GtkListItemFactory *factory, GtkListItem *item, GtkDropDown *choice)
{
    g_signal_handlers_disconnect_by_data(choice, item);
}

static void name_rows(GtkDropDown *choice)
{
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(on_list_setup), choice);
    g_signal_connect(factory, "bind", G_CALLBACK(on_list_bind), choice);
    g_signal_connect(factory, "unbind", G_CALLBACK(on_list_unbind), choice);
    gtk_drop_down_set_list_factory(choice, factory);
    g_object_unref(factory);
}

void access_choice(GtkDropDown *choice, const char *name)
{
    GSimpleActionGroup *group = g_simple_action_group_new();
    const GActionEntry entries[] = {{.name = "next", .activate = on_next},
                                    {.name = "previous", .activate = on_previous}};
    g_action_map_add_action_entries(G_ACTION_MAP(group), entries, G_N_ELEMENTS(entries), choice);
    gtk_widget_insert_action_group(GTK_WIDGET(choice), "choice", G_ACTION_GROUP(group));
    g_object_unref(group);
    access_name(GTK_WIDGET(choice), name);
    name_part(child_of_type(GTK_WIDGET(choice), GTK_TYPE_TOGGLE_BUTTON), name);
    name_part(child_of_type(GTK_WIDGET(choice), GTK_TYPE_POPOVER), name);
    name_part(child_of_type(GTK_WIDGET(choice), GTK_TYPE_SCROLLED_WINDOW), name);
    name_part(child_of_type(GTK_WIDGET(choice), GTK_TYPE_LIST_VIEW), name);
    name_rows(choice);
    g_signal_connect(choice, "notify::selected-item", G_CALLBACK(on_chosen), NULL);
    on_chosen(choice);
}

/* --- sidebars ----------------------------------------------------------------------------------
 */

void access_sidebar(GtkStackSidebar *sidebar)
{
    GtkWidget *list = child_of_type(GTK_WIDGET(sidebar), GTK_TYPE_LIST_BOX);
    name_part(child_of_type(GTK_WIDGET(sidebar), GTK_TYPE_SCROLLED_WINDOW), _("Figures"));
    name_part(list, _("Figures"));
    for (GtkWidget *i = list ? gtk_widget_get_first_child(list) : NULL; i;
         i = gtk_widget_get_next_sibling(i)) {
        GtkWidget *label = child_of_type(i, GTK_TYPE_LABEL);
        if (label)
            access_name(i, gtk_label_get_label(GTK_LABEL(label)));
        access_row(i);
    }
}
