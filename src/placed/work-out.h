/* work-out.h: a record's feature, from the record and those it stands on. */
#pragma once

#include "placed/feature.h"
#include "placed/frame.h"

/* What working out needs to see: records as they would be, outlines of parts, frames of faces. */
typedef struct Sight {
    const Record *(*record)(const void *data, FeatureId id);
    const Outline *(*outline)(const void *data, FeatureId part);
    const Frame *(*frame)(const void *data, FeatureId face);
    double (*seat)(const void *data,
                   FeatureId station); /* mm below the face: what its part lies on */
    const void *data;
} Sight;

/* Fills `feature`; false for a record that has no place on a face. Never allocates. */
bool feature_work_out(const Sight *sight, const Record *record, Feature *feature);
