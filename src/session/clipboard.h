/* clipboard.h: things of a plate as text, to be pasted here or in another window.
 *
 * The functions are selection_copy and selection_paste of selection.h; the text is
 * {"format": "pinplate-things", "version": 1, "things": [records]}. */
#pragma once

#include "session/selection.h"

#define CLIPBOARD_FORMAT "pinplate-things"
