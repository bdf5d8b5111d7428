/* words.h: text that a person reads, marked for translation where it is written.
 *
 * What is below the editor says its English to files, prints and the command line as it is; the
 * editor alone has it translated, at the moment of showing. The names of edits and the sentences of
 * error_set() are found without a mark.
 */
#pragma once

/* As in glib/gi18n.h, so that both can be included. */
#define N_(String) (String)
