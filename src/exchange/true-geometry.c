#include "exchange/true-geometry.h"

#include "drawing/shape-path.h"
#include "geometry/section.h"
#include "shopplan/shopplan.h"

#include <math.h>
#include <string.h>

/* Arcs that turn by more (radians) are written in two. */
#define TURN_MOST (2 * G_PI / 3)

/* The kinds of groups behind those of StepKind. */
enum { KIND_SLOT = STEP_BORE + 1, KIND_NEST };

/* One shape with what decides its group. */
typedef struct Cut {
    bool made;
    int kind;     /* StepKind, KIND_SLOT or KIND_NEST */
    Length depth; /* -1: through */
    FeatureId feature;
    uint32_t step;
    Shape shape;
    const char *label; /* or NULL */
} Cut;

static const char *kind_name(int kind)
{
    return kind == KIND_SLOT ? "slot" : kind == KIND_NEST ? "nest" : step_kind_name(kind);
}

static int compare(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

static int by_group(const void *a, const void *b)
{
    const Cut *first = a, *second = b;
    int order = compare(first->made, second->made);
    if (!order)
        order = compare(first->kind, second->kind);
    return order ? order : compare(first->depth, second->depth);
}

static int by_place(const void *a, const void *b)
{
    const Cut *first = a, *second = b;
    int order = by_group(a, b);
    if (!order)
        order = compare(first->feature, second->feature);
    return order ? order : compare(first->step, second->step);
}

/* --- what there is -------------------------------------------------------------------------- */

static void add_hole(GArray *cuts, const Record *record, const Feature *feature)
{
    for (uint32_t i = 0; i < record->hole.steps.count; i++) {
        const Step *step = LIST_AT(&record->hole.steps, Step, i);
        Cut cut = {.made = record->hole.made,
                   .kind = step->kind,
                   .depth = step->through ? -1 : step->depth,
                   .feature = record->id,
                   .step = i + 1,
                   .shape = shape_circle(feature_at(feature), length_to_mm(step->diameter)),
                   .label = record_label(record)};
        g_array_append_val(cuts, cut);
    }
}

static void add_recess(GArray *cuts, const Record *record, const Feature *feature)
{
    bool nest = record->recess.kind == RECESS_NEST || record->recess.kind == RECESS_BLANK_NEST;
    Cut cut = {.made = record->recess.made,
               .kind = nest ? KIND_NEST : KIND_SLOT,
               .depth = record->recess.through ? -1 : record->recess.depth,
               .feature = record->id,
               .shape = feature->shape,
               .label = record_label(record)};
    g_array_append_val(cuts, cut);
}

static GArray *all_cuts(const Plate *plate, const Placed *placed, FeatureId face)
{
    GArray *cuts = g_array_new(FALSE, FALSE, sizeof(Cut));
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        const Feature *feature = placed_find(placed, record->id);
        if (!feature || feature->face != face)
            continue;
        if (record->kind == RECORD_HOLE)
            add_hole(cuts, record, feature);
        else if (record->kind == RECORD_RECESS)
            add_recess(cuts, record, feature);
    }
    g_array_sort(cuts, by_place);
    return cuts;
}

/* --- writing -------------------------------------------------------------------------------- */

