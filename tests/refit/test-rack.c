/* Rack: planted fits are all found and nothing else is; the index says what opening every plate
 * says; it follows files that come, go and change; a broken file is named and passed over. */
#include "refit/rack-maker.h"
#include "refit/rack.h"
#include "support/plates.h"

#include <glib/gstdio.h>

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const RackMaker small = {.plates = 60, .holes = 30, .plants = 6, .screws = 0.1, .seed = 7};

typedef struct Folders {
    char *plates, *cache;
    Record *part;
} Folders;

static int set_up(void **state)
{
    Folders *folders = g_new0(Folders, 1);
    folders->plates = g_dir_make_tmp("pinplate-rack-XXXXXX", NULL);
    folders->cache = g_dir_make_tmp("pinplate-cache-XXXXXX", NULL);
    folders->part = rack_maker_part();
    *state = folders;
    return rack_maker_write(folders->plates, &small) ? 0 : -1;
}

static int tear_down(void **state)
{
    Folders *folders = *state;
    rack_maker_remove(folders->plates);
    rack_maker_remove(folders->cache);
    record_unref(folders->part);
    g_free(folders->plates);
    g_free(folders->cache);
    g_free(folders);
    return 0;
}

static RackSearch *search(const Folders *folders, bool without_index)
{
    RackOptions options = {.cache_folder = folders->cache, .without_index = without_index};
    Error error = {.kind = ERROR_NONE};
    RackSearch *found = rack_search(folders->plates, &folders->part->part, &options, &error);
    if (!found)
        fail_msg("%s: %s", error.file, error.message);
    return found;
}

static const RackRow *row_of(const RackSearch *search, const char *file)
{
    for (guint i = 0; i < search->rows->len; i++)
        if (strcmp(((const RackRow *)search->rows->pdata[i])->file, file) == 0)
            return search->rows->pdata[i];
    return NULL;
}

static char *plate_path(const Folders *folders, uint32_t number)
{
    char name[32];
    g_snprintf(name, sizeof name, "plate-%05u.plate", number);
    return g_build_filename(folders->plates, name, NULL);
}

static void planted_fits_are_found_and_no_others(void **state)
{
    RackSearch *found = search(*state, false);
    assert_int_equal(found->rows->len, small.plates);
    assert_int_equal(found->reread, small.plates);
    for (uint32_t i = 0; i < small.plates; i++) {
        char name[32];
        g_snprintf(name, sizeof name, "plate-%05u.plate", i);
        const RackRow *row = row_of(found, name);
        assert_non_null(row);
        assert_false(row->broken);
        if ((row->verdict == REFIT_FITS) != rack_maker_is_plant(&small, i))
            fail_msg("%s: %s", name, row->says);
    }
    for (uint32_t i = 0; i < small.plants; i++)
        assert_int_equal(((const RackRow *)found->rows->pdata[i])->verdict, REFIT_FITS);
    if (found->opened > small.plates / 2)
        fail_msg("%u plates were opened", found->opened);
    rack_search_free(found);
}

static void the_index_says_what_opening_every_plate_says(void **state)
{
    rack_search_free(search(*state, false));
    RackSearch *with = search(*state, false), *without = search(*state, true);
    assert_int_equal(with->reread, 0);
    assert_int_equal(without->opened, small.plates);
    assert_int_equal(with->rows->len, without->rows->len);
    for (guint i = 0; i < with->rows->len; i++) {
        const RackRow *one = with->rows->pdata[i], *other = row_of(without, one->file);
        assert_int_equal(one->verdict, other->verdict);
        assert_int_equal(one->positions, other->positions);
        assert_string_equal(one->says, other->says);
    }
    rack_search_free(with);
    rack_search_free(without);
}

