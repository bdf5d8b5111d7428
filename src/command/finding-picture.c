#include "command/finding-picture.h"

#include "checks/rule.h"
#include "checks/sentence.h"
#include "drawing/clip.h"
#include "drawing/paragraph.h"
#include "drawing/plan.h"
#include "drawing/section.h"
#include "drawing/shape-path.h"

#include <glib.h>
#include <math.h>

/* mm on the sheet */
#define WIDTH 130.0
#define EDGE 2.0       /* left free at the sheet's sides, and between the views */
#define PLAN_MOST 62.0 /* height of the plan */
#define PLAN_LEAST 34.0
#define CUT_MOST 44.0 /* height of the cut */
#define CUT_ROOM 3.0  /* above and below the metal */
#define LETTERS 2.8
#define MARK_RADIUS 3.2 /* of the ring at the place */
#define AROUND 9.0      /* mm of the plate round what it is about */
#define SCALE_MOST 4.0
#define LINES_MOST 5

typedef struct Picture {
    Drawing *drawing;
    Drawing *whole; /* the views before they are cut out */
    DrawingSource source;
    const Finding *finding;
    FaceView view;
    Box box; /* what is shown of the face */
    double scale;
} Picture;

/* --- what is shown ---------------------------------------------------------------------------- */

static Box finding_box(const Picture *picture)
{
    const Finding *finding = picture->finding;
    Box box = BOX_EMPTY;
    for (int i = 0; i < finding->feature_count; i++) {
        const Feature *feature = placed_find(picture->source.placed, finding->features[i]);
        if (feature && feature->face == picture->view.face)
            box = box_union(box, feature->box);
    }
    box = box_with_point(box, finding->at);
    box = box_with_point(box, finding->from);
    return box_with_point(box, finding->to);
}

/* What is about no place is about the whole face. */
static bool has_place(Box box)
{
    return box.x1 - box.x0 > 0.01 || box.y1 - box.y0 > 0.01;
}

/* As wide as the sheet, and as high as it comes to be within the bounds, about the same middle; so
 * large that the cut below it has room in full. */
static void choose_box(Picture *picture)
{
    Box box = finding_box(picture);
    box = box_grown(has_place(box) ? box : picture->view.box, AROUND);
    double room = WIDTH - 2 * EDGE, length = box.x1 - box.x0, width = box.y1 - box.y0;
    double thickness = length_to_mm(plate_settings(picture->source.plate)->stock.thickness);
    picture->scale = fmin(fmin(room / length, PLAN_MOST / width), SCALE_MOST);
    picture->scale = fmin(picture->scale, (CUT_MOST - 2 * CUT_ROOM) / thickness);
    length = room / picture->scale;
    width = fmax(width, PLAN_LEAST / picture->scale);
    Point middle = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    picture->box = (Box){middle.x - length / 2, middle.y - width / 2, middle.x + length / 2,
                         middle.y + width / 2};
}

/* --- the plan --------------------------------------------------------------------------------- */

static void draw_about(const Picture *picture, ViewMap map)
{
    const Finding *finding = picture->finding;
    Drawing *whole = picture->whole;
    for (int i = 0; i < finding->feature_count; i++) {
        const Feature *feature = placed_find(picture->source.placed, finding->features[i]);
        if (!feature || feature->face != picture->view.face)
            continue;
        const Record *record = placed_record(picture->source.placed, feature->id);
        drawing_about(whole, ROLE_NOTE, feature->id);
        shape_path_draw(whole, LINE_VISIBLE, &feature->shape, map);
        if (record && record_label(record))
            plan_label(whole, map, feature, record_label(record));
    }
    drawing_about(whole, ROLE_NOTE, 0);
    if (point_distance(finding->from, finding->to) * map.scale > 0.5)
        drawing_line(whole, LINE_VISIBLE, view_point(map, finding->from),
                     view_point(map, finding->to));
    drawing_circle(whole, LINE_VISIBLE, view_point(map, finding->at), MARK_RADIUS);
}

/* Draws the view of the whole into `area` of the sheet: what of it lies there. */
static void cut_out(const Picture *picture, Box area)
{
    clip_copy(picture->drawing, picture->whole, &picture->whole->sheets[0], area, (Point){0, 0});
    drawing_about(picture->drawing, ROLE_FURNITURE, 0);
    drawing_box(picture->drawing, LINE_DIMENSION, area);
}

static void begin_whole(const Picture *picture)
{
    drawing_clear(picture->whole);
    drawing_begin_sheet(picture->whole, WIDTH, WIDTH, "");
}

