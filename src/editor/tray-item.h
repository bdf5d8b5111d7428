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

/* `data` is borrowed where `free_data` is NULL. */
PinTrayItem *pin_tray_item_new(const char *name, TrayMake make, gpointer data,
                               GDestroyNotify free_data);
const char *pin_tray_item_name(PinTrayItem *item);
bool pin_tray_item_make(PinTrayItem *item, Session *session, FeatureId face, Place at, Edit *edit,
                        Error *error);
