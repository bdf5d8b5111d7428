/* One operation on the layout: what is on the plate meanwhile, and what its cutters sweep. */
#include "editor/layout-private.h"

#include "drawing/shape-path.h"
#include "editor/operation-order.h"
#include "editor/palette.h"
#include "placed/sweep.h"

static const Operation *operation_of(PinLayout *layout)
{
    const Record *record = layout->document ? plate_find_kind(pin_document_plate(layout->document),
                                                              layout->operation, RECORD_OPERATION)
                                            : NULL;
    return record ? &record->operation : NULL;
}

FeatureId pin_layout_operation(PinLayout *layout)
{
    return layout->operation;
}

void pin_layout_set_operation(PinLayout *layout, FeatureId operation)
{
    if (operation == layout->operation)
        return;
    layout->operation = operation;
    const Operation *shown = operation_of(layout);
    if (!shown)
        layout->operation = ID_NONE;
    else if (shown->face != ID_NONE)
        pin_layout_set_face(layout, shown->face);
    layout_forget(layout);
    gtk_widget_queue_draw(GTK_WIDGET(layout));
    g_signal_emit_by_name(layout, "operation-changed");
}

gboolean layout_shows(PinLayout *layout, const Feature *feature)
{
    const Operation *operation = operation_of(layout);
    return !operation || operation_shows(session_shown(pin_document_session(layout->document)),
                                         operation, feature);
}

/* --- blanks ----------------------------------------------------------------------------------- */

static gboolean has_blank(PinLayout *layout, const Feature *feature)
{
    const Operation *operation = operation_of(layout);
    return operation && feature->kind == FEATURE_PART &&
           operation_has_blank(pin_document_plate(layout->document), operation, feature);
}

void layout_draw_blank(PinLayout *layout, Drawing *drawing, const Feature *feature)
{
    if (!has_blank(layout, feature))
        return;
    drawing_about(drawing, ROLE_PART, feature->id);
    shape_path_draw(drawing, LINE_PHANTOM, &feature->blank, layout_map(layout));
}

void layout_tint_blank(PinLayout *layout, cairo_t *cairo, const Feature *feature)
{
    if (!has_blank(layout, feature))
        return;
    palette_set(cairo, layout->dark, INK_PART, 0.10);
    layout_tint(cairo, &feature->blank);
}

/* --- sweeps ----------------------------------------------------------------------------------- */

typedef struct Sweeping {
    PinLayout *layout;
    cairo_t *cairo;
    const Operation *operation;
    const Placed *placed;
    const Pass *pass;
} Sweeping;

/* A pass that is level, seen square on to the face: each of its places where it meets the face. */
static void onto_face(cairo_t *cairo, const Frame *frame)
{
    Space normal = frame->normal, origin = frame->origin;
    if (fabs(normal.z) < 1e-6)
        return;
    /* The height of the face over a place of the plan: z = origin.z + sx (x - ox) + sy (y - oy). */
    double sx = -normal.x / normal.z, sy = -normal.y / normal.z;
    double xx = frame->along.x + frame->along.z * sx, xy = frame->along.y + frame->along.z * sy;
    double yx = frame->up.x + frame->up.z * sx, yy = frame->up.y + frame->up.z * sy;
    cairo_matrix_t matrix;
    cairo_matrix_init(&matrix, xx, yx, xy, yy, -(xx * origin.x + xy * origin.y),
                      -(yx * origin.x + yy * origin.y));
    cairo_transform(cairo, &matrix);
}

static bool tint_sweep(const Sweep *sweep, void *data)
{
    Sweeping *sweeping = data;
    PinLayout *layout = sweeping->layout;
    const Frame *frame = layout_frame(layout);
    gboolean level = sweep->face == ID_NONE;
    if (!frame || (!level && sweep->face != layout->face))
        return true;
    cairo_save(sweeping->cairo);
    if (level && layout->face != ID_TOP)
        onto_face(sweeping->cairo, frame);
    palette_set(sweeping->cairo, layout->dark, INK_CAUTION, 0.28);
    layout_tint_sweep(sweeping->cairo, sweep);
    cairo_restore(sweeping->cairo);
    return true;
}

static bool tint_station(const Feature *feature, void *data)
{
    Sweeping *sweeping = data;
    if (feature->kind == FEATURE_PART &&
        operation_runs(sweeping->operation, feature->id, feature->face))
        sweeps_each(sweeping->placed, feature, sweeping->pass, tint_sweep, sweeping);
    return true;
}

void layout_tint_sweeps(PinLayout *layout, cairo_t *cairo)
{
    const Operation *operation = operation_of(layout);
    if (!operation || operation->kind != OPERATION_RUNNING)
        return;
    Sweeping sweeping = {layout, cairo, operation,
                         session_shown(pin_document_session(layout->document)), NULL};
    for (uint32_t i = 0; i < operation->passes.count; i++) {
        sweeping.pass = LIST_AT(&operation->passes, Pass, i);
        placed_each(sweeping.placed, tint_station, &sweeping);
    }
}