static void draw_plan(const Picture *picture, Box area)
{
    ViewMap map = {
        {area.x0 - picture->scale * picture->box.x0, area.y0 - picture->scale * picture->box.y0},
        picture->scale};
    begin_whole(picture);
    plan_face(picture->whole, &picture->source, map, picture->view.face);
    plan_features(picture->whole, &picture->source, map, picture->view.face, ~0U);
    plan_origin(picture->whole, &picture->source, map, picture->view.face);
    draw_about(picture, map);
    cut_out(picture, area);
}

/* --- the cut ---------------------------------------------------------------------------------- */

/* Through the first hole or recess that it is about, else through the place itself. */
static double cut_at(const Picture *picture)
{
    const Finding *finding = picture->finding;
    for (int i = 0; i < finding->feature_count; i++) {
        const Feature *feature = placed_find(picture->source.placed, finding->features[i]);
        if (feature && feature->face == picture->view.face && (feature->kind & FEATURE_CUT))
            return feature_at(feature).y;
    }
    return finding->at.y;
}

static bool is_cut(const Feature *feature, void *data)
{
    bool *found = data;
    *found = *found || (feature->kind & FEATURE_CUT);
    return !*found;
}

/* Along X, so that it lies below the plan; false where it would show bare metal. */
static bool find_cut(const Picture *picture, SectionLine *line)
{
    bool found = false;
    double y = cut_at(picture);
    *line = (SectionLine){{picture->view.box.x0 - 1, y}, {picture->view.box.x1 + 1, y}, 'A'};
    Box along = {picture->box.x0, y, picture->box.x1, y};
    placed_each_near(picture->source.placed, picture->view.face, along, is_cut, &found);
    return found && picture->view.top && section_clip(&picture->source, line);
}

static double cut_height(const Picture *picture)
{
    double thickness = length_to_mm(plate_settings(picture->source.plate)->stock.thickness);
    return thickness * picture->scale + 2 * CUT_ROOM;
}

static void draw_cut(const Picture *picture, const SectionLine *line, Box area)
{
    ViewMap map = {
        {area.x0 + picture->scale * (line->from.x - picture->box.x0), area.y1 - CUT_ROOM},
        picture->scale};
    begin_whole(picture);
    section_draw(picture->whole, &picture->source, line, map);
    cut_out(picture, area);
}

/* --- all of it -------------------------------------------------------------------------------- */

static char *words_of(const Picture *picture, Unit unit)
{
    char message[SENTENCE_TEXT];
    finding_message(picture->finding, picture->source.placed, unit, message);
    return g_strdup_printf("%s.", message);
}

static void lay_out(const Picture *picture, const char *words)
{
    SectionLine line;
    bool cut = find_cut(picture, &line);
    double inner = WIDTH - 2 * EDGE;
    double plan = (picture->box.y1 - picture->box.y0) * picture->scale;
    double below = cut ? cut_height(picture) + EDGE : 0;
    size_t lines = paragraph_lines(picture->drawing, words, inner, LETTERS, LINES_MOST);
    double text = ((double)lines - 1) * PARAGRAPH_PITCH * LETTERS + LETTERS;
    double height = 2 * EDGE + plan + below + EDGE + text + EDGE;
    drawing_begin_sheet(picture->drawing, WIDTH, height, "");
    Box area = {EDGE, height - EDGE - plan, WIDTH - EDGE, height - EDGE};
    draw_plan(picture, area);
    if (cut)
        draw_cut(picture, &line, (Box){EDGE, area.y0 - below, WIDTH - EDGE, area.y0 - EDGE});
    drawing_about(picture->drawing, ROLE_NOTE, 0);
    paragraph_draw(picture->drawing, (Point){EDGE, area.y0 - below - EDGE}, inner, LETTERS,
                   TEXT_START, words, lines);
}

void finding_picture_draw_one(Drawing *drawing, Session *session, const Finding *finding)
{
    Picture picture = {.drawing = drawing,
                       .whole = drawing_new(drawing->lettering),
                       .source = {session_plate(session), session_placed(session)},
                       .finding = finding};
    picture.view = face_view(&picture.source, finding->face);
    choose_box(&picture);
    char *words = words_of(&picture, session_unit(session));
    drawing_clear(drawing);
    g_strlcpy(drawing->title, finding->rule->title, sizeof drawing->title);
    lay_out(&picture, words);
    g_free(words);
    drawing_free(picture.whole);
}

bool finding_picture_draw(Drawing *drawing, Session *session, const Rule *rule, Error *error)
{
    const FindingList *findings = session_findings(session);
    for (uint32_t i = 0; i < findings->count; i++) {
        if (findings->items[i].rule != rule)
            continue;
        finding_picture_draw_one(drawing, session, &findings->items[i]);
        return true;
    }
    return error_set(error, ERROR_MISSING, rule->slug, "the plate has no finding of this rule");
}
