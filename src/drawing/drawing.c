#include "drawing/drawing.h"

#include <glib.h>
#include <string.h>

Drawing *drawing_new(Lettering *lettering)
{
    Drawing *drawing = g_new0(Drawing, 1);
    drawing->lettering = lettering_ref(lettering);
    return drawing;
}

void drawing_free(Drawing *drawing)
{
    if (!drawing)
        return;
    lettering_unref(drawing->lettering);
    g_free(drawing->sheets);
    g_free(drawing->marks);
    g_free(drawing->vertices);
    g_free(drawing->text);
    g_free(drawing);
}

void drawing_clear(Drawing *drawing)
{
    drawing->sheet_count = drawing->mark_count = drawing->vertex_count = drawing->text_count = 0;
    drawing->unknown_count = drawing->unplaced_count = 0;
    drawing->first_unknown = 0;
    drawing_about(drawing, ROLE_FURNITURE, 0);
}

/* Makes room for `more` items behind `count`. */
static void *with_room(void *items, size_t size, size_t count, size_t more, size_t *room)
{
    if (count + more <= *room)
        return items;
    *room = MAX(count + more, *room * 2);
    return g_realloc_n(items, *room, size);
}

void drawing_begin_sheet(Drawing *drawing, double width, double height, const char *name)
{
    drawing->sheets =
        with_room(drawing->sheets, sizeof(Sheet), drawing->sheet_count, 1, &drawing->sheet_room);
    Sheet *sheet = &drawing->sheets[drawing->sheet_count++];
    *sheet = (Sheet){width, height, drawing->mark_count, 0, ""};
    g_strlcpy(sheet->name, name, sizeof sheet->name);
    const char *end; /* a name that is cut off ends with a whole character */
    if (!g_utf8_validate(sheet->name, -1, &end))
        sheet->name[end - sheet->name] = '\0';
}

void drawing_about(Drawing *drawing, MarkRole role, uint32_t feature)
{
    drawing->role = role;
    drawing->feature = feature;
}

static Mark *add_mark(Drawing *drawing, MarkKind kind)
{
    g_return_val_if_fail(drawing->sheet_count > 0, NULL);
    drawing->marks =
        with_room(drawing->marks, sizeof(Mark), drawing->mark_count, 1, &drawing->mark_room);
    Mark *mark = &drawing->marks[drawing->mark_count++];
    *mark =
        (Mark){.kind = kind, .role = drawing->role, .feature = drawing->feature, .box = BOX_EMPTY};
    drawing->sheets[drawing->sheet_count - 1].count++;
    return mark;
}

Point arc_centre(Vertex from, Point to, double *radius)
{
    double dx = to.x - from.x, dy = to.y - from.y;
    double chord = sqrt(dx * dx + dy * dy);
    double s = from.sagitta;
    /* From the middle of the chord, the centre lies to the left of the way by what the radius is
     * more than the sagitta. */
    double half = chord / 2;
    *radius = (half * half + s * s) / (2 * fabs(s));
    double offset = (half * half - s * s) / (2 * s);
    return (Point){(from.x + to.x) / 2 - dy / chord * offset,
                   (from.y + to.y) / 2 + dx / chord * offset};
}

/* The box of the arc from `from` to `to`: its ends, and those of its circle's four outermost points
 * that lie on it. */
