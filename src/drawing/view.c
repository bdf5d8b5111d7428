#include "drawing/view.h"

FaceView face_view(const DrawingSource *source, FeatureId face)
{
    const Frame *frame = face == ID_NONE ? NULL : placed_frame(source->placed, face);
    if (frame && frame->face != ID_TOP)
        return (FaceView){frame->face, shape_box(&frame->extent), {0, 0}, false, frame->up.y > 0.5};
    const Stock *stock = &plate_settings(source->plate)->stock;
    return (FaceView){ID_TOP,
                      {0, 0, length_to_mm(stock->length), length_to_mm(stock->width)},
                      plate_datum(source->plate),
                      true,
                      true};
}

FigureStyle view_style(const DrawingSource *source, const ViewSpec *spec)
{
    FigureStyle style = figure_style(plate_settings(source->plate));
    style.both = spec->both_units;
    return style;
}
