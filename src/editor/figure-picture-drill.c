/* A drill's hole with both its points, and the drill among its neighbours. */
#include "editor/figure-picture-private.h"

#include "editor/speech.h"
#include "trade/size-words.h"

static void draw_hole(const FigurePicture *picture, double centre, double diameter)
{
    double top = picture->height - 12, half = 9, scale = 2 * half / diameter;
    double bottom = top - 24, tip = bottom - scale * picture_number(picture, "point_118", 0);
    double blunt = bottom - scale * picture_number(picture, "point_135", 0);
    Point metal[] = {{centre - 18, top}, {centre - half, top},    {centre - half, bottom},
                     {centre, tip},      {centre + half, bottom}, {centre + half, top},
                     {centre + 18, top}, {centre + 18, tip - 5},  {centre - 18, tip - 5}};
    picture_cut(picture, metal, G_N_ELEMENTS(metal));
    Vertex other[] = {{centre - half, bottom, 0}, {centre, blunt, 0}, {centre + half, bottom, 0}};
    drawing_about(picture->drawing, ROLE_HOLE, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){centre - half, bottom},
                 (Point){centre + half, bottom});
    drawing_path(picture->drawing, LINE_HIDDEN, other, 3, false);
    drawing_about(picture->drawing, ROLE_CENTRE_MARK, 0);
    drawing_line(picture->drawing, LINE_CENTRE, (Point){centre, top + 3}, (Point){centre, tip - 3});
    picture_dimension(picture, (Point){centre - half, top}, (Point){centre + half, top}, false,
                      top + 5, NULL, diameter);
    picture_dimension(picture, (Point){centre + half, bottom}, (Point){centre, tip}, true,
                      centre + 24, "118°", picture_number(picture, "point_118", 0));
    picture_dimension(picture, (Point){centre - half, bottom}, (Point){centre, blunt}, true,
                      centre - 22, "135°", picture_number(picture, "point_135", 0));
}

/* The drills in a row, each to one scale. */
static void draw_neighbours(const FigurePicture *picture, double left)
{
    static const char *const names[] = {"at_or_below", NULL, "at_or_above"};
    static const char *const sizes[] = {"at_or_below_diameter", "diameter", "at_or_above_diameter"};
    double largest = picture_number(picture, "diameter", 1);
    for (int i = 0; i < 3; i++)
        largest = fmax(largest, picture_number(picture, sizes[i], 0));
    const char *own = picture_words(picture, "nearest");
    if (!*own)
        own = picture_words(picture, "drill");
    for (int i = 0; i < 3; i++) {
        double radius = 6 * picture_number(picture, sizes[i], 0) / largest;
        Point at = {left + 8, picture->height * (i + 0.5) / 3};
        if (radius <= 0)
            continue;
        drawing_about(picture->drawing, i == 1 ? ROLE_LABEL : ROLE_HOLE, 0);
        drawing_circle(picture->drawing, LINE_VISIBLE, at, radius);
        char said[80];
        size_said(names[i] ? picture_words(picture, names[i]) : own, pin_speech(), said,
                  sizeof said);
        picture_note(picture, (Point){at.x + 10, at.y}, TEXT_START, said);
    }
}

void picture_of_drill(const FigurePicture *picture)
{
    double diameter = picture_number(picture, "diameter", 0);
    if (diameter <= 0)
        return;
    draw_hole(picture, fmax(34, picture->width * 0.25), diameter);
    draw_neighbours(picture, picture->width * 0.52);
}
