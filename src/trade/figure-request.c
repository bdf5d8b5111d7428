/* Reading what a figure was asked with. */
#include "trade/drill.h"
#include "trade/figure-build.h"
#include "trade/typed.h"

#include <glib.h>
#include <string.h>

typedef struct FigureWay {
    const char *name;
    bool (*work_out)(const FigureRequest *request, Figure *figure, Error *error);
    const char *options; /* names with a blank between */
    const char *flags;   /* options that take no value */
    const char *usage;
} FigureWay;

static const FigureWay ways[] = {
    {"thread", figure_of_thread, "", "", "thread SIZE, as in: thread M8x1.25"},
    {"drill", figure_of_drill, "series", "",
     "drill NAME or LENGTH [--series number|letter|fraction|metric], as in: drill '#43'"},
    {"tap", figure_of_tap, "drill per-cent depth kind", "form",
     "tap SIZE [--drill D] [--per-cent P] [--form] [--depth L] [--kind plug|bottoming|"
     "spiral-flute], as in: tap 1/4-20 --drill 0.201in"},
    {"engagement", figure_of_engagement, "plate strength length", "",
     "engagement SIZE [--plate MATERIAL] [--strength N/MM2] [--length L], as in: engagement M6 "
     "--plate 6061-T6"},
    {"fit", figure_of_fit, "hole shaft", "",
     "fit FIT, or fit SIZE --hole LEAST:GREATEST --shaft LEAST:GREATEST, as in: fit 10H7/g6"},
    {"bevel", figure_of_bevel,
     "thickness edge angle height sides width cutter corner ball cusp thicker beyond", "",
     "bevel --thickness T --edge E, and --angle A or --height H [--sides 1|2] [--width W] "
     "[--cutter "
     "D] [--corner R] [--ball D --cusp C] [--thicker T] [--beyond L], as in: bevel --thickness "
     "3.2mm "
     "--edge 0.5mm --angle 7.5"},
    {"sine", figure_of_sine, "length angle set", "",
     "sine --length L --angle A [--set inch|metric], as in: sine --length 10in --angle 5"},
    {"cusp", figure_of_cusp, "cutter step cusp", "",
     "cusp --cutter D, and --step S or --cusp C, as in: cusp --cutter 3/16in --step 0.010in"},
    {"location-error", figure_of_location_error,
     "distance clearance clearance-2 position part-position along across repeat repeat-turn height "
     "squareness temperature part plate",
     "relieved",
     "location-error --distance L --clearance C [--clearance-2 C] [--relieved] [--position P] "
     "[--part-position P] [--along L] [--across L] [--repeat R] [--repeat-turn A] [--height H "
     "--squareness A] [--temperature T --part MATERIAL --plate MATERIAL]"},
    {"holding", figure_of_holding,
     "material cutter width depth feed teeth force screw screws torque friction factor overhang "
     "edge strip",
     "",
     "holding --material M --cutter D --width AE --depth AP --feed FZ [--teeth Z] [--force N] "
     "[--screw SIZE --screws N --torque NM] [--friction F] [--factor F] [--overhang L --edge T "
     "--strip B]"},
    {"batch", figure_of_batch, "load cut swap plates parts shift", "",
     "batch --load MIN --cut MIN[,MIN] --swap MIN [--plates N] [--parts N] [--shift HOURS], as in: "
     "batch --load 4 --cut 6 --swap 0.5"},
};

const char *figure_name(size_t index)
{
    return index < G_N_ELEMENTS(ways) ? ways[index].name : NULL;
}

static const FigureWay *find_way(const char *what)
{
    for (size_t i = 0; i < G_N_ELEMENTS(ways); i++)
        if (!strcmp(ways[i].name, what))
            return &ways[i];
    return NULL;
}

const char *figure_usage(const char *what)
{
    const FigureWay *way = find_way(what);
    return way ? way->usage : NULL;
}

