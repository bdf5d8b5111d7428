/* The answers of a refit: each is tried on the plate, so that the layout and the findings show it;
 * arrow keys step through them, and one that is accepted becomes a station. */
#include "editor/refit-bar.h"

#include "checks/sentence.h"
#include "drawing/answer-sheet.h"
#include "drawing/pdf.h"
#include "drawing/shape-path.h"
#include "editor/access.h"
#include "editor/choose-file.h"
#include "editor/intl.h"
#include "editor/layout-private.h"
#include "editor/palette.h"
#include "editor/refit-search.h"
#include "editor/speech.h"
#include "editor/window-private.h"
#include "refit/refit-change.h"
#include "refit/refit-text.h"

#define KEPT "refit-bar"
#define LIST_HEIGHT 112
#define PROGRESS_EVERY 80 /* ms */

typedef struct RefitBar {
    PinWindow *window;
    GtkWidget *box, *outlines;
    GtkLabel *verdict, *place;
    GtkGrid *findings;
    GtkWidget *progress, *stop, *back, *next, *accept, *print;
    Drawing *drawing; /* of the outlines */
    PinDocument *document;
    RefitSearch *search;
    Refit *answers; /* the search's, once it is over */
    Refit *live;    /* the same part on the plate itself */
    Record *part;
    FeatureId replace;
    GtkWidget *as_dropped;
    RefitDrop drop; /* no item: the part was not dropped anywhere */
    uint32_t at;
    guint timer;
} RefitBar;

static Session *session_of(const RefitBar *bar)
{
    return pin_document_session(bar->document);
}

/* --- for scripts and tests ---------------------------------------------------------------------
 */

static void update_state(RefitBar *bar)
{
    GVariantDict state;
    GAction *action = g_action_map_lookup_action(G_ACTION_MAP(bar->window), "refit-state");
    uint32_t count = bar->answers ? refit_count(bar->answers) : 0;
    g_variant_dict_init(&state, NULL);
    g_variant_dict_insert(&state, "searching", "b", bar->search && !bar->answers);
    g_variant_dict_insert(&state, "answers", "u", count);
    g_variant_dict_insert(&state, "answer", "u", count ? bar->at + 1 : 0);
    g_variant_dict_insert(&state, "verdict", "s",
                          count ? refit_verdict_name(refit_at(bar->answers, bar->at)->verdict)
                                : "");
    g_simple_action_set_state(G_SIMPLE_ACTION(action), g_variant_dict_end(&state));
}

/* --- leaving off -------------------------------------------------------------------------------
 */

static void close_bar(RefitBar *bar)
{
    if (!bar->document)
        return;
    g_clear_handle_id(&bar->timer, g_source_remove);
    g_signal_handlers_disconnect_by_data(bar->document, bar);
    if (session_is_trying(session_of(bar)) && !pin_document_drag(bar->document))
        session_stop_trying(session_of(bar));
    layout_forget(bar->window->layout);
    g_signal_emit_by_name(bar->document, "tried");
    bar->answers = NULL;
    g_clear_pointer(&bar->search, refit_search_release);
    g_clear_pointer(&bar->live, refit_free);
    g_clear_pointer(&bar->part, record_unref);
    g_clear_object(&bar->drop.item);
    g_clear_object(&bar->document);
    gtk_widget_set_visible(bar->box, FALSE);
    gtk_widget_set_visible(bar->outlines, FALSE);
    update_state(bar);
    gtk_widget_grab_focus(GTK_WIDGET(bar->window->layout));
}

/* --- one answer --------------------------------------------------------------------------------
 */

static GtkWidget *text_cell(const char *text, gboolean heading)
{
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_yalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_widget_set_hexpand(label, TRUE);
    if (heading)
        gtk_widget_add_css_class(label, "heading");
    return label;
}

static void attach_side(RefitBar *bar, const Finding *finding, const Placed *placed, int column,
                        int row)
{
    char message[SENTENCE_TEXT];
    if (!finding)
        return;
    finding_message_said(finding, placed, session_unit(session_of(bar)), pin_speech(), message);
    char *text = g_strdup_printf("%s: %s", _(finding_level_name(finding->level)), message);
    gtk_grid_attach(bar->findings, text_cell(text, FALSE), column, row, 1, 1);
    g_free(text);
}

