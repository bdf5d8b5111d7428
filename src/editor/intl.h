/* intl.h: strings of the window in the maker's language. */
#pragma once

#include <glib/gi18n.h>

#define EDITOR_ID "org.pinplate.Pinplate"
#define EDITOR_PATH "/org/pinplate/Pinplate/"
