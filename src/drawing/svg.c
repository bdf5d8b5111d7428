#include "drawing/svg.h"

#include "drawing/sign.h"
#include "plate/save.h"

#include <string.h>

#define MOST_DIGITS 17

typedef struct Writer {
    const Drawing *drawing;
    const Sheet *sheet;
    GString *text;
    GHashTable *ids;    /* those given already, as an id may stand once only */
    GHashTable *glyphs; /* those that stand in the defs */
} Writer;

void svg_number(GString *text, double number)
{
    char digits[G_ASCII_DTOSTR_BUF_SIZE];
    for (int count = 15; count <= MOST_DIGITS; count++) {
        char format[8];
        g_snprintf(format, sizeof format, "%%.%dg", count);
        g_ascii_formatd(digits, sizeof digits, format, number == 0 ? 0 : number);
        if (g_ascii_strtod(digits, NULL) == number)
            break;
    }
    g_string_append(text, digits);
}

static void add_point(GString *text, char command, double x, double y)
{
    g_string_append_c(text, command);
    svg_number(text, x);
    g_string_append_c(text, ' ');
    svg_number(text, y);
}

static void add_attribute(GString *text, const char *name, double value)
{
    g_string_append_printf(text, " %s=\"", name);
    svg_number(text, value);
    g_string_append_c(text, '"');
}

static void add_escaped(GString *text, const char *words)
{
    char *escaped = g_markup_escape_text(words, -1);
    g_string_append(text, escaped);
    g_free(escaped);
}

/* An arc as SVG has it: radius, whether it is more than half a circle, and its direction, which the
 * turned Y axis makes the other one. */
static void add_arc(GString *text, Vertex from, Point to, double height)
{
    double radius;
    arc_centre(from, to, &radius);
    double chord = hypot(to.x - from.x, to.y - from.y);
    add_point(text, 'A', radius, radius);
    g_string_append_printf(text, " 0 %d %d ", fabs(from.sagitta) > chord / 2 ? 1 : 0,
                           from.sagitta > 0 ? 0 : 1);
    svg_number(text, to.x);
    g_string_append_c(text, ' ');
    svg_number(text, height - to.y);
}

static void add_path(const Writer *writer, const Mark *mark)
{
    GString *text = writer->text;
    const Vertex *v = drawing_mark_vertices(writer->drawing, mark);
    double height = writer->sheet->height;
    if (mark->count == 1 && mark->closed) {
        g_string_append(text, "<circle");
        add_attribute(text, "cx", v->x);
        add_attribute(text, "cy", height - v->y);
        add_attribute(text, "r", v->sagitta);
    } else {
        g_string_append(text, "<path d=\"");
        add_point(text, 'M', v[0].x, height - v[0].y);
        for (size_t i = 0; i + (mark->closed ? 0 : 1) < mark->count; i++) {
            const Vertex *next = &v[(i + 1) % mark->count];
            if (v[i].sagitta != 0)
                add_arc(text, v[i], (Point){next->x, next->y}, height);
            else if (i + 1 < mark->count)
                add_point(text, 'L', next->x, height - next->y);
        }
        g_string_append(text, mark->closed ? "Z\"" : "\"");
    }
    if (mark->phase != 0)
        add_attribute(text, "stroke-dashoffset", mark->phase);
    g_string_append(text, "/>\n");
}

/* Opens a group for one feature's or role's marks within the group `of`. */
static void open_feature(const Writer *writer, const char *of, const Mark *mark)
{
    GString *text = writer->text;
    const char *role = mark_role_name(mark->role);
    if (mark->feature == 0) {
        g_string_append_printf(text, "<g class=\"%s\">\n", role);
        return;
    }
    char *id = g_strdup_printf("%s-%u", of, mark->feature);
    if (g_hash_table_add(writer->ids, id)) /* takes the text either way */
        g_string_append_printf(text, "<g id=\"%s-%u\" class=\"%s\">\n", of, mark->feature, role);
    else
        g_string_append_printf(text, "<g class=\"%s\">\n", role);
}

/* The marks of a group, those that follow each other with one feature and role in one group more.
 */
typedef struct Cluster {
    bool open;
    uint32_t feature;
    MarkRole role;
} Cluster;

static void enter_cluster(const Writer *writer, Cluster *cluster, const char *of, const Mark *mark)
{
    if (cluster->open && cluster->feature == mark->feature && cluster->role == mark->role)
        return;
    if (cluster->open)
        g_string_append(writer->text, "</g>\n");
    *cluster = (Cluster){true, mark->feature, mark->role};
    open_feature(writer, of, mark);
}

