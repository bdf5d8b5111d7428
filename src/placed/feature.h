/* feature.h: one thing of the plate worked out on its face: what it covers and from where to where
 * in depth. */
#pragma once

#include "geometry/shape.h"
#include "plate/plate.h"

typedef enum FeatureKind {
    FEATURE_HOLE = 1 << 0,
    FEATURE_RECESS = 1 << 1,
    FEATURE_PART = 1 << 2, /* a station's part; carries the station's number */
    FEATURE_FITTING = 1 << 3,
    FEATURE_KEEP_CLEAR = 1 << 4
} FeatureKind;

/* All that is cut away from the plate. */
#define FEATURE_CUT (FEATURE_HOLE | FEATURE_RECESS)

/* A part of the feature between two heights, where it is as wide as its core grown by `growth`. */
typedef struct Slice {
    double growth;      /* mm */
    double top, bottom; /* mm over the face, negative in the metal; top >= bottom */
    double tip;         /* mm over the face: where a drill's point below the bottom ends; else the
                           bottom */
} Slice;

#define SLICES_MOST STEPS_MOST

typedef struct Feature {
    FeatureId id;
    FeatureKind kind;
    FeatureId face;
    FeatureId station;
    Shape shape;        /* at its widest */
    Box box;            /* of the shape */
    double top, bottom; /* mm over the face, over all, without drill points */
    double tip;         /* mm over the face: the end of the deepest drill point; else the bottom */
    bool through;       /* cut right through the plate */
    uint8_t slice_count;
    Slice slices[SLICES_MOST];
    bool has_blank; /* of a part */
    Shape blank;    /* the part's blank at its station */
} Feature;

/* Where the feature's middle lies: a hole's axis. */
static inline Point feature_at(const Feature *feature)
{
    return (Point){feature->shape.pose.x, feature->shape.pose.y};
}

/* Its box, and that of its blank. */
static inline Box feature_whole_box(const Feature *feature)
{
    return feature->has_blank ? box_union(feature->box, shape_box(&feature->blank)) : feature->box;
}

/* The least gap of two features of one face between their slices that share a height; the distance
 * is infinite when none do. Never allocates. */
void feature_gap(const Feature *a, const Feature *b, Gap *gap);
