/* A plate of 200 holes drawn: laying its sheets out, and playing them to cairo, beside the same
 * strokes given to cairo with nothing else, in the same run. */
#include "sample.h"

#include "drawing/play-cairo.h"

#include <cairo-pdf.h>
#include <glib.h>
#include <stdio.h>
#include <time.h>

#define HOLES 200
#define ROUNDS 9
#define DOTS 4.0 /* a millimetre */

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* A stroke as cairo takes it. */
typedef struct Plain {
    cairo_path_t *path;
    LineKind line;
} Plain;

static void add_side(cairo_t *cairo, Vertex from, Point to)
{
    if (from.sagitta == 0) {
        cairo_line_to(cairo, to.x, to.y);
        return;
    }
    double radius;
    Point centre = arc_centre(from, to, &radius);
    double start = atan2(from.y - centre.y, from.x - centre.x);
    double end = atan2(to.y - centre.y, to.x - centre.x);
    if (from.sagitta > 0)
        cairo_arc(cairo, centre.x, centre.y, radius, start, end);
    else
        cairo_arc_negative(cairo, centre.x, centre.y, radius, start, end);
}

static Plain plain_of(const Drawing *drawing, const Mark *mark, cairo_t *cairo)
{
    const Vertex *v = drawing_mark_vertices(drawing, mark);
    cairo_new_path(cairo);
    if (mark->count == 1) {
        cairo_arc(cairo, v->x, v->y, v->sagitta, 0, 2 * G_PI);
    } else {
        cairo_move_to(cairo, v->x, v->y);
        for (size_t i = 0; i + (mark->closed ? 0 : 1) < mark->count; i++) {
            const Vertex *next = &v[(i + 1) % mark->count];
            add_side(cairo, v[i], (Point){next->x, next->y});
        }
    }
    if (mark->closed)
        cairo_close_path(cairo);
    return (Plain){cairo_copy_path(cairo), mark->line};
}

static GArray *plain_strokes(const Drawing *drawing, const Sheet *sheet, cairo_t *cairo)
{
    GArray *strokes = g_array_new(FALSE, FALSE, sizeof(Plain));
    for (size_t m = sheet->first; m < sheet->first + sheet->count; m++) {
        if (drawing->marks[m].kind != MARK_STROKE)
            continue;
        Plain plain = plain_of(drawing, &drawing->marks[m], cairo);
        g_array_append_val(strokes, plain);
    }
    cairo_new_path(cairo);
    return strokes;
}

static void play_plain(const GArray *strokes, double height, cairo_t *cairo)
{
    cairo_save(cairo);
    cairo_translate(cairo, 0, height);
    cairo_scale(cairo, 1, -1);
    for (guint i = 0; i < strokes->len; i++) {
        const Plain *plain = &g_array_index(strokes, Plain, i);
        size_t count;
        const double *dashes = line_kind_dashes(plain->line, &count);
        cairo_append_path(cairo, plain->path);
        cairo_set_line_width(cairo, line_kind_width(plain->line));
        cairo_set_dash(cairo, dashes, (int)count, 0);
        cairo_stroke(cairo);
    }
    cairo_restore(cairo);
}

static cairo_status_t swallow(void *closure, const unsigned char *data, unsigned length)
{
    *(size_t *)closure += length;
    return CAIRO_STATUS_SUCCESS;
}

static cairo_t *start_page(const Sheet *sheet, bool pdf, size_t *bytes)
{
    double points = 72 / 25.4, unit = pdf ? points : DOTS;
    cairo_surface_t *surface =
        pdf ? cairo_pdf_surface_create_for_stream(swallow, bytes, sheet->width * points,
                                                  sheet->height * points)
            : cairo_image_surface_create(CAIRO_FORMAT_ARGB32, (int)(sheet->width * DOTS),
                                         (int)(sheet->height * DOTS));
    cairo_t *cairo = cairo_create(surface);
    cairo_surface_destroy(surface);
    cairo_scale(cairo, unit, unit);
    return cairo;
}

static void end_page(cairo_t *cairo)
{
    cairo_surface_t *surface = cairo_surface_reference(cairo_get_target(cairo));
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    cairo_surface_destroy(surface);
}

static double least(double *seconds)
{
    double best = seconds[0];
    for (int i = 1; i < ROUNDS; i++)
        best = fmin(best, seconds[i]);
    return best;
}

/* Seconds to play one sheet; `strokes` NULL for ours. */
static double time_play(const Drawing *drawing, size_t number, const GArray *strokes, bool pdf)
{
    double seconds[ROUNDS];
    const Sheet *sheet = &drawing->sheets[number];
    for (int i = 0; i < ROUNDS; i++) {
        size_t bytes = 0;
        double start = seconds_now();
        cairo_t *cairo = start_page(sheet, pdf, &bytes);
        if (strokes)
            play_plain(strokes, sheet->height, cairo);
        else
            play_cairo_sheet(drawing, number, &play_style_print, cairo);
        end_page(cairo);
        seconds[i] = seconds_now() - start;
    }
    return least(seconds);
}

static double time_build(Drawing *drawing, const Sample *sample, const ViewSpec *spec)
{
    double seconds[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        double start = seconds_now();
        if (!drawing_build(drawing, &sample->source, spec, NULL))
            g_error("the plate can't be drawn");
        seconds[i] = seconds_now() - start;
    }
    return least(seconds);
}

/* Times are said only where they are asked for; ratios are what counts. */
static void say(const char *what, double seconds, double plain)
{
    printf("  %s: %.2f times the plain strokes", what, seconds / plain);
    if (g_getenv("BENCH_TIMES"))
        printf(" (%.2f ms)", seconds * 1e3);
    printf("\n");
}

/* The views' sheet, where all the strokes are. Returns the plain strokes' seconds. */
static double compare(const Drawing *drawing, bool pdf)
{
    size_t bytes = 0;
    const Sheet *sheet = &drawing->sheets[0];
    cairo_t *cairo = start_page(sheet, false, &bytes);
    GArray *strokes = plain_strokes(drawing, sheet, cairo);
    end_page(cairo);
    double plain = time_play(drawing, 0, strokes, pdf);
    printf("%s, %u strokes\n", pdf ? "PDF" : "picture", strokes->len);
    say("the sheet with its fills and texts", time_play(drawing, 0, NULL, pdf), plain);
    for (guint i = 0; i < strokes->len; i++)
        cairo_path_destroy(g_array_index(strokes, Plain, i).path);
    g_array_unref(strokes);
    return plain;
}

static void measure(Drawing *drawing, const Sample *sample, const char *name, const ViewSpec *spec)
{
    double build = time_build(drawing, sample, spec);
    printf("%d holes, %s: %zu sheets, %zu labels without a place\n", HOLES, name,
           drawing->sheet_count, drawing->unplaced_count);
    double plain = compare(drawing, false);
    say("laying all sheets out", build, plain);
    compare(drawing, true);
}

int main(void)
{
    Error error = {.kind = ERROR_NONE};
    Lettering *lettering = lettering_new(&error);
    if (!lettering) {
        fprintf(stderr, "%s\n", error.message);
        return 1;
    }
    Drawing *drawing = drawing_new(lettering);
    Sample sample = sample_strewn(99, HOLES, PLATE_MM);
    measure(drawing, &sample, "sheets as small as serve", &(ViewSpec){0});
    measure(drawing, &sample, "2:1 on A1",
            &(ViewSpec){.choose_sheet = true, .sheet = SHEET_A1, .scale = 2});
    sample_end(&sample);
    drawing_free(drawing);
    lettering_unref(lettering);
    return 0;
}
