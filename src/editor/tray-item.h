/* tray-item.h: one thing that can be dragged from a tray: how it is made. */
#pragma once

#include "session/new-things.h"

#include <gtk/gtk.h>

#define PIN_TYPE_TRAY_ITEM (pin_tray_item_get_type())
G_DECLARE_FINAL_TYPE(PinTrayItem, pin_tray_item, PIN, TRAY_ITEM, GObject)

/* Adds the thing to the edit, with its place at `at` on the face. False with an error when what is
 * typed in the tray makes none. */
typedef bool (*TrayMake)(Session *session, FeatureId face, Place at, gpointer data, Edit *edit,
                         Error *error);
/* The same of what belongs to a station and has its place by it. */
typedef bool (*TrayMakeOn)(Session *session, FeatureId station, gpointer data, Edit *edit,
                           Error *error);

/* `data` is borrowed where `free_data` is NULL. */
PinTrayItem *pin_tray_item_new(const char *name, TrayMake make, gpointer data,
                               GDestroyNotify free_data);
/* One that is dropped on a station. `sample` makes what its picture shows, where there is none. */
PinTrayItem *pin_tray_item_new_on(const char *name, TrayMakeOn make, TrayMake sample, gpointer data,
                                  GDestroyNotify free_data);
const char *pin_tray_item_name(PinTrayItem *item);
bool pin_tray_item_needs_station(PinTrayItem *item);
/* The station that one that needs one would be made for at that place; ID_NONE: there is none, or
 * it needs none. */
FeatureId pin_tray_item_station(PinTrayItem *item, Session *session, FeatureId face, Place at);
/* One that needs a station is made for the one that lies at the place. */
bool pin_tray_item_make(PinTrayItem *item, Session *session, FeatureId face, Place at, Edit *edit,
                        Error *error);
bool pin_tray_item_make_on(PinTrayItem *item, Session *session, FeatureId station, Edit *edit,
                           Error *error);
/* What its picture shows. */
bool pin_tray_item_make_sample(PinTrayItem *item, Session *session, FeatureId face, Place at,
                               Edit *edit, Error *error);
