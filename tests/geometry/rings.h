/* rings.h: outlines for tests, from plain arrays. */
#pragma once

#include "geometry/outline.h"

#include <stddef.h>

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* An outline of one ring; NULL with the error when it means nothing. */
static inline Outline *ring_outline(const Vertex *vertices, size_t count, Error *error)
{
    const size_t starts[] = {0, count};
    return outline_new(vertices, starts, 1, error);
}

#define RING(error, ...) \
    ring_outline((const Vertex[]){__VA_ARGS__}, COUNT(((const Vertex[]){__VA_ARGS__})), (error))
