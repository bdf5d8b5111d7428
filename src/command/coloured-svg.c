#include "command/coloured-svg.h"

#include "drawing/look.h"
#include "drawing/svg.h"
#include "plate/save.h"

#include <string.h>

/* What a page points out; on white it has a contrast of more than 4.5 to 1. */
#define POINTED_OUT "#c2410c"

static void add_rule(GString *text, MarkRole role)
{
    Mark mark = {.kind = MARK_STROKE, .role = role};
    Colour colour = look_colour(&mark, false);
    char hex[8];
    g_snprintf(hex, sizeof hex, "#%02x%02x%02x", (unsigned)(colour.red * 255 + 0.5),
               (unsigned)(colour.green * 255 + 0.5), (unsigned)(colour.blue * 255 + 0.5));
    const char *name = mark_role_name(role);
    g_string_append_printf(text, "[id^=\"lines-\"]>.%s{stroke:%s}", name,
                           role == ROLE_NOTE ? POINTED_OUT : hex);
    g_string_append_printf(text, "#fills>.%s,#lettering>.%s{fill:%s}\n", name, name, hex);
}

/* The writer's groups say what their marks are for; what is said here colours them. */
static char *ground_and_style(void)
{
    GString *text = g_string_new("<style>\n");
    for (int role = 0; role < ROLE_COUNT; role++)
        add_rule(text, (MarkRole)role);
    g_string_append(text, "</style>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
    return g_string_free(text, FALSE);
}

bool coloured_svg_write(const Drawing *drawing, const char *file, Error *error)
{
    static const char before[] = "</title>\n";
    GString *text = svg_text(drawing, 0);
    const char *at = strstr(text->str, before);
    char *style = ground_and_style();
    g_string_insert(text, at ? at - text->str + (gssize)strlen(before) : 0, style);
    bool written = save_bytes(file, text->str, text->len, NULL, error);
    g_free(style);
    g_string_free(text, TRUE);
    return written;
}
