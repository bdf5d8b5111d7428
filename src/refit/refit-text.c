#include "refit/refit-text.h"

#include "checks/sentence.h"
#include "refit/refit-private.h"
#include "trade/size-words.h"

void refit_verdict_said(const RefitAnswer *answer, const Speech *speech, char text[VERDICT_TEXT])
{
    static const char *const texts[] = {N_("fits as it stands"), N_("fits with one more hole"), "",
                                        N_("does not fit")};
    if (answer->verdict == REFIT_MORE_HOLES)
        g_snprintf(text, VERDICT_TEXT, speech_say(speech, N_("fits with %d more holes")),
                   answer->new_holes);
    else
        g_strlcpy(text, speech_say(speech, texts[answer->verdict]), VERDICT_TEXT);
}

void refit_verdict_text(const RefitAnswer *answer, char text[VERDICT_TEXT])
{
    refit_verdict_said(answer, NULL, text);
}

static const Finding *first_finding(const RefitAnswer *answer)
{
    for (uint32_t i = 0; i < answer->findings.count; i++)
        if (!answer->findings.items[i].accepted)
            return &answer->findings.items[i];
    return NULL;
}

void refit_reason_said(Refit *refit, uint32_t i, Unit unit, const Speech *speech, char *text)
{
    const RefitAnswer *answer = refit_at(refit, i);
    const Finding *finding = first_finding(answer);
    char nest[160];
    *text = 0;
    if (answer->shut_out) {
        feature_name_said(refit->placed, answer->shut_out, speech, nest, sizeof nest);
        g_snprintf(
            text, SENTENCE_TEXT,
            speech_say(speech, N_("A hole that it would use opens in the floor of %s, and the "
                                  "part does not go into that nest there")),
            nest);
    } else if (finding)
        finding_message_said(finding, refit_show(refit, i), unit, speech, text);
}

void refit_reason(Refit *refit, uint32_t i, Unit unit, char *text)
{
    refit_reason_said(refit, i, unit, NULL, text);
}

/* --- text ----------------------------------------------------------------------------------- */

/* What an answer is said in. */
typedef struct Saying {
    Unit unit;
    const Speech *speech;
} Saying;

static void add_words(GString *out, const Saying *saying, const char *english)
{
    g_string_append(out, speech_say(saying->speech, english));
}

static void add_length(GString *out, Length length, const Saying *saying)
{
    char text[LENGTH_PEOPLE_TEXT];
    length_text(length, saying->unit, text);
    speech_figures(saying->speech, text);
    g_string_append(out, text);
}

static void add_degrees(GString *out, Angle angle, const Saying *saying)
{
    char text[32];
    g_ascii_formatd(text, sizeof text, "%.3f", angle_to_degrees(angle));
    speech_figures(saying->speech, text);
    g_string_append(out, text);
}

static const PartHole *part_hole_of(const Refit *refit, const RefitUse *use)
{
    return LIST_AT(&refit->part->holes, PartHole, use->part_hole - 1);
}

static Point from_datum(const Refit *refit, const RefitAnswer *answer, Point at)
{
    Place datum = plate_datum(refit->plate);
    if (answer->face != ID_TOP)
        return at;
    return (Point){at.x - length_to_mm(datum.x), at.y - length_to_mm(datum.y)};
}

static void add_use(GString *out, const Refit *refit, const RefitAnswer *answer,
                    const RefitUse *use, const Saying *saying)
{
    char name[160];
    const PartHole *hole = part_hole_of(refit, use);
    if (hole->name)
        g_string_append(out, hole->name);
    else
        g_string_append_printf(out, speech_say(saying->speech, N_("hole %d")), use->part_hole);
    if (use->hole) {
        feature_name_said(refit->placed, use->hole, saying->speech, name, sizeof name);
        g_string_append_printf(out, speech_say(saying->speech, N_(" on %s")), name);
    } else {
        Point at = from_datum(refit, answer, refit_use_at(refit, answer, use));
        add_words(out, saying, N_(" on a NEW hole at "));
        add_length(out, length_from_mm(at.x), saying);
        g_string_append(out, ", ");
        add_length(out, length_from_mm(at.y), saying);
    }
    if (*use->hardware.size) {
        size_said(use->hardware.size, saying->speech, name, sizeof name);
        g_string_append_printf(out, " (%s)", name);
    }
}

