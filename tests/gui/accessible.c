/* Reads the editor's accessible tree from the accessibility bus, as a screen reader does.
 *
 *   accessible tree [ROLE …]      a line for each accessible, or for those of the roles alone:
 *                                 number, depth, role, name, description, x, y, width, height,
 *                                 states, actions; separated by tabs, places in the window
 *   accessible act NAME ACTION [NTH]
 *                                 carries out an action of the first accessible of that name that
 *                                 can, or of the NTH of them counted from 0
 *   accessible set NAME TEXT [NTH]
 *                                 puts the text in place of what is typed there
 *   accessible read NAME [NTH]    what is typed there
 *   accessible press KEYSYM       presses a key, through the accessibility bus
 *
 * A NAME may begin with a role and two colons, `button::Save`.
 */
#include <gio/gio.h>
#include <stdio.h>
#include <string.h>

#define ACCESSIBLE "org.a11y.atspi.Accessible"
#define TIMEOUT 60000
#define DEPTH_MOST 60
#define TEXT_MOST 100000

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
    } known[] = {{0, "invalid"}, /* where this toolkit says that an entry is */
                 {1, "active"},     {4, "checked"},    {7, "editable"}, {8, "enabled"},
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

/* A dialog's button has its name twice, once with its mnemonic. */
static gboolean is_named(const char *name, const char *wanted)
{
    char **parts = g_strsplit(name, "_", -1);
    char *plain = g_strjoinv("", parts), *twice = g_strdup_printf("%s %s", wanted, wanted);
    gboolean same = g_str_equal(plain, wanted) || g_str_equal(plain, twice);
    g_free(twice);
    g_free(plain);
    g_strfreev(parts);
    return same;
}

/* Is it what is wanted, and on the screen? */
static gboolean is_wanted(const Node *node, const char *wanted)
{
    const char *colons = strstr(wanted, "::"), *name = colons ? colons + 2 : wanted;
    int extents[4];
    char *has = property(node, ACCESSIBLE, "Name"), *role = role_of(node);
    gboolean is =
        is_named(has, name) &&
        (!colons || (strlen(role) == (gsize)(colons - wanted) && g_str_has_prefix(wanted, role)));
    g_free(role);
    g_free(has);
    if (!is)
        return FALSE;
    extents_of(node, extents);
    return extents[2] > 1;
}

static int skip; /* how many that fit are left out */

static gboolean is_done(gboolean found)
{
    if (found)
        number = -1;
    return found;
}

static gboolean visit_act(const Node *node, int depth, char **arguments)
{
    (void)depth;
    if (!is_wanted(node, arguments[0]))
        return FALSE;
    GPtrArray *names = action_names(node);
    gboolean found = FALSE;
    for (guint i = 0; i < names->len && !found; i++)
        if (g_str_equal(names->pdata[i], arguments[1]) && skip-- <= 0) {
            GVariant *answer =
                call(node, "org.a11y.atspi.Action", "DoAction", g_variant_new("(i)", (int)i));
            found = answer != NULL;
            g_clear_pointer(&answer, g_variant_unref);
        }
    g_ptr_array_unref(names);
    return is_done(found);
}

#define TEXT "org.a11y.atspi.Text"

static gboolean is_editable(const Node *node)
{
    /* What can be typed into, and not the label that names it. */
    char *states = states_of(node);
    gboolean editable = strstr(states, "editable") != NULL;
    g_free(states);
    return editable;
}

static gboolean visit_set(const Node *node, int depth, char **arguments)
{
    (void)depth;
    gboolean set = FALSE;
    if (!is_wanted(node, arguments[0]) || !is_editable(node) || skip-- > 0)
        return FALSE;
    GVariant *answer = call(node, "org.a11y.atspi.EditableText", "SetTextContents",
                            g_variant_new("(s)", arguments[1]));
    if (answer) {
        g_variant_get(answer, "(b)", &set);
        g_variant_unref(answer);
    }
    return is_done(set);
}

static gboolean visit_read(const Node *node, int depth, char **arguments)
{
    (void)depth;
    if (!is_wanted(node, arguments[0]) || !is_editable(node) || skip-- > 0)
        return FALSE;
    GVariant *answer = call(node, TEXT, "GetText", g_variant_new("(ii)", 0, TEXT_MOST));
    if (answer) {
        const char *text;
        g_variant_get(answer, "(&s)", &text);
        printf("%s\n", text);
        g_variant_unref(answer);
    }
    return is_done(answer != NULL);
}

/* As an on-screen keyboard does: the keysym, pressed and let go. */
static gboolean press(const char *keysym)
{
    Node keys = {(char *)"org.a11y.atspi.Registry",
                 (char *)"/org/a11y/atspi/registry/deviceeventcontroller"};
    const guint32 keysym_synth = 3;
    GVariant *answer =
        call(&keys, "org.a11y.atspi.DeviceEventController", "GenerateKeyboardEvent",
             g_variant_new("(isu)", (int)g_ascii_strtoll(keysym, NULL, 0), "", keysym_synth));
    gboolean pressed = answer != NULL;
    g_clear_pointer(&answer, g_variant_unref);
    return pressed;
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

static const struct Way {
    const char *name;
    Visit visit;
    int least; /* how many arguments */
} ways[] = {{"tree", visit_print, 0},
            {"act", visit_act, 2},
            {"set", visit_set, 2},
            {"read", visit_read, 1}};

static const struct Way *way_of(int argc, char **argv)
{
    for (gsize i = 0; argc > 1 && i < G_N_ELEMENTS(ways); i++)
        if (g_str_equal(argv[1], ways[i].name) && argc - 2 >= ways[i].least)
            return &ways[i];
    return NULL;
}

int main(int argc, char **argv)
{
    const struct Way *way = way_of(argc, argv);
    gboolean pressing = argc == 3 && g_str_equal(argv[1], "press");
    if (!way && !pressing) {
        fprintf(stderr, "accessible: tree [ROLE …], act NAME ACTION, set NAME TEXT, read NAME, or "
                        "press KEYSYM\n");
        return 2;
    }
    connection = connect_to_bus();
    if (!connection)
        return 2;
    Node root = {(char *)"org.a11y.atspi.Registry", (char *)"/org/a11y/atspi/accessible/root"};
    gboolean done = pressing && press(argv[2]);
    if (way && way->least > 0 && argc - 2 > way->least)
        skip = (int)g_ascii_strtoll(argv[2 + way->least], NULL, 10);
    if (way)
        done = (walk(&root, 0, way->visit, argv + 2) && number == -1) || way->least == 0;
    g_object_unref(connection);
    if (!done) {
        fprintf(stderr, "accessible: cannot %s %s %s\n", argv[1], argv[2], argc > 3 ? argv[3] : "");
        return 1;
    }
    return 0;
}
