#include "drawing/lettering.h"

#include "drawing/sign.h"

#include <fontconfig/fontconfig.h>
#include <glib.h>
#include <hb.h>
#include <math.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <string.h>

#define FAMILY "osifont"
/* Lines are shaped at this size, in Pango's device units, and scaled from there. */
#define SHAPED_SIZE 1000.0
/* Lines of text kept at once; a full store is emptied, which costs only shaping them anew. */
#define LINES_MOST 8192

/* A stretch of text with no sign in it. */
typedef struct Run {
    size_t start, length; /* bytes of the line's text */
    size_t glyph, glyph_count;
    size_t cluster, cluster_count;
} Run;

/* A shaped line, in letter heights. */
typedef struct TextLine {
    char *key;        /* as it was given */
    char *text;       /* with what can't be set left out */
    GArray *pieces;   /* TextPiece */
    GArray *glyphs;   /* cairo_glyph_t, Y down */
    GArray *clusters; /* cairo_text_cluster_t */
    GArray *runs;     /* Run */
    double width, top, bottom;
    size_t unknown_count;
    uint32_t first_unknown;
} TextLine;

struct Lettering {
    int references;
    PangoFontMap *map;
    PangoContext *context;
    PangoFont *font;
    cairo_font_face_t *face;
    cairo_font_options_t *options;
    hb_font_t *outlines; /* at the font's own units */
    double units;        /* font units in a letter height */
    double em;           /* letter heights in an em */
    GHashTable *lines;   /* text to TextLine */
};

static void line_free(void *data)
{
    TextLine *line = data;
    g_free(line->key);
    g_free(line->text);
    g_array_unref(line->pieces);
    g_array_unref(line->glyphs);
    g_array_unref(line->clusters);
    g_array_unref(line->runs);
    g_free(line);
}

/* A configuration that has read no file and knows no font but this one. */
static FcConfig *config_with_font(const char *file, Error *error)
{
    FcConfig *config = FcConfigCreate();
    if (config && FcConfigAppFontAddFile(config, (const FcChar8 *)file))
        return config;
    if (config)
        FcConfigDestroy(config);
    error_set(error, ERROR_MISSING, NULL,
              "the lettering font can't be read; install the package fonts-osifont again");
    error_set_file(error, file);
    return NULL;
}

