/* pdf.h: a drawing as a PDF file, a page for each sheet. */
#pragma once

#include "drawing/drawing.h"

#include <glib.h>

/* The file's bytes: the same for the same drawing, whatever the date, locale or time zone. Free
 * with g_byte_array_unref. NULL with an error when cairo refuses. */
GByteArray *pdf_bytes(const Drawing *drawing, Error *error);

bool pdf_write(const Drawing *drawing, const char *file, Error *error);