static void add_number(GString *text, double mm)
{
    char number[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_formatd(number, sizeof number, "%.7f", mm);
    size_t length = strlen(number);
    while (number[length - 1] == '0')
        number[--length] = 0;
    if (number[length - 1] == '.')
        number[--length] = 0;
    g_string_append(text, strcmp(number, "-0") == 0 ? "0" : number);
}

static void add_point(GString *text, Point p)
{
    add_number(text, p.x);
    g_string_append_c(text, ',');
    add_number(text, p.y);
}

/* An arc that goes counter-clockwise with Y up does so on the screen, where SVG calls it negative.
 * None is more than half a turn. */
static void add_arc(GString *text, Point from, Point to, double sagitta)
{
    double half = point_distance(from, to) / 2;
    g_string_append(text, " A");
    double radius = (half * half + sagitta * sagitta) / (2 * fabs(sagitta));
    add_point(text, (Point){radius, radius});
    g_string_append(text, sagitta > 0 ? " 0 0 0 " : " 0 0 1 ");
    add_point(text, to);
}

/* The point of an arc that lies half way round. */
static Point arc_middle(Point from, Point to, double sagitta)
{
    Point way = point_minus(to, from), middle = point_times(point_plus(from, to), 0.5);
    double length = point_length(way);
    /* Y goes down here, so that what bulges to the right with Y up lies the other way round. */
    return (Point){middle.x - way.y / length * sagitta, middle.y + way.x / length * sagitta};
}

static void add_side(GString *text, Point from, Point to, double sagitta)
{
    double half = point_distance(from, to) / 2;
    if (sagitta == 0) {
        g_string_append(text, " L");
        add_point(text, to);
        return;
    }
    double turn = 4 * atan2(fabs(sagitta), half);
    if (turn <= TURN_MOST) {
        add_arc(text, from, to, sagitta);
        return;
    }
    /* Each half has a quarter of the angle between its chord and its end. */
    double part = hypot(half, sagitta) / 2 * tan(turn / 8);
    Point middle = arc_middle(from, to, sagitta);
    add_side(text, from, middle, sagitta > 0 ? part : -part);
    add_side(text, middle, to, sagitta > 0 ? part : -part);
}

static Point down(Box box, Vertex vertex)
{
    return (Point){vertex.x - box.x0, box.y1 - vertex.y};
}

static void add_ring(GString *text, Box box, const Vertex *vertices, size_t count)
{
    g_string_append(text, text->str[text->len - 1] == '"' ? "M" : " M");
    add_point(text, down(box, vertices[0]));
    for (size_t i = 0; i < count; i++)
        add_side(text, down(box, vertices[i]), down(box, vertices[(i + 1) % count]),
                 vertices[i].sagitta);
    g_string_append(text, " Z");
}

/* What every element says of itself: a number that is its own in the file, and its label. */
static void add_identity(GString *text, const Cut *cut)
{
    g_string_append_printf(text, " id=\"f%u", cut->feature);
    if (cut->step)
        g_string_append_printf(text, "-%u", cut->step);
    g_string_append_c(text, '"');
}

static void end_element(GString *text, const Cut *cut, const char *name)
{
    if (!cut->label) {
        g_string_append(text, "/>\n");
        return;
    }
    char *label = g_markup_escape_text(cut->label, -1);
    g_string_append_printf(text, "><title>%s</title></%s>\n", label, name);
    g_free(label);
}

static void add_circle(GString *text, Box box, const Cut *cut)
{
    g_string_append(text, "    <circle");
    add_identity(text, cut);
    g_string_append(text, " cx=\"");
    add_number(text, cut->shape.pose.x - box.x0);
    g_string_append(text, "\" cy=\"");
    add_number(text, box.y1 - cut->shape.pose.y);
    g_string_append(text, "\" r=\"");
    add_number(text, cut->shape.growth);
    g_string_append_c(text, '"');
    end_element(text, cut, "circle");
}

/* mm: how near to its clearance a nest's corners must lie. */
#define CLEARANCE_WITHIN 1e-5

/* True when every corner lies as far from the part as the clearance says. */
static bool keeps_clearance(const Shape *shape, const Vertex *vertices, size_t count)
{
    Pose back = pose_inverse(shape->pose);
    for (size_t i = 0; i < count; i++) {
        Point own = pose_point(back, (Point){vertices[i].x, vertices[i].y});
        if (fabs(outline_distance(shape->outline, own, NULL) - shape->growth) > CLEARANCE_WITHIN)
            return false;
    }
    return true;
}

/* The border as the drawing has it: each side moved out by itself. Right only where no growth
 * closes anything, so it is looked over before it is taken. NULL where it is not right. */
static Outline *moved_sides(const Shape *shape)
{
    Drawing *drawing = g_new0(Drawing, 1); /* with no lettering, since nothing is lettered */
    drawing_begin_sheet(drawing, 1, 1, "");
    shape_path_draw(drawing, LINE_VISIBLE, shape, (ViewMap){{0, 0}, 1});
    size_t *starts = g_new0(size_t, drawing->mark_count + 1);
    for (size_t i = 0; i < drawing->mark_count; i++)
        starts[i + 1] = drawing->marks[i].first + drawing->marks[i].count;
    Outline *outline = NULL;
    if (keeps_clearance(shape, drawing->vertices, drawing->vertex_count))
        outline = outline_new(drawing->vertices, starts, drawing->mark_count, NULL);
    g_free(starts);
    drawing_free(drawing);
    return outline;
}

/* The border put together from its stretches; where that fails, from sides moved out. */
static Outline *border_of(const Shape *shape, Error *error)
{
    Error trouble = {.kind = ERROR_NONE};
    Outline *outline = shape_to_outline(shape, &trouble);
    if (!outline && shape->core == CORE_OUTLINE)
        outline = moved_sides(shape);
    if (!outline && error)
        *error = trouble;
    return outline;
}

/* All rings of a shape are one path, so that openings stay openings. */
static bool add_path(GString *text, Box box, const Cut *cut, Error *error)
{
    Outline *outline = border_of(&cut->shape, error);
    if (!outline)
        return false;
    g_string_append(text, "    <path");
    add_identity(text, cut);
    g_string_append(text, " fill-rule=\"evenodd\" d=\"");
    for (size_t r = 0; r < outline_ring_count(outline); r++) {
        size_t count;
        const Vertex *ring = outline_ring(outline, r, &count);
        add_ring(text, box, ring, count);
    }
    g_string_append_c(text, '"');
    end_element(text, cut, "path");
    outline_unref(outline);
    return true;
}

static void begin_group(GString *text, const Cut *cut)
{
    char depth[LENGTH_TEXT];
    const char *made = cut->made ? "made-" : "", *kind = kind_name(cut->kind);
    millionths_write(cut->depth, depth);
    if (cut->depth < 0)
        g_string_append_printf(text, "  <g id=\"%s%s-through\"><title>%s%s through</title>\n", made,
                               kind, cut->made ? "made: " : "", kind);
    else
        g_string_append_printf(text, "  <g id=\"%s%s-depth-%s\"><title>%s%s, depth %s mm</title>\n",
                               made, kind, depth, cut->made ? "made: " : "", kind, depth);
}

static bool is_circle(const Shape *shape)
{
    return shape->core == CORE_POINT || (shape->core == CORE_SEGMENT && shape->half_length == 0);
}

/* On failure `failed` is the cut it failed at. */
static bool add_cuts(GString *text, Box box, const GArray *cuts, const Cut **failed, Error *error)
{
    const Cut *before = NULL;
    for (guint i = 0; i < cuts->len; i++) {
        const Cut *cut = &g_array_index(cuts, Cut, i);
        *failed = cut;
        if (!before || by_group(before, cut) != 0) {
            if (before)
                g_string_append(text, "  </g>\n");
            begin_group(text, cut);
        }
        if (is_circle(&cut->shape))
            add_circle(text, box, cut);
        else if (!add_path(text, box, cut, error))
            return false;
        before = cut;
    }
    if (before)
        g_string_append(text, "  </g>\n");
    return true;
}

static void add_head(GString *text, Box box, const Record *face)
{
    GString *width = g_string_new(NULL), *height = g_string_new(NULL);
    const char *name = face && face->face.name ? face->face.name : "top";
    char *escaped = g_markup_escape_text(name, -1);
    add_number(width, box.x1 - box.x0);
    add_number(height, box.y1 - box.y0);
    g_string_append_printf(
        text,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" "
        "viewBox=\"0 0 %s %s\" fill=\"none\" stroke=\"black\" stroke-width=\"0.1\">\n"
        "  <title>%s</title>\n"
        "  <g id=\"face\"><title>border of the face</title>\n"
        "    <rect x=\"0\" y=\"0\" width=\"%s\" height=\"%s\"/>\n"
        "  </g>\n",
        width->str, height->str, width->str, height->str, escaped, width->str, height->str);
    g_free(escaped);
    g_string_free(width, TRUE);
    g_string_free(height, TRUE);
}

char *true_geometry_text(const Plate *plate, const Placed *placed, FeatureId face, Error *error)
{
    const Frame *frame = placed_frame(placed, face);
    if (!frame) {
        error_set(error, ERROR_MISSING, NULL, "the plate has no such face");
        return NULL;
    }
    Box box = shape_box(&frame->extent);
    GString *text = g_string_new(NULL);
    GArray *cuts = all_cuts(plate, placed, face);
    add_head(text, box, plate_find(plate, face));
    const Cut *failed = NULL;
    bool good = add_cuts(text, box, cuts, &failed, error);
    if (!good && error) {
        char name[NAME_TEXT];
        error_within(error, shopplan_name(plate_find(plate, failed->feature), name));
    }
    g_string_append(text, "</svg>\n");
    g_array_unref(cuts);
    return g_string_free(text, !good);
}