static void add_place(GString *out, const Refit *refit, const RefitAnswer *answer,
                      const Saying *saying)
{
    Point at =
        from_datum(refit, answer, (Point){length_to_mm(answer->at.x), length_to_mm(answer->at.y)});
    const Record *face = plate_find(refit->plate, answer->face);
    const char *name = answer->face == ID_TOP ? speech_say(saying->speech, N_("top"))
                       : face                 ? record_label(face)
                                              : NULL;
    g_string_append_printf(out, speech_say(saying->speech, N_("on %s at ")), name ? name : "?");
    add_length(out, length_from_mm(at.x), saying);
    g_string_append(out, ", ");
    add_length(out, length_from_mm(at.y), saying);
    g_string_append_printf(out, " %s, ", unit_name(saying->unit));
    add_degrees(out, answer->rotation, saying);
    add_words(out, saying, answer->turned_over ? N_(" degrees, turned over") : N_(" degrees"));
}

static void add_alike(GString *out, const Refit *refit, const RefitAnswer *answer,
                      const Saying *saying)
{
    Point at =
        from_datum(refit, answer, (Point){length_to_mm(answer->at.x), length_to_mm(answer->at.y)});
    add_length(out, length_from_mm(at.x), saying);
    g_string_append(out, " ");
    add_length(out, length_from_mm(at.y), saying);
}

static void add_lie(GString *out, NestLie lie, const char *nest, const Saying *saying)
{
    if (lie == LIE_MIDDLE)
        g_string_append_printf(out, speech_say(saying->speech, N_("; in the middle of %s")), nest);
    else if (lie == LIE_PRESSED)
        g_string_append_printf(
            out,
            speech_say(saying->speech, N_("; in %s, against the wall that its clamps push it to")),
            nest);
    else
        g_string_append_printf(
            out, speech_say(saying->speech, N_("; in %s, as near to a hole as it goes there")),
            nest);
}

/* What else is to be said of the place. */
static void add_circumstances(GString *out, const Refit *refit, const RefitAnswer *answer,
                              const Saying *saying)
{
    char name[160];
    if (answer->way == REFIT_IN_NEST) {
        feature_name_said(refit->placed, answer->about, saying->speech, name, sizeof name);
        add_lie(out, answer->lie, name, saying);
    }
    if (answer->way == REFIT_ON_ONE_HOLE && answer->verdict != REFIT_NO) {
        add_words(out, saying, N_("; anywhere from "));
        add_degrees(out, answer->arc_from, saying);
        add_words(out, saying, N_(" to "));
        add_degrees(out, answer->arc_to, saying);
        add_words(out, saying, N_(" degrees"));
    }
    if (refit->options.replace) {
        feature_name_said(refit->placed, refit->options.replace, saying->speech, name, sizeof name);
        g_string_append_printf(
            out, speech_say(saying->speech, N_("; in the place of the part of %s")), name);
    }
    for (guint k = 0; k < answer->displaced->len; k++) {
        FeatureId station = g_array_index(answer->displaced, FeatureId, k);
        feature_name_said(refit->placed, station, saying->speech, name, sizeof name);
        g_string_append_printf(
            out, "%s%s", k ? ", " : speech_say(saying->speech, N_("; in the place of ")), name);
    }
}

static void add_always(GString *out, const RefitAnswer *answer, const Saying *saying)
{
    if (!answer->always)
        add_words(out, saying, N_("; goes on only where the sizes lie kindly in their limits"));
}

