/* obstacles.h: lines, circles and boxes on a sheet, found by where they are. Private to
 * placement.c. */
#pragma once

#include "geometry/box.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum ObstacleKind {
    OBSTACLE_BOX,
    OBSTACLE_LINE,
    OBSTACLE_LEADER, /* a line that no other leader crosses */
    OBSTACLE_CIRCLE, /* a line round its inside */
    OBSTACLE_DISC,
} ObstacleKind;

typedef struct Obstacle {
    ObstacleKind kind;
    Box box;
    Point from, to; /* of a line; `from` is the middle of a circle or disc */
    double radius;
    bool firm;        /* a line or circle that no leader crosses but one from within its feature */
    uint32_t feature; /* 0: none */
} Obstacle;

typedef struct Obstacles Obstacles;

Obstacles *obstacles_new(void);
void obstacles_free(Obstacles *obstacles);

void obstacles_add(Obstacles *obstacles, Obstacle obstacle);
size_t obstacles_count(const Obstacles *obstacles);
/* Takes away all but the first `count`. */
void obstacles_keep(Obstacles *obstacles, size_t count);

/* Visits each obstacle whose box meets `box` once; stops when `visit` returns false, and returns
 * false then. */
typedef bool (*ObstacleVisit)(const Obstacle *obstacle, void *user);
bool obstacles_near(Obstacles *obstacles, Box box, ObstacleVisit visit, void *user);
