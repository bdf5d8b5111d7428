/* trays-private.h: what the trays' files share. */
#pragma once

#include "drawing/lettering.h"
#include "editor/field-row.h"
#include "editor/rack-parts.h"
#include "editor/trays.h"

struct _PinTrays {
    GtkWidget parent_instance;
    GtkWidget *parts_section, *holes_section, *slots_section;
    GtkWidget *hardware_section, *clamps_section, *keep_clears_section;
    GtkBox *hole_sizes, *slot_sizes, *keep_clear_sizes;
    GtkListBox *holes, *slots, *parts, *rack, *hardware, *clamps, *keep_clears;
    GtkLabel *rack_note;
    GtkButton *rack_button;
    GtkSearchEntry *search;
    GtkCheckButton *with_nest;
    PinFieldRow *drill;
    PinFieldRow *slot_length, *slot_width, *slot_depth;
    PinFieldRow *clear_length, *clear_width;
    PinDocument *document;
    gulong handler;
    Lettering *lettering;
    GPtrArray *shown_parts; /* Record */
    RackParts *watched;
    char *chosen_folder;   /* also where no settings are kept */
    char *rack_folder;     /* the one that is watched */
    GPtrArray *rack_found; /* RackPart, of which those from `rack_next` on have no row yet */
    guint rack_next, rack_filling;
    Unit unit;
};

/* --- trays.c --- */
/* Trays with nothing of the name that is looked for make room. */
void trays_show_sections(PinTrays *trays);

/* --- trays-rack.c --- */
/* Shows the parts of the folder that the settings and the plate's file now ask for. */
void trays_watch_rack(PinTrays *trays);
void trays_leave_rack(PinTrays *trays);
/* Asks for the folder. */
void trays_choose_rack(GtkButton *button, PinTrays *trays);
