/* svg-document.h: an SVG file's elements, read with nothing fetched and nothing expanded. */
#pragma once

#include "geometry/error.h"

#include <libxml/tree.h>
#include <stddef.h>

/* Reads the bytes; keeps elements and attributes alone. The root is an <svg>. NULL with an error
 * whose place is the line, also where a limit of outline-svg.h is passed. Free with
 * svg_document_free. */
xmlDoc *svg_document_read(const char *bytes, size_t size, Error *error);
void svg_document_free(xmlDoc *document);

/* The line that an element stands on. */
long svg_line(const xmlNode *node);

/* An attribute without a name space, or NULL. Free with xmlFree. */
char *svg_attribute(const xmlNode *node, const char *name);

/* A property that the element's style attribute sets, or NULL. Free with g_free. */
char *svg_style(const xmlNode *node, const char *name);

/* A property, from the element's style or else from its attribute of that name. Free with g_free.
 */
char *svg_property(const xmlNode *node, const char *name);

/* True when the element is SVG's (not a drawing program's own). */
bool svg_is_element(const xmlNode *node);
