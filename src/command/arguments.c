#include "command/arguments.h"

#include "trade/typed.h"

#include <string.h>

/* True when `word` of `length` bytes is one of the names. */
static bool is_named(const char *names, const char *word, size_t length)
{
    while (*names) {
        size_t one = strcspn(names, " ");
        if (one == length && strncmp(names, word, length) == 0)
            return true;
        names += one;
        names += strspn(names, " ");
    }
    return false;
}

static bool add_option(Arguments *arguments, const char *name, const char *value, Error *error)
{
    if (arguments->option_count == OPTIONS_MOST)
        return error_set(error, ERROR_TYPED, NULL, "there are too many options");
    arguments->names[arguments->option_count] = name;
    arguments->values[arguments->option_count++] = value;
    return true;
}

static bool read_option(int argc, char **argv, int *i, const char *flags, const char *valued,
                        Arguments *arguments, Error *error)
{
    const char *name = argv[*i] + 2;
    const char *equals = strchr(name, '=');
    size_t length = equals ? (size_t)(equals - name) : strlen(name);
    if (!equals && is_named(flags, name, length))
        return add_option(arguments, name, NULL, error);
    if (!is_named(valued, name, length))
        return error_set(error, ERROR_TYPED, NULL, "the option %.60s is not known here", argv[*i]);
    if (equals)
        return add_option(arguments, name, equals + 1, error);
    if (*i + 1 >= argc)
        return error_set(error, ERROR_TYPED, NULL, "the option %.60s needs a value", argv[*i]);
    return add_option(arguments, name, argv[++*i], error);
}

bool arguments_read(int argc, char **argv, const char *flags, const char *valued,
                    Arguments *arguments, Error *error)
{
    *arguments = (Arguments){.position_count = 0};
    for (int i = 2; i < argc; i++) {
        if (strncmp(argv[i], "--", 2) == 0 && argv[i][2]) {
            if (!read_option(argc, argv, &i, flags, valued, arguments, error))
                return false;
        } else if (arguments->position_count == POSITIONS_MOST) {
            return error_set(error, ERROR_TYPED, NULL, "\"%.60s\" is one name too many", argv[i]);
        } else {
            arguments->positions[arguments->position_count++] = argv[i];
        }
    }
    return true;
}

static int find(const Arguments *arguments, const char *name)
{
    for (int i = 0; i < arguments->option_count; i++) {
        size_t length = strcspn(arguments->names[i], "=");
        if (strlen(name) == length && strncmp(arguments->names[i], name, length) == 0)
            return i;
    }
    return -1;
}

bool arguments_flag(const Arguments *arguments, const char *name)
{
    return find(arguments, name) >= 0;
}

const char *arguments_value(const Arguments *arguments, const char *name)
{
    int i = find(arguments, name);
    return i < 0 ? NULL : arguments->values[i];
}

bool arguments_need(const Arguments *arguments, int count, const char *usage, Error *error)
{
    return arguments->position_count == count ||
           error_set(error, ERROR_TYPED, NULL, "call it as: pinplate %s", usage);
}

const char *arguments_to(const Arguments *arguments, const char *endings, Error *error)
{
    const char *to = arguments_value(arguments, "to");
    const char *ending = to ? strrchr(to, '.') : NULL;
    if (!to)
        error_set(error, ERROR_TYPED, "--to", "say where to write: a file that ends in %s",
                  endings);
    else if (!ending || strchr(ending, '/') || !is_named(endings, ending, strlen(ending)))
        error_set(error, ERROR_TYPED, "--to", "the file's name must end in %s", endings);
    else
        return to;
    return NULL;
}

bool arguments_length(const Arguments *arguments, const char *name, Unit unit, Length *length,
                      Error *error)
{
    const char *value = arguments_value(arguments, name);
    *length = 0;
    if (!value || typed_length_read(value, unit, length, NULL, 0, error))
        return true;
    if (error)
        error_within(error, name);
    return false;
}