const char *request_text(const FigureRequest *request, const char *name)
{
    for (size_t i = 0; i < request->option_count; i++)
        if (!strcmp(request->options[i].name, name))
            return request->options[i].text;
    return NULL;
}

bool request_size(const FigureRequest *request, const char **size, Error *error)
{
    *size = request->size;
    return *size || error_set(error, ERROR_MISSING, NULL, "what to work out is missing; say %s",
                              figure_usage(request->what));
}

/* True when the option is there; false with `missing` set when it must be and is not. */
static bool given(const FigureRequest *request, const char *name, bool needed, const char **text,
                  bool *missing, Error *error)
{
    *text = request_text(request, name);
    *missing = !*text && needed;
    if (*missing)
        error_set(error, ERROR_MISSING, NULL, "--%s is missing; say %s", name,
                  figure_usage(request->what));
    return *text != NULL;
}

static bool of_option(Error *error, const char *name, bool fine)
{
    if (!fine && error) {
        char place[sizeof error->place];
        g_snprintf(place, sizeof place, "--%s%s%s", name, error->place[0] ? ", " : "",
                   error->place);
        g_strlcpy(error->place, place, sizeof error->place);
    }
    return fine;
}

/* An option's name as a key: "part-position" is "part_position". */
static const char *key_of(const char *name, char key[32])
{
    g_strlcpy(key, name, 32);
    return g_strdelimit(key, "-", '_');
}

static void input_length(const FigureRequest *request, const char *name, bool was_given,
                         Length length)
{
    char key[32];
    if (was_given || length)
        figure_input_length(request->figure, key_of(name, key), length);
}

static void input_number(const FigureRequest *request, const char *name, bool was_given,
                         FigureKind kind, double number)
{
    char key[32];
    if (was_given || number != 0)
        figure_input_number(request->figure, key_of(name, key), kind, number);
}

bool request_place(const FigureRequest *request, const char *name, Length *length, Error *error)
{
    const char *text = request_text(request, name);
    if (text &&
        !of_option(error, name, typed_length_read(text, request->unit, length, NULL, 0, error)))
        return false;
    input_length(request, name, text != NULL, *length);
    return true;
}

bool request_length(const FigureRequest *request, const char *name, bool needed, Length *length,
                    Error *error)
{
    const char *text;
    bool missing;
    if (!given(request, name, needed, &text, &missing, error) && missing)
        return false;
    if (!request_place(request, name, length, error))
        return false;
    return *length >= 0 || error_set(error, ERROR_LIMIT, NULL, "--%s can't be less than 0", name);
}

bool request_angle(const FigureRequest *request, const char *name, bool needed, double *degrees,
                   Error *error)
{
    const char *text;
    bool missing;
    if (given(request, name, needed, &text, &missing, error)) {
        Angle angle;
        if (!of_option(error, name, typed_angle_read(text, &angle, error)))
            return false;
        *degrees = angle_to_degrees(angle);
    }
    input_number(request, name, text != NULL, FIGURE_ANGLE, *degrees);
    return !missing;
}

bool request_number(const FigureRequest *request, const char *name, bool needed, double least,
                    double greatest, double *number, Error *error)
{
    const char *text;
    bool missing;
    if (given(request, name, needed, &text, &missing, error) &&
        !of_option(error, name, typed_number_read(text, least, greatest, number, error)))
        return false;
    input_number(request, name, text != NULL, FIGURE_NUMBER, *number);
    return !missing;
}

bool request_count(const FigureRequest *request, const char *name, bool needed, int least,
                   int greatest, int *count, Error *error)
{
    const char *text;
    bool missing;
    if (given(request, name, needed, &text, &missing, error) &&
        !of_option(error, name, typed_count_read(text, least, greatest, count, error)))
        return false;
    input_number(request, name, text != NULL, FIGURE_NUMBER, *count);
    return !missing;
}

const Thread *request_thread(const FigureRequest *request, Error *error)
{
    const char *size;
    const Thread *thread = request_size(request, &size, error) ? thread_find(size, error) : NULL;
    char name[40];
    if (!thread)
        return NULL;
    thread_text(thread, name, sizeof name);
    figure_input_text(request->figure, "thread", name);
    return thread;
}

