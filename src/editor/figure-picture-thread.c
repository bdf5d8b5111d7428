/* The section of a thread in its nut, with the play of its class to scale. */
#include "editor/figure-picture-private.h"

#define TAN_30 0.57735026918962576
#define RIDGES_MOST 12

typedef struct ThreadSection {
    double pitch, scale, left;   /* scale: mm on the sheet for 1 mm */
    double base_radius, base_at; /* a radius, and where it lies on the sheet */
    int ridges;
} ThreadSection;

static double radius_at(const ThreadSection *section, double radius)
{
    return section->base_at + (radius - section->base_radius) * section->scale;
}

/* Half as wide as a ridge is at a radius: a quarter of the pitch at the pitch line. */
static double half_ridge(const ThreadSection *section, double radius, double pitch_radius)
{
    return section->pitch / 4 - (radius - pitch_radius) * TAN_30;
}

/* The profile along all ridges of the outer thread, or the grooves that they stand in. */
static size_t profile(const ThreadSection *section, double root, double crest, double pitch_radius,
                      Point *points)
{
    double wide = half_ridge(section, root, pitch_radius);
    double narrow = half_ridge(section, crest, pitch_radius);
    double across[] = {-wide, -narrow, narrow, wide};
    double radii[] = {root, crest, crest, root};
    double edge = section->pitch / 2, s = section->scale;
    size_t count = 0;
    points[count++] = (Point){section->left, radius_at(section, root)};
    for (int ridge = 0; ridge < section->ridges; ridge++)
        for (int i = 0; i < 4; i++)
            points[count++] =
                (Point){section->left + (edge + ridge * section->pitch + across[i]) * s,
                        radius_at(section, radii[i])};
    points[count++] =
        (Point){section->left + section->ridges * section->pitch * s, radius_at(section, root)};
    return count;
}

static size_t close_at(Point *points, size_t count, double y)
{
    points[count] = (Point){points[count - 1].x, y};
    points[count + 1] = (Point){points[0].x, y};
    return count + 2;
}

static double middle(const FigurePicture *picture, const char *greatest, const char *least)
{
    return (picture_number(picture, greatest, 0) + picture_number(picture, least, 0)) / 4;
}

static void name_line(const FigurePicture *picture, const ThreadSection *section, double diameter,
                      const char *name)
{
    char text[PICTURE_WORDS], length[PICTURE_WORDS];
    double y = radius_at(section, diameter / 2);
    double right = section->left + section->ridges * section->pitch * section->scale;
    g_snprintf(text, sizeof text, "%s %s", name, picture_length(picture, diameter, length));
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){right, y}, (Point){right + 4, y});
    picture_note(picture, (Point){right + 5, y}, TEXT_START, text);
}

static void draw_pieces(const FigurePicture *picture, const ThreadSection *section, double bottom,
                        double top)
{
    Point points[4 * RIDGES_MOST + 4];
    double pitch = section->pitch, major = picture_number(picture, "major", 1);
    double pitch_radius = middle(picture, "external_pitch_greatest", "external_pitch_least");
    double crest = middle(picture, "external_major_greatest", "external_major_least");
    size_t count = profile(section, pitch_radius - 0.36 * pitch, crest, pitch_radius, points);
    count = close_at(points, count, bottom);
    picture_thing(picture, ROLE_FITTING, points, count);

    pitch_radius = middle(picture, "internal_pitch_greatest", "internal_pitch_least");
    double minor = middle(picture, "internal_minor_greatest", "internal_minor_least");
    count = profile(section, minor, major / 2 + 0.05 * pitch, pitch_radius, points);
    count = close_at(points, count, top);
    picture_cut(picture, points, count);
}

void picture_of_thread(const FigurePicture *picture)
{
    double pitch = picture_number(picture, "pitch", 1);
    double major = picture_number(picture, "major", 1), low = 9, room = picture->width - 58;
    ThreadSection section = {.pitch = pitch, .left = 4};
    section.scale = fmin((picture->height - low - 4) / (1.45 * pitch), room / (3 * pitch));
    section.ridges = (int)CLAMP(floor(room / (pitch * section.scale) + 1e-6), 2, RIDGES_MOST);
    section.base_radius = major / 2 - 1.05 * pitch;
    section.base_at = low;
    draw_pieces(picture, &section, low, picture->height - 4);
    name_line(picture, &section, major, _("major"));
    name_line(picture, &section, picture_number(picture, "internal_pitch_least", major),
              _("pitch diameter"));
    name_line(picture, &section, picture_number(picture, "internal_minor_least", major),
              _("minor"));
    double first = section.left + pitch / 2 * section.scale;
    picture_dimension(picture, (Point){first, low}, (Point){first + pitch * section.scale, low},
                      false, 3, _("pitch"), pitch);
    char classes[PICTURE_WORDS];
    double right = section.left + section.ridges * pitch * section.scale + 5;
    g_snprintf(classes, sizeof classes, _("%s in %s, play to scale"),
               picture_words(picture, "external_class"), picture_words(picture, "internal_class"));
    picture_note(picture, (Point){right, 11}, TEXT_START, classes);
}
