/* The least that a program of the toolkit can show: what the editor's start is measured against. */
#include <gtk/gtk.h>

static void activate(GtkApplication *application, gpointer data)
{
    (void)data;
    GtkWidget *window = gtk_application_window_new(application);
    gtk_window_set_default_size(GTK_WINDOW(window), 1280, 800);
    gtk_window_present(GTK_WINDOW(window));
}

int main(int argc, char **argv)
{
    GtkApplication *application =
        gtk_application_new("org.pinplate.EmptyWindow", G_APPLICATION_DEFAULT_FLAGS);
    g_signal_connect(application, "activate", G_CALLBACK(activate), NULL);
    int status = g_application_run(G_APPLICATION(application), argc, argv);
    g_object_unref(application);
    return status;
}
