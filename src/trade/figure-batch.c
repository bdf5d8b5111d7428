#include "trade/batch.h"
#include "trade/figure-build.h"
#include "trade/typed.h"

#include <glib.h>

static bool read_cuts(const char *text, Batch *batch, Error *error)
{
    if (!text)
        return error_set(error, ERROR_MISSING, NULL, "--cut is missing; say %s",
                         figure_usage("batch"));
    char **words = g_strsplit(text, ",", -1);
    bool fine = g_strv_length(words) <= BATCH_OPERATIONS_MOST ||
                error_set(error, ERROR_LIMIT, "--cut", "there are too many operations");
    for (size_t i = 0; fine && words[i]; i++)
        fine = typed_number_read(words[i], 1e-3, 1e5, &batch->cut[batch->operation_count++], error);
    g_strfreev(words);
    return fine;
}

bool figure_of_batch(const FigureRequest *request, Figure *figure, Error *error)
{
    Batch batch = {.plates = 2, .parts = 1};
    double shift = 8;
    BatchResult result;
    if (!request_number(request, "load", true, 0, 1e5, &batch.load, error) ||
        !request_number(request, "swap", true, 0, 1e5, &batch.swap, error) ||
        !read_cuts(request_text(request, "cut"), &batch, error) ||
        !request_count(request, "plates", false, 1, BATCH_PLATES_MOST, &batch.plates, error) ||
        !request_count(request, "parts", false, 1, 1000, &batch.parts, error) ||
        !request_number(request, "shift", false, 0.1, 24, &shift, error) ||
        !batch_work_out(&batch, &result, error))
        return false;
    figure_input_text(figure, "cut", request_text(request, "cut"));
    figure_put_number(figure, "plates", FIGURE_NUMBER, result.plates_needed);
    figure_put_number(figure, "parts_an_hour", FIGURE_NUMBER, result.parts_an_hour);
    figure_put_number(figure, "parts_a_shift", FIGURE_NUMBER, result.parts_an_hour * shift);
    figure_put_number(figure, "spindle_busy", FIGURE_NUMBER, result.spindle_busy);
    figure_put_number(figure, "maker_busy", FIGURE_NUMBER, result.maker_busy);
    figure_put_text(figure, "waits", result.waits);
    figure->formula =
        N_("from event to event: change plates whenever the spindle stands and one is loaded, "
           "else load the next, else wait");
    figure->source = N_("proved against a step-by-step simulation; no standard");
    return true;
}
