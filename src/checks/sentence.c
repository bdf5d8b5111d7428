#include "checks/sentence.h"

#include "checks/rule.h"
#include "geometry/angle.h"

#include <math.h>
#include <string.h>

static const char *const level_names[] = {N_("stop"), N_("caution"), N_("note")};

const char *finding_level_name(FindingLevel level)
{
    return level_names[level];
}

static const char *recess_word(const Recess *recess)
{
    return recess->kind == RECESS_NEST || recess->kind == RECESS_BLANK_NEST ? N_("nest")
                                                                            : N_("slot");
}

static const char *fitting_word(const Fitting *fitting)
{
    static const char *const words[] = {N_("shoulder screw"), N_("dowel"), N_("relieved pin"),
                                        N_("hold-down"), N_("edge clamp")};
    return words[fitting->kind];
}

static const char *const other_words[RECORD_KINDS] = {
    [RECORD_SETTINGS] = N_("plate"),
    [RECORD_FACE] = N_("face"),
    [RECORD_BASE] = N_("base"),
    [RECORD_PART] = N_("part"),
    [RECORD_STATION] = N_("station"),
    [RECORD_HOLE] = N_("hole"),
    [RECORD_KEEP_CLEAR] = N_("keep-clear"),
    [RECORD_OPERATION] = N_("operation"),
};

static const char *record_word(const Record *record)
{
    if (record->kind == RECORD_RECESS)
        return recess_word(&record->recess);
    if (record->kind == RECORD_FITTING)
        return fitting_word(&record->fitting);
    return other_words[record->kind];
}

/* A screw or pin without a label of its own is called after the hole it stands in. */
static const char *hole_label(const Placed *placed, const Record *record)
{
    if (record->kind != RECORD_FITTING || !record->fitting.hole)
        return NULL;
    const Record *hole = placed_record(placed, record->fitting.hole);
    return hole ? record_label(hole) : NULL;
}

void feature_name_said(const Placed *placed, FeatureId id, const Speech *speech, char *text,
                       size_t size)
{
    const Record *record = placed_record(placed, id);
    if (!record) {
        g_snprintf(text, size, speech_say(speech, N_("number %u")), id);
        return;
    }
    const char *label = record_label(record), *in = hole_label(placed, record);
    const char *word = speech_say(speech, record_word(record));
    if (label)
        g_snprintf(text, size, "%s %s", word, label);
    else if (in)
        g_snprintf(text, size, speech_say(speech, N_("%s in %s")), word, in);
    else
        g_snprintf(text, size, speech_say(speech, N_("%s no. %u")), word, id);
}

void feature_name(const Placed *placed, FeatureId id, char *text, size_t size)
{
    feature_name_said(placed, id, NULL, text, size);
}

static void write_area(double value, Unit unit, char *text, size_t size)
{
    char number[G_ASCII_DTOSTR_BUF_SIZE];
    bool mm = unit == UNIT_MM;
    g_ascii_formatd(number, sizeof number, mm ? "%.1f" : "%.4f",
                    mm ? value : value / (25.4 * 25.4));
    g_snprintf(text, size, "%s %s", number, mm ? "mm2" : "in2");
}

typedef struct Filling {
    const Finding *finding;
    const Placed *placed;
    Unit unit;
    const Speech *speech;
} Filling;

static void write_value(double value, const Filling *filling, GString *out)
{
    ValueKind kind = filling->finding->rule->cases[filling->finding->which].kind;
    char text[LENGTH_PEOPLE_TEXT] = "";
    switch (kind) {
    case VALUE_LENGTH:
        length_text_with_unit(length_from_mm(value), filling->unit, text);
        break;
    case VALUE_ANGLE:
        g_ascii_formatd(text, sizeof text, "%.3f", value);
        break;
    case VALUE_COUNT:
        g_ascii_formatd(text, sizeof text, fabs(value) < 1000 ? "%.3g" : "%.0f", value);
        break;
    case VALUE_AREA:
        write_area(value, filling->unit, text, sizeof text);
        break;
    case VALUE_NONE:
        break;
    }
    speech_figures(filling->speech, text);
    g_string_append(out, text);
    if (kind == VALUE_ANGLE)
        g_string_append(out, speech_say(filling->speech, N_(" degrees")));
}

static void operation_name(const Filling *filling, FeatureId id, char *text, size_t size)
{
    const Record *record = id ? placed_record(filling->placed, id) : NULL;
    bool named = record && record->kind == RECORD_OPERATION && record->operation.name;
    if (named) {
        /* Names are often whole phrases: "Cut the profile". */
        char *quoted = g_strdup_printf("\"%s\"", record->operation.name);
        g_snprintf(text, size, speech_say(filling->speech, N_("operation %s")), quoted);
        g_free(quoted);
        return;
    }
    g_snprintf(text, size, speech_say(filling->speech, N_("operation no. %u")), id);
}

