/* detail-size.h: threads and hardware typed by standard and size, which set their other figures. */
#pragma once

#include "plate/plate.h"

/* `taken_as` has TYPED_TAKEN_AS bytes. False with an error for a size that no table has. */
gboolean detail_read_thread(Step *step, const char *text, char *taken_as, Error *error);
gboolean detail_read_size(const Plate *plate, Fitting *fitting, const char *text, char *taken_as,
                          Error *error);
