#include "drawing/finding-sheets.h"

#include "checks/checker.h"
#include "checks/rule-limits.h"
#include "checks/sentence.h"
#include "drawing/limit-list.h"
#include "drawing/worked-figures.h"

#include <string.h>

static Unit unit_of(const DrawingSource *source)
{
    return plate_settings(source->plate)->unit == PLATE_INCH ? UNIT_INCH : UNIT_MM;
}

static void draw_open(Flow *flow, const DrawingSource *source, const FindingList *findings)
{
    static const TableColumn columns[] = {{"Level", TEXT_START, 0, 0, false},
                                          {"What", TEXT_START, 0, 0, false},
                                          {"What would mend it", TEXT_START, 55, 0, false}};
    char message[SENTENCE_TEXT], remedy[SENTENCE_TEXT];
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < findings->count; i++) {
        const Finding *finding = &findings->items[i];
        if (finding->accepted)
            continue;
        finding_message(finding, source->placed, unit_of(source), message);
        finding_remedy(finding, source->placed, unit_of(source), remedy);
        table_text_add(&text, finding_level_name(finding->level));
        table_text_add(&text, message);
        table_text_add(&text, remedy);
    }
    flow_heading(flow, "Findings of the checks");
    if (table_text_rows(&text) == 0)
        flow_paragraph(flow, "None that is not accepted.");
    flow_table(flow, &text, 1, true);
    table_text_end(&text);
}

static bool has_feature(const AcceptedFinding *accepted, FeatureId id)
{
    for (uint32_t i = 0; i < accepted->features.count; i++) {
        if (*LIST_AT(&accepted->features, FeatureId, i) == id)
            return true;
    }
    return false;
}

/* The finding that the maker has accepted, or NULL where the plate no longer has it. */
static const Finding *find_accepted(const FindingList *findings, const AcceptedFinding *accepted)
{
    for (uint32_t i = 0; i < findings->count; i++) {
        const Finding *finding = &findings->items[i];
        bool same = accepted->rule && strcmp(finding->rule->slug, accepted->rule) == 0 &&
                    finding->feature_count == accepted->features.count;
        for (int f = 0; same && f < finding->feature_count; f++)
            same = has_feature(accepted, finding->features[f]);
        if (same)
            return finding;
    }
    return NULL;
}

static char *accepted_words(const DrawingSource *source, const FindingList *findings,
                            const AcceptedFinding *accepted)
{
    char message[SENTENCE_TEXT];
    const Finding *finding = find_accepted(findings, accepted);
    if (finding) {
        finding_message(finding, source->placed, unit_of(source), message);
        return g_strdup(message);
    }
    const Rule *rule = accepted->rule ? rule_by_slug(accepted->rule) : NULL;
    return g_strdup_printf("%s: no longer so on this plate", rule             ? rule->title
                                                             : accepted->rule ? accepted->rule
                                                                              : "");
}

static void draw_accepted(Flow *flow, const DrawingSource *source, const FindingList *findings)
{
    static const TableColumn columns[] = {{"What", TEXT_START, 0, 0, false},
                                          {"Reason", TEXT_START, 55, 0, false},
                                          {"Date", TEXT_START, 0, 30, false}};
    const Settings *settings = plate_settings(source->plate);
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (uint32_t i = 0; i < settings->accepted.count; i++) {
        const AcceptedFinding *accepted = LIST_AT(&settings->accepted, AcceptedFinding, i);
        table_text_take(&text, accepted_words(source, findings, accepted));
        table_text_add(&text, accepted->reason);
        table_text_add(&text, accepted->date);
    }
    if (table_text_rows(&text) > 0)
        flow_heading(flow, "Findings that the maker lets stand");
    flow_table(flow, &text, 0, true);
    table_text_end(&text);
}

void finding_sheets_draw(Flow *flow, const DrawingSource *source)
{
    /* A checker takes in what a placed was last told, so it gets one of its own that is new. */
    Placed *placed = placed_new(source->plate);
    Checker *checker = checker_new();
    checker_update(checker, placed, NULL);
    draw_open(flow, source, checker_findings(checker));
    draw_accepted(flow, source, checker_findings(checker));
    worked_figures_draw(flow, source);
    limit_list_draw(flow, source);
    checker_free(checker);
    placed_free(placed);
}
