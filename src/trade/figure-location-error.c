#include "trade/figure-build.h"
#include "trade/location-error.h"

#include <math.h>

typedef struct LocationLengths {
    Length distance, clearance, clearance_2, position, part_position, along, across, repeat, height;
} LocationLengths;

static bool read_location_lengths(const FigureRequest *request, LocationLengths *read, Error *error)
{
    if (!request_length(request, "distance", true, &read->distance, error) ||
        !request_length(request, "clearance", true, &read->clearance, error))
        return false;
    read->clearance_2 = read->clearance;
    read->along = read->distance;
    return request_length(request, "clearance-2", false, &read->clearance_2, error) &&
           request_length(request, "position", false, &read->position, error) &&
           request_length(request, "part-position", false, &read->part_position, error) &&
           request_place(request, "along", &read->along, error) &&
           request_place(request, "across", &read->across, error) &&
           request_length(request, "repeat", false, &read->repeat, error) &&
           request_length(request, "height", false, &read->height, error);
}

static bool read_expansions(const FigureRequest *request, Location *location, Error *error)
{
    if (!request_number(request, "temperature", false, -100, 100, &location->temperature, error))
        return false;
    if (location->temperature == 0)
        return true;
    const Material *of_part = request_material(request, "part", NULL, error);
    const Material *of_plate = of_part ? request_material(request, "plate", NULL, error) : NULL;
    if (!of_plate)
        return false;
    location->part_expansion = of_part->expansion;
    location->plate_expansion = of_plate->expansion;
    return true;
}

static void put_location(const LocationError *shift, double turn, double turn_rss, Figure *figure)
{
    figure_put_mm(figure, "shift_greatest", shift->greatest);
    figure_put_mm(figure, "shift_rss", shift->root_sum_square);
    figure_put_number(figure, "turn_greatest", FIGURE_ANGLE, turn);
    figure_put_number(figure, "turn_rss", FIGURE_ANGLE, turn_rss);
    figure_put_mm(figure, "shift_from_play", shift->play);
    figure_put_mm(figure, "shift_from_plate_position", shift->plate_position);
    figure_put_mm(figure, "shift_from_part_position", shift->part_position);
    figure_put_mm(figure, "shift_from_repeat", shift->repeat);
    figure_put_mm(figure, "shift_from_squareness", shift->squareness);
    figure_put_mm(figure, "shift_from_temperature", shift->temperature);
}

bool figure_of_location_error(const FigureRequest *request, Figure *figure, Error *error)
{
    LocationLengths read = {0};
    Location location = {.relieved = request_text(request, "relieved") != NULL};
    figure_input_text(figure, "second_locator", location.relieved ? "relieved" : "full");
    if (!read_location_lengths(request, &read, error) ||
        !request_angle(request, "repeat-turn", false, &location.repeat_turn, error) ||
        !request_angle(request, "squareness", false, &location.squareness, error) ||
        !read_expansions(request, &location, error))
        return false;
    if (fabs(location.squareness) > 10)
        return error_set(error, ERROR_LIMIT, "--squareness",
                         "a locator that leans more than 10 degrees is no locator");
    location.locators[1].x = length_to_mm(read.distance);
    location.clearance[0] = length_to_mm(read.clearance);
    location.clearance[1] = length_to_mm(read.clearance_2);
    for (int i = 0; i < 2; i++) {
        location.plate_position[i] = length_to_mm(read.position);
        location.part_position[i] = length_to_mm(read.part_position);
    }
    location.repeat_shift = length_to_mm(read.repeat);
    location.height = length_to_mm(read.height);
    Point at = {length_to_mm(read.along), length_to_mm(read.across)};
    LocationError shift;
    double turn, turn_rss;
    if (!location_error_at(&location, at, &shift, error) ||
        !location_turn(&location, &turn, &turn_rss, error))
        return false;
    put_location(&shift, turn, turn_rss, figure);
    figure->formula =
        N_("shift: greatest of a rigid part in both fits, small turns; turn (c1 + c2) / "
           "(2 distance); rss: root of the sum of the parts' squares");
    figure->source = N_("plane geometry, proved against a search over the same play; no standard");
    return true;
}
