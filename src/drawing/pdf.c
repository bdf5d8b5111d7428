#include "drawing/pdf.h"

#include "drawing/play-cairo.h"
#include "plate/save.h"

#include <cairo-pdf.h>

#define POINTS_PER_MM (72 / 25.4)
/* How far cairo's curves may be off a true arc, in points. */
#define TOLERANCE 0.001

static cairo_status_t collect(void *closure, const unsigned char *bytes, unsigned size)
{
    g_byte_array_append(closure, bytes, size);
    return CAIRO_STATUS_SUCCESS;
}

static void describe(cairo_surface_t *surface, const Drawing *drawing)
{
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, drawing->title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, drawing->subject);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, drawing->author);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Pinplate");
    /* The moment of writing would make each file another one. */
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "");
}

GByteArray *pdf_bytes(const Drawing *drawing, Error *error)
{
    GByteArray *bytes = g_byte_array_new();
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(collect, bytes, 1, 1);
    describe(surface, drawing);
    for (size_t i = 0; i < drawing->sheet_count; i++) {
        const Sheet *sheet = &drawing->sheets[i];
        cairo_pdf_surface_set_size(surface, sheet->width * POINTS_PER_MM,
                                   sheet->height * POINTS_PER_MM);
        /* cairo takes the numbers from this text by the C locale. */
        char *place = g_strdup_printf("page=%zu", i + 1);
        cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, sheet->name, place, 0);
        g_free(place);
        cairo_t *cairo = cairo_create(surface);
        cairo_set_tolerance(cairo, TOLERANCE);
        cairo_scale(cairo, POINTS_PER_MM, POINTS_PER_MM);
        play_cairo_sheet(drawing, i, &play_style_print, cairo);
        cairo_show_page(cairo);
        cairo_destroy(cairo);
    }
    cairo_surface_finish(surface);
    cairo_status_t status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    if (status != CAIRO_STATUS_SUCCESS) {
        g_byte_array_unref(bytes);
        error_set(error, ERROR_INTERNAL, NULL, "cairo could not make the PDF: %s",
                  cairo_status_to_string(status));
        return NULL;
    }
    return bytes;
}

bool pdf_write(const Drawing *drawing, const char *file, Error *error)
{
    GByteArray *bytes = pdf_bytes(drawing, error);
    if (!bytes)
        return false;
    bool written = save_bytes(file, bytes->data, bytes->len, NULL, error);
    g_byte_array_unref(bytes);
    return written;
}
