/* Reads SVG drawings twice: with outline-svg.h, and by librsvg's rendering, black on nothing and
 * large, whose covered area, extents and centre of area are counted. For each drawing that is one
 * outline with openings, and nothing left out, the two areas agree within what the reader's
 * tolerance (1 um along the whole border) and librsvg's flattening (0.02 pixels) can come to, and
 * the widths, heights and centres within two pixels.
 *
 *     check-drawings LEAST FILE…     exit 0 when at least LEAST could be compared and all agree
 */
#include "exchange/outline-svg.h"

#include <librsvg/rsvg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Along the longer side of a rendering. */
#define PIXELS 2000.0

/* librsvg's libxml2 forgets the text of entities; that is no leak of ours. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:xmlParseEntityValue\n";
}

typedef struct Measure {
    double area, width, height; /* mm2, mm */
    double pixel;               /* mm */
    Point centre;               /* of the area, from the lower left corner; mm */
} Measure;

typedef struct Tally {
    int compared, disagree, refused, left_out;
    double worst_area, worst_size, worst_centre;
} Tally;

/* Sums the alpha and finds the extents of all that is covered at all: points may be fine. */
static Measure count_pixels(cairo_surface_t *surface, double mm)
{
    int width = cairo_image_surface_get_width(surface);
    int height = cairo_image_surface_get_height(surface);
    int stride = cairo_image_surface_get_stride(surface);
    const unsigned char *bytes = cairo_image_surface_get_data(surface);
    int x0 = width, y0 = height, x1 = -1, y1 = -1;
    double sum = 0, sum_x = 0, sum_y = 0;
    for (int y = 0; y < height; y++)
        for (int x = 0; x < width; x++) {
            uint32_t pixel;
            memcpy(&pixel, bytes + (size_t)y * (size_t)stride + 4 * (size_t)x, sizeof pixel);
            unsigned alpha = pixel >> 24;
            sum += alpha / 255.0;
            sum_x += alpha / 255.0 * (x + 0.5);
            sum_y += alpha / 255.0 * (y + 0.5);
            if (alpha == 0)
                continue;
            x0 = MIN(x0, x), x1 = MAX(x1, x), y0 = MIN(y0, y), y1 = MAX(y1, y);
        }
    return (Measure){sum * mm * mm,
                     (x1 - x0 + 1) * mm,
                     (y1 - y0 + 1) * mm,
                     mm,
                     {(sum_x / sum - x0) * mm, (y1 + 1 - sum_y / sum) * mm}};
}

static bool render(const char *file, Measure *measure)
{
    RsvgHandle *handle = rsvg_handle_new_from_file(file, NULL);
    if (handle)
        rsvg_handle_set_dpi(handle, 96); /* it counts 90 to an inch unless told */
    double width, height;
    if (!handle || !rsvg_handle_get_intrinsic_size_in_pixels(handle, &width, &height)) {
        RsvgRectangle box;
        gboolean has_box = FALSE;
        if (handle)
            rsvg_handle_get_intrinsic_dimensions(handle, NULL, NULL, NULL, NULL, &has_box, &box);
        if (!has_box)
            return false;
        width = box.width;
        height = box.height;
    }
    double scale = PIXELS / fmax(width, height);
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_ARGB32, (int)ceil(width * scale), (int)ceil(height * scale));
    cairo_t *cairo = cairo_create(surface);
    cairo_set_tolerance(cairo, 0.005);
    RsvgRectangle viewport = {0, 0, width * scale, height * scale};
    bool fine = rsvg_handle_render_document(handle, cairo, &viewport, NULL);
    cairo_surface_flush(surface);
    if (fine)
        *measure = count_pixels(surface, 25.4 / 96 / scale);
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    g_object_unref(handle);
    return fine;
}

/* What was read, with the length of the border, by the part's own outline. */
static Measure measure_read(const OutlineRead *read, double *border)
{
    Part part = {0};
    outline_read_part(read, &part);
    Outline *outline = part_outline(&part, NULL);
    Measure measure = {
        .area = NAN, .width = length_to_mm(read->width), .height = length_to_mm(read->height)};
    Point moment = {NAN, NAN};
    if (outline) {
        measure.area = outline_area(outline);
        moment = point_times(outline_centroid(outline), measure.area);
        *border = outline_length(outline);
    }
    for (uint32_t i = 0; i < part.holes.count; i++) {
        const PartHole *hole = LIST_AT(&part.holes, PartHole, i);
        double d = length_to_mm(hole->diameter), area = G_PI / 4 * d * d;
        Point at = {length_to_mm(hole->at.x), length_to_mm(hole->at.y)};
        measure.area -= area;
        moment = point_minus(moment, point_times(at, area));
        *border += G_PI * d;
    }
    measure.centre = point_times(moment, 1 / measure.area);
    outline_unref(outline);
    schema_clear(&part_schema, &part);
    return measure;
}

/* Nothing left out; that the drawing names no size is no matter here. */
static bool is_whole(const OutlineRead *read)
{
    for (guint i = 0; i < read->notes->len; i++)
        if (!g_str_has_prefix(g_ptr_array_index(read->notes, i), "the drawing gives no size"))
            return false;
    return true;
}

static void check(const char *file, Tally *tally)
{
    OutlineRead read;
    Error error = {0};
    Measure drawn;
    double border = 0;
    if (!outline_svg_load(file, NULL, &read, &error)) {
        tally->refused++;
        return;
    }
    if (!is_whole(&read) || !render(file, &drawn)) {
        tally->left_out++;
        outline_read_clear(&read);
        return;
    }
    Measure own = measure_read(&read, &border);
    outline_read_clear(&read);
    double area = fabs(own.area - drawn.area), relative = area / drawn.area;
    double size = fmax(fabs(own.width - drawn.width), fabs(own.height - drawn.height));
    double centre = point_distance(own.centre, drawn.centre);
    tally->compared++;
    tally->worst_area = fmax(tally->worst_area, relative);
    tally->worst_size = fmax(tally->worst_size, size);
    tally->worst_centre = fmax(tally->worst_centre, centre);
    if (area <= border * (CURVE_TOLERANCE + 0.02 * drawn.pixel) && size <= 2 * drawn.pixel &&
        centre <= 2 * drawn.pixel)
        return;
    tally->disagree++;
    printf("# %s: %.6f against %.6f mm2 (%.4f %%), %.4f x %.4f against %.4f x %.4f mm, centre "
           "%.4f %.4f against %.4f %.4f\n",
           file, own.area, drawn.area, 100 * relative, own.width, own.height, drawn.width,
           drawn.height, own.centre.x, own.centre.y, drawn.centre.x, drawn.centre.y);
}

int main(int count, char **arguments)
{
    Tally tally = {0};
    if (count < 3)
        return 2;
    for (int i = 2; i < count; i++)
        check(arguments[i], &tally);
    printf("# %d drawings: %d compared, %d with something left out, %d refused\n", count - 2,
           tally.compared, tally.left_out, tally.refused);
    printf("# worst area %.5f %%, worst size %.2f um, worst centre %.2f um\n",
           100 * tally.worst_area, 1000 * tally.worst_size, 1000 * tally.worst_centre);
    bool fine = tally.disagree == 0 && tally.compared >= atoi(arguments[1]);
    printf("1..1\n%s 1 - %d drawings agree with librsvg in area, size and centre\n",
           fine ? "ok" : "not ok", tally.compared - tally.disagree);
    return fine ? 0 : 1;
}
