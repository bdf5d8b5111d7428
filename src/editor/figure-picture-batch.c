/* The shift as a bar chart: what each plate, the maker and the spindle do, minute by minute. */
#include "editor/figure-picture-private.h"

#include "editor/speech.h"
#include "trade/batch.h"
#include "trade/typed.h"

#define BARS_MOST 4096
#define ROUNDS 16 /* as many loads of all plates as can be told from each other */
#define NAMES 20  /* mm, for the rows' names */

typedef struct Chart {
    double left, scale; /* mm on the sheet for a minute */
    double top, pitch;  /* of the rows */
    int plates;
} Chart;

static gboolean read_batch(const FigurePicture *picture, Batch *batch)
{
    *batch = (Batch){.load = picture_number(picture, "load", 0),
                     .swap = picture_number(picture, "swap", 0),
                     .parts = (int)picture_number(picture, "parts", 1)};
    for (size_t i = 0; i < picture->figure->input_count; i++) /* of the results it is another */
        if (!g_strcmp0(picture->figure->input[i].name, "plates"))
            batch->plates = (int)picture->figure->input[i].number;
    char **cuts = g_strsplit(picture_words(picture, "cut"), ",", -1);
    for (int i = 0; cuts[i] && batch->operation_count < BATCH_OPERATIONS_MOST; i++)
        if (!typed_number_read(cuts[i], 1e-3, 1e5, &batch->cut[batch->operation_count++], NULL))
            batch->operation_count--;
    g_strfreev(cuts);
    BatchResult result;
    return batch_work_out(batch, &result, NULL);
}

static double shown_minutes(const FigurePicture *picture, const Batch *batch)
{
    double cutting = 0, shift = picture_number(picture, "shift", 8) * 60;
    for (size_t i = 0; i < batch->operation_count; i++)
        cutting += batch->cut[i];
    double round = fmax(cutting + (double)batch->operation_count * batch->swap,
                        (double)batch->operation_count * (batch->load + batch->swap));
    return fmin(shift, ROUNDS * round * batch->plates);
}

static Box bar_box(const Chart *chart, const BatchBar *bar, int row)
{
    double y = chart->top - chart->pitch * (row + 1);
    return (Box){chart->left + bar->start * chart->scale, y + 0.15 * chart->pitch,
                 chart->left + bar->end * chart->scale, y + 0.85 * chart->pitch};
}

static void draw_bar(const FigurePicture *picture, Box box, BatchWork work)
{
    static const MarkRole roles[] = {
        [BATCH_LOAD] = ROLE_PART, [BATCH_SWAP] = ROLE_DIMENSION, [BATCH_CUT] = ROLE_FITTING};
    Vertex path[] = {
        {box.x0, box.y0, 0}, {box.x1, box.y0, 0}, {box.x1, box.y1, 0}, {box.x0, box.y1, 0}};
    drawing_about(picture->drawing, roles[work], 0);
    drawing_fill(picture->drawing, path, 4);
    drawing_box(picture->drawing, LINE_DIMENSION, box);
}

static void draw_rows(const FigurePicture *picture, const Chart *chart)
{
    for (int row = 0; row < chart->plates + 1; row++) {
        char name[PICTURE_WORDS];
        if (row < chart->plates)
            g_snprintf(name, sizeof name, _("plate %d"), row + 1);
        else
            g_strlcpy(name, _("spindle"), sizeof name);
        picture_note(picture, (Point){3, chart->top - chart->pitch * (row + 0.5)}, TEXT_START,
                     name);
    }
}

static double tick_minutes(double minutes)
{
    static const double steps[] = {1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440, 10080};
    for (gsize i = 0; i < G_N_ELEMENTS(steps); i++)
        if (minutes / steps[i] <= 8)
            return steps[i];
    return minutes;
}

static void draw_axis(const FigurePicture *picture, const Chart *chart, double minutes)
{
    double step = tick_minutes(minutes), bottom = chart->top - chart->pitch * (chart->plates + 1);
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){chart->left, bottom},
                 (Point){chart->left + minutes * chart->scale, bottom});
    for (double t = 0; t <= minutes + 1e-9; t += step) {
        char text[PICTURE_WORDS];
        double x = chart->left + t * chart->scale;
        if (step >= 60)
            g_snprintf(text, sizeof text, _("%.4g h"), t / 60);
        else
            g_snprintf(text, sizeof text, _("%.4g min"), t);
        pin_figures(text);
        drawing_about(picture->drawing, ROLE_DIMENSION, 0);
        drawing_line(picture->drawing, LINE_DIMENSION, (Point){x, bottom},
                     (Point){x, bottom - 1.5});
        picture_note(picture, (Point){x, bottom - 4}, TEXT_MIDDLE, text);
    }
}

static void draw_key(const FigurePicture *picture)
{
    const char *words[] = {[BATCH_LOAD] = _("loading"),
                           [BATCH_SWAP] = _("changing plates"),
                           [BATCH_CUT] = _("cutting")};
    double x = NAMES + 3, y = picture->height - 4;
    for (int work = BATCH_LOAD; work <= BATCH_CUT; work++) {
        draw_bar(picture, (Box){x, y - 1.5, x + 6, y + 1.5}, (BatchWork)work);
        x = picture_note(picture, (Point){x + 8, y}, TEXT_START, words[work]).x1 + 8;
    }
}

void picture_of_batch(const FigurePicture *picture)
{
    Batch batch;
    if (!read_batch(picture, &batch))
        return;
    double minutes = shown_minutes(picture, &batch);
    Chart chart = {.left = NAMES + 3, .top = picture->height - 9, .plates = batch.plates};
    chart.scale = (picture->width - chart.left - 8) / minutes;
    chart.pitch = fmin((chart.top - 8) / (batch.plates + 1), 14);
    BatchBar *bars = g_new(BatchBar, BARS_MOST);
    size_t count = batch_bars(&batch, minutes, bars, BARS_MOST);
    for (size_t i = 0; i < count; i++) {
        draw_bar(picture, bar_box(&chart, &bars[i], bars[i].plate), bars[i].work);
        if (bars[i].work != BATCH_LOAD)
            draw_bar(picture, bar_box(&chart, &bars[i], batch.plates), bars[i].work);
    }
    g_free(bars);
    draw_rows(picture, &chart);
    draw_axis(picture, &chart, minutes);
    draw_key(picture);
}
