/* The prints: into a file, onto paper, or looked at first. All play one drawing. */
#include "editor/window-private.h"

#include "drawing/build.h"
#include "drawing/pdf.h"
#include "drawing/play-cairo.h"
#include "drawing/svg.h"
#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/layout-band.h"
#include "editor/layout-section.h"
#include "editor/preview.h"

#include <string.h>

/* Whether a choice for the prints is made. */
static bool is_on(PinWindow *window, const char *choice)
{
    GVariant *state = g_action_group_get_action_state(G_ACTION_GROUP(window), choice);
    bool on = g_variant_get_boolean(state);
    g_variant_unref(state);
    return on;
}

/* NULL where there is none, which has then been said. */
static Drawing *build_prints(PinWindow *window)
{
    Session *session = pin_document_session(window->document);
    DrawingSource source = {session_plate(session), session_placed(session)};
    ViewSpec spec = {.both_units = is_on(window, "prints-both-units"),
                     .chained = is_on(window, "prints-chained")};
    SectionLine line;
    Error error;
    Lettering *lettering = lettering_new(&error);
    if (pin_layout_section(window->layout, &line))
        spec.sections[0] = line; /* what is seen cut is printed cut */
    Drawing *drawing = lettering ? drawing_new(lettering) : NULL;
    if (!drawing || !drawing_build(drawing, &source, &spec, &error)) {
        window_say_error(window, _("There are no prints of this plate"), &error);
        drawing_free(drawing);
        drawing = NULL;
    }
    lettering_unref(lettering);
    return drawing;
}

/* --- into a file -------------------------------------------------------------------------------
 */

static void say_written(PinWindow *window, const Drawing *drawing, const char *path)
{
    char *name = g_path_get_basename(path);
    char *text =
        g_strdup_printf(ngettext("%u sheet is written to %s.", "%u sheets are written to %s.",
                                 (gulong)drawing->sheet_count),
                        (guint)drawing->sheet_count, name);
    window_say(window, text);
    g_free(text);
    g_free(name);
}

static void export_to(PinWindow *window, const char *path,
                      bool (*write)(const Drawing *, const char *, Error *))
{
    Error error;
    Drawing *drawing = build_prints(window);
    if (!drawing)
        return;
    if (write(drawing, path, &error))
        say_written(window, drawing, path);
    else
        window_say_error(window, _("The prints were not written"), &error);
    drawing_free(drawing);
}

static void export_pdf(const char *path, gpointer data)
{
    export_to(data, path, pdf_write);
}

static void export_svg(const char *path, gpointer data)
{
    export_to(data, path, svg_write);
}

static void choose_export(PinWindow *window, FileKind kind, FileChosen chosen)
{
    const char *path = session_path(pin_document_session(window->document));
    char *name = path ? g_path_get_basename(path) : g_strdup(_("prints"));
    char *folder = path ? g_path_get_dirname(path) : NULL;
    if (g_str_has_suffix(name, ".plate"))
        name[strlen(name) - strlen(".plate")] = '\0';
    choose_file_to_save(GTK_WINDOW(window), kind, name, folder, chosen, window);
    g_free(name);
    g_free(folder);
}

static void on_export_pdf(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_export(data, FILE_PDF, export_pdf);
}

static void on_export_svg(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_export(data, FILE_SVG, export_svg);
}

/* --- onto paper --------------------------------------------------------------------------------
 */

static void print(PinWindow *window);

static void on_preview_print(PinPreview *preview, PinWindow *window)
{
    gtk_window_close(GTK_WINDOW(preview));
    print(window);
}

static void on_choice(GActionGroup *group, const char *choice, GVariant *state, PinPreview *preview)
{
    Drawing *drawing = build_prints(PIN_WINDOW(group));
    if (drawing)
        pin_preview_set_drawing(preview, drawing);
}

/* The preview with the choices for the prints, which it follows. Takes the drawing over. */
static GtkWidget *new_preview(PinWindow *window, Drawing *drawing)
{
    static const char *const choices[] = {"action-state-changed::prints-both-units",
                                          "action-state-changed::prints-chained"};
    GtkWidget *preview = pin_preview_new(GTK_WINDOW(window), drawing);
    pin_preview_offer_choices(PIN_PREVIEW(preview), G_ACTION_GROUP(window));
    for (guint i = 0; i < G_N_ELEMENTS(choices); i++)
        g_signal_connect_object(window, choices[i], G_CALLBACK(on_choice), preview, 0);
    return preview;
}

static void on_begin_print(GtkPrintOperation *operation, GtkPrintContext *context, Drawing *drawing)
{
    gtk_print_operation_set_n_pages(operation, (int)drawing->sheet_count);
}

