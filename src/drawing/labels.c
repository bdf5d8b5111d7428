#include "drawing/labels.h"

#include "drawing/dimension.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define FRONT "FRONT"
#define FRONT_GAP 1.6 /* above the edge, and the steps it is moved by, mm */
#define DOT 0.6       /* radius of a leader's end inside an area, mm */

typedef struct Labelling {
    Drawing *drawing;
    const DrawingSource *source;
    ViewMap map;
} Labelling;

static void draw_label(const Labelling *labelling, const LabelPlace *place,
                       const LabelRequest *request, const char *text)
{
    Drawing *drawing = labelling->drawing;
    if (!place->leader) {
        Point at = {(place->box.x0 + place->box.x1) / 2, place->box.y0};
        drawing_text(drawing, at, (TextStyle){LETTERING, TEXT_MIDDLE, TEXT_BASE, 0}, text);
        return;
    }
    if (request->inside) {
        dimension_leader_to_area(drawing, place->tip, place->knee, LETTERING, text);
        drawing_dot(drawing, place->tip, DOT);
        return;
    }
    dimension_leader(drawing, place->tip, place->knee, LETTERING, text);
}

/* A point in the middle of what an area's label means: its middle where that lies within, else a
 * corner of its outline. */
static Point area_middle(const Shape *shape)
{
    if (shape->core != CORE_OUTLINE)
        return (Point){shape->pose.x, shape->pose.y};
    Point middle = outline_centroid(shape->outline);
    if (!outline_contains(shape->outline, middle)) {
        size_t count;
        const Vertex *ring = outline_ring(shape->outline, 0, &count);
        middle = (Point){ring[0].x, ring[0].y};
    }
    return pose_point(shape->pose, middle);
}

static MarkRole role_of(FeatureKind kind)
{
    return kind == FEATURE_PART ? ROLE_PART : ROLE_LABEL;
}

#define SPOT_STEP 1.5 /* between the places tried within an area, mm on the sheet */
#define SPOTS_MOST 400
#define TIPS_MOST 12 /* where a leader out of an area is tried to begin */

typedef struct Spot {
    Point at;
    double off; /* from the area's middle */
} Spot;

static gint by_off(gconstpointer a, gconstpointer b)
{
    const Spot *first = a, *second = b;
    return (first->off > second->off) - (first->off < second->off);
}

/* Whether the text about `at` lies in the area and in no smaller one that lies in it. */
static bool is_within(const Labelling *labelling, const HoleTable *table, const Feature *area,
                      Point at, Point half)
{
    ViewMap map = labelling->map;
    for (int i = 0; i < 4; i++) {
        Point corner = {at.x + (i & 1 ? half.x : -half.x), at.y + (i & 2 ? half.y : -half.y)};
        if (!shape_contains(&area->shape, view_point_back(map, corner)))
            return false;
    }
    double size = (area->box.x1 - area->box.x0) * (area->box.y1 - area->box.y0);
    for (size_t i = 0; i < table->count; i++) {
        const Feature *other = placed_find(labelling->source->placed, table->rows[i].feature);
        if (other->kind == FEATURE_HOLE || other == area || !box_meets(other->box, area->box) ||
            (other->box.x1 - other->box.x0) * (other->box.y1 - other->box.y0) >= size)
            continue;
        if (shape_contains(&other->shape, view_point_back(map, at)))
            return false;
    }
    return true;
}

/* Places within an area for a box of the given half sides, those near `middle` first. */
static GArray *find_spots(const Labelling *labelling, const HoleTable *table, const Feature *area,
                          Point middle, Point half)
{
    GArray *spots = g_array_new(FALSE, FALSE, sizeof(Spot));
    Point low = view_point(labelling->map, (Point){area->box.x0, area->box.y0});
    Point high = view_point(labelling->map, (Point){area->box.x1, area->box.y1});
    double step = fmax(SPOT_STEP, sqrt((high.x - low.x) * (high.y - low.y) / SPOTS_MOST));
    /* Counted from the middle, so that the middle itself is tried. */
    int left = (int)((middle.x - low.x) / step), right = (int)((high.x - middle.x) / step);
    int down = (int)((middle.y - low.y) / step), up = (int)((high.y - middle.y) / step);
    for (int j = -down; j <= up; j++) {
        for (int i = -left; i <= right; i++) {
            Point at = {middle.x + i * step, middle.y + j * step};
            Spot spot = {at, point_distance(at, middle)};
            if (is_within(labelling, table, area, at, half))
                g_array_append_val(spots, spot);
        }
    }
    g_array_sort(spots, by_off);
    return spots;
}

