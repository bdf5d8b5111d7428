/* pinplate refit: where and how a part fits on a plate that exists. */
#include "checks/sentence.h"
#include "command/drawing-job.h"
#include "command/subcommands.h"
#include "drawing/answer-sheet.h"
#include "refit/refit-change.h"
#include "refit/refit-text.h"

#include <stdio.h>

#define USAGE                                                                                    \
    "refit P.plate N.platepart [--station S] [--single] [--all] [--to F.pdf|F.svg [--answer N] " \
    "[--sheet a4]] [--json]"

/* Positions that do not fit are a long list on a full plate: the first few say why. */
#define REASONS_MOST 5

static void print_json(Refit *refit)
{
    const Part *part = refit_part(refit);
    json_object *json = json_object_new_object(), *answers = json_object_new_array();
    uint32_t count = refit_count(refit);
    RefitVerdict best = count ? refit_at(refit, 0)->verdict : REFIT_NO;
    json_object_object_add(json, "part", part->name ? json_object_new_string(part->name) : NULL);
    json_object_object_add(json, "verdict", json_object_new_string(refit_verdict_name(best)));
    for (uint32_t i = 0; i < count; i++)
        json_object_array_add(answers, refit_answer_json(refit, i));
    json_object_object_add(json, "answers", answers);
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

static void print_answer(Refit *refit, uint32_t i, Unit unit)
{
    const RefitAnswer *answer = refit_at(refit, i);
    char verdict[VERDICT_TEXT], reason[SENTENCE_TEXT];
    char *text = refit_answer_text(refit, i, unit);
    refit_verdict_text(answer, verdict);
    refit_reason(refit, i, unit, reason);
    printf("%u. %s %s\n", i + 1, verdict, text);
    if (answer->verdict == REFIT_NO)
        printf("   %u stop, the first: %s\n", answer->stops, reason);
    else if (answer->cautions)
        printf("   %u caution, the first: %s\n", answer->cautions, reason);
    g_free(text);
}

static void print_lines(Refit *refit, Unit unit, bool all)
{
    uint32_t count = refit_count(refit), shown = 0, not = 0;
    for (uint32_t i = 0; i < count; i++) {
        bool fits = refit_at(refit, i)->verdict != REFIT_NO;
        not += !fits;
        if (all || fits || not <= REASONS_MOST) {
            print_answer(refit, i, unit);
            shown++;
        }
    }
    if (shown < count)
        printf("%u more positions do not fit; --all lists them\n", count - shown);
    printf("%u positions, %u fit\n", count, count - not );
}

/* --- another part at a station -------------------------------------------------------------- */

/* The station whose label was typed; ID_NONE where none was. */
static bool read_station(const Arguments *arguments, const Plate *plate, FeatureId *station,
                         Error *error)
{
    const char *label = arguments_value(arguments, "station");
    *station = ID_NONE;
    for (uint32_t i = 0; label && i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_STATION && g_strcmp0(record_label(record), label) == 0)
            *station = record->id;
    }
    return !label || refit_can_replace(plate, *station, error);
}

static void print_side(const char *name, const Finding *finding, const Placed *placed, Unit unit)
{
    char message[SENTENCE_TEXT];
    if (!finding) {
        printf("   %s: nothing\n", name);
        return;
    }
    finding_message(finding, placed, unit, message);
    printf("   %s: %s: %s\n", name, finding_level_name(finding->level), message);
}

/* What the checks find of the station with its old part and with the best answer. */
static void print_changes(Refit *refit, const Session *session)
{
    FindingList before = FINDING_LIST_EMPTY;
    const RefitAnswer *best = refit_at(refit, 0);
    refit_before(refit, best, &before);
    GArray *changes = refit_changes(&before, best);
    const Placed *after = refit_show(refit, 0);
    printf("The station's findings before, and after with answer 1:\n");
    for (guint i = 0; i < changes->len; i++) {
        const RefitChange *change = &g_array_index(changes, RefitChange, i);
        print_side("before", change->before, session_placed(session), session_unit(session));
        print_side("after ", change->after, after, session_unit(session));
    }
    if (changes->len == 0)
        printf("   none\n");
    g_array_unref(changes);
    finding_list_clear(&before);
}

