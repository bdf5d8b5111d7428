/* svg-path.c: the grammar of path data, SVG 1.1 (second edition) section 8.3. */
#include "exchange/svg-number.h"
#include "exchange/svg-pen.h"

typedef struct Reader {
    SvgPen *pen;
    const char *data, *at;
    char command, previous; /* as written; 0 before the first */
    Point control;          /* of the previous curve, for the smooth commands */
    Error *error;
} Reader;

static bool expected(const Reader *r, const char *what)
{
    return error_set(r->error, ERROR_FORMAT, NULL,
                     "after %ld characters of path data %s was expected; save the drawing again as "
                     "plain SVG",
                     (long)(r->at - r->data), what);
}

static bool number(Reader *r, double *value)
{
    if (svg_number_read(&r->at, value)) {
        svg_skip_comma(&r->at);
        return true;
    }
    return expected(r, "a number of at most 1e9");
}

static bool is_relative(const Reader *r)
{
    return g_ascii_islower(r->command);
}

static bool point(Reader *r, Point *p)
{
    if (!number(r, &p->x) || !number(r, &p->y))
        return false;
    if (is_relative(r))
        *p = point_plus(*p, r->pen->at);
    return true;
}

static bool flag(Reader *r, bool *value)
{
    if (!svg_flag(&r->at, value))
        return expected(r, "a flag, 0 or 1,");
    svg_skip_comma(&r->at);
    return true;
}

/* The control point that makes a smooth command smooth: the previous one mirrored, after a curve of
 * the same kind, or else the point itself. */
static Point mirrored_control(const Reader *r, const char *kind)
{
    char previous = g_ascii_toupper(r->previous);
    if (previous != kind[0] && previous != kind[1])
        return r->pen->at;
    return point_minus(point_times(r->pen->at, 2), r->control);
}

static bool read_cubic(Reader *r, bool smooth)
{
    Point c1, c2, p;
    if (smooth)
        c1 = mirrored_control(r, "CS");
    else if (!point(r, &c1))
        return false;
    if (!point(r, &c2) || !point(r, &p))
        return false;
    r->control = c2;
    return svg_pen_cubic(r->pen, c1, c2, p, r->error);
}

static bool read_quadratic(Reader *r, bool smooth)
{
    Point c, p;
    if (smooth)
        c = mirrored_control(r, "QT");
    else if (!point(r, &c))
        return false;
    if (!point(r, &p))
        return false;
    r->control = c;
    return svg_pen_quadratic(r->pen, c, p, r->error);
}

static bool read_arc(Reader *r)
{
    Point radii, p;
    double turn;
    bool large, positive;
    return number(r, &radii.x) && number(r, &radii.y) && number(r, &turn) && flag(r, &large) &&
           flag(r, &positive) && point(r, &p) &&
           svg_pen_arc(r->pen, radii, turn, large, positive, p, r->error);
}

static bool read_along_axis(Reader *r, bool horizontal)
{
    double value;
    if (!number(r, &value))
        return false;
    Point p = r->pen->at;
    double *one = horizontal ? &p.x : &p.y;
    *one = is_relative(r) ? *one + value : value;
    return svg_pen_line(r->pen, p, r->error);
}

static bool read_line(Reader *r)
{
    Point p;
    return point(r, &p) && svg_pen_line(r->pen, p, r->error);
}

static bool read_move(Reader *r)
{
    Point p;
    if (!point(r, &p) || !svg_pen_move(r->pen, p, r->error))
        return false;
    /* More pairs behind it are lines. */
    r->command = is_relative(r) ? 'l' : 'L';
    return true;
}

/* One command with one set of its numbers. */
static bool read_command(Reader *r)
{
    char written = r->command;
    bool fine = false;
    switch (g_ascii_toupper(r->command)) {
    case 'M':
        fine = read_move(r);
        break;
    case 'Z':
        fine = svg_pen_close(r->pen, r->error);
        break;
    case 'L':
        fine = read_line(r);
        break;
    case 'H':
        fine = read_along_axis(r, true);
        break;
    case 'V':
        fine = read_along_axis(r, false);
        break;
    case 'C':
        fine = read_cubic(r, false);
        break;
    case 'S':
        fine = read_cubic(r, true);
        break;
    case 'Q':
        fine = read_quadratic(r, false);
        break;
    case 'T':
        fine = read_quadratic(r, true);
        break;
    case 'A':
        fine = read_arc(r);
        break;
    default:
        r->at--;
        return expected(r, "a command");
    }
    r->previous = written;
    return fine;
}

bool svg_path_draw(SvgPen *pen, const char *data, Error *error)
{
    Reader r = {.pen = pen, .data = data, .at = data, .error = error};
    pen->at = pen->start = (Point){0, 0};
    pen->drawing = false;
    svg_skip_space(&r.at);
    if (g_str_has_prefix(r.at, "none"))
        return true;
    while (*r.at) {
        bool same = !g_ascii_isalpha(*r.at);
        if (!r.command && (same || g_ascii_toupper(*r.at) != 'M'))
            return expected(&r, "an M to begin with");
        if (same && g_ascii_toupper(r.command) == 'Z')
            return expected(&r, "a command");
        if (!same) {
            r.command = *r.at++;
            svg_skip_space(&r.at);
        }
        if (!read_command(&r))
            return false;
        svg_skip_space(&r.at);
    }
    return svg_pen_end(pen, error);
}
