/* Every step of a save made to fail, and the program killed at each: the old or the new file is
 * whole each time, and the journal brings back all but the edit under way.
 *
 * The linker's --wrap puts these functions between the program and the system (see meson.build). */
#include "support/plates.h"

#include "plate/journal.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <sched.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

/* --- the faults ---------------------------------------------------------------------------------
 */

typedef enum Fault { FAULT_NONE, FAULT_ERROR, FAULT_SHORT, FAULT_KILL } Fault;

static Fault fault;
static int countdown; /* calls until the fault; 0: never */
static int calls;

/* True when this call is the one to fail. */
static bool due(void)
{
    calls++;
    if (countdown == 0 || --countdown > 0)
        return false;
    if (fault == FAULT_KILL)
        raise(SIGKILL);
    return true;
}

int __real_mkostemp(char *name, int flags);
int __wrap_mkostemp(char *name, int flags);
ssize_t __real_write(int file, const void *bytes, size_t size);
ssize_t __wrap_write(int file, const void *bytes, size_t size);
int __real_fchmod(int file, mode_t mode);
int __wrap_fchmod(int file, mode_t mode);
int __real_fsync(int file);
int __wrap_fsync(int file);
int __real_fdatasync(int file);
int __wrap_fdatasync(int file);
int __real_close(int file);
int __wrap_close(int file);
int __real_rename(const char *from, const char *to);
int __wrap_rename(const char *from, const char *to);

int __wrap_mkostemp(char *name, int flags)
{
    if (due()) {
        errno = EACCES;
        return -1;
    }
    return __real_mkostemp(name, flags);
}

ssize_t __wrap_write(int file, const void *bytes, size_t size)
{
    if (!due())
        return __real_write(file, bytes, size);
    if (fault == FAULT_SHORT)
        return __real_write(file, bytes, size / 2 + 1);
    errno = ENOSPC;
    return -1;
}

int __wrap_fchmod(int file, mode_t mode)
{
    if (due()) {
        errno = EPERM;
        return -1;
    }
    return __real_fchmod(file, mode);
}

int __wrap_fsync(int file)
{
    if (due()) {
        errno = EIO;
        return -1;
    }
    return __real_fsync(file);
}

int __wrap_fdatasync(int file)
{
    if (due()) {
        errno = EIO;
        return -1;
    }
    return __real_fdatasync(file);
}

int __wrap_close(int file)
{
    if (due()) {
        __real_close(file);
        errno = EDQUOT;
        return -1;
    }
    return __real_close(file);
}

int __wrap_rename(const char *from, const char *to)
{
    if (due()) {
        errno = EXDEV;
        return -1;
    }
    return __real_rename(from, to);
}

/* --- the setting --------------------------------------------------------------------------------
 */

static char *folder;
static Plate *old_plate, *new_plate;
static char *old_text, *new_text;
static size_t old_size, new_size;

static int set_up(void **state)
{
    folder = g_dir_make_tmp("pinplate-XXXXXX", NULL);
    old_plate = random_plate(11, 12);
    new_plate = random_plate(12, 40);
    old_text = plate_text(old_plate, &old_size);
    new_text = plate_text(new_plate, &new_size);
    return folder == NULL;
}

static void empty_folder(void)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    for (const char *name; (name = g_dir_read_name(dir));) {
        char *path = g_build_filename(folder, name, NULL);
        g_remove(path);
        g_free(path);
    }
    g_dir_close(dir);
}

static int tear_down(void **state)
{
    empty_folder();
    g_rmdir(folder);
    g_free(folder);
    plate_free(old_plate);
    plate_free(new_plate);
    g_free(old_text);
    g_free(new_text);
    return 0;
}

/* What lies at the path: 'o' the old file, 'n' the new one; anything else fails the test. */
static char whole_file(const char *path)
{
    size_t size;
    Error error = {.kind = ERROR_NONE};
    char *bytes = read_bytes(path, 1 << 24, &size, NULL, &error);
    if (!bytes)
        fail_msg("the file is gone: %s", error.message);
    bool is_old = size == old_size && memcmp(bytes, old_text, size) == 0;
    bool is_new = size == new_size && memcmp(bytes, new_text, size) == 0;
    g_free(bytes);
    if (!is_old && !is_new)
        fail_msg("the file is neither the old one nor the new one");
    return is_old ? 'o' : 'n';
}

static int others_beside(const char *path)
{
    int count = 0;
    char *base = g_path_get_basename(path);
    GDir *dir = g_dir_open(folder, 0, NULL);
    for (const char *name; (name = g_dir_read_name(dir));)
        count += strcmp(name, base) != 0;
    g_dir_close(dir);
    g_free(base);
    return count;
}

