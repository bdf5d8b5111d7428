/* placed.h: the plate worked out in space, once, for checks, drawing, hit-testing and refit.
 *
 * A Placed either stands for a plate or lies over another one: an overlay holds the features that
 * an edit not yet carried out would change, and lets all else show through. */
#pragma once

#include "geometry/index.h"
#include "placed/feature.h"
#include "placed/frame.h"

typedef struct Placed Placed;

/* An edge clamp has nothing to do with blanks further in front of it than this, mm, nor with what
 * is cut further behind the blank. */
#define CLAMP_REACH 30.0

/* Works out the whole plate. Keeps no reference to it. Free with placed_free. */
Placed *placed_new(const Plate *plate);
/* An overlay with nothing on it yet; `under` must outlive it. */
Placed *placed_overlay_new(const Placed *under);
void placed_free(Placed *placed);

/* Brings it up to date with a plate that the changes have been made to. */
void placed_update(Placed *placed, const Plate *plate, const ChangeSet *changes);
/* Makes an overlay show what `edit` would do to the plate that lies under it; forgets what it
 * showed before. Doesn't allocate once it has done the same edit's records before. */
void placed_overlay_show(Placed *overlay, const Plate *plate, const Edit *edit);

/* The features that the last update or show reached: those named, all that stand on them, the
 * stations that these stand on or stood on, and the stations whose parts lie or lay over something
 * cut that changed; each once, rising; those that are gone included. */
const FeatureId *placed_touched(const Placed *placed, uint32_t *count);
/* The edge clamps before which something changed, or behind whose blank something cut did, though
 * they themselves are where they were: see CLAMP_REACH. Each once, in no order; some may be touched
 * as well. */
const FeatureId *placed_touched_clamps(const Placed *placed, uint32_t *count);
/* True when the last update changed the settings, a face, the base or an operation, so that
 * everything was touched. */
bool placed_all_touched(const Placed *placed);

/* NULL when there is none. Owned by the placed. */
const Feature *placed_find(const Placed *placed, FeatureId id);
/* The record as the plate, or the overlay's edit, has it. Good until the next update. */
const Record *placed_record(const Placed *placed, FeatureId id);
const Settings *placed_settings(const Placed *placed);
/* The first base that the plate carries, or ID_NONE. */
FeatureId placed_base(const Placed *placed);
/* NULL for a number that is no face's. */
const Frame *placed_frame(const Placed *placed, FeatureId face);
uint32_t placed_frame_count(const Placed *placed);
const Frame *placed_frame_at(const Placed *placed, uint32_t i);
/* The outline of a part by the part's number; borrowed. */
const Outline *placed_outline(const Placed *placed, FeatureId part);
/* One ring of it as an area of its own: 0 is the outside, the others are its openings; borrowed. */
const Outline *placed_ring(const Placed *placed, FeatureId part, size_t ring);
/* The running operations, first to last. Good until the next update. */
const FeatureId *placed_running(const Placed *placed, uint32_t *count);

/* Visits each feature, or each one on `face` whose box meets `box`; never in a promised order.
 * Stops when `visit` returns false. */
typedef bool (*FeatureVisit)(const Feature *feature, void *data);
void placed_each(const Placed *placed, FeatureVisit visit, void *data);
void placed_each_near(const Placed *placed, FeatureId face, Box box, FeatureVisit visit,
                      void *data);
/* Visits each record of a kind, also of those that have no place on a face; never in a promised
 * order. Stops when `visit` returns false. */
typedef bool (*RecordVisit)(const Record *record, void *data);
void placed_each_record(const Placed *placed, RecordKind kind, RecordVisit visit, void *data);
/* Visits the features that stand on `id`: a station's holes, recesses and fittings, and the part
 * itself; a hole's fittings. */
void placed_each_on(const Placed *placed, FeatureId id, FeatureVisit visit, void *data);
