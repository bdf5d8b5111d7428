#include "trade/rational.h"

static uint64_t common_divisor(uint64_t a, uint64_t b)
{
    while (b) {
        uint64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

Rational rational_new(uint64_t above, uint64_t below)
{
    uint64_t divisor = common_divisor(above, below);
    return (Rational){false, above / divisor, below / divisor};
}

static bool fits(uint64_t value)
{
    return value <= INT64_MAX;
}

static bool product(uint64_t a, uint64_t b, uint64_t *result)
{
    if (b && a > (uint64_t)INT64_MAX / b)
        return false;
    *result = a * b;
    return true;
}

bool rational_plus(Rational a, Rational b, Rational *sum)
{
    uint64_t divisor = common_divisor(a.below, b.below);
    uint64_t first, second, below;
    if (!product(a.above, b.below / divisor, &first) ||
        !product(b.above, a.below / divisor, &second) ||
        !product(a.below, b.below / divisor, &below))
        return false;
    bool negative = a.negative;
    uint64_t above;
    if (a.negative == b.negative) {
        above = first + second;
    } else if (first >= second) {
        above = first - second;
    } else {
        above = second - first;
        negative = b.negative;
    }
    if (!fits(above))
        return false;
    *sum = rational_new(above, below);
    sum->negative = negative && above;
    return true;
}

bool rational_times(Rational a, Rational b, Rational *result)
{
    /* Taking out common divisors first keeps the halfway numbers as small as the result. */
    uint64_t one = common_divisor(a.above, b.below), other = common_divisor(b.above, a.below);
    uint64_t above, below;
    if (!product(a.above / one, b.above / other, &above) ||
        !product(a.below / other, b.below / one, &below))
        return false;
    *result = rational_new(above, below);
    result->negative = above && a.negative != b.negative;
    return true;
}

bool rational_over(Rational a, Rational b, Rational *quotient)
{
    if (!b.above)
        return false;
    return rational_times(a, (Rational){b.negative, b.below, b.above}, quotient);
}

Rational rational_negated(Rational a)
{
    a.negative = !a.negative && a.above;
    return a;
}

bool rational_rounded(Rational a, int64_t greatest, int64_t *whole)
{
    uint64_t rest = a.above % a.below;
    uint64_t magnitude = a.above / a.below + (rest >= a.below - rest && rest);
    if (magnitude > (uint64_t)greatest)
        return false;
    *whole = a.negative ? -(int64_t)magnitude : (int64_t)magnitude;
    return true;
}

double rational_to_double(Rational a)
{
    double value = (double)a.above / (double)a.below;
    return a.negative ? -value : value;
}
