/* plan.h: the view from above: stock, parts, holes, recesses, keep-clears, hardware and datum.
 *
 * The layout on the screen and the sheets use the same functions; each feature's marks carry its
 * number, so one feature's can be drawn anew alone.
 */
#pragma once

#include "drawing/view.h"

/* The face's area as a fill, for pictures and the screen; prints leave it out. */
void plan_ground(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face);
/* The border of a face; on the top also those of the inclined faces, as they are seen from above.
 */
void plan_face(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face);
/* What the face's coordinates are counted from: the plate's datum on the top, an inclined face's
 * own origin; a circle with two quarters filled. */
void plan_origin(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face);
/* The same two for the top. */
void plan_stock(Drawing *drawing, const DrawingSource *source, ViewMap map);
void plan_datum(Drawing *drawing, const DrawingSource *source, ViewMap map);
/* One feature on the face that the map is for, without its label: holes by ISO 6410-1 where they
 * are threaded, with their centre marks; parts, keep-clears and hardware in phantom lines. */
void plan_feature(Drawing *drawing, const DrawingSource *source, ViewMap map,
                  const Feature *feature);
/* A feature's label where nobody looks out for what else is there, as on the screen: above and to
 * the right of a hole, in the middle of all else. Sheets use labels.h. */
void plan_label(Drawing *drawing, ViewMap map, const Feature *feature, const char *text);
/* All features of a face in the order of their numbers; `kinds` is a set of FeatureKind. */
void plan_features(Drawing *drawing, const DrawingSource *source, ViewMap map, FeatureId face,
                   unsigned kinds);
/* All features of `kinds` on a face in the order of their numbers; pointers into the placed. Free
 * with g_free. */
const Feature **plan_list(const DrawingSource *source, FeatureId face, unsigned kinds,
                          size_t *count);
