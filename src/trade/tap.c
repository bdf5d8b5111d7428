#include "trade/tap.h"

#include <string.h>

static const struct {
    const char *name;
    double chamfer;
} kinds[TAP_KIND_COUNT] = {
    [TAP_PLUG] = {"plug", 5},
    [TAP_BOTTOMING] = {"bottoming", 2},
    [TAP_SPIRAL_FLUTE] = {"spiral-flute", 3},
};

const char *tap_kind_name(TapKind kind)
{
    return kinds[kind].name;
}

bool tap_kind_read(const char *name, TapKind *kind, Error *error)
{
    for (int i = 0; i < TAP_KIND_COUNT; i++) {
        if (!strcmp(kinds[i].name, name)) {
            *kind = (TapKind)i;
            return true;
        }
    }
    return error_set(error, ERROR_TYPED, NULL,
                     "there is no tap \"%.30s\"; there are plug, bottoming and spiral-flute", name);
}

double tap_chamfer_threads(TapKind kind)
{
    return kinds[kind].chamfer;
}

#define MALE_CENTRE_UP_TO 8.0 /* mm */

double tap_drill_depth(const Thread *thread, TapKind kind, double thread_depth)
{
    double major = length_to_mm(thread->major);
    double centre = kind == TAP_PLUG && major <= MALE_CENTRE_UP_TO ? major / 2 : 0;
    return thread_depth + (kinds[kind].chamfer + 1) * thread_pitch(thread) + centre;
}