static int steps_of_a_save(const char *path)
{
    fault = FAULT_NONE;
    calls = 0;
    assert_true(plate_save(new_plate, path, NULL, NULL));
    return calls;
}

/* Runs `work` in a child that may be killed. Returns its exit code, or -1 when it was. */
static int in_child(int (*work)(const char *path), const char *path)
{
    int status;
    fflush(NULL);
    pid_t child = fork();
    if (child == 0)
        _exit(work(path));
    assert_true(child > 0);
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static int save_new(const char *path)
{
    return plate_save(new_plate, path, NULL, NULL) ? 0 : 1;
}

/* --- the tests ----------------------------------------------------------------------------------
 */

static void test_each_step_fails(void **state)
{
    char *path = g_build_filename(folder, "a.plate", NULL);
    int steps = steps_of_a_save(path), injected = 0, refused = 0;
    static const Fault faults[] = {FAULT_ERROR, FAULT_SHORT};
    for (size_t f = 0; f < G_N_ELEMENTS(faults); f++) {
        for (int step = 1; step <= steps; step++) {
            Error error = {.kind = ERROR_NONE};
            empty_folder();
            assert_true(plate_save(old_plate, path, NULL, NULL));
            fault = faults[f];
            countdown = step;
            bool saved = plate_save(new_plate, path, NULL, &error);
            countdown = 0;
            assert_int_equal(whole_file(path), saved ? 'n' : 'o');
            assert_int_equal(others_beside(path), 0);
            if (!saved)
                assert_true(error.kind == ERROR_FILE && *error.message);
            refused += !saved;
            injected++;
        }
    }
    print_message("# %d faults injected into saves, %d saves refused, the file whole each time\n",
                  injected, refused);
    assert_true(refused >= 2 * 4);
    g_free(path);
}

static void test_killed_at_each_step(void **state)
{
    char *path = g_build_filename(folder, "a.plate", NULL);
    int steps = steps_of_a_save(path);
    for (int step = 1; step <= steps; step++) {
        empty_folder();
        assert_true(plate_save(old_plate, path, NULL, NULL));
        fault = FAULT_KILL;
        countdown = step;
        assert_int_equal(in_child(save_new, path), -1);
        countdown = 0;
        whole_file(path);
    }
    print_message("# killed at each of %d steps of a save, the file whole each time\n", steps);
    g_free(path);
}

#ifdef __SANITIZE_ADDRESS__
int __sanitizer_install_malloc_and_free_hooks(void (*on_malloc)(const volatile void *, size_t),
                                              void (*on_free)(const volatile void *));

static volatile int allocations_left;

static void on_malloc(const volatile void *where, size_t size)
{
    if (allocations_left > 0 && --allocations_left == 0)
        raise(SIGKILL);
}

static void on_free(const volatile void *where)
{
}

static void test_dead_at_any_allocation(void **state)
{
    char *path = g_build_filename(folder, "a.plate", NULL);
    __sanitizer_install_malloc_and_free_hooks(on_malloc, on_free);
    int total = 0, died = 0;
    for (int at = 1, code = -1; code != 0; at++) {
        empty_folder();
        assert_true(plate_save(old_plate, path, NULL, NULL));
        allocations_left = at;
        code = in_child(save_new, path);
        allocations_left = 0;
        died += code == -1;
        total = at;
        whole_file(path);
    }
    print_message("# dead at %d places among the %d allocations of a save, the file whole\n", died,
                  total);
    assert_int_equal(died, total - 1);
    assert_true(died > 5);
    g_free(path);
}
#endif

static Edit one_hole(Plate *plate, int i)
{
    Edit edit = EDIT_EMPTY;
    FeatureId id = put_hole(plate, 10 + i, 40, 2);
    edit_add(&edit, NULL, record_ref(plate_find(plate, id)));
    return edit;
}

#define JOURNAL_EDITS 6
/* A begin writes, syncs, renames, syncs the folder and closes it and the old journal. */
#define BEGIN_STEPS 6

/* Exits with the number of edits that journal_add said it kept. */
static int keep_journal(const char *path)
{
    Plate *plate = plate_new(MM(100), MM(80), MM(20), PLATE_MM);
    Journal *journal = journal_begin(folder, path, plate, false, NULL);
    int kept = 0;
    for (int i = 0; journal && i < JOURNAL_EDITS; i++) {
        Edit edit = one_hole(plate, i);
        if (journal_add(journal, &edit, NULL))
            kept++;
        edit_clear(&edit);
    }
    return kept;
}

/* Holes that the next start would bring back. */
static uint32_t holes_back(void)
{
    uint32_t back = 0;
    GArray *found = journal_find(folder);
    if (found->len) {
        Plate *plate = journal_recover(g_array_index(found, JournalFound, 0).file, NULL);
        assert_non_null(plate);
        back = plate_count(plate) - 2;
        plate_free(plate);
    }
    g_array_unref(found);
    return back;
}

/* What a start does that brings changes back: it begins a journal with them in place of the old. */
static int begin_again(const char *path)
{
    GArray *found = journal_find(folder);
    Plate *plate = journal_recover(g_array_index(found, JournalFound, 0).file, NULL);
    return journal_begin(folder, path, plate, true, NULL) != NULL;
}

static void test_killed_while_bringing_back(void **state)
{
    int step = 0, code = -1;
    while (code == -1) {
        step++;
        empty_folder();
        fault = FAULT_NONE;
        assert_int_equal(in_child(keep_journal, "/x.plate"), JOURNAL_EDITS);
        fault = FAULT_KILL;
        countdown = step;
        code = in_child(begin_again, "/x.plate");
        countdown = 0;
        if (holes_back() != JOURNAL_EDITS)
            fail_msg("killed at step %d: %u edits came back", step, holes_back());
    }
    assert_int_equal(code, 1);
    assert_true(step > BEGIN_STEPS);
}

static void test_journal_when_killed(void **state)
{
    /* An edit writes and syncs: the one under way is number (step - BEGIN_STEPS - 1) / 2. */
    int steps = BEGIN_STEPS + 2 * JOURNAL_EDITS;
    for (int step = BEGIN_STEPS + 1; step <= steps; step++) {
        empty_folder();
        fault = FAULT_KILL;
        countdown = step;
        assert_int_equal(in_child(keep_journal, "/x.plate"), -1);
        countdown = 0;
        int finished = (step - BEGIN_STEPS - 1) / 2;
        uint32_t back = holes_back();
        if (back < (uint32_t)finished || back > (uint32_t)finished + 1)
            fail_msg("killed at step %d: %u edits came back, %d were finished", step, back,
                     finished);
    }
}

/* Exits with 77 where this machine lets nobody mount anything. */
static int save_on_full_disk(const char *path)
{
    char *small = g_build_filename(folder, "small", NULL);
    g_mkdir(small, 0700);
    if (unshare(CLONE_NEWNS) != 0 || mount("none", "/", NULL, MS_REC | MS_PRIVATE, NULL) != 0 ||
        mount("none", small, "tmpfs", 0, "size=32k") != 0)
        return 77;
    char *file = g_build_filename(small, "a.plate", NULL);
    char *large = g_strnfill(200000, 'x');
    Error error = {.kind = ERROR_NONE};
    if (!save_bytes(file, "old", 3, NULL, NULL))
        return 1;
    if (save_bytes(file, large, 200000, NULL, &error) || error.kind != ERROR_FILE)
        return 2;
    size_t size;
    char *bytes = read_bytes(file, 1 << 20, &size, NULL, NULL);
    if (!bytes || strcmp(bytes, "old") != 0)
        return 3;
    if (mount("none", small, NULL, MS_REMOUNT | MS_RDONLY, NULL) != 0)
        return 77;
    if (save_bytes(file, "new", 3, NULL, &error))
        return 4;
    g_free(bytes);
    bytes = read_bytes(file, 1 << 20, &size, NULL, NULL);
    return bytes && strcmp(bytes, "old") == 0 ? 0 : 5;
}

static void test_full_and_read_only_disk(void **state)
{
    int code = in_child(save_on_full_disk, NULL);
    char *small = g_build_filename(folder, "small", NULL);
    g_rmdir(small);
    g_free(small);
    if (code == 77)
        skip();
    assert_int_equal(code, 0);
}

static int save_as_nobody(const char *path)
{
    if (setgid(65534) != 0 || setuid(65534) != 0)
        return 77;
    Error error = {.kind = ERROR_NONE};
    return !save_bytes(path, "new", 3, NULL, &error) && error.kind == ERROR_FILE ? 0 : 1;
}

static void test_no_permission(void **state)
{
    char *path = g_build_filename(folder, "a.plate", NULL);
    assert_true(plate_save(old_plate, path, NULL, NULL));
    g_chmod(folder, 0755);
    int code = in_child(save_as_nobody, path);
    assert_int_equal(whole_file(path), 'o');
    g_free(path);
    if (code == 77)
        skip();
    assert_int_equal(code, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_step_fails),
        cmocka_unit_test(test_killed_at_each_step),
#ifdef __SANITIZE_ADDRESS__
        cmocka_unit_test(test_dead_at_any_allocation),
#endif
        cmocka_unit_test(test_journal_when_killed),
        cmocka_unit_test(test_killed_while_bringing_back),
        cmocka_unit_test(test_full_and_read_only_disk),
        cmocka_unit_test(test_no_permission),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
