#include "drawing/play-cairo.h"

#include <glib.h>

/* Black ink on paper; the metal's area is paper. */
static Colour print_colour(const Mark *mark, void *user)
{
    bool metal = mark->kind == MARK_FILL && mark->role == ROLE_STOCK;
    return (Colour){0, 0, 0, metal ? 0 : 1};
}

const PlayStyle play_style_print = {print_colour, NULL, 1};

/* Sheets have Y up, cairo has it down; angles turn the other way for it. */
static void add_arc(cairo_t *cairo, Vertex from, Point to, double sheet_height)
{
    double radius;
    Point centre = arc_centre(from, to, &radius);
    double start = atan2(from.y - centre.y, from.x - centre.x);
    double end = atan2(to.y - centre.y, to.x - centre.x);
    if (from.sagitta > 0)
        cairo_arc_negative(cairo, centre.x, sheet_height - centre.y, radius, -start, -end);
    else
        cairo_arc(cairo, centre.x, sheet_height - centre.y, radius, -start, -end);
}

static void add_path(const Drawing *drawing, const Mark *mark, double sheet_height, cairo_t *cairo)
{
    const Vertex *v = drawing_mark_vertices(drawing, mark);
    size_t count = mark->count;
    cairo_new_path(cairo);
    if (count == 1 && mark->closed) {
        cairo_arc(cairo, v->x, sheet_height - v->y, v->sagitta, 0, 2 * G_PI);
        cairo_close_path(cairo);
        return;
    }
    cairo_move_to(cairo, v[0].x, sheet_height - v[0].y);
    for (size_t i = 0; i + (mark->closed ? 0 : 1) < count; i++) {
        const Vertex *next = &v[(i + 1) % count];
        if (v[i].sagitta != 0)
            add_arc(cairo, v[i], (Point){next->x, next->y}, sheet_height);
        else
            cairo_line_to(cairo, next->x, sheet_height - next->y);
    }
    if (mark->closed)
        cairo_close_path(cairo);
}

static void play_stroke(const Drawing *drawing, const Mark *mark, double sheet_height,
                        double width_factor, cairo_t *cairo)
{
    size_t count;
    const double *dashes = line_kind_dashes(mark->line, &count);
    cairo_set_dash(cairo, dashes, (int)count, mark->phase);
    cairo_set_line_width(cairo, line_kind_width(mark->line) * width_factor);
    add_path(drawing, mark, sheet_height, cairo);
    cairo_stroke(cairo);
}

static void play_text(const Drawing *drawing, const Mark *mark, double sheet_height, cairo_t *cairo)
{
    cairo_save(cairo);
    cairo_translate(cairo, mark->at.x, sheet_height - mark->at.y);
    if (mark->rotation != 0)
        cairo_rotate(cairo, -mark->rotation * G_PI / 180);
    lettering_show(drawing->lettering, cairo, drawing_mark_text(drawing, mark), mark->height);
    cairo_restore(cairo);
}

void play_cairo_marks(const Drawing *drawing, size_t first, size_t count, double sheet_height,
                      const PlayStyle *style, cairo_t *cairo)
{
    cairo_save(cairo);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_MITER);
    for (int kind = MARK_FILL; kind <= MARK_TEXT; kind++) {
        for (size_t i = first; i < first + count; i++) {
            const Mark *mark = &drawing->marks[i];
            if ((int)mark->kind != kind)
                continue;
            Colour colour = style->colour(mark, style->user);
            if (colour.alpha <= 0)
                continue;
            cairo_set_source_rgba(cairo, colour.red, colour.green, colour.blue, colour.alpha);
            if (kind == MARK_FILL) {
                add_path(drawing, mark, sheet_height, cairo);
                cairo_fill(cairo);
            } else if (kind == MARK_STROKE) {
                play_stroke(drawing, mark, sheet_height, style->width_factor, cairo);
            } else {
                play_text(drawing, mark, sheet_height, cairo);
            }
        }
    }
    cairo_restore(cairo);
}

void play_cairo_sheet(const Drawing *drawing, size_t sheet, const PlayStyle *style, cairo_t *cairo)
{
    const Sheet *of = &drawing->sheets[sheet];
    play_cairo_marks(drawing, of->first, of->count, of->height, style, cairo);
}
