/* What a household circuit carries for a whole night.
 *
 * Source of the 80 % rule: NEC (US) article 100 (continuous: three hours or more) and 210.20(A) (breaker at
 * least 125 % of the continuous load), from memory; 210.23(A)(1), one cord-and-plug appliance at most 80 % of
 * a 15 or 20 A circuit, as discussed in trade press 2012; CEC (Canada) 8-104 says the same, from memory.
 * Elsewhere it is caution, not law. Current is power over voltage, since the loads are heating elements
 * (power factor 1). */
#include "domain/maths/circuit.h"

#include <math.h>

#define ROUNDING 1e-9 /* 1,440 W on 15 A and 120 V is exactly all, not over */

double
fr_circuit_allowed_w (double breaker_a, double volts_v)
{
  if (!(breaker_a > 0 && isfinite (breaker_a)) || !(volts_v > 0 && isfinite (volts_v)))
    return NAN;
  return breaker_a * FR_CIRCUIT_CONTINUOUS_RATIO * volts_v;
}

double
fr_circuit_power_at_volts_w (double rated_w, double rated_v, double volts_v)
{
  if (!(rated_w >= 0) || !(rated_v > 0) || !(volts_v >= 0))
    return NAN;
  return rated_w * (volts_v / rated_v) * (volts_v / rated_v);
}

/* Adds a load if it is known; FALSE when it is not, or makes no sense. */
static gboolean
add_load (double *sum_w, double load_w)
{
  if (!(load_w >= 0 && isfinite (load_w)))
    return FALSE;
  *sum_w += load_w;
  return TRUE;
}

FrCircuitLoad
fr_circuit_load (double breaker_a, double volts_v, const double *loads_w, guint n_loads, double other_load_w)
{
  FrCircuitLoad load = { FR_CIRCUIT_UNKNOWN, NAN, NAN, NAN };
  const double allowed_w = fr_circuit_allowed_w (breaker_a, volts_v);
  double sum_w = 0;
  gboolean complete;

  g_return_val_if_fail (loads_w != NULL || n_loads == 0, load);

  complete = add_load (&sum_w, other_load_w);
  for (guint i = 0; i < n_loads; i++)
    complete = add_load (&sum_w, loads_w[i]) && complete;
  if (breaker_a > 0 && isfinite (breaker_a))
    load.allowed_a = breaker_a * FR_CIRCUIT_CONTINUOUS_RATIO;
  if (volts_v > 0 && isfinite (volts_v))
    load.used_a = sum_w / volts_v;
  if (isnan (allowed_w))
    return load;

  load.load_ratio = sum_w / allowed_w;
  if (load.load_ratio > 1 + ROUNDING)
    load.code = FR_CIRCUIT_OVER; /* what is not known could only add to it */
  else if (!complete)
    load.code = FR_CIRCUIT_UNKNOWN;
  else if (load.load_ratio > FR_CIRCUIT_NEAR_RATIO + ROUNDING)
    load.code = FR_CIRCUIT_NEAR;
  else
    load.code = FR_CIRCUIT_OK;
  return load;
}
