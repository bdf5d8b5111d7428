#include "editor/limit-value.h"

#include "editor/intl.h"
#include "editor/record-list.h"
#include "editor/speech.h"
#include "trade/typed.h"

#include <stddef.h>

#define MILLION 1e6

static int find(const Settings *settings, const Rule *rule, const RuleLimit *limit)
{
    for (uint32_t i = 0; i < settings->limits.count; i++) {
        const ChangedLimit *changed = LIST_AT(&settings->limits, ChangedLimit, i);
        if (g_strcmp0(changed->rule, rule->slug) == 0 &&
            g_strcmp0(changed->limit, limit->name) == 0)
            return (int)i;
    }
    return -1;
}

double limit_value(const Settings *settings, const Rule *rule, const RuleLimit *limit)
{
    int at = find(settings, rule, limit);
    return at < 0 ? limit->starting
                  : (double)LIST_AT(&settings->limits, ChangedLimit, at)->value / MILLION;
}

gboolean limit_is_changed(const Settings *settings, const Rule *rule, const RuleLimit *limit)
{
    return find(settings, rule, limit) >= 0;
}

char *limit_text(const RuleLimit *limit, double value, Unit unit, gboolean with_unit)
{
    char text[LENGTH_PEOPLE_TEXT];
    if (limit->kind == VALUE_LENGTH && with_unit)
        pin_length_text_with_unit(length_from_mm(value), unit, text);
    else if (limit->kind == VALUE_LENGTH)
        pin_length_text(length_from_mm(value), unit, text);
    else
        pin_figures(g_ascii_formatd(text, sizeof text, "%.10g", value));
    return limit->kind == VALUE_ANGLE && with_unit ? g_strconcat(text, "°", NULL) : g_strdup(text);
}

static gboolean read_length(const char *text, Unit unit, int64_t *value, char *taken_as,
                            Error *error)
{
    /* A nanometre is a millionth of a millimetre. */
    if (!pin_typed_length_read(text, unit, value, taken_as, TYPED_TAKEN_AS, error))
        return FALSE;
    if (*value >= 0)
        return TRUE;
    return error_set(error, ERROR_LIMIT, NULL, "%s",
                     _("a limit can't be less than nothing; type 0 or more"));
}

gboolean limit_read(const RuleLimit *limit, const char *text, Unit unit, int64_t *value,
                    char *taken_as, Error *error)
{
    double number;
    Angle angle;
    taken_as[0] = '\0';
    switch (limit->kind) {
    case VALUE_LENGTH:
        return read_length(text, unit, value, taken_as, error);
    case VALUE_ANGLE:
        if (!pin_typed_angle_read(text, &angle, error))
            return FALSE;
        number = angle_to_degrees(angle);
        break;
    default:
        if (!pin_typed_number_read(text, 0, 1e6, &number, error))
            return FALSE;
    }
    *value = (int64_t)(number * MILLION + 0.5);
    return TRUE;
}

static Record *settings_copy(PinDocument *document)
{
    return record_copy(plate_find(pin_document_plate(document), ID_SETTINGS), ID_SETTINGS);
}

gboolean limit_change(PinDocument *document, const Rule *rule, const RuleLimit *limit,
                      int64_t value)
{
    Record *after = settings_copy(document);
    int at = find(&after->settings, rule, limit);
    ChangedLimit *changed;
    if (at >= 0) {
        changed = LIST_AT(&after->settings.limits, ChangedLimit, at);
    } else {
        changed = list_append(&after->settings.limits, ChangedLimit);
        changed->rule = g_strdup(rule->slug);
        changed->limit = g_strdup(limit->name);
    }
    changed->value = value;
    return pin_document_change(document, _("Change a limit"), after);
}

gboolean limit_put_back(PinDocument *document, const Rule *rule, const RuleLimit *limit)
{
    Record *after = settings_copy(document);
    int at = find(&after->settings, rule, limit);
    if (at < 0) {
        record_unref(after);
        return FALSE;
    }
    record_list_remove(after, offsetof(Settings, limits), (uint32_t)at);
    return pin_document_change(document, _("Put a limit back"), after);
}
