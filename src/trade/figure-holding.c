/* The figures of a station at work: location-error, holding, batch. */
#include "trade/batch.h"
#include "trade/figure-build.h"
#include "trade/holding.h"
#include "trade/location-error.h"
#include "trade/thread.h"
#include "trade/typed.h"

#include <glib.h>
#include <math.h>
#include <string.h>

typedef struct LocationLengths {
    Length distance, clearance, clearance_2, position, part_position, along, across, repeat, height;
} LocationLengths;

/* A place may lie on either side of the first locator. */
static bool request_place(const FigureRequest *request, const char *name, Length *length,
                          Error *error)
{
    const char *text = request_text(request, name);
    return !text || typed_length_read(text, request->unit, length, NULL, 0, error);
}

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
    const char *part = request_text(request, "part"), *plate = request_text(request, "plate");
    if (!request_number(request, "temperature", false, -100, 100, &location->temperature, error))
        return false;
    if (location->temperature == 0)
        return true;
    if (!part || !plate)
        return error_set(error, ERROR_MISSING, NULL,
                         "with --temperature say --part and --plate, each a material");
    const Material *of_part = material_find(part, error);
    const Material *of_plate = of_part ? material_find(plate, error) : NULL;
    if (!of_plate)
        return false;
    location->part_expansion = of_part->expansion;
    location->plate_expansion = of_plate->expansion;
    return true;
}

static void input_location(const LocationLengths *read, Figure *figure)
{
    figure_input_length(figure, "distance", read->distance);
    figure_input_length(figure, "clearance", read->clearance);
    figure_input_length(figure, "clearance_2", read->clearance_2);
    figure_input_length(figure, "position", read->position);
    figure_input_length(figure, "part_position", read->part_position);
    figure_input_length(figure, "along", read->along);
    figure_input_length(figure, "across", read->across);
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
    input_location(&read, figure);
    put_location(&shift, turn, turn_rss, figure);
    figure->formula = "shift: greatest of a rigid part in both fits, small turns; turn (c1 + c2) / "
                      "(2 distance); rss: root of the sum of the parts' squares";
    figure->source = "plane geometry, proved against a search over the same play; no standard";
    return true;
}

typedef struct HoldingAsked {
    double friction, factor, torque, force;
    int screws;
    const Thread *screw;
} HoldingAsked;

static bool read_cut(const FigureRequest *request, MillingCut *cut, Error *error)
{
    Length diameter = 0, width = 0, depth = 0, feed = 0;
    cut->teeth = 4;
    if (!request_length(request, "cutter", true, &diameter, error) ||
        !request_length(request, "width", true, &width, error) ||
        !request_length(request, "depth", true, &depth, error) ||
        !request_length(request, "feed", true, &feed, error) ||
        !request_count(request, "teeth", false, 1, 40, &cut->teeth, error))
        return false;
    cut->diameter = length_to_mm(diameter);
    cut->width = length_to_mm(width);
    cut->depth = length_to_mm(depth);
    cut->feed = length_to_mm(feed);
    return (diameter > 0 && width > 0 && width <= diameter && depth > 0 && feed > 0) ||
           error_set(error, ERROR_LIMIT, NULL,
                     "cutter, width, depth and feed must be more than 0 and the width no more than "
                     "the cutter");
}

static bool read_hold(const FigureRequest *request, HoldingAsked *asked, Error *error)
{
    *asked = (HoldingAsked){HOLDING_FRICTION, HOLDING_FACTOR, 0, 0, 2, NULL};
    if (!request_number(request, "friction", false, 0.01, 1, &asked->friction, error) ||
        !request_number(request, "factor", false, 1, 10, &asked->factor, error) ||
        !request_number(request, "force", false, 0, 1e6, &asked->force, error) ||
        !request_number(request, "torque", false, 0, 1000, &asked->torque, error) ||
        !request_count(request, "screws", false, 1, 100, &asked->screws, error))
        return false;
    const char *screw = request_text(request, "screw");
    if (!screw)
        return true;
    asked->screw = thread_find(screw, error);
    return asked->screw && (asked->torque > 0 || error_set(error, ERROR_MISSING, NULL,
                                                           "with --screw say its --torque in Nm"));
}

static bool put_deflection(const FigureRequest *request, const Material *material, double force,
                           Figure *figure, Error *error)
{
    Length overhang = 0, edge = 0, strip = 0;
    if (!request_length(request, "overhang", false, &overhang, error))
        return false;
    if (!overhang)
        return true;
    if (!request_length(request, "edge", true, &edge, error) ||
        !request_length(request, "strip", true, &strip, error))
        return false;
    if (!edge || !strip)
        return error_set(error, ERROR_LIMIT, NULL, "--edge and --strip must be more than 0");
    figure_input_length(figure, "overhang", overhang);
    figure_input_length(figure, "edge", edge);
    figure_input_length(figure, "strip", strip);
    double bent = edge_deflection(material, force, length_to_mm(overhang), length_to_mm(edge),
                                  length_to_mm(strip));
    if (bent > length_to_mm(overhang))
        figure_put_text(figure, "deflection", "more than the overhang: it breaks or folds");
    else
        figure_put_mm(figure, "deflection", bent);
    return true;
}

