/* mirror.h: the pair of stations for a blade's two sides, kept as mirror images. */
#pragma once

#include "session/session.h"

/* The station that is the other one's mirror image, or whose mirror image it is; ID_NONE. */
FeatureId mirror_partner(const Plate *plate, FeatureId station);

/* Adds to an edit that changes a station, or the holes and recesses on it, what keeps its mirror
 * image one: the same change, mirrored about the line that the pair lay about before. A station
 * that the edit changes already, that stands in metal or that is locked is let be. session_do does
 * this for every edit. */
void mirror_keep(const Plate *plate, Edit *edit);

/* What goes with the records of an edit that are changed in place, as while dragging. The records
 * are the edit's own and the plate's. */
typedef struct MirrorTwin {
    const Record *before, *after, *twin_before;
    Record *twin;
} MirrorTwin;

typedef struct MirrorTwins {
    uint32_t count;
    MirrorTwin *items;
} MirrorTwins;

/* Adds what goes with the edit's records to the edit, still as it is. End with mirror_end, before
 * the edit is cleared. */
MirrorTwins mirror_begin(const Plate *plate, Edit *edit);
/* Brings it in line with the edit's records as they are now. Never allocates. */
void mirror_follow(const MirrorTwins *twins);
void mirror_end(MirrorTwins *twins);
