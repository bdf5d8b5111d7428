/* preferences.h: what the maker chose once and expects to find again, kept by GSettings. Where the
 * settings' schema is not installed the starting values hold, and what is chosen lasts as long as the
 * program runs. */
#pragma once

#include <glib.h>

gboolean preference_bool(const char *key);
void preference_set_bool(const char *key, gboolean value);
/* Free with g_free. */
char *preference_text(const char *key);
void preference_set_text(const char *key, const char *value);
int preference_number(const char *key);
void preference_set_number(const char *key, int value);