static void add_fills(const Writer *writer)
{
    Cluster cluster = {false, 0, 0};
    for (size_t i = 0; i < writer->sheet->count; i++) {
        const Mark *mark = &writer->drawing->marks[writer->sheet->first + i];
        if (mark->kind != MARK_FILL || mark->role == ROLE_STOCK) /* the metal's area is paper */
            continue;
        if (!cluster.open)
            g_string_append(writer->text, "<g id=\"fills\" fill=\"#000\">\n");
        enter_cluster(writer, &cluster, "fill", mark);
        add_path(writer, mark);
    }
    if (cluster.open)
        g_string_append(writer->text, "</g>\n</g>\n");
}

static void open_strokes(const Writer *writer, LineKind line)
{
    GString *text = writer->text;
    g_string_append_printf(text, "<g id=\"lines-%s\" fill=\"none\" stroke=\"#000\"",
                           line_kind_name(line));
    add_attribute(text, "stroke-width", line_kind_width(line));
    size_t count;
    const double *dashes = line_kind_dashes(line, &count);
    for (size_t i = 0; i < count; i++) {
        g_string_append(text, i == 0 ? " stroke-dasharray=\"" : " ");
        svg_number(text, dashes[i]);
    }
    g_string_append(text,
                    count > 0 ? "\" stroke-miterlimit=\"10\">\n" : " stroke-miterlimit=\"10\">\n");
}

static void add_strokes(const Writer *writer, LineKind line)
{
    Cluster cluster = {false, 0, 0};
    for (size_t i = 0; i < writer->sheet->count; i++) {
        const Mark *mark = &writer->drawing->marks[writer->sheet->first + i];
        if (mark->kind != MARK_STROKE || mark->line != line)
            continue;
        if (!cluster.open)
            open_strokes(writer, line);
        enter_cluster(writer, &cluster, line_kind_name(line), mark);
        add_path(writer, mark);
    }
    if (cluster.open)
        g_string_append(writer->text, "</g>\n</g>\n");
}

static void pen_move(void *user, Point to)
{
    add_point(user, 'M', to.x, -to.y);
}

static void pen_line(void *user, Point to)
{
    add_point(user, 'L', to.x, -to.y);
}

static void pen_quadratic(void *user, Point control, Point to)
{
    add_point(user, 'Q', control.x, -control.y);
    add_point(user, ' ', to.x, -to.y);
}

static void pen_cubic(void *user, Point first, Point second, Point to)
{
    add_point(user, 'C', first.x, -first.y);
    add_point(user, ' ', second.x, -second.y);
    add_point(user, ' ', to.x, -to.y);
}

static void pen_close(void *user)
{
    g_string_append_c(user, 'Z');
}

static const GlyphPen glyph_pen = {pen_move, pen_line, pen_quadratic, pen_cubic, pen_close};

static void add_glyph_shape(const Writer *writer, unsigned glyph)
{
    g_string_append_printf(writer->text, "<path id=\"glyph-%u\" d=\"", glyph);
    lettering_glyph(writer->drawing->lettering, glyph, &glyph_pen, writer->text);
    g_string_append(writer->text, "\"/>\n");
}

static void add_sign_shape(const Writer *writer, const Sign *sign)
{
    GString *text = writer->text;
    g_string_append_printf(text,
                           "<g id=\"sign-%x\" fill=\"none\" stroke=\"#000\" "
                           "stroke-linecap=\"round\" stroke-linejoin=\"round\"",
                           sign->character);
    add_attribute(text, "stroke-width", SIGN_STROKE_WIDTH);
    g_string_append_c(text, '>');
    for (size_t i = 0; i < sign->stroke_count; i++) {
        const SignStroke *stroke = &sign->strokes[i];
        const Vertex *v = stroke->vertices;
        if (stroke->count == 1) {
            g_string_append(text, "<circle");
            add_attribute(text, "cx", v->x);
            add_attribute(text, "cy", -v->y);
            add_attribute(text, "r", v->sagitta);
            g_string_append(text, "/>");
            continue;
        }
        g_string_append(text, "<path d=\"");
        for (size_t j = 0; j < stroke->count; j++)
            add_point(text, j == 0 ? 'M' : 'L', v[j].x, -v[j].y);
        g_string_append(text, stroke->closed ? "Z\"/>" : "\"/>");
    }
    g_string_append(text, "</g>\n");
}

/* Glyphs count from 0, signs by their character's number with the top bit set. */
static bool is_new_shape(const Writer *writer, const TextPiece *piece)
{
    guint key = piece->sign ? piece->sign->character | 0x80000000U : piece->glyph;
    return g_hash_table_add(writer->glyphs, GUINT_TO_POINTER(key));
}

