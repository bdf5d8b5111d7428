/* error-band.h: how far a station's finished profile can be off, as a band round its outline. */
#pragma once

#include "drawing/view.h"
#include "trade/location-error.h"

/* A place on the outline and how far off it can be. */
typedef struct BandPoint {
    Point at; /* mm on the face */
    LocationError error;
} BandPoint;

typedef struct ErrorBand {
    BandPoint *points; /* along the outline, the last beside the first; owned */
    size_t count;
    LocationError worst; /* of the place with the greatest error */
} ErrorBand;

/* Works it out from the fits of the station's two locators furthest apart, the position tolerances,
 * and how well the plate repeats on its base; temperature and leaning pins are left out. False,
 * with an empty band, for a station that has no part or no two locators through the part's holes.
 * Clear with error_band_clear. */
bool error_band_make(const DrawingSource *source, FeatureId station, ErrorBand *band);
void error_band_clear(ErrorBand *band);

/* How many times as large to draw it, 1, 2, 5, 10 and so on, so that it is seen beside its outline:
 * the most at which half its width is `ERROR_BAND_WIDEST` mm on the sheet. */
#define ERROR_BAND_WIDEST 4.0
double error_band_factor(const ErrorBand *band, double scale);

/* Draws the borders of the band in thin lines: everywhere that the outline can lie, were the error
 * `factor` times as large. */
void error_band_draw(Drawing *drawing, const ErrorBand *band, ViewMap map, double factor);
