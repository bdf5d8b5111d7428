#include "drawing/position-frames.h"

#include "drawing/dimension.h"
#include "drawing/hole-kinds.h"
#include "drawing/labels.h"
#include "drawing/tolerance-frame.h"

#include <glib.h>

#define LETTERING SHEET_LETTERING
#define GAP 2.0        /* from the words before a frame to it, mm */
#define COST_MOST 30.0 /* of a leader, in its steps of length: a longer one is lost to the eye */

/* The count of a kind and its marks, empty for a single hole; free with g_free. */
static char *words_before(const HoleTable *table, const size_t *rows, size_t count, bool with_marks)
{
    if (count < 2)
        return g_strdup("");
    bool asme = table->style.standard == SHEET_STANDARD_ASME;
    char *marks = with_marks ? hole_kinds_marks(table, rows, count) : g_strdup("");
    char *words = g_strdup_printf("%zu%s %s", count, asme ? "X" : "\u00D7", marks);
    g_free(marks);
    return g_strchomp(words);
}

static double width_of(const Drawing *drawing, const char *words)
{
    double width = lettering_extent(drawing->lettering, words, LETTERING).width;
    return *words ? width + GAP : 0;
}

static void draw_frame(Drawing *drawing, const LabelPlace *place, FeatureId hole, const char *words,
                       const char *frame)
{
    Point tip = place->tip, knee = place->knee;
    /* The leader comes to the words, or to the frame itself. */
    double end = place->right ? place->box.x0 - (*words ? 1 : 0) : place->box.x1;
    Vertex path[] = {{tip.x, tip.y, 0}, {knee.x, knee.y, 0}, {end, knee.y, 0}};
    drawing_about(drawing, ROLE_DIMENSION, hole);
    dimension_arrow(drawing, tip, point_minus(tip, knee));
    drawing_path(drawing, LINE_DIMENSION, path, G_N_ELEMENTS(path), false);
    if (*words)
        drawing_text(drawing, (Point){place->box.x0, knee.y},
                     (TextStyle){LETTERING, TEXT_START, TEXT_CENTRE, 0}, words);
    tolerance_frame_draw(drawing, (Point){place->box.x0 + width_of(drawing, words), place->box.y1},
                         frame, LETTERING);
}

/* The frame of one kind, at the hole whose leader disturbs least; false where it has no room. */
static bool draw_kind(Drawing *drawing, const DrawingSource *source, ViewMap map,
                      const HoleTable *table, Placement *placement, const size_t *rows,
                      size_t count, bool with_marks)
{
    const char *frame = table->rows[rows[0]].frame;
    char *words = words_before(table, rows, count, with_marks);
    double width = width_of(drawing, words) + tolerance_frame_width(drawing, frame, LETTERING);
    double least = COST_MOST;
    size_t best = count;
    LabelPlace place;
    for (size_t i = 0; i < count; i++) {
        LabelPlace own;
        double cost;
        LabelRequest request =
            labels_request(source, map, table, table->rows[rows[i]].feature, width);
        request.height = tolerance_frame_height(LETTERING);
        request.either_side = true;
        if (placement_find_leader(placement, &request, &own, &cost) && cost < least) {
            least = cost;
            best = i;
            place = own;
        }
        g_free((void *)request.around);
    }
    if (best < count) {
        draw_frame(drawing, &place, table->rows[rows[best]].feature, words, frame);
        placement_take(placement, &place);
    }
    g_free(words);
    return best < count;
}

size_t position_frames_count(const HoleTable *table)
{
    size_t *rows = g_new(size_t, table->count + 1), frames = 0;
    bool *taken = g_new0(bool, table->count + 1);
    for (size_t i = 0; i < table->count; i++)
        frames += hole_kinds_take(table, i, taken, rows) > 0 && *table->rows[i].frame;
    g_free(taken);
    g_free(rows);
    return frames;
}

size_t position_frames_draw(Drawing *drawing, const DrawingSource *source, ViewMap map,
                            const HoleTable *table, Box area)
{
    Placement *placement = labels_obstacles(drawing, source, map, table, area);
    size_t *rows = g_new(size_t, table->count + 1), drawn = 0;
    bool *taken = g_new0(bool, table->count + 1);
    for (size_t i = 0; i < table->count; i++) {
        size_t count = hole_kinds_take(table, i, taken, rows);
        if (count > 0 && *table->rows[i].frame)
            drawn += draw_kind(drawing, source, map, table, placement, rows, count, true) ||
                     draw_kind(drawing, source, map, table, placement, rows, count, false);
    }
    g_free(taken);
    g_free(rows);
    placement_free(placement);
    return drawn;
}
