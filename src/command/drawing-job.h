/* drawing-job.h: a plate opened to be drawn: session, lettering and an empty drawing together. */
#pragma once

#include "drawing/view.h"
#include "session/session.h"

typedef struct DrawingJob {
    Session *session;
    Lettering *lettering;
    Drawing *drawing;
    DrawingSource source;
} DrawingJob;

/* False with an error; then there is nothing to close. */
bool drawing_job_open(const char *path, DrawingJob *job, Error *error);
/* The same without lettering and drawing where nothing is to be `drawn`: the lettering's font need
 * not be there then. */
bool drawing_job_open_for(const char *path, bool drawn, DrawingJob *job, Error *error);
void drawing_job_close(DrawingJob *job);
/* Writes the drawing as PDF, or as SVG where the file's name ends in .svg. */
bool drawing_job_write(const DrawingJob *job, const char *to, Error *error);
