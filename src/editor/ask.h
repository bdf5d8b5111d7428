/* ask.h: a question in a window of its own, with up to three answers. */
#pragma once

#include <gtk/gtk.h>

/* Called with the answer's number, or -1 where the question was put away. */
typedef void (*AskAnswered)(int answer, gpointer data);

/* `answers` ends with NULL; the last one is what Enter gives. `data` is freed with `free_data`
 * after the answer; `free_data` may be NULL. */
void ask(GtkWindow *parent, const char *heading, const char *text, const char *const *answers,
         AskAnswered answered, gpointer data, GDestroyNotify free_data);
