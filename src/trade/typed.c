#include "trade/typed.h"

#include "trade/drill.h"
#include "trade/rational.h"
#include "trade/size-words.h"

#include <glib.h>
#include <string.h>

/* What a value of the arithmetic is; decides which sums and products mean anything. */
typedef enum Dimension {
    PLAIN,    /* a number with no unit: becomes the default unit where one is needed */
    MEASURED, /* has a unit */
    RATIO,    /* one measured value over another */
} Dimension;

typedef struct Value {
    Rational size; /* PLAIN and RATIO: the number; MEASURED: nanometres or nanodegrees */
    Dimension dimension;
} Value;

typedef enum Quantity {
    QUANTITY_LENGTH,
    QUANTITY_ANGLE,
    QUANTITY_NUMBER,
} Quantity;

typedef struct Reader {
    const char *text;
    const char *at;
    Quantity quantity;
    Rational default_unit;
    const char *default_name;
    int depth;
    bool plain_fraction; /* a fraction with no unit was typed */
    char *taken_as;
    size_t taken_as_size;
    const Speech *speech; /* of taken_as */
    Error *error;
} Reader;

#define BRACKETS_MOST 32

typedef struct UnitName {
    const char *name;
    uint64_t above, below; /* in nanometres or nanodegrees */
} UnitName;

/* Longer names stand before their beginnings. */
static const UnitName length_units[] = {
    {"mm", 1000000, 1},  {"um", 1000, 1},     {"\xc2\xb5m", 1000, 1},        {"\xce\xbcm", 1000, 1},
    {"cm", 10000000, 1}, {"thou", 25400, 1},  {"inches", 25400000, 1},       {"inch", 25400000, 1},
    {"in", 25400000, 1}, {"\"", 25400000, 1}, {"\xe2\x80\xb3", 25400000, 1},
};

/* Each finer unit stands after the coarser ones. */
static const UnitName angle_units[] = {
    {"degrees", 1000000000, 1},    {"degree", 1000000000, 1}, {"deg", 1000000000, 1},
    {"\xc2\xb0", 1000000000, 1},   {"min", 50000000, 3},      {"'", 50000000, 3},
    {"\xe2\x80\xb2", 50000000, 3}, {"sec", 2500000, 9},       {"\"", 2500000, 9},
    {"\xe2\x80\xb3", 2500000, 9},
};

static bool expression(Reader *reader, Value *value);

static int column(const Reader *reader, const char *at)
{
    int count = 1;
    for (const char *c = reader->text; c < at; c++)
        count += ((unsigned char)*c & 0xC0) != 0x80;
    return count;
}

static bool refuse(Reader *reader, const char *at, ErrorKind kind, const char *message)
{
    char place[32];
    g_snprintf(place, sizeof place, "column %d", column(reader, at));
    return error_set(reader->error, kind, place, "%s", message);
}

static bool wrong(Reader *reader, const char *at, const char *message)
{
    return refuse(reader, at, ERROR_TYPED, message);
}

static bool too_long(Reader *reader, const char *at)
{
    return refuse(reader, at, ERROR_LIMIT,
                  "this has too many figures to work out exactly; type fewer decimals");
}

static void skip_blanks(Reader *reader)
{
    for (;;) {
        if (*reader->at == ' ' || *reader->at == '\t')
            reader->at++;
        else if (!strncmp(reader->at, "\xc2\xa0", 2)) /* a no-break space, as pasted */
            reader->at += 2;
        else
            return;
    }
}

/* The sign at the reader, as one of + - * / ( ) or 0; the typographer's signs count too. */
static char sign_at(const Reader *reader, size_t *bytes)
{
    static const struct {
        const char *text;
        char sign;
    } signs[] = {{"+", '+'},        {"-", '-'},        {"\xe2\x88\x92", '-'},
                 {"*", '*'},        {"\xc3\x97", '*'}, {"/", '/'},
                 {"\xc3\xb7", '/'}, {"(", '('},        {")", ')'}};
    for (size_t i = 0; i < G_N_ELEMENTS(signs); i++) {
        *bytes = strlen(signs[i].text);
        if (!strncmp(reader->at, signs[i].text, *bytes))
            return signs[i].sign;
    }
    *bytes = 0;
    return 0;
}

