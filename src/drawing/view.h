/* view.h: what is drawn, how, and where it lies on the sheet. */
#pragma once

#include "drawing/drawing.h"
#include "drawing/figure.h"
#include "drawing/sheet.h"
#include "placed/placed.h"

/* The plate to draw; both borrowed, and in step with each other. */
typedef struct DrawingSource {
    const Plate *plate;
    const Placed *placed;
} DrawingSource;

/* From millimetres on a face to millimetres on the sheet; the screen uses it with the zoom as its
 * scale, so that lettering and line widths stay as they are. */
typedef struct ViewMap {
    Point origin; /* where the face's origin lies on the sheet */
    double scale; /* mm on the sheet for one mm of the plate */
} ViewMap;

static inline Point view_point(ViewMap map, Point p)
{
    return (Point){map.origin.x + map.scale * p.x, map.origin.y + map.scale * p.y};
}

static inline Point view_point_back(ViewMap map, Point p)
{
    return (Point){(p.x - map.origin.x) / map.scale, (p.y - map.origin.y) / map.scale};
}

/* A face as it is drawn: seen square on from outside. */
typedef struct FaceView {
    FeatureId face;
    Box box;     /* its area, in its own coordinates */
    Place datum; /* what its coordinates are counted from: the plate's datum on the top, else the
                    face's own origin at the end of its break line */
    bool top;
    bool front; /* its lower edge is the one towards the maker */
} FaceView;

/* The top for a number that is no face's. */
FaceView face_view(const DrawingSource *source, FeatureId face);

/* A line on the top that the plate is cut along, mm on the face, and the letter it goes by. */
typedef struct SectionLine {
    Point from, to;
    char letter; /* 0: no section */
} SectionLine;

#define SECTIONS_MOST 6

/* What is printed; a set of these. */
typedef enum Print {
    PRINT_DRAWING = 1 << 0,    /* views and notes */
    PRINT_HOLES = 1 << 1,      /* the tables to them */
    PRINT_OPERATIONS = 1 << 2, /* a sheet for each setting, and those for running the plate */
    PRINT_TOOLS = 1 << 3,
    PRINT_TEMPLATE = 1 << 4, /* full size, tiled over small sheets */
    PRINT_FINDINGS = 1 << 5  /* findings, limits and worked-out figures */
} Print;

#define PRINT_USUAL (PRINT_DRAWING | PRINT_HOLES)

/* What a drawing is asked for. All zero asks for the usual one. */
typedef struct ViewSpec {
    FeatureId face;    /* the only face to draw; ID_NONE: all */
    bool choose_sheet; /* true: `sheet` is the one to use; false: the smallest that serves */
    SheetSize sheet;
    double scale; /* mm on paper for one mm of the plate; 0: the largest standard one that fits */
    bool show_fittings; /* hardware that stands on the plate, in phantom lines */
    bool hide_parts;
    bool both_units; /* the other unit in brackets beside the plate's own */
    bool chained;    /* dimensions from each place to the next, where there would be ordinates */
    unsigned prints; /* set of Print; 0: PRINT_USUAL */
    /* Through the top, each on a sheet of its own; those of letter 0 are none. */
    SectionLine sections[SECTIONS_MOST];
} ViewSpec;

/* How figures are written in what it asks for. */
FigureStyle view_style(const DrawingSource *source, const ViewSpec *spec);

/* Whether it asks for the print. */
static inline bool view_spec_has(const ViewSpec *spec, Print print)
{
    return ((spec->prints ? spec->prints : PRINT_USUAL) & (unsigned)print) != 0;
}
