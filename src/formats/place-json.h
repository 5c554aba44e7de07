/* The parts that several inputs share: the air pressure of the place and the vessel. */
#pragma once

#include "domain/maths/boil-table.h"
#include "domain/maths/vessel.h"
#include "formats/json-input.h"

G_BEGIN_DECLS

#define FR_ALTITUDE_MIN_M -500.0
#define FR_ALTITUDE_MAX_M 9000.0

/* The keys of the place, for the lists of keys of those who read it. */
#define FR_PLACE_KEYS "altitude_m", "pressure_pa", "sea_level_pa", "water_boils_c"

/* The pressure by the one that says most: water_boils_c, else pressure_pa, else sea_level_pa with altitude_m
 * and air_c, else altitude_m, which is needed unless one of the first two is there. */
gboolean
fr_input_place (const FrInput *input, double air_c, FrBoilTable *table_out);

/* The vessel under "vessel"; FALSE when absent or wrong. */
gboolean
fr_input_vessel (const FrInput *input, FrInputNeed need, FrVessel *vessel_out);

G_END_DECLS
