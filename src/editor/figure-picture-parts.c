/* What the pictures of figures share. */
#include "editor/figure-picture-private.h"

#include "drawing/hatching.h"
#include "editor/speech.h"

#include <string.h>

static const FigureValue *find(const FigureValue *values, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (!strcmp(values[i].name, name))
            return &values[i];
    return NULL;
}

const FigureValue *picture_value(const FigurePicture *picture, const char *name)
{
    const Figure *figure = picture->figure;
    const FigureValue *value = find(figure->result, figure->result_count, name);
    return value ? value : find(figure->input, figure->input_count, name);
}

double picture_number(const FigurePicture *picture, const char *name, double otherwise)
{
    const FigureValue *value = picture_value(picture, name);
    if (!value || value->kind == FIGURE_TEXT)
        return otherwise;
    return value->kind == FIGURE_LENGTH ? length_to_mm(value->length) : value->number;
}

const char *picture_words(const FigurePicture *picture, const char *name)
{
    const FigureValue *value = picture_value(picture, name);
    return value && value->kind == FIGURE_TEXT ? value->text : "";
}

const char *picture_length(const FigurePicture *picture, double mm, char text[PICTURE_WORDS])
{
    FigureValue value = {.kind = FIGURE_LENGTH, .length = length_from_mm(mm)};
    figure_value_text(&value, picture->unit, text, PICTURE_WORDS);
    char *other_unit = strstr(text, " (");
    if (other_unit)
        *other_unit = '\0';
    return pin_figures(text);
}

#define CORNERS_MOST 128

static void outline(const FigurePicture *picture, MarkRole role, const Point *corners, size_t count)
{
    Vertex path[CORNERS_MOST];
    count = MIN(count, CORNERS_MOST);
    for (size_t i = 0; i < count; i++)
        path[i] = (Vertex){corners[i].x, corners[i].y, 0};
    drawing_about(picture->drawing, role, 0);
    drawing_fill(picture->drawing, path, count);
    drawing_path(picture->drawing, LINE_VISIBLE, path, count, true);
}

void picture_cut(const FigurePicture *picture, const Point *corners, size_t count)
{
    outline(picture, ROLE_STOCK, corners, count);
    hatching_draw(picture->drawing, corners, MIN(count, CORNERS_MOST));
}

void picture_thing(const FigurePicture *picture, MarkRole role, const Point *corners, size_t count)
{
    outline(picture, role, corners, count);
}

void picture_box(const FigurePicture *picture, MarkRole role, Box box)
{
    Point corners[] = {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
    outline(picture, role, corners, G_N_ELEMENTS(corners));
}

void picture_dimension(const FigurePicture *picture, Point from, Point to, bool upright,
                       double line, const char *words, double mm)
{
    char text[PICTURE_WORDS], length[PICTURE_WORDS];
    picture_length(picture, mm, length);
    g_snprintf(text, sizeof text, "%s%s%s", words ? words : "", words ? " " : "", length);
    LinearDimension dimension = {.from = from,
                                 .to = to,
                                 .upright = upright,
                                 .line = line,
                                 .height = PICTURE_TEXT,
                                 .text = text,
                                 .standard = DIMENSION_ISO};
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    dimension_linear(picture->drawing, &dimension);
}

void picture_depth(const FigurePicture *picture, double x, double top, double bottom)
{
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){x, top}, (Point){x, bottom});
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){x - 2.5, bottom},
                 (Point){x + 2.5, bottom});
    if (top - bottom > DIMENSION_ARROW)
        dimension_arrow(picture->drawing, (Point){x, bottom}, (Point){0, -1});
}

Box picture_note(const FigurePicture *picture, Point at, TextAlong along, const char *text)
{
    TextStyle style = {PICTURE_TEXT, along, TEXT_CENTRE, 0};
    drawing_about(picture->drawing, ROLE_NOTE, 0);
    return drawing_text(picture->drawing, at, style, text);
}

double picture_times(double most)
{
    double times = 1;
    static const double steps[] = {2, 2.5, 2};
    for (int i = 0; times * steps[i % 3] <= most && i < 24; i++)
        times *= steps[i % 3];
    return times;
}
