#include "command/drawing-job.h"

#include "drawing/pdf.h"
#include "drawing/svg.h"

#include <glib.h>

bool drawing_job_open(const char *path, DrawingJob *job, Error *error)
{
    return drawing_job_open_for(path, true, job, error);
}

bool drawing_job_open_for(const char *path, bool drawn, DrawingJob *job, Error *error)
{
    *job = (DrawingJob){.session = session_open(path, error)};
    if (!job->session)
        return false;
    job->source = (DrawingSource){session_plate(job->session), session_placed(job->session)};
    if (!drawn)
        return true;
    job->lettering = lettering_new(error);
    if (!job->lettering) {
        session_free(job->session);
        return false;
    }
    job->drawing = drawing_new(job->lettering);
    return true;
}

void drawing_job_close(DrawingJob *job)
{
    drawing_free(job->drawing);
    lettering_unref(job->lettering);
    session_free(job->session);
}

bool drawing_job_write(const DrawingJob *job, const char *to, Error *error)
{
    return g_str_has_suffix(to, ".svg") ? svg_write(job->drawing, to, error)
                                        : pdf_write(job->drawing, to, error);
}
