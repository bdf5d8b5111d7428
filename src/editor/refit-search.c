#include "editor/refit-search.h"

struct RefitSearch {
    Plate *plate;
    Placed *placed;
    Checker *checker;
    Record *part;
    FeatureId replace;
    Refit *refit;
    GThread *thread;
    gint stop, thousandths; /* both threads' */
    RefitSearched done;
    void *data;
    bool stopped; /* before it had looked everywhere; once it is over */
    bool over, released;
};

static void search_free(RefitSearch *search)
{
    refit_free(search->refit);
    checker_free(search->checker);
    placed_free(search->placed);
    plate_free(search->plate);
    record_unref(search->part);
    g_free(search);
}

static gboolean on_over(gpointer data)
{
    RefitSearch *search = data;
    g_thread_join(search->thread);
    search->over = true;
    if (search->released)
        search_free(search);
    else
        search->done(search, search->data);
    return G_SOURCE_REMOVE;
}

static bool goes_on(double done, void *data)
{
    RefitSearch *search = data;
    g_atomic_int_set(&search->thousandths, (gint)(1000 * done));
    return !g_atomic_int_get(&search->stop);
}

static gpointer run(gpointer data)
{
    RefitSearch *search = data;
    RefitOptions options = {.replace = search->replace, .go_on = goes_on, .data = search};
    search->placed = placed_new(search->plate);
    search->checker = checker_new();
    checker_update(search->checker, search->placed, NULL);
    search->refit =
        refit_new(search->plate, search->placed, search->checker, &search->part->part, &options);
    search->stopped = !refit_search(search->refit);
    g_idle_add(on_over, search);
    return NULL;
}

/* Records are counted by one thread alone, so that the other gets copies. */
static Plate *copy_of(const Plate *plate)
{
    Plate *copy = plate_new_empty();
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        plate_put(copy, record_copy(record, record->id), NULL);
    }
    plate_reserve_ids(copy, plate_next_id(plate));
    return copy;
}

RefitSearch *refit_search_begin(const Plate *plate, const Part *part, FeatureId replace,
                                RefitSearched done, void *data)
{
    RefitSearch *search = g_new0(RefitSearch, 1);
    search->plate = copy_of(plate);
    search->part = record_new(ID_NONE, RECORD_PART);
    schema_copy(&part_schema, &search->part->part, part);
    search->replace = replace;
    search->done = done;
    search->data = data;
    search->thread = g_thread_new("refit", run, search);
    return search;
}

double refit_search_progress(RefitSearch *search)
{
    return g_atomic_int_get(&search->thousandths) / 1000.0;
}

void refit_search_stop(RefitSearch *search)
{
    g_atomic_int_set(&search->stop, 1);
}

bool refit_search_was_stopped(RefitSearch *search)
{
    return search->stopped;
}

Refit *refit_search_answers(RefitSearch *search)
{
    return search->refit;
}

void refit_search_release(RefitSearch *search)
{
    search->released = true;
    refit_search_stop(search);
    if (search->over)
        search_free(search);
}
