#include "checks/clamp-contact.h"

#include "placed/placed-seat.h"

#define TOUCHING 1e-9
#define STEPS_TO_TOUCH 256

Shape shape_moved(const Shape *shape, Point way, double by)
{
    Shape moved = *shape;
    moved.pose.x += way.x * by;
    moved.pose.y += way.y * by;
    return moved;
}

/* Whatever the way, the shape can go as far as the gap is wide: many such steps end at the touch.
 */
double way_to_touch(const Shape *moving, Point way, const Shape *other, double most)
{
    double gone = 0;
    for (int i = 0; i < STEPS_TO_TOUCH && gone <= most; i++) {
        Gap gap;
        Shape moved = shape_moved(moving, way, gone);
        shape_gap(&moved, other, &gap);
        if (gap.distance <= TOUCHING)
            return gone;
        gone += gap.distance;
    }
    return INFINITY;
}

static Shape front_of(const Feature *clamp, Point way, double length, double width)
{
    Pose pose = clamp->shape.pose;
    Pose across = {pose.x + way.x * length / 2, pose.y + way.y * length / 2, -way.y, way.x, false};
    return (Shape){CORE_SEGMENT, across, 0, width / 2, 0, NULL};
}

typedef struct Search {
    const Placed *placed;
    ClampContact *contact;
} Search;

/* From the back of the body, so that a blank the body reaches into is met too. */
static double distance_to(const ClampContact *contact, const Shape *blank)
{
    double length = length_to_mm(contact->fitting->length);
    Shape back = shape_moved(&contact->jaw, contact->way, -length);
    return way_to_touch(&back, contact->way, blank, length + CLAMP_REACH) - length;
}

static bool try_part(const Feature *feature, void *data)
{
    Search *search = data;
    ClampContact *contact = search->contact;
    if (feature->kind != FEATURE_PART || feature->face != contact->clamp->face)
        return true;
    const Shape *blank = feature->has_blank ? &feature->blank : &feature->shape;
    double distance = distance_to(contact, blank);
    bool nearer = distance < contact->distance || (distance == contact->distance && contact->part &&
                                                   feature->id < contact->part->id);
    if (!isinf(distance) && nearer) {
        contact->distance = distance;
        contact->part = feature;
        contact->blank = *blank;
    }
    return true;
}

static double blank_thickness(const Placed *placed, const Feature *station)
{
    const Record *record = placed_record(placed, station->id);
    const Record *part = placed_record(placed, record->station.part);
    if (!part || part->kind != RECORD_PART)
        return 0;
    bool own = station->has_blank && part->part.blank.thickness > 0;
    return length_to_mm(own ? part->part.blank.thickness : part->part.thickness);
}

/* From the other side back to the blank. */
static double width_across(const ClampContact *contact)
{
    Box box = shape_box(&contact->blank);
    double beyond = hypot(box.x1 - box.x0, box.y1 - box.y0) + 1;
    Shape far = shape_moved(&contact->jaw, contact->way, contact->distance + beyond);
    return beyond - way_to_touch(&far, point_times(contact->way, -1), &contact->blank, beyond);
}

static void find_blank(const Placed *placed, ClampContact *contact)
{
    Search search = {placed, contact};
    Shape ahead = shape_moved(&contact->jaw, contact->way, CLAMP_REACH);
    Box box = box_union(contact->clamp->box, shape_box(&ahead));
    const Feature *own =
        contact->fitting->station ? placed_find(placed, contact->fitting->station) : NULL;
    if (own)
        try_part(own, &search);
    else
        placed_each_near(placed, contact->clamp->face, box, try_part, &search);
    if (!contact->part)
        return;
    contact->across = width_across(contact);
    contact->seat = placed_seat(placed, contact->part->id);
    contact->top = blank_thickness(placed, contact->part) - contact->seat;
}

bool clamp_contact(const Placed *placed, const Feature *clamp, ClampContact *contact)
{
    if (clamp->kind != FEATURE_FITTING)
        return false;
    const Fitting *fitting = &placed_record(placed, clamp->id)->fitting;
    if (fitting->kind != FITTING_EDGE_CLAMP || fitting->length <= 0 || fitting->width <= 0)
        return false;
    *contact = (ClampContact){.clamp = clamp, .fitting = fitting, .distance = INFINITY};
    contact->way = pose_direction(clamp->shape.pose, (Point){1, 0});
    contact->jaw =
        front_of(clamp, contact->way, length_to_mm(fitting->length), length_to_mm(fitting->width));
    find_blank(placed, contact);
    return true;
}

typedef struct Each {
    RuleContext *context;
    ClampCheck check;
} Each;

static bool visit(const Feature *feature, void *data)
{
    const Each *each = data;
    ClampContact contact;
    if (clamp_contact(each->context->placed, feature, &contact))
        each->check(each->context, &contact);
    return true;
}

void each_clamp(RuleContext *context, ClampCheck check)
{
    Each each = {context, check};
    placed_each(context->placed, visit, &each);
}

Finding *clamp_report(RuleContext *context, int which, const ClampContact *contact, double value,
                      double limit)
{
    Finding *finding = rule_report(context, which, contact->clamp, contact->part, value, limit);
    Point jaw = {contact->jaw.pose.x, contact->jaw.pose.y};
    if (contact->part)
        rule_report_between(finding, jaw,
                            point_plus(jaw, point_times(contact->way, contact->distance)));
    return finding;
}
