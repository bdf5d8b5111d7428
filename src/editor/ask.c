#include "editor/ask.h"

typedef struct Question {
    AskAnswered answered;
    gpointer data;
    GDestroyNotify free_data;
    int answer;
} Question;

static void on_answered(gpointer data)
{
    Question *question = data;
    question->answered(question->answer, question->data);
    if (question->free_data)
        question->free_data(question->data);
    g_free(question);
}

/* The answer may close the question's parent: not before the question itself is gone. */
static void on_response(GtkDialog *dialog, int response, Question *question)
{
    question->answer = response >= 0 ? response : -1;
    gtk_window_destroy(GTK_WINDOW(dialog));
    g_idle_add_once(on_answered, question);
}

void ask(GtkWindow *parent, const char *heading, const char *text, const char *const *answers,
         AskAnswered answered, gpointer data, GDestroyNotify free_data)
{
    GtkWidget *dialog =
        gtk_message_dialog_new(parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                               GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, "%s", heading);
    Question *question = g_new0(Question, 1);
    *question = (Question){answered, data, free_data, -1};
    gtk_message_dialog_format_secondary_text(GTK_MESSAGE_DIALOG(dialog), "%s", text);
    for (int i = 0; answers[i]; i++) {
        gtk_dialog_add_button(GTK_DIALOG(dialog), answers[i], i);
        gtk_dialog_set_default_response(GTK_DIALOG(dialog), i);
    }
    g_signal_connect(dialog, "response", G_CALLBACK(on_response), question);
    gtk_window_present(GTK_WINDOW(dialog));
}