static const UnitName *units_of(const Reader *reader, size_t *count)
{
    *count = reader->quantity == QUANTITY_LENGTH  ? G_N_ELEMENTS(length_units)
             : reader->quantity == QUANTITY_ANGLE ? G_N_ELEMENTS(angle_units)
                                                  : 0;
    return reader->quantity == QUANTITY_LENGTH ? length_units : angle_units;
}

/* Takes a unit where one stands, blanks before it too. NULL where none does. */
static const UnitName *take_unit(Reader *reader)
{
    const char *start = reader->at;
    size_t count;
    const UnitName *units = units_of(reader, &count);
    skip_blanks(reader);
    for (size_t i = 0; i < count; i++) {
        size_t bytes = strlen(units[i].name);
        if (g_ascii_strncasecmp(reader->at, units[i].name, bytes) != 0)
            continue;
        if (g_ascii_isalpha(units[i].name[0]) && g_ascii_isalpha(reader->at[bytes]))
            continue;
        reader->at += bytes;
        return &units[i];
    }
    reader->at = start;
    return NULL;
}

/* Reads digits, with decimals where `decimals` is not NULL (it says whether there were any). */
static bool digits(Reader *reader, Rational *number, bool *decimals)
{
    const char *start = reader->at;
    uint64_t above = 0, below = 1;
    bool point = false, any = false;
    for (;; reader->at++) {
        char c = *reader->at;
        if (decimals && c == '.' && !point) {
            point = true;
            continue;
        }
        if (!g_ascii_isdigit(c))
            break;
        any = true;
        if (above > (INT64_MAX - 9) / 10 || (point && below > INT64_MAX / 10))
            return too_long(reader, start);
        above = above * 10 + (uint64_t)(c - '0');
        below *= point ? 10 : 1;
    }
    if (*reader->at == ',')
        return wrong(reader, reader->at, "write the decimals after a point, as in 5.1");
    if (!any)
        return wrong(reader, start, "a number has at least one figure");
    if (decimals)
        *decimals = point;
    *number = rational_new(above, below);
    return true;
}

/* After a whole number: "/64" makes it a fraction, " 1/8" adds one. Whole figures alone are taken
 * here, so that 1/4in is a quarter inch and 10mm/4 stays a division. */
static bool fraction(Reader *reader, Rational *number, bool *found)
{
    *found = false;
    const char *start = reader->at;
    Rational above = *number, below, part;
    bool mixed = *reader->at == ' ';
    if (mixed) {
        skip_blanks(reader);
        if (!g_ascii_isdigit(*reader->at) || !digits(reader, &above, NULL)) {
            reader->at = start;
            return true;
        }
    }
    if (*reader->at != '/' || !g_ascii_isdigit(reader->at[1])) {
        reader->at = start;
        return !mixed || wrong(reader, start, "between two numbers there is a sign missing");
    }
    reader->at++;
    const char *under = reader->at;
    if (!digits(reader, &below, NULL))
        return false;
    if (*reader->at == '.') { /* 1/2.5 is a division */
        reader->at = start;
        return !mixed || wrong(reader, under, "a fraction has whole figures only");
    }
    if (!rational_over(above, below, &part))
        return wrong(reader, under, "nothing can be divided by 0");
    *found = true;
    if (!mixed) {
        *number = part;
        return true;
    }
    return rational_plus(*number, part, number) || too_long(reader, start);
}

static bool measured(Reader *reader, const char *at, Rational number, const UnitName *unit,
                     Value *value)
{
    value->dimension = MEASURED;
    return rational_times(number, rational_new(unit->above, unit->below), &value->size) ||
           too_long(reader, at);
}

/* After 6°: 30' and 15" belong to the same angle. */
static bool finer_parts(Reader *reader, const UnitName *coarse, Value *value)
{
    for (;;) {
        const char *start = reader->at;
        Rational number;
        bool decimals;
        skip_blanks(reader);
        if (!g_ascii_isdigit(*reader->at)) {
            reader->at = start;
            return true;
        }
        if (!digits(reader, &number, &decimals))
            return false;
        const UnitName *unit = take_unit(reader);
        if (!unit || unit->above * coarse->below >= coarse->above * unit->below)
            return wrong(reader, start, "minutes or seconds are missing their sign, as in 6° 30'");
        Value part;
        if (!measured(reader, start, number, unit, &part))
            return false;
        if (!rational_plus(value->size, part.size, &value->size))
            return too_long(reader, start);
        coarse = unit;
    }
}

