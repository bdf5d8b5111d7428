#include "editor/editor.h"

#include "editor/appearance.h"
#include "editor/intl.h"
#include "editor/resources.h"
#include "editor/speech.h"
#include "editor/window.h"

#define PIN_TYPE_APPLICATION (pin_application_get_type())
G_DECLARE_FINAL_TYPE(PinApplication, pin_application, PIN, APPLICATION, GtkApplication)

struct _PinApplication {
    GtkApplication parent_instance;
};

G_DEFINE_FINAL_TYPE(PinApplication, pin_application, GTK_TYPE_APPLICATION)

/* --- actions -----------------------------------------------------------------------------------
 */

/* A window that still shows the first page, or a new one. */
static PinWindow *empty_window(GtkApplication *application)
{
    GtkWindow *active = gtk_application_get_active_window(application);
    if (PIN_IS_WINDOW(active) && !pin_window_document(PIN_WINDOW(active)))
        return PIN_WINDOW(active);
    return pin_window_new(application);
}

static void on_new(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = empty_window(data);
    gtk_window_present(GTK_WINDOW(window));
    pin_window_begin_new_plate(window);
}

static gpointer take_window(gconstpointer window, gpointer data)
{
    return g_object_ref((gpointer)window);
}

static void on_quit(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    /* Each window asks about its own changes; one may take others with it. */
    GList *windows = g_list_copy_deep(gtk_application_get_windows(data), take_window, NULL);
    for (GList *i = windows; i; i = i->next)
        gtk_window_close(i->data);
    g_list_free_full(windows, g_object_unref);
}

static void open_path(GtkApplication *application, const char *path)
{
    PinWindow *window = empty_window(application);
    gtk_window_present(GTK_WINDOW(window));
    pin_window_open(window, path);
}

static void on_open_recent(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    open_path(data, g_variant_get_string(parameter, NULL));
}

/* Said in a window of a plate, also where another one has the focus. */
static void say(GtkApplication *application, const char *text)
{
    for (GList *i = gtk_application_get_windows(application); i; i = i->next) {
        if (!PIN_IS_WINDOW(i->data))
            continue;
        pin_window_say(i->data, text);
        return;
    }
}

static void launch(GtkApplication *application, GAppInfo *viewer, const char *uri)
{
    GError *error = NULL;
    GList uris = {(gpointer)uri, NULL, NULL};
    GdkAppLaunchContext *context = gdk_display_get_app_launch_context(gdk_display_get_default());
    if (!g_app_info_launch_uris(viewer, &uris, G_APP_LAUNCH_CONTEXT(context), &error)) {
        char *text = g_strdup_printf(_("The guide can't be opened: %s."), error->message);
        say(application, text);
        g_free(text);
        g_error_free(error);
    }
    g_object_unref(context);
}

/* The guide is Mallard pages, shown by the desktop's own help viewer. `page` is empty for the
 * first. */
static void open_guide(GtkApplication *application, const char *page)
{
    GAppInfo *viewer = g_app_info_get_default_for_uri_scheme("help");
    char *uri = g_strconcat("help:pinplate", *page ? "/" : "", page, NULL);
    if (viewer)
        launch(application, viewer, uri);
    else
        say(application,
            _("There is no help viewer on this computer. Install one for Mallard pages "
              "to read the guide."));
    g_free(uri);
    g_clear_object(&viewer);
}

static void on_help(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    open_guide(data, "");
}

static void on_help_page(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    open_guide(data, g_variant_get_string(parameter, NULL));
}

static void on_about(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    gtk_show_about_dialog(
        gtk_application_get_active_window(data), "program-name", "Pinplate", "version",
        EDITOR_VERSION, "logo-icon-name", EDITOR_ID, "license-type", GTK_LICENSE_GPL_3_0,
        "comments",
        _("Lays out, checks and draws the fixture plates of a small knife shop.\n\nCheck every "
          "figure against the stock, the tool and the machine's manual. Prove a program above the "
          "work first. Local rules and a qualified machinist come before this program."),
        NULL);
}

/* --- the application ---------------------------------------------------------------------------
 */

