/* angle.c: whole nanodegrees, their decimals, cosines and sines. */
#include "geometry/angle.h"

#include "geometry/decimal.h"

#include <math.h>

double angle_to_degrees(Angle angle)
{
    return (double)angle / 1e9;
}

Angle angle_from_degrees(double degrees)
{
    if (!isfinite(degrees)) {
        return 0;
    }
    return (Angle)llround(fmax(-9e9, fmin(9e9, degrees)) * 1e9);
}

Angle angle_normalized(Angle angle)
{
    Angle rest = angle % ANGLE_TURN;
    return rest < 0 ? rest + ANGLE_TURN : rest;
}

void angle_cos_sin(Angle angle, double *cosine, double *sine)
{
    const Angle quarter = ANGLE_TURN / 4;
    Angle turn = angle_normalized(angle);
    int quarters = (int)(turn / quarter);
    Angle rest = turn % quarter;
    double c, s;
    /* The rest is measured from the nearer axis, so that 30 and 60 degrees give the same digits. */
    if (rest <= quarter / 2) {
        double radians = angle_to_degrees(rest) * (M_PI / 180);
        c = cos(radians);
        s = sin(radians);
    } else {
        double radians = angle_to_degrees(quarter - rest) * (M_PI / 180);
        c = sin(radians);
        s = cos(radians);
    }
    const double cosines[] = {c, -s, -c, s};
    const double sines[] = {s, c, -s, -c};
    /* Adding 0 makes 0 of -0. */
    *cosine = cosines[quarters] + 0.0;
    *sine = sines[quarters] + 0.0;
}

bool angle_read(const char *text, Angle *angle)
{
    return decimal_read(text, 9, ANGLE_TURN, angle);
}

size_t angle_write(Angle angle, char *text)
{
    return decimal_write(angle, 9, text);
}
