/* edited.h: records as an edit that is still being built would leave them. */
#pragma once

#include "plate/plate.h"

/* The record as the edit has it, else as the plate has it; NULL where neither has one. */
const Record *edited_record(const Plate *plate, const Edit *edit, FeatureId id);
/* The same, to be changed in place: the edit's own copy, added where it had none yet. NULL where
 * there is no such record. For an edit that nobody else has seen. */
Record *edited_change(const Plate *plate, Edit *edit, FeatureId id);

/* The outline's box of the station's part, in the part's own coordinates, and the station's pose,
 * with the edit carried out. False where the part has no outline. */
bool edited_part_box(const Plate *plate, const Edit *edit, FeatureId station, Box *box);
Pose edited_station_pose(const Plate *plate, const Edit *edit, FeatureId station);
