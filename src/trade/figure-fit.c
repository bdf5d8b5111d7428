/* The figure of a fit. */
#include "trade/figure-build.h"
#include "trade/fit.h"
#include "trade/typed.h"

#include <glib.h>
#include <string.h>

/* "0.2500in:0.2505in", either end first. */
static bool read_limits(const FigureRequest *request, const char *name, SizeLimits *limits,
                        Error *error)
{
    const char *text = request_text(request, name);
    const char *colon = text ? strchr(text, ':') : NULL;
    char first[64];
    if (!colon || (size_t)(colon - text) >= sizeof first)
        return error_set(error, ERROR_TYPED, NULL,
                         "--%s is missing or has no colon; write its limits as in 6mm:6.012mm",
                         name);
    g_strlcpy(first, text, (gsize)(colon - text) + 1);
    figure_input_text(request->figure, name, text);
    Length a, b;
    if (!typed_length_read(first, request->unit, &a, NULL, 0, error) ||
        !typed_length_read(colon + 1, request->unit, &b, NULL, 0, error))
        return false;
    limits->least = MIN(a, b);
    limits->greatest = MAX(a, b);
    return limits->least > 0 ||
           error_set(error, ERROR_LIMIT, NULL, "--%s must be more than 0", name);
}

bool figure_of_fit(const FigureRequest *request, Figure *figure, Error *error)
{
    const char *size;
    Fit fit;
    SizeLimits hole, shaft;
    Length nominal;
    if (!request_size(request, &size, error))
        return false;
    if (!request->option_count) {
        if (!fit_read(size, &fit, error))
            return false;
    } else {
        if (!typed_length_read(size, request->unit, &nominal, NULL, 0, error) ||
            !read_limits(request, "hole", &hole, error) ||
            !read_limits(request, "shaft", &shaft, error))
            return false;
        fit_of_limits(nominal, hole, shaft, &fit);
    }
    figure_input_text(figure, "fit", size);
    figure_put_length(figure, "nominal", fit.nominal);
    figure_put_length(figure, "hole_greatest", fit.hole.greatest);
    figure_put_length(figure, "hole_least", fit.hole.least);
    figure_put_length(figure, "shaft_greatest", fit.shaft.greatest);
    figure_put_length(figure, "shaft_least", fit.shaft.least);
    figure_put_length(figure, "clearance_greatest", fit.clearance_greatest);
    figure_put_length(figure, "clearance_least", fit.clearance_least);
    figure_put_text(figure, "meaning", fit_meaning_text(fit.meaning));
    figure->formula = N_("clearance = hole - shaft, greatest of one less least of the other");
    figure->source = request->option_count
                         ? N_("limits as typed; meaning common practice, no source")
                         : N_("ISO 286-1 and 286-2; meaning common practice, no source");
    return true;
}
