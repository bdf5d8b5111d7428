#include "refit/rack.h"

#include "checks/sentence.h"
#include "plate/label.h"
#include "plate/plate-file.h"
#include "refit/refit-text.h"

#include <string.h>

#define NOTHING N_("No two of its holes locate and hold two of the part's")

typedef struct Work {
    const char *folder;
    const Part *part;
    RackOptions options;
    RackSearch *search;
    double from, to; /* the share of the whole that is under way */
} Work;

static void row_free(void *data)
{
    RackRow *row = data;
    g_free(row->file);
    g_free(row->says);
    g_free(row);
}

void rack_search_free(RackSearch *search)
{
    if (!search)
        return;
    g_ptr_array_unref(search->rows);
    g_free(search);
}

static bool work_goes_on(double done, const char *file, void *data)
{
    const Work *work = data;
    return !work->options.go_on || work->options.go_on(work->from + (work->to - work->from) * done,
                                                       file, work->options.data);
}

/* --- one plate ------------------------------------------------------------------------------ */

static void say_best(const Work *work, Refit *refit, RackRow *row)
{
    Unit unit = work->options.unit;
    const Speech *speech = work->options.speech;
    uint32_t count = refit_count(refit);
    if (count == 0) {
        row->says = g_strdup(speech_say(speech, NOTHING));
        return;
    }
    const RefitAnswer *best = refit_at(refit, 0);
    row->verdict = best->verdict;
    row->new_holes = best->new_holes;
    for (uint32_t i = 0; i < count; i++)
        if (best->verdict != REFIT_NO && refit_at(refit, i)->verdict == best->verdict)
            row->positions += 1 + refit_at(refit, i)->alike->len;
    if (best->verdict != REFIT_NO) {
        row->says = refit_answer_said(refit, 0, unit, speech);
        return;
    }
    row->says = g_malloc(SENTENCE_TEXT);
    refit_reason_said(refit, 0, unit, speech, row->says);
}

static void search_plate(const Work *work, Plate *plate, RackRow *row)
{
    RefitOptions options = {.clearance = work->options.clearance,
                            .holes_alone = true,
                            .located = true,
                            .best_alone = true};
    label_all(plate);
    Placed *placed = placed_new(plate);
    Checker *checker = checker_new();
    checker_update(checker, placed, NULL);
    Refit *refit = refit_new(plate, placed, checker, work->part, &options);
    refit_search(refit);
    say_best(work, refit, row);
    refit_free(refit);
    checker_free(checker);
    placed_free(placed);
}

static void say_broken(RackRow *row, const char *why)
{
    row->broken = true;
    row->says = g_strdup(why);
}

static void open_plate(const Work *work, RackRow *row)
{
    Error error = {.kind = ERROR_NONE};
    char *path = g_build_filename(work->folder, row->file, NULL);
    Plate *plate = plate_read(path, NULL, &error);
    if (plate) {
        row->opened = true;
        work->search->opened++;
        search_plate(work, plate, row);
        plate_free(plate);
    } else {
        char line[1024];
        *error.file = 0;
        error_line(&error, line, sizeof line);
        say_broken(row, line);
    }
    g_free(path);
}

/* --- all ------------------------------------------------------------------------------------ */

static gint compare_rows(gconstpointer a, gconstpointer b)
{
    const RackRow *one = *(RackRow *const *)a, *other = *(RackRow *const *)b;
    if (one->broken != other->broken)
        return one->broken - other->broken;
    if (one->verdict != other->verdict)
        return (int)one->verdict - (int)other->verdict;
    if (one->new_holes != other->new_holes)
        return one->new_holes - other->new_holes;
    if (one->opened != other->opened)
        return other->opened - one->opened;
    return strcmp(one->file, other->file);
}

static void add_row(const Work *work, const RackEntry *entry, bool open)
{
    RackRow *row = g_new0(RackRow, 1);
    row->file = g_strdup(entry->file);
    row->verdict = REFIT_NO;
    g_ptr_array_add(work->search->rows, row);
    /* What is wrong with one is read anew: the index may have it in another language. */
    if (entry->error || open)
        open_plate(work, row);
    else
        row->says = g_strdup(speech_say(work->options.speech, NOTHING));
}

static void search_entries(Work *work, const RackIndex *index)
{
    bool *marks = g_new0(bool, index->entries->len + 1);
    double clearance = work->options.clearance > 0 ? work->options.clearance
                                                   : length_to_mm(LOCATOR_CLEARANCE_MOST);
    uint32_t todo = 0, done = 0;
    rack_index_mark(index, work->part, clearance, marks);
    for (guint i = 0; i < index->entries->len; i++)
        todo += marks[i] || work->options.without_index;
    work->from = work->options.without_index ? 0 : 0.5;
    work->to = 1;
    for (guint i = 0; i < index->entries->len; i++) {
        bool open = marks[i] || work->options.without_index;
        const RackEntry *entry = index->entries->pdata[i];
        if (open && !work_goes_on((double)done++ / todo, entry->file, work)) {
            work->search->stopped = true;
            break;
        }
        add_row(work, entry, open);
    }
    g_free(marks);
}

RackSearch *rack_search(const char *folder, const Part *part, const RackOptions *options,
                        Error *error)
{
    Error unheard;
    Work work = {.folder = folder, .part = part, .to = 0.5};
    if (!error)
        error = &unheard;
    error->kind = ERROR_NONE;
    work.options = options ? *options : (RackOptions){.unit = UNIT_MM};
    work.search = g_new0(RackSearch, 1);
    work.search->rows = g_ptr_array_new_with_free_func(row_free);
    RackIndex *index = work.options.without_index
                           ? rack_index_list(folder, error)
                           : rack_index_open(folder, work.options.cache_folder, work_goes_on, &work,
                                             &work.search->reread, error);
    if (!index && error->kind != ERROR_NONE) {
        rack_search_free(work.search);
        return NULL;
    }
    work.search->stopped = !index;
    if (index) {
        search_entries(&work, index);
        g_ptr_array_sort(work.search->rows, compare_rows);
        rack_index_free(index);
    }
    return work.search;
}
