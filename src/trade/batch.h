/* batch.h: a shift on one machine with several plates: what waits for what.
 *
 * One maker loads plates beside the machine and puts them on it; the spindle cuts by itself. Each
 * plate goes through the operations in turn, and is loaded anew before each. Changing plates takes
 * the maker and the machine. Plates go in a fixed order. All times are in minutes.
 */
#pragma once

#include "geometry/error.h"

#include <stddef.h>

#define BATCH_OPERATIONS_MOST 12
#define BATCH_PLATES_MOST 12

typedef struct Batch {
    double load; /* unloading and loading one plate, beside the machine; 0 up */
    double swap; /* taking one plate off and putting the next on; 0 up */
    double cut[BATCH_OPERATIONS_MOST]; /* more than 0 */
    size_t operation_count;
    int plates;
    int parts; /* on one plate */
} Batch;

typedef enum BatchWork {
    BATCH_LOAD,
    BATCH_SWAP,
    BATCH_CUT,
} BatchWork;

/* A bar of the chart. */
typedef struct BatchBar {
    BatchWork work;
    int plate;
    size_t operation;
    double start, end; /* minutes from the shift's start */
} BatchBar;

typedef struct BatchResult {
    double parts_an_hour; /* in the long run */
    double spindle_busy;  /* share of the time that the spindle cuts, 0 to 1 */
    double maker_busy;    /* share of the time that the maker loads or changes plates */
    int plates_needed;    /* the fewest that let as many parts through as more would */
    const char *waits;    /* "the spindle waits for the maker", "the maker waits for the spindle",
                             "both wait for plates" */
} BatchResult;

/* Works a batch out by going from event to event: the maker changes plates whenever the spindle
 * stands and a loaded plate is next, leaving off loading for it, else loads the next plate, else
 * waits. False with a sentence
 * where a time or number is out of range. */
bool batch_work_out(const Batch *batch, BatchResult *result, Error *error);

/* The bars of the first `shift` minutes in the order of their start (a loading that was left off
 * has several); at most `most` of them, cut off at the shift's end. Returns their number. The batch
 * must be one batch_work_out took. */
size_t batch_bars(const Batch *batch, double shift, BatchBar *bars, size_t most);
