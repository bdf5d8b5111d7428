/* A storm of edits, undo, redo, tries, saves and reopenings in a process that is killed at a moment
 * nobody chose: what is found afterwards is the plate with all finished steps, or with the one
 * under way as well. Its findings and its prints, kept up to date all along, are those of a fresh
 * start from its file. */
#include "drawing/build.h"
#include "drawing/svg.h"
#include "session/session.h"
#include "support/plates.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>
#include <glib/gstdio.h>

#define STEPS_A_LIFE 40

typedef struct Storm {
    char *folder, *path, *journals, *shadow;
    Lettering *lettering;
    uint32_t seed;
    long steps, whole, one_more, prints;
} Storm;

/* One step, the same for the same seed and plate. */
static void one_step(Session *session, uint32_t *seed)
{
    double what = random_between(seed, 0, 100);
    Error error = {.kind = ERROR_NONE};
    if (what < 12) {
        session_undo(session, &error);
    } else if (what < 18) {
        session_redo(session, &error);
    } else if (what < 26) {
        assert_true(session_save(session, NULL, true, &error));
    } else {
        Edit edit = EDIT_EMPTY;
        random_edit(session_plate(session), seed, &edit);
        if (what < 34) {
            session_try(session, &edit);
            session_stop_trying(session);
        } else {
            session_do(session, &edit, &error);
        }
        edit_clear(&edit);
    }
}

/* Opens the plate as the next start would: its file, with what a journal has on top of it. */
static Session *open_again(const Storm *storm, const char *as)
{
    Error error = {.kind = ERROR_NONE};
    GArray *found = journal_find(storm->journals);
    Plate *plate = found->len ? journal_recover(g_array_index(found, JournalFound, 0).file, &error)
                              : plate_read(storm->path, NULL, &error);
    if (!plate)
        fail_msg("%s: %s", error.place, error.message);
    assert_true(found->len < 2);
    g_array_unref(found);
    return session_new(plate, as);
}

static char *text_of(const Session *session)
{
    size_t size;
    return plate_text(session_plate(session), &size);
}

/* Lives until it is killed, or has done its steps; says each one on the pipe. */
static void live(const Storm *storm, uint32_t seed, int pipe)
{
    Error error;
    Session *session = open_again(storm, storm->path);
    session_set_unsaved(session);
    if (!session_keep_journal(session, storm->journals, &error))
        _exit(1);
    for (int i = 0; i < STEPS_A_LIFE; i++) {
        one_step(session, &seed);
        if (write(pipe, "s", 1) != 1)
            _exit(2);
    }
    pause();
}

/* Waits for so many steps, then a moment more, kills, and counts the steps that were finished. */
static int kill_after(pid_t child, int pipe, int steps, int microseconds)
{
    int done = 0;
    char byte;
    while (done < steps && read(pipe, &byte, 1) == 1)
        done++;
    assert_int_equal(done, steps);
    g_usleep((gulong)microseconds);
    kill(child, SIGKILL);
    while (read(pipe, &byte, 1) == 1)
        done++;
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
    return done;
}

static char *first_sheet(const Storm *storm, const Plate *plate, const Placed *placed)
{
    Error error = {.kind = ERROR_NONE};
    DrawingSource source = {plate, placed};
    ViewSpec spec = {.prints = PRINT_DRAWING | PRINT_HOLES};
    Drawing *drawing = drawing_new(storm->lettering);
    GString *all = g_string_new(NULL);
    if (drawing_build(drawing, &source, &spec, &error)) {
        for (size_t i = 0; i < drawing->sheet_count; i++) {
            GString *sheet = svg_text(drawing, i);
            g_string_append(all, sheet->str);
            g_string_free(sheet, TRUE);
        }
    } else {
        g_string_assign(all, error.message);
    }
    drawing_free(drawing);
    return g_string_free(all, FALSE);
}

static void expect_findings_alike(const Storm *storm, const FindingList *ours,
                                  const FindingList *theirs)
{
    for (uint32_t i = 0; i < ours->count && i < theirs->count; i++) {
        const Finding *a = &ours->items[i], *b = &theirs->items[i];
        if (finding_compare(a, b) != 0 || fabs(a->value - b->value) > 1e-9)
            fail_msg("after %ld steps: %s of %u and %u is %.9g, fresh %s of %u and %u is %.9g",
                     storm->steps, a->rule->slug, a->features[0], a->features[1], a->value,
                     b->rule->slug, b->features[0], b->features[1], b->value);
    }
    if (ours->count != theirs->count)
        fail_msg("after %ld steps: %u findings, fresh %u", storm->steps, ours->count,
                 theirs->count);
}

