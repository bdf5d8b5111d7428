/* Saving: the old or the new file is whole whatever happens; and the journal brings back what was
 * done. */
#include "support/plates.h"

#include "plate/journal.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

static char *folder;

static int make_folder(void **state)
{
    folder = g_dir_make_tmp("pinplate-XXXXXX", NULL);
    return folder == NULL;
}

static int remove_folder(void **state)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    for (const char *name; (name = g_dir_read_name(dir));) {
        char *path = g_build_filename(folder, name, NULL);
        g_remove(path);
        g_free(path);
    }
    g_dir_close(dir);
    g_rmdir(folder);
    g_free(folder);
    return 0;
}

static char *in_folder(const char *name)
{
    return g_build_filename(folder, name, NULL);
}

static int files_in_folder(void)
{
    int count = 0;
    GDir *dir = g_dir_open(folder, 0, NULL);
    while (g_dir_read_name(dir))
        count++;
    g_dir_close(dir);
    return count;
}

static void assert_file(const char *path, const char *expected)
{
    size_t size;
    Error error = {.kind = ERROR_NONE};
    char *bytes = read_bytes(path, 1 << 20, &size, NULL, &error);
    if (!bytes)
        fail_msg("%s", error.message);
    assert_string_equal(bytes, expected);
    g_free(bytes);
}

