#include "editor/choose-file.h"

#include "editor/intl.h"

static const struct {
    const char *name;
    const char *patterns[4];
    const char *ending;
    const char *open_title, *save_title;
} kinds[] = {
    [FILE_PLATE] = {N_("Plates"), {"*.plate"}, ".plate", N_("Open a plate"), N_("Save the plate")},
    [FILE_PART] = {N_("Parts and outlines"),
                   {"*.platepart", "*.svg", "*.csv"},
                   ".platepart",
                   N_("Add a part"),
                   N_("Save the part")},
    [FILE_OUTLINE] =
        {N_("Outlines"), {"*.svg", "*.csv"}, ".svg", N_("Read an outline"), N_("Save the outline")},
    [FILE_PDF] = {N_("PDF files"), {"*.pdf"}, ".pdf", N_("Open"), N_("Prints as PDF")},
    [FILE_TABLE] = {N_("Tables"), {"*.csv", "*.txt"}, ".csv", N_("Read a table"), N_("Save the table")},
    [FILE_SVG] = {N_("SVG files"), {"*.svg"}, ".svg", N_("Open"), N_("Prints as SVG")},
};

typedef struct Choice {
    GtkFileChooserNative *native;
    FileKind kind;
    gboolean saving;
    FileChosen chosen;
    gpointer data;
} Choice;

static char *chosen_path(Choice *choice)
{
    GFile *file = gtk_file_chooser_get_file(GTK_FILE_CHOOSER(choice->native));
    char *path = file ? g_file_get_path(file) : NULL;
    g_clear_object(&file);
    if (!path || !choice->saving || g_str_has_suffix(path, kinds[choice->kind].ending))
        return path;
    char *full = g_strconcat(path, kinds[choice->kind].ending, NULL);
    g_free(path);
    return full;
}

static void on_response(GtkNativeDialog *dialog, int response, Choice *choice)
{
    char *path = response == GTK_RESPONSE_ACCEPT ? chosen_path(choice) : NULL;
    gtk_native_dialog_destroy(dialog);
    if (path)
        choice->chosen(path, choice->data);
    g_object_unref(choice->native);
    g_free(choice);
    g_free(path);
}

static void add_filter(GtkFileChooser *chooser, FileKind kind)
{
    GtkFileFilter *filter = gtk_file_filter_new();
    gtk_file_filter_set_name(filter, _(kinds[kind].name));
    for (gsize i = 0; i < G_N_ELEMENTS(kinds[kind].patterns) && kinds[kind].patterns[i]; i++)
        gtk_file_filter_add_pattern(filter, kinds[kind].patterns[i]);
    gtk_file_chooser_add_filter(chooser, filter);
    g_object_unref(filter);
}

static GtkFileChooser *begin(GtkWindow *parent, FileKind kind, gboolean saving, FileChosen chosen,
                             gpointer data)
{
    Choice *choice = g_new0(Choice, 1);
    choice->native = gtk_file_chooser_native_new(
        _(saving ? kinds[kind].save_title : kinds[kind].open_title), parent,
        saving ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_OPEN,
        saving ? _("Save") : _("Open"), _("Cancel"));
    choice->kind = kind;
    choice->saving = saving;
    choice->chosen = chosen;
    choice->data = data;
    gtk_native_dialog_set_modal(GTK_NATIVE_DIALOG(choice->native), TRUE);
    add_filter(GTK_FILE_CHOOSER(choice->native), kind);
    g_signal_connect(choice->native, "response", G_CALLBACK(on_response), choice);
    return GTK_FILE_CHOOSER(choice->native);
}

void choose_file_to_open(GtkWindow *parent, FileKind kind, FileChosen chosen, gpointer data)
{
    GtkFileChooser *chooser = begin(parent, kind, FALSE, chosen, data);
    gtk_native_dialog_show(GTK_NATIVE_DIALOG(chooser));
}

void choose_file_to_save(GtkWindow *parent, FileKind kind, const char *name, const char *folder,
                         FileChosen chosen, gpointer data)
{
    GtkFileChooser *chooser = begin(parent, kind, TRUE, chosen, data);
    char *full = g_str_has_suffix(name, kinds[kind].ending)
                     ? g_strdup(name)
                     : g_strconcat(name, kinds[kind].ending, NULL);
    gtk_file_chooser_set_current_name(chooser, full);
    if (folder) {
        GFile *file = g_file_new_for_path(folder);
        gtk_file_chooser_set_current_folder(chooser, file, NULL);
        g_object_unref(file);
    }
    gtk_native_dialog_show(GTK_NATIVE_DIALOG(chooser));
    g_free(full);
}

void choose_folder(GtkWindow *parent, const char *title, FileChosen chosen, gpointer data)
{
    Choice *choice = g_new0(Choice, 1);
    choice->native =
        gtk_file_chooser_native_new(title, parent, GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
                                    _("Take it"), _("Cancel"));
    choice->chosen = chosen;
    choice->data = data;
    gtk_native_dialog_set_modal(GTK_NATIVE_DIALOG(choice->native), TRUE);
    g_signal_connect(choice->native, "response", G_CALLBACK(on_response), choice);
    gtk_native_dialog_show(GTK_NATIVE_DIALOG(choice->native));
}