static void fill_findings(RefitBar *bar)
{
    const RefitAnswer *answer = refit_at(bar->answers, bar->at);
    const Placed *before_placed = session_placed(session_of(bar));
    const Placed *after_placed = refit_show_answer(bar->live, answer);
    FindingList before = FINDING_LIST_EMPTY;
    GtkWidget *child;
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(bar->findings))))
        gtk_grid_remove(bar->findings, child);
    refit_before(bar->live, answer, &before);
    GArray *changes = refit_changes(&before, answer);
    gtk_grid_attach(bar->findings, text_cell(_("Before"), TRUE), 0, 0, 1, 1);
    gtk_grid_attach(bar->findings, text_cell(_("With this answer"), TRUE), 1, 0, 1, 1);
    for (guint i = 0; i < changes->len; i++) {
        const RefitChange *change = &g_array_index(changes, RefitChange, i);
        attach_side(bar, change->before, before_placed, 0, (int)i + 1);
        attach_side(bar, change->after, after_placed, 1, (int)i + 1);
    }
    g_array_unref(changes);
    finding_list_clear(&before);
}

static void say_answer(RefitBar *bar)
{
    char verdict[VERDICT_TEXT], reason[SENTENCE_TEXT];
    const RefitAnswer *answer = refit_at(bar->answers, bar->at);
    Unit unit = session_unit(session_of(bar));
    refit_verdict_said(answer, pin_speech(), verdict);
    refit_reason_said(bar->answers, bar->at, unit, pin_speech(), reason);
    char *text = g_strdup_printf(refit_search_was_stopped(bar->search)
                                     ? _("Stopped: answer %u of %u so far: %s")
                                     : _("Answer %u of %u: %s"),
                                 bar->at + 1, refit_count(bar->answers), verdict);
    char *where = refit_answer_said(bar->answers, bar->at, unit, pin_speech());
    char *all = answer->verdict == REFIT_NO && *reason
                    ? g_strdup_printf(_("First reason: %s. It lies %s."), reason, where)
                    : g_strdup_printf(_("It lies %s."), where);
    gtk_label_set_label(bar->verdict, text);
    gtk_label_set_label(bar->place, all);
    g_free(all);
    g_free(where);
    g_free(text);
}

/* Tries it on the plate itself, uncommitted. */
static void show_answer(RefitBar *bar)
{
    const RefitAnswer *answer = refit_at(bar->answers, bar->at);
    Edit edit = EDIT_EMPTY;
    if (pin_layout_face(bar->window->layout) != answer->face)
        pin_layout_set_face(bar->window->layout, answer->face);
    refit_edit(bar->live, answer, &edit);
    session_try(session_of(bar), &edit);
    edit_clear(&edit);
    layout_forget(bar->window->layout);
    g_signal_emit_by_name(bar->document, "tried");
    gtk_widget_queue_draw(GTK_WIDGET(bar->window->layout));
    gtk_widget_queue_draw(bar->outlines);
    say_answer(bar);
    fill_findings(bar);
    gtk_widget_set_sensitive(bar->back, bar->at > 0);
    gtk_widget_set_sensitive(bar->next, bar->at + 1 < refit_count(bar->answers));
    update_state(bar);
}

static void step(RefitBar *bar, int by)
{
    uint32_t count = bar->answers ? refit_count(bar->answers) : 0;
    if (count == 0 || (by < 0 && bar->at == 0) || (by > 0 && bar->at + 1 >= count))
        return;
    bar->at += (uint32_t)by;
    show_answer(bar);
}