/* The session has been kept up to date over the whole life; the text is all a fresh start has. */
static void compare_with_fresh(Storm *storm, Session *kept, const char *text)
{
    Error error;
    Session *fresh = session_new(plate_parse(text, strlen(text), &error), NULL);
    expect_findings_alike(storm, session_findings(kept), session_findings(fresh));
    if (storm->whole % 4 == 0) {
        char *a = first_sheet(storm, session_plate(kept), session_placed(kept));
        char *b = first_sheet(storm, session_plate(fresh), session_placed(fresh));
        assert_string_equal(a, b);
        storm->prints++;
        g_free(a);
        g_free(b);
    }
    session_free(fresh);
}

/* A plate's text is long: where the two part is what tells. */
static void expect_text(const Storm *storm, const char *text, const char *expected)
{
    size_t at = 0;
    while (text[at] && text[at] == expected[at])
        at++;
    if (text[at] != expected[at])
        fail_msg("after %ld steps, found:\n%.300s\nexpected:\n%.300s", storm->steps,
                 text + MAX(at, 150) - 150, expected + MAX(at, 150) - 150);
}

static void one_life(Storm *storm)
{
    Error error;
    uint32_t seed = storm->seed;
    int steps = (int)random_between(&storm->seed, 0, STEPS_A_LIFE);
    int moment = (int)random_between(&storm->seed, 0, 4000), ends[2];
    Session *shadow = open_again(storm, storm->shadow);
    assert_true(session_save(shadow, NULL, true, &error));
    assert_int_equal(pipe(ends), 0);
    pid_t child = fork();
    if (child == 0) {
        close(ends[0]);
        live(storm, seed, ends[1]);
        _exit(0);
    }
    close(ends[1]);
    int done = kill_after(child, ends[0], steps, moment);
    close(ends[0]);

    Session *found = open_again(storm, NULL);
    char *text = text_of(found);
    session_free(found);
    for (int i = 0; i < done; i++)
        one_step(shadow, &seed);
    char *expected = text_of(shadow);
    if (strcmp(text, expected) != 0 && done < STEPS_A_LIFE) {
        one_step(shadow, &seed);
        g_free(expected);
        expected = text_of(shadow);
        storm->one_more++;
    } else {
        storm->whole++;
    }
    expect_text(storm, text, expected);
    compare_with_fresh(storm, shadow, text);
    storm->steps += done;
    g_free(expected);
    g_free(text);
    session_free(shadow);
}

static void test_storm(void **state)
{
    bool is_long = getenv("PINPLATE_LONG") != NULL;
    long most = is_long ? 100000 : 300;
    Error error;
    Storm storm = {.seed = 20011, .folder = g_dir_make_tmp("pinplate-storm-XXXXXX", NULL)};
    storm.path = g_build_filename(storm.folder, "storm.plate", NULL);
    storm.shadow = g_build_filename(storm.folder, "shadow.plate", NULL);
    storm.journals = g_build_filename(storm.folder, "journals", NULL);
    storm.lettering = lettering_new(&error);
    assert_non_null(storm.lettering);
    for (int plates = 0; storm.steps < most; plates++) {
        Session *session = session_new(random_plate((uint32_t)plates * 31 + 7, 40), NULL);
        assert_true(session_save(session, storm.path, true, &error));
        session_free(session);
        for (long end = storm.steps + most / 4; storm.steps < end;)
            one_life(&storm);
        GArray *found = journal_find(storm.journals);
        for (guint i = 0; i < found->len; i++)
            journal_discard(g_array_index(found, JournalFound, i).file);
        g_array_unref(found);
    }
    print_message(
        "# %ld steps; killed between two %ld times, within one %ld times; prints compared "
        "%ld times\n",
        storm.steps, storm.whole, storm.one_more, storm.prints);
    assert_true(storm.prints > 0);
    lettering_unref(storm.lettering);
    g_remove(storm.path);
    g_remove(storm.shadow);
    g_rmdir(storm.journals);
    g_rmdir(storm.folder);
    g_free(storm.journals);
    g_free(storm.shadow);
    g_free(storm.path);
    g_free(storm.folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_storm)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
