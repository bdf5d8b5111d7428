/* Writes the sample's prints into the folder that is named: A.pdf, A.svg and A.png. */
#include "sample.h"

#include "drawing/pdf.h"
#include "drawing/png.h"
#include "drawing/svg.h"

#include <glib.h>
#include <locale.h>

static bool write_prints(Drawing *drawing, const char *folder, Error *error)
{
    char *pdf = g_build_filename(folder, "A.pdf", NULL);
    char *svg = g_build_filename(folder, "A.svg", NULL);
    char *png = g_build_filename(folder, "A.png", NULL);
    bool written = pdf_write(drawing, pdf, error) && svg_write(drawing, svg, error) &&
                   png_write(drawing, 0, 4, &play_style_print, (Colour){0, 0, 0, 0}, png, error);
    g_free(pdf);
    g_free(svg);
    g_free(png);
    return written;
}

int main(int count, char **arguments)
{
    setlocale(LC_ALL, "");
    Error error = {.kind = ERROR_NONE};
    Lettering *lettering = count > 1 ? lettering_new(&error) : NULL;
    if (!lettering)
        return 2;
    Drawing *drawing = drawing_new(lettering);
    Sample sample = sample_blades(PLATE_MM);
    ViewSpec spec = {.prints = PRINT_USUAL | PRINT_OPERATIONS | PRINT_TOOLS | PRINT_TEMPLATE |
                               PRINT_FINDINGS};
    bool done = drawing_build(drawing, &sample.source, &spec, &error) &&
                write_prints(drawing, arguments[1], &error);
    /* Says whether the surroundings were as they were meant. */
    g_print("%.1f\n", 0.5);
    sample_end(&sample);
    drawing_free(drawing);
    lettering_unref(lettering);
    return done ? 0 : 1;
}
