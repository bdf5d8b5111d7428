#include "drawing/answer-picture.h"

#include "drawing/hole-table.h"
#include "drawing/labels.h"
#include "drawing/plan.h"
#include "drawing/setting-picture.h"
#include "drawing/shape-path.h"

typedef struct Picture {
    Drawing *drawing;
    const DrawingSource *source; /* the plate as it is */
    DrawingSource shown;         /* with the answer */
    Refit *refit;
    const RefitAnswer *answer;
    const Feature *part; /* the new one */
    ViewMap map;
    Box room;
} Picture;

static bool is_displaced(const RefitAnswer *answer, FeatureId station)
{
    for (guint i = 0; i < answer->displaced->len; i++)
        if (g_array_index(answer->displaced, FeatureId, i) == station)
            return true;
    return false;
}

/* The parts that stay as any part is drawn, those that make room by dashes. */
static void draw_old_parts(const Picture *picture)
{
    size_t count;
    Drawing *drawing = picture->drawing;
    const Feature **parts = plan_list(picture->source, picture->answer->face, FEATURE_PART, &count);
    for (size_t i = 0; i < count; i++) {
        if (!is_displaced(picture->answer, parts[i]->id) &&
            parts[i]->id != refit_replaced(picture->refit)) {
            plan_feature(drawing, picture->source, picture->map, parts[i]);
            continue;
        }
        drawing_about(drawing, ROLE_PART, parts[i]->id);
        shape_path_draw(drawing, LINE_HIDDEN, &parts[i]->shape, picture->map);
    }
    g_free(parts);
}

static void draw_new_part(const Picture *picture)
{
    Drawing *drawing = picture->drawing;
    drawing_about(drawing, ROLE_PART, picture->part->id);
    shape_path_draw(drawing, LINE_VISIBLE, &picture->part->shape, picture->map);
}

static void draw_new_holes(const Picture *picture)
{
    for (guint i = 0; i < picture->answer->uses->len; i++) {
        const RefitUse *use = &g_array_index(picture->answer->uses, RefitUse, i);
        FeatureId id = refit_use_hole(picture->refit, picture->answer, i);
        const Feature *hole = placed_find(picture->shown.placed, id);
        if (hole && use->hole == ID_NONE)
            plan_feature(picture->drawing, &picture->shown, picture->map, hole);
    }
}

static bool is_used(const Picture *picture, FeatureId hole)
{
    for (guint i = 0; i < picture->answer->uses->len; i++)
        if (refit_use_hole(picture->refit, picture->answer, i) == hole)
            return true;
    return false;
}

/* Findings by their numbers, at their places. */
static LooseLabel *number_findings(const Picture *picture, uint32_t count)
{
    LooseLabel *loose = g_new0(LooseLabel, count + 1);
    for (uint32_t i = 0; i < count; i++) {
        loose[i].beside = view_point(picture->map, picture->answer->findings.items[i].at);
        g_snprintf(loose[i].text, sizeof loose[i].text, "(%u)", i + 1);
    }
    return loose;
}

static void draw_labels(const Picture *picture, uint32_t findings)
{
    HoleTable *table = hole_table_new(&picture->shown, picture->answer->face);
    HoleTable used = *table; /* its texts are the table's */
    used.rows = g_new(HoleRow, table->count);
    used.count = 0;
    FaceView view = face_view(picture->source, picture->answer->face);
    LooseLabel *loose = number_findings(picture, findings);
    const char *name = refit_part(picture->refit)->name;
    for (size_t i = 0; i < table->count; i++) {
        HoleRow *row = &table->rows[i];
        bool is_new = picture->part && row->feature == picture->part->id;
        if (!is_new && (row->kind != FEATURE_HOLE || !is_used(picture, row->feature)))
            continue;
        used.rows[used.count] = *row;
        if (is_new && name && *name)
            used.rows[used.count].label = (char *)name;
        used.count++;
    }
    LabelTask task = {
        .table = &used, .loose = loose, .loose_count = findings, .area = picture->room};
    labels_draw(picture->drawing, &picture->shown, picture->map, &view, &task);
    g_free(loose);
    g_free(used.rows);
    hole_table_free(table);
}

double answer_picture_draw(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i,
                           uint32_t findings, Box room)
{
    Picture picture = {.drawing = drawing,
                       .source = source,
                       .shown = {source->plate, refit_show(refit, i)},
                       .refit = refit,
                       .answer = refit_at(refit, i),
                       .room = room};
    FaceView view = face_view(source, picture.answer->face);
    picture.part = placed_find(picture.shown.placed, refit_station(refit));
    Box box = picture.part ? box_union(view.box, picture.part->box) : view.box;
    picture.map = setting_picture_map(box, room);
    plan_face(drawing, source, picture.map, view.face);
    plan_features(drawing, source, picture.map, view.face,
                  FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR);
    draw_old_parts(&picture);
    draw_new_holes(&picture);
    if (picture.part)
        draw_new_part(&picture);
    plan_origin(drawing, source, picture.map, view.face);
    draw_labels(&picture, findings);
    return picture.map.scale;
}
