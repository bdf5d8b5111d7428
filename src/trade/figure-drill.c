#include "trade/drill.h"
#include "trade/figure-build.h"
#include "trade/typed.h"

#include <glib.h>

static bool read_series(const char *text, DrillSet *set, Error *error)
{
    static const char *const names[DRILL_SERIES_COUNT] = {"number", "letter", "fraction", "metric"};
    *set = DRILL_SET_ALL;
    for (int i = 0; text && i < DRILL_SERIES_COUNT; i++)
        if (!g_strcmp0(text, names[i]))
            *set = DRILL_SET(i);
    return !text || *set != DRILL_SET_ALL ||
           error_set(error, ERROR_TYPED, "--series", "say number, letter, fraction or metric");
}

static void put_drill(Figure *figure, const char *name, const char *size, const Drill *drill)
{
    if (!drill)
        return;
    char text[80];
    drill_text(drill, text, sizeof text);
    figure_put_text(figure, name, text);
    figure_put_length(figure, size, drill->diameter);
}

/* A name answers with that drill, a length with its neighbours; both with both. */
bool figure_of_drill(const FigureRequest *request, Figure *figure, Error *error)
{
    DrillSet set;
    const char *size;
    if (!request_size(request, &size, error) ||
        !read_series(request_text(request, "series"), &set, error))
        return false;
    Length wanted;
    Error unnamed = {0};
    const Drill *drill = drill_find(size, &unnamed);
    if (drill)
        wanted = drill->diameter;
    else if (!typed_length_read(size, request->unit, &wanted, NULL, 0, error))
        return error_set(error, ERROR_MISSING, NULL, "%s", unnamed.message);
    figure_input_text(figure, "drill", size);
    if (drill)
        put_drill(figure, "drill", "diameter", drill);
    else
        put_drill(figure, "nearest", "diameter", drill_nearest(wanted, set));
    put_drill(figure, "at_or_below", "at_or_below_diameter",
              drill_at_or_below(wanted - (drill != NULL), set));
    put_drill(figure, "at_or_above", "at_or_above_diameter",
              drill_at_or_above(wanted + (drill != NULL), set));
    if (drill || drill_nearest(wanted, set)) {
        double diameter = length_to_mm((drill ? drill : drill_nearest(wanted, set))->diameter);
        figure_put_mm(figure, "point_118", drill_point_length(diameter, 118));
        figure_put_mm(figure, "point_135", drill_point_length(diameter, 135));
    }
    figure->formula = N_("point D / (2 tan(angle / 2))");
    figure->source = drill ? drill->source : N_("ASME B94.11M, ISO 235");
    return true;
}
