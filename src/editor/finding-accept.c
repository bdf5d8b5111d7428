#include "editor/finding-accept.h"

#include "checks/rule.h"
#include "editor/intl.h"
#include "editor/record-list.h"

#include <stddef.h>
#include <string.h>

struct _PinFindingAccept {
    GtkWindow parent_instance;
    GtkLabel *message;
    GtkEntry *reason;
    GtkWidget *accept, *cancel;
    PinDocument *document;
    Finding finding;
};

G_DEFINE_FINAL_TYPE(PinFindingAccept, pin_finding_accept, GTK_TYPE_WINDOW)

/* --- in the plate ----------------------------------------------------------------------------- */

static int compare_ids(gconstpointer a, gconstpointer b)
{
    FeatureId first = *(const FeatureId *)a, second = *(const FeatureId *)b;
    return (first > second) - (first < second);
}

/* An accepted finding names its features in rising order. */
static void rising(const Finding *finding, FeatureId ids[FINDING_FEATURES_MOST])
{
    memcpy(ids, finding->features, finding->feature_count * sizeof ids[0]);
    qsort(ids, finding->feature_count, sizeof ids[0], compare_ids);
}

static gboolean is_of(const AcceptedFinding *accepted, const Finding *finding)
{
    FeatureId ids[FINDING_FEATURES_MOST];
    if (g_strcmp0(accepted->rule, finding->rule->slug) != 0 ||
        accepted->features.count != finding->feature_count)
        return FALSE;
    rising(finding, ids);
    return memcmp(ids, accepted->features.items, finding->feature_count * sizeof ids[0]) == 0;
}

static int find(const Settings *settings, const Finding *finding)
{
    for (uint32_t i = 0; i < settings->accepted.count; i++)
        if (is_of(LIST_AT(&settings->accepted, AcceptedFinding, i), finding))
            return (int)i;
    return -1;
}

const AcceptedFinding *accepted_find(const Settings *settings, const Finding *finding)
{
    int at = find(settings, finding);
    return at < 0 ? NULL : LIST_AT(&settings->accepted, AcceptedFinding, at);
}

static Record *settings_copy(PinDocument *document)
{
    return record_copy(plate_find(pin_document_plate(document), ID_SETTINGS), ID_SETTINGS);
}

static gboolean accept(PinDocument *document, const Finding *finding, const char *reason)
{
    Record *after = settings_copy(document);
    AcceptedFinding *accepted = list_append(&after->settings.accepted, AcceptedFinding);
    GDateTime *now = g_date_time_new_now_local();
    accepted->rule = g_strdup(finding->rule->slug);
    accepted->reason = g_strdup(reason);
    accepted->date = g_date_time_format(now, "%Y-%m-%d");
    FeatureId ids[FINDING_FEATURES_MOST];
    rising(finding, ids);
    for (int i = 0; i < finding->feature_count; i++)
        *list_append(&accepted->features, FeatureId) = ids[i];
    g_date_time_unref(now);
    return pin_document_change(document, _("Accept a finding"), after);
}

gboolean accepted_take_back(PinDocument *document, const Finding *finding)
{
    Record *after = settings_copy(document);
    int at = find(&after->settings, finding);
    if (at < 0) {
        record_unref(after);
        return FALSE;
    }
    record_list_remove(after, offsetof(Settings, accepted), (uint32_t)at);
    return pin_document_change(document, _("Take an accepted finding back"), after);
}

/* --- the question ----------------------------------------------------------------------------- */

static char *reason_of(PinFindingAccept *question)
{
    return g_strstrip(g_strdup(gtk_editable_get_text(GTK_EDITABLE(question->reason))));
}

static void on_reason(GtkEditable *entry, PinFindingAccept *question)
{
    char *reason = reason_of(question);
    gtk_widget_set_sensitive(question->accept, *reason != '\0');
    g_free(reason);
}

static void on_accept(PinFindingAccept *question)
{
    char *reason = reason_of(question);
    if (*reason && accept(question->document, &question->finding, reason))
        gtk_window_destroy(GTK_WINDOW(question));
    g_free(reason);
}

GtkWidget *pin_finding_accept_new(GtkWindow *parent, PinDocument *document, const Finding *finding,
                                  const char *message)
{
    PinFindingAccept *question =
        g_object_new(PIN_TYPE_FINDING_ACCEPT, "transient-for", parent, NULL);
    question->document = g_object_ref(document);
    question->finding = *finding;
    char *shown = g_strdup_printf("%s.", message);
    shown[0] = g_ascii_toupper(shown[0]);
    gtk_label_set_label(question->message, shown);
    g_free(shown);
    return GTK_WIDGET(question);
}

static void pin_finding_accept_finalize(GObject *object)
{
    g_clear_object(&PIN_FINDING_ACCEPT(object)->document);
    G_OBJECT_CLASS(pin_finding_accept_parent_class)->finalize(object);
}

static void pin_finding_accept_class_init(PinFindingAcceptClass *class)
{
    GtkWidgetClass *widget = GTK_WIDGET_CLASS(class);
    G_OBJECT_CLASS(class)->finalize = pin_finding_accept_finalize;
    gtk_widget_class_set_template_from_resource(widget, EDITOR_PATH "ui/finding-accept.ui");
    gtk_widget_class_bind_template_child(widget, PinFindingAccept, message);
    gtk_widget_class_bind_template_child(widget, PinFindingAccept, reason);
    gtk_widget_class_bind_template_child(widget, PinFindingAccept, accept);
    gtk_widget_class_bind_template_child(widget, PinFindingAccept, cancel);
    gtk_widget_class_add_binding_action(widget, GDK_KEY_Escape, 0, "window.close", NULL);
}

static void pin_finding_accept_init(PinFindingAccept *question)
{
    gtk_widget_init_template(GTK_WIDGET(question));
    g_signal_connect(question->reason, "changed", G_CALLBACK(on_reason), question);
    g_signal_connect_swapped(question->reason, "activate", G_CALLBACK(on_accept), question);
    g_signal_connect_swapped(question->accept, "clicked", G_CALLBACK(on_accept), question);
    g_signal_connect_swapped(question->cancel, "clicked", G_CALLBACK(gtk_window_close), question);
}
