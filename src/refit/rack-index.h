/* rack-index.h: what a folder of plates has, so that a search opens only the few that matter.
 *
 * For each two uses of holes (a thread, a reamed size, a pin) the index lists the distances between
 * such holes of one face, sorted, with the plate that each belongs to. A part's pitch is then
 * looked up by halving, however many plates there are. It is kept in the user's cache and brought
 * up to date by the files' stamps. */
#pragma once

#include "plate/save.h"
#include "refit/hole-use.h"

/* A plate with more usable holes than this on a face is not in the lists; it always matters. */
#define RACK_HOLES_MOST 400
/* When the lists are as long as this, further plates are not in them either. */
#define RACK_PITCHES_MOST 40000000

typedef struct RackEntry {
    char *file; /* its name in the folder */
    FileStamp stamp;
    char *error;  /* why it can't be read, or NULL */
    bool crowded; /* is not in the lists, which would grow too long */
} RackEntry;

/* A distance between two holes of a plate. */
typedef struct Pitch {
    float mm;
    uint32_t plate; /* which entry; a spoilt cache may name none that is there */
} Pitch;

/* The pitches between holes of two uses; `one` <= `other`. */
typedef struct PitchGroup {
    uint32_t one, other;
    uint64_t first, count;
} PitchGroup;

typedef struct RackIndex {
    GPtrArray *entries; /* RackEntry, by file name */
    GArray *uses;       /* HoleUse */
    GArray *groups;     /* PitchGroup, by one and other */
    const Pitch *pitches;
    uint64_t pitch_count;
    void *store; /* what the pitches lie in */
    void (*store_free)(void *store);
} RackIndex;

/* Says how much is done and which file is read; false stops. */
typedef bool (*RackGoOn)(double done, const char *file, void *data);

/* The index of a folder, brought up to date: files that are new or changed are read, others are
 * taken from the cache in `cache_folder` (NULL: the user's). A file that can't be read is an entry
 * with its error. `reread`, where given, counts the files read. NULL with an error when the folder
 * can't be, or (ERROR_NONE) when it was stopped. That the cache can't be written is no error. */
RackIndex *rack_index_open(const char *folder, const char *cache_folder, RackGoOn go_on, void *data,
                           uint32_t *reread, Error *error);
/* The folder's plates alone, none of them read. */
RackIndex *rack_index_list(const char *folder, Error *error);
void rack_index_free(RackIndex *index);

/* Marks in `marks` (one for each entry) the plates that have, on one face, two holes of which one
 * can locate one of the part's holes and the other can locate or hold another, as far apart as
 * those; and the crowded ones. `clearance` as in hole_options. */
void rack_index_mark(const RackIndex *index, const Part *part, double clearance, bool *marks);

/* ---- for the files of the index ---- */
RackIndex *rack_index_new(void);
/* The cache file for a folder; the caller frees it. */
char *rack_index_path(const char *folder, const char *cache_folder);
/* An index as it was saved, or an empty one where there is none or it makes no sense. */
RackIndex *rack_index_load(const char *path);
void rack_index_save(const RackIndex *index, const char *path);
uint32_t rack_index_use(RackIndex *index, const HoleUse *use);
void rack_entry_free(RackEntry *entry);
