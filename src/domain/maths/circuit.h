/* What a household circuit carries for a whole night.
 *
 * A load that runs three hours or more is continuous and may take 80 % of the breaker's rating. Everything given counts as
 * running all the time. A rule of wiring codes, not a judgement of the wires: see circuit.c. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_CIRCUIT_CONTINUOUS_RATIO 0.8
#define FR_CIRCUIT_NEAR_RATIO 0.95

typedef enum
{
  FR_CIRCUIT_OK,
  FR_CIRCUIT_NEAR,   /* over 95 % of what is allowed, to exactly all of it */
  FR_CIRCUIT_OVER,
  FR_CIRCUIT_UNKNOWN /* something is not known, and what is known is not over by itself */
} FrCircuitCode;

/**
 * FrCircuitLoad:
 * @code: the verdict
 * @used_a: current of all known loads
 * @allowed_a: 80 % of the breaker, NAN when that is unknown
 * @load_ratio: used over allowed
 */
typedef struct
{
  FrCircuitCode code;
  double used_a;
  double allowed_a;
  double load_ratio;
} FrCircuitLoad;

/**
 * fr_circuit_load:
 * @breaker_a: rating of the breaker, over 0; NAN unknown
 * @volts_v: over 0; NAN unknown
 * @loads_w: rated power of each appliance on the circuit, 0 or more; NAN unknown
 * @n_loads: how many
 * @other_load_w: whatever else draws on it, 0 for nothing; NAN unknown
 */
FrCircuitLoad fr_circuit_load (double breaker_a, double volts_v, const double *loads_w, guint n_loads,
                               double other_load_w);

/* Most power for a night, W; NAN when an argument is unknown or not over 0. */
double fr_circuit_allowed_w (double breaker_a, double volts_v);

/* What a heating element made for one voltage takes at another (its resistance stays), W. */
double fr_circuit_power_at_volts_w (double rated_w, double rated_v, double volts_v);

G_END_DECLS
