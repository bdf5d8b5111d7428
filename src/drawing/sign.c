#include "drawing/sign.h"

#include <stddef.h>

/* Every sign stands `SIDE` from what comes before and after it. */
#define SIDE 0.15

#define STROKE(of, shut)                     \
    {                                        \
        of, sizeof(of) / sizeof(*(of)), shut \
    }

/* Diameter: a circle of one letter height, its slash leaning 60 degrees and 1.5 heights tall. */
#define SLASH 0.4330127 /* half of 1.5 / tan(60) */
static const Vertex diameter_circle[] = {{SIDE + 0.5, 0.5, 0.5}};
static const Vertex diameter_slash[] = {{SIDE + 0.5 - SLASH, -0.25, 0},
                                        {SIDE + 0.5 + SLASH, 1.25, 0}};
static const SignStroke diameter[] = {STROKE(diameter_circle, true), STROKE(diameter_slash, false)};

/* Counterbore: two letter heights wide, one tall, open at the top. */
static const Vertex counterbore_path[] = {
    {SIDE, 1, 0}, {SIDE, 0, 0}, {SIDE + 2, 0, 0}, {SIDE + 2, 1, 0}};
static const SignStroke counterbore[] = {STROKE(counterbore_path, false)};

/* Countersink: an angle of 90 degrees, one letter height tall. */
static const Vertex countersink_path[] = {{SIDE, 1, 0}, {SIDE + 1, 0, 0}, {SIDE + 2, 1, 0}};
static const SignStroke countersink[] = {STROKE(countersink_path, false)};

/* Depth: a bar and an arrow below it, one letter height over all. */
static const Vertex depth_bar[] = {{SIDE, 1, 0}, {SIDE + 1, 1, 0}};
static const Vertex depth_shaft[] = {{SIDE + 0.5, 1, 0}, {SIDE + 0.5, 0, 0}};
static const Vertex depth_head[] = {{SIDE + 0.2, 0.5, 0}, {SIDE + 0.5, 0, 0}, {SIDE + 0.8, 0.5, 0}};
static const SignStroke depth[] = {STROKE(depth_bar, false), STROKE(depth_shaft, false),
                                   STROKE(depth_head, false)};

static const Vertex square_path[] = {
    {SIDE, 0, 0}, {SIDE + 1, 0, 0}, {SIDE + 1, 1, 0}, {SIDE, 1, 0}};
static const SignStroke square[] = {STROKE(square_path, true)};

static const Vertex position_circle[] = {{SIDE + 0.7, 0.5, 0.45}};
static const Vertex position_across[] = {{SIDE, 0.5, 0}, {SIDE + 1.4, 0.5, 0}};
static const Vertex position_upright[] = {{SIDE + 0.7, -0.2, 0}, {SIDE + 0.7, 1.2, 0}};
static const SignStroke position[] = {STROKE(position_circle, true), STROKE(position_across, false),
                                      STROKE(position_upright, false)};

static const Vertex squareness_foot[] = {{SIDE, 0, 0}, {SIDE + 1.5, 0, 0}};
static const Vertex squareness_upright[] = {{SIDE + 0.75, 0, 0}, {SIDE + 0.75, 1.2, 0}};
static const SignStroke squareness[] = {STROKE(squareness_foot, false),
                                        STROKE(squareness_upright, false)};

static const Vertex parallel_first[] = {{SIDE, 0, 0}, {SIDE + 0.6, 1, 0}};
static const Vertex parallel_second[] = {{SIDE + 0.5, 0, 0}, {SIDE + 1.1, 1, 0}};
static const SignStroke parallel[] = {STROKE(parallel_first, false),
                                      STROKE(parallel_second, false)};

static const Vertex flatness_path[] = {
    {SIDE, 0.1, 0}, {SIDE + 1.2, 0.1, 0}, {SIDE + 1.7, 0.9, 0}, {SIDE + 0.5, 0.9, 0}};
static const SignStroke flatness[] = {STROKE(flatness_path, true)};

/* Angularity: 30 degrees between its legs. */
static const Vertex angularity_path[] = {{SIDE + 1.5, 0.866, 0}, {SIDE, 0, 0}, {SIDE + 1.5, 0, 0}};
static const SignStroke angularity[] = {STROKE(angularity_path, false)};

#define STROKES(of) of, sizeof(of) / sizeof(*(of))

static const Sign signs[] = {
    {0x2300, 1 + 2 * SIDE, 1.25, -0.25, STROKES(diameter)},
    {0x2334, 2 + 2 * SIDE, 1, 0, STROKES(counterbore)},
    {0x2335, 2 + 2 * SIDE, 1, 0, STROKES(countersink)},
    {0x21A7, 1 + 2 * SIDE, 1, 0, STROKES(depth)},
    {0x25A1, 1 + 2 * SIDE, 1, 0, STROKES(square)},
    {0x2316, 1.4 + 2 * SIDE, 1.2, -0.2, STROKES(position)},
    {0x27C2, 1.5 + 2 * SIDE, 1.2, 0, STROKES(squareness)},
    {0x2225, 1.1 + 2 * SIDE, 1, 0, STROKES(parallel)},
    {0x23E5, 1.7 + 2 * SIDE, 0.9, 0.1, STROKES(flatness)},
    {0x2220, 1.5 + 2 * SIDE, 0.866, 0, STROKES(angularity)},
};

const Sign *sign_find(uint32_t character)
{
    if (character < 0x2000) /* most characters are none; say so at once */
        return NULL;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        if (signs[i].character == character)
            return &signs[i];
    }
    return NULL;
}