static void add_shapes(const Writer *writer)
{
    g_string_append(writer->text, "<defs>\n");
    for (size_t i = 0; i < writer->sheet->count; i++) {
        const Mark *mark = &writer->drawing->marks[writer->sheet->first + i];
        if (mark->kind != MARK_TEXT)
            continue;
        size_t count;
        const TextPiece *pieces = lettering_pieces(
            writer->drawing->lettering, drawing_mark_text(writer->drawing, mark), &count);
        for (size_t j = 0; j < count; j++) {
            if (!is_new_shape(writer, &pieces[j]))
                continue;
            if (pieces[j].sign)
                add_sign_shape(writer, pieces[j].sign);
            else
                add_glyph_shape(writer, pieces[j].glyph);
        }
    }
    g_string_append(writer->text, "</defs>\n");
}

static void add_text(const Writer *writer, const Mark *mark)
{
    GString *text = writer->text;
    const char *words = drawing_mark_text(writer->drawing, mark);
    add_point(text, ' ', mark->at.x, writer->sheet->height - mark->at.y);
    g_string_append(text, ")");
    if (mark->rotation != 0) {
        g_string_append(text, " rotate(");
        svg_number(text, -mark->rotation);
        g_string_append_c(text, ')');
    }
    g_string_append(text, " scale(");
    svg_number(text, mark->height);
    g_string_append(text, ")\"><title>");
    add_escaped(text, words);
    g_string_append(text, "</title>");
    size_t count;
    const TextPiece *pieces = lettering_pieces(writer->drawing->lettering, words, &count);
    for (size_t i = 0; i < count; i++) {
        if (pieces[i].sign)
            g_string_append_printf(text, "<use href=\"#sign-%x\"", pieces[i].sign->character);
        else
            g_string_append_printf(text, "<use href=\"#glyph-%u\"", pieces[i].glyph);
        add_attribute(text, "x", pieces[i].x);
        if (pieces[i].y != 0)
            add_attribute(text, "y", -pieces[i].y);
        g_string_append(text, "/>");
    }
    g_string_append(text, "</g>\n");
}

static void add_texts(const Writer *writer)
{
    Cluster cluster = {false, 0, 0};
    for (size_t i = 0; i < writer->sheet->count; i++) {
        const Mark *mark = &writer->drawing->marks[writer->sheet->first + i];
        if (mark->kind != MARK_TEXT)
            continue;
        if (!cluster.open)
            g_string_append(writer->text, "<g id=\"lettering\" fill=\"#000\">\n");
        enter_cluster(writer, &cluster, "text", mark);
        g_string_append(writer->text, "<g transform=\"translate(");
        add_text(writer, mark);
    }
    if (cluster.open)
        g_string_append(writer->text, "</g>\n</g>\n");
}

static void open_file(const Writer *writer)
{
    GString *text = writer->text;
    g_string_append(text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                          "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
    svg_number(text, writer->sheet->width);
    g_string_append(text, "mm\" height=\"");
    svg_number(text, writer->sheet->height);
    g_string_append(text, "mm\" viewBox=\"0 0 ");
    svg_number(text, writer->sheet->width);
    g_string_append_c(text, ' ');
    svg_number(text, writer->sheet->height);
    g_string_append(text, "\">\n<title>");
    add_escaped(text, writer->drawing->title);
    if (writer->drawing->title[0] && writer->sheet->name[0])
        g_string_append(text, ", ");
    add_escaped(text, writer->sheet->name);
    g_string_append(text, "</title>\n");
}

GString *svg_text(const Drawing *drawing, size_t sheet)
{
    Writer writer = {drawing, &drawing->sheets[sheet], g_string_new(NULL),
                     g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL),
                     g_hash_table_new(NULL, NULL)};
    open_file(&writer);
    add_shapes(&writer);
    add_fills(&writer);
    for (int line = 0; line < LINE_KIND_COUNT; line++)
        add_strokes(&writer, (LineKind)line);
    add_texts(&writer);
    g_string_append(writer.text, "</svg>\n");
    g_hash_table_unref(writer.ids);
    g_hash_table_unref(writer.glyphs);
    return writer.text;
}

char *svg_sheet_file(const char *file, size_t sheet)
{
    if (sheet == 0)
        return g_strdup(file);
    size_t length = strlen(file);
    bool ends = length > 4 && g_ascii_strcasecmp(file + length - 4, ".svg") == 0;
    char *stem = g_strndup(file, ends ? length - 4 : length);
    char *name = g_strdup_printf("%s-%zu%s", stem, sheet + 1, ends ? file + length - 4 : "");
    g_free(stem);
    return name;
}

bool svg_write(const Drawing *drawing, const char *file, Error *error)
{
    bool written = true;
    for (size_t i = 0; written && i < drawing->sheet_count; i++) {
        GString *text = svg_text(drawing, i);
        char *name = svg_sheet_file(file, i);
        written = save_bytes(name, text->str, text->len, NULL, error);
        g_free(name);
        g_string_free(text, TRUE);
    }
    return written;
}
