#include "trade/location-error.h"

#include <math.h>
#include <stddef.h>

/* The place of a point along and across the line from the first locator to the second. */
typedef struct Frame {
    double distance;
    double along, across;
} Frame;

static Frame frame_of(const Location *location, Point at)
{
    Point line = point_minus(location->locators[1], location->locators[0]);
    Point from = point_minus(at, location->locators[0]);
    double distance = point_length(line);
    return (Frame){distance, point_dot(from, line) / distance, point_cross(line, from) / distance};
}

/* What the two holes allow: radii of their zones about the locators. */
typedef struct Zones {
    double first, second;
    bool relieved;
} Zones;

/* With both holes pushed `along` the line, how far they can go across; then the shift at the point
 * in the direction (nx, ny). */
static double shift_with(const Frame *frame, const Zones *zones, double nx, double ny, double along)
{
    double by_turn = (nx * frame->across - ny * frame->along) / frame->distance;
    double first = sqrt(fmax(0, zones->first * zones->first - along * along));
    double second = zones->relieved ? zones->second
                                    : sqrt(fmax(0, zones->second * zones->second - along * along));
    return nx * along + fabs(by_turn + ny) * first + fabs(by_turn) * second;
}

#define GOLDEN 0.6180339887498949
#define NARROWINGS 40

/* shift_with is concave in `along`: a golden section finds its top. */
static double shift_towards(const Frame *frame, const Zones *zones, double angle)
{
    double nx = cos(angle), ny = sin(angle);
    double most = zones->relieved ? zones->first : fmin(zones->first, zones->second);
    double low = -most, high = most;
    for (int i = 0; i < NARROWINGS; i++) {
        double a = high - GOLDEN * (high - low), b = low + GOLDEN * (high - low);
        if (shift_with(frame, zones, nx, ny, a) < shift_with(frame, zones, nx, ny, b))
            low = a;
        else
            high = b;
    }
    double top = shift_with(frame, zones, nx, ny, (low + high) / 2);
    return fmax(
        top, fmax(shift_with(frame, zones, nx, ny, -most), shift_with(frame, zones, nx, ny, most)));
}

#define DIRECTIONS 36
#define FINEST_TURN 1e-5 /* radians; what is lost goes with its square */

/* Climbs from a direction that is better than its neighbours to the top between them. */
static double top_near(const Frame *frame, const Zones *zones, double angle, double shift)
{
    for (double span = M_PI / DIRECTIONS / 2; span > FINEST_TURN; span /= 2) {
        double before = shift_towards(frame, zones, angle - span);
        double after = shift_towards(frame, zones, angle + span);
        if (fmax(before, after) > shift) {
            angle += after > before ? span : -span;
            shift = fmax(before, after);
        }
    }
    return shift;
}

/* What is allowed is symmetrical, so half a turn of directions is enough; there may be a few tops.
 */
static double greatest_shift(const Frame *frame, const Zones *zones)
{
    double shifts[DIRECTIONS], best = 0;
    for (int i = 0; i < DIRECTIONS; i++)
        shifts[i] = shift_towards(frame, zones, i * M_PI / DIRECTIONS);
    for (int i = 0; i < DIRECTIONS; i++) {
        double before = shifts[(i + DIRECTIONS - 1) % DIRECTIONS];
        double after = shifts[(i + 1) % DIRECTIONS];
        if (shifts[i] >= before && shifts[i] >= after)
            best = fmax(best, top_near(frame, zones, i * M_PI / DIRECTIONS, shifts[i]));
    }
    return best;
}

static Zones play_zones(const Location *location)
{
    return (Zones){location->clearance[0] / 2, location->clearance[1] / 2, location->relieved};
}

static Zones position_zones(const Location *location, const double position[2])
{
    return (Zones){position[0] / 2, position[1] / 2, location->relieved};
}

static bool possible(const Location *location, Error *error)
{
    if (point_distance(location->locators[0], location->locators[1]) < 1e-6)
        return error_set(error, ERROR_GEOMETRY, NULL,
                         "the two locators lie in one place; they must be apart");
    for (int i = 0; i < 2; i++)
        if (location->clearance[i] < 0 || location->plate_position[i] < 0 ||
            location->part_position[i] < 0)
            return error_set(error, ERROR_LIMIT, NULL,
                             "a clearance or position tolerance is less than 0; a hole smaller "
                             "than its locator does not go on");
    return true;
}

static double radians(double degrees)
{
    return degrees * M_PI / 180;
}

static double square_sum(const double *values, int count)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        sum += values[i] * values[i];
    return sqrt(sum);
}

bool location_error_at(const Location *location, Point at, LocationError *result, Error *error)
{
    if (!possible(location, error))
        return false;
    Frame frame = frame_of(location, at);
    Zones play = play_zones(location);
    Zones plate = position_zones(location, location->plate_position);
    Zones part = position_zones(location, location->part_position);
    Zones all = {play.first + plate.first + part.first, play.second + plate.second + part.second,
                 location->relieved};
    result->play = greatest_shift(&frame, &play);
    result->plate_position = greatest_shift(&frame, &plate);
    result->part_position = greatest_shift(&frame, &part);
    result->repeat = fabs(location->repeat_shift) +
                     fabs(radians(location->repeat_turn)) * point_distance(at, location->base);
    result->squareness = fabs(location->height * tan(radians(location->squareness)));
    result->temperature = fabs((location->part_expansion - location->plate_expansion) * 1e-6 *
                               location->temperature) *
                          point_distance(at, location->locators[0]);
    double rest[] = {result->repeat, result->squareness, result->temperature};
    double each[] = {result->play,   result->plate_position, result->part_position,
                     result->repeat, result->squareness,     result->temperature};
    result->greatest = greatest_shift(&frame, &all) + rest[0] + rest[1] + rest[2];
    result->root_sum_square = square_sum(each, 6);
    return true;
}

bool location_turn(const Location *location, double *greatest, double *root_sum_square,
                   Error *error)
{
    if (!possible(location, error))
        return false;
    double distance = point_distance(location->locators[0], location->locators[1]);
    const double *pairs[] = {location->clearance, location->plate_position,
                             location->part_position};
    double parts[4];
    *greatest = parts[3] = fabs(location->repeat_turn);
    for (int i = 0; i < 3; i++) {
        parts[i] = (pairs[i][0] + pairs[i][1]) / 2 / distance * 180 / M_PI;
        *greatest += parts[i];
    }
    *root_sum_square = square_sum(parts, 4);
    return true;
}