/* The parts that make room, by dashes, and the new one's outline. */
static void draw_outlines(GtkDrawingArea *area, cairo_t *cairo, int width, int height,
                          gpointer data)
{
    RefitBar *bar = data;
    PinLayout *layout = bar->window->layout;
    if (!bar->answers || refit_count(bar->answers) == 0 || !bar->drawing)
        return;
    const RefitAnswer *answer = refit_at(bar->answers, bar->at);
    const Placed *placed = session_placed(session_of(bar));
    if (answer->face != pin_layout_face(layout))
        return;
    ViewMap map = layout_map(layout);
    Screen screen = {layout->dark, TRUE};
    PlayStyle style = palette_screen_style(&screen);
    layout_begin_drawing(bar->drawing);
    for (guint i = 0; i <= answer->displaced->len; i++) {
        FeatureId id = i < answer->displaced->len ? g_array_index(answer->displaced, FeatureId, i)
                                                  : bar->replace;
        const Feature *old = id ? placed_find(placed, id) : NULL;
        if (old && old->face == answer->face)
            shape_path_draw(bar->drawing, LINE_HIDDEN, &old->shape, map);
    }
    const Feature *part = placed_find(session_shown(session_of(bar)), refit_station(bar->live));
    if (part)
        shape_path_draw(bar->drawing, LINE_VISIBLE, &part->shape, map);
    cairo_translate(cairo, layout->x, layout->y);
    cairo_scale(cairo, SHEET_PIXELS, SHEET_PIXELS);
    play_cairo_marks(bar->drawing, 0, bar->drawing->mark_count, 0, &style, cairo);
}

/* --- the search --------------------------------------------------------------------------------
 */

static void show_searching(RefitBar *bar, gboolean searching)
{
    gtk_widget_set_visible(bar->progress, searching);
    gtk_widget_set_visible(bar->stop, searching);
    GtkWidget *others[] = {bar->back, bar->next, bar->accept, bar->print};
    gboolean any = !searching && bar->answers && refit_count(bar->answers) > 0;
    for (gsize i = 0; i < G_N_ELEMENTS(others); i++)
        gtk_widget_set_visible(others[i], any);
    gtk_widget_set_visible(bar->as_dropped, !searching && bar->drop.item != NULL);
}

static void on_searched(RefitSearch *search, void *data)
{
    RefitBar *bar = data;
    bar->answers = refit_search_answers(search);
    g_clear_handle_id(&bar->timer, g_source_remove);
    show_searching(bar, FALSE);
    if (refit_count(bar->answers) > 0) {
        if (bar->drop.item)
            bar->at = refit_lead_nearest(bar->answers, bar->drop.face, bar->drop.at);
        show_answer(bar);
    } else if (refit_search_was_stopped(search)) {
        gtk_label_set_label(bar->verdict, _("Stopped: no place was found so far"));
    } else {
        gtk_label_set_label(bar->verdict, _("There is no place for it"));
        gtk_label_set_label(bar->place, _("No hole of the plate locates or holds one of the "
                                          "part's, and it lies in no nest."));
    }
    update_state(bar);
    gtk_widget_grab_focus(bar->box);
}

static gboolean on_timer(gpointer data)
{
    RefitBar *bar = data;
    gtk_progress_bar_set_fraction(GTK_PROGRESS_BAR(bar->progress),
                                  CLAMP(refit_search_progress(bar->search), 0, 1));
    return G_SOURCE_CONTINUE;
}

/* Another plate than that which was searched: the answers no longer hold. */
static void on_changed(PinDocument *document, RefitBar *bar)
{
    close_bar(bar);
}

/* After a drag the answer is shown again. */
static void on_tried(PinDocument *document, RefitBar *bar)
{
    if (bar->answers && refit_count(bar->answers) > 0 && !pin_document_drag(document) &&
        !session_is_trying(session_of(bar)))
        show_answer(bar);
}

static void on_window_state(GActionGroup *group, const char *name, GVariant *state, RefitBar *bar)
{
    if (bar->document && bar->window->document != bar->document)
        close_bar(bar);
}

/* --- what is pressed ---------------------------------------------------------------------------
 */

static void on_stop(GtkButton *button, RefitBar *bar)
{
    if (bar->search)
        refit_search_stop(bar->search);
}

static void on_back(GtkButton *button, RefitBar *bar)
{
    step(bar, -1);
}

static void on_next(GtkButton *button, RefitBar *bar)
{
    step(bar, 1);
}

