/* What a check of a whole plate by all rules costs, beside the same rules looking at every pair:
 * the same program, whose index then hands out all that is on a face instead of what is near. The
 * box of each pair is still compared with each rule's reach before the rule is asked, as one would
 * without an index. The linker sends the calls of index_each_near here first (--wrap). */
#include "bench-plates.h"

#include "support/plates.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define ROUNDS_MOST 9

typedef bool (*KeyVisit)(uint32_t key, void *data);
void __real_index_each_near(const Index *index, Box box, KeyVisit visit, void *data);
void __wrap_index_each_near(const Index *index, Box box, KeyVisit visit, void *data);

static bool all_pairs;
/* All keys of the one index that was asked last. */
static const Index *known;
static GArray *keys;

static bool add_key(uint32_t key, void *data)
{
    g_array_append_val(keys, key);
    return true;
}

void __wrap_index_each_near(const Index *index, Box box, KeyVisit visit, void *data)
{
    if (!all_pairs) {
        __real_index_each_near(index, box, visit, data);
        return;
    }
    if (index != known) {
        known = index;
        g_array_set_size(keys, 0);
        __real_index_each_near(index, (Box){-1e6, -1e6, 1e6, 1e6}, add_key, NULL);
    }
    for (guint i = 0; i < keys->len; i++)
        if (!visit(g_array_index(keys, uint32_t, i), data))
            return;
}

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static double check(const Placed *placed, bool all, uint32_t *findings)
{
    Checker *checker = checker_new();
    all_pairs = all;
    known = NULL;
    double start = seconds_now();
    checker_update(checker, placed, NULL);
    double took = seconds_now() - start;
    all_pairs = false;
    *findings = checker_findings(checker)->count;
    checker_free(checker);
    return took;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void compare(Plate *plate, const char *what, int rounds)
{
    uint32_t near, all;
    double ours[ROUNDS_MOST], brute[ROUNDS_MOST];
    Placed *placed = placed_new(plate);
    for (int i = 0; i < rounds; i++) {
        ours[i] = check(placed, false, &near);
        brute[i] = check(placed, true, &all);
    }
    qsort(ours, (size_t)rounds, sizeof *ours, by_size);
    qsort(brute, (size_t)rounds, sizeof *brute, by_size);
    printf("%-8s %6u records, all rules: %6.1f ms, every pair takes %.1f times as long; %u and %u "
           "findings\n",
           what, plate_count(plate), ours[rounds / 2] * 1e3, brute[rounds / 2] / ours[rounds / 2],
           near, all);
    placed_free(placed);
    plate_free(plate);
}

int main(void)
{
    keys = g_array_new(FALSE, FALSE, sizeof(uint32_t));
    for (int count = 100; count <= 10000; count *= 10) {
        int rounds = count < 3000 ? ROUNDS_MOST : 1;
        compare(holes_plate(count), "holes", rounds);
        compare(stations_plate(count / 20), "stations", rounds);
    }
    g_array_unref(keys);
    return 0;
}
