#include "drawing/hole-label.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

/* Without I, O and Q, which look like figures, and K, N and S, which stand for keep-clears, nests
 * and slots. */
static const char letters[] = "ABCDEFGHJLMPRTUVWXYZ";

/* The n-th letter, or pair of letters once they are used up. */
static char *letter_at(unsigned n)
{
    unsigned count = sizeof letters - 1;
    if (n < count)
        return g_strdup_printf("%c", letters[n]);
    n -= count;
    return g_strdup_printf("%c%c", letters[n / count % count], letters[n % count]);
}

/* The letters that a label begins with. */
static char *letters_of(const char *label)
{
    size_t length = 0;
    while (g_ascii_isalpha(label[length]))
        length++;
    return g_strndup(label, length);
}

typedef struct Giving {
    HoleTable *table;
    GHashTable *labels;  /* labels that are used */
    GHashTable *letters; /* letters that a kind of hole has */
    GHashTable *groups;  /* description to its letters */
    unsigned next;
} Giving;

static void note_given(Giving *giving)
{
    for (size_t i = 0; i < giving->table->count; i++) {
        const HoleRow *row = &giving->table->rows[i];
        if (!row->label)
            continue;
        g_hash_table_add(giving->labels, row->label);
        char *own = letters_of(row->label);
        bool taken = g_hash_table_contains(giving->letters, own);
        g_hash_table_add(giving->letters, g_strdup(own));
        /* The kind goes on with the letter that one of it has, if no other kind has it. */
        if (row->kind == FEATURE_HOLE && *own && !taken &&
            !g_hash_table_contains(giving->groups, row->description))
            g_hash_table_insert(giving->groups, row->description, g_strdup(own));
        g_free(own);
    }
}

static const char *group_letters(Giving *giving, const HoleRow *row)
{
    if (row->kind == FEATURE_PART)
        return "";
    if (row->kind == FEATURE_KEEP_CLEAR)
        return "K";
    if (row->kind == FEATURE_RECESS)
        return g_str_has_prefix(row->description, "Nest") ? "N" : "S";
    const char *own = g_hash_table_lookup(giving->groups, row->description);
    if (own)
        return own;
    char *free_letters = letter_at(giving->next++);
    while (g_hash_table_contains(giving->letters, free_letters)) {
        g_free(free_letters);
        free_letters = letter_at(giving->next++);
    }
    g_hash_table_add(giving->letters, g_strdup(free_letters));
    g_hash_table_insert(giving->groups, row->description, free_letters);
    return free_letters;
}

static void give(Giving *giving, HoleRow *row)
{
    const char *own = group_letters(giving, row);
    for (unsigned number = 1;; number++) {
        char *label = g_strdup_printf("%s%u", own, number);
        if (!g_hash_table_contains(giving->labels, label)) {
            row->label = label;
            g_hash_table_add(giving->labels, label);
            return;
        }
        g_free(label);
    }
}

/* Letters by letters, figures by their number. */
static int compare_labels(const char *a, const char *b)
{
    while (*a && *b) {
        if (g_ascii_isdigit(*a) && g_ascii_isdigit(*b)) {
            char *a_end, *b_end;
            unsigned long first = strtoul(a, &a_end, 10), second = strtoul(b, &b_end, 10);
            if (first != second)
                return first < second ? -1 : 1;
            a = a_end;
            b = b_end;
        } else if (*a != *b) {
            return (unsigned char)*a < (unsigned char)*b ? -1 : 1;
        } else {
            a++;
            b++;
        }
    }
    return (*a != '\0') - (*b != '\0');
}

/* Rows that were given a label by hand may share it; their numbers settle it then. */
static int compare_rows(const void *a, const void *b)
{
    const HoleRow *first = a, *second = b;
    if (first->kind != second->kind)
        return first->kind < second->kind ? -1 : 1;
    int order = compare_labels(first->label, second->label);
    if (order != 0)
        return order;
    return (first->feature > second->feature) - (first->feature < second->feature);
}

void hole_labels_give(HoleTable *table)
{
    Giving giving = {table, g_hash_table_new(g_str_hash, g_str_equal),
                     g_hash_table_new_full(g_str_hash, g_str_equal, g_free, NULL),
                     g_hash_table_new_full(g_str_hash, g_str_equal, NULL, g_free), 0};
    note_given(&giving);
    for (size_t i = 0; i < table->count; i++) {
        if (!table->rows[i].label)
            give(&giving, &table->rows[i]);
    }
    g_hash_table_unref(giving.labels);
    g_hash_table_unref(giving.letters);
    g_hash_table_unref(giving.groups);
    if (table->count > 1)
        qsort(table->rows, table->count, sizeof *table->rows, compare_rows);
}