static void on_close(GtkButton *button, RefitBar *bar)
{
    gboolean dropped = bar->drop.item != NULL;
    close_bar(bar);
    if (dropped)
        window_say(bar->window, _("The part was not put on; the plate is as it was."));
}

static void on_accept(GtkButton *button, RefitBar *bar)
{
    if (!bar->answers || refit_count(bar->answers) == 0)
        return;
    Edit edit = EDIT_EMPTY;
    FeatureId station = refit_station(bar->live);
    PinDocument *document = g_object_ref(bar->document);
    char verdict[VERDICT_TEXT];
    refit_edit(bar->live, refit_at(bar->answers, bar->at), &edit);
    refit_verdict_said(refit_at(bar->answers, bar->at), pin_speech(), verdict);
    close_bar(bar);
    if (pin_document_do(document, &edit)) {
        char *text = g_strdup_printf(_("The part is on the plate: it %s."), verdict);
        pin_document_select_one(document, station);
        window_say(bar->window, text);
        g_free(text);
    }
    g_object_unref(document);
}

/* The plain station that the drop would have made on a plate still to be made. */
static void on_as_dropped(GtkButton *button, RefitBar *bar)
{
    Edit edit = EDIT_EMPTY;
    Error error;
    RefitDrop drop = bar->drop;
    PinDocument *document = g_object_ref(bar->document);
    g_object_ref(drop.item);
    close_bar(bar);
    if (!pin_tray_item_make(drop.item, pin_document_session(document), drop.face, drop.at, &edit,
                            &error)) {
        session_give_back_ids(pin_document_session(document), &edit);
        edit_clear(&edit);
        pin_document_refuse(document, &error);
    } else {
        FeatureId station = refit_station_of(&edit);
        if (pin_document_do(document, &edit))
            pin_document_select_one(document, station);
    }
    g_object_unref(drop.item);
    g_object_unref(document);
}

static void print_to(const char *path, gpointer data)
{
    RefitBar *bar = data;
    Error error;
    if (!bar->answers || bar->at >= refit_count(bar->answers))
        return;
    DrawingSource source = {session_plate(session_of(bar)), session_placed(session_of(bar))};
    ViewSpec spec = {0};
    Lettering *lettering = lettering_new(&error);
    Drawing *drawing = lettering ? drawing_new(lettering) : NULL;
    if (drawing && answer_sheet_build(drawing, &source, bar->answers, bar->at, &spec, &error) &&
        pdf_write(drawing, path, &error))
        window_say(bar->window, _("The answer is written."));
    else
        window_say_error(bar->window, _("The answer was not written"), &error);
    drawing_free(drawing);
    lettering_unref(lettering);
}

static void on_print(GtkButton *button, RefitBar *bar)
{
    choose_file_to_save(GTK_WINDOW(bar->window), FILE_PDF, _("answer"), NULL, print_to, bar);
}

static gboolean on_key(GtkEventControllerKey *keys, guint key, guint code, GdkModifierType held,
                       RefitBar *bar)
{
    if (key == GDK_KEY_Left || key == GDK_KEY_Up || key == GDK_KEY_Right || key == GDK_KEY_Down)
        step(bar, key == GDK_KEY_Left || key == GDK_KEY_Up ? -1 : 1);
    else if (key == GDK_KEY_Escape)
        on_close(NULL, bar);
    else if (key == GDK_KEY_Return && gtk_widget_has_focus(bar->box))
        on_accept(NULL, bar);
    else
        return FALSE;
    return TRUE;
}

/* --- the bar -----------------------------------------------------------------------------------
 */

static GtkWidget *add_button(RefitBar *bar, GtkWidget *box, const char *label, const char *tip,
                             GCallback pressed)
{
    GtkWidget *button = gtk_button_new_with_label(label);
    gtk_widget_set_tooltip_text(button, tip);
    g_signal_connect(button, "clicked", pressed, bar);
    gtk_box_append(GTK_BOX(box), button);
    return button;
}

