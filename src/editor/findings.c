#include "editor/findings.h"

#include "checks/sentence.h"
#include "drawing/lettering.h"
#include "editor/access.h"
#include "editor/finding-accept.h"
#include "editor/finding-limits.h"
#include "editor/finding-row.h"
#include "editor/intl.h"
#include "session/selection.h"

struct _PinFindings {
    GtkWidget parent_instance;
    GtkLabel *heading;
    GtkLabel *counts;
    GtkStack *stack;
    GtkListView *list;
    PinDocument *document;
    gulong handlers[2];
    GListStore *items; /* PinFindingItem */
    GtkSingleSelection *selection;
    Lettering *lettering;
    gboolean updating;
};

G_DEFINE_FINAL_TYPE(PinFindings, pin_findings, GTK_TYPE_WIDGET)

/* --- keeping the rows in step ------------------------------------------------------------------
 */

static const Finding *finding_at(PinFindings *findings, guint i)
{
    PinFindingItem *item = g_list_model_get_item(G_LIST_MODEL(findings->items), i);
    const Finding *finding = pin_finding_item_finding(item);
    g_object_unref(item);
    return finding;
}

static void scroll_to(PinFindings *findings, guint number)
{
    gtk_widget_activate_action(GTK_WIDGET(findings->list), "list.scroll-to-item", "u", number);
}

/* Only rows between the first and the last difference are made anew. */
static void splice(PinFindings *findings, const FindingList *now)
{
    guint had = g_list_model_get_n_items(G_LIST_MODEL(findings->items));
    guint head = 0, tail = 0;
    while (head < had && head < now->count &&
           finding_same_key(finding_at(findings, head), &now->items[head]))
        head++;
    while (
        tail < had - head && tail < now->count - head &&
        finding_same_key(finding_at(findings, had - 1 - tail), &now->items[now->count - 1 - tail]))
        tail++;
    guint added = now->count - head - tail;
    if (had - head - tail == 0 && added == 0)
        return;
    gpointer *items = g_new0(gpointer, added + 1);
    for (guint i = 0; i < added; i++)
        items[i] = pin_finding_item_new(&now->items[head + i]);
    g_list_store_splice(findings->items, head, had - head - tail, items, added);
    for (guint i = 0; i < added; i++)
        g_object_unref(items[i]);
    g_free(items);
    /* The list stays at the row it showed: what is worse now would come in above, unseen. */
    if (head == 0 && now->count > 0 &&
        gtk_single_selection_get_selected(findings->selection) == GTK_INVALID_LIST_POSITION)
        scroll_to(findings, 0);
}

static void update_counts(PinFindings *findings, const FindingList *now)
{
    FindingCounts counts = finding_list_counts(now);
    char *text = g_strdup_printf(_("%u stop · %u caution · %u note"), counts.by_level[LEVEL_STOP],
                                 counts.by_level[LEVEL_CAUTION], counts.by_level[LEVEL_NOTE]);
    gtk_label_set_label(findings->counts, text);
    char *more = g_strdup_printf(
        ngettext("%u more is accepted", "%u more are accepted", counts.accepted), counts.accepted);
    gtk_widget_set_tooltip_text(GTK_WIDGET(findings->counts), counts.accepted ? more : NULL);
    g_free(more);
    if (counts.by_level[LEVEL_STOP])
        gtk_widget_add_css_class(GTK_WIDGET(findings->counts), "stops");
    else
        gtk_widget_remove_css_class(GTK_WIDGET(findings->counts), "stops");
    gtk_stack_set_visible_child_name(findings->stack, now->count ? "list" : "none");
    g_free(text);
}

static void update(PinFindings *findings)
{
    Session *session = pin_document_session(findings->document);
    const FindingList *now = session_shown_findings(session);
    findings->updating = TRUE;
    splice(findings, now);
    const Settings *settings = plate_settings(session_plate(session));
    for (guint i = 0; i < now->count; i++) {
        const Finding *finding = &now->items[i];
        PinFindingItem *item = g_list_model_get_item(G_LIST_MODEL(findings->items), i);
        pin_finding_item_update(item, finding, i + 1, session_shown(session), session_unit(session),
                                finding->accepted ? accepted_find(settings, finding) : NULL);
        g_object_unref(item);
    }
    findings->updating = FALSE;
    update_counts(findings, now);
}

