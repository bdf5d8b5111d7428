#include "drawing/details.h"

#include "drawing/clip.h"
#include "drawing/labels.h"
#include "drawing/plan.h"

#define ROOM 9.0  /* round a feature for its label, mm on the sheet */
#define APART 8.0 /* between details side by side */
#define TITLE 8.0 /* above a detail */
#define INSIDE 1.0
#define LETTERING 5.0

void details_start(Details *details, const HoleTable *table)
{
    *details = (Details){.of = g_new0(size_t, table->count), .missing = g_new0(bool, table->count)};
}

void details_end(Details *details)
{
    g_free(details->of);
    g_free(details->missing);
}

void details_clear(Details *details, const HoleTable *table)
{
    details->count = 0;
    for (size_t i = 0; i < table->count; i++) {
        details->of[i] = 0;
        details->missing[i] = false;
    }
}

/* A row's place with room for its label, mm on the face. Of areas that is their middle alone. */
static Box row_box(const DrawingSource *source, const HoleRow *row, double room)
{
    const Feature *feature = placed_find(source->placed, row->feature);
    if (feature && feature->kind == FEATURE_HOLE)
        return box_grown(feature->box, room);
    Point middle = feature ? (Point){(feature->box.x0 + feature->box.x1) / 2,
                                     (feature->box.y0 + feature->box.y1) / 2}
                           : row->at;
    return box_grown((Box){middle.x, middle.y, middle.x, middle.y}, room);
}

typedef struct Planning {
    Details *details;
    const DrawingSource *source;
    const HoleTable *table;
    bool *wanted;
    double room, width, height; /* mm on the face */
} Planning;

/* The wanted row that no detail has yet and that lies furthest to the left. */
static size_t find_seed(const Planning *planning)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < planning->table->count; i++) {
        Point at = planning->table->rows[i].at;
        if (!planning->wanted[i] || planning->details->of[i])
            continue;
        if (best == SIZE_MAX || at.x < planning->table->rows[best].at.x)
            best = i;
    }
    return best;
}

static bool has_room(const Planning *planning, Box box)
{
    return box.x1 - box.x0 <= planning->width && box.y1 - box.y0 <= planning->height;
}

/* The seed's box with those of other wanted rows as long as it is no larger than may be. */
static Box gather_around(const Planning *planning, size_t seed)
{
    Box box = row_box(planning->source, &planning->table->rows[seed], planning->room);
    for (bool grown = true; grown;) {
        double nearest = INFINITY;
        Box best = box;
        for (size_t i = 0; i < planning->table->count; i++) {
            if (!planning->wanted[i] || planning->details->of[i])
                continue;
            Box own = row_box(planning->source, &planning->table->rows[i], planning->room);
            Box both = box_union(box, own);
            double more =
                both.x1 - both.x0 + both.y1 - both.y0 - (box.x1 - box.x0) - (box.y1 - box.y0);
            if (more > 1e-9 && more < nearest && has_room(planning, both)) {
                nearest = more;
                best = both;
            }
        }
        grown = !isinf(nearest);
        box = best;
    }
    return box;
}

static Box cut_to(Box box, Box within)
{
    return (Box){fmax(box.x0, within.x0), fmax(box.y0, within.y0), fmin(box.x1, within.x1),
                 fmin(box.y1, within.y1)};
}

/* Gives the detail all rows that lie in it. Areas are labelled there only where they have to be. */
static void give_rows(const Planning *planning, Box box, size_t number)
{
    for (size_t i = 0; i < planning->table->count; i++) {
        const HoleRow *row = &planning->table->rows[i];
        if (planning->details->of[i] || (row->kind != FEATURE_HOLE && !planning->wanted[i]))
            continue;
        Box own = row_box(planning->source, row, planning->wanted[i] ? 0 : planning->room);
        if (own.x0 >= box.x0 && own.x1 <= box.x1 && own.y0 >= box.y0 && own.y1 <= box.y1)
            planning->details->of[i] = number;
    }
}