static GtkLabel *add_label(GtkWidget *box, const char *css)
{
    GtkWidget *label = gtk_label_new("");
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_label_set_wrap(GTK_LABEL(label), TRUE);
    gtk_label_set_selectable(GTK_LABEL(label), FALSE);
    if (css)
        gtk_widget_add_css_class(label, css);
    gtk_box_append(GTK_BOX(box), label);
    return GTK_LABEL(label);
}

static GtkWidget *scrolled(GtkWidget *child, int width, const char *name)
{
    GtkWidget *scroller = gtk_scrolled_window_new();
    access_name(scroller, name);
    gtk_scrolled_window_set_policy(GTK_SCROLLED_WINDOW(scroller), GTK_POLICY_NEVER,
                                   GTK_POLICY_AUTOMATIC);
    gtk_scrolled_window_set_child(GTK_SCROLLED_WINDOW(scroller), child);
    gtk_widget_set_size_request(scroller, width, LIST_HEIGHT);
    return scroller;
}

static void add_words(RefitBar *bar)
{
    GtkWidget *words = gtk_box_new(GTK_ORIENTATION_VERTICAL, 4);
    bar->verdict = add_label(words, "heading");
    bar->progress = gtk_progress_bar_new();
    gtk_box_append(GTK_BOX(words), bar->progress);
    bar->place = add_label(words, NULL);
    GtkWidget *scroller = scrolled(words, 380, _("The answer"));
    gtk_widget_set_hexpand(scroller, TRUE);
    gtk_box_append(GTK_BOX(bar->box), scroller);
}

static void add_findings(RefitBar *bar)
{
    GtkWidget *grid = gtk_grid_new();
    bar->findings = GTK_GRID(grid);
    gtk_grid_set_column_spacing(bar->findings, 12);
    gtk_grid_set_row_spacing(bar->findings, 4);
    gtk_grid_set_column_homogeneous(bar->findings, TRUE);
    GtkWidget *scroller = scrolled(grid, 480, _("Findings of the answer"));
    gtk_widget_set_hexpand(scroller, TRUE);
    gtk_box_append(GTK_BOX(bar->box), scroller);
}

static void add_buttons(RefitBar *bar)
{
    GtkWidget *all = gtk_box_new(GTK_ORIENTATION_VERTICAL, 4);
    GtkWidget *steps = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 4);
    gtk_widget_set_valign(all, GTK_ALIGN_CENTER);
    bar->back =
        add_button(bar, steps, _("Back"), _("The answer before (Left)"), G_CALLBACK(on_back));
    bar->next =
        add_button(bar, steps, _("Next"), _("The next answer (Right)"), G_CALLBACK(on_next));
    gtk_box_set_homogeneous(GTK_BOX(steps), TRUE);
    gtk_box_append(GTK_BOX(all), steps);
    bar->accept =
        add_button(bar, all, _("Accept"), _("Put it on the plate (Enter)"), G_CALLBACK(on_accept));
    bar->as_dropped = add_button(bar, all, _("New holes here"),
                                 _("Put it where it was dropped, on holes still to be made"),
                                 G_CALLBACK(on_as_dropped));
    bar->print = add_button(bar, all, _("Print the answer…"), _("One sheet for the shop, as PDF"),
                            G_CALLBACK(on_print));
    bar->stop = add_button(bar, all, _("Stop"), _("Leave off searching"), G_CALLBACK(on_stop));
    add_button(bar, all, _("Close"), _("Leave the plate as it is (Escape)"), G_CALLBACK(on_close));
    gtk_box_append(GTK_BOX(bar->box), all);
}

/* Over the layout, where the pointer goes through it. */
static void add_outlines(RefitBar *bar)
{
    GtkWidget *overlay = gtk_widget_get_ancestor(GTK_WIDGET(bar->window->layout), GTK_TYPE_OVERLAY);
    bar->outlines = gtk_drawing_area_new();
    gtk_widget_set_can_target(bar->outlines, FALSE);
    gtk_widget_set_visible(bar->outlines, FALSE);
    gtk_drawing_area_set_draw_func(GTK_DRAWING_AREA(bar->outlines), draw_outlines, bar, NULL);
    if (overlay)
        gtk_overlay_add_overlay(GTK_OVERLAY(overlay), bar->outlines);
    if (bar->window->layout->lettering)
        bar->drawing = drawing_new(bar->window->layout->lettering);
    g_signal_connect_swapped(bar->window->layout, "viewed", G_CALLBACK(gtk_widget_queue_draw),
                             bar->outlines);
}

