/* figure-picture-private.h: what the pictures of figures are made of. Places are mm on the sheet.
 */
#pragma once

#include "drawing/dimension.h"
#include "drawing/drawing.h"
#include "editor/intl.h"
#include "trade/figure.h"

#include <math.h>

#define PICTURE_TEXT 2.5 /* mm, height of a capital letter */
#define PICTURE_WORDS 128

typedef struct FigurePicture {
    Drawing *drawing;
    const Figure *figure;
    Unit unit;
    double width, height; /* mm */
} FigurePicture;

/* --- what the figure says --- */

/* A value of the results or else of the inputs; NULL. */
const FigureValue *picture_value(const FigurePicture *picture, const char *name);
/* Its number; a length in mm. `otherwise` where there is none. */
double picture_number(const FigurePicture *picture, const char *name, double otherwise);
/* Its text; "" where there is none. */
const char *picture_words(const FigurePicture *picture, const char *name);
/* "0.2010 in" */
const char *picture_length(const FigurePicture *picture, double mm, char text[PICTURE_WORDS]);

/* --- what it is drawn with --- */

/* Metal that is cut: tinted, hatched, with its edge. */
void picture_cut(const FigurePicture *picture, const Point *corners, size_t count);
/* A thing that is not cut, as a screw or a blade. */
void picture_thing(const FigurePicture *picture, MarkRole role, const Point *corners, size_t count);
void picture_box(const FigurePicture *picture, MarkRole role, Box box);
/* A dimension with the words before its length; NULL: none. */
void picture_dimension(const FigurePicture *picture, Point from, Point to, bool upright,
                       double line, const char *words, double mm);
/* How far something goes down from `top`: a line with an arrow and an end. */
void picture_depth(const FigurePicture *picture, double x, double top, double bottom);
Box picture_note(const FigurePicture *picture, Point at, TextAlong along, const char *text);
/* The largest of 1, 2, 5, 10, 20, … that is no more than `most`; 1 at least. */
double picture_times(double most);

/* --- the pictures, each in a file of its own --- */

void picture_of_thread(const FigurePicture *picture);
void picture_of_drill(const FigurePicture *picture);
void picture_of_tap(const FigurePicture *picture);
void picture_of_engagement(const FigurePicture *picture);
void picture_of_fit(const FigurePicture *picture);
void picture_of_bevel(const FigurePicture *picture);
void picture_of_sine(const FigurePicture *picture);
void picture_of_cusp(const FigurePicture *picture);
void picture_of_location_error(const FigurePicture *picture);
void picture_of_holding(const FigurePicture *picture);
void picture_of_batch(const FigurePicture *picture);
