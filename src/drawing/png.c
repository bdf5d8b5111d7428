#include "drawing/png.h"

#include "plate/save.h"

#include <glib.h>

static cairo_status_t collect(void *closure, const unsigned char *bytes, unsigned size)
{
    g_byte_array_append(closure, bytes, size);
    return CAIRO_STATUS_SUCCESS;
}

static cairo_status_t draw_png(const Drawing *drawing, size_t sheet, double pixels_per_mm,
                               const PlayStyle *style, Colour ground, int width, int height,
                               GByteArray *bytes)
{
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t *cairo = cairo_create(surface);
    if (ground.alpha > 0)
        cairo_set_source_rgb(cairo, ground.red, ground.green, ground.blue);
    else
        cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_scale(cairo, pixels_per_mm, pixels_per_mm);
    play_cairo_sheet(drawing, sheet, style, cairo);
    cairo_status_t status = cairo_status(cairo);
    cairo_destroy(cairo);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_write_to_png_stream(surface, collect, bytes);
    cairo_surface_destroy(surface);
    return status;
}

bool png_write(const Drawing *drawing, size_t sheet, double pixels_per_mm, const PlayStyle *style,
               Colour ground, const char *file, Error *error)
{
    double width = ceil(drawing->sheets[sheet].width * pixels_per_mm);
    double height = ceil(drawing->sheets[sheet].height * pixels_per_mm);
    if (!(width >= 1 && height >= 1 && width <= PNG_PIXELS_MOST && height <= PNG_PIXELS_MOST))
        return error_set(error, ERROR_LIMIT, NULL,
                         "a picture of %.0f x %.0f pixels can't be made; ask for 1 to %d", width,
                         height, PNG_PIXELS_MOST);
    GByteArray *bytes = g_byte_array_new();
    cairo_status_t status =
        draw_png(drawing, sheet, pixels_per_mm, style, ground, (int)width, (int)height, bytes);
    bool written =
        status == CAIRO_STATUS_SUCCESS
            ? save_bytes(file, bytes->data, bytes->len, NULL, error)
            : error_set(error, ERROR_INTERNAL, NULL, "cairo could not make the picture: %s",
                        cairo_status_to_string(status));
    g_byte_array_unref(bytes);
    return written;
}
