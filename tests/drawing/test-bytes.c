#include "cases.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <string.h>

/* The same plate gives the same bytes, whatever the locale, time zone, fonts and home. */

static const char *writer;
static char *plain, *other, *locales;

static int start(void **state)
{
    plain = g_dir_make_tmp("pinplate-plain-XXXXXX", NULL);
    other = g_dir_make_tmp("pinplate-other-XXXXXX", NULL);
    locales = g_dir_make_tmp("pinplate-locale-XXXXXX", NULL);
    return plain && other && locales ? 0 : -1;
}

static void remove_folder(char *folder)
{
    GDir *dir = g_dir_open(folder, 0, NULL);
    for (const char *name = dir ? g_dir_read_name(dir) : NULL; name; name = g_dir_read_name(dir)) {
        char *path = g_build_filename(folder, name, NULL);
        if (g_file_test(path, G_FILE_TEST_IS_DIR))
            remove_folder(g_strdup(path));
        else
            g_unlink(path);
        g_free(path);
    }
    if (dir)
        g_dir_close(dir);
    g_rmdir(folder);
    g_free(folder);
}

static int end(void **state)
{
    remove_folder(plain);
    remove_folder(other);
    remove_folder(locales);
    return 0;
}

static char *write_into(const char *folder, char **environment)
{
    char *arguments[] = {(char *)writer, (char *)folder, NULL};
    char *said = NULL, *complained = NULL;
    int status = -1;
    assert_true(g_spawn_sync(NULL, arguments, environment, 0, NULL, NULL, &said, &complained,
                             &status, NULL));
    if (status != 0)
        print_message("# %s\n", complained);
    assert_int_equal(status, 0);
    g_free(complained);
    return said;
}

static void check_same(const char *name)
{
    char *a = g_build_filename(plain, name, NULL), *b = g_build_filename(other, name, NULL);
    char *first, *second;
    gsize first_size, second_size;
    assert_true(g_file_get_contents(a, &first, &first_size, NULL));
    assert_true(g_file_get_contents(b, &second, &second_size, NULL));
    assert_true(first_size > 1000);
    assert_int_equal(first_size, second_size);
    assert_memory_equal(first, second, first_size);
    g_free(first);
    g_free(second);
    g_free(a);
    g_free(b);
}

static void check_all_same(void)
{
    static const char *const names[] = {"A.pdf", "A.svg", "A-2.svg", "A.png"};
    for (size_t i = 0; i < G_N_ELEMENTS(names); i++)
        check_same(names[i]);
}

static void test_twice(void **state)
{
    char **environment = g_get_environ();
    g_free(write_into(plain, environment));
    g_free(write_into(other, environment));
    check_all_same();
    g_strfreev(environment);
}

/* A locale with a decimal comma is made here, since a machine may have none. */
static bool make_locale(void)
{
    char *target = g_build_filename(locales, "de_DE.UTF-8", NULL);
    char *arguments[] = {(char *)"localedef",
                         (char *)"-i",
                         (char *)"de_DE",
                         (char *)"-f",
                         (char *)"UTF-8",
                         target,
                         NULL};
    g_spawn_sync(NULL, arguments, NULL,
                 G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                 NULL, NULL, NULL, NULL, NULL, NULL);
    bool made = g_file_test(target, G_FILE_TEST_IS_DIR);
    g_free(target);
    return made;
}

static void test_other_surroundings(void **state)
{
    if (!make_locale()) {
        print_message("# no localedef or no German locale's source here\n");
        skip();
    }
    char **environment = g_get_environ();
    environment = g_environ_setenv(environment, "LOCPATH", locales, TRUE);
    environment = g_environ_setenv(environment, "LC_ALL", "de_DE.UTF-8", TRUE);
    environment = g_environ_setenv(environment, "LANGUAGE", "de", TRUE);
    environment = g_environ_setenv(environment, "TZ", "Asia/Tokyo", TRUE);
    environment = g_environ_setenv(environment, "SOURCE_DATE_EPOCH", "1", TRUE);
    environment = g_environ_setenv(environment, "HOME", "/nonexistent", TRUE);
    environment = g_environ_setenv(environment, "FONTCONFIG_FILE", "/dev/null", TRUE);
    environment = g_environ_setenv(environment, "FONTCONFIG_PATH", "/nonexistent", TRUE);
    environment = g_environ_setenv(environment, "PANGO_LANGUAGE", "ja", TRUE);
    char *said = write_into(other, environment);
    assert_string_equal(said, "0,5\n");
    g_free(said);
    check_all_same();
    g_strfreev(environment);
}

int main(int count, char **arguments)
{
    if (count < 2)
        return 2;
    writer = arguments[1];
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_twice),
        cmocka_unit_test(test_other_surroundings),
    };
    return cmocka_run_group_tests(tests, start, end);
}
