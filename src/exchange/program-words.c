#include "exchange/program-words.h"

#include <math.h>
#include <string.h>

/* The most that stands between the brackets of one line; short displays show no more. */
#define REMARK_WIDTH 64

void block_begin(WordWriter *writer)
{
    if (writer->line_numbers) {
        writer->next_number += 10;
        g_string_append_printf(writer->text, "N%u", writer->next_number);
    }
}

void block_end(WordWriter *writer)
{
    g_string_append_c(writer->text, '\n');
}

static void gap(WordWriter *writer)
{
    gsize length = writer->text->len;
    if (length > 0 && writer->text->str[length - 1] != '\n')
        g_string_append_c(writer->text, ' ');
}

void word_add(WordWriter *writer, const char *word)
{
    gap(writer);
    g_string_append(writer->text, word);
}

static void figure_text(const WordWriter *writer, double mm, char text[G_ASCII_DTOSTR_BUF_SIZE])
{
    const char *format = writer->inch ? "%.4f" : "%.3f";
    g_ascii_formatd(text, G_ASCII_DTOSTR_BUF_SIZE, format, writer->inch ? mm / 25.4 : mm);
    if (*text == '-' && strspn(text, "-0.") == strlen(text))
        memmove(text, text + 1, strlen(text));
}

void word_length(WordWriter *writer, char address, double mm)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    figure_text(writer, mm, text);
    gap(writer);
    g_string_append_printf(writer->text, "%c%s", address, text);
}

double word_rounded(const WordWriter *writer, double mm)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    figure_text(writer, mm, text);
    return g_ascii_strtod(text, NULL) * (writer->inch ? 25.4 : 1);
}

void word_whole(WordWriter *writer, char address, unsigned number)
{
    gap(writer);
    g_string_append_printf(writer->text, "%c%u", address, number);
}

void word_figure(WordWriter *writer, char address, double figure)
{
    char text[G_ASCII_DTOSTR_BUF_SIZE];
    g_ascii_formatd(text, sizeof text, "%.4f", figure);
    size_t length = strlen(text);
    while (text[length - 1] == '0' && text[length - 2] != '.')
        text[--length] = 0;
    gap(writer);
    g_string_append_printf(writer->text, "%c%s", address, text);
}

/* The nearest of the characters that the standard has; 0 for one that may as well be left out. */
static char plain_character(gunichar character)
{
    if (character < ' ')
        return ' ';
    if (character > '~')
        return '?';
    char c = g_ascii_toupper((char)character);
    if (g_ascii_isalnum(c) || strchr(" +-.,:/", c))
        return c;
    return strchr("'\"", c) ? 0 : c == ';' ? ':' : strchr("()[]{}<>", c) ? '/' : '-';
}

static char *plain_text(const char *text)
{
    GString *plain = g_string_new(NULL);
    for (const char *p = text; *p; p = g_utf8_next_char(p)) {
        gunichar character = g_utf8_get_char_validated(p, -1);
        if (character >= (gunichar)-2) {
            g_string_append_c(plain, '?');
            break;
        }
        char c = plain_character(character);
        if (c)
            g_string_append_c(plain, c);
    }
    return g_string_free(plain, FALSE);
}

void remark_add(WordWriter *writer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char *text = g_strdup_vprintf(format, arguments);
    va_end(arguments);
    char *plain = plain_text(text);
    char **words = g_strsplit(plain, " ", -1);
    size_t used = 0;
    for (int i = 0; words[i]; i++) {
        size_t length = MIN(strlen(words[i]), REMARK_WIDTH);
        if (length == 0)
            continue;
        if (used > 0 && used + 1 + length > REMARK_WIDTH) {
            g_string_append(writer->text, ")\n");
            used = 0;
        }
        g_string_append_printf(writer->text, "%s%.*s", used ? " " : "(", (int)length, words[i]);
        used += length + (used > 0);
    }
    if (used > 0)
        g_string_append(writer->text, ")\n");
    g_strfreev(words);
    g_free(plain);
    g_free(text);
}