static bool number(Reader *reader, Value *value)
{
    const char *start = reader->at;
    bool decimals, is_fraction = false;
    if (!digits(reader, &value->size, &decimals))
        return false;
    value->dimension = PLAIN;
    if (!decimals && !fraction(reader, &value->size, &is_fraction))
        return false;
    const UnitName *unit = take_unit(reader);
    if (!unit) {
        reader->plain_fraction |= is_fraction;
        return true;
    }
    if (!measured(reader, start, value->size, unit, value))
        return false;
    return reader->quantity != QUANTITY_ANGLE || finer_parts(reader, unit, value);
}

static void say_taken_as(Reader *reader, const char *text)
{
    if (!reader->taken_as || !reader->taken_as_size)
        return;
    if (reader->taken_as[0])
        g_strlcat(reader->taken_as, "; ", reader->taken_as_size);
    g_strlcat(reader->taken_as, text, reader->taken_as_size);
}

/* "#7", "No. 7" or a single letter: a drill. */
static bool named_size(Reader *reader, Value *value)
{
    const char *start = reader->at;
    char name[16] = "";
    size_t mark = strspn(reader->at, "#");
    if (!g_ascii_strncasecmp(reader->at, "no", 2))
        mark = reader->at[2] == '.' ? 3 : 2;
    if (mark) {
        reader->at += mark;
        skip_blanks(reader);
        size_t count = strspn(reader->at, "0123456789");
        if (!count || count > 8)
            return wrong(reader, start, "after # or No. stands the number of a drill, as in #7");
        g_snprintf(name, sizeof name, "#%.*s", (int)count, reader->at);
        reader->at += count;
    } else {
        name[0] = *reader->at++;
    }
    if (g_ascii_isalnum(*reader->at))
        return wrong(reader, start,
                     "this word is not known; units are mm, in and thou, named "
                     "sizes are drills as in #7 and F");
    const Drill *drill = drill_find(name, NULL);
    if (!drill)
        return wrong(reader, start, "there is no such drill; there are #1 to #97 and A to Z");
    char text[80], said[120];
    drill_text(drill, text, sizeof text);
    size_said(text, reader->speech, said, sizeof said);
    say_taken_as(reader, said);
    *value = (Value){rational_new((uint64_t)drill->diameter, 1), MEASURED};
    return true;
}

static bool bracketed(Reader *reader, const char *start, Value *value)
{
    if (++reader->depth > BRACKETS_MOST)
        return refuse(reader, start, ERROR_LIMIT, "there are too many brackets in each other");
    if (!expression(reader, value))
        return false;
    reader->depth--;
    size_t bytes;
    if (sign_at(reader, &bytes) != ')')
        return wrong(reader, reader->at, "a closing bracket is missing");
    reader->at += bytes;
    const char *at = reader->at;
    const UnitName *unit = take_unit(reader);
    if (!unit)
        return true;
    if (value->dimension != PLAIN)
        return wrong(reader, at, "what is in the bracket has a unit already");
    return measured(reader, at, value->size, unit, value);
}

static bool factor(Reader *reader, Value *value)
{
    bool negative = false;
    for (;;) {
        skip_blanks(reader);
        const char *start = reader->at;
        size_t bytes;
        char sign = sign_at(reader, &bytes);
        reader->at += sign == '-' || sign == '+' || sign == '(' ? bytes : 0;
        if (sign == '-' || sign == '+') {
            negative ^= sign == '-';
            continue;
        }
        bool fine;
        if (sign == '(')
            fine = bracketed(reader, start, value);
        else if (g_ascii_isdigit(*start) || *start == '.')
            fine = number(reader, value);
        else if (reader->quantity == QUANTITY_LENGTH && (g_ascii_isalpha(*start) || *start == '#'))
            fine = named_size(reader, value);
        else if (!*start)
            fine = wrong(reader, start, "a number is missing at the end");
        else
            fine = wrong(reader, start, "a number should stand here");
        if (fine && negative)
            value->size = rational_negated(value->size);
        return fine;
    }
}

