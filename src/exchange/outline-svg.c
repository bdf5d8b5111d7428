#include "exchange/outline-svg.h"

#include "exchange/svg-document.h"
#include "exchange/svg-number.h"
#include "exchange/svg-pen.h"

#include <string.h>

/* CSS Values and Units 3, section 5.2: 96 px are an inch. */
#define MM_PER_PX (25.4 / 96)

/* What an element hands down to those in it. */
typedef struct State {
    Transform transform;  /* to mm, Y up */
    double width, height; /* of the viewport, in user units: what per cents are of */
    bool hidden, no_fill, no_stroke;
    bool styled; /* a style sheet may have painted it after all */
} State;

typedef struct Walk {
    SvgPen pen;
    GHashTable *ids;                    /* id → xmlNode */
    const xmlNode *uses[SVG_USES_DEEP]; /* what is being drawn by a use, innermost last */
    int use_count;
    long drawn;
    ReadNotes *notes;
    Error *error;
} Walk;

static bool walk_element(Walk *walk, const xmlNode *node, State state);

static bool refuse(const Walk *walk, const xmlNode *node, ErrorKind kind, const char *message)
{
    char place[32];
    g_snprintf(place, sizeof place, "line %ld", svg_line(node));
    return error_set(walk->error, kind, place, "%s", message);
}

static void note(Walk *walk, ReadNote kind, const xmlNode *node)
{
    read_notes_add(walk->notes, kind, svg_line(node));
}

/* ---- attributes ---- */

static bool has_attribute(const xmlNode *node, const char *name)
{
    return xmlHasNsProp(node, (const xmlChar *)name, NULL) != NULL;
}

/* What a per cent is of: the viewport's width, height or its diagonal over the root of two. */
typedef enum Whole { OF_WIDTH, OF_HEIGHT, OF_DIAGONAL } Whole;

static double whole_of(const State *state, Whole whole)
{
    switch (whole) {
    case OF_WIDTH:
        return state->width;
    case OF_HEIGHT:
        return state->height;
    default:
        return sqrt((state->width * state->width + state->height * state->height) / 2);
    }
}

/* Reads a length attribute; leaves `value` where there is none (*given says so). "auto" is none. */
static bool length_attribute(Walk *walk, const xmlNode *node, const State *state, const char *name,
                             Whole whole, double *value, bool *given)
{
    char *text = svg_attribute(node, name);
    bool fine = true, has = text && strcmp(text, "auto") != 0;
    if (has && !svg_length(text, whole_of(state, whole), value, NULL)) {
        char message[120];
        g_snprintf(message, sizeof message, "%s=\"%.40s\" is not a length", name, text);
        fine = refuse(walk, node, ERROR_FORMAT, message);
    }
    xmlFree(text);
    if (given)
        *given = has;
    return fine;
}

/* Lengths that stand for nothing when they are negative. */
static bool size_attribute(Walk *walk, const xmlNode *node, const State *state, const char *name,
                           Whole whole, double *value, bool *given)
{
    if (!length_attribute(walk, node, state, name, whole, value, given))
        return false;
    if (*value >= 0)
        return true;
    char message[80];
    g_snprintf(message, sizeof message, "%s is negative", name);
    return refuse(walk, node, ERROR_FORMAT, message);
}

static bool apply_transform(Walk *walk, const xmlNode *node, State *state)
{
    Transform own;
    long place = 0;
    char *style = svg_style(node, "transform");
    bool styled = style && strcmp(style, "none") != 0;
    g_free(style);
    if (has_attribute(node, "transform") && has_attribute(node, "transform-origin"))
        styled = true;
    if (styled)
        return refuse(
            walk, node, ERROR_FORMAT,
            "a transform in a style, or about an origin, can't be read; save the drawing with the "
            "transforms applied");
    char *text = svg_attribute(node, "transform");
    if (!text)
        return true;
    bool fine = transform_read(text, &own, &place);
    xmlFree(text);
    if (!fine) {
        char message[120];
        g_snprintf(message, sizeof message,
                   "the transform can't be read after %ld characters; apply it and save again",
                   place);
        return refuse(walk, node, ERROR_FORMAT, message);
    }
    state->transform = transform_after(&state->transform, &own);
    return true;
}

static bool property_is(const xmlNode *node, const char *name, const char *value, bool otherwise)
{
    char *text = svg_property(node, name);
    bool is = text && strcmp(text, "inherit") != 0 ? strcmp(text, value) == 0 : otherwise;
    g_free(text);
    return is;
}