static Box box_of(Point p)
{
    return (Box){p.x, p.y, p.x, p.y};
}

/* The feature and the areas that all the points lie in; free with g_free. */
static uint32_t *find_around(const DrawingSource *source, const HoleTable *table,
                             const Feature *feature, const Point *points, size_t point_count,
                             size_t *count)
{
    GArray *around = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    g_array_append_val(around, feature->id);
    for (size_t i = 0; i < table->count; i++) {
        const Feature *area = placed_find(source->placed, table->rows[i].feature);
        bool all = area && area->kind != FEATURE_HOLE && area != feature;
        for (size_t p = 0; p < point_count && all; p++)
            all =
                box_meets(area->box, box_of(points[p])) && shape_contains(&area->shape, points[p]);
        if (all)
            g_array_append_val(around, area->id);
    }
    *count = around->len;
    return (uint32_t *)(void *)g_array_free(around, FALSE);
}

/* The places as a row of their own; no more than `most`, the first and last of them among these. */
static Point *places_of(const GArray *spots, guint most, size_t *count)
{
    *count = MIN(spots->len, most);
    Point *places = g_new(Point, *count + 1);
    for (guint i = 0; i < *count; i++) {
        guint which = *count > 1 ? i * (spots->len - 1) / (guint)(*count - 1) : 0;
        places[i] = g_array_index(spots, Spot, which).at;
    }
    return places;
}

/* Gives an area's request its spots, and places for a leader's end that are the area's own. */
static void give_spots(const Labelling *labelling, const HoleTable *table, const Feature *area,
                       LabelRequest *request)
{
    Point half = {request->width / 2, request->height / 2};
    GArray *spots = find_spots(labelling, table, area, request->centre, half);
    GArray *ends = find_spots(labelling, table, area, request->centre, (Point){DOT, DOT});
    request->spots = places_of(spots, G_MAXUINT, &request->spot_count);
    Point *tips = places_of(ends, TIPS_MOST, &request->tip_count);
    Point *there = g_new(Point, request->tip_count + 1);
    for (size_t i = 0; i < request->tip_count; i++)
        there[i] = view_point_back(labelling->map, tips[i]);
    if (request->tip_count > 0) {
        g_free((void *)request->around);
        request->around = find_around(labelling->source, table, area, there, request->tip_count,
                                      &request->around_count);
    }
    request->tips = tips;
    g_free(there);
    g_array_unref(spots);
    g_array_unref(ends);
}

LabelRequest labels_request(const DrawingSource *source, ViewMap map, const HoleTable *table,
                            FeatureId id, double width)
{
    const Feature *feature = placed_find(source->placed, id);
    bool round = feature->kind == FEATURE_HOLE;
    Point at = round ? feature_at(feature) : area_middle(&feature->shape);
    LabelRequest request = {
        .centre = view_point(map, at),
        .radius = round ? feature->shape.growth * map.scale : 0,
        .width = width,
        .height = LETTERING,
        .inside = !round,
    };
    request.around = find_around(source, table, feature, &at, 1, &request.around_count);
    return request;
}

Placement *labels_obstacles(const Drawing *drawing, const DrawingSource *source, ViewMap map,
                            const HoleTable *table, Box area)
{
    Placement *placement = placement_new();
    const Sheet *sheet = &drawing->sheets[drawing->sheet_count - 1];
    placement_set_area(placement, area);
    placement_add_marks(placement, drawing, sheet->first, sheet->count);
    for (size_t i = 0; i < table->count; i++) {
        const Feature *feature = placed_find(source->placed, table->rows[i].feature);
        if (feature && feature->kind == FEATURE_HOLE)
            placement_add_disc(placement, view_point(map, feature_at(feature)),
                               feature->shape.growth * map.scale);
    }
    return placement;
}

/* Writes the word where it has room with its foot so high above the edge's middle, on either side
 * as near as can be. */
static bool try_front(const Labelling *labelling, Placement *placement, Point middle, double width,
                      double reach)
{
    Drawing *drawing = labelling->drawing;
    for (double off = 0; off<reach; off = off> 0 ? -off : -off + FRONT_GAP) {
        Box box = {middle.x + off - width / 2, middle.y, middle.x + off + width / 2,
                   middle.y + LETTERING};
        if (!placement_box_is_free(placement, box))
            continue;
        drawing_about(drawing, ROLE_NOTE, 0);
        drawing_text(drawing, (Point){box.x0, box.y0},
                     (TextStyle){LETTERING, TEXT_START, TEXT_BASE, 0}, FRONT);
        placement_add_box(placement, box);
        return true;
    }
    return false;
}

