#include "editor/figures-answer.h"

#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/drill.h"
#include "trade/size-words.h"
#include "trade/typed.h"

#include <string.h>

/* --- what is wrong, said in the form's words ---------------------------------------------------
 */

/* The command's names of options become the form's; what only helps at the command goes. */
static void set_problem(const FigureForm *form, const char *const *texts, const char *message,
                        FigureAnswer *answer)
{
    int named = -1, empty = -1; /* the first field that is named, and of those that are empty */
    GString *text = g_string_new(message);
    char *usage = strstr(text->str, _("; say "));
    if (usage)
        g_string_truncate(text, (gsize)(usage - text->str));
    for (int i = 0; form->fields[i].name; i++) {
        const FormField *field = &form->fields[i];
        if (!field->option)
            continue;
        char *option = g_strconcat("--", field->option, NULL), *at = strstr(text->str, option);
        char *name = g_strdup_printf("“%s”", _(field->name));
        /* "--cusp" is not part of "--cusp-2". */
        if (at && !g_ascii_isalnum(at[strlen(option)]) && at[strlen(option)] != '-') {
            gssize place = at - text->str;
            g_string_erase(text, place, (gssize)strlen(option));
            g_string_insert(text, place, name);
            named = named < 0 ? i : named;
            empty = empty < 0 && !*texts[i] ? i : empty;
        }
        g_free(option);
        g_free(name);
    }
    if (answer->field < 0)
        answer->field = empty >= 0 ? empty : named;
    g_strlcpy(answer->problem, text->str, sizeof answer->problem);
    g_string_free(text, TRUE);
    gunichar first = g_unichar_toupper(g_utf8_get_char(answer->problem));
    if (first < 128)
        answer->problem[0] = (char)first;
}

/* An error's place is "--depth, column 3" or nothing. */
static int field_of_place(const FigureForm *form, const char *place)
{
    for (int i = 0; form->fields[i].name; i++) {
        const char *option = form->fields[i].option;
        gsize length = option ? strlen(option) : 0;
        if (option && g_str_has_prefix(place, "--") && !strncmp(place + 2, option, length) &&
            (place[2 + length] == '\0' || place[2 + length] == ','))
            return i;
    }
    return -1;
}

static int field_of_size(const FigureForm *form)
{
    for (int i = 0; form->fields[i].name; i++)
        if (!form->fields[i].option && form->fields[i].kind != FORM_HEADING)
            return i;
    return -1;
}

/* --- each field by itself ----------------------------------------------------------------------
 */

static gboolean check_field(const FormField *field, const char *text, Unit unit, char *taken_as,
                            Error *error)
{
    Length length;
    Angle angle;
    double number;
    const Drill *drill;
    char name[TYPED_TAKEN_AS];
    switch (field->kind) {
    case FORM_LENGTH:
        return pin_typed_length_read(text, unit, &length, taken_as, TYPED_TAKEN_AS, error);
    case FORM_ANGLE:
        return pin_typed_angle_read(text, &angle, error);
    case FORM_NUMBER:
        return pin_typed_number_read(text, -1e9, 1e9, &number, error);
    case FORM_HOLE:
        drill = drill_find(text, NULL);
        if (drill) {
            drill_text(drill, name, sizeof name);
            size_said(name, pin_speech(), taken_as, TYPED_TAKEN_AS);
        }
        return drill || pin_typed_length_read(text, unit, &length, taken_as, TYPED_TAKEN_AS, error);
    default:
        return TRUE;
    }
}

static gboolean check_fields(const FigureForm *form, const char *const *texts, Unit unit,
                             FigureAnswer *answer)
{
    for (int i = 0; form->fields[i].name; i++) {
        const FormField *field = &form->fields[i];
        Error error = {0};
        if (!*texts[i] && field->needed) {
            answer->waiting = TRUE;
            answer->field = i;
            g_snprintf(answer->problem, sizeof answer->problem, _("Type “%s”."), _(field->name));
            return FALSE;
        }
        if (*texts[i] && !check_field(field, texts[i], unit, answer->taken_as[i], &error)) {
            answer->field = i;
            set_problem(form, texts, error.message, answer);
            return FALSE;
        }
    }
    return TRUE;
}

/* --- all together ------------------------------------------------------------------------------
 */

/* Options as "--angle=7.5", so that a value may begin with a minus. */
static GPtrArray *command_line(const FigureForm *form, const char *const *texts, Unit unit)
{
    GPtrArray *words = g_ptr_array_new_with_free_func(g_free);
    g_ptr_array_add(words, g_strdup(form->what));
    if (unit == UNIT_INCH)
        g_ptr_array_add(words, g_strdup("--unit=in"));
    for (int i = 0; form->fields[i].name; i++) {
        const FormField *field = &form->fields[i];
        if (!*texts[i] || field->kind == FORM_HEADING)
            continue;
        if (!field->option)
            g_ptr_array_add(words, g_strdup(texts[i]));
        else if (field->kind == FORM_FLAG)
            g_ptr_array_add(words, g_strconcat("--", field->option, NULL));
        else
            g_ptr_array_add(words, g_strconcat("--", field->option, "=", texts[i], NULL));
    }
    return words;
}

static void say_size(const FigureForm *form, FigureAnswer *answer)
{
    static const char *const sizes[] = {"thread", "drill", "nearest"};
    int field = field_of_size(form);
    const Figure *figure = &answer->figure;
    if (field < 0)
        return;
    for (gsize i = 0; i < G_N_ELEMENTS(sizes); i++) {
        const FigureValue *value = figure_result(figure, sizes[i]);
        for (size_t j = 0; !value && j < figure->input_count; j++)
            if (!strcmp(figure->input[j].name, sizes[i]) && i == 0)
                value = &figure->input[j];
        if (!value)
            continue;
        char name[TYPED_TAKEN_AS];
        size_said(value->text, pin_speech(), name, sizeof name);
        g_snprintf(answer->taken_as[field], sizeof answer->taken_as[field],
                   i == 2 ? _("nearest: %s") : "%s", name);
        return;
    }
}

void figures_answer(const FigureForm *form, const char *const *texts, Unit unit,
                    FigureAnswer *answer)
{
    *answer = (FigureAnswer){.field = -1};
    if (!check_fields(form, texts, unit, answer))
        return;
    Error error = {0};
    GPtrArray *words = command_line(form, texts, unit);
    answer->worked_out =
        figure_work_out((int)words->len, (char **)words->pdata, &answer->figure, &error);
    if (answer->worked_out) {
        say_size(form, answer);
    } else {
        answer->field = field_of_place(form, error.place);
        set_problem(form, texts, error.message, answer);
        if (answer->field < 0)
            answer->field = field_of_size(form);
    }
    g_ptr_array_unref(words);
}
