#include "drawing/look.h"

#include <stdint.h>

/* One colour for light ground and one for dark, as 0xRRGGBB. Each pair has a contrast of at least
 * 4.5 to 1 with its ground, so that thin lines and letters can be read (WCAG 2.1, 1.4.3). */
typedef struct Pair {
    uint32_t light, dark;
} Pair;

static const Pair grounds = {0xFBFAF7, 0x202226};
/* The stock's own area, a shade off the ground. */
static const Pair metal = {0xE9ECEF, 0x2C3036};

static const Pair colours[ROLE_COUNT] = {
    [ROLE_FURNITURE] = {0x2A2D31, 0xDDE0E4},   [ROLE_STOCK] = {0x2A2D31, 0xDDE0E4},
    [ROLE_HOLE] = {0x0B4F8A, 0x8CC4F5},        [ROLE_RECESS] = {0x0A6157, 0x7FD6C6},
    [ROLE_FITTING] = {0x6A3391, 0xD0A8F0},     [ROLE_PART] = {0x8A4B08, 0xF0B879},
    [ROLE_KEEP_CLEAR] = {0xA3161F, 0xFF9A94},  [ROLE_DATUM] = {0x000000, 0xFFFFFF},
    [ROLE_CENTRE_MARK] = {0x5E6470, 0xA0A6B0}, [ROLE_DIMENSION] = {0x4A4F58, 0xB4BAC4},
    [ROLE_LABEL] = {0x1E2126, 0xE8EAED},       [ROLE_NOTE] = {0x2A2D31, 0xDDE0E4},
    [ROLE_TABLE] = {0x2A2D31, 0xDDE0E4},
};

static Colour colour_of(Pair pair, bool dark)
{
    uint32_t rgb = dark ? pair.dark : pair.light;
    return (Colour){(rgb >> 16 & 0xFF) / 255.0, (rgb >> 8 & 0xFF) / 255.0, (rgb & 0xFF) / 255.0, 1};
}

Colour look_ground(bool dark)
{
    return colour_of(grounds, dark);
}

Colour look_colour(const Mark *mark, bool dark)
{
    bool area = mark->kind == MARK_FILL && mark->role == ROLE_STOCK;
    return colour_of(area ? metal : colours[mark->role], dark);
}

static Colour light_colour(const Mark *mark, void *user)
{
    return look_colour(mark, false);
}

static Colour dark_colour(const Mark *mark, void *user)
{
    return look_colour(mark, true);
}

const PlayStyle look_light = {light_colour, NULL, 1};
const PlayStyle look_dark = {dark_colour, NULL, 1};
