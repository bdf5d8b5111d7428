/* outline-node.h: one corner of an outline as the model keeps it, exact. */
#pragma once

#include "geometry/length.h"

/* The corner and the side that leaves it; the sagitta is signed as in geometry/outline.h. */
typedef struct OutlineNode {
    Length x, y, sagitta;
} OutlineNode;