static bool load_font(Lettering *lettering, FcConfig *config, Error *error)
{
    lettering->map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(lettering->map), config);
    lettering->context = pango_font_map_create_context(lettering->map);
    lettering->options = cairo_font_options_create();
    cairo_font_options_set_hint_style(lettering->options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(lettering->options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(lettering->options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(lettering->context, lettering->options);
    pango_cairo_context_set_resolution(lettering->context, 72);
    pango_context_set_round_glyph_positions(lettering->context, FALSE);
    /* Fixed, since some fonts shape by the user's language. */
    pango_context_set_language(lettering->context, pango_language_from_string("en"));
    pango_context_set_base_dir(lettering->context, PANGO_DIRECTION_LTR);

    PangoFontDescription *description = pango_font_description_from_string(FAMILY);
    pango_font_description_set_absolute_size(description, SHAPED_SIZE * PANGO_SCALE);
    pango_context_set_font_description(lettering->context, description);
    lettering->font = pango_context_load_font(lettering->context, description);
    pango_font_description_free(description);
    cairo_scaled_font_t *scaled =
        lettering->font ? pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(lettering->font))
                        : NULL;
    hb_font_t *shaping = lettering->font ? pango_font_get_hb_font(lettering->font) : NULL;
    if (!scaled || !shaping)
        return error_set(error, ERROR_MISSING, NULL,
                         "the lettering font can't be used; install the package fonts-osifont "
                         "again");
    lettering->face = cairo_font_face_reference(cairo_scaled_font_get_font_face(scaled));

    lettering->outlines = hb_font_create(hb_font_get_face(shaping));
    hb_codepoint_t capital;
    hb_glyph_extents_t extents;
    if (!hb_font_get_nominal_glyph(lettering->outlines, 'H', &capital) ||
        !hb_font_get_glyph_extents(lettering->outlines, capital, &extents) || extents.height == 0)
        return error_set(error, ERROR_MISSING, NULL,
                         "the lettering font has no capital letters; install the package "
                         "fonts-osifont again");
    lettering->units = fabs((double)extents.height);
    lettering->em = hb_face_get_upem(hb_font_get_face(shaping)) / lettering->units;
    return true;
}

Lettering *lettering_new_from_file(const char *file, Error *error)
{
    FcConfig *config = config_with_font(file, error);
    if (!config)
        return NULL;
    Lettering *lettering = g_new0(Lettering, 1);
    lettering->references = 1;
    lettering->lines = g_hash_table_new_full(g_str_hash, g_str_equal, NULL, line_free);
    bool loaded = load_font(lettering, config, error);
    FcConfigDestroy(config); /* the font map holds its own reference */
    if (!loaded) {
        error_set_file(error, file);
        lettering_unref(lettering);
        return NULL;
    }
    return lettering;
}

static char *font_below(const char *directory)
{
    static const char *const places[] = {"fonts/truetype/osifont/osifont.ttf",
                                         "fonts/truetype/osifont.ttf", "fonts/osifont/osifont.ttf",
                                         "fonts/osifont.ttf", "fonts/TTF/osifont.ttf"};
    for (size_t i = 0; i < G_N_ELEMENTS(places); i++) {
        char *file = g_build_filename(directory, places[i], NULL);
        if (g_file_test(file, G_FILE_TEST_IS_REGULAR))
            return file;
        g_free(file);
    }
    return NULL;
}

Lettering *lettering_new(Error *error)
{
    char *file = font_below("/usr/share");
    const char *const *directories = g_get_system_data_dirs();
    for (size_t i = 0; !file && directories[i]; i++)
        file = font_below(directories[i]);
    if (!file)
        file = font_below(g_get_user_data_dir());
    if (!file) {
        error_set(error, ERROR_MISSING, NULL,
                  "the lettering font osifont is not installed; install the package "
                  "fonts-osifont");
        return NULL;
    }
    Lettering *lettering = lettering_new_from_file(file, error);
    g_free(file);
    return lettering;
}

Lettering *lettering_ref(Lettering *lettering)
{
    lettering->references++;
    return lettering;
}

void lettering_unref(Lettering *lettering)
{
    if (!lettering || --lettering->references > 0)
        return;
    g_hash_table_unref(lettering->lines);
    g_clear_pointer(&lettering->outlines, hb_font_destroy);
    g_clear_pointer(&lettering->face, cairo_font_face_destroy);
    g_clear_pointer(&lettering->options, cairo_font_options_destroy);
    g_clear_object(&lettering->font);
    g_clear_object(&lettering->context);
    g_clear_object(&lettering->map);
    g_free(lettering);
}

static void note_unknown(TextLine *line, uint32_t character)
{
    if (line->unknown_count++ == 0)
        line->first_unknown = character;
}

/* Adds one shaped item's glyphs where the line has got to. `scale` is letter heights in a Pango
 * unit; `text` is the whole line's. */
static void add_glyphs(TextLine *line, PangoItem *item, PangoGlyphString *shaped, const char *text,
                       double scale)
{
    PangoGlyphItem whole = {item, shaped, 0, 0, 0};
    PangoGlyphItemIter iter;
    Run *run = &g_array_index(line->runs, Run, line->runs->len - 1);
    for (gboolean more = pango_glyph_item_iter_init_start(&iter, &whole, text); more;
         more = pango_glyph_item_iter_next_cluster(&iter)) {
        cairo_text_cluster_t cluster = {iter.end_index - iter.start_index, 0};
        for (int i = iter.start_glyph; i < iter.end_glyph; i++) {
            const PangoGlyphInfo *info = &shaped->glyphs[i];
            if (info->glyph & PANGO_GLYPH_UNKNOWN_FLAG) {
                note_unknown(line, info->glyph & ~PANGO_GLYPH_UNKNOWN_FLAG);
                continue;
            }
            double x = line->width + info->geometry.x_offset * scale;
            double y = -info->geometry.y_offset * scale;
            if (info->glyph != PANGO_GLYPH_EMPTY) {
                TextPiece piece = {x, y, info->glyph, NULL};
                cairo_glyph_t glyph = {info->glyph, x, -y};
                g_array_append_val(line->pieces, piece);
                g_array_append_val(line->glyphs, glyph);
                cluster.num_glyphs++;
                run->glyph_count++;
            }
            line->width += info->geometry.width * scale;
        }
        g_array_append_val(line->clusters, cluster);
        run->cluster_count++;
    }
}

static void add_run(Lettering *lettering, TextLine *line, size_t start, size_t length)
{
    Run run = {start, length, line->glyphs->len, 0, line->clusters->len, 0};
    g_array_append_val(line->runs, run);
    double scale = lettering->em / (SHAPED_SIZE * PANGO_SCALE);
    PangoGlyphString *shaped = pango_glyph_string_new();
    GList *items = pango_itemize_with_base_dir(lettering->context, PANGO_DIRECTION_LTR, line->text,
                                               (int)start, (int)length, NULL, NULL);
    for (GList *at = items; at; at = at->next) {
        PangoItem *item = at->data;
        pango_shape_with_flags(line->text + item->offset, item->length, NULL, 0, &item->analysis,
                               shaped, PANGO_SHAPE_NONE);
        PangoRectangle ink;
        pango_glyph_string_extents(shaped, item->analysis.font, &ink, NULL);
        line->top = fmax(line->top, -ink.y * scale);
        line->bottom = fmin(line->bottom, -(ink.y + ink.height) * scale);
        add_glyphs(line, item, shaped, line->text, scale);
        pango_item_free(item);
    }
    g_list_free(items);
    pango_glyph_string_free(shaped);
}

static void add_sign(TextLine *line, const Sign *sign)
{
    TextPiece piece = {line->width, 0, 0, sign};
    g_array_append_val(line->pieces, piece);
    line->width += sign->width;
    line->top = fmax(line->top, sign->top + SIGN_STROKE_WIDTH / 2);
    line->bottom = fmin(line->bottom, sign->bottom - SIGN_STROKE_WIDTH / 2);
}

/* The text as valid UTF-8 on one line; what is neither is counted and left out. */
static char *plain_text(const char *text, TextLine *line)
{
    GString *plain = g_string_new(NULL);
    for (const char *at = text; *at;) {
        gunichar character = g_utf8_get_char_validated(at, -1);
        if (character == (gunichar)-1 || character == (gunichar)-2) {
            note_unknown(line, 0xFFFD);
            at++;
            continue;
        }
        if (g_unichar_iscntrl(character))
            note_unknown(line, character);
        else
            g_string_append_unichar(plain, character);
        at = g_utf8_next_char(at);
    }
    return g_string_free(plain, FALSE);
}

static TextLine *shape_line(Lettering *lettering, const char *text)
{
    TextLine *line = g_new0(TextLine, 1);
    line->pieces = g_array_new(FALSE, FALSE, sizeof(TextPiece));
    line->glyphs = g_array_new(FALSE, FALSE, sizeof(cairo_glyph_t));
    line->clusters = g_array_new(FALSE, FALSE, sizeof(cairo_text_cluster_t));
    line->runs = g_array_new(FALSE, FALSE, sizeof(Run));
    line->key = g_strdup(text);
    line->text = plain_text(text, line);
    line->top = 1;
    size_t start = 0, at = 0;
    while (line->text[at]) {
        const Sign *sign = sign_find(g_utf8_get_char(line->text + at));
        size_t next = (size_t)(g_utf8_next_char(line->text + at) - line->text);
        if (sign) {
            if (at > start)
                add_run(lettering, line, start, at - start);
            add_sign(line, sign);
            start = next;
        }
        at = next;
    }
    if (at > start)
        add_run(lettering, line, start, at - start);
    return line;
}

static const TextLine *find_line(Lettering *lettering, const char *text)
{
    TextLine *line = g_hash_table_lookup(lettering->lines, text);
    if (line)
        return line;
    if (g_hash_table_size(lettering->lines) >= LINES_MOST)
        g_hash_table_remove_all(lettering->lines);
    line = shape_line(lettering, text);
    g_hash_table_insert(lettering->lines, line->key, line);
    return line;
}

TextExtent lettering_extent(Lettering *lettering, const char *text, double height)
{
    const TextLine *line = find_line(lettering, text);
    return (TextExtent){line->width * height, line->top * height, -line->bottom * height,
                        line->unknown_count, line->first_unknown};
}

const TextPiece *lettering_pieces(Lettering *lettering, const char *text, size_t *count)
{
    const TextLine *line = find_line(lettering, text);
    *count = line->pieces->len;
    return (const TextPiece *)(void *)line->pieces->data;
}

static void show_sign(cairo_t *cairo, const Sign *sign, double x)
{
    for (size_t i = 0; i < sign->stroke_count; i++) {
        const SignStroke *stroke = &sign->strokes[i];
        const Vertex *v = stroke->vertices;
        cairo_new_path(cairo);
        if (stroke->count == 1)
            cairo_arc(cairo, x + v->x, -v->y, v->sagitta, 0, 2 * G_PI);
        else
            for (size_t j = 0; j < stroke->count; j++)
                cairo_line_to(cairo, x + v[j].x, -v[j].y);
        if (stroke->closed)
            cairo_close_path(cairo);
        cairo_stroke(cairo);
    }
}

void lettering_show(Lettering *lettering, cairo_t *cairo, const char *text, double height)
{
    const TextLine *line = find_line(lettering, text);
    cairo_save(cairo);
    cairo_scale(cairo, height, height);
    cairo_set_font_face(cairo, lettering->face);
    cairo_set_font_size(cairo, lettering->em);
    cairo_set_font_options(cairo, lettering->options);
    for (guint i = 0; i < line->runs->len; i++) {
        const Run *run = &g_array_index(line->runs, Run, i);
        if (run->glyph_count == 0)
            continue;
        cairo_show_text_glyphs(cairo, line->text + run->start, (int)run->length,
                               &g_array_index(line->glyphs, cairo_glyph_t, run->glyph),
                               (int)run->glyph_count,
                               &g_array_index(line->clusters, cairo_text_cluster_t, run->cluster),
                               (int)run->cluster_count, 0);
    }
    cairo_set_line_width(cairo, SIGN_STROKE_WIDTH);
    cairo_set_line_cap(cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_dash(cairo, NULL, 0, 0);
    for (guint i = 0; i < line->pieces->len; i++) {
        const TextPiece *piece = &g_array_index(line->pieces, TextPiece, i);
        if (piece->sign)
            show_sign(cairo, piece->sign, piece->x);
    }
    cairo_restore(cairo);
}

/* The pen's calls with the units of the font taken out. */
typedef struct ScaledPen {
    const GlyphPen *pen;
    void *user;
    double scale;
} ScaledPen;

static Point scaled(const ScaledPen *pen, float x, float y)
{
    return (Point){(double)x * pen->scale, (double)y * pen->scale};
}

static void pen_move(hb_draw_funcs_t *functions, void *data, hb_draw_state_t *state, float x,
                     float y, void *user)
{
    const ScaledPen *pen = data;
    pen->pen->move(pen->user, scaled(pen, x, y));
}

static void pen_line(hb_draw_funcs_t *functions, void *data, hb_draw_state_t *state, float x,
                     float y, void *user)
{
    const ScaledPen *pen = data;
    pen->pen->line(pen->user, scaled(pen, x, y));
}

static void pen_quadratic(hb_draw_funcs_t *functions, void *data, hb_draw_state_t *state, float cx,
                          float cy, float x, float y, void *user)
{
    const ScaledPen *pen = data;
    pen->pen->quadratic(pen->user, scaled(pen, cx, cy), scaled(pen, x, y));
}

static void pen_cubic(hb_draw_funcs_t *functions, void *data, hb_draw_state_t *state, float ax,
                      float ay, float bx, float by, float x, float y, void *user)
{
    const ScaledPen *pen = data;
    pen->pen->cubic(pen->user, scaled(pen, ax, ay), scaled(pen, bx, by), scaled(pen, x, y));
}

static void pen_close(hb_draw_funcs_t *functions, void *data, hb_draw_state_t *state, void *user)
{
    const ScaledPen *pen = data;
    pen->pen->close(pen->user);
}

void lettering_glyph(Lettering *lettering, unsigned glyph, const GlyphPen *pen, void *user)
{
    hb_draw_funcs_t *functions = hb_draw_funcs_create();
    hb_draw_funcs_set_move_to_func(functions, pen_move, NULL, NULL);
    hb_draw_funcs_set_line_to_func(functions, pen_line, NULL, NULL);
    hb_draw_funcs_set_quadratic_to_func(functions, pen_quadratic, NULL, NULL);
    hb_draw_funcs_set_cubic_to_func(functions, pen_cubic, NULL, NULL);
    hb_draw_funcs_set_close_path_func(functions, pen_close, NULL, NULL);
    ScaledPen scaled_pen = {pen, user, 1 / lettering->units};
#if HB_VERSION_ATLEAST(7, 0, 0)
    hb_font_draw_glyph(lettering->outlines, glyph, functions, &scaled_pen);
#else
    hb_font_get_glyph_shape(lettering->outlines, glyph, functions, &scaled_pen);
#endif
    hb_draw_funcs_destroy(functions);
}
