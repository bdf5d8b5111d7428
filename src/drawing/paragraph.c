#include "drawing/paragraph.h"

#include <glib.h>
#include <string.h>

/* Called for each line with its words; the text may be NULL to count only. */
typedef void (*LineTaker)(void *user, size_t line, const char *words);

static double width_of(const Drawing *drawing, const char *words, double height)
{
    return lettering_extent(drawing->lettering, words, height).width;
}

/* No line has more characters than this, so that a word of thousands is not measured whole. */
#define LINE_CHARACTERS_MOST 400

/* Where the last whole character ends with which `words` still fit, never before the first. */
static size_t fitting_part(const Drawing *drawing, const char *words, double width, double height)
{
    glong least = 1, most = MIN(g_utf8_strlen(words, -1), LINE_CHARACTERS_MOST);
    while (least < most) {
        glong middle = (least + most + 1) / 2;
        char *part = g_utf8_substring(words, 0, middle);
        if (width_of(drawing, part, height) <= width)
            least = middle;
        else
            most = middle - 1;
        g_free(part);
    }
    return (size_t)(g_utf8_offset_to_pointer(words, least) - words);
}

/* One line being filled with words. */
typedef struct Filling {
    const Drawing *drawing;
    double width, height;
    GString *line;
    size_t count;
    LineTaker take;
    void *user;
} Filling;

static void end_line(Filling *filling)
{
    if (filling->take)
        filling->take(filling->user, filling->count, filling->line->str);
    filling->count++;
    g_string_truncate(filling->line, 0);
}

static void add_word(Filling *filling, const char *word)
{
    size_t before = filling->line->len;
    if (before > 0)
        g_string_append_c(filling->line, ' ');
    g_string_append(filling->line, word);
    if (width_of(filling->drawing, filling->line->str, filling->height) <= filling->width)
        return;
    g_string_truncate(filling->line, before);
    if (before > 0)
        end_line(filling);
    while (g_utf8_strlen(word, -1) > LINE_CHARACTERS_MOST ||
           width_of(filling->drawing, word, filling->height) > filling->width) {
        size_t part = fitting_part(filling->drawing, word, filling->width, filling->height);
        if (word[part] == '\0')
            break;
        g_string_append_len(filling->line, word, (gssize)part);
        end_line(filling);
        word += part;
    }
    g_string_append(filling->line, word);
}

static size_t break_lines(const Drawing *drawing, const char *text, double width, double height,
                          LineTaker take, void *user)
{
    /* Widths that were summed up from others may miss them by a last place. */
    Filling filling = {drawing, width + 1e-6, height, g_string_new(NULL), 0, take, user};
    char **lines = g_strsplit(text, "\n", -1);
    for (char **line = lines; *line; line++) {
        char **words = g_strsplit(*line, " ", -1);
        for (char **word = words; *word; word++) {
            if (**word)
                add_word(&filling, *word);
        }
        g_strfreev(words);
        end_line(&filling);
    }
    g_strfreev(lines);
    g_string_free(filling.line, TRUE);
    return MAX(filling.count, 1);
}

size_t paragraph_lines(const Drawing *drawing, const char *text, double width, double height,
                       size_t most)
{
    return MIN(break_lines(drawing, text, width, height, NULL, NULL), most);
}

double paragraph_width(const Drawing *drawing, const char *text, double height)
{
    double widest = 0;
    char **lines = g_strsplit(text, "\n", -1);
    for (char **line = lines; *line; line++)
        widest = fmax(widest, width_of(drawing, *line, height));
    g_strfreev(lines);
    return widest;
}

typedef struct Placing {
    Drawing *drawing;
    Point top_left;
    double width;
    TextStyle style;
    size_t count, most; /* lines there are, and lines that are drawn */
} Placing;

#define CUT_OFF "..."

/* The words with the sign that more follow, shortened to have room for it; free with g_free. */
static char *cut_off(const Placing *placing, const char *words)
{
    double height = placing->style.height;
    double room = placing->width - width_of(placing->drawing, CUT_OFF, height);
    size_t length = *words ? fitting_part(placing->drawing, words, room, height) : 0;
    return g_strdup_printf("%.*s%s", (int)length, words, CUT_OFF);
}

static void draw_line(void *user, size_t line, const char *words)
{
    const Placing *placing = user;
    double share = placing->style.along == TEXT_START    ? 0
                   : placing->style.along == TEXT_MIDDLE ? 0.5
                                                         : 1;
    Point at = {placing->top_left.x + placing->width * share,
                placing->top_left.y - (double)line * PARAGRAPH_PITCH * placing->style.height};
    if (line + 1 == placing->most && placing->count > placing->most) {
        char *cut = cut_off(placing, words);
        drawing_text(placing->drawing, at, placing->style, cut);
        g_free(cut);
    } else if (line < placing->most) {
        drawing_text(placing->drawing, at, placing->style, words);
    }
}

size_t paragraph_draw(Drawing *drawing, Point top_left, double width, double height,
                      TextAlong along, const char *text, size_t most)
{
    size_t count = break_lines(drawing, text, width, height, NULL, NULL);
    Placing placing = {drawing, top_left, width, {height, along, TEXT_TOP, 0}, count, most};
    break_lines(drawing, text, width, height, draw_line, &placing);
    return MIN(count, most);
}