static void add_accelerator(GtkApplication *application, const char *action, const char *keys)
{
    const char *accelerators[] = {keys, NULL};
    gtk_application_set_accels_for_action(application, action, accelerators);
}

static void load_style(void)
{
    GtkCssProvider *provider = gtk_css_provider_new();
    gtk_css_provider_load_from_resource(provider, EDITOR_PATH "ui/pinplate.css");
    gtk_style_context_add_provider_for_display(gdk_display_get_default(),
                                               GTK_STYLE_PROVIDER(provider),
                                               GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
    g_object_unref(provider);
}

static void pin_application_startup(GApplication *application)
{
    static const GActionEntry entries[] = {
        {.name = "new", .activate = on_new},
        {.name = "quit", .activate = on_quit},
        {.name = "about", .activate = on_about},
        {.name = "help", .activate = on_help},
        {.name = "help-page", .activate = on_help_page, .parameter_type = "s"},
        {.name = "open-recent", .activate = on_open_recent, .parameter_type = "s"},
    };
    GtkApplication *gtk = GTK_APPLICATION(application);
    G_APPLICATION_CLASS(pin_application_parent_class)->startup(application);
    g_action_map_add_action_entries(G_ACTION_MAP(application), entries, G_N_ELEMENTS(entries),
                                    application);
    gtk_window_set_default_icon_name(EDITOR_ID);
    load_style();
    appearance_follow();
    add_accelerator(gtk, "app.new", "<Control>n");
    add_accelerator(gtk, "app.quit", "<Control>q");
    add_accelerator(gtk, "win.open", "<Control>o");
    add_accelerator(gtk, "win.save", "<Control>s");
    add_accelerator(gtk, "win.save-as", "<Control><Shift>s");
    add_accelerator(gtk, "win.print", "<Control>p");
    add_accelerator(gtk, "win.preview", "<Control><Shift>p");
    add_accelerator(gtk, "win.close", "<Control>w");
    add_accelerator(gtk, "win.figures", "<Control>e");
    add_accelerator(gtk, "win.zoom-in", "<Control>plus");
    add_accelerator(gtk, "win.zoom-out", "<Control>minus");
    add_accelerator(gtk, "win.zoom-fit", "<Control>0");
    add_accelerator(gtk, "win.find-command", "<Control>k");
    add_accelerator(gtk, "win.preferences", "<Control>comma");
    add_accelerator(gtk, "app.help", "F1");
    add_accelerator(gtk, "win.keys", "<Control>question");
}

static void pin_application_activate(GApplication *application)
{
    PinWindow *window = empty_window(GTK_APPLICATION(application));
    gtk_window_present(GTK_WINDOW(window));
    pin_window_offer_recovery(window);
}

static void pin_application_open(GApplication *application, GFile **files, int count,
                                 const char *hint)
{
    for (int i = 0; i < count; i++) {
        char *path = g_file_get_path(files[i]);
        if (path)
            open_path(GTK_APPLICATION(application), path);
        g_free(path);
    }
}

static void pin_application_class_init(PinApplicationClass *class)
{
    GApplicationClass *application = G_APPLICATION_CLASS(class);
    application->startup = pin_application_startup;
    application->activate = pin_application_activate;
    application->open = pin_application_open;
}

static void pin_application_init(PinApplication *application)
{
}

int editor_run(int argc, char **argv)
{
    pin_speech_start();
    gtk_disable_setlocale();
    g_set_prgname("pinplate");
    if (!gtk_init_check()) {
        g_printerr("pinplate: there is no display to open a window on; see pinplate --help for "
                   "what works without one\n");
        return 2;
    }
    g_set_application_name("Pinplate");
    pinplate_register_resource();
    GApplication *application = g_object_new(PIN_TYPE_APPLICATION, "application-id", EDITOR_ID,
                                             "flags", G_APPLICATION_HANDLES_OPEN,
                                             "resource-base-path", "/org/pinplate/Pinplate", NULL);
    int status = g_application_run(application, argc, argv);
    g_object_unref(application);
    return status;
}
