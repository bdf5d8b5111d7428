/* A rack of generated plates, some of which take a part as they stand: the search with the index
 * against the search that opens every plate, in the same run, by the processor's time, which other
 * work on the machine does not lengthen. Usage: bench-rack [plates] */
#include "refit/rack-maker.h"
#include "refit/rack.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static uint32_t fits(const RackSearch *search, const RackMaker *maker, uint32_t *wrong)
{
    uint32_t found = 0;
    for (guint i = 0; i < search->rows->len; i++) {
        const RackRow *row = search->rows->pdata[i];
        uint32_t number = (uint32_t)strtoul(row->file + 6, NULL, 10);
        bool says_so = row->verdict == REFIT_FITS;
        found += says_so && rack_maker_is_plant(maker, number);
        *wrong += says_so != rack_maker_is_plant(maker, number);
    }
    return found;
}

static double timed(const char *folder, const char *cache, const Part *part, bool without,
                    RackSearch **search)
{
    RackOptions options = {.cache_folder = cache, .without_index = without};
    clock_t start = clock();
    *search = rack_search(folder, part, &options, NULL);
    return (double)(clock() - start) / CLOCKS_PER_SEC;
}

static bool report(const RackMaker *maker, const char *folder, const char *cache, const Part *part)
{
    RackSearch *first, *with, *without;
    double best = INFINITY;
    uint32_t wrong = 0;
    double building = timed(folder, cache, part, false, &first);
    for (int i = 0; i < 5; i++) {
        best = fmin(best, timed(folder, cache, part, false, &with));
        if (i < 4)
            rack_search_free(with);
    }
    double opening = timed(folder, cache, part, true, &without);
    uint32_t by_index = fits(with, maker, &wrong), by_opening = fits(without, maker, &wrong);
    printf("%u plates of %u holes, %u planted fits\n", maker->plates, maker->holes, maker->plants);
    printf("found with the index %u, by opening every plate %u, wrong %u\n", by_index, by_opening,
           wrong);
    printf("opened with the index %u of %u\n", with->opened, maker->plates);
    printf("time of opening every plate over time with the index: %.0f\n", opening / best);
    printf("time of making the index over time of opening every plate: %.2f\n", building / opening);
    if (getenv("BENCH_TIMES"))
        printf("index made %.3g s, with it %.3g s, without %.3g s\n", building, best, opening);
    rack_search_free(first);
    rack_search_free(with);
    rack_search_free(without);
    return by_index == maker->plants && by_opening == maker->plants && wrong == 0;
}

static bool run(const RackMaker *maker)
{
    char *folder = g_dir_make_tmp("pinplate-bench-XXXXXX", NULL);
    char *cache = g_dir_make_tmp("pinplate-bench-XXXXXX", NULL);
    Record *part = rack_maker_part();
    bool fine = folder && cache && rack_maker_write(folder, maker) &&
                report(maker, folder, cache, &part->part);
    record_unref(part);
    rack_maker_remove(folder);
    rack_maker_remove(cache);
    g_free(folder);
    g_free(cache);
    fflush(stdout);
    return fine;
}

/* Two racks: one on which nothing but the plants is near the part's pattern, and one on which some
 * plates have two holes at its pitch by chance, so that they have to be opened as well. */
int main(int argc, char **argv)
{
    RackMaker maker = {.plates = argc > 1 ? (uint32_t)strtoul(argv[1], NULL, 10) : 10000,
                       .holes = 60,
                       .plants = 25,
                       .seed = 20240611};
    bool fine = run(&maker);
    maker.screws = 0.02;
    return run(&maker) && fine ? 0 : 1;
}