static void test_replaces_whole(void **state)
{
    char *path = in_folder("a.plate");
    FileStamp stamp;
    assert_true(save_bytes(path, "old", 3, NULL, NULL));
    g_chmod(path, 0640);
    assert_true(save_bytes(path, "newer", 5, &stamp, NULL));
    assert_file(path, "newer");
    assert_true(file_stamp_equal(stamp, file_stamp(path)));
    struct stat status;
    assert_int_equal(stat(path, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    assert_int_equal(files_in_folder(), 1);
    g_free(path);
}

static void test_follows_a_link(void **state)
{
    char *path = in_folder("a.plate"), *link = in_folder("link.plate");
    assert_true(save_bytes(path, "old", 3, NULL, NULL));
    assert_int_equal(symlink(path, link), 0);
    assert_true(save_bytes(link, "newer", 5, NULL, NULL));
    assert_file(path, "newer");
    struct stat status;
    assert_int_equal(lstat(link, &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    g_free(path);
    g_free(link);
}

static void test_failure_leaves_the_old(void **state)
{
    /* A limit on a file's size stands in for a disk that is full. */
    struct rlimit was, tight;
    char *path = in_folder("a.plate");
    char *large = g_strnfill(100000, 'x');
    Error error = {.kind = ERROR_NONE};
    assert_true(save_bytes(path, "old", 3, NULL, NULL));
    signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &was);
    tight = was;
    tight.rlim_cur = 50000;
    setrlimit(RLIMIT_FSIZE, &tight);
    bool saved = save_bytes(path, large, 100000, NULL, &error);
    setrlimit(RLIMIT_FSIZE, &was);
    assert_false(saved);
    assert_int_equal(error.kind, ERROR_FILE);
    assert_string_equal(error.file, path);
    assert_file(path, "old");
    assert_int_equal(files_in_folder(), 1);
    g_free(large);
    g_free(path);
}

static void test_what_is_no_file(void **state)
{
    Error error = {.kind = ERROR_NONE};
    char *nowhere = in_folder("no/such/folder.plate");
    size_t size;
    assert_false(save_bytes(folder, "x", 1, NULL, &error));
    assert_false(save_bytes(nowhere, "x", 1, NULL, &error));
    assert_null(read_bytes(folder, 100, &size, NULL, &error));
    assert_null(read_bytes(nowhere, 100, &size, NULL, &error));
    assert_null(read_bytes("/dev/zero", 100, &size, NULL, &error));
    assert_string_equal(error.file, "/dev/zero");
    g_free(nowhere);
}

static void test_journal_brings_back(void **state)
{
    uint32_t seed = 99;
    Plate *plate = random_plate(seed, 15);
    Journal *journal = journal_begin(folder, "/some/where.plate", plate, false, NULL);
    assert_non_null(journal);
    uint32_t edits = 0;
    while (edits < 25) {
        Edit edit = EDIT_EMPTY;
        random_edit(plate, &seed, &edit);
        if (edit.count && plate_apply(plate, &edit, NULL, NULL, NULL)) {
            assert_true(journal_add(journal, &edit, NULL));
            edits++;
        }
        edit_clear(&edit);
    }
    /* A second program on the same plate is told so, and spoils nothing. */
    Error error = {.kind = ERROR_NONE};
    assert_null(journal_begin(folder, "/some/where.plate", plate, false, &error));
    assert_int_equal(error.kind, ERROR_CONFLICT);
    assert_string_equal(error.file, "/some/where.plate");
    /* While it is held by a running program nobody is offered it. */
    GArray *found = journal_find(folder);
    assert_int_equal(found->len, 0);
    g_array_unref(found);
    journal_leave(journal);
    found = journal_find(folder);
    assert_int_equal(found->len, 1);
    const JournalFound *one = &g_array_index(found, JournalFound, 0);
    assert_string_equal(one->path, "/some/where.plate");
    assert_int_equal(one->edits, edits);
    Plate *back = journal_recover(one->file, NULL);
    assert_non_null(back);
    assert_int_equal(plate_count(back), plate_count(plate));
    for (uint32_t i = 0; i < plate_count(plate); i++)
        assert_true(record_equal(plate_at(plate, i), plate_at(back, i)));
    g_array_unref(found);
    plate_free(back);
    plate_free(plate);
}

static void test_cut_journal(void **state)
{
    /* Cut anywhere, it gives the whole edits before the cut. */
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    Journal *journal = journal_begin(folder, "/x.plate", plate, false, NULL);
    size_t ends[4];
    GArray *found;
    for (int i = 0; i < 3; i++) {
        Edit edit = EDIT_EMPTY;
        FeatureId id = put_hole(plate, 10 + 10 * i, 40, 4);
        edit_add(&edit, NULL, record_ref(plate_find(plate, id)));
        assert_true(journal_add(journal, &edit, NULL));
        edit_clear(&edit);
    }
    journal_leave(journal);
    found = journal_find(folder);
    char *name = g_strdup(g_array_index(found, JournalFound, 0).file);
    g_array_unref(found);
    size_t size;
    char *bytes = read_bytes(name, 1 << 20, &size, NULL, NULL);
    int lines = 0;
    for (size_t i = 0; i < size; i++)
        if (bytes[i] == '\n')
            ends[lines++] = i + 1;
    assert_int_equal(lines, 4);
    for (size_t cut = ends[0]; cut <= size; cut += 7) {
        assert_true(g_file_set_contents(name, bytes, (gssize)cut, NULL));
        uint32_t whole = (cut >= ends[1]) + (cut >= ends[2]) + (cut >= ends[3]);
        Plate *back = journal_recover(name, NULL);
        assert_non_null(back);
        assert_int_equal(plate_count(back), 2 + whole);
        plate_free(back);
    }
    assert_true(g_file_set_contents(name, bytes, (gssize)ends[0] - 1, NULL));
    assert_null(journal_recover(name, NULL));
    g_free(bytes);
    g_free(name);
    plate_free(plate);
}

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

static void test_limit_of_a_journal(void **state)
{
    char *name = g_build_filename(g_get_tmp_dir(), "pinplate-journal-XXXXXX", NULL);
    int file = g_mkstemp(name);
    for (int over = 0; over < 2; over++) {
        Error error = {.kind = ERROR_NONE};
        assert_int_equal(ftruncate(file, (off_t)JOURNAL_BYTES_MOST + over), 0);
        assert_null(journal_recover(name, &error));
        assert_int_equal(error.kind, over ? ERROR_LIMIT : ERROR_FORMAT);
    }
    close(file);
    g_unlink(name);
    g_free(name);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_FOLDER(test_replaces_whole),
        IN_FOLDER(test_follows_a_link),
        IN_FOLDER(test_failure_leaves_the_old),
        IN_FOLDER(test_what_is_no_file),
        IN_FOLDER(test_journal_brings_back),
        IN_FOLDER(test_cut_journal),
        cmocka_unit_test(test_limit_of_a_journal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
