/* window-private.h: what the window's files share. */
#pragma once

#include "editor/details.h"
#include "editor/feature-list.h"
#include "editor/findings.h"
#include "editor/layout.h"
#include "editor/operation-list.h"
#include "editor/readout.h"
#include "editor/section-view.h"
#include "editor/start.h"
#include "editor/trays.h"
#include "editor/view-bar.h"
#include "editor/window.h"

struct _PinWindow {
    GtkApplicationWindow parent_instance;
    GtkLabel *dot, *file_name, *message;
    GtkWidget *edit_buttons, *zoom_buttons, *undo, *redo;
    GtkRevealer *message_revealer;
    GtkStack *pages, *left;
    GtkWidget *left_switcher;
    GtkWidget *start_place, *plate_place;
    PinTrays *trays;
    PinFeatureList *features;
    PinLayout *layout;
    PinViewBar *view_bar;
    PinSectionView *section_view;
    PinOperationList *operations;
    PinDetails *details;
    PinFindings *findings;
    PinReadout *readout;
    GMenu *recent_menu, *edit_menu;
    GtkMenuButton *menu_button;

    PinDocument *document;
    guint message_timeout;
    guint pasted; /* how often the same things were pasted, so that they don't lie on each other */
    gboolean may_close; /* the maker has answered */
    gboolean file_change_said;
    gboolean new_plate_wanted;
    gboolean drawn; /* its first frame is on the display */
};

/* --- window.c --- */
void window_say(PinWindow *window, const char *text);
void window_update_title(PinWindow *window);

/* --- window-actions.c: what is done to the plate --- */
void window_add_actions(PinWindow *window);
void window_update_actions(PinWindow *window);
/* The keys that work while the layout has the focus. */
void window_add_keys(PinWindowClass *class);

/* --- window-state.c: the window's state as an action, for scripts and tests --- */
void window_add_state(PinWindow *window);
void window_update_state(PinWindow *window);

/* --- window-plate.c: what belongs to the plate as a whole --- */
void window_add_plate_actions(PinWindow *window);
/* Once the plate's page has been made. */
void window_connect_plate_page(PinWindow *window);
void window_update_plate_actions(PinWindow *window);

/* --- window-files.c: opening and saving --- */
void window_add_file_actions(PinWindow *window);
gboolean window_on_close(PinWindow *window);
void window_check_file(PinWindow *window);
/* In a window of its own, for what must not be missed. */
void window_say_error(PinWindow *window, const char *heading, const Error *error);

/* --- window-parts.c: parts and outlines read in --- */
void window_add_part_actions(PinWindow *window);

/* --- window-prints.c: export, preview and print --- */
void window_add_print_actions(PinWindow *window);