static bool multiply(Reader *reader, const char *at, Value *a, Value b, bool over)
{
    if (!over && a->dimension == MEASURED && b.dimension == MEASURED)
        return wrong(reader, at, "two measured values can't be multiplied; leave one unit off");
    if (over && b.dimension == MEASURED && a->dimension != MEASURED)
        return wrong(reader, at, "a plain number can't be divided by a measured value");
    if (over && !b.size.above)
        return wrong(reader, at, "nothing can be divided by 0");
    if (!(over ? rational_over : rational_times)(a->size, b.size, &a->size))
        return too_long(reader, at);
    if (a->dimension == MEASURED && b.dimension == MEASURED)
        a->dimension = RATIO;
    else if (a->dimension == MEASURED || b.dimension == MEASURED)
        a->dimension = MEASURED;
    else if (a->dimension == PLAIN || b.dimension == PLAIN)
        a->dimension = PLAIN;
    return true;
}

static bool in_default_unit(Reader *reader, const char *at, Value *value)
{
    if (value->dimension == RATIO)
        return wrong(reader, at,
                     "one measured value over another is a plain ratio; multiply it "
                     "by a length or an angle");
    if (value->dimension == PLAIN &&
        !rational_times(value->size, reader->default_unit, &value->size))
        return too_long(reader, at);
    value->dimension = MEASURED;
    return true;
}

static bool add(Reader *reader, const char *at, Value *a, Value b, bool less)
{
    if (a->dimension != b.dimension) {
        if (!in_default_unit(reader, at, a) || !in_default_unit(reader, at, &b))
            return false;
    }
    if (less)
        b.size = rational_negated(b.size);
    return rational_plus(a->size, b.size, &a->size) || too_long(reader, at);
}

static bool term(Reader *reader, Value *value)
{
    if (!factor(reader, value))
        return false;
    for (;;) {
        skip_blanks(reader);
        const char *at = reader->at;
        size_t bytes;
        char sign = sign_at(reader, &bytes);
        if (sign != '*' && sign != '/')
            return true;
        reader->at += bytes;
        Value next;
        if (!factor(reader, &next) || !multiply(reader, at, value, next, sign == '/'))
            return false;
    }
}

static bool expression(Reader *reader, Value *value)
{
    if (!term(reader, value))
        return false;
    for (;;) {
        skip_blanks(reader);
        const char *at = reader->at;
        size_t bytes;
        char sign = sign_at(reader, &bytes);
        if (sign != '+' && sign != '-')
            return true;
        reader->at += bytes;
        Value next;
        if (!term(reader, &next) || !add(reader, at, value, next, sign == '-'))
            return false;
    }
}

static bool read_whole(Reader *reader, Value *value)
{
    if (strnlen(reader->text, TYPED_BYTES_MOST + 1) > TYPED_BYTES_MOST)
        return refuse(reader, reader->text, ERROR_LIMIT, "this is longer than any typed value");
    reader->at = reader->text;
    skip_blanks(reader);
    if (!*reader->at)
        return wrong(reader, reader->at, "nothing is typed here");
    if (!expression(reader, value))
        return false;
    if (!*reader->at)
        return true;
    if (*reader->at == ')')
        return wrong(reader, reader->at, "this closing bracket has no opening one");
    return wrong(reader, reader->at,
                 reader->quantity == QUANTITY_LENGTH
                     ? "a sign or a unit (mm, in, thou) should stand here"
                 : reader->quantity == QUANTITY_ANGLE
                     ? "a sign or a unit (deg, ', \") should stand here"
                     : "a sign should stand here; a plain number has no unit");
}

/* Whether the text is of the form 1-1/8, which some shops write for one and an eighth. */
static bool looks_mixed_with_hyphen(const char *text)
{
    text += strspn(text, " ");
    size_t whole = strspn(text, "0123456789");
    if (!whole || text[whole] != '-')
        return false;
    text += whole + 1;
    size_t above = strspn(text, "0123456789");
    return above && text[above] == '/' && strspn(text + above + 1, "0123456789") > 0;
}

