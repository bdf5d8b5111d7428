/* A desktop's settings portal for the tests: it says what it is told on its standard input, a line
 * KEY NUMBER each, when it is asked and whenever that changes; and says "ready" once it is there.
 */
#include <gio/gio.h>
#include <stdio.h>

#define PATH "/org/freedesktop/portal/desktop"
#define SETTINGS "org.freedesktop.portal.Settings"
#define NAMESPACE "org.freedesktop.appearance"

static const char interface[] =
    "<node><interface name='" SETTINGS "'>"
    "<method name='Read'><arg type='s' direction='in'/><arg type='s' direction='in'/>"
    "<arg type='v' direction='out'/></method>"
    "<signal name='SettingChanged'><arg type='s'/><arg type='s'/><arg type='v'/></signal>"
    "</interface></node>";

static GHashTable *values; /* key to its number */
static GDBusConnection *bus;
static GMainLoop *loop;

static void on_call(GDBusConnection *connection, const char *sender, const char *path,
                    const char *of, const char *method, GVariant *parameters,
                    GDBusMethodInvocation *invocation, gpointer data)
{
    const char *key;
    g_variant_get(parameters, "(&s&s)", NULL, &key);
    guint32 value = GPOINTER_TO_UINT(g_hash_table_lookup(values, key));
    g_dbus_method_invocation_return_value(
        invocation, g_variant_new("(v)", g_variant_new_variant(g_variant_new_uint32(value))));
}

static gboolean on_line(GIOChannel *channel, GIOCondition condition, gpointer data)
{
    char *line = NULL;
    if (g_io_channel_read_line(channel, &line, NULL, NULL, NULL) != G_IO_STATUS_NORMAL) {
        g_main_loop_quit(loop);
        return G_SOURCE_REMOVE;
    }
    char **words = g_strsplit(g_strstrip(line), " ", 2);
    if (words[0] && words[1]) {
        guint32 value = (guint32)g_ascii_strtoull(words[1], NULL, 10);
        g_hash_table_insert(values, g_strdup(words[0]), GUINT_TO_POINTER(value));
        g_dbus_connection_emit_signal(
            bus, NULL, PATH, SETTINGS, "SettingChanged",
            g_variant_new("(ssv)", NAMESPACE, words[0], g_variant_new_uint32(value)), NULL);
    }
    g_strfreev(words);
    g_free(line);
    return G_SOURCE_CONTINUE;
}

static void on_bus(GDBusConnection *connection, const char *name, gpointer data)
{
    static const GDBusInterfaceVTable table = {.method_call = on_call};
    GDBusNodeInfo *node = g_dbus_node_info_new_for_xml(interface, NULL);
    bus = connection;
    g_dbus_connection_register_object(connection, PATH, node->interfaces[0], &table, NULL, NULL,
                                      NULL);
    g_dbus_node_info_unref(node);
}

static void on_name(GDBusConnection *connection, const char *name, gpointer data)
{
    printf("ready\n");
    fflush(stdout);
}

int main(void)
{
    values = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    loop = g_main_loop_new(NULL, FALSE);
    GIOChannel *in = g_io_channel_unix_new(0);
    g_io_add_watch(in, G_IO_IN | G_IO_HUP, on_line, NULL);
    guint name = g_bus_own_name(G_BUS_TYPE_SESSION, "org.freedesktop.portal.Desktop",
                                G_BUS_NAME_OWNER_FLAGS_NONE, on_bus, on_name, NULL, NULL, NULL);
    g_main_loop_run(loop);
    g_bus_unown_name(name);
    g_io_channel_unref(in);
    g_main_loop_unref(loop);
    g_hash_table_unref(values);
    return 0;
}