static void inherit_paint(const xmlNode *node, State *state)
{
    state->no_fill = property_is(node, "fill", "none", state->no_fill);
    state->no_stroke = property_is(node, "stroke", "none", state->no_stroke);
    state->hidden = property_is(node, "visibility", "hidden", state->hidden) ||
                    property_is(node, "visibility", "collapse", false);
    state->styled |= has_attribute(node, "class");
}

/* Puts a viewport of the given size with the element's viewBox into the state. */
static bool enter_viewport(Walk *walk, const xmlNode *node, double x, double y, double width,
                           double height, State *state)
{
    Transform shift = {1, 0, 0, 1, x, y}, fit;
    double box[4];
    state->transform = transform_after(&state->transform, &shift);
    state->width = width;
    state->height = height;
    char *view_box = svg_attribute(node, "viewBox");
    if (!view_box)
        return true;
    char *aspect = svg_attribute(node, "preserveAspectRatio");
    bool fine = transform_view_box(view_box, aspect, width, height, &fit);
    if (fine) {
        state->transform = transform_after(&state->transform, &fit);
        view_box_read(view_box, box);
        state->width = box[2];
        state->height = box[3];
    }
    xmlFree(view_box);
    xmlFree(aspect);
    return fine || refuse(walk, node, ERROR_FORMAT, "viewBox or preserveAspectRatio can't be read");
}

/* ---- shapes ---- */

static bool draw_path(Walk *walk, const xmlNode *node, const State *state)
{
    char *data = svg_attribute(node, "d");
    bool fine = !data || svg_path_draw(&walk->pen, data, walk->error);
    xmlFree(data);
    return fine;
}

/* What one of rx and ry is when it is not given: the other one. */
static bool radii_attributes(Walk *walk, const xmlNode *node, const State *state, Point *radii)
{
    bool has_x, has_y;
    *radii = (Point){0, 0};
    if (!size_attribute(walk, node, state, "rx", OF_WIDTH, &radii->x, &has_x) ||
        !size_attribute(walk, node, state, "ry", OF_HEIGHT, &radii->y, &has_y))
        return false;
    if (!has_x)
        radii->x = radii->y;
    if (!has_y)
        radii->y = radii->x;
    return true;
}

static bool draw_rectangle(Walk *walk, const xmlNode *node, const State *state)
{
    Point corner = {0, 0}, size = {0, 0}, radii;
    if (!length_attribute(walk, node, state, "x", OF_WIDTH, &corner.x, NULL) ||
        !length_attribute(walk, node, state, "y", OF_HEIGHT, &corner.y, NULL) ||
        !size_attribute(walk, node, state, "width", OF_WIDTH, &size.x, NULL) ||
        !size_attribute(walk, node, state, "height", OF_HEIGHT, &size.y, NULL) ||
        !radii_attributes(walk, node, state, &radii))
        return false;
    return size.x == 0 || size.y == 0 ||
           svg_pen_rectangle(&walk->pen, corner, size, radii, walk->error);
}

static bool draw_round(Walk *walk, const xmlNode *node, const State *state, bool circle)
{
    Point centre = {0, 0}, radii = {0, 0};
    if (!length_attribute(walk, node, state, "cx", OF_WIDTH, &centre.x, NULL) ||
        !length_attribute(walk, node, state, "cy", OF_HEIGHT, &centre.y, NULL))
        return false;
    if (circle) {
        if (!size_attribute(walk, node, state, "r", OF_DIAGONAL, &radii.x, NULL))
            return false;
        radii.y = radii.x;
    } else if (!radii_attributes(walk, node, state, &radii)) {
        return false;
    }
    return radii.x == 0 || radii.y == 0 || svg_pen_ellipse(&walk->pen, centre, radii, walk->error);
}

static bool draw_circle(Walk *walk, const xmlNode *node, const State *state)
{
    return draw_round(walk, node, state, true);
}

static bool draw_ellipse(Walk *walk, const xmlNode *node, const State *state)
{
    return draw_round(walk, node, state, false);
}

static bool draw_line(Walk *walk, const xmlNode *node, const State *state)
{
    Point from = {0, 0}, to = {0, 0};
    return length_attribute(walk, node, state, "x1", OF_WIDTH, &from.x, NULL) &&
           length_attribute(walk, node, state, "y1", OF_HEIGHT, &from.y, NULL) &&
           length_attribute(walk, node, state, "x2", OF_WIDTH, &to.x, NULL) &&
           length_attribute(walk, node, state, "y2", OF_HEIGHT, &to.y, NULL) &&
           svg_pen_move(&walk->pen, from, walk->error) &&
           svg_pen_line(&walk->pen, to, walk->error) && svg_pen_end(&walk->pen, walk->error);
}