char *refit_place_text(Refit *refit, uint32_t i, Unit unit)
{
    const Saying saying = {unit, NULL};
    const RefitAnswer *answer = refit_at(refit, i);
    GString *out = g_string_new(NULL);
    add_place(out, refit, answer, &saying);
    add_circumstances(out, refit, answer, &saying);
    add_always(out, answer, &saying);
    return g_string_free(out, FALSE);
}

static char *alike_text(Refit *refit, uint32_t i, const Saying *saying)
{
    const RefitAnswer *answer = refit_at(refit, i);
    GString *out = g_string_new(NULL);
    for (guint k = 0; k < answer->alike->len; k++) {
        g_string_append(out, k ? ", " : "");
        add_alike(out, refit, answer->alike->pdata[k], saying);
    }
    return g_string_free(out, answer->alike->len == 0);
}

char *refit_alike_text(Refit *refit, uint32_t i, Unit unit)
{
    const Saying saying = {unit, NULL};
    return alike_text(refit, i, &saying);
}

char *refit_answer_said(Refit *refit, uint32_t i, Unit unit, const Speech *speech)
{
    const Saying saying = {unit, speech};
    const RefitAnswer *answer = refit_at(refit, i);
    GString *out = g_string_new(NULL);
    add_place(out, refit, answer, &saying);
    for (guint k = 0; k < answer->uses->len; k++) {
        g_string_append(out, k ? "; " : ": ");
        add_use(out, refit, answer, &g_array_index(answer->uses, RefitUse, k), &saying);
    }
    add_circumstances(out, refit, answer, &saying);
    char *alike = alike_text(refit, i, &saying);
    if (alike)
        g_string_append_printf(out, speech_say(speech, N_("; the same at %s")), alike);
    g_free(alike);
    add_always(out, answer, &saying);
    return g_string_free(out, FALSE);
}

char *refit_answer_text(Refit *refit, uint32_t i, Unit unit)
{
    return refit_answer_said(refit, i, unit, NULL);
}

/* --- JSON ----------------------------------------------------------------------------------- */

static json_object *millionths_json(int64_t value)
{
    char text[LENGTH_TEXT];
    millionths_write(value, text);
    return json_object_new_double_s((double)value / 1e6, text);
}

static json_object *degrees_json(Angle angle)
{
    char text[LENGTH_TEXT];
    angle_write(angle, text);
    return json_object_new_double_s(angle_to_degrees(angle), text);
}

static json_object *place_json(Length x, Length y)
{
    json_object *place = json_object_new_array();
    json_object_array_add(place, millionths_json(x));
    json_object_array_add(place, millionths_json(y));
    return place;
}

static json_object *text_json(const char *text)
{
    return text && *text ? json_object_new_string(text) : NULL;
}

static json_object *label_json(const Refit *refit, FeatureId id)
{
    const Record *record = id ? plate_find(refit->plate, id) : NULL;
    return text_json(record ? record_label(record) : NULL);
}

static json_object *use_json(const Refit *refit, const RefitAnswer *answer, const RefitUse *use)
{
    json_object *json = json_object_new_object();
    Point at = refit_use_at(refit, answer, use);
    json_object_object_add(json, "part_hole", json_object_new_int(use->part_hole));
    json_object_object_add(json, "name", text_json(part_hole_of(refit, use)->name));
    json_object_object_add(json, "hole", use->hole ? json_object_new_int64(use->hole) : NULL);
    json_object_object_add(json, "label", label_json(refit, use->hole));
    json_object_object_add(json, "at", place_json(length_from_mm(at.x), length_from_mm(at.y)));
    json_object_object_add(json, "hardware", text_json(use->hardware.size));
    if (use->hole) {
        json_object_object_add(json, "deviation", millionths_json(length_from_mm(use->deviation)));
        json_object_object_add(json, "play", millionths_json(length_from_mm(use->play)));
    }
    return json;
}