static void say_what_was_doubtful(Reader *reader, Length length)
{
    char text[TYPED_TAKEN_AS], size[LENGTH_PEOPLE_TEXT];
    Unit unit = reader->default_unit.above == (uint64_t)LENGTH_INCH ? UNIT_INCH : UNIT_MM;
    if (looks_mixed_with_hyphen(reader->text)) {
        length_text_with_unit(length, unit, size);
        speech_figures(reader->speech, size);
        g_snprintf(text, sizeof text,
                   speech_say(reader->speech,
                              N_("a difference, %s; for a whole and a fraction type a blank")),
                   size);
        say_taken_as(reader, text);
    } else if (reader->plain_fraction && unit == UNIT_MM) {
        length_text_with_unit(length, unit, size);
        speech_figures(reader->speech, size);
        g_snprintf(text, sizeof text,
                   speech_say(reader->speech, N_("millimetres, %s; for inches add in")), size);
        say_taken_as(reader, text);
    }
}

bool typed_length_read(const char *text, Unit unit, Length *length, char *taken_as, size_t size,
                       Error *error)
{
    return typed_length_read_said(text, unit, NULL, length, taken_as, size, error);
}

bool typed_length_read_said(const char *text, Unit unit, const Speech *speech, Length *length,
                            char *taken_as, size_t size, Error *error)
{
    if (taken_as && size)
        taken_as[0] = '\0';
    Reader reader = {.text = text,
                     .quantity = QUANTITY_LENGTH,
                     .default_unit = rational_new((uint64_t)unit_length(unit), 1),
                     .taken_as = taken_as,
                     .taken_as_size = size,
                     .speech = speech,
                     .error = error};
    Value value;
    if (!read_whole(&reader, &value) || !in_default_unit(&reader, text, &value))
        return false;
    if (!rational_rounded(value.size, LENGTH_GREATEST, length))
        return refuse(&reader, text, ERROR_LIMIT, "no length may be more than 10 m");
    say_what_was_doubtful(&reader, *length);
    return true;
}

bool typed_angle_read(const char *text, Angle *angle, Error *error)
{
    Reader reader = {.text = text,
                     .quantity = QUANTITY_ANGLE,
                     .default_unit = rational_new((uint64_t)ANGLE_DEGREE, 1),
                     .error = error};
    Value value;
    if (!read_whole(&reader, &value) || !in_default_unit(&reader, text, &value))
        return false;
    return rational_rounded(value.size, ANGLE_TURN, angle) ||
           refuse(&reader, text, ERROR_LIMIT, "no angle may be more than 360 degrees");
}

bool typed_number_read(const char *text, double least, double greatest, double *number_read,
                       Error *error)
{
    Reader reader = {.text = text,
                     .quantity = QUANTITY_NUMBER,
                     .default_unit = rational_new(1, 1),
                     .error = error};
    Value value;
    if (!read_whole(&reader, &value))
        return false;
    double size = rational_to_double(value.size);
    if (size < least || size > greatest) {
        char is[G_ASCII_DTOSTR_BUF_SIZE], from[G_ASCII_DTOSTR_BUF_SIZE],
            to[G_ASCII_DTOSTR_BUF_SIZE];
        g_ascii_formatd(is, sizeof is, "%g", size);
        g_ascii_formatd(from, sizeof from, "%g", least);
        g_ascii_formatd(to, sizeof to, "%g", greatest);
        return error_set(error, ERROR_LIMIT, "column 1", "this is %s; it must be %s to %s", is,
                         from, to);
    }
    *number_read = size;
    return true;
}

bool typed_count_read(const char *text, int least, int greatest, int *count, Error *error)
{
    text += strspn(text, " \t");
    size_t figures = strspn(text, "0123456789");
    if (!figures || text[figures + strspn(text + figures, " \t")])
        return error_set(error, ERROR_TYPED, "column 1", "type a whole number from %d to %d", least,
                         greatest);
    guint64 value = figures > 9 ? G_MAXINT : g_ascii_strtoull(text, NULL, 10);
    if (value > (guint64)greatest || (gint64)value < least)
        return error_set(error, ERROR_LIMIT, "column 1", "type a whole number from %d to %d", least,
                         greatest);
    *count = (int)value;
    return true;
}
