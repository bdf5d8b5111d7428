#include "drawing/answer-picture.h"

#include "drawing/clip.h"
#include "drawing/furniture.h"
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
    Box detail; /* mm on the face: drawn larger, with its labels; empty: nothing is */
    bool is_detail;
} Picture;

#define DETAIL_AROUND 6.0 /* mm of the plate round the part */
#define DETAIL_TITLE 8.0  /* mm of the sheet */
#define PICTURE_SHARE 0.6 /* of the room, where a detail has the rest */

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

static bool is_labelled_here(const Picture *picture, Point at)
{
    Box box = picture->detail;
    bool within = at.x >= box.x0 && at.x <= box.x1 && at.y >= box.y0 && at.y <= box.y1;
    return box_is_empty(box) || picture->is_detail == within;
}

/* Findings by their numbers, at their places; returns how many. */
static size_t number_findings(const Picture *picture, uint32_t count, LooseLabel *loose)
{
    size_t numbered = 0;
    for (uint32_t i = 0; i < count; i++) {
        Point at = picture->answer->findings.items[i].at;
        if (!is_labelled_here(picture, at))
            continue;
        loose[numbered].beside = view_point(picture->map, at);
        g_snprintf(loose[numbered].text, sizeof loose->text, "(%u)", i + 1);
        numbered++;
    }
    return numbered;
}

static void draw_labels(const Picture *picture, uint32_t findings)
{
    HoleTable *table = hole_table_new(&picture->shown, picture->answer->face);
    HoleTable used = *table; /* its texts are the table's */
    used.rows = g_new(HoleRow, table->count);
    used.count = 0;
    FaceView view = face_view(picture->source, picture->answer->face);
    LooseLabel *loose = g_new0(LooseLabel, findings + 1);
    size_t numbered = number_findings(picture, findings, loose);
    view.front = view.front && !picture->is_detail;
    const char *name = refit_part(picture->refit)->name;
    for (size_t i = 0; i < table->count; i++) {
        HoleRow *row = &table->rows[i];
        bool is_new = picture->part && row->feature == picture->part->id;
        if (!is_new && (row->kind != FEATURE_HOLE || !is_used(picture, row->feature)))
            continue;
        if (!box_is_empty(picture->detail) && !picture->is_detail)
            continue;
        used.rows[used.count] = *row;
        if (is_new && name && *name)
            used.rows[used.count].label = (char *)name;
        used.count++;
    }
    LabelTask task = {
        .table = &used, .loose = loose, .loose_count = numbered, .area = picture->room};
    labels_draw(picture->drawing, &picture->shown, picture->map, &view, &task);
    g_free(loose);
    g_free(used.rows);
    hole_table_free(table);
}

static void draw_features(const Picture *picture)
{
    FeatureId face = picture->answer->face;
    plan_face(picture->drawing, picture->source, picture->map, face);
    plan_features(picture->drawing, picture->source, picture->map, face,
                  FEATURE_HOLE | FEATURE_RECESS | FEATURE_KEEP_CLEAR);
    draw_old_parts(picture);
    draw_new_holes(picture);
    if (picture->part)
        draw_new_part(picture);
    plan_origin(picture->drawing, picture->source, picture->map, face);
}

/* What is round the new part, cut out along a frame. */
static void draw_detail(const Picture *whole, Box room, uint32_t findings)
{
    Picture picture = *whole;
    Drawing *drawing = whole->drawing;
    picture.is_detail = true;
    picture.map = setting_picture_map(whole->detail, room);
    picture.drawing = drawing_new(drawing->lettering);
    Point low = view_point(picture.map, (Point){whole->detail.x0, whole->detail.y0});
    Point high = view_point(picture.map, (Point){whole->detail.x1, whole->detail.y1});
    Box frame = {low.x, low.y, high.x, high.y};
    drawing_begin_sheet(picture.drawing, 1, 1, "");
    draw_features(&picture);
    clip_copy(drawing, picture.drawing, &picture.drawing->sheets[0], frame, (Point){0, 0});
    drawing_free(picture.drawing);
    picture.drawing = drawing;
    drawing_about(drawing, ROLE_DIMENSION, ID_NONE);
    drawing_box(drawing, LINE_DIMENSION, frame);
    picture.room = box_grown(frame, -1);
    draw_labels(&picture, findings);
    char ratio[FURNITURE_SCALE_TEXT], text[FURNITURE_SCALE_TEXT + 32];
    furniture_scale_text(picture.map.scale, ratio);
    g_snprintf(text, sizeof text, "The new part (%s)", ratio);
    drawing_about(drawing, ROLE_NOTE, ID_NONE);
    drawing_text(drawing, (Point){frame.x0, frame.y1 + 2},
                 (TextStyle){SHEET_LETTERING, TEXT_START, TEXT_BASE, 0}, text);
}

/* Where the picture is small and there is room for it, the part is drawn again below it. */
static Box share_room(Picture *picture, Box box)
{
    Box lower = picture->room, upper = picture->room;
    double scale = setting_picture_map(box, upper).scale;
    upper.y0 = upper.y1 - (upper.y1 - upper.y0) * PICTURE_SHARE;
    lower.y1 = upper.y0 - DETAIL_TITLE;
    if (!picture->part || scale >= 1 || setting_picture_map(box, upper).scale < scale)
        return BOX_EMPTY;
    Box part = box_grown(picture->part->box, DETAIL_AROUND);
    if (setting_picture_map(part, lower).scale <= scale)
        return BOX_EMPTY;
    picture->detail = part;
    picture->room = upper;
    return lower;
}

double answer_picture_draw(Drawing *drawing, const DrawingSource *source, Refit *refit, uint32_t i,
                           uint32_t findings, Box room)
{
    Picture picture = {.drawing = drawing,
                       .source = source,
                       .shown = {source->plate, refit_show(refit, i)},
                       .refit = refit,
                       .answer = refit_at(refit, i),
                       .room = room,
                       .detail = BOX_EMPTY};
    FaceView view = face_view(source, picture.answer->face);
    picture.part = placed_find(picture.shown.placed, refit_station(refit));
    Box box = picture.part ? box_union(view.box, picture.part->box) : view.box;
    Box lower = share_room(&picture, box);
    picture.map = setting_picture_map(box, picture.room);
    draw_features(&picture);
    draw_labels(&picture, findings);
    if (!box_is_empty(lower))
        draw_detail(&picture, lower, findings);
    return picture.map.scale;
}
