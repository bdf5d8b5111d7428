/* refit-bar.h: another part on the plate, answer by answer, below the layout. */
#pragma once

#include "editor/tray-item.h"
#include "editor/window.h"

/* A part dropped from its tray. */
typedef struct RefitDrop {
    PinTrayItem *item;
    FeatureId face;
    Place at; /* of the middle of its outline */
} RefitDrop;

/* Adds the window's actions `refit` (a part is asked for) and `replace-part` (at the selected
 * station). */
void refit_add_actions(PinWindow *window);
/* Takes parts' files that are dropped on the layout, which is there by then. */
void refit_take_drops(PinWindow *window);
/* Searches and shows the answers; `replace` is the station whose part is replaced, or ID_NONE. With
 * a drop (else NULL) the answer nearest to it comes first, and what the drop itself would make can
 * be had too. */
void refit_show_answers(PinWindow *window, const Part *part, FeatureId replace,
                        const RefitDrop *drop);
/* Takes a part that is dropped on a face with holes that are made, and shows its answers. False:
 * it is something else, or the face has none, and nothing was done. */
gboolean refit_take_drop(PinWindow *window, const RefitDrop *drop);
/* The new station of an edit, or ID_NONE. */
FeatureId refit_station_of(const Edit *edit);
