/* tool-order.h: the row of tools that serves every hole with the fewest changes. */
#pragma once

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

/* What one kind of hole needs, tool after tool. */
typedef struct ToolSequence {
    const uint32_t *tools;
    uint32_t count;
} ToolSequence;

/* The shortest row of tools (uint32_t) in which each sequence can be found in its own order, and of
 * the shortest ones the one whose tools come first by number. Where that can't be found in a stated
 * amount of searching (it takes more than a thousand tools, or many kinds of hole that want the
 * same tools in contrary orders) a row that serves, found step by step, with *shortest false. Unref
 * the array. `shortest` may be NULL. */
GArray *tool_order(const ToolSequence *sequences, uint32_t count, uint32_t tool_count,
                   bool *shortest);