static Box arc_box(Vertex from, Point to, Box box)
{
    static const Point outermost[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    double radius;
    Point centre = arc_centre(from, to, &radius);
    Point start = {from.x, from.y};
    Point chord = point_minus(to, start);
    for (size_t i = 0; i < G_N_ELEMENTS(outermost); i++) {
        Point p = point_plus(centre, point_times(outermost[i], radius));
        /* The arc is the part of its circle to the right of the chord when it goes round
         * counter-clockwise, to the left otherwise. */
        if (point_cross(chord, point_minus(p, start)) * from.sagitta <= 0)
            box = box_with_point(box, p);
    }
    return box;
}

static Box path_box(const Vertex *vertices, size_t count, bool closed)
{
    if (count == 1 && closed)
        return box_grown((Box){vertices->x, vertices->y, vertices->x, vertices->y},
                         vertices->sagitta);
    Box box = BOX_EMPTY;
    for (size_t i = 0; i < count; i++) {
        box = box_with_point(box, (Point){vertices[i].x, vertices[i].y});
        const Vertex *next = i + 1 < count ? &vertices[i + 1] : closed ? &vertices[0] : NULL;
        if (next && vertices[i].sagitta != 0)
            box = arc_box(vertices[i], (Point){next->x, next->y}, box);
    }
    return box;
}

void drawing_path_begin(Drawing *drawing, LineKind line)
{
    drawing->path_start = drawing->vertex_count;
    drawing->path_line = line;
}

void drawing_path_add(Drawing *drawing, Vertex vertex)
{
    drawing->vertices = with_room(drawing->vertices, sizeof(Vertex), drawing->vertex_count, 1,
                                  &drawing->vertex_room);
    drawing->vertices[drawing->vertex_count++] = vertex;
}

/* Makes the vertices since drawing_path_begin a mark. */
static void end_path(Drawing *drawing, MarkKind kind, bool closed)
{
    size_t count = drawing->vertex_count - drawing->path_start;
    const Vertex *vertices = drawing->vertices + drawing->path_start;
    Mark *mark = count > 0 ? add_mark(drawing, kind) : NULL;
    if (!mark)
        return;
    mark->line = drawing->path_line;
    mark->closed = closed;
    mark->first = (uint32_t)drawing->path_start;
    mark->count = (uint32_t)count;
    mark->box = path_box(vertices, count, closed);
    if (kind == MARK_STROKE && count == 2 && !closed && vertices[0].sagitta == 0)
        mark->phase = line_kind_phase(
            mark->line, hypot(vertices[1].x - vertices[0].x, vertices[1].y - vertices[0].y));
}

void drawing_path_end(Drawing *drawing, bool closed)
{
    if (drawing->vertex_count - drawing->path_start < 2)
        drawing->vertex_count = drawing->path_start;
    end_path(drawing, MARK_STROKE, closed);
}

static void add_path(Drawing *drawing, MarkKind kind, LineKind line, const Vertex *vertices,
                     size_t count, bool closed)
{
    drawing_path_begin(drawing, line);
    drawing->vertices = with_room(drawing->vertices, sizeof(Vertex), drawing->vertex_count, count,
                                  &drawing->vertex_room);
    memcpy(drawing->vertices + drawing->vertex_count, vertices, count * sizeof *vertices);
    drawing->vertex_count += count;
    end_path(drawing, kind, closed);
}

void drawing_line(Drawing *drawing, LineKind line, Point from, Point to)
{
    Vertex ends[] = {{from.x, from.y, 0}, {to.x, to.y, 0}};
    add_path(drawing, MARK_STROKE, line, ends, 2, false);
}

void drawing_circle(Drawing *drawing, LineKind line, Point centre, double radius)
{
    Vertex circle = {centre.x, centre.y, radius};
    add_path(drawing, MARK_STROKE, line, &circle, 1, true);
}

void drawing_arc(Drawing *drawing, LineKind line, Point from, Point to, double sagitta)
{
    Vertex ends[] = {{from.x, from.y, sagitta}, {to.x, to.y, 0}};
    add_path(drawing, MARK_STROKE, line, ends, 2, false);
}

void drawing_box(Drawing *drawing, LineKind line, Box box)
{
    Vertex corners[] = {
        {box.x0, box.y0, 0}, {box.x1, box.y0, 0}, {box.x1, box.y1, 0}, {box.x0, box.y1, 0}};
    add_path(drawing, MARK_STROKE, line, corners, 4, true);
}

void drawing_path(Drawing *drawing, LineKind line, const Vertex *vertices, size_t count,
                  bool closed)
{
    add_path(drawing, MARK_STROKE, line, vertices, count, closed);
}

void drawing_fill(Drawing *drawing, const Vertex *vertices, size_t count)
{
    add_path(drawing, MARK_FILL, LINE_VISIBLE, vertices, count, true);
}

void drawing_dot(Drawing *drawing, Point centre, double radius)
{
    Vertex circle = {centre.x, centre.y, radius};
    add_path(drawing, MARK_FILL, LINE_VISIBLE, &circle, 1, true);
}

/* A turn in degrees, exact at quarter turns. */
static void turn(double degrees, double *cosine, double *sine)
{
    double quarter = degrees / 90;
    if (quarter == floor(quarter)) {
        static const double cosines[] = {1, 0, -1, 0}, sines[] = {0, 1, 0, -1};
        int i = (int)fmod(quarter, 4);
        i = i < 0 ? i + 4 : i;
        *cosine = cosines[i];
        *sine = sines[i];
        return;
    }
    *cosine = cos(degrees * G_PI / 180);
    *sine = sin(degrees * G_PI / 180);
}

/* Where the baseline begins, and the box of the whole line. */
static Box place_text(Point at, TextStyle style, TextExtent extent, Point *baseline)
{
    double along = style.along == TEXT_START    ? 0
                   : style.along == TEXT_MIDDLE ? -extent.width / 2
                                                : -extent.width;
    double across = style.across == TEXT_BASE     ? 0
                    : style.across == TEXT_CENTRE ? -style.height / 2
                                                  : -style.height;
    double c, s;
    turn(style.rotation, &c, &s);
    *baseline = (Point){at.x + c * along - s * across, at.y + s * along + c * across};
    Box box = BOX_EMPTY;
    double xs[] = {0, extent.width}, ys[] = {-extent.below, extent.above};
    for (int i = 0; i < 4; i++) {
        double x = xs[i & 1], y = ys[i >> 1];
        box =
            box_with_point(box, (Point){baseline->x + c * x - s * y, baseline->y + s * x + c * y});
    }
    return box;
}

Box drawing_text_box(const Drawing *drawing, Point at, TextStyle style, const char *text)
{
    Point baseline;
    return place_text(at, style, lettering_extent(drawing->lettering, text, style.height),
                      &baseline);
}

Box drawing_text(Drawing *drawing, Point at, TextStyle style, const char *text)
{
    size_t length = strlen(text);
    if (length == 0)
        return BOX_EMPTY;
    Mark *mark = add_mark(drawing, MARK_TEXT);
    if (!mark)
        return BOX_EMPTY;
    drawing->text =
        with_room(drawing->text, 1, drawing->text_count, length + 1, &drawing->text_room);
    memcpy(drawing->text + drawing->text_count, text, length + 1);
    mark->first = (uint32_t)drawing->text_count;
    mark->count = (uint32_t)length;
    drawing->text_count += length + 1;

    TextExtent extent = lettering_extent(drawing->lettering, text, style.height);
    mark->rotation = style.rotation;
    mark->height = style.height;
    mark->width = extent.width;
    mark->box = place_text(at, style, extent, &mark->at);
    if (drawing->unknown_count == 0)
        drawing->first_unknown = extent.first_unknown;
    drawing->unknown_count += extent.unknown_count;
    return mark->box;
}

const char *drawing_mark_text(const Drawing *drawing, const Mark *mark)
{
    return drawing->text + mark->first;
}

const Vertex *drawing_mark_vertices(const Drawing *drawing, const Mark *mark)
{
    return drawing->vertices + mark->first;
}

const char *mark_role_name(MarkRole role)
{
    static const char *const names[ROLE_COUNT] = {
        [ROLE_FURNITURE] = "furniture",   [ROLE_STOCK] = "stock",     [ROLE_HOLE] = "hole",
        [ROLE_RECESS] = "recess",         [ROLE_FITTING] = "fitting", [ROLE_PART] = "part",
        [ROLE_KEEP_CLEAR] = "keep-clear", [ROLE_DATUM] = "datum",     [ROLE_CENTRE_MARK] = "centre",
        [ROLE_DIMENSION] = "dimension",   [ROLE_LABEL] = "label",     [ROLE_NOTE] = "note",
        [ROLE_TABLE] = "table",
    };
    return names[role];
}
