/* plate-file.h: plates and parts as files. */
#pragma once

#include "plate/plate.h"
#include "plate/save.h"

#define PLATE_FORMAT "pinplate-plate"
#define PART_FORMAT "pinplate-part"
#define FILE_VERSION 1

/* The plate as its file has it, ending with a line end; the same plate gives the same bytes always.
 * Free with g_free. */
char *plate_text(const Plate *plate, size_t *size);
/* NULL with an error whose place names the line or the record and field. */
Plate *plate_parse(const char *bytes, size_t size, Error *error);

Plate *plate_read(const char *path, FileStamp *stamp, Error *error);
bool plate_save(const Plate *plate, const char *path, FileStamp *stamp, Error *error);

/* A part alone; its record's number means nothing. Release with record_unref. */
char *part_text(const Part *part, size_t *size);
Record *part_parse(const char *bytes, size_t size, Error *error);
Record *part_read(const char *path, Error *error);
bool part_save(const Part *part, const char *path, Error *error);
