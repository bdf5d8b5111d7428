/* tolerance.h: the classes of tolerance that a plate's drawing states.
 *
 * Locating holes are held closely, each by a frame; all else by the general tolerances. */
#pragma once

#include "drawing/figure.h"
#include "drawing/view.h"
#include "placed/hole-tolerance.h"

/* The plate's own words, or else the usual ones, which the notes then say. Borrowed. */
const char *tolerance_general(const Settings *settings);
const char *tolerance_roughness(const Settings *settings);
const char *tolerance_edges(const Settings *settings);

/* The frame of a locating hole, in tolerance-frame.h's form; of the datum hole its squareness to
 * the face. Empty for a hole that the general tolerances hold for. Free with g_free. */
char *tolerance_frame_text(const DrawingSource *source, const Record *hole);

/* The frames of the plate's own faces: flatness of the top, parallelism of the underside,
 * squareness of the datum edges, angularity of inclined faces. Half a tenth of a millimetre or
 * 0.002 in, what a skim cut leaves (common practice, no source). Each is written into a buffer of
 * FIGURE_FRAME bytes.
 */
#define FIGURE_FRAME 64
void tolerance_flatness(const Settings *settings, char *frame);
void tolerance_parallelism(const Settings *settings, char *frame);
void tolerance_squareness(const Settings *settings, char *frame);
void tolerance_angularity(const Settings *settings, char *frame);

/* The limits of size that a hole's steps state, as "+0.012/0"; empty without any. Free with g_free.
 */
char *tolerance_limits(const Hole *hole, FigureStyle style);
