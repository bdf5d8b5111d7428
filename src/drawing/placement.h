/* placement.h: finds places for texts where they meet no line, no feature and no other text.
 *
 * First everything that is in the way is added, then texts are asked for one after the other, each
 * placed text being in the way of the next. The same questions in the same order get the same
 * answers. All mm on the sheet.
 */
#pragma once

#include "drawing/drawing.h"

typedef struct Placement Placement;

Placement *placement_new(void);
void placement_free(Placement *placement);
void placement_clear(Placement *placement);

/* Only places inside `area` are given. */
void placement_set_area(Placement *placement, Box area);

/* What is in the way. A disc is full, a circle is a line that a text may stand in. */
void placement_add_segment(Placement *placement, Point from, Point to);
void placement_add_arc(Placement *placement, Vertex from, Point to);
void placement_add_circle(Placement *placement, Point centre, double radius);
void placement_add_disc(Placement *placement, Point centre, double radius);
/* A box that nothing may stand in, and no leader may cross. */
void placement_add_box(Placement *placement, Box box);
/* All strokes of a drawing's marks from `first` on as lines, and its texts as boxes. No leader
 * crosses what belongs to a feature, a dimension or another leader. */
void placement_add_marks(Placement *placement, const Drawing *drawing, size_t first, size_t count);

/* True when a text of that box meets nothing. */
bool placement_box_is_free(const Placement *placement, Box box);
/* A text that wants a place beside the circle of `radius` about `centre`. */
typedef struct LabelRequest {
    Point centre;
    double radius;
    double width, height;   /* of the text, from its baseline to its capitals' top */
    bool inside;            /* an area's label: never beside the centre */
    bool at_leader;         /* never close to its circle */
    bool either_side;       /* the text may go on the side of the knee that is nearer the circle */
    const uint32_t *around; /* features whose outlines its leader may cross: its own and those that
                               it stands in; borrowed */
    size_t around_count;
    const Point *tips; /* of an area: where its leader may begin; borrowed */
    size_t tip_count;
    const Point *spots; /* middles for the text within the area, the best first; borrowed */
    size_t spot_count;
} LabelRequest;

typedef struct LabelPlace {
    bool found;
    Box box;     /* of the text */
    bool leader; /* it stands away from the feature, at the end of a leader */
    Point knee;  /* where the leader turns level; its text follows as dimension_leader has it */
    bool right;  /* the text stands right of the knee */
    Point tip;   /* where the leader begins */
} LabelPlace;

/* The place at the leader that disturbs least, and how much that is, in steps of a leader's length;
 * false where there is none. Nothing is taken. */
bool placement_find_leader(const Placement *placement, const LabelRequest *request,
                           LabelPlace *place, double *cost);
/* Takes a place that was found. */
void placement_take(Placement *placement, const LabelPlace *place);

/* Finds places for all texts together and takes them: close to each circle on one of eight sides,
 * or else at a leader that crosses as little as can be. Where some find none the whole is tried
 * again with those first, a few times. Returns how many found none. */
size_t placement_labels(Placement *placement, const LabelRequest *requests, size_t count,
                        LabelPlace *places);

/* Moves `count` rising positions as little as can be (sum of squares) so that each lies at least
 * `pitch` from the next and all lie between `low` and `high`; where they can't, they are spread
 * evenly over the room there is and false is returned. */
bool placement_spread(double *positions, size_t count, double pitch, double low, double high);
