/* parts.c: the parts into which one shape's border cuts another's. */
#include "geometry/parts.h"

#include "geometry/border.h"

typedef struct Cutting {
    const Shape *by;
    double turn; /* -1 where one of both is turned over, so that its border runs the other way */
    bool (*use)(const Part *part, void *data);
    void *data;
    /* Of the side and the part being looked at. */
    const Side *side;
    double after, found;
    Part part;
} Cutting;

static bool look_for_meeting(const Side *other, void *data)
{
    Cutting *cutting = data;
    Point crossings[2];
    int count = side_crossings(cutting->side, other, crossings);
    for (int i = 0; i < count; i++) {
        double way = side_way(cutting->side, crossings[i]);
        if (way > cutting->after && way < cutting->found) {
            cutting->found = way;
        }
    }
    return true;
}

static bool look_how_it_lies(const Side *other, void *data)
{
    Cutting *cutting = data;
    Point middle = cutting->part.middle, q;
    if (side_nearest_point(other, middle, &q) <= TOUCH * TOUCH) {
        Point own = side_direction_at(cutting->side, middle);
        double same = point_dot(own, side_direction_at(other, q)) * cutting->turn;
        cutting->part.lie = same > 0 ? PART_SAME : PART_OTHER;
    }
    return true;
}

static bool cut_side(const Side *side, void *data)
{
    Cutting *cutting = data;
    cutting->side = side;
    Box box = box_grown(side_box(side), TOUCH);
    double end = side_way_end(side), start = 0;
    /* Parts shorter than this, as way, are passed over. */
    double least = 4 * TOUCH / greater_of(TOUCH, side_length(side)) * end;
    while (end - start > least) {
        cutting->after = start + least;
        cutting->found = end;
        border_each_side(cutting->by, box, look_for_meeting, cutting);
        Point middle = side_place(side, (start + cutting->found) / 2);
        cutting->part = (Part){middle, PART_APART};
        Box round_it = box_grown(box_with_point(BOX_EMPTY, middle), TOUCH);
        border_each_side(cutting->by, round_it, look_how_it_lies, cutting);
        if (!cutting->use(&cutting->part, cutting->data)) {
            return false;
        }
        start = cutting->found;
    }
    return true;
}

static bool runs_backwards(const Shape *shape)
{
    return shape->core == CORE_OUTLINE && shape->pose.turned_over;
}

void parts_each(const Shape *cut, const Shape *by, bool (*use)(const Part *part, void *data),
                void *data)
{
    Cutting cutting = {
        .by = by,
        .turn = runs_backwards(cut) != runs_backwards(by) ? -1 : 1,
        .use = use,
        .data = data,
    };
    border_each_side(cut, box_grown(shape_loose_box(cut), TOUCH), cut_side, &cutting);
}