/* --- choosing and mending ----------------------------------------------------------------------
 */

static void show(PinFindings *findings, guint number)
{
    PinFindingItem *item = g_list_model_get_item(G_LIST_MODEL(findings->items), number);
    if (!item)
        return;
    const Finding *finding = pin_finding_item_finding(item);
    FeatureId ids[FINDING_FEATURES_MOST];
    guint count = finding->feature_count;
    for (guint i = 0; i < count; i++)
        ids[i] = finding->features[i];
    pin_document_select(findings->document, ids, count);
    g_signal_emit_by_name(findings, "chosen", (int)number);
    g_object_unref(item);
}

static void on_selected(GtkSingleSelection *selection, GParamSpec *property, PinFindings *findings)
{
    if (findings->updating)
        return;
    guint number = gtk_single_selection_get_selected(selection);
    if (number == GTK_INVALID_LIST_POSITION)
        g_signal_emit_by_name(findings, "chosen", -1);
    else
        show(findings, number);
}

static void on_activated(GtkListView *list, guint number, PinFindings *findings)
{
    show(findings, number);
}

void pin_findings_choose(PinFindings *findings, int number)
{
    if (number < 0 || (guint)number == gtk_single_selection_get_selected(findings->selection))
        gtk_single_selection_set_selected(findings->selection, GTK_INVALID_LIST_POSITION);
    if (number < 0)
        return;
    gtk_single_selection_set_selected(findings->selection, (guint)number);
    scroll_to(findings, (guint)number);
}

static void on_mend(PinFindingRow *row, PinFindings *findings)
{
    PinFindingItem *item = pin_finding_row_item(row);
    Edit edit = EDIT_EMPTY;
    Session *session = pin_document_session(findings->document);
    if (!item || session_is_trying(session))
        return;
    if (selection_remedy(session, pin_finding_item_finding(item), &edit)) {
        pin_document_do(findings->document, &edit);
        return;
    }
    edit_clear(&edit);
    pin_document_say(findings->document,
                     _("Mending this alone would leave something worse. Move it by hand."));
}

static GtkWindow *window_of(PinFindings *findings)
{
    return GTK_WINDOW(gtk_widget_get_root(GTK_WIDGET(findings)));
}

static void on_accept(PinFindingRow *row, PinFindings *findings)
{
    PinFindingItem *item = pin_finding_row_item(row);
    if (item && !session_is_trying(pin_document_session(findings->document)))
        gtk_window_present(GTK_WINDOW(pin_finding_accept_new(
            window_of(findings), findings->document, pin_finding_item_finding(item),
            pin_finding_item_message(item))));
}

static void on_take_back(PinFindingRow *row, PinFindings *findings)
{
    PinFindingItem *item = pin_finding_row_item(row);
    if (item && !session_is_trying(pin_document_session(findings->document)))
        accepted_take_back(findings->document, pin_finding_item_finding(item));
}

static void on_limits(PinFindingRow *row, PinFindings *findings)
{
    PinFindingItem *item = pin_finding_row_item(row);
    if (item)
        gtk_window_present(GTK_WINDOW(pin_finding_limits_new(
            window_of(findings), findings->document, pin_finding_item_finding(item)->rule)));
}

/* --- rows --------------------------------------------------------------------------------------
 */

static void on_row_selected(GtkListItem *list_item, GParamSpec *property, PinFindingRow *row)
{
    pin_finding_row_set_chosen(row, gtk_list_item_get_selected(list_item));
}

static void on_setup(GtkListItemFactory *factory, GtkListItem *list_item, PinFindings *findings)
{
    GtkWidget *row = pin_finding_row_new(findings->lettering);
    g_signal_connect(row, "mend", G_CALLBACK(on_mend), findings);
    g_signal_connect(row, "accept", G_CALLBACK(on_accept), findings);
    g_signal_connect(row, "take-back", G_CALLBACK(on_take_back), findings);
    g_signal_connect(row, "limits", G_CALLBACK(on_limits), findings);
    g_signal_connect(list_item, "notify::selected", G_CALLBACK(on_row_selected), row);
    gtk_list_item_set_child(list_item, row);
    access_item(row);
}