static bool draw_points(Walk *walk, const xmlNode *node, const char *text, bool closed)
{
    const char *at = text;
    svg_skip_space(&at);
    for (bool first = true; *at; first = false) {
        Point p;
        bool fine = svg_number_read(&at, &p.x);
        svg_skip_comma(&at);
        fine = fine && svg_number_read(&at, &p.y);
        svg_skip_comma(&at);
        if (!fine)
            return refuse(walk, node, ERROR_FORMAT, "points are not pairs of numbers");
        if (!(first ? svg_pen_move : svg_pen_line)(&walk->pen, p, walk->error))
            return false;
    }
    return closed ? svg_pen_close(&walk->pen, walk->error) : svg_pen_end(&walk->pen, walk->error);
}

static bool draw_poly(Walk *walk, const xmlNode *node, bool closed)
{
    char *text = svg_attribute(node, "points");
    bool fine = !text || draw_points(walk, node, text, closed);
    xmlFree(text);
    return fine;
}

static bool draw_polygon(Walk *walk, const xmlNode *node, const State *state)
{
    return draw_poly(walk, node, true);
}

static bool draw_polyline(Walk *walk, const xmlNode *node, const State *state)
{
    return draw_poly(walk, node, false);
}

/* ---- containers ---- */

static bool walk_children(Walk *walk, const xmlNode *node, const State *state)
{
    for (const xmlNode *child = node->children; child; child = child->next)
        if (svg_is_element(child) && !walk_element(walk, child, *state))
            return false;
    return true;
}

static bool walk_nested(Walk *walk, const xmlNode *node, const State *state)
{
    State inside = *state;
    double x = 0, y = 0, width = state->width, height = state->height;
    if (!length_attribute(walk, node, state, "x", OF_WIDTH, &x, NULL) ||
        !length_attribute(walk, node, state, "y", OF_HEIGHT, &y, NULL) ||
        !size_attribute(walk, node, state, "width", OF_WIDTH, &width, NULL) ||
        !size_attribute(walk, node, state, "height", OF_HEIGHT, &height, NULL))
        return false;
    return width == 0 || height == 0 ||
           (enter_viewport(walk, node, x, y, width, height, &inside) &&
            walk_children(walk, node, &inside));
}

/* What a use refers to; NULL with no error where it is nothing in this file. */
static const xmlNode *find_target(Walk *walk, const xmlNode *node)
{
    char *text = svg_attribute(node, "href");
    if (!text)
        text = (char *)xmlGetNsProp(node, (const xmlChar *)"href",
                                    (const xmlChar *)"http://www.w3.org/1999/xlink");
    const xmlNode *target = NULL;
    if (text && text[0] == '#')
        target = g_hash_table_lookup(walk->ids, text + 1);
    else if (text && *text)
        note(walk, NOTE_OTHER_FILE, node);
    xmlFree(text);
    return target;
}

/* A symbol or svg drawn by a use has a viewport of the use's size (SVG 1.1 section 5.6). */
static bool walk_target(Walk *walk, const xmlNode *use, const xmlNode *target, const State *state)
{
    bool symbol = strcmp((const char *)target->name, "symbol") == 0;
    if (!symbol && strcmp((const char *)target->name, "svg") != 0)
        return walk_element(walk, target, *state);
    State inside = *state;
    double width = state->width, height = state->height;
    if (!symbol && (!size_attribute(walk, target, state, "width", OF_WIDTH, &width, NULL) ||
                    !size_attribute(walk, target, state, "height", OF_HEIGHT, &height, NULL)))
        return false;
    if (!size_attribute(walk, use, state, "width", OF_WIDTH, &width, NULL) ||
        !size_attribute(walk, use, state, "height", OF_HEIGHT, &height, NULL) ||
        !apply_transform(walk, target, &inside))
        return false;
    inherit_paint(target, &inside);
    return width == 0 || height == 0 ||
           (enter_viewport(walk, target, 0, 0, width, height, &inside) &&
            walk_children(walk, target, &inside));
}

