#include "trade/batch.h"

#include <math.h>

/* Turns of work: turn t is plate t % plates at operation (t / plates) % operations. */
typedef struct Course {
    const Batch *batch;
    size_t loaded;                   /* turns loaded */
    size_t mounted;                  /* turns put on the machine */
    double load_left;                /* of the plate being loaded; 0: none is begun */
    double maker_free, spindle_free; /* when */
    double plate_free[BATCH_PLATES_MOST];
} Course;

static int plate_of(const Batch *batch, size_t turn)
{
    return (int)(turn % (size_t)batch->plates);
}

static size_t operation_of(const Batch *batch, size_t turn)
{
    return turn / (size_t)batch->plates % batch->operation_count;
}

static Course course_start(const Batch *batch)
{
    return (Course){.batch = batch};
}

static bool plate_ready(const Course *course)
{
    return course->loaded > course->mounted;
}

/* A shorter rest than this is rounding. */
#define NO_TIME 1e-9

/* Loads until done or, where another plate is ready, until the spindle stands. */
static BatchBar load_on(Course *course)
{
    size_t turn = course->loaded;
    int plate = plate_of(course->batch, turn);
    double left = course->load_left > 0 ? course->load_left : course->batch->load;
    double start = fmax(course->maker_free, course->plate_free[plate]);
    double end = start + left;
    if (plate_ready(course))
        end = fmin(end, fmax(start, course->spindle_free));
    course->load_left = left - (end - start);
    if (course->load_left < NO_TIME) {
        course->load_left = 0;
        course->loaded++;
    }
    course->maker_free = end;
    return (BatchBar){BATCH_LOAD, plate, operation_of(course->batch, turn), start, end};
}

static BatchBar swap_next(Course *course)
{
    size_t turn = course->mounted;
    double start = fmax(course->maker_free, course->spindle_free);
    double end = start + course->batch->swap;
    course->maker_free = course->spindle_free = end;
    /* The plate that was on the machine is off it from here on, and can be loaded. */
    if (turn > 0)
        course->plate_free[plate_of(course->batch, turn - 1)] = end;
    return (BatchBar){BATCH_SWAP, plate_of(course->batch, turn), operation_of(course->batch, turn),
                      start, end};
}

static BatchBar cut_next(Course *course)
{
    size_t turn = course->mounted++;
    size_t operation = operation_of(course->batch, turn);
    double start = course->spindle_free;
    course->spindle_free = start + course->batch->cut[operation];
    /* A shop's only plate is unloaded where it stands. */
    if (course->batch->plates == 1)
        course->plate_free[0] = course->spindle_free;
    return (BatchBar){BATCH_CUT, plate_of(course->batch, turn), operation, start,
                      course->spindle_free};
}

/* Whether there is a plate off the machine that is not loaded. */
static bool plate_to_load(const Course *course)
{
    size_t waiting = course->loaded - course->mounted;
    size_t on_machine = course->mounted > 0;
    return course->batch->plates == 1 ? waiting == 0
                                      : waiting + on_machine < (size_t)course->batch->plates;
}

/* The next thing that happens; a swap and its cut come one after the other. */
static BatchBar course_step(Course *course, bool *cut_follows)
{
    if (*cut_follows) {
        *cut_follows = false;
        return cut_next(course);
    }
    bool stands = course->spindle_free <= course->maker_free + NO_TIME;
    if (!plate_ready(course) || (!stands && plate_to_load(course)))
        return load_on(course);
    *cut_follows = true;
    return swap_next(course);
}

static bool fine(const Batch *batch, Error *error)
{
    bool times = batch->load >= 0 && batch->swap >= 0 && batch->load < 1e6 && batch->swap < 1e6;
    for (size_t i = 0; i < batch->operation_count && i < BATCH_OPERATIONS_MOST; i++)
        times = times && batch->cut[i] > 0 && batch->cut[i] < 1e6;
    if (!times)
        return error_set(error, ERROR_LIMIT, NULL,
                         "load and swap times can't be less than 0, cutting must take some time");
    if (batch->plates < 1 || batch->plates > BATCH_PLATES_MOST || batch->parts < 1 ||
        batch->operation_count < 1 || batch->operation_count > BATCH_OPERATIONS_MOST)
        return error_set(
            error, ERROR_LIMIT, NULL,
            "a batch has 1 to %d plates, 1 part or more on each and 1 to %d operations",
            BATCH_PLATES_MOST, BATCH_OPERATIONS_MOST);
    return true;
}

typedef struct Shares {
    double minutes_a_plate; /* for all its operations, in the long run */
    double spindle, maker;
} Shares;

#define ROUNDS_TO_SETTLE 40
#define ROUNDS_COUNTED 60

/* In the long run everything repeats; the start is left out. */
static Shares long_run(const Batch *batch)
{
    Course course = course_start(batch);
    size_t round = (size_t)batch->plates * batch->operation_count;
    bool cut_follows = false;
    double start = 0, maker = 0, spindle = 0;
    while (course.mounted < round * (ROUNDS_TO_SETTLE + ROUNDS_COUNTED)) {
        bool counted = course.mounted >= round * ROUNDS_TO_SETTLE;
        BatchBar bar = course_step(&course, &cut_follows);
        if (!counted) {
            start = course.spindle_free;
            continue;
        }
        if (bar.work == BATCH_CUT)
            spindle += bar.end - bar.start;
        else
            maker += bar.end - bar.start;
    }
    double time = course.spindle_free - start;
    return (Shares){time / ((double)batch->plates * ROUNDS_COUNTED), spindle / time, maker / time};
}

static int plates_needed(const Batch *batch)
{
    Batch trial = *batch;
    trial.plates = BATCH_PLATES_MOST;
    double best = long_run(&trial).minutes_a_plate;
    for (trial.plates = 1; trial.plates < BATCH_PLATES_MOST; trial.plates++)
        if (long_run(&trial).minutes_a_plate <= best * (1 + 1e-9))
            break;
    return trial.plates;
}

bool batch_work_out(const Batch *batch, BatchResult *result, Error *error)
{
    if (!fine(batch, error))
        return false;
    Shares shares = long_run(batch);
    double swaps = batch->swap * (double)batch->operation_count / shares.minutes_a_plate;
    result->parts_an_hour = 60 * batch->parts / shares.minutes_a_plate;
    result->spindle_busy = shares.spindle;
    result->maker_busy = shares.maker;
    result->plates_needed = plates_needed(batch);
    if (shares.spindle + swaps > 1 - 1e-6)
        result->waits = "the maker waits for the spindle";
    else if (shares.maker > 1 - 1e-6)
        result->waits = "the spindle waits for the maker";
    else
        result->waits = "both wait for plates";
    return true;
}

size_t batch_bars(const Batch *batch, double shift, BatchBar *bars, size_t most)
{
    Course course = course_start(batch);
    bool cut_follows = false;
    size_t count = 0;
    while (count < most) {
        BatchBar bar = course_step(&course, &cut_follows);
        if (bar.start >= shift)
            break;
        bar.end = fmin(bar.end, shift);
        bars[count++] = bar;
    }
    return count;
}
