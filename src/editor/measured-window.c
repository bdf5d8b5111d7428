#include "editor/measured-window.h"

#include "drawing/deviation-sheet.h"
#include "drawing/pdf.h"
#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/preview.h"
#include "editor/window-private.h"
#include "exchange/measured-csv.h"

#define MARGIN (15 * LENGTH_MM)

/* What a new plate's stock is taken to be until the maker says it. */
#define THICKNESS_MM (12 * LENGTH_MM)
#define THICKNESS_INCH (LENGTH_INCH / 2)

/* --- against the plate -------------------------------------------------------------------------
 */

static Drawing *draw_deviations(PinWindow *window, const MeasuredTable *table, Error *error)
{
    Session *session = pin_document_session(window->document);
    DrawingSource source = {session_plate(session), session_placed(session)};
    MeasuredOptions options = {.face = pin_layout_face(window->layout)};
    ViewSpec spec = {.choose_sheet = false};
    Measured measured;
    if (!measured_compare(table, source.plate, source.placed, &options, &measured, error))
        return NULL;
    Deviations deviations = {table, &measured, options.face};
    Lettering *lettering = lettering_new(error);
    Drawing *drawing = lettering ? drawing_new(lettering) : NULL;
    if (drawing && !deviation_sheet_build(drawing, &source, &deviations, &spec, error)) {
        drawing_free(drawing);
        drawing = NULL;
    }
    lettering_unref(lettering);
    measured_clear(&measured);
    return drawing;
}

static void write_pdf(const char *path, gpointer data)
{
    Error error;
    PinWindow *window = data;
    const Drawing *drawing = g_object_get_data(G_OBJECT(window), "deviations");
    if (drawing && !pdf_write(drawing, path, &error))
        window_say_error(window, _("The deviations were not written"), &error);
}

static void on_print(PinPreview *preview, PinWindow *window)
{
    choose_file_to_save(GTK_WINDOW(window), FILE_PDF, _("measured"), NULL, write_pdf, window);
}

static void show(PinWindow *window, const MeasuredTable *table, Error *error)
{
    Drawing *shown = draw_deviations(window, table, error);
    Drawing *kept = shown ? draw_deviations(window, table, error) : NULL;
    if (!shown) {
        window_say_error(window, _("The table does not go with this plate"), error);
        return;
    }
    g_object_set_data_full(G_OBJECT(window), "deviations", kept, (GDestroyNotify)drawing_free);
    GtkWidget *preview = pin_preview_new(GTK_WINDOW(window), shown);
    gtk_window_set_title(GTK_WINDOW(preview), _("Measured"));
    g_signal_connect_object(preview, "print", G_CALLBACK(on_print), window, 0);
    gtk_window_present(GTK_WINDOW(preview));
}

static void compare(const char *path, gpointer data)
{
    Error error;
    MeasuredTable table;
    PinWindow *window = data;
    if (!window->document)
        return;
    if (measured_csv_load(path, pin_document_unit(window->document), &table, &error))
        show(window, &table, &error);
    else
        window_say_error(window, _("The table can't be read"), &error);
    measured_table_clear(&table);
}

/* --- a plate of it -----------------------------------------------------------------------------
 */

static void make_plate(const char *path, gpointer data)
{
    Error error;
    MeasuredTable table;
    PinWindow *window = data;
    Unit unit = window->document ? pin_document_unit(window->document) : UNIT_MM;
    MeasuredPlate wanted = {.unit = unit == UNIT_INCH ? PLATE_INCH : PLATE_MM,
                            .thickness = unit == UNIT_INCH ? THICKNESS_INCH : THICKNESS_MM,
                            .margin = MARGIN};
    Plate *plate = measured_csv_load(path, unit, &table, &error)
                       ? measured_plate_new(&table, &wanted, &error)
                       : NULL;
    measured_table_clear(&table);
    if (!plate) {
        window_say_error(window, _("No plate can be made of the table"), &error);
        return;
    }
    PinWindow *target = window;
    if (window->document) {
        target = pin_window_new(gtk_window_get_application(GTK_WINDOW(window)));
        gtk_window_present(GTK_WINDOW(target));
    }
    Session *session = session_new(plate, NULL);
    session_set_unsaved(session);
    pin_window_set_session(target, session);
    window_say(target, _("The holes are made. Say in the details how large and thick the plate "
                         "is."));
}

/* --- actions -----------------------------------------------------------------------------------
 */

static void on_measured(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    if (window->document)
        choose_file_to_open(GTK_WINDOW(window), FILE_TABLE, compare, window);
}

static void on_plate_of_table(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    choose_file_to_open(GTK_WINDOW(data), FILE_TABLE, make_plate, data);
}

void measured_add_actions(PinWindow *window)
{
    static const GActionEntry entries[] = {
        {.name = "measured", .activate = on_measured},
        {.name = "plate-of-table", .activate = on_plate_of_table},
    };
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
}