static bool walk_use(Walk *walk, const xmlNode *node, const State *state)
{
    const xmlNode *target = find_target(walk, node);
    if (!target || !svg_is_element(target))
        return true;
    for (int i = 0; i < walk->use_count; i++)
        if (walk->uses[i] == target)
            return refuse(walk, node, ERROR_FORMAT,
                          "a <use> draws itself; replace it by what it stands for");
    if (walk->use_count == SVG_USES_DEEP)
        return refuse(walk, node, ERROR_LIMIT,
                      "<use> refers to <use> more than " G_STRINGIFY(
                          SVG_USES_DEEP) " times over; replace it by what it stands for");
    Transform shift = TRANSFORM_IDENTITY;
    if (!length_attribute(walk, node, state, "x", OF_WIDTH, &shift.e, NULL) ||
        !length_attribute(walk, node, state, "y", OF_HEIGHT, &shift.f, NULL))
        return false;
    State inside = *state;
    inside.transform = transform_after(&state->transform, &shift);
    walk->uses[walk->use_count++] = target;
    bool fine = walk_target(walk, node, target, &inside);
    walk->use_count--;
    return fine;
}

static bool pass_text(Walk *walk, const xmlNode *node, const State *state)
{
    note(walk, NOTE_TEXT, node);
    return true;
}

static bool pass_picture(Walk *walk, const xmlNode *node, const State *state)
{
    note(walk, NOTE_PICTURE, node);
    return true;
}

typedef struct Element {
    const char *name;
    bool (*draw)(Walk *walk, const xmlNode *node, const State *state);
    bool shape;
} Element;

/* Elements that are not here are not drawn, with all that is in them. */
static const Element elements[] = {
    {"path", draw_path, true},         {"rect", draw_rectangle, true},
    {"circle", draw_circle, true},     {"ellipse", draw_ellipse, true},
    {"line", draw_line, true},         {"polygon", draw_polygon, true},
    {"polyline", draw_polyline, true}, {"g", walk_children, false},
    {"a", walk_children, false},       {"switch", walk_children, false},
    {"svg", walk_nested, false},       {"use", walk_use, false},
    {"text", pass_text, true},         {"image", pass_picture, true},
};

static bool draw_element(Walk *walk, const xmlNode *node, const Element *element, State *state)
{
    if (!apply_transform(walk, node, state))
        return false;
    inherit_paint(node, state);
    if (has_attribute(node, "clip-path") || has_attribute(node, "mask"))
        note(walk, NOTE_CLIPPED, node);
    if (!element->shape)
        return element->draw(walk, node, state);
    if (state->hidden || (state->no_fill && state->no_stroke && !state->styled)) {
        note(walk, NOTE_INVISIBLE, node);
        return true;
    }
    walk->pen.transform = state->transform;
    walk->pen.line = svg_line(node);
    if (element->draw(walk, node, state))
        return true;
    if (walk->error && !walk->error->place[0]) { /* from the pen, which knows no lines */
        char line[32];
        g_snprintf(line, sizeof line, "line %ld", svg_line(node));
        error_within(walk->error, line);
    }
    return false;
}

static bool walk_element(Walk *walk, const xmlNode *node, State state)
{
    if (++walk->drawn > SVG_DRAWN_MOST)
        return refuse(
            walk, node, ERROR_LIMIT,
            "more than " G_STRINGIFY(
                SVG_DRAWN_MOST) " elements with every <use> counted; simplify the drawing");
    for (size_t i = 0; i < G_N_ELEMENTS(elements); i++) {
        if (strcmp(elements[i].name, (const char *)node->name) != 0)
            continue;
        if (property_is(node, "display", "none", false)) {
            note(walk, NOTE_INVISIBLE, node);
            return true;
        }
        return draw_element(walk, node, &elements[i], &state);
    }
    return true;
}

/* ---- the document ---- */

static GHashTable *collect_ids(const xmlNode *root)
{
    GHashTable *ids = g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL);
    const xmlNode *node = root;
    while (node) {
        char *id = node->type == XML_ELEMENT_NODE ? svg_attribute(node, "id") : NULL;
        if (id && !g_hash_table_contains(ids, id)) /* the first one holds */
            g_hash_table_insert(ids, g_strdup(id), (gpointer)node);
        xmlFree(id);
        if (node->children) {
            node = node->children;
            continue;
        }
        while (node && node != root && !node->next)
            node = node->parent;
        node = node && node != root ? node->next : NULL;
    }
    return ids;
}