bool details_plan(Details *details, const DrawingSource *source, const HoleTable *table,
                  FeatureId face, double width, double height)
{
    double scale = details->scale;
    Planning planning = {details,      source,        table,         g_new(bool, table->count),
                         ROOM / scale, width / scale, height / scale};
    for (size_t i = 0; i < table->count; i++)
        planning.wanted[i] = details->missing[i] || details->of[i];
    details_clear(details, table);
    size_t seed = find_seed(&planning);
    for (; seed != SIZE_MAX && details->count < DETAILS_MOST; seed = find_seed(&planning)) {
        Box box = gather_around(&planning, seed);
        Detail *detail = &details->items[details->count++];
        detail->area = cut_to(box, face_view(source, face).box);
        detail->letter = (char)('Z' - (details->count - 1));
        give_rows(&planning, box, details->count);
        details->of[seed] = details->count;
    }
    g_free(planning.wanted);
    if (seed != SIZE_MAX)
        details_clear(details, table);
    return seed == SIZE_MAX;
}

static size_t draw_one(Details *details, size_t number, Flow *flow, const DrawingSource *source,
                       const HoleTable *table, FeatureId face, unsigned kinds, Point corner)
{
    const Detail *detail = &details->items[number - 1];
    Drawing *drawing = flow->drawing, *whole = drawing_new(drawing->lettering);
    double scale = details->scale;
    ViewMap map = {{corner.x - detail->area.x0 * scale, corner.y - detail->area.y0 * scale}, scale};
    Box frame = {corner.x, corner.y, corner.x + (detail->area.x1 - detail->area.x0) * scale,
                 corner.y + (detail->area.y1 - detail->area.y0) * scale};
    drawing_begin_sheet(whole, 1, 1, "");
    plan_face(whole, source, map, face);
    plan_features(whole, source, map, face, kinds);
    clip_copy(drawing, whole, &whole->sheets[0], frame, (Point){0, 0});
    drawing_free(whole);
    drawing_about(drawing, ROLE_DIMENSION, ID_NONE);
    drawing_box(drawing, LINE_DIMENSION, frame);

    FaceView view = face_view(source, face);
    view.front = false; /* the word FRONT stands in the view */
    bool *elsewhere = g_new(bool, table->count);
    for (size_t i = 0; i < table->count; i++)
        elsewhere[i] = details->of[i] != number;
    LabelTask task = {.table = table,
                      .elsewhere = elsewhere,
                      .missing = details->missing,
                      .area = box_grown(frame, -INSIDE)};
    size_t unplaced = labels_draw(drawing, source, map, &view, &task);
    g_free(elsewhere);
    char text[FURNITURE_SCALE_TEXT + 8], ratio[FURNITURE_SCALE_TEXT];
    furniture_scale_text(scale, ratio);
    g_snprintf(text, sizeof text, "%c (%s)", detail->letter, ratio);
    drawing_about(drawing, ROLE_NOTE, ID_NONE);
    drawing_text(drawing, (Point){frame.x0, frame.y1 + 2},
                 (TextStyle){LETTERING, TEXT_START, TEXT_BASE, 0}, text);
    return unplaced;
}

size_t details_draw(Details *details, Flow *flow, const DrawingSource *source,
                    const HoleTable *table, FeatureId face, unsigned kinds)
{
    size_t unplaced = 0;
    for (size_t first = 0; first < details->count;) {
        if (flow_left(flow) <= 0)
            flow_new_sheet(flow);
        /* As many side by side as have room. */
        double wide = 0, tall = 0, most = flow->body.x1 - flow->body.x0;
        size_t end = first;
        while (end < details->count) {
            Box area = details->items[end].area;
            double own = fmax((area.x1 - area.x0) * details->scale, 3 * LETTERING);
            if (end > first && wide + own > most)
                break;
            wide += own + APART;
            tall = fmax(tall, (area.y1 - area.y0) * details->scale);
            end++;
        }
        Box room = flow_room(flow, tall + TITLE);
        for (double x = room.x0; first < end; first++) {
            Box area = details->items[first].area;
            unplaced +=
                draw_one(details, first + 1, flow, source, table, face, kinds, (Point){x, room.y0});
            x += fmax((area.x1 - area.x0) * details->scale, 3 * LETTERING) + APART;
        }
        flow_gap(flow, APART);
    }
    return unplaced;
}
