/* The pictures of figures, for usual and for awkward ones: all marks on the sheet, and no line of
 * text over another, or through by a line. */
#include "editor/figure-picture.h"
#include "editor/figures-answer.h"

#include <math.h>
#include <string.h>

/* cmocka wants these before it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* mm, as the page shows them at its usual size */
#define WIDTH 157.0
#define HEIGHT 67.0

/* What is typed in place of what a form starts with: field by field, "option=text"; "=text" is the
 * size. */
static const struct {
    const char *what, *typed[6];
} awkward[] = {
    {"thread", {"=0-80"}},
    {"thread", {"=1-8"}},
    {"thread", {"=M24"}},
    {"thread", {"=M1.6"}},
    {"drill", {"=#97"}},
    {"drill", {"=1in"}},
    {"drill", {"=0.01mm"}},
    {"drill", {"=5mm", "series=letter"}},
    {"tap", {"=1-8", "depth=4in"}},
    {"tap", {"=0-80", "depth=0.01in"}},
    {"tap", {"=M6", "depth="}},
    {"tap", {"=M6", "depth=", "per-cent=10"}},
    {"tap", {"=M3", "form=yes", "kind=bottoming"}},
    {"engagement", {"=1-8", "length=0.1in"}},
    {"engagement", {"=M1.6", "length=200mm"}},
    {"engagement", {"=M6", "plate=acetal"}},
    {"fit", {"=50H7/p6"}},
    {"fit", {"=3H7/c11"}},
    {"fit", {"=10H7/h6"}},
    {"fit", {"=0.25in", "hole=0.25in:0.2505in", "shaft=0.2498in:0.2498in"}},
    {"fit", {"=10mm", "hole=10mm:10mm", "shaft=10mm:10mm"}},
    {"bevel", {"angle=44"}},
    {"bevel", {"angle=0.5"}},
    {"bevel", {"angle=3", "sides=1", "width=5mm"}},
    {"bevel", {"thickness=12mm", "edge=0", "angle=20", "width=200mm"}},
    {"sine", {"angle=0"}},
    {"sine", {"angle=60"}},
    {"sine", {"angle=33.123"}},
    {"sine", {"length=1in", "angle=2"}},
    {"cusp", {"step=", "cusp=0.0001mm"}},
    {"cusp", {"step=0.15in", "cutter=0.15in"}},
    {"location-error", {"relieved=yes", "along=-2in", "across=-3in"}},
    {"location-error", {"across=20in"}},
    {"location-error", {"distance=0.1in", "clearance=0.2in", "along=0.1in"}},
    {"location-error", {"clearance=0", "position=0"}},
    {"holding", {"width=6mm", "cutter=6mm", "depth=30mm"}},
    {"holding", {"depth=0.01mm", "screw=", "torque="}},
    {"batch", {"plates=12", "shift=24"}},
    {"batch", {"plates=1", "load=0", "swap=0", "cut=0.01"}},
    {"batch", {"cut=600, 900", "load=300"}},
};

static Lettering *lettering;
static int complaints;

/* All of them are wanted, not the first alone. */
static void complain(const char *format, ...) G_GNUC_PRINTF(1, 2);
static void complain(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = g_strdup_vprintf(format, arguments);
    va_end(arguments);
    print_message("# %s\n", text);
    g_free(text);
    complaints++;
}

/* Whether a piece of a line runs through a box, by halving it. */
static bool runs_through(Point a, Point b, Box box, int halvings)
{
    if (fmax(a.x, b.x) <= box.x0 || fmin(a.x, b.x) >= box.x1 || fmax(a.y, b.y) <= box.y0 ||
        fmin(a.y, b.y) >= box.y1)
        return false;
    Point middle = {(a.x + b.x) / 2, (a.y + b.y) / 2};
    if (halvings == 0 ||
        (middle.x > box.x0 && middle.x < box.x1 && middle.y > box.y0 && middle.y < box.y1))
        return true;
    return runs_through(a, middle, box, halvings - 1) || runs_through(middle, b, box, halvings - 1);
}

static void check_lines(const Drawing *drawing, const Mark *text, const char *name)
{
    for (size_t i = 0; i < drawing->mark_count; i++) {
        const Mark *mark = &drawing->marks[i];
        const Vertex *v = drawing_mark_vertices(drawing, mark);
        for (uint32_t j = 0; mark->kind == MARK_STROKE && j + 1 < mark->count; j++)
            if (v[j].sagitta == 0 && runs_through((Point){v[j].x, v[j].y},
                                                  (Point){v[j + 1].x, v[j + 1].y}, text->box, 12)) {
                complain("%s: a line of %s runs through \"%s\"", name, mark_role_name(mark->role),
                         drawing_mark_text(drawing, text));
                break;
            }
    }
}