static void on_bind(GtkListItemFactory *factory, GtkListItem *list_item, PinFindings *findings)
{
    pin_finding_row_set_item(PIN_FINDING_ROW(gtk_list_item_get_child(list_item)),
                             gtk_list_item_get_item(list_item));
    pin_finding_row_set_chosen(PIN_FINDING_ROW(gtk_list_item_get_child(list_item)),
                               gtk_list_item_get_selected(list_item));
}

static void on_unbind(GtkListItemFactory *factory, GtkListItem *list_item, PinFindings *findings)
{
    pin_finding_row_set_item(PIN_FINDING_ROW(gtk_list_item_get_child(list_item)), NULL);
}

/* --- the document ------------------------------------------------------------------------------
 */

static void on_document(PinDocument *document, PinFindings *findings)
{
    update(findings);
}

void pin_findings_set_document(PinFindings *findings, PinDocument *document)
{
    if (findings->document) {
        g_clear_signal_handler(&findings->handlers[0], findings->document);
        g_clear_signal_handler(&findings->handlers[1], findings->document);
        g_clear_object(&findings->document);
    }
    if (!document)
        return;
    findings->document = g_object_ref(document);
    findings->handlers[0] =
        g_signal_connect(document, "changed", G_CALLBACK(on_document), findings);
    findings->handlers[1] = g_signal_connect(document, "tried", G_CALLBACK(on_document), findings);
    update(findings);
}

static void pin_findings_dispose(GObject *object)
{
    PinFindings *findings = PIN_FINDINGS(object);
    GtkWidget *child;
    pin_findings_set_document(findings, NULL);
    while ((child = gtk_widget_get_first_child(GTK_WIDGET(object))))
        gtk_widget_unparent(child);
    g_clear_object(&findings->selection);
    G_OBJECT_CLASS(pin_findings_parent_class)->dispose(object);
}

static void pin_findings_finalize(GObject *object)
{
    PinFindings *findings = PIN_FINDINGS(object);
    lettering_unref(findings->lettering);
    g_object_unref(findings->items);
    G_OBJECT_CLASS(pin_findings_parent_class)->finalize(object);
}

static void pin_findings_class_init(PinFindingsClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->dispose = pin_findings_dispose;
    G_OBJECT_CLASS(class)->finalize = pin_findings_finalize;
    g_signal_new("chosen", PIN_TYPE_FINDINGS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                 1, G_TYPE_INT);
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/findings.ui");
    gtk_widget_class_bind_template_child(widget, PinFindings, heading);
    gtk_widget_class_bind_template_child(widget, PinFindings, counts);
    gtk_widget_class_bind_template_child(widget, PinFindings, stack);
    gtk_widget_class_bind_template_child(widget, PinFindings, list);
    gtk_widget_class_set_css_name(widget, "findings");
    gtk_widget_class_set_accessible_role(widget, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void pin_findings_init(PinFindings *findings)
{
    gtk_widget_init_template(GTK_WIDGET(findings));
    findings->lettering = lettering_new(NULL);
    findings->items = g_list_store_new(PIN_TYPE_FINDING_ITEM);
    findings->selection = gtk_single_selection_new(g_object_ref(G_LIST_MODEL(findings->items)));
    gtk_single_selection_set_autoselect(findings->selection, FALSE);
    gtk_single_selection_set_can_unselect(findings->selection, TRUE);
    GtkListItemFactory *factory = gtk_signal_list_item_factory_new();
    g_signal_connect(factory, "setup", G_CALLBACK(on_setup), findings);
    g_signal_connect(factory, "bind", G_CALLBACK(on_bind), findings);
    g_signal_connect(factory, "unbind", G_CALLBACK(on_unbind), findings);
    gtk_list_view_set_factory(findings->list, factory);
    gtk_list_view_set_model(findings->list, GTK_SELECTION_MODEL(findings->selection));
    g_object_unref(factory);
    g_signal_connect(findings->selection, "notify::selected", G_CALLBACK(on_selected), findings);
    g_signal_connect(findings->list, "activate", G_CALLBACK(on_activated), findings);
}
