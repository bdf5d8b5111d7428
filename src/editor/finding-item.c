#include "editor/finding-item.h"

#include "checks/sentence.h"
#include "editor/intl.h"
#include "editor/speech.h"

struct _PinFindingItem {
    GObject parent_instance;
    Finding finding;
    guint number;
    char message[SENTENCE_TEXT];
    char remedy[SENTENCE_TEXT];
    char *reason;
};

G_DEFINE_FINAL_TYPE(PinFindingItem, pin_finding_item, G_TYPE_OBJECT)

static guint changed_signal;

static void pin_finding_item_finalize(GObject *object)
{
    g_free(PIN_FINDING_ITEM(object)->reason);
    G_OBJECT_CLASS(pin_finding_item_parent_class)->finalize(object);
}

static void pin_finding_item_class_init(PinFindingItemClass *class)
{
    G_OBJECT_CLASS(class)->finalize = pin_finding_item_finalize;
    changed_signal = g_signal_new("changed", PIN_TYPE_FINDING_ITEM, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 0);
}

static void pin_finding_item_init(PinFindingItem *item)
{
}

PinFindingItem *pin_finding_item_new(const Finding *finding)
{
    PinFindingItem *item = g_object_new(PIN_TYPE_FINDING_ITEM, NULL);
    item->finding = *finding;
    item->reason = g_strdup("");
    return item;
}

const Finding *pin_finding_item_finding(PinFindingItem *item)
{
    return &item->finding;
}

guint pin_finding_item_number(PinFindingItem *item)
{
    return item->number;
}

const char *pin_finding_item_message(PinFindingItem *item)
{
    return item->message;
}

const char *pin_finding_item_remedy(PinFindingItem *item)
{
    return item->remedy;
}

const char *pin_finding_item_reason(PinFindingItem *item)
{
    return item->reason;
}

static char *reason_words(const AcceptedFinding *accepted)
{
    if (!accepted)
        return g_strdup("");
    const char *reason = accepted->reason ? accepted->reason : "";
    return accepted->date ? g_strdup_printf(_("Accepted on %s: %s"), accepted->date, reason)
                          : g_strdup_printf(_("Accepted: %s"), reason);
}

void pin_finding_item_update(PinFindingItem *item, const Finding *finding, guint number,
                             const Placed *placed, Unit unit, const AcceptedFinding *accepted)
{
    char message[SENTENCE_TEXT], remedy[SENTENCE_TEXT];
    finding_message_said(finding, placed, unit, pin_speech(), message);
    finding_remedy_said(finding, placed, unit, pin_speech(), remedy);
    char *reason = reason_words(accepted);
    gboolean same = item->number == number && g_str_equal(message, item->message) &&
                    g_str_equal(remedy, item->remedy) && item->finding.level == finding->level &&
                    item->finding.accepted == finding->accepted &&
                    g_str_equal(reason, item->reason);
    item->finding = *finding;
    g_free(item->reason);
    item->reason = reason;
    if (same)
        return;
    item->number = number;
    g_strlcpy(item->message, message, sizeof item->message);
    g_strlcpy(item->remedy, remedy, sizeof item->remedy);
    g_signal_emit(item, changed_signal, 0);
}
