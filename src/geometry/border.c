/* border.c: the border of a shape, as sides on the face. */
#include "geometry/border.h"

#include "geometry/grown.h"

/* What a border is told to, from the outline's coordinates to the face's. */
typedef struct Teller {
    const Shape *shape;
    Grown grown;
    bool (*use)(const Side *side, void *data);
    void *data;
    bool goes_on;
} Teller;

static bool tell_stretch(const Side *stretch, void *data)
{
    Teller *teller = data;
    Side side = side_posed(stretch, teller->shape->pose);
    teller->goes_on = teller->use(&side, teller->data);
    return teller->goes_on;
}

static bool tell_side(size_t index, void *data)
{
    Teller *teller = data;
    Side elements[2];
    int count = grown_elements(&teller->grown, index, elements);
    for (int i = 0; i < count && teller->goes_on; i++) {
        grown_each_stretch(&teller->grown, &elements[i], tell_stretch, teller);
    }
    return teller->goes_on;
}

/* A box of the face as one in the shape's own coordinates. */
static Box own_box(Pose pose, Box box)
{
    Pose back = pose_inverse(pose);
    Box own = BOX_EMPTY;
    for (int i = 0; i < 4; i++) {
        Point corner = {i & 1 ? box.x1 : box.x0, i & 2 ? box.y1 : box.y0};
        own = box_with_point(own, pose_point(back, corner));
    }
    return own;
}

/* The border of a rectangle about the origin, grown; a segment and a point are flat ones. */
static bool tell_rectangle(const Shape *shape, bool (*use)(const Side *side, void *data),
                           void *data)
{
    double x = shape->core == CORE_POINT ? 0 : shape->half_length;
    double y = shape->core == CORE_RECTANGLE ? shape->half_width : 0;
    double g = shape->growth;
    /* Turned over it covers the same, and goes round the same way. */
    Pose pose = shape->pose;
    pose.turned_over = false;
    const Point corners[] = {{x, -y}, {x, y}, {-x, y}, {-x, -y}};
    const Point ways[] = {{0, -g}, {g, 0}, {0, g}, {-g, 0}};
    for (int i = 0; i < 4; i++) {
        int next = (i + 1) % 4;
        Point out = point_plus(corners[i], ways[i]), turned = point_plus(corners[i], ways[next]);
        Point far = point_plus(corners[next], ways[next]);
        if (g > 0) {
            Side arc =
                side_posed(&(Side){.a = out, .b = turned, .centre = corners[i], .radius = g}, pose);
            if (!use(&arc, data)) {
                return false;
            }
        }
        if (point_distance(turned, far) > 0) {
            Side line = side_line(pose_point(pose, turned), pose_point(pose, far));
            if (!use(&line, data)) {
                return false;
            }
        }
    }
    return true;
}

bool border_each_side(const Shape *shape, Box box, bool (*use)(const Side *side, void *data),
                      void *data)
{
    if (shape->core != CORE_OUTLINE) {
        return tell_rectangle(shape, use, data);
    }
    Teller teller = {shape, {shape->outline, shape->growth}, use, data, true};
    Box own = box_grown(own_box(shape->pose, box), shape->growth + TOUCH);
    outline_each_side_near(shape->outline, own, tell_side, &teller);
    return teller.goes_on;
}
