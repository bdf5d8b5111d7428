/* pinplate refit: where and how a part fits on a plate that exists. */
#include "checks/sentence.h"
#include "command/subcommands.h"
#include "refit/refit-text.h"
#include "session/session.h"

#include <stdio.h>

#define USAGE "refit P.plate N.platepart [--single] [--all] [--json]"

/* Positions that do not fit are a long list on a full plate: the first few say why. */
#define REASONS_MOST 5

static void print_json(Refit *refit, const Part *part)
{
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

int refit_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    if (!arguments_read(argc, argv, "json all single", "", &arguments, error) ||
        !arguments_need(&arguments, 2, USAGE, error))
        return COMMAND_FAILED;
    Record *part = part_read(arguments.positions[1], error);
    Session *session = part ? session_open(arguments.positions[0], error) : NULL;
    if (!session) {
        record_unref(part);
        return COMMAND_FAILED;
    }
    RefitOptions options = {.everything = arguments_flag(&arguments, "single")};
    Refit *refit = refit_new(session_plate(session), session_placed(session),
                             session_checker(session), &part->part, &options);
    refit_search(refit);
    if (arguments_flag(&arguments, "json"))
        print_json(refit, &part->part);
    else
        print_lines(refit, session_unit(session), arguments_flag(&arguments, "all"));
    bool fits = refit_count(refit) && refit_at(refit, 0)->verdict != REFIT_NO;
    refit_free(refit);
    session_free(session);
    record_unref(part);
    return fits ? COMMAND_FINE : COMMAND_NO;
}
