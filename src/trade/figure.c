#include "trade/figure.h"

#include "trade/figure-build.h"

#include <glib.h>
#include <json-c/json.h>
#include <math.h>
#include <string.h>

static FigureValue *add_value(FigureValue *values, size_t *count, const char *name, FigureKind kind)
{
    g_return_val_if_fail(*count < FIGURE_VALUES_MOST, &values[FIGURE_VALUES_MOST - 1]);
    FigureValue *value = &values[(*count)++];
    *value = (FigureValue){.kind = kind};
    g_strlcpy(value->name, name, sizeof value->name);
    return value;
}

void figure_input_length(Figure *figure, const char *name, Length length)
{
    add_value(figure->input, &figure->input_count, name, FIGURE_LENGTH)->length = length;
}

void figure_input_number(Figure *figure, const char *name, FigureKind kind, double number)
{
    add_value(figure->input, &figure->input_count, name, kind)->number = number;
}

void figure_input_text(Figure *figure, const char *name, const char *text)
{
    FigureValue *value = add_value(figure->input, &figure->input_count, name, FIGURE_TEXT);
    g_strlcpy(value->text, text, sizeof value->text);
}

void figure_put_length(Figure *figure, const char *name, Length length)
{
    add_value(figure->result, &figure->result_count, name, FIGURE_LENGTH)->length = length;
}

void figure_put_mm(Figure *figure, const char *name, double mm)
{
    figure_put_length(figure, name, length_from_mm(mm));
}

void figure_put_number(Figure *figure, const char *name, FigureKind kind, double number)
{
    add_value(figure->result, &figure->result_count, name, kind)->number = number;
}

void figure_put_text(Figure *figure, const char *name, const char *text)
{
    FigureValue *value = add_value(figure->result, &figure->result_count, name, FIGURE_TEXT);
    g_strlcpy(value->text, text, sizeof value->text);
}

const FigureValue *figure_result(const Figure *figure, const char *name)
{
    for (size_t i = 0; i < figure->result_count; i++)
        if (!strcmp(figure->result[i].name, name))
            return &figure->result[i];
    return NULL;
}

/* Nine significant figures are more than any formula here is good for. */
static void number_text(double number, const char *format, char *text, size_t size)
{
    g_ascii_formatd(text, (gint)size, format, number == 0 ? 0 : number);
}

static json_object *value_json(const FigureValue *value)
{
    char text[64];
    if (value->kind == FIGURE_TEXT)
        return json_object_new_string(value->text);
    if (value->kind == FIGURE_LENGTH)
        millionths_write(value->length, text);
    else
        number_text(value->number, "%.9g", text, sizeof text);
    double number = value->kind == FIGURE_LENGTH ? length_to_mm(value->length) : value->number;
    return isfinite(number) ? json_object_new_double_s(number, text) : NULL;
}

static json_object *values_json(const FigureValue *values, size_t count)
{
    json_object *object = json_object_new_object();
    for (size_t i = 0; i < count; i++)
        json_object_object_add(object, values[i].name, value_json(&values[i]));
    return object;
}

char *figure_json(const Figure *figure)
{
    json_object *object = json_object_new_object();
    json_object_object_add(object, "what", json_object_new_string(figure->what));
    json_object_object_add(object, "input", values_json(figure->input, figure->input_count));
    json_object_object_add(object, "result", values_json(figure->result, figure->result_count));
    json_object_object_add(object, "formula", json_object_new_string(figure->formula));
    json_object_object_add(object, "source", json_object_new_string(figure->source));
    char *text = g_strdup(json_object_to_json_string_ext(
        object, JSON_C_TO_STRING_PRETTY | JSON_C_TO_STRING_NOSLASHESCAPE));
    json_object_put(object);
    return text;
}

/* Residuals and cusps are too small for the usual decimals. */
static void small_length_text(Length length, Unit unit, char *text, size_t size)
{
    char inches[G_ASCII_DTOSTR_BUF_SIZE], micrometres[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_formatd(inches, sizeof inches, "%.6f", (double)length / (double)LENGTH_INCH);
    g_ascii_formatd(micrometres, sizeof micrometres, "%.3f", (double)length / (double)LENGTH_UM);
    if (unit == UNIT_INCH)
        g_snprintf(text, (gulong)size, "%s in (%s um)", inches, micrometres);
    else
        g_snprintf(text, (gulong)size, "%s um (%s in)", micrometres, inches);
}

#define SMALL (10 * LENGTH_UM)

size_t figure_value_text(const FigureValue *value, Unit unit, char *text, size_t size)
{
    static const char *const units[] = {
        [FIGURE_ANGLE] = " deg",    [FIGURE_AREA] = " mm2", [FIGURE_FORCE] = " N",
        [FIGURE_STRESS] = " N/mm2", [FIGURE_TIME] = " min", [FIGURE_NUMBER] = "",
    };
    char written[LENGTH_PEOPLE_TEXT + FIGURE_TEXT_SIZE];
    if (value->kind == FIGURE_TEXT) {
        g_strlcpy(written, value->text, sizeof written);
    } else if (value->kind == FIGURE_LENGTH && value->length && value->length < SMALL &&
               value->length > -SMALL) {
        small_length_text(value->length, unit, written, sizeof written);
    } else if (value->kind == FIGURE_LENGTH) {
        length_text_both(value->length, unit, written);
    } else {
        number_text(value->number, "%.5g", written, sizeof written);
        g_strlcat(written, units[value->kind], sizeof written);
    }
    size_t count = g_strlcpy(text, written, size);
    return MIN(count, size ? size - 1 : 0);
}

static void values_text(const FigureValue *values, size_t count, Unit unit, GString *text)
{
    for (size_t i = 0; i < count; i++) {
        char value[LENGTH_PEOPLE_TEXT + FIGURE_TEXT_SIZE];
        char *name = g_strdelimit(g_strdup(values[i].name), "_", ' ');
        figure_value_text(&values[i], unit, value, sizeof value);
        g_string_append_printf(text, "  %-28s %s\n", name, value);
        g_free(name);
    }
}

char *figure_text(const Figure *figure, Unit unit)
{
    GString *text = g_string_new(figure->what);
    g_string_append_c(text, '\n');
    values_text(figure->input, figure->input_count, unit, text);
    g_string_append(text, "gives\n");
    values_text(figure->result, figure->result_count, unit, text);
    g_string_append_printf(text, "formula: %s\nsource: %s\n", figure->formula, figure->source);
    return g_string_free(text, FALSE);
}
