/* layout-private.h: what the layout's files share. */
#pragma once

#include "drawing/plan.h"
#include "editor/layout.h"
#include "placed/sweep.h"
#include "session/measure.h"
#include "session/snap.h"

/* Pixels of one millimetre of the drawing's own sheet: lettering and line widths are its. */
#define SHEET_PIXELS (96.0 / 25.4)

typedef enum Pull { PULL_NONE, PULL_BAND, PULL_THINGS, PULL_TURN, PULL_VIEW, PULL_GUIDE } Pull;

/* What of the section's line is pulled. */
typedef enum SectionGrip { GRIP_NONE, GRIP_NEW, GRIP_FROM, GRIP_TO, GRIP_WHOLE } SectionGrip;

struct _PinLayout {
    GtkWidget parent_instance;
    PinDocument *document;
    gulong handlers[3];
    FeatureId face;
    FeatureId operation;
    gboolean section, section_new; /* there is a line to cut along; the next pull draws it */
    SectionGrip section_grip;
    Point section_ends[2], section_from[2]; /* where it lies, and lay before it was pulled */

    /* Where the face's origin lies in the widget, and pixels for one millimetre of the plate. */
    double scale, x, y;
    guint viewed;    /* the idle call that says the view changed */
    gboolean fitted; /* the whole plate is kept in sight while the window changes size */

    Lettering *lettering;
    Error lettering_error;
    Drawing *still;             /* what does not move, on a sheet whose origin is the face's */
    Drawing *moving;            /* what is dragged, and what is selected */
    GskRenderNode *still_node;  /* `still` as it was last drawn */
    graphene_rect_t still_area; /* the part of it that the node has, from the face's origin */
    double still_scale;
    gboolean still_dragging; /* it was drawn without the things that are dragged */
    gboolean dark;
    GskRenderNode *mark_node; /* the findings' signs, as they were last drawn */
    FindingList marked;       /* those findings */

    GtkWidget *menu;
    GHashTable *features; /* FeatureId to PinLayoutFeature */
    int pointed_out;

    Pull pull;
    double press_x, press_y, pull_x, pull_y;
    double view_x, view_y; /* where the view was when its pull began */
    double pointer_x, pointer_y;
    gboolean pointer_inside;
    gboolean given_up; /* the drag was put back while the button is still down */
    gboolean space_held;
    gboolean free_held; /* the key that switches snapping off */
    gboolean snap;
    Snap snapped;
    gboolean snap_shown;
    FeatureId ghost_station; /* that a dragged nest is shown on */
    Place grip; /* the dragged thing's own place, which snaps */
    Guides guides;
    int guide;     /* the one that is pulled; -1: none */
    Spot spots[2]; /* what is measured between */
    guint spot_count;
    gboolean measuring; /* the next press takes a spot */
    unsigned hidden;    /* kinds that are not shown: a set of FeatureKind */
    Place turn_about;
    double turn_from, turned; /* degrees */
};

/* --- layout.c --- */
Point layout_to_face(PinLayout *layout, double x, double y);
Point layout_from_face(PinLayout *layout, Point p);
Place layout_place(PinLayout *layout, double x, double y);
const Frame *layout_frame(PinLayout *layout);
void layout_view_changed(PinLayout *layout);
void layout_zoom_at(PinLayout *layout, double x, double y, double factor);

/* --- layout-draw.c --- */
void layout_draw(PinLayout *layout, GtkSnapshot *snapshot);
/* From the face to the drawing's sheet, whose origin is the face's. */
ViewMap layout_map(PinLayout *layout);
DrawingSource layout_source(PinLayout *layout);

/* --- layout-still.c: what does not move --- */
void layout_draw_still(PinLayout *layout, GtkSnapshot *snapshot);
/* Forgets what was drawn, so that it is drawn anew. */
void layout_forget(PinLayout *layout);
void layout_begin_drawing(Drawing *drawing);
void layout_tint_feature(PinLayout *layout, cairo_t *cairo, const Feature *feature);
/* What is seen, in pixels from the face's origin, with some room round it. */
graphene_rect_t layout_seen(PinLayout *layout, double room);

/* --- layout-step.c: one operation --- */
/* Whether it is on the plate at the operation that is shown. */
gboolean layout_shows(PinLayout *layout, const Feature *feature);
void layout_draw_blank(PinLayout *layout, Drawing *drawing, const Feature *feature);
void layout_tint_blank(PinLayout *layout, cairo_t *cairo, const Feature *feature);
/* What the cutters sweep; the context is in mm on the face. */
void layout_tint_sweeps(PinLayout *layout, cairo_t *cairo);

/* --- layout-section.c --- */
void layout_add_section(PinLayout *layout);
void layout_draw_section(PinLayout *layout, GtkSnapshot *snapshot);

/* --- layout-tint.c: areas behind the drawing's lines --- */
/* In the context's colour; of an outline, its openings are left out. */
void layout_tint_sweep(cairo_t *cairo, const Sweep *sweep);
void layout_tint(cairo_t *cairo, const Shape *shape);

/* --- layout-marks.c --- */
void layout_draw_signs(PinLayout *layout, GtkSnapshot *snapshot);
/* Appends a node to draw on, over a box in the widget's pixels; NULL where none of it is seen. */
cairo_t *layout_append(PinLayout *layout, GtkSnapshot *snapshot, Box box);
void layout_draw_distances(PinLayout *layout, GtkSnapshot *snapshot);
/* A distance with its figure, from its first point to its other. */
void layout_append_distance(PinLayout *layout, GtkSnapshot *snapshot, const Gap *gap);
/* The finding whose sign is at a place in the widget; -1: none. */
int layout_sign_at(PinLayout *layout, double x, double y);
void layout_forget_signs(PinLayout *layout);

/* --- layout-band.c --- */
void layout_draw_error_band(PinLayout *layout, GtkSnapshot *snapshot);

/* --- layout-handle.c --- */
/* Where the handle stands that turns the selected thing; false when it can't be turned. */
gboolean layout_handle(PinLayout *layout, Point *at, Point *about);
void layout_draw_handle(PinLayout *layout, GtkSnapshot *snapshot);

/* --- layout-gestures.c --- */
void layout_add_gestures(PinLayout *layout);
SnapSettings layout_snap_settings(PinLayout *layout);
/* What is meant by who presses there; ID_NONE: nothing. */
FeatureId layout_thing_at(PinLayout *layout, double x, double y);

/* --- layout-menu.c --- */
void layout_add_menu_class(GtkWidgetClass *class);
void layout_add_menu(PinLayout *layout);

/* --- layout-drop.c --- */
void layout_add_drop_target(PinLayout *layout);

/* --- layout-guide.c --- */
gboolean layout_guide_press(PinLayout *layout, double x, double y);
void layout_guide_pull(PinLayout *layout, double x, double y);
void layout_guide_drop(PinLayout *layout, double x, double y);
gboolean layout_measure_press(PinLayout *layout, double x, double y);
/* False where nothing was measured. */
gboolean layout_measure_end(PinLayout *layout);
void layout_draw_guides(PinLayout *layout, GtkSnapshot *snapshot);

/* --- layout-features.c --- */
/* Brings the features' own widgets in step with the plate. */
void layout_update_features(PinLayout *layout);
void layout_place_features(PinLayout *layout);
