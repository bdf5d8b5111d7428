/* rational.h: exact fractions for typed arithmetic, so that 13/64 in is 5,159,375 nm and no other.
 *
 * Private to src/trade. Each operation answers false where the exact result does not fit in 63 bits
 * above and below; then it is refused, never rounded.
 */
#pragma once

#include <stdbool.h>
#include <stdint.h>

typedef struct Rational {
    bool negative;
    uint64_t above;
    uint64_t below; /* never 0; above/below is in its lowest terms */
} Rational;

#define RATIONAL_ZERO ((Rational){false, 0, 1})

/* `below` must not be 0. */
Rational rational_new(uint64_t above, uint64_t below);

bool rational_plus(Rational a, Rational b, Rational *sum);
bool rational_times(Rational a, Rational b, Rational *product);
/* Also false when b is 0. */
bool rational_over(Rational a, Rational b, Rational *quotient);
Rational rational_negated(Rational a);

/* The nearest whole number, halves away from 0; false beyond +-`greatest`. */
bool rational_rounded(Rational a, int64_t greatest, int64_t *whole);

double rational_to_double(Rational a);
