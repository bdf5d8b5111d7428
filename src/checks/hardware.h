/* hardware.h: the rows of the trade's tables that a plate's words name.
 *
 * NULL where the tables know no such thing: rules then say nothing rather than guess. */
#pragma once

#include "plate/plate.h"
#include "trade/dowel.h"
#include "trade/insert.h"
#include "trade/material.h"
#include "trade/screw.h"
#include "trade/shoulder-screw.h"
#include "trade/thread.h"

const ShoulderScrew *hardware_shoulder_screw(const Fitting *fitting);
/* Of a dowel or a relieved pin. */
const Dowel *hardware_dowel(const Fitting *fitting);
/* Of a hold-down. */
const Screw *hardware_screw(const Fitting *fitting);

/* The insert that a tap step's hole is tapped for. */
const Insert *hardware_insert(const Step *step);
/* The thread that a tap step offers to a screw: an insert's own, where it is tapped for one. */
const Thread *hardware_thread(const Step *step);
/* The thread that the tap cuts: larger than the screw's where an insert goes in. False when the
 * tables don't know it. */
bool hardware_tapped_thread(const Step *step, Thread *thread);

/* The greatest and least diameter of a shoulder or pin, mm: as the fitting states them, and by the
 * tables where it states none but names a size of its own diameter. False when neither does; both
 * are then the diameter. */
bool hardware_pin_limits(const Fitting *fitting, double *greatest, double *least);

/* The plate's material by its grade; one that stands for its metal where the grade is unknown. */
const Material *hardware_plate_material(const Settings *settings);
/* The part's, whatever its treatment; NULL where its grade is unknown. */
const Material *hardware_part_material(const Part *part);
