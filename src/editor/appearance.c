#include "editor/appearance.h"

#include <gtk/gtk.h>

/* The settings that desktops share: org.freedesktop.appearance of the settings portal. The toolkit
 * by itself does not ask for them. */
#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define NAMESPACE "org.freedesktop.appearance"
#define PATIENCE 2000 /* ms */

enum { SCHEME_NONE, SCHEME_DARK, SCHEME_LIGHT };

static void take_scheme(guint32 scheme)
{
    GtkSettings *settings = gtk_settings_get_default();
    if (scheme == SCHEME_NONE)
        gtk_settings_reset_property(settings, "gtk-application-prefer-dark-theme");
    else
        g_object_set(settings, "gtk-application-prefer-dark-theme", scheme == SCHEME_DARK, NULL);
}

static void take_contrast(guint32 contrast)
{
    GtkSettings *settings = gtk_settings_get_default();
    if (contrast == 1)
        g_object_set(settings, "gtk-theme-name", "HighContrast", NULL);
    else
        gtk_settings_reset_property(settings, "gtk-theme-name");
}

/* The older call of the portal wraps the value once more. */
static void take(const char *key, GVariant *value)
{
    GVariant *inner = g_variant_ref(value);
    while (g_variant_is_of_type(inner, G_VARIANT_TYPE_VARIANT)) {
        GVariant *next = g_variant_get_variant(inner);
        g_variant_unref(inner);
        inner = next;
    }
    gboolean known = g_variant_is_of_type(inner, G_VARIANT_TYPE_UINT32);
    if (known && g_str_equal(key, "color-scheme"))
        take_scheme(g_variant_get_uint32(inner));
    else if (known && g_str_equal(key, "contrast"))
        take_contrast(g_variant_get_uint32(inner));
    g_variant_unref(inner);
}

static void on_signal(GDBusProxy *portal, const char *sender, const char *name, GVariant *values,
                      gpointer data)
{
    const char *namespace, *key;
    GVariant *value;
    if (!g_str_equal(name, "SettingChanged") ||
        !g_variant_is_of_type(values, G_VARIANT_TYPE("(ssv)")))
        return;
    g_variant_get(values, "(&s&sv)", &namespace, &key, &value);
    if (g_str_equal(namespace, NAMESPACE))
        take(key, value);
    g_variant_unref(value);
}

static void on_read(GObject *portal, GAsyncResult *result, gpointer key)
{
    GVariant *answer = g_dbus_proxy_call_finish(G_DBUS_PROXY(portal), result, NULL);
    if (!answer)
        return; /* an older portal, that does not know it */
    GVariant *value = g_variant_get_child_value(answer, 0);
    take(key, value);
    g_variant_unref(value);
    g_variant_unref(answer);
}

static void on_portal(GObject *source, GAsyncResult *result, gpointer data)
{
    static const char *const keys[] = {"color-scheme", "contrast"};
    GDBusProxy *portal = g_dbus_proxy_new_for_bus_finish(result, NULL);
    if (!portal)
        return;
    char *owner = g_dbus_proxy_get_name_owner(portal);
    g_signal_connect(portal, "g-signal", G_CALLBACK(on_signal), NULL);
    for (gsize i = 0; owner && i < G_N_ELEMENTS(keys); i++)
        g_dbus_proxy_call(portal, "Read", g_variant_new("(ss)", NAMESPACE, keys[i]),
                          G_DBUS_CALL_FLAGS_NONE, PATIENCE, NULL, on_read, (gpointer)keys[i]);
    g_free(owner);
    /* It listens as long as the program runs. */
    g_object_set_data_full(G_OBJECT(gtk_settings_get_default()), "portal", portal, g_object_unref);
}

void appearance_follow(void)
{
    g_dbus_proxy_new_for_bus(G_BUS_TYPE_SESSION, G_DBUS_PROXY_FLAGS_DO_NOT_LOAD_PROPERTIES, NULL,
                             PORTAL, PORTAL_PATH, PORTAL_SETTINGS, NULL, on_portal, NULL);
}
