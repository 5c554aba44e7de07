/* A whole boil from switch-on to its end, with its events and a trace. */
#pragma once

#include "domain/maths/boil.h"

G_BEGIN_DECLS

/* One sampled moment of a run. */
typedef struct
{
  double time_s;
  double volume_l;
  double brix;
  double temp_c;
  double feed_left_l; /* at the feed's own temperature */
  double power_w;
} FrTracePoint;

/**
 * FrBoilRun:
 * What came of it. Times are elapsed seconds, NAN when the thing never happened.
 */
typedef struct
{
  FrEnd ended_by;
  double time_s;
  double boils_s;     /* first boil */
  double feed_dry_s;  /* the bucket ran empty; 0 with no feed at all is NAN */
  double rim_s;       /* level passed the watched rim, foam line, minimum */
  double foam_s;
  double min_s;
  double max_volume_l; /* highest level met */
  double evaporated_kg;
  double fed_kg;
  double left_kg;
  double left_l;
  double left_20c_l;
  double left_brix;
  double left_temp_c;
  double boil_c;        /* what is left boils at this */
  double energy_kwh;    /* at the plug */
  double sugar_in_kg;   /* start and what flowed */
  double sugar_out_kg;
  double water_start_kg;
  double water_fed_kg;
  double water_left_kg;
  gboolean extrapolated; /* a density beyond the published range was used */
  guint n_steps;
  guint n_trace;
  FrTracePoint *trace;   /* only when asked for; free with fr_boil_run_clear */
} FrBoilRun;

typedef enum
{
  FR_BOIL_OK,
  FR_BOIL_BAD_INPUT,   /* a value is not finite or out of range: see fr_boil_check */
  FR_BOIL_NO_SOLUTION  /* the run cannot be followed; not known to happen */
} FrBoilStatus;

/* Follows @boil to its end. With @want_trace a point at least every five minutes is kept. */
FrBoilStatus fr_boil_run (const FrBoil *boil, gboolean want_trace, FrBoilRun *run_out);
void fr_boil_run_clear (FrBoilRun *run);

/* The trace at a time between its points (linear). */
FrTracePoint fr_boil_run_at (const FrBoilRun *run, double time_s);

/* Which member is out of range, with the range allowed; NULL when all are well. */
typedef struct
{
  const char *name; /* member of FrBoil */
  double value;
  double min;
  double max;
} FrBoilFault;

gboolean fr_boil_check (const FrBoil *boil, FrBoilFault *fault_out);

G_END_DECLS