static void on_page_setup(GtkPrintOperation *operation, GtkPrintContext *context, int page,
                          GtkPageSetup *setup, Drawing *drawing)
{
    const Sheet *sheet = &drawing->sheets[page];
    gboolean wide = sheet->width > sheet->height;
    double narrow = wide ? sheet->height : sheet->width, tall = wide ? sheet->width : sheet->height;
    GtkPaperSize *size = gtk_paper_size_new_custom("sheet", sheet->name, narrow, tall, GTK_UNIT_MM);
    gtk_page_setup_set_paper_size_and_default_margins(setup, size);
    gtk_page_setup_set_orientation(setup, wide ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                               : GTK_PAGE_ORIENTATION_PORTRAIT);
    gtk_paper_size_free(size);
}

static void on_draw_page(GtkPrintOperation *operation, GtkPrintContext *context, int page,
                         Drawing *drawing)
{
    cairo_t *cairo = gtk_print_context_get_cairo_context(context);
    play_cairo_sheet(drawing, (size_t)page, &play_style_print, cairo);
}

static void on_preview_closed(GtkWidget *preview, GtkPrintOperationPreview *operation)
{
    gtk_print_operation_preview_end_preview(operation);
}

/* The print dialog's own preview would start a viewer that may not be there. */
static gboolean on_preview_asked(GtkPrintOperation *operation, GtkPrintOperationPreview *preview,
                                 GtkPrintContext *context, GtkWindow *parent, PinWindow *window)
{
    Drawing *drawing = build_prints(window);
    if (!drawing)
        return FALSE;
    /* The toolkit wants something to draw on, though the preview draws by itself. */
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    cairo_t *cairo = cairo_create(surface);
    gtk_print_context_set_cairo_context(context, cairo, 72, 72);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    GtkWidget *shown = new_preview(window, drawing);
    g_signal_connect(shown, "print", G_CALLBACK(on_preview_print), window);
    g_signal_connect_data(shown, "destroy", G_CALLBACK(on_preview_closed), g_object_ref(preview),
                          (GClosureNotify)(void (*)(void))g_object_unref, 0);
    gtk_window_present(GTK_WINDOW(shown));
    return TRUE;
}

static void on_print_done(GtkPrintOperation *operation, GtkPrintOperationResult result,
                          PinWindow *window)
{
    if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
        return;
    GError *wrong = NULL;
    Error error;
    gtk_print_operation_get_error(operation, &wrong);
    error_set(&error, ERROR_INTERNAL, NULL, "%s", wrong ? wrong->message : "");
    g_clear_error(&wrong);
    window_say_error(window, _("The prints were not printed"), &error);
}

static void print(PinWindow *window)
{
    Drawing *drawing = build_prints(window);
    if (!drawing)
        return;
    GtkPrintOperation *operation = gtk_print_operation_new();
    gtk_print_operation_set_unit(operation, GTK_UNIT_MM);
    gtk_print_operation_set_use_full_page(operation, TRUE);
    gtk_print_operation_set_embed_page_setup(operation, TRUE);
    gtk_print_operation_set_job_name(operation, gtk_label_get_label(window->file_name));
    g_object_set_data_full(G_OBJECT(operation), "drawing", drawing, (GDestroyNotify)drawing_free);
    g_signal_connect(operation, "begin-print", G_CALLBACK(on_begin_print), drawing);
    g_signal_connect(operation, "request-page-setup", G_CALLBACK(on_page_setup), drawing);
    g_signal_connect(operation, "draw-page", G_CALLBACK(on_draw_page), drawing);
    g_signal_connect(operation, "preview", G_CALLBACK(on_preview_asked), window);
    g_signal_connect(operation, "done", G_CALLBACK(on_print_done), window);
    gtk_print_operation_run(operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW(window),
                            NULL);
    g_object_unref(operation);
}

static void on_print(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    print(data);
}

static void on_preview(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    Drawing *drawing = build_prints(window);
    if (!drawing)
        return;
    GtkWidget *preview = new_preview(window, drawing);
    g_signal_connect(preview, "print", G_CALLBACK(on_preview_print), window);
    gtk_window_present(GTK_WINDOW(preview));
}

/* The same band as the prints have, on the layout. */
static void on_show_error_band(GSimpleAction *action, GVariant *value, gpointer data)
{
    PinWindow *window = data;
    g_simple_action_set_state(action, value);
    layout_show_error_band(window->layout, g_variant_get_boolean(value));
}

void window_add_print_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "export-pdf", .activate = on_export_pdf},
        {.name = "export-svg", .activate = on_export_svg},
        {.name = "print", .activate = on_print},
        {.name = "preview", .activate = on_preview},
        {.name = "show-error-band", .state = "false", .change_state = on_show_error_band},
        {.name = "prints-both-units", .state = "false"},
        {.name = "prints-chained", .state = "false"},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