/* One of the root's two sizes in px; *given is false where there is none or one in per cent. */
static bool root_size(Walk *walk, const xmlNode *root, const char *name, double *px, bool *given,
                      SvgUnit *unit)
{
    char *text = svg_attribute(root, name);
    bool fine = !text || strcmp(text, "auto") == 0 || svg_length(text, 0, px, unit);
    *given = text && fine && strcmp(text, "auto") != 0 && !strchr(text, '%');
    xmlFree(text);
    if (!fine || (*given && !(*px > 0))) {
        char message[80];
        g_snprintf(message, sizeof message, "the drawing's %s is not a size", name);
        return refuse(walk, root, ERROR_FORMAT, message);
    }
    return true;
}

/* The root's viewport. What it does not say comes from the viewBox, at 96 units to an inch. */
static bool enter_root(Walk *walk, const xmlNode *root, State *state)
{
    double width = 0, height = 0, box[4] = {0, 0, 100, 100};
    bool has_width, has_height;
    SvgUnit unit_x = SVG_UNIT_NONE, unit_y = SVG_UNIT_NONE;
    if (!root_size(walk, root, "width", &width, &has_width, &unit_x) ||
        !root_size(walk, root, "height", &height, &has_height, &unit_y))
        return false;
    char *view_box = svg_attribute(root, "viewBox");
    if (view_box && !view_box_read(view_box, box)) {
        xmlFree(view_box);
        return refuse(walk, root, ERROR_FORMAT, "the viewBox is not four numbers with a size");
    }
    xmlFree(view_box);
    bool relative =
        (has_width && unit_x == SVG_UNIT_RELATIVE) || (has_height && unit_y == SVG_UNIT_RELATIVE);
    bool physical =
        (has_width && unit_x == SVG_UNIT_PHYSICAL) || (has_height && unit_y == SVG_UNIT_PHYSICAL);
    if (relative)
        note(walk, NOTE_RELATIVE_SIZE, root);
    else if (!physical)
        note(walk, NOTE_NO_SIZE, root);
    if (!has_width)
        width = has_height ? height * box[2] / box[3] : box[2];
    if (!has_height)
        height = has_width ? width * box[3] / box[2] : box[3];
    if (!apply_transform(walk, root, state))
        return false;
    inherit_paint(root, state);
    return enter_viewport(walk, root, 0, 0, width, height, state);
}

/* Draws the document at `factor` times its size and sorts what it draws. */
static bool read_document(const xmlDoc *document, double factor, double tolerance,
                          OutlineRead *read, Error *error)
{
    const xmlNode *root = xmlDocGetRootElement(document);
    ReadNotes notes = {0};
    Loops *loops = loops_new();
    Walk walk = {.ids = collect_ids(root), .notes = &notes, .error = error};
    svg_pen_init(&walk.pen, loops, tolerance);
    double scale = MM_PER_PX * factor;
    State state = {.transform = {scale, 0, 0, -scale, 0, 0}, .no_stroke = true};
    bool fine = enter_root(&walk, root, &state) && walk_children(&walk, root, &state) &&
                outline_read_sort(loops, true, &notes, read, error);
    svg_pen_clear(&walk.pen);
    g_hash_table_destroy(walk.ids);
    loops_free(loops);
    return fine;
}

bool outline_svg_read(const char *bytes, size_t size, const OutlineOptions *options,
                      OutlineRead *read, Error *error)
{
    static const OutlineOptions usual = {0};
    Error unheard;
    if (!error)
        error = &unheard;
    if (!options)
        options = &usual;
    *read = (OutlineRead){0};
    xmlDoc *document = svg_document_read(bytes, size, error);
    if (!document)
        return false;
    double tolerance = options->tolerance > 0 ? options->tolerance : CURVE_TOLERANCE, factor;
    bool fine = read_document(document, 1, tolerance, read, error);
    if (fine && !outline_read_factor(read, options, &factor, error)) {
        outline_read_clear(read);
        fine = false;
    }
    if (fine && factor != 1) { /* anew, so that the tolerance holds at the size asked for */
        outline_read_clear(read);
        fine = read_document(document, factor, tolerance, read, error);
    }
    svg_document_free(document);
    return fine;
}

bool outline_svg_load(const char *file, const OutlineOptions *options, OutlineRead *read,
                      Error *error)
{
    size_t size;
    *read = (OutlineRead){0};
    char *bytes = outline_read_file(file, SVG_BYTES_MOST, &size, error);
    if (!bytes)
        return false;
    bool fine = outline_svg_read(bytes, size, options, read, error);
    if (!fine)
        error_set_file(error, file);
    g_free(bytes);
    return fine;
}