static json_object *findings_json(const FindingList *findings, const Placed *placed)
{
    json_object *list = json_object_new_array();
    for (uint32_t i = 0; i < findings->count; i++)
        json_object_array_add(list, finding_json(&findings->items[i], placed));
    return list;
}

static json_object *displaced_json(const Refit *refit, const RefitAnswer *answer)
{
    json_object *displaced = json_object_new_array();
    for (guint k = 0; k < answer->displaced->len; k++)
        json_object_array_add(displaced,
                              label_json(refit, g_array_index(answer->displaced, FeatureId, k)));
    return displaced;
}

/* What an answer has at its own place. */
static void add_at(json_object *json, const Refit *refit, const RefitAnswer *answer)
{
    json_object *uses = json_object_new_array();
    json_object_object_add(json, "at", place_json(answer->at.x, answer->at.y));
    json_object_object_add(json, "rotation", degrees_json(answer->rotation));
    json_object_object_add(json, "turned_over", json_object_new_boolean(answer->turned_over));
    for (guint k = 0; k < answer->uses->len; k++)
        json_object_array_add(uses,
                              use_json(refit, answer, &g_array_index(answer->uses, RefitUse, k)));
    json_object_object_add(json, "uses", uses);
    json_object_object_add(json, "displaced", displaced_json(refit, answer));
}

static void add_findings(json_object *json, Refit *refit, uint32_t i)
{
    const RefitAnswer *answer = refit_at(refit, i);
    char reason[SENTENCE_TEXT];
    FindingList before = FINDING_LIST_EMPTY;
    refit_reason(refit, i, UNIT_MM, reason);
    json_object_object_add(json, "reason", answer->verdict == REFIT_NO ? text_json(reason) : NULL);
    json_object_object_add(json, "findings",
                           findings_json(&answer->findings, refit_show(refit, i)));
    refit_before(refit, answer, &before);
    json_object_object_add(json, "before", findings_json(&before, refit->placed));
    finding_list_clear(&before);
}

static json_object *alike_json(const Refit *refit, const RefitAnswer *answer)
{
    json_object *list = json_object_new_array();
    for (guint k = 0; k < answer->alike->len; k++) {
        json_object *json = json_object_new_object();
        add_at(json, refit, answer->alike->pdata[k]);
        json_object_array_add(list, json);
    }
    return list;
}

json_object *refit_answer_json(Refit *refit, uint32_t i)
{
    const RefitAnswer *answer = refit_at(refit, i);
    json_object *json = json_object_new_object();
    json_object_object_add(json, "verdict",
                           json_object_new_string(refit_verdict_name(answer->verdict)));
    json_object_object_add(json, "way", json_object_new_string(refit_way_name(answer->way)));
    json_object_object_add(json, "new_holes", json_object_new_int(answer->new_holes));
    json_object_object_add(json, "face", label_json(refit, answer->face));
    add_at(json, refit, answer);
    json_object_object_add(json, "always", json_object_new_boolean(answer->always));
    json_object_object_add(json, "rms", millionths_json(length_from_mm(answer->rms)));
    if (answer->way == REFIT_ON_ONE_HOLE) {
        json_object *arc = json_object_new_array();
        json_object_array_add(arc, degrees_json(answer->arc_from));
        json_object_array_add(arc, degrees_json(answer->arc_to));
        json_object_object_add(json, "arc", arc);
        json_object_object_add(json, "arc_least",
                               degrees_json(angle_from_degrees(refit_arc_least(refit))));
    }
    if (answer->way == REFIT_IN_NEST) {
        json_object_object_add(json, "nest", label_json(refit, answer->about));
        json_object_object_add(json, "lies", json_object_new_string(nest_lie_name(answer->lie)));
    }
    json_object_object_add(json, "alike", alike_json(refit, answer));
    add_findings(json, refit, i);
    return json;
}
