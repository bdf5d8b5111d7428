/* worked-figures.h: what follows from the plate in figures: how far profiles can be off, and how
 * far threads and screws go. */
#pragma once

#include "drawing/flow.h"

void worked_figures_draw(Flow *flow, const DrawingSource *source);

/* The torque in Nm that a screw in a hole's thread is tightened with, and which of the two decides;
 * 0 where the thread or its metal is in no table. The lesser of the torque that stresses the screw
 * to `SCREW_STRESS`, and half of what strips the plate's thread over its full depth, each by the
 * nut factor 0.2 (common practice, no source). `why` may be NULL. */
#define SCREW_STRESS 200.0 /* N/mm2, as the check comes-loose has it */
double worked_torque(const DrawingSource *source, const Hole *hole, const char **why);
