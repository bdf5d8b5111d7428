/* Reads the editor's accessible tree from the accessibility bus, as a screen reader does.
 *
 *   accessible tree [ROLE …]      a line for each accessible, or for those of the roles alone:
 *                                 number, depth, role, name, description, x, y, width, height,
 *                                 states, actions; separated by tabs, places in the window
 *   accessible act NAME ACTION    carries out an action of the first accessible of that name
 */
#include <gio/gio.h>
#include <stdio.h>
#include <string.h>

#define ACCESSIBLE "org.a11y.atspi.Accessible"
#define TIMEOUT 60000
#define DEPTH_MOST 60

typedef struct Node {
    char *bus, *path;
} Node;

static GDBusConnection *connection;
static int number;

static GVariant *call(const Node *node, const char *interface, const char *method,
                      GVariant *parameters)
{
    return g_dbus_connection_call_sync(connection, node->bus, node->path, interface, method,
                                       parameters, NULL, G_DBUS_CALL_FLAGS_NONE, TIMEOUT, NULL,
                                       NULL);
}

static char *property(const Node *node, const char *interface, const char *name)
{
    char *text = NULL;
    GVariant *answer = call(node, "org.freedesktop.DBus.Properties", "Get",
                            g_variant_new("(ss)", interface, name));
    if (answer) {
        GVariant *value;
        g_variant_get(answer, "(v)", &value);
        if (g_variant_is_of_type(value, G_VARIANT_TYPE_STRING))
            text = g_strdup(g_variant_get_string(value, NULL));
        g_variant_unref(value);
        g_variant_unref(answer);
    }
    return text ? text : g_strdup("");
}

static char *role_of(const Node *node)
{
    char *role = NULL;
    GVariant *answer = call(node, ACCESSIBLE, "GetRoleName", NULL);
    if (answer) {
        g_variant_get(answer, "(s)", &role);
        g_variant_unref(answer);
    }
    return role ? role : g_strdup("");
}

/* The bits of AT-SPI's states that the tests read; the numbers are at-spi2's own. */
static char *states_of(const Node *node)
{
    static const struct {
        int bit;
        const char *name;
    } known[] = {{1, "active"},     {4, "checked"},    {7, "editable"}, {8, "enabled"},
                 {10, "expanded"},  {11, "focusable"}, {12, "focused"}, {23, "selected"},
                 {24, "sensitive"}, {25, "showing"},   {30, "visible"}, {36, "invalid"}};
    GString *text = g_string_new(NULL);
    GVariant *answer = call(node, ACCESSIBLE, "GetState", NULL);
    if (answer) {
        guint32 low = 0, high = 0;
        GVariant *bits = g_variant_get_child_value(answer, 0);
        if (g_variant_n_children(bits) == 2) {
            g_variant_get_child(bits, 0, "u", &low);
            g_variant_get_child(bits, 1, "u", &high);
        }
        g_variant_unref(bits);
        g_variant_unref(answer);
        guint64 all = low | (guint64)high << 32;
        for (gsize i = 0; i < G_N_ELEMENTS(known); i++)
            if (all >> known[i].bit & 1)
                g_string_append_printf(text, "%s%s", text->len ? "," : "", known[i].name);
    }
    return g_string_free(text, FALSE);
}

static GPtrArray *action_names(const Node *node)
{
    GPtrArray *names = g_ptr_array_new_with_free_func(g_free);
    GVariant *answer = call(node, "org.a11y.atspi.Action", "GetActions", NULL);
    if (answer) {
        GVariantIter *actions;
        const char *name;
        g_variant_get(answer, "(a(sss))", &actions);
        while (g_variant_iter_loop(actions, "(&sss)", &name, NULL, NULL))
            g_ptr_array_add(names, g_strdup(name));
        g_variant_iter_free(actions);
        g_variant_unref(answer);
    }
    return names;
}

static void extents_of(const Node *node, int extents[4])
{
    GVariant *answer =
        call(node, "org.a11y.atspi.Component", "GetExtents", g_variant_new("(u)", 1));
    memset(extents, 0, 4 * sizeof(int));
    if (!answer)
        return;
    g_variant_get(answer, "((iiii))", &extents[0], &extents[1], &extents[2], &extents[3]);
    g_variant_unref(answer);
}

static char *one_line(char *text)
{
    return g_strdelimit(text, "\t\n\r", ' ');
}

