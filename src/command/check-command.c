/* pinplate check: all findings of a plate. */
#include "checks/sentence.h"
#include "command/subcommands.h"
#include "session/session.h"

#include <stdio.h>

static json_object *counts_json(FindingCounts counts)
{
    json_object *json = json_object_new_object();
    for (int level = LEVEL_STOP; level <= LEVEL_NOTE; level++)
        json_object_object_add(json, finding_level_name(level),
                               json_object_new_int64(counts.by_level[level]));
    if (counts.accepted)
        json_object_object_add(json, "accepted", json_object_new_int64(counts.accepted));
    return json;
}

static void print_json(const Session *session)
{
    const FindingList *findings = session_findings(session);
    json_object *json = json_object_new_object(), *list = json_object_new_array();
    for (uint32_t i = 0; i < findings->count; i++)
        json_object_array_add(list, finding_json(&findings->items[i], session_placed(session)));
    json_object_object_add(json, "findings", list);
    json_object_object_add(json, "counts", counts_json(finding_list_counts(findings)));
    puts(json_object_to_json_string_ext(json,
                                        JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(json);
}

static void print_lines(const Session *session)
{
    char message[SENTENCE_TEXT], remedy[SENTENCE_TEXT];
    const FindingList *findings = session_findings(session);
    FindingCounts counts = finding_list_counts(findings);
    for (uint32_t i = 0; i < findings->count; i++) {
        const Finding *finding = &findings->items[i];
        finding_message(finding, session_placed(session), session_unit(session), message);
        finding_remedy(finding, session_placed(session), session_unit(session), remedy);
        printf("%-8s%s.%s%s%s (%s%s)\n", finding_level_name(finding->level), message,
               *remedy ? " " : "", remedy, *remedy ? "." : "", finding->rule->slug,
               finding->accepted ? ", accepted" : "");
    }
    printf("%u stop, %u caution, %u note\n", counts.by_level[LEVEL_STOP],
           counts.by_level[LEVEL_CAUTION], counts.by_level[LEVEL_NOTE]);
}

int check_command(int argc, char **argv, Error *error)
{
    Arguments arguments;
    if (!arguments_read(argc, argv, "json", "", &arguments, error) ||
        !arguments_need(&arguments, 1, "check P.plate [--json]", error))
        return COMMAND_FAILED;
    Session *session = session_open(arguments.positions[0], error);
    if (!session)
        return COMMAND_FAILED;
    if (arguments_flag(&arguments, "json"))
        print_json(session);
    else
        print_lines(session);
    FindingCounts counts = finding_list_counts(session_findings(session));
    session_free(session);
    return counts.by_level[LEVEL_STOP] ? COMMAND_NO : COMMAND_FINE;
}
