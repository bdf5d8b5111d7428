#include "editor/tray-item.h"

struct _PinTrayItem {
    GObject parent_instance;
    char *name;
    TrayMake make;
    gpointer data;
    GDestroyNotify free_data;
};

G_DEFINE_FINAL_TYPE(PinTrayItem, pin_tray_item, G_TYPE_OBJECT)

static void pin_tray_item_finalize(GObject *object)
{
    PinTrayItem *item = PIN_TRAY_ITEM(object);
    if (item->free_data)
        item->free_data(item->data);
    g_free(item->name);
    G_OBJECT_CLASS(pin_tray_item_parent_class)->finalize(object);
}

static void pin_tray_item_class_init(PinTrayItemClass *class)
{
    G_OBJECT_CLASS(class)->finalize = pin_tray_item_finalize;
}

static void pin_tray_item_init(PinTrayItem *item)
{
}

PinTrayItem *pin_tray_item_new(const char *name, TrayMake make, gpointer data,
                               GDestroyNotify free_data)
{
    PinTrayItem *item = g_object_new(PIN_TYPE_TRAY_ITEM, NULL);
    item->name = g_strdup(name);
    item->make = make;
    item->data = data;
    item->free_data = free_data;
    return item;
}

const char *pin_tray_item_name(PinTrayItem *item)
{
    return item->name;
}

bool pin_tray_item_make(PinTrayItem *item, Session *session, FeatureId face, Place at, Edit *edit,
                        Error *error)
{
    return item->make(session, face, at, item->data, edit, error);
}
