/* sample.h: plates to draw. An invented nursery-tool shop's fixture for grafting knife blades. */
#pragma once

#include "drawing/build.h"
#include "plate/plate.h"

typedef struct Sample {
    Plate *plate;
    Placed *placed;
    DrawingSource source;
} Sample;

/* A plate with three blade stations: locators, hold-downs, nests, slots and a keep-clear, of 8 x 6
 * x 0.75 in by ASME in inches, or of 200 x 150 x 20 mm by ISO. */
Sample sample_blades(PlateUnit unit);
/* A plate of `count` holes strewn by `seed`, no two nearer than their sizes allow. */
Sample sample_strewn(uint32_t seed, unsigned count, PlateUnit unit);
/* A plate with an inclined face of six degrees along its front, with holes on it; `face` is given
 * its number. */
Sample sample_inclined(PlateUnit unit, FeatureId *face);
/* A plate with nothing on it. */
Sample sample_empty(PlateUnit unit, Length length, Length width, Length thickness);
void sample_end(Sample *sample);

FeatureId sample_hole(Plate *plate, FeatureId station, double x, double y, const Step *steps,
                      uint32_t count);
