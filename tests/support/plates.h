/* plates.h: plates for tests, built through the same edits that the program makes. */
#pragma once

#include "checks/checker.h"
#include "plate/plate-file.h"

#define MM(x) length_from_mm(x)

/* Puts a record on the plate by an edit; fails the test when it does not fit. Takes the reference
 * over. Returns its number. */
FeatureId put_record(Plate *plate, Record *record);
/* Puts a changed copy in place of what is there. */
void change_record(Plate *plate, Record *record);
void take_away(Plate *plate, FeatureId id);

/* A through hole of one drill with a flat end. */
FeatureId put_hole(Plate *plate, double x, double y, double diameter);
/* A blind one. */
FeatureId put_blind_hole(Plate *plate, double x, double y, double diameter, double depth);
/* A face along the plate's front: it leaves the top at y (mm) and falls towards the front by so
 * many degrees. Its X is the plate's from the plate's far end, its Y goes up its slope. */
FeatureId put_front_face(Plate *plate, double y, double degrees, double extent);
/* The hole or recess cut from that face instead, at a place on it. */
void put_on_face(Plate *plate, FeatureId id, FeatureId face, double x, double y);
/* A slot with round ends along X. */
FeatureId put_slot(Plate *plate, double x, double y, double length, double width, double depth);
/* A part: a rectangle from 0, 0 with square corners and round holes (x, y, diameter each). */
FeatureId put_part(Plate *plate, double length, double width, double thickness, int hole_count,
                   const double *holes);
FeatureId put_station(Plate *plate, FeatureId part, double x, double y);
/* A fitting in a new hole of the station under the part's hole. */
FeatureId put_pin(Plate *plate, FeatureId station, int part_hole, double x, double y, int kind,
                  double diameter);

/* Adds a step to a hole; a depth of 0 goes through, a thread makes it a tap. */
void add_step(Plate *plate, FeatureId hole, int kind, double diameter, double depth,
              const char *thread);
/* Gives a fitting its size in words, its length and its limits. */
void set_size(Plate *plate, FeatureId fitting, const char *size, double length, double upper,
              double lower);
/* A nest for the station's part, all round. */
FeatureId put_nest(Plate *plate, FeatureId station, double clearance, double depth);
/* An edge clamp that pushes towards `degrees`, its body `length` along that way and `width`
 * across it. */
FeatureId put_clamp(Plate *plate, FeatureId station, double x, double y, double degrees,
                    double length, double width);
/* Changes one of a rule's limits for the plate. */
void change_limit(Plate *plate, const char *rule, const char *limit, double value);

/* A whole plate like the ones that makers have, from a seed: holes, slots, stations, keep-clears,
 * some too near each other. */
Plate *random_plate(uint32_t seed, int things);
/* A number in [least, greatest). Changes the seed. */
double random_between(uint32_t *seed, double least, double greatest);
/* Fills `edit` with a random change that the plate may or may not take. */
void random_edit(const Plate *plate, uint32_t *seed, Edit *edit);

/* All findings of a plate, from a fresh start. The caller clears them. */
FindingList findings_of(const Plate *plate);
/* Fails the test unless the plate has `count` findings of one rule and level, the first of them
 * with `value`; frees the plate. */
void expect_findings(Plate *plate, const char *slug, FindingLevel level, int count, double value);
/* How many findings a rule has, and the first of them (may be NULL). */
int count_of(const FindingList *findings, const char *slug, const Finding **first);
