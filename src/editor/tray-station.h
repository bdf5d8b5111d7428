/* tray-station.h: a part in a tray, which becomes a station on the plate. */
#pragma once

#include "editor/tray-item.h"

/* Takes no reference to `with_nest`, which must outlive the item: it says whether the station gets
 * a nest at once. */
PinTrayItem *tray_station_item_new(const char *name, Record *part, GtkCheckButton *with_nest);
