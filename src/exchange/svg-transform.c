#include "exchange/svg-transform.h"

#include "exchange/svg-number.h"

#include <glib.h>
#include <string.h>

Transform transform_after(const Transform *outer, const Transform *inner)
{
    Point u = transform_direction(outer, (Point){inner->a, inner->b});
    Point v = transform_direction(outer, (Point){inner->c, inner->d});
    Point o = transform_point(outer, (Point){inner->e, inner->f});
    return (Transform){u.x, u.y, v.x, v.y, o.x, o.y};
}

/* ---- the functions ---- */

static Transform rotation(double degrees)
{
    double a = fmod(degrees, 360) * G_PI / 180, c = cos(a), s = sin(a);
    if (fmod(degrees, 90) == 0) { /* whole quarter turns stay exact */
        c = round(c);
        s = round(s);
    }
    return (Transform){c, s, -s, c, 0, 0};
}

static Transform make_matrix(const double *v, int count)
{
    return (Transform){v[0], v[1], v[2], v[3], v[4], v[5]};
}

static Transform make_translate(const double *v, int count)
{
    return (Transform){1, 0, 0, 1, v[0], count > 1 ? v[1] : 0};
}

static Transform make_scale(const double *v, int count)
{
    return (Transform){v[0], 0, 0, count > 1 ? v[1] : v[0], 0, 0};
}

static Transform make_rotate(const double *v, int count)
{
    Transform turn = rotation(v[0]);
    if (count == 3) {
        Point centre = {v[1], v[2]};
        Point moved = point_minus(centre, transform_direction(&turn, centre));
        turn.e = moved.x;
        turn.f = moved.y;
    }
    return turn;
}

static Transform make_skew_x(const double *v, int count)
{
    return (Transform){1, 0, tan(v[0] * G_PI / 180), 1, 0, 0};
}

static Transform make_skew_y(const double *v, int count)
{
    return (Transform){1, tan(v[0] * G_PI / 180), 0, 1, 0, 0};
}

typedef struct Function {
    const char *name;
    unsigned counts; /* bit n: may have n arguments */
    Transform (*make)(const double *values, int count);
} Function;

static const Function functions[] = {
    {"matrix", 1 << 6, make_matrix},        {"translate", 1 << 1 | 1 << 2, make_translate},
    {"scale", 1 << 1 | 1 << 2, make_scale}, {"rotate", 1 << 1 | 1 << 3, make_rotate},
    {"skewX", 1 << 1, make_skew_x},         {"skewY", 1 << 1, make_skew_y},
};

static const Function *find_function(const char **at)
{
    size_t length = 0;
    while (g_ascii_isalpha((*at)[length]))
        length++;
    for (size_t i = 0; i < G_N_ELEMENTS(functions); i++)
        if (strlen(functions[i].name) == length && !strncmp(functions[i].name, *at, length)) {
            *at += length;
            return &functions[i];
        }
    return NULL;
}

static bool read_arguments(const char **at, double *values, int *count)
{
    svg_skip_space(at);
    if (**at != '(')
        return false;
    (*at)++;
    svg_skip_space(at);
    for (*count = 0; *count < 6; (*count)++) {
        if (*count > 0) {
            bool comma = svg_skip_comma(at);
            if (!comma && **at == ')')
                break;
        }
        if (!svg_number_read(at, &values[*count]))
            return false;
    }
    svg_skip_space(at);
    if (**at != ')')
        return false;
    (*at)++;
    return true;
}

static bool is_finite(const Transform *t)
{
    return isfinite(t->a + t->b + t->c + t->d + t->e + t->f);
}

bool transform_read(const char *text, Transform *transform, long *place)
{
    const char *at = text;
    *transform = TRANSFORM_IDENTITY;
    svg_skip_space(&at);
    if (!strcmp(at, "none"))
        return true;
    while (*at) {
        double values[6];
        int count;
        *place = at - text;
        const Function *function = find_function(&at);
        if (!function || !read_arguments(&at, values, &count) || !(function->counts >> count & 1))
            return false;
        Transform next = function->make(values, count);
        *transform = transform_after(transform, &next);
        if (!is_finite(transform))
            return false;
        svg_skip_comma(&at);
    }
    return true;
}

/* ---- viewBox ---- */

bool view_box_read(const char *text, double box[4])
{
    const char *at = text;
    svg_skip_space(&at);
    for (int i = 0; i < 4; i++) {
        if (i > 0)
            svg_skip_comma(&at);
        if (!svg_number_read(&at, &box[i]))
            return false;
    }
    svg_skip_space(&at);
    return !*at && box[2] > 0 && box[3] > 0;
}

/* Where the box sits in the room left over: "Min", "Mid" or "Max" after its letter. */
static bool read_align(const char **at, char letter, double *share)
{
    static const char *const names[] = {"Min", "Mid", "Max"};
    const char *c = *at;
    if (g_ascii_tolower(*c) != letter)
        return false;
    for (int i = 0; i < 3; i++)
        if (!strncmp(c + 1, names[i], 3)) {
            *share = i / 2.0;
            *at = c + 4;
            return true;
        }
    return false;
}

bool transform_view_box(const char *view_box, const char *aspect, double width, double height,
                        Transform *transform)
{
    double box[4], share_x = 0.5, share_y = 0.5;
    bool stretch = false, slice = false;
    if (!view_box_read(view_box, box))
        return false;
    if (aspect) {
        const char *at = aspect;
        svg_skip_space(&at);
        if (g_str_has_prefix(at, "none")) {
            stretch = true;
        } else {
            if (!read_align(&at, 'x', &share_x) || !read_align(&at, 'y', &share_y))
                return false;
            svg_skip_space(&at);
            slice = g_str_has_prefix(at, "slice");
        }
    }
    double sx = width / box[2], sy = height / box[3];
    if (!stretch)
        sx = sy = slice ? fmax(sx, sy) : fmin(sx, sy);
    transform->a = sx;
    transform->d = sy;
    transform->b = transform->c = 0;
    transform->e = (width - sx * box[2]) * share_x - sx * box[0];
    transform->f = (height - sy * box[3]) * share_y - sy * box[1];
    return is_finite(transform);
}
