/* layout-band.h: how far the selected station's finished profile can be off, as a band round it. */
#pragma once

#include "editor/layout.h"

/* Shown while a station is selected; the factor it is drawn larger by stands beside it. */
void layout_show_error_band(PinLayout *layout, gboolean show);
