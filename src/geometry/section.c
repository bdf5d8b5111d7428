/* section.c: where shapes are cut by a line and by each other. */
#include "geometry/section.h"

#include "geometry/border.h"

/* The search for the first crossing of a line behind a way along it. */
typedef struct Next {
    Side line;
    double length, after, found;
} Next;

static bool look_for_next(const Side *side, void *data)
{
    Next *next = data;
    Point crossings[2];
    int count = side_crossings(&next->line, side, crossings);
    for (int i = 0; i < count; i++) {
        double way = point_dot(point_minus(crossings[i], next->line.a), side_along(&next->line)) /
                     next->length;
        if (way > next->after && way < next->found) {
            next->found = way;
        }
    }
    return true;
}

size_t shape_section(const Shape *shape, Point from, Point to, Stretch *stretches, size_t room)
{
    Next next = {.line = side_line(from, to), .length = point_distance(from, to)};
    if (!(next.length > 0)) {
        return 0;
    }
    Point unit = point_times(point_minus(to, from), 1 / next.length);
    Box box = side_box(&next.line);
    size_t count = 0;
    bool inside = false;
    for (double way = 0; next.length - way > TOUCH; way = next.found) {
        next.after = way + TOUCH;
        next.found = next.length;
        border_each_side(shape, box, look_for_next, &next);
        /* Between two crossings all is inside or nothing is. */
        bool now =
            shape_contains(shape, point_plus(from, point_times(unit, (way + next.found) / 2)));
        if (now && !inside) {
            count++;
        }
        if (now && count <= room) {
            stretches[count - 1] = (Stretch){inside ? stretches[count - 1].start : way, next.found};
        }
        inside = now;
    }
    return count;
}

typedef struct Meeting {
    const Side *side;
    const Shape *other;
    Point *places;
    size_t room, count;
} Meeting;

static bool meet_side(const Side *side, void *data)
{
    Meeting *meeting = data;
    Point crossings[2];
    int count = side_crossings(meeting->side, side, crossings);
    for (int i = 0; i < count; i++) {
        bool known = false;
        for (size_t j = 0; j < meeting->count && j < meeting->room; j++) {
            known = known || point_distance(meeting->places[j], crossings[i]) <= 10 * TOUCH;
        }
        if (!known) {
            if (meeting->count < meeting->room) {
                meeting->places[meeting->count] = crossings[i];
            }
            meeting->count++;
        }
    }
    return true;
}

static bool meet_other(const Side *side, void *data)
{
    Meeting *meeting = data;
    meeting->side = side;
    return border_each_side(meeting->other, box_grown(side_box(side), TOUCH), meet_side, meeting);
}

size_t shape_crossings(const Shape *a, const Shape *b, Point *places, size_t room)
{
    Meeting meeting = {.other = b, .places = places, .room = room};
    Box box_a = box_grown(shape_loose_box(a), TOUCH), box_b = box_grown(shape_loose_box(b), TOUCH);
    if (box_meets(box_a, box_b)) {
        border_each_side(a, box_b, meet_other, &meeting);
    }
    return meeting.count;
}