/* --- the printed answer --------------------------------------------------------------------- */

typedef struct AnswerPrint {
    const char *to; /* NULL: none is asked for */
    uint32_t answer;
    ViewSpec spec;
} AnswerPrint;

static bool read_print(const Arguments *arguments, AnswerPrint *print, Error *error)
{
    const char *number = arguments_value(arguments, "answer");
    const char *sheet = arguments_value(arguments, "sheet");
    guint64 answer = 1;
    *print = (AnswerPrint){.to = NULL};
    if (!arguments_value(arguments, "to"))
        return (!number && !sheet) || error_set(error, ERROR_TYPED, number ? "--answer" : "--sheet",
                                                "goes with --to, which says where to print");
    print->to = arguments_to(arguments, ".pdf .svg", error);
    if (!print->to)
        return false;
    if (number && !g_ascii_string_to_unsigned(number, 10, 1, UINT32_MAX, &answer, NULL))
        return error_set(error, ERROR_TYPED, "--answer", "say which, counted from 1");
    print->answer = (uint32_t)answer - 1;
    print->spec.choose_sheet = sheet != NULL;
    return !sheet || sheet_size_read(sheet, &print->spec.sheet, error);
}

static bool draw(const DrawingJob *job, Refit *refit, const AnswerPrint *print, Error *error)
{
    if (print->answer >= refit_count(refit))
        return error_set(error, ERROR_MISSING, "--answer",
                         refit_count(refit) ? "there are only %u answers"
                                            : "there is no position at all, and nothing to print",
                         refit_count(refit));
    return answer_sheet_build(job->drawing, &job->source, refit, print->answer, &print->spec,
                              error) &&
           drawing_job_write(job, print->to, error);
}

/* --- the command ---------------------------------------------------------------------------- */

static int answer(const Arguments *arguments, const DrawingJob *job, Refit *refit,
                  const AnswerPrint *print, Error *error)
{
    refit_search(refit);
    if (print->to && !draw(job, refit, print, error))
        return COMMAND_FAILED;
    if (arguments_flag(arguments, "json"))
        print_json(refit);
    else
        print_lines(refit, session_unit(job->session), arguments_flag(arguments, "all"));
    if (refit_replaced(refit) && refit_count(refit) && !arguments_flag(arguments, "json"))
        print_changes(refit, job->session);
    bool fits = refit_count(refit) && refit_at(refit, 0)->verdict != REFIT_NO;
    return fits ? COMMAND_FINE : COMMAND_NO;
}

int refit_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    AnswerPrint print;
    DrawingJob job;
    if (!arguments_read(argc, argv, "json all single", "station to answer sheet", &arguments,
                        error) ||
        !arguments_need(&arguments, 2, USAGE, error) || !read_print(&arguments, &print, error))
        return COMMAND_FAILED;
    Record *part = part_read(arguments.positions[1], error);
    if (!part || !drawing_job_open_for(arguments.positions[0], print.to != NULL, &job, error)) {
        record_unref(part);
        return COMMAND_FAILED;
    }
    RefitOptions options = {.everything = arguments_flag(&arguments, "single")};
    int code = COMMAND_FAILED;
    if (read_station(&arguments, session_plate(job.session), &options.replace, error)) {
        Refit *refit = refit_new(session_plate(job.session), session_placed(job.session),
                                 session_checker(job.session), &part->part, &options);
        code = answer(&arguments, &job, refit, &print, error);
        refit_free(refit);
    }
    drawing_job_close(&job);
    record_unref(part);
    return code;
}