static void print_node(const Node *node, const char *role, int depth)
{
    int extents[4];
    char *name = one_line(property(node, ACCESSIBLE, "Name"));
    char *description = one_line(property(node, ACCESSIBLE, "Description"));
    char *states = states_of(node);
    GString *actions = g_string_new(NULL);
    GPtrArray *names = action_names(node);
    /* The window's and the application's own actions are listed with each widget. */
    for (guint i = 0; i < names->len; i++)
        if (!g_str_has_prefix(names->pdata[i], "win.") &&
            !g_str_has_prefix(names->pdata[i], "app.") &&
            !g_str_has_prefix(names->pdata[i], "window.") &&
            !g_str_has_prefix(names->pdata[i], "default."))
            g_string_append_printf(actions, "%s%s", actions->len ? "," : "",
                                   (char *)names->pdata[i]);
    extents_of(node, extents);
    printf("%d\t%d\t%s\t%s\t%s\t%d\t%d\t%d\t%d\t%s\t%s\n", number, depth, role, name, description,
           extents[0], extents[1], extents[2], extents[3], states, actions->str);
    g_ptr_array_unref(names);
    g_string_free(actions, TRUE);
    g_free(states);
    g_free(description);
    g_free(name);
}

/* Visits a node and all below it; true ends the walk. */
typedef gboolean (*Visit)(const Node *node, int depth, char **arguments);

static gboolean walk(const Node *node, int depth, Visit visit, char **arguments)
{
    number++;
    if (depth > DEPTH_MOST || visit(node, depth, arguments))
        return depth <= DEPTH_MOST;
    GVariant *answer = call(node, ACCESSIBLE, "GetChildren", NULL);
    if (!answer)
        return FALSE;
    GVariantIter *children;
    Node child;
    gboolean ended = FALSE;
    g_variant_get(answer, "(a(so))", &children);
    while (!ended && g_variant_iter_next(children, "(so)", &child.bus, &child.path)) {
        ended = walk(&child, depth + 1, visit, arguments);
        g_free(child.bus);
        g_free(child.path);
    }
    g_variant_iter_free(children);
    g_variant_unref(answer);
    return ended;
}

static gboolean visit_print(const Node *node, int depth, char **roles)
{
    char *role = role_of(node);
    if (!roles[0] || g_strv_contains((const char *const *)roles, role))
        print_node(node, role, depth);
    g_free(role);
    return FALSE;
}

static gboolean visit_act(const Node *node, int depth, char **arguments)
{
    (void)depth;
    char *name = property(node, ACCESSIBLE, "Name");
    gboolean found = g_strcmp0(name, arguments[0]) == 0;
    g_free(name);
    if (!found)
        return FALSE;
    GPtrArray *names = action_names(node);
    found = FALSE;
    for (guint i = 0; i < names->len && !found; i++)
        if (g_str_equal(names->pdata[i], arguments[1])) {
            GVariant *answer =
                call(node, "org.a11y.atspi.Action", "DoAction", g_variant_new("(i)", (int)i));
            found = answer != NULL;
            g_clear_pointer(&answer, g_variant_unref);
        }
    g_ptr_array_unref(names);
    if (found)
        number = -1;
    return found;
}

static GDBusConnection *connect_to_bus(void)
{
    GError *error = NULL;
    GDBusConnection *session = g_bus_get_sync(G_BUS_TYPE_SESSION, NULL, &error);
    GVariant *answer =
        session ? g_dbus_connection_call_sync(session, "org.a11y.Bus", "/org/a11y/bus",
                                              "org.a11y.Bus", "GetAddress", NULL, NULL,
                                              G_DBUS_CALL_FLAGS_NONE, TIMEOUT, NULL, &error)
                : NULL;
    GDBusConnection *bus = NULL;
    if (answer) {
        const char *address;
        g_variant_get(answer, "(&s)", &address);
        bus = g_dbus_connection_new_for_address_sync(
            address,
            G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT |
                G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION,
            NULL, NULL, &error);
        g_variant_unref(answer);
    }
    if (error) {
        fprintf(stderr, "accessible: %s\n", error->message);
        g_error_free(error);
    }
    g_clear_object(&session);
    return bus;
}

int main(int argc, char **argv)
{
    gboolean act = argc == 4 && strcmp(argv[1], "act") == 0;
    if (!act && (argc < 2 || strcmp(argv[1], "tree") != 0)) {
        fprintf(stderr, "accessible: tree [ROLE …], or act NAME ACTION\n");
        return 2;
    }
    connection = connect_to_bus();
    if (!connection)
        return 2;
    Node root = {(char *)"org.a11y.atspi.Registry", (char *)"/org/a11y/atspi/accessible/root"};
    gboolean ended = walk(&root, 0, act ? visit_act : visit_print, argv + 2);
    g_object_unref(connection);
    if (act && !(ended && number == -1)) {
        fprintf(stderr, "accessible: there is no %s that can %s\n", argv[2], argv[3]);
        return 1;
    }
    return 0;
}
