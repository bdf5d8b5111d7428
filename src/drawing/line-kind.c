#include "drawing/line-kind.h"

#include <math.h>

#define WIDE 0.5
#define NARROW 0.25
#define FRAME 0.7

#define DASH (12 * NARROW)
#define LONG_DASH (24 * NARROW)
#define DOT (0.5 * NARROW)
#define DASH_GAP (3 * NARROW)

static const double hidden[] = {DASH, DASH_GAP};
static const double centre[] = {LONG_DASH, DASH_GAP, DOT, DASH_GAP};
static const double phantom[] = {LONG_DASH, DASH_GAP, DOT, DASH_GAP, DOT, DASH_GAP};

typedef struct LineStyle {
    const char *name;
    double width;
    const double *dashes;
    size_t dash_count;
} LineStyle;

#define DASHES(of) (of), sizeof(of) / sizeof(*(of))

static const LineStyle styles[LINE_KIND_COUNT] = {
    [LINE_VISIBLE] = {"visible", WIDE, NULL, 0},
    [LINE_HIDDEN] = {"hidden", NARROW, DASHES(hidden)},
    [LINE_CENTRE] = {"centre", NARROW, DASHES(centre)},
    [LINE_PHANTOM] = {"phantom", NARROW, DASHES(phantom)},
    [LINE_DIMENSION] = {"dimension", NARROW, NULL, 0},
    [LINE_THREAD] = {"thread", NARROW, NULL, 0},
    [LINE_HATCHING] = {"hatching", NARROW, NULL, 0},
    [LINE_FRAME] = {"frame", FRAME, NULL, 0},
    [LINE_TABLE] = {"table", NARROW, NULL, 0},
    [LINE_SIGN] = {"sign", WIDE, NULL, 0},
};

const char *line_kind_name(LineKind kind)
{
    return styles[kind].name;
}

double line_kind_width(LineKind kind)
{
    return styles[kind].width;
}

const double *line_kind_dashes(LineKind kind, size_t *count)
{
    *count = styles[kind].dash_count;
    return styles[kind].dashes;
}

double line_kind_phase(LineKind kind, double length)
{
    size_t count;
    const double *dashes = line_kind_dashes(kind, &count);
    if (count == 0)
        return 0;
    double period = 0;
    for (size_t i = 0; i < count; i++)
        period += dashes[i];
    /* The pattern is the same read from either end, about the middle of its dash and about the
     * middle of what lies between two dashes. Of the two, the one is taken that leaves the longer
     * piece of a dash at the ends. */
    double best = 0, best_piece = -INFINITY;
    for (int between = 0; between < 2; between++) {
        double mirror = between ? dashes[0] + (period - dashes[0]) / 2 : dashes[0] / 2;
        double phase = fmod(mirror - length / 2, period);
        if (phase < 0)
            phase += period;
        double piece = dashes[0] - phase; /* what is left of the dash the line begins in */
        if (piece > best_piece) {
            best_piece = piece;
            best = phase;
        }
    }
    return best;
}
