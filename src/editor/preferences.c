#include "editor/preferences.h"

#include "editor/intl.h"

#include <gio/gio.h>

/* Starting values for a program that runs where it was built, with no schema installed. */
static struct {
    const char *key;
    const char *text; /* of the program, or interned */
    int number;
} starting[] = {
    {"snap", NULL, TRUE},         {"both-units", NULL, TRUE},
    {"unit", "inch", 0},          {"grid-inch", "0.05", 0},
    {"grid-mm", "1", 0},          {"window-width", NULL, 1280},
    {"window-height", NULL, 800}, {"shop", "", 0},
    {"projection", "third", 0},   {"limits", "usual", 0},
    {"rack-folder", "", 0},
};

static GSettings *settings(void)
{
    static GSettings *kept;
    static gboolean looked;
    if (looked)
        return kept;
    looked = TRUE;
    GSettingsSchemaSource *source = g_settings_schema_source_get_default();
    GSettingsSchema *schema =
        source ? g_settings_schema_source_lookup(source, EDITOR_ID, TRUE) : NULL;
    if (schema) {
        kept = g_settings_new_full(schema, NULL, NULL);
        g_settings_schema_unref(schema);
    }
    return kept;
}

static gsize starting_at(const char *key)
{
    for (gsize i = 0; i < G_N_ELEMENTS(starting); i++)
        if (g_str_equal(starting[i].key, key))
            return i;
    g_return_val_if_reached(0);
}

gboolean preference_bool(const char *key)
{
    return settings() ? g_settings_get_boolean(settings(), key) : starting[starting_at(key)].number;
}

void preference_set_bool(const char *key, gboolean value)
{
    if (settings())
        g_settings_set_boolean(settings(), key, value);
    else
        starting[starting_at(key)].number = value;
}

char *preference_text(const char *key)
{
    return settings() ? g_settings_get_string(settings(), key)
                      : g_strdup(starting[starting_at(key)].text);
}

void preference_set_text(const char *key, const char *value)
{
    if (settings())
        g_settings_set_string(settings(), key, value);
    else
        starting[starting_at(key)].text = g_intern_string(value);
}

int preference_number(const char *key)
{
    return settings() ? g_settings_get_int(settings(), key) : starting[starting_at(key)].number;
}

void preference_set_number(const char *key, int value)
{
    if (settings())
        g_settings_set_int(settings(), key, value);
    else
        starting[starting_at(key)].number = value;
}
