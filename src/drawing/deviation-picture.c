#include "drawing/deviation-picture.h"

#include "drawing/hole-table.h"
#include "drawing/labels.h"
#include "drawing/plan.h"
#include "drawing/setting-picture.h"

#define ARROW_WANTED 12.0 /* mm of paper, for the greatest deviation */
#define ARROW_MOST 24.0   /* an outlier's is cut off here */
#define HEAD_LENGTH 2.0
#define HEAD_HALF 0.7
#define ZONE_MOST 7.0 /* mm of paper: a larger circle would hide the holes */
#define TIMES_MOST 1e4

static const MeasuredRow *row_at(const Deviations *deviations, guint i)
{
    return &g_array_index(deviations->measured->rows, MeasuredRow, i);
}

double deviation_picture_times(const Deviations *deviations)
{
    static const double steps[] = {5, 2, 1};
    double greatest = 0;
    for (guint i = 0; i < deviations->measured->rows->len; i++) {
        const MeasuredRow *row = row_at(deviations, i);
        if (row->hole && !row->outlier)
            greatest = fmax(greatest, point_length(row->squares));
    }
    for (double power = TIMES_MOST; power > 1; power /= 10)
        for (size_t i = 0; i < G_N_ELEMENTS(steps); i++)
            if (steps[i] * power * greatest <= ARROW_WANTED)
                return fmin(steps[i] * power, TIMES_MOST);
    return 1;
}

/* --- arrows --------------------------------------------------------------------------------- */

static void draw_head(Drawing *drawing, Point tip, Point along)
{
    Point across = {-along.y, along.x};
    Point back = point_minus(tip, point_times(along, HEAD_LENGTH));
    Point left = point_plus(back, point_times(across, HEAD_HALF));
    Point right = point_minus(back, point_times(across, HEAD_HALF));
    Vertex corners[] = {{tip.x, tip.y, 0}, {left.x, left.y, 0}, {right.x, right.y, 0}};
    drawing_fill(drawing, corners, 3);
}

static void draw_arrow(Drawing *drawing, const MeasuredRow *row, Point from, double times)
{
    Point reach = point_times(row->squares, times);
    double length = point_length(reach);
    drawing_about(drawing, ROLE_DIMENSION, row->hole);
    if (row->tolerance / 2 * times <= ZONE_MOST)
        drawing_circle(drawing, LINE_DIMENSION, from, row->tolerance / 2 * times);
    if (length < 0.1)
        return;
    Point along = point_times(reach, 1 / length);
    bool cut = row->outlier && length > ARROW_MOST;
    Point tip = cut ? point_plus(from, point_times(along, ARROW_MOST)) : point_plus(from, reach);
    drawing_line(drawing, cut ? LINE_HIDDEN : LINE_SIGN, from, tip);
    if (length > HEAD_LENGTH)
        draw_head(drawing, tip, along);
}

/* --- the picture ---------------------------------------------------------------------------- */

static bool was_measured(const Deviations *deviations, FeatureId hole)
{
    for (guint i = 0; i < deviations->measured->rows->len; i++)
        if (row_at(deviations, i)->hole == hole)
            return true;
    return false;
}

static void draw_labels(Drawing *drawing, const DrawingSource *source, ViewMap map,
                        const FaceView *view, const Deviations *deviations, Box room)
{
    HoleTable *table = hole_table_new(source, view->face);
    HoleTable shown = *table; /* its texts are the table's */
    shown.rows = g_new(HoleRow, table->count);
    shown.count = 0;
    for (size_t i = 0; i < table->count; i++)
        if (was_measured(deviations, table->rows[i].feature))
            shown.rows[shown.count++] = table->rows[i];
    LabelTask task = {.table = &shown, .area = room};
    labels_draw(drawing, source, map, view, &task);
    g_free(shown.rows);
    hole_table_free(table);
}

double deviation_picture_draw(Drawing *drawing, const DrawingSource *source,
                              const Deviations *deviations, Box room)
{
    FaceView view = face_view(source, deviations->face);
    ViewMap map = setting_picture_map(view.box, room);
    double times = deviation_picture_times(deviations);
    plan_face(drawing, source, map, view.face);
    plan_features(drawing, source, map, view.face, FEATURE_HOLE);
    plan_origin(drawing, source, map, view.face);
    for (guint i = 0; i < deviations->measured->rows->len; i++) {
        const MeasuredRow *row = row_at(deviations, i);
        if (row->hole)
            draw_arrow(drawing, row, view_point(map, row->drawn), times);
    }
    draw_labels(drawing, source, map, &view, deviations, room);
    return map.scale;
}
