/* From a reading with its instrument's code to true sweetness, the same for a lot of sap and for a tree's
 * season. */
#include "domain/plan/sweetness.h"

#include "domain/maths/instrument.h"

#include <math.h>

double
fr_sweetness_brix (const char *instrument, double reading_brix, double sample_c)
{
  FrInstrument which;

  if (isnan (reading_brix))
    return NAN;
  if (g_strcmp0 (instrument, "guess") == 0 || !fr_instrument_from_code (instrument, &which))
    return reading_brix;
  return fr_instrument_correct (which, reading_brix, sample_c).brix;
}
