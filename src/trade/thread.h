/* thread.h: screw threads: their sizes, limits and areas.
 *
 * Lengths in diameters and pitches are mm as double where the pitch of an inch thread is no whole
 * number of nanometres; limits are whole nanometres, as the standards' tables round them.
 */
#pragma once

#include "geometry/error.h"
#include "geometry/length.h"

#include <stddef.h>

typedef enum ThreadSeries {
    THREAD_UNC,
    THREAD_UNF,
    THREAD_COARSE,
    THREAD_FINE,
} ThreadSeries;

typedef struct Thread {
    const char *name;     /* "1/4-20", "8-32", "M6x1" */
    const char *size;     /* "1/4", "#8", "M6": what clearances and screws go by */
    Length major;         /* the basic major diameter */
    Length pitch;         /* metric threads; 0 for unified ones */
    int threads_per_inch; /* unified threads; 0 for metric ones */
    ThreadSeries series;
    const char *tap_drill; /* the customary drill's name, or NULL */
    const char *source;
} Thread;

size_t thread_count(void);
const Thread *thread_at(size_t index);

/* Finds a thread as people write it: "1/4-20", "1/4-20 UNC", "#8-32", "No. 8-32", "M6" (coarse),
 * "M6x1", "m8 x 1.25". NULL with an error that names the nearest threads when there is none. */
const Thread *thread_find(const char *name, Error *error);

bool thread_is_metric(const Thread *thread);

/* The pitch in mm. */
double thread_pitch(const Thread *thread);

/* "1/4-20 UNC", "8-32 UNC", "M6x1". Returns the length of the text, cut off at `size`. */
size_t thread_text(const Thread *thread, char *text, size_t size);

typedef struct ThreadLimits {
    Length allowance; /* between the basic size and the external thread's greatest */
    Length external_major_greatest, external_major_least;
    Length external_pitch_greatest, external_pitch_least;
    Length internal_pitch_least, internal_pitch_greatest;
    Length internal_minor_least, internal_minor_greatest;
    const char *external_class, *internal_class; /* "2A", "2B" or "6g", "6H" */
    const char *source;
} ThreadLimits;

/* The limits of size: classes 2A and 2B by the formulas of ASME B1.1 (pitch diameter tolerance
 * 0.0015 cbrt(D) + 0.0015 sqrt(LE) + 0.015 cbrt(P2), LE the diameter; 2B 1.3 times that; allowance
 * 0.3 times; the tolerance rounded to six decimals, and each figure to 0.0001 in before it is
 * added, which gives the standard's printed tables); 6g and 6H by the tables of ISO 965-1. False
 * where a thread the user added has no published tolerance. */
bool thread_limits(const Thread *thread, ThreadLimits *limits, Error *error);

/* The tensile stress area in mm2: 0.7854 (D - 0.9743/n)2 by ASME B1.1; 0.7854 (d - 0.9382 P)2 by
 * ISO 898-1. */
double thread_tensile_area(const Thread *thread);

/* How much of a full thread a drilled hole of `diameter` mm leaves for a cutting tap, in per cent:
 * (D - hole) / (1.299 P) x 100, the handbook's formula (0.01299 per cent / n in inches). */
double thread_per_cent(const Thread *thread, double diameter);

/* The hole in mm for a per cent of thread with a cutting tap, and with a forming tap, which presses
 * the thread's crest up: D - 0.0068 x per cent / n in inches, the handbook's formula. */
double thread_hole_for_cut(const Thread *thread, double per_cent);
double thread_hole_for_form(const Thread *thread, double per_cent);
double thread_per_cent_formed(const Thread *thread, double diameter);