static void fill(const Filling *filling, const char *word, size_t length, GString *out)
{
    const Finding *finding = filling->finding;
    char name[160];
    if (length == 1 && (*word == 'a' || *word == 'b')) {
        feature_name_said(filling->placed, finding->features[*word - 'a'], filling->speech, name,
                          sizeof name);
        g_string_append(out, name);
    } else if (length == 9 && memcmp(word, "operation", 9) == 0) {
        operation_name(filling, finding->operation, name, sizeof name);
        g_string_append(out, name);
    } else if (length == 5 && memcmp(word, "value", 5) == 0) {
        write_value(finding->value, filling, out);
    } else if (length == 5 && memcmp(word, "limit", 5) == 0) {
        write_value(finding->limit, filling, out);
    } else if (length == 4 && (memcmp(word, "less", 4) == 0 || memcmp(word, "more", 4) == 0)) {
        write_value(fabs(finding->limit - finding->value), filling, out);
    } else if (length == 4 && memcmp(word, "over", 4) == 0) {
        write_value(-finding->value, filling, out);
    }
}

/* A sentence that begins with a feature's name begins with a capital. */
static void capitalize(GString *out)
{
    char capital[6];
    if (!out->len)
        return;
    int length = g_unichar_to_utf8(g_unichar_toupper(g_utf8_get_char(out->str)), capital);
    const char *rest = g_utf8_next_char(out->str);
    g_string_erase(out, 0, rest - out->str);
    g_string_prepend_len(out, capital, length);
}

static void expand(const Filling *filling, const char *sentence, char *text)
{
    GString *out = g_string_sized_new(200);
    for (const char *p = speech_say(filling->speech, sentence); *p; p++) {
        const char *end = *p == '{' ? strchr(p, '}') : NULL;
        if (end) {
            fill(filling, p + 1, (size_t)(end - p - 1), out);
            p = end;
        } else {
            g_string_append_c(out, *p);
        }
    }
    capitalize(out);
    const char *end;
    if (g_strlcpy(text, out->str, SENTENCE_TEXT) >= SENTENCE_TEXT &&
        !g_utf8_validate(text, -1, &end))
        text[end - text] = '\0';
    g_string_free(out, TRUE);
}

void finding_message_said(const Finding *finding, const Placed *placed, Unit unit,
                          const Speech *speech, char *text)
{
    Filling filling = {finding, placed, unit, speech};
    expand(&filling, finding->rule->cases[finding->which].message, text);
}

void finding_message(const Finding *finding, const Placed *placed, Unit unit, char *text)
{
    finding_message_said(finding, placed, unit, NULL, text);
}

void finding_remedy_said(const Finding *finding, const Placed *placed, Unit unit,
                         const Speech *speech, char *text)
{
    Filling filling = {finding, placed, unit, speech};
    const char *remedy = finding->rule->cases[finding->which].remedy;
    expand(&filling, remedy ? remedy : "", text);
}

void finding_remedy(const Finding *finding, const Placed *placed, Unit unit, char *text)
{
    finding_remedy_said(finding, placed, unit, NULL, text);
}

/* Figures in JSON are rounded to the nanometre, or to as many places of any other kind: beyond that
 * they say nothing. */
static json_object *figure_json(double value, ValueKind kind)
{
    char text[LENGTH_TEXT];
    if (kind == VALUE_NONE || !isfinite(value))
        return NULL;
    millionths_write(llround(value * 1e6), text);
    return json_object_new_double_s(value, text);
}

static json_object *place_json(Point at)
{
    json_object *place = json_object_new_array();
    json_object_array_add(place, figure_json(at.x, VALUE_LENGTH));
    json_object_array_add(place, figure_json(at.y, VALUE_LENGTH));
    return place;
}

static json_object *name_json(const Placed *placed, FeatureId id)
{
    const Record *record = id ? placed_record(placed, id) : NULL;
    if (!record)
        return NULL;
    const char *name =
        record->kind == RECORD_OPERATION ? record->operation.name : record_label(record);
    return name ? json_object_new_string(name) : NULL;
}

json_object *finding_json(const Finding *finding, const Placed *placed)
{
    char text[SENTENCE_TEXT];
    ValueKind kind = finding->rule->cases[finding->which].kind;
    json_object *json = json_object_new_object();
    json_object_object_add(json, "rule", json_object_new_string(finding->rule->slug));
    json_object_object_add(json, "level",
                           json_object_new_string(finding_level_name(finding->level)));
    json_object_object_add(json, "face", name_json(placed, finding->face));
    json_object_object_add(json, "operation", name_json(placed, finding->operation));
    json_object_object_add(json, "at", place_json(finding->at));
    json_object *features = json_object_new_array();
    for (int i = 0; i < finding->feature_count; i++)
        json_object_array_add(features, json_object_new_int64(finding->features[i]));
    json_object_object_add(json, "features", features);
    json_object_object_add(json, "value", figure_json(finding->value, kind));
    json_object_object_add(json, "limit", figure_json(finding->limit, kind));
    finding_message(finding, placed, UNIT_MM, text);
    json_object_object_add(json, "message", json_object_new_string(text));
    finding_remedy(finding, placed, UNIT_MM, text);
    json_object_object_add(json, "remedy", *text ? json_object_new_string(text) : NULL);
    if (finding->accepted)
        json_object_object_add(json, "accepted", json_object_new_boolean(1));
    return json;
}