static void bar_free(gpointer data)
{
    RefitBar *bar = data;
    g_clear_handle_id(&bar->timer, g_source_remove);
    if (bar->document)
        g_signal_handlers_disconnect_by_data(bar->document, bar);
    g_clear_pointer(&bar->search, refit_search_release);
    g_clear_pointer(&bar->live, refit_free);
    g_clear_pointer(&bar->part, record_unref);
    g_clear_object(&bar->drop.item);
    g_clear_object(&bar->document);
    drawing_free(bar->drawing);
    g_free(bar);
}

static RefitBar *bar_of(PinWindow *window)
{
    RefitBar *bar = g_object_get_data(G_OBJECT(window), KEPT);
    if (bar)
        return bar;
    GtkWidget *page = gtk_widget_get_first_child(window->plate_place);
    bar = g_new0(RefitBar, 1);
    bar->window = window;
    bar->box = gtk_box_new(GTK_ORIENTATION_HORIZONTAL, 12);
    gtk_widget_set_focusable(bar->box, TRUE);
    gtk_widget_add_css_class(bar->box, "panel");
    gtk_widget_set_margin_start(bar->box, 10);
    gtk_widget_set_margin_end(bar->box, 10);
    gtk_widget_set_margin_top(bar->box, 6);
    gtk_widget_set_margin_bottom(bar->box, 6);
    gtk_accessible_update_property(GTK_ACCESSIBLE(bar->box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                   _("Answers of the refit"), -1);
    add_words(bar);
    add_findings(bar);
    add_buttons(bar);
    add_outlines(bar);
    GtkEventController *keys = gtk_event_controller_key_new();
    g_signal_connect(keys, "key-pressed", G_CALLBACK(on_key), bar);
    gtk_widget_add_controller(bar->box, keys);
    gtk_box_insert_child_after(GTK_BOX(page), bar->box, gtk_widget_get_first_child(page));
    g_object_set_data_full(G_OBJECT(window), KEPT, bar, bar_free);
    g_signal_connect(window, "action-state-changed::state", G_CALLBACK(on_window_state), bar);
    return bar;
}

void refit_show_answers(PinWindow *window, const Part *part, FeatureId replace,
                        const RefitDrop *drop)
{
    RefitBar *bar = bar_of(window);
    Error error;
    close_bar(bar);
    if (replace && !refit_can_replace(pin_document_plate(window->document), replace, &error)) {
        pin_document_refuse(window->document, &error);
        return;
    }
    bar->document = g_object_ref(window->document);
    bar->part = record_new(ID_NONE, RECORD_PART);
    schema_copy(&part_schema, &bar->part->part, part);
    bar->replace = replace;
    bar->drop = drop ? *drop : (RefitDrop){0};
    if (drop)
        g_object_ref(drop->item);
    bar->at = 0;
    Session *session = session_of(bar);
    RefitOptions options = {.replace = replace};
    bar->live = refit_new(session_plate(session), session_placed(session), session_checker(session),
                          &bar->part->part, &options);
    bar->search =
        refit_search_begin(session_plate(session), &bar->part->part, replace, on_searched, bar);
    bar->timer = g_timeout_add(PROGRESS_EVERY, on_timer, bar);
    g_signal_connect(bar->document, "changed", G_CALLBACK(on_changed), bar);
    g_signal_connect(bar->document, "tried", G_CALLBACK(on_tried), bar);
    gtk_label_set_label(bar->verdict, _("Looking for places…"));
    gtk_label_set_label(bar->place, "");
    show_searching(bar, TRUE);
    gtk_widget_set_visible(bar->outlines, TRUE);
    gtk_widget_set_visible(bar->box, TRUE);
    gtk_widget_grab_focus(bar->box);
    update_state(bar);
}
