/* furniture.h: what stands on every sheet of a plate: frame, title block, caution, scale bar. */
#pragma once

#include "drawing/figure.h"
#include "drawing/title-block.h"
#include "drawing/view.h"

typedef struct Furniture {
    SheetSize sheet;
    TitleBlock block;
    double scale; /* of the scale bar; 0: none */
    bool inches;
} Furniture;

/* Fills the title block from the plate's settings; the texts are the plate's. `scale` is the buffer
 * that its scale is written in, of FURNITURE_SCALE_TEXT bytes. */
#define FURNITURE_SCALE_TEXT 16
Furniture furniture_of(const DrawingSource *source, SheetSize sheet, double scale,
                       char *scale_text);

/* The unit as the title block says it: "inch [mm]" where figures are in both. */
const char *furniture_unit(FigureStyle style);

/* The area of the sheet that is left for views and tables. */
Box furniture_body(const Drawing *drawing, const Furniture *furniture);
/* Begins the sheet, draws it all and returns that area. */
Box furniture_draw(Drawing *drawing, const Furniture *furniture, const char *name);

/* Writes a scale as "1:2" or "2:1". */
void furniture_scale_text(double scale, char *text);
