/* rack-maker.h: a generated folder of plates, some of which take a part by construction. */
#pragma once

#include "plate/plate-file.h"

typedef struct RackMaker {
    uint32_t plates, holes; /* how many plates, and holes on each */
    uint32_t plants;        /* plates that the part fits as they stand */
    double screws; /* of the random holes tapped for the part's two screws, the share that is kept:
                      by chance some lie where the part's do, which more holes could make use of */
    uint32_t seed;
} RackMaker;

/* The part: a bar with four holes, two of which a shoulder screw locates in and two of which a
 * screw goes through. */
Record *rack_maker_part(void);
/* Writes plate-00000.plate and so on; every (plates / plants)-th one, from the first, takes the
 * part as it stands: its four holes lie where the part's are, each within half of its play. All
 * other holes have the same threads and reamed sizes as these and others, at random places. */
bool rack_maker_write(const char *folder, const RackMaker *maker);
bool rack_maker_is_plant(const RackMaker *maker, uint32_t plate);
/* Takes the folder and the plates in it away. */
void rack_maker_remove(const char *folder);