static void check_sheet(const Drawing *drawing, const char *name)
{
    for (size_t i = 0; i < drawing->mark_count; i++) {
        const Mark *mark = &drawing->marks[i];
        Box box = mark->box;
        if (!(box.x0 >= 0 && box.y0 >= 0 && box.x1 <= WIDTH && box.y1 <= HEIGHT))
            complain("%s: a %s %s reaches to %g %g, %g %g", name, mark_role_name(mark->role),
                     mark->kind == MARK_TEXT ? drawing_mark_text(drawing, mark) : "mark", box.x0,
                     box.y0, box.x1, box.y1);
        if (mark->kind == MARK_TEXT)
            check_lines(drawing, mark, name);
        for (size_t j = 0; mark->kind == MARK_TEXT && j < i; j++) {
            const Mark *other = &drawing->marks[j];
            Box b = other->box;
            if (other->kind == MARK_TEXT && box.x0 < b.x1 && b.x0 < box.x1 && box.y0 < b.y1 &&
                b.y0 < box.y1) {
                char *text = g_strdup(drawing_mark_text(drawing, mark));
                complain("%s: \"%s\" lies over \"%s\"", name, text,
                         drawing_mark_text(drawing, other));
                g_free(text);
            }
        }
    }
}

static void draw(const FigureForm *form, const char *const *texts, Unit unit, const char *name)
{
    static FigureAnswer answer;
    figures_answer(form, texts, unit, &answer);
    if (!answer.worked_out) {
        complain("%s: %s", name, answer.problem);
        return;
    }
    Drawing *drawing = drawing_new(lettering);
    drawing_begin_sheet(drawing, WIDTH, HEIGHT, "");
    assert_true(figure_picture_build(drawing, &answer.figure, unit, WIDTH, HEIGHT));
    assert_true(drawing->mark_count > 0);
    check_sheet(drawing, name);
    drawing_free(drawing);
}

static void start(const FigureForm *form, Unit unit, const char **texts)
{
    for (int i = 0; form->fields[i].name; i++) {
        const char *text = unit == UNIT_INCH ? form->fields[i].inch : form->fields[i].mm;
        texts[i] = text ? text : "";
    }
}

static void as_they_start(void **state)
{
    for (gsize i = 0; figure_form(i); i++)
        for (Unit unit = UNIT_MM; unit <= UNIT_INCH; unit++) {
            const char *texts[FIGURES_FIELDS_MOST];
            start(figure_form(i), unit, texts);
            draw(figure_form(i), texts, unit, figure_form(i)->what);
        }
    assert_int_equal(complaints, 0);
}

static void type(const FigureForm *form, const char *typed, const char **texts)
{
    const char *equals = strchr(typed, '=');
    gsize length = (gsize)(equals - typed);
    for (int i = 0; form->fields[i].name; i++) {
        const FormField *field = &form->fields[i];
        gboolean is = field->option ? strlen(field->option) == length &&
                                          strncmp(field->option, typed, length) == 0
                                    : length == 0 && field->kind != FORM_HEADING;
        if (is)
            texts[i] = equals + 1;
    }
}

static void awkward_ones(void **state)
{
    complaints = 0;
    for (gsize i = 0; i < G_N_ELEMENTS(awkward); i++) {
        gsize form = 0;
        while (strcmp(figure_form(form)->what, awkward[i].what) != 0)
            form++;
        for (Unit unit = UNIT_MM; unit <= UNIT_INCH; unit++) {
            const char *texts[FIGURES_FIELDS_MOST];
            start(figure_form(form), unit, texts);
            for (int j = 0; j < 6 && awkward[i].typed[j]; j++)
                type(figure_form(form), awkward[i].typed[j], texts);
            char name[160];
            g_snprintf(name, sizeof name, "%s %s %s", awkward[i].what, awkward[i].typed[0],
                       unit == UNIT_MM ? "mm" : "in");
            draw(figure_form(form), texts, unit, name);
        }
    }
    assert_int_equal(complaints, 0);
}

static int open_lettering(void **state)
{
    lettering = lettering_new(NULL);
    return lettering ? 0 : -1;
}

static int close_lettering(void **state)
{
    lettering_unref(lettering);
    return 0;
}

int main(void)
{
    const struct CMUnitTest cases[] = {
        cmocka_unit_test(as_they_start),
        cmocka_unit_test(awkward_ones),
    };
    return cmocka_run_group_tests(cases, open_lettering, close_lettering);
}
