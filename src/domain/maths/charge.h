/* The charge: how much may go into the bucket so that the pan still cuts off in time and not past the ceiling. */
#pragma once

#include "domain/maths/boil-run.h"

G_BEGIN_DECLS

typedef enum
{
  FR_LIMIT_TIME,     /* the cut-off would come later than after_s */
  FR_LIMIT_BRIX,     /* what is left would be thicker than the ceiling */
  FR_LIMIT_CAPACITY, /* the bucket holds no more */
  FR_LIMIT_SAP,      /* there is no more sap (only set by a plan) */
  FR_LIMIT_NONE,
  FR_N_LIMITS
} FrLimit;

typedef struct
{
  double feed_l;      /* the largest charge; 0 when even none fails */
  FrLimit limited_by;
  FrLimit next;       /* the limit that would bind if this one were lifted, or FR_LIMIT_NONE */
  double next_l;      /* and the charge it allows */
  gboolean feasible;  /* FALSE: 0 L fails too */
  FrBoilRun run;      /* the run with feed_l; clear it */
} FrCharge;

/**
 * fr_charge:
 * @boil: the boil; its feed_l is ignored, cutoff_l is needed and below hold_l, after_s is the latest cut-off or NAN,
 *   stop_brix is a ceiling on what is left (no stop), or NAN: then FR_DRY_LIMIT_BRIX
 * @capacity_l: of the bucket, or NAN
 * @want_trace: keep the trace of the run
 * @charge_out: the answer
 *
 * The limits are solved one by one: the sugar at the ceiling and cut-off volume gives one charge outright, the time another
 * by root finding over runs; the smallest binds.
 *
 * Returns: FR_BOIL_BAD_INPUT also when cutoff_l is absent or not below hold_l.
 */
FrBoilStatus fr_charge (const FrBoil *boil, double capacity_l, gboolean want_trace, FrCharge *charge_out);

const char *fr_limit_code (FrLimit limit);

G_END_DECLS
