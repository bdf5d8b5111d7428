#include "editor/tray-station.h"

#include "editor/tray-nest.h"

typedef struct StationItem {
    Record *part;
    GtkCheckButton *with_nest;
} StationItem;

static void station_item_free(gpointer data)
{
    StationItem *item = data;
    record_unref(item->part);
    g_free(item);
}

static bool make_station(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                         Error *error)
{
    const StationItem *item = data;
    const Part *part = &item->part->part;
    FeatureId station = new_station(session, face, at, new_part(session, part, edit), edit);
    if (station == ID_NONE)
        return false;
    if (gtk_check_button_get_active(item->with_nest))
        tray_nest_add(session, station, part, edit);
    edit_set_name(edit, "New station");
    return true;
}

PinTrayItem *tray_station_item_new(const char *name, Record *part, GtkCheckButton *with_nest)
{
    StationItem *item = g_new0(StationItem, 1);
    *item = (StationItem){record_ref(part), with_nest};
    return pin_tray_item_new(name, make_station, item, station_item_free);
}
