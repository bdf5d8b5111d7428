/* edge-profile.h: how a part's outline runs along the line of its bevel's edge.
 *
 * Places are told by how far along the line they are and how far inwards, to the side where the
 * blade is. All in mm, in the part's own coordinates. */
#pragma once

#include "placed/placed.h"

typedef struct EdgeProfile {
    Point from, along, inward; /* the line's beginning, its way, and the way into the blade */
    double length;             /* of the line */
    Point outermost;           /* the outline's place at the edge that lies least far inwards */
    Point innermost;           /* and the one that lies furthest inwards */
    double least, most;        /* how far inwards these two are */
    double top;                /* how far inwards the blade reaches at its highest */
} EdgeProfile;

/* Follows the outside ring from one end of the line to the other; exact for lines and arcs. False
 * when the part has no bevel, the line no length, or the outline does not lie along all of it. */
bool edge_profile(const Part *part, const Outline *outline, EdgeProfile *profile);

/* The part of a station on an inclined face, where its bevel is cut, with its profile; NULL for any
 * other station. */
const Part *bevelled_part(const Placed *placed, const Feature *station, EdgeProfile *profile);

/* On the face: what a bevel of such a height (mm) takes of the station's part. */
Shape bevelled_area(const Feature *station, const EdgeProfile *profile, double height);