const Material *request_material(const FigureRequest *request, const char *name, const char *usual,
                                 Error *error)
{
    const char *text;
    bool missing;
    if (!given(request, name, !usual, &text, &missing, error) && missing)
        return NULL;
    const Material *material = material_find(text ? text : usual, error);
    char key[32];
    if (material)
        figure_input_text(request->figure, key_of(name, key), material->name);
    return material;
}

bool drill_or_length(const char *name, Unit unit, Length *diameter, Error *error)
{
    const Drill *drill = drill_find(name, NULL);
    if (!drill)
        return typed_length_read(name, unit, diameter, NULL, 0, error);
    *diameter = drill->diameter;
    return true;
}

static bool has_word(const char *words, const char *word)
{
    char **list = g_strsplit(words, " ", -1);
    bool found = g_strv_contains((const char *const *)list, word);
    g_strfreev(list);
    return found;
}

static bool read_unit(const char *text, Unit *unit, Error *error)
{
    *unit = !strcmp(text, "in") || !strcmp(text, "inch") ? UNIT_INCH : UNIT_MM;
    return *unit == UNIT_INCH || !strcmp(text, "mm") ||
           error_set(error, ERROR_TYPED, "--unit", "say in or mm");
}

/* An option may be written "--angle 5" or "--angle=5". */
static bool take_option(const FigureWay *way, int argc, char **argv, int *at, char *name,
                        size_t size, FigureRequest *request, Error *error)
{
    const char *equals = strchr(argv[*at], '=');
    const char *bare = argv[*at] + 2;
    size_t bytes = equals ? (size_t)(equals - bare) : strlen(bare);
    g_strlcpy(name, bare, MIN(size, bytes + 1));
    bool unit = !strcmp(name, "unit");
    const char *text = equals ? equals + 1 : NULL;
    if (!unit && !equals && *way->flags && has_word(way->flags, name))
        text = "yes";
    else if (!unit && (!*name || !has_word(way->options, name)))
        return error_set(error, ERROR_TYPED, NULL, "%s has no option --%.30s; say %s", way->name,
                         name, way->usage);
    else if (!text && ++*at < argc)
        text = argv[*at];
    if (!text)
        return error_set(error, ERROR_TYPED, NULL, "after --%s its value is missing", name);
    if (unit)
        return read_unit(text, &request->unit, error);
    if (request->option_count == FIGURE_OPTIONS_MOST || request_text(request, name))
        return error_set(error, ERROR_TYPED, NULL, "--%s is given twice", name);
    request->options[request->option_count++] = (FigureOption){name, text};
    return true;
}

#define OPTION_NAME_SIZE 32

bool figure_work_out(int argc, char **argv, Figure *figure, Error *error)
{
    const FigureWay *way = argc > 0 ? find_way(argv[0]) : NULL;
    if (!way)
        return error_set(error, ERROR_MISSING, NULL,
                         "there is no figure \"%.40s\"; there are thread, drill, tap, engagement, "
                         "fit, bevel, sine, cusp, location-error, holding and batch",
                         argc > 0 ? argv[0] : "");
    FigureRequest request = {.figure = figure, .what = way->name};
    char names[FIGURE_OPTIONS_MOST + 1][OPTION_NAME_SIZE];
    for (int i = 1; i < argc; i++) {
        if (g_str_has_prefix(argv[i], "--")) {
            if (!take_option(way, argc, argv, &i, names[request.option_count], OPTION_NAME_SIZE,
                             &request, error))
                return false;
        } else if (request.size) {
            return error_set(error, ERROR_TYPED, NULL, "\"%.40s\" is one word too many; say %s",
                             argv[i], way->usage);
        } else {
            request.size = argv[i];
        }
    }
    *figure = (Figure){.what = way->name, .formula = "", .source = ""};
    return way->work_out(&request, figure, error);
}
