/* The largest charge. Both limits grow with the charge: more sap takes longer and brings more sugar to the
 * same cut-off volume, so each has one crossing. Accuracy: 1e-9 of the charge, on the safe side. */
#include "domain/maths/charge.h"

#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"

#include <math.h>
#include <string.h>

#define CHARGE_MAX_L 50000.0
#define NEVER_S 1e9
#define SAFE_SIDE (1 - 2e-9)

static const char *const limit_codes[FR_N_LIMITS] = { "time", "brix", "capacity", "sap", "none" };

const char *
fr_limit_code (FrLimit limit)
{
  g_return_val_if_fail ((guint)limit < FR_N_LIMITS, NULL);
  return limit_codes[limit];
}

typedef struct
{
  FrBoil boil;
  double after_s;
} Late;

/* Seconds past the latest cut-off; a boil that never ends is very late. */
static double
lateness (double feed_l, gpointer data)
{
  Late *late = data;
  FrBoilRun run;

  late->boil.feed_l = feed_l;
  if (fr_boil_run (&late->boil, FALSE, &run) != FR_BOIL_OK)
    return NAN;
  return run.ended_by == FR_END_NEVER_BOILS ? NEVER_S : run.time_s - late->after_s;
}

/* The least charge that can be followed: none, or what covers the bottom of a pan that stands empty. */
static double
least_charge (const FrBoil *boil)
{
  if (boil->feed_kind != FR_FEED_LEVEL || !(boil->start_l >= 0) || boil->start_l >= FR_DRY_LIMIT_L)
    return 0;
  return FR_DRY_LIMIT_L - boil->start_l;
}

static double
charge_by_time (const FrBoil *boil)
{
  Late late = { *boil, boil->after_s };
  double lo = least_charge (boil), hi, feed_l, value;

  late.boil.after_s = NAN;
  if (isnan (boil->after_s))
    {
      /* Any time will do, but what never boils never cuts off. */
      late.after_s = 0;
      value = lateness (lo, &late);
      return value < NEVER_S ? INFINITY : isnan (value) ? NAN : -1;
    }
  if (!(lateness (lo, &late) <= 0))
    return -1;
  /* What the bare power could boil off in that time, as a first guess. */
  hi = CLAMP (1.1 * boil->power_w * boil->heat_ratio * boil->after_s / 2.5e6, lo + 0.1, CHARGE_MAX_L);
  while ((value = lateness (hi, &late)) <= 0)
    {
      if (hi >= CHARGE_MAX_L)
        return INFINITY;
      lo = hi;
      hi = MIN (2 * hi, CHARGE_MAX_L);
    }
  if (!fr_solve_root (lateness, &late, lo, hi, 1e-10 * hi, &feed_l))
    return NAN;
  return feed_l * SAFE_SIDE;
}

static double
charge_by_brix (const FrBoil *boil, double ceiling_brix)
{
  double boil_c = fr_boil_table_temp_c (boil->table, ceiling_brix, NULL);
  double allowed_kg = 1e-5 * boil->cutoff_l * fr_sucrose_density_kg_m3 (ceiling_brix, boil_c) * ceiling_brix;
  double start_kg
      = 1e-5 * boil->start_l * fr_sucrose_density_kg_m3 (boil->start_brix, boil->start_c) * boil->start_brix;
  double per_l = 1e-5 * fr_sucrose_density_kg_m3 (boil->feed_brix, boil->feed_c) * boil->feed_brix;

  if (allowed_kg < start_kg)
    return -1;
  return per_l > 0 ? (allowed_kg - start_kg) / per_l * SAFE_SIDE : INFINITY;
}

FrBoilStatus
fr_charge (const FrBoil *boil, double capacity_l, gboolean want_trace, FrCharge *charge_out)
{
  FrBoil last = *boil;
  FrBoilFault fault;
  double allowed_l[3];
  FrBoilStatus status;

  memset (charge_out, 0, sizeof *charge_out);
  charge_out->next = FR_LIMIT_NONE;
  charge_out->next_l = NAN;
  last.feed_l = least_charge (boil);
  last.stop_brix = NAN;
  if (!fr_boil_check (&last, &fault) || !(boil->cutoff_l > 0)
      || (boil->feed_kind == FR_FEED_LEVEL && !(boil->cutoff_l < boil->hold_l)))
    return FR_BOIL_BAD_INPUT;

  allowed_l[FR_LIMIT_TIME] = charge_by_time (&last);
  allowed_l[FR_LIMIT_BRIX] = charge_by_brix (
      boil, isnan (boil->stop_brix) ? FR_DRY_LIMIT_BRIX : MIN (boil->stop_brix, FR_DRY_LIMIT_BRIX));
  allowed_l[FR_LIMIT_CAPACITY] = isnan (capacity_l) ? INFINITY : capacity_l;
  if (isnan (allowed_l[FR_LIMIT_TIME]) || isnan (allowed_l[FR_LIMIT_BRIX]))
    return FR_BOIL_NO_SOLUTION;

  charge_out->limited_by = FR_LIMIT_TIME;
  for (FrLimit limit = FR_LIMIT_TIME; limit <= FR_LIMIT_CAPACITY; limit++)
    if (allowed_l[limit] < allowed_l[charge_out->limited_by])
      charge_out->limited_by = limit;
  for (FrLimit limit = FR_LIMIT_TIME; limit <= FR_LIMIT_CAPACITY; limit++)
    if (limit != charge_out->limited_by && isfinite (allowed_l[limit])
        && (charge_out->next == FR_LIMIT_NONE || allowed_l[limit] < charge_out->next_l))
      {
        charge_out->next = limit;
        charge_out->next_l = MAX (0, allowed_l[limit]);
      }
  if (isinf (allowed_l[charge_out->limited_by]))
    return FR_BOIL_BAD_INPUT;
  charge_out->feasible = allowed_l[charge_out->limited_by] >= least_charge (boil);
  charge_out->feed_l = charge_out->feasible ? allowed_l[charge_out->limited_by] : 0;
  last.feed_l = MAX (charge_out->feed_l, least_charge (boil));
  status = fr_boil_run (&last, want_trace, &charge_out->run);
  if (charge_out->run.ended_by == FR_END_NEVER_BOILS)
    {
      /* No other limit would let it through. */
      charge_out->next = FR_LIMIT_NONE;
      charge_out->next_l = NAN;
    }
  return status;
}