bool figure_of_holding(const FigureRequest *request, Figure *figure, Error *error)
{
    const char *grade = request_text(request, "material");
    if (!grade)
        return error_set(error, ERROR_MISSING, NULL, "--material is missing; say %s",
                         figure_usage(request->what));
    const Material *material = material_find(grade, error);
    MillingCut cut;
    HoldingAsked asked;
    if (!material || !read_cut(request, &cut, error) || !read_hold(request, &asked, error))
        return false;
    CuttingForce force;
    cutting_force(material, &cut, &force);
    double clamping = asked.force;
    if (asked.screw)
        clamping += asked.screws * screw_preload(asked.torque, length_to_mm(asked.screw->major));
    double hold = friction_hold(clamping, asked.friction, 2);
    figure_input_text(figure, "material", material->name);
    figure_input_number(figure, "friction", FIGURE_NUMBER, asked.friction);
    figure_input_number(figure, "factor", FIGURE_NUMBER, asked.factor);
    figure_put_mm(figure, "chip_thickness", force.chip);
    figure_put_number(figure, "specific_cutting_force", FIGURE_STRESS, force.specific_force);
    figure_put_number(figure, "cutting_force", FIGURE_FORCE, force.force);
    figure_put_number(figure, "clamping_force", FIGURE_FORCE, clamping);
    figure_put_number(figure, "holding_force", FIGURE_FORCE, hold);
    figure_put_number(figure, "clamping_needed", FIGURE_FORCE,
                      force.force * asked.factor / (2 * asked.friction));
    figure_put_number(figure, "factor_reached", FIGURE_NUMBER, hold / force.force);
    figure_put_text(figure, "holds", hold >= asked.factor * force.force ? "yes" : "no");
    figure->formula =
        "chip 2 fz sqrt(ae/D (1 - ae/D)); force kc h^-m ap h teeth engaged; preload "
        "torque / (0.2 d); hold 2 faces x friction x clamping; strip F L^3 (1 - 0.3^2) "
        "/ (3 E I)";
    figure->source =
        "handbook formulas; friction 0.1 and factor 2.5 common practice; estimates, not "
        "measurements";
    return put_deflection(request, material, force.force, figure, error);
}

static bool read_cuts(const char *text, Batch *batch, Error *error)
{
    if (!text)
        return error_set(error, ERROR_MISSING, NULL, "--cut is missing; say %s",
                         figure_usage("batch"));
    char **words = g_strsplit(text, ",", -1);
    bool fine = g_strv_length(words) <= BATCH_OPERATIONS_MOST ||
                error_set(error, ERROR_LIMIT, "--cut", "there are too many operations");
    for (size_t i = 0; fine && words[i]; i++)
        fine = typed_number_read(words[i], 1e-3, 1e5, &batch->cut[batch->operation_count++], error);
    g_strfreev(words);
    return fine;
}

bool figure_of_batch(const FigureRequest *request, Figure *figure, Error *error)
{
    Batch batch = {.plates = 2, .parts = 1};
    double shift = 8;
    BatchResult result;
    if (!request_number(request, "load", true, 0, 1e5, &batch.load, error) ||
        !request_number(request, "swap", true, 0, 1e5, &batch.swap, error) ||
        !read_cuts(request_text(request, "cut"), &batch, error) ||
        !request_count(request, "plates", false, 1, BATCH_PLATES_MOST, &batch.plates, error) ||
        !request_count(request, "parts", false, 1, 1000, &batch.parts, error) ||
        !request_number(request, "shift", false, 0.1, 24, &shift, error) ||
        !batch_work_out(&batch, &result, error))
        return false;
    figure_input_number(figure, "load", FIGURE_TIME, batch.load);
    figure_input_number(figure, "swap", FIGURE_TIME, batch.swap);
    figure_input_text(figure, "cut", request_text(request, "cut"));
    figure_input_number(figure, "plates", FIGURE_NUMBER, batch.plates);
    figure_input_number(figure, "parts", FIGURE_NUMBER, batch.parts);
    figure_put_number(figure, "plates", FIGURE_NUMBER, result.plates_needed);
    figure_put_number(figure, "parts_an_hour", FIGURE_NUMBER, result.parts_an_hour);
    figure_put_number(figure, "parts_a_shift", FIGURE_NUMBER, result.parts_an_hour * shift);
    figure_put_number(figure, "spindle_busy", FIGURE_NUMBER, result.spindle_busy);
    figure_put_number(figure, "maker_busy", FIGURE_NUMBER, result.maker_busy);
    figure_put_text(figure, "waits", result.waits);
    figure->formula =
        "from event to event: change plates where the spindle stands and one is loaded, "
        "else load the next, else wait";
    figure->source = "proved against a step-by-step simulation; no standard";
    return true;
}
