/* What a plate's file costs. Opening: reading the bytes into a plate, beside json-c's bare parse of
 * the same bytes, each time in a fresh process, and again and again in one. Saving: writing the
 * plate, beside the same bytes written with the same sync, rename and sync of the folder; in the
 * folder for temporary files by the clock, and in memory, where nothing is waited for, by the
 * processor's time. Memory: what one more hole takes, in the plate alone and with all that is
 * worked out for it. */
#include "bench-plates.h"

#include "plate/plate-file.h"
#include "support/plates.h"

#include <glib/gstdio.h>
#include <json-c/json.h>
#include <malloc.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define ROUNDS 21

static double now(clockid_t clock)
{
    struct timespec time;
    clock_gettime(clock, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *values)
{
    qsort(values, ROUNDS, sizeof *values, by_size);
    return values[ROUNDS / 2];
}

static double parse_bare(const char *bytes, size_t size)
{
    double start = now(CLOCK_PROCESS_CPUTIME_ID);
    json_tokener *tokener = json_tokener_new_ex(32);
    json_object *json = json_tokener_parse_ex(tokener, bytes, (int)size);
    json_object_put(json);
    json_tokener_free(tokener);
    return now(CLOCK_PROCESS_CPUTIME_ID) - start;
}

static double parse_ours(const char *bytes, size_t size)
{
    double start = now(CLOCK_PROCESS_CPUTIME_ID);
    plate_free(plate_parse(bytes, size, NULL));
    return now(CLOCK_PROCESS_CPUTIME_ID) - start;
}

typedef double (*Parse)(const char *bytes, size_t size);

/* A heap that others have used is laid out anyhow: a child has the same one each time. */
static double parse_in_child(Parse parse, const char *bytes, size_t size)
{
    int ends[2];
    double seconds = 0;
    if (pipe(ends) != 0)
        exit(2);
    pid_t child = fork();
    if (child == 0) {
        seconds = parse(bytes, size);
        _exit(write(ends[1], &seconds, sizeof seconds) != sizeof seconds);
    }
    if (child < 0 || read(ends[0], &seconds, sizeof seconds) != sizeof seconds)
        exit(2);
    waitpid(child, NULL, 0);
    close(ends[0]);
    close(ends[1]);
    return seconds;
}

static void open_one(int holes, const char *bytes, size_t size)
{
    double ours[ROUNDS], bare[ROUNDS], ours_again[ROUNDS], bare_again[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        bare[i] = parse_in_child(parse_bare, bytes, size);
        ours[i] = parse_in_child(parse_ours, bytes, size);
        bare_again[i] = parse_bare(bytes, size);
        ours_again[i] = parse_ours(bytes, size);
    }
    printf("open    %6d holes: %5.2f times json-c's bare parse, %5.2f again in one process\n",
           holes, median(ours) / median(bare), median(ours_again) / median(bare_again));
}

static void save_in(const char *folder, const char *where, clockid_t clock, const Plate *plate,
                    const char *bytes, size_t size)
{
    char *path = g_build_filename(folder, "pinplate-bench.plate", NULL);
    double ours[ROUNDS], bare[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        double start = now(clock);
        save_bytes(path, bytes, size, NULL, NULL);
        bare[i] = now(clock) - start;
        start = now(clock);
        plate_save(plate, path, NULL, NULL);
        ours[i] = now(clock) - start;
    }
    printf("save    %6u records: %5.2f times the same bytes with the same sync, %s (%.3f ms)\n",
           plate_count(plate), median(ours) / median(bare), where, 1e3 * median(ours));
    g_remove(path);
    g_free(path);
}

static void save_one(const Plate *plate, const char *bytes, size_t size)
{
    char *folder = g_dir_make_tmp("pinplate-bench-XXXXXX", NULL);
    save_in(folder, "folder for temporary files", CLOCK_MONOTONIC, plate, bytes, size);
    if (g_file_test("/dev/shm", G_FILE_TEST_IS_DIR))
        save_in("/dev/shm", "in memory", CLOCK_PROCESS_CPUTIME_ID, plate, bytes, size);
    g_rmdir(folder);
    g_free(folder);
}

static size_t in_use(void)
{
    return mallinfo2().uordblks + mallinfo2().hblkhd;
}

static void weigh(int holes)
{
    size_t start = in_use();
    Plate *plate = holes_plate(holes);
    size_t with_plate = in_use();
    Placed *placed = placed_new(plate);
    Checker *checker = checker_new();
    checker_update(checker, placed, NULL);
    size_t with_all = in_use();
    printf("memory  %6d holes: %5zu bytes each in the plate, %5zu worked out and checked\n", holes,
           (with_plate - start) / (size_t)holes, (with_all - with_plate) / (size_t)holes);
    checker_free(checker);
    placed_free(placed);
    plate_free(plate);
}

int main(void)
{
    for (int holes = 100; holes <= 10000; holes *= 10) {
        size_t size;
        Plate *plate = holes_plate(holes);
        char *bytes = plate_text(plate, &size);
        open_one(holes, bytes, size);
        save_one(plate, bytes, size);
        weigh(holes);
        g_free(bytes);
        plate_free(plate);
    }
    return 0;
}