static void the_index_follows_the_files(void **state)
{
    const Folders *folders = *state;
    char *gone = plate_path(folders, 0), *changed = plate_path(folders, 1);
    char *planted = plate_path(folders, 10), *added = plate_path(folders, 900);
    char *bytes;
    gsize size;
    rack_search_free(search(folders, false));
    /* The first plant goes, another is copied over a plain plate and to a new name. */
    assert_true(g_file_get_contents(planted, &bytes, &size, NULL));
    assert_true(g_file_set_contents(changed, bytes, (gssize)size, NULL));
    assert_true(g_file_set_contents(added, bytes, (gssize)size, NULL));
    assert_int_equal(g_remove(gone), 0);
    RackSearch *found = search(folders, false);
    assert_int_equal(found->reread, 2);
    assert_null(row_of(found, "plate-00000.plate"));
    assert_int_equal(row_of(found, "plate-00001.plate")->verdict, REFIT_FITS);
    assert_int_equal(row_of(found, "plate-00010.plate")->verdict, REFIT_FITS);
    assert_int_equal(row_of(found, "plate-00900.plate")->verdict, REFIT_FITS);
    assert_int_equal(row_of(found, "plate-00030.plate")->verdict, REFIT_FITS);
    rack_search_free(found);
    found = search(folders, false);
    assert_int_equal(found->reread, 0);
    rack_search_free(found);
    g_free(bytes);
    g_free(gone);
    g_free(changed);
    g_free(planted);
    g_free(added);
}

static void a_broken_file_is_named_and_passed_over(void **state)
{
    const Folders *folders = *state;
    char *path = plate_path(folders, 777);
    assert_true(g_file_set_contents(path, "{\n\"format\": 3,", -1, NULL));
    for (int round = 0; round < 2; round++) {
        RackSearch *found = search(folders, false);
        const RackRow *row = found->rows->pdata[found->rows->len - 1];
        assert_string_equal(row->file, "plate-00777.plate");
        assert_true(row->broken && strlen(row->says) > 5);
        assert_int_equal(found->rows->len, small.plates + 1);
        rack_search_free(found);
    }
    g_free(path);
}

static void a_spoilt_index_is_made_again(void **state)
{
    const Folders *folders = *state;
    char *path = rack_index_path(folders->plates, folders->cache), *bytes;
    gsize size;
    RackSearch *first = search(folders, false);
    uint32_t opened = first->opened, seed = 3;
    rack_search_free(first);
    assert_true(g_file_get_contents(path, &bytes, &size, NULL));
    for (int round = 0; round < 12; round++) {
        gsize cut = round < 4 ? size * (gsize)round / 4 : size;
        char *spoilt = g_memdup2(bytes, size);
        for (int i = 0; i < 20 && round >= 4; i++)
            spoilt[(gsize)random_between(&seed, 0, (double)size)] ^= (char)(1 << (i % 8));
        assert_true(g_file_set_contents(path, spoilt, (gssize)cut, NULL));
        RackSearch *again = search(folders, false);
        assert_int_equal(again->rows->len, small.plates);
        if (round < 4) {
            assert_int_equal(again->reread, small.plates);
            assert_int_equal(again->opened, opened);
        }
        rack_search_free(again);
        g_free(spoilt);
    }
    g_free(bytes);
    g_free(path);
}

static void a_folder_that_is_not_there_is_an_error(void **state)
{
    const Folders *folders = *state;
    Error error = {.kind = ERROR_NONE};
    assert_null(rack_search("/no/such/folder", &folders->part->part, NULL, &error));
    assert_int_equal(error.kind, ERROR_FILE);
    assert_string_equal(error.file, "/no/such/folder");
}

static bool stop_later(double done, const char *file, void *data)
{
    int *left = data;
    assert_true(done >= 0 && done <= 1 && file);
    return --*left > 0;
}

static void it_can_be_stopped(void **state)
{
    const Folders *folders = *state;
    for (int steps = 1; steps < 140; steps += 46) {
        int left = steps;
        RackOptions options = {.cache_folder = folders->cache, .go_on = stop_later, .data = &left};
        RackSearch *found = rack_search(folders->plates, &folders->part->part, &options, NULL);
        assert_non_null(found);
        assert_int_equal(found->stopped, left <= 0);
        rack_search_free(found);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(planted_fits_are_found_and_no_others, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_index_says_what_opening_every_plate_says, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(the_index_follows_the_files, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_broken_file_is_named_and_passed_over, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_spoilt_index_is_made_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_folder_that_is_not_there_is_an_error, set_up, tear_down),
        cmocka_unit_test_setup_teardown(it_can_be_stopped, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
