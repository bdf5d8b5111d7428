/* What one move of a drag costs on a plate with operations: the time of placed_overlay_show and
 * checker_try against that of a fresh check of the whole plate in the same run, and how often a
 * move allocates. Usage: bench-moves [stations, about 20 things each] */
#include "bench-plates.h"

#include "support/plates.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define MOVES 400

/* Every allocation of the program and its libraries comes by here; a sanitizer has its own, and
 * none are counted then. */
static size_t allocations;

#ifdef __has_feature
#define HAS_SANITIZER __has_feature(address_sanitizer)
#elif defined(__SANITIZE_ADDRESS__)
#define HAS_SANITIZER 1
#else
#define HAS_SANITIZER 0
#endif

#if !HAS_SANITIZER && defined(__GLIBC__)
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

void *malloc(size_t size)
{
    allocations++;
    return __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    allocations++;
    return __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    allocations++;
    return __libc_realloc(old, size);
}
#endif

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

typedef struct Bench {
    Plate *plate;
    Placed *placed, *overlay;
    Checker *checker;
    Scratch *scratch;
    FindingDelta delta;
} Bench;

/* Seconds of one move of a record, and the allocations of the second half of them all. */
static double time_moves(Bench *bench, FeatureId id, size_t *made)
{
    const Record *record = plate_find(bench->plate, id);
    Edit edits[MOVES];
    size_t before = 0;
    for (int i = 0; i < MOVES; i++) {
        Record *copy = record_copy(record, id);
        record_place(copy)->x += MM(6 * sin(i / 9.0));
        record_place(copy)->y += MM(6 * cos(i / 9.0));
        edits[i] = EDIT_EMPTY;
        edit_add(&edits[i], record_ref(record), copy);
    }
    double start = seconds_now();
    for (int i = 0; i < MOVES; i++) {
        if (i == MOVES / 2)
            before = allocations;
        placed_overlay_show(bench->overlay, bench->plate, &edits[i]);
        checker_try(bench->checker, bench->overlay, bench->scratch, &bench->delta);
    }
    *made = allocations - before;
    double each = (seconds_now() - start) / MOVES;
    for (int i = 0; i < MOVES; i++)
        edit_clear(&edits[i]);
    return each;
}

static FeatureId last_of(const Plate *plate, RecordKind kind)
{
    FeatureId id = ID_NONE;
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == kind)
            id = plate_at(plate, i)->id;
    return id;
}

int main(int argc, char **argv)
{
    static const RecordKind kinds[] = {RECORD_HOLE, RECORD_RECESS, RECORD_STATION};
    static const char *const names[] = {"a hole", "a slot", "a station and all on it"};
    int stations = argc > 1 ? atoi(argv[1]) : 50;
    Bench bench = {.plate = stations_plate(stations)};
    bench.placed = placed_new(bench.plate);
    bench.overlay = placed_overlay_new(bench.placed);
    bench.checker = checker_new();
    bench.scratch = scratch_new();
    double start = seconds_now();
    checker_update(bench.checker, bench.placed, NULL);
    double whole = seconds_now() - start;
    printf("%u records, %u findings; the whole plate in %.2f ms\n", plate_count(bench.plate),
           checker_findings(bench.checker)->count, whole * 1e3);
    for (size_t i = 0; i < G_N_ELEMENTS(kinds); i++) {
        size_t made;
        FeatureId id = last_of(bench.plate, kinds[i]);
        double each = time_moves(&bench, id, &made);
        printf("moving %s: %.3f ms, the whole plate takes %.0f times as long; %zu allocations\n",
               names[i], each * 1e3, whole / each, made);
    }
    finding_delta_clear(&bench.delta);
    scratch_free(bench.scratch);
    checker_free(bench.checker);
    placed_free(bench.overlay);
    placed_free(bench.placed);
    plate_free(bench.plate);
    return 0;
}
