/* limit-preset.h: sets of the checks' limits that a new plate can start with. */
#pragma once

#include "plate/settings.h"

typedef enum LimitPreset {
    LIMIT_PRESET_USUAL, /* each rule's own starting limits: nothing is stored in the plate */
    /* Walls, floors and threads half as much again as the usual ones (common practice, no source),
     * for a plate that is to last, or whose maker would rather have the metal. */
    LIMIT_PRESET_WIDER
} LimitPreset;

/* Adds the preset's limits to those that the plate changes; they are stored in it and printed. */
void limit_preset_add(LimitPreset preset, Settings *settings);
