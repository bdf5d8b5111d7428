/* The zones of hole and shaft about the nominal size, to scale. */
#include "editor/figure-picture-private.h"

typedef struct Zones {
    double nominal, zero, scale; /* where the nominal size lies, and mm on the sheet for 1 mm */
} Zones;

static double level(const Zones *zones, double size)
{
    return zones->zero + (size - zones->nominal) * zones->scale;
}

/* The limits stand beside their zone, no nearer to each other than lettering may. */
static void draw_zone(const FigurePicture *picture, const Zones *zones, double left, bool hole)
{
    double greatest = picture_number(picture, hole ? "hole_greatest" : "shaft_greatest", 0);
    double least = picture_number(picture, hole ? "hole_least" : "shaft_least", 0);
    double high = level(zones, greatest), low = level(zones, least), width = 18;
    Point corners[] = {{left, low}, {left + width, low}, {left + width, high}, {left, high}};
    if (hole)
        picture_cut(picture, corners, 4);
    else
        picture_thing(picture, ROLE_FITTING, corners, 4);
    double apart = fmax(high - low, 4), middle = (high + low) / 2;
    double at = hole ? left - 3 : left + width + 3;
    char text[PICTURE_WORDS];
    TextAlong along = hole ? TEXT_END : TEXT_START;
    picture_note(picture, (Point){at, middle + apart / 2}, along,
                 picture_length(picture, greatest, text));
    picture_note(picture, (Point){at, middle - apart / 2}, along,
                 picture_length(picture, least, text));
    picture_note(picture, (Point){left + width / 2, 4}, TEXT_MIDDLE, hole ? _("hole") : _("shaft"));
}

void picture_of_fit(const FigurePicture *picture)
{
    static const char *const sizes[] = {"hole_greatest", "hole_least", "shaft_greatest",
                                        "shaft_least"};
    Zones zones = {.nominal = picture_number(picture, "nominal", 0)};
    double low = zones.nominal, high = zones.nominal, bottom = 12, top = picture->height - 6;
    for (gsize i = 0; i < G_N_ELEMENTS(sizes); i++) {
        low = fmin(low, picture_number(picture, sizes[i], low));
        high = fmax(high, picture_number(picture, sizes[i], high));
    }
    zones.scale = high > low ? (top - bottom) / (high - low) : 1;
    zones.zero = high > low ? bottom + (zones.nominal - low) * zones.scale : (bottom + top) / 2;
    double left = picture->width / 2 - 44, right = picture->width / 2 + 26;
    draw_zone(picture, &zones, left, true);
    draw_zone(picture, &zones, right, false);
    char text[PICTURE_WORDS], length[PICTURE_WORDS];
    drawing_about(picture->drawing, ROLE_LABEL, 0);
    drawing_line(picture->drawing, LINE_CENTRE, (Point){left, zones.zero},
                 (Point){right + 18, zones.zero});
    g_snprintf(text, sizeof text, "%s %s", _("nominal"),
               picture_length(picture, zones.nominal, length));
    double above = zones.zero + 3 < top ? 3 : -3;
    picture_note(picture, (Point){(left + 18 + right) / 2, zones.zero + above}, TEXT_MIDDLE, text);
}
