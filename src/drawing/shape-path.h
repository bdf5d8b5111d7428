/* shape-path.h: the border of a shape as a path of lines and arcs. */
#pragma once

#include "drawing/view.h"

/* Strokes the border of a shape on a face, grown outlines included: sides moved outwards, outer
 * corners rounded, inner ones cut where the moved sides cross. Where a growth closes a gap of the
 * outline the lines of both sides are drawn. Allocates nothing but the drawing's own room. */
void shape_path_draw(Drawing *drawing, LineKind line, const Shape *shape, ViewMap map);
