/* refit-search.h: a refit's search beside the window, so that the window goes on. It works on a
 * copy of the plate; its answers are data that hold for the plate itself as long as that is the
 * same. */
#pragma once

#include "refit/refit.h"

typedef struct RefitSearch RefitSearch;

/* Called from the main loop once the search is over or was stopped. */
typedef void (*RefitSearched)(RefitSearch *search, void *data);

/* Begins a search for places of a part, or with `replace` for one at that station. */
RefitSearch *refit_search_begin(const Plate *plate, const Part *part, FeatureId replace,
                                RefitSearched done, void *data);
/* From 0 to 1. */
double refit_search_progress(RefitSearch *search);
/* Whether it was told to end before it had looked everywhere. */
bool refit_search_was_stopped(RefitSearch *search);
/* Ends it soon, with the answers it has. */
void refit_search_stop(RefitSearch *search);
/* The answers, on the copy; once it is over. */
Refit *refit_search_answers(RefitSearch *search);
/* May be called at any time; then nothing is called any more. */
void refit_search_release(RefitSearch *search);
