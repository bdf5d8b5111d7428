#include "editor/tray-item.h"

#include "editor/intl.h"

struct _PinTrayItem {
    GObject parent_instance;
    char *name;
    TrayMake make; /* NULL: it needs a station */
    TrayMakeOn make_on;
    TrayMake sample;
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

static PinTrayItem *item_new(const char *name, gpointer data, GDestroyNotify free_data)
{
    PinTrayItem *item = g_object_new(PIN_TYPE_TRAY_ITEM, NULL);
    item->name = g_strdup(name);
    item->data = data;
    item->free_data = free_data;
    return item;
}

PinTrayItem *pin_tray_item_new(const char *name, TrayMake make, gpointer data,
                               GDestroyNotify free_data)
{
    PinTrayItem *item = item_new(name, data, free_data);
    item->make = item->sample = make;
    return item;
}

PinTrayItem *pin_tray_item_new_on(const char *name, TrayMakeOn make, TrayMake sample, gpointer data,
                                  GDestroyNotify free_data)
{
    PinTrayItem *item = item_new(name, data, free_data);
    item->make_on = make;
    item->sample = sample;
    return item;
}

const char *pin_tray_item_name(PinTrayItem *item)
{
    return item->name;
}

bool pin_tray_item_needs_station(PinTrayItem *item)
{
    return item->make_on != NULL;
}

/* --- where it is dropped ----------------------------------------------------------------------
 */

typedef struct Search {
    Point at;
    FeatureId station;
} Search;

/* The part or a nest of the station lies there; of several the one with the lowest number. */
static bool look(const Feature *feature, void *data)
{
    Search *search = data;
    FeatureId station = feature->kind == FEATURE_PART ? feature->id : feature->station;
    bool covers = feature->kind == FEATURE_PART || feature->kind == FEATURE_RECESS;
    if (station != ID_NONE && covers && shape_contains(&feature->shape, search->at) &&
        (search->station == ID_NONE || station < search->station))
        search->station = station;
    return true;
}

FeatureId pin_tray_item_station(PinTrayItem *item, Session *session, FeatureId face, Place at)
{
    Search search = {{length_to_mm(at.x), length_to_mm(at.y)}, ID_NONE};
    Box box = {search.at.x, search.at.y, search.at.x, search.at.y};
    if (item->make_on)
        placed_each_near(session_placed(session), face, box, look, &search);
    return search.station;
}

/* --- making it --------------------------------------------------------------------------------
 */

bool pin_tray_item_make(PinTrayItem *item, Session *session, FeatureId face, Place at, Edit *edit,
                        Error *error)
{
    if (item->make)
        return item->make(session, face, at, item->data, edit, error);
    FeatureId station = pin_tray_item_station(item, session, face, at);
    return pin_tray_item_make_on(item, session, station, edit, error);
}

bool pin_tray_item_make_on(PinTrayItem *item, Session *session, FeatureId station, Edit *edit,
                           Error *error)
{
    if (station == ID_NONE)
        return error_set(error, ERROR_MISSING, NULL, "%s",
                         _("this belongs to a station: drop it on one, or choose a station and "
                           "press Enter"));
    return item->make_on(session, station, item->data, edit, error);
}

bool pin_tray_item_make_sample(PinTrayItem *item, Session *session, FeatureId face, Place at,
                               Edit *edit, Error *error)
{
    return item->sample(session, face, at, item->data, edit, error);
}