/* The word FRONT within the front edge, as near it and its middle as there is room. */
static void draw_front(const Labelling *labelling, Placement *placement, Box face)
{
    double width = lettering_extent(labelling->drawing->lettering, FRONT, LETTERING).width;
    Point middle = view_point(labelling->map, (Point){(face.x0 + face.x1) / 2, face.y0});
    double reach = ((face.x1 - face.x0) * labelling->map.scale - width) / 2 - FRONT_GAP;
    double top = middle.y + (face.y1 - face.y0) * labelling->map.scale / 2;
    for (middle.y += FRONT_GAP; middle.y + LETTERING < top; middle.y += FRONT_GAP) {
        if (try_front(labelling, placement, middle, width, reach))
            return;
    }
}

#define RING_SPOTS 16
#define RINGS 4

/* Places round a loose label's own, nearer ones first. */
static void ring_spots(Point middle, LabelRequest *request)
{
    Point *spots = g_new(Point, RING_SPOTS * RINGS);
    for (int i = 0; i < RING_SPOTS * RINGS; i++) {
        int ring = i / RING_SPOTS, place = i % RING_SPOTS;
        double radius = LETTERING * (1 + 0.5 * ring);
        double angle = 2 * G_PI * place / RING_SPOTS;
        spots[i] = (Point){middle.x + radius * cos(angle), middle.y + radius * sin(angle)};
    }
    request->spots = spots;
    request->spot_count = RING_SPOTS * RINGS;
}

static void request_loose(const Labelling *labelling, const LooseLabel *loose,
                          LabelRequest *request)
{
    *request = (LabelRequest){
        .centre = loose->beside,
        .width = lettering_extent(labelling->drawing->lettering, loose->text, LETTERING).width,
        .height = LETTERING,
        .inside = true};
    ring_spots(loose->beside, request);
}

/* One label: what is asked for, where it goes, and what it says. */
typedef struct Asked {
    const HoleRow *row; /* NULL: a loose one */
    const char *text;
} Asked;

/* Requests for the loose labels and then for the rows; returns how many. */
static size_t make_requests(const Labelling *labelling, const LabelTask *task,
                            LabelRequest *requests, Asked *asked)
{
    size_t count = 0;
    for (size_t i = 0; i < task->loose_count; i++, count++) {
        asked[count] = (Asked){.text = task->loose[i].text};
        request_loose(labelling, &task->loose[i], &requests[count]);
    }
    for (size_t i = 0; i < task->table->count; i++) {
        const HoleRow *row = &task->table->rows[i];
        const Feature *feature = placed_find(labelling->source->placed, row->feature);
        if (task->elsewhere && task->elsewhere[i])
            continue;
        asked[count] = (Asked){.row = row, .text = row->label};
        double width = lettering_extent(labelling->drawing->lettering, row->label, LETTERING).width;
        requests[count] =
            labels_request(labelling->source, labelling->map, task->table, row->feature, width);
        if (requests[count].inside)
            give_spots(labelling, task->table, feature, &requests[count]);
        count++;
    }
    return count;
}

size_t labels_draw(Drawing *drawing, const DrawingSource *source, ViewMap map, const FaceView *face,
                   const LabelTask *task)
{
    Labelling labelling = {drawing, source, map};
    Placement *placement = labels_obstacles(drawing, source, map, task->table, task->area);
    size_t most = task->loose_count + task->table->count;
    LabelRequest *requests = g_new(LabelRequest, most);
    LabelPlace *places = g_new(LabelPlace, most);
    Asked *asked = g_new(Asked, most);
    if (face->front)
        draw_front(&labelling, placement, face->box);
    size_t count = make_requests(&labelling, task, requests, asked);
    size_t unplaced = placement_labels(placement, requests, count, places);
    for (size_t i = 0; i < count; i++) {
        const HoleRow *row = asked[i].row;
        if (row && task->missing)
            task->missing[row - task->table->rows] = !places[i].found;
        drawing_about(drawing, row ? role_of(row->kind) : ROLE_NOTE, row ? row->feature : ID_NONE);
        if (places[i].found)
            draw_label(&labelling, &places[i], &requests[i], asked[i].text);
        g_free((void *)requests[i].spots);
        g_free((void *)requests[i].tips);
        g_free((void *)requests[i].around);
    }
    g_free(requests);
    g_free(places);
    g_free(asked);
    placement_free(placement);
    return unplaced;
}
