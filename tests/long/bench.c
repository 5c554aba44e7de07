/* How long the maths takes, as ratios within one run of this program; not part of the tests, and of no
 * meaning between machines. From a build folder: ninja tests/long/bench && tests/long/bench
 *
 *  - One run of a boil and one largest charge, as a share of a display frame of 16.7 ms.
 *  - The integrator against GSL's rkf45 on the same right side, the same events, the same 200 boils, at equal
 * measured error: ours runs as it is built; GSL's tolerance is moved until its error, against a tight
 * solution by rk8pd at 1e-13, is ours; then both are timed, in turns, best of forty. */
#include "domain/maths/charge.h"

#include "../domain/boil-cases.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <stdio.h>
#include <time.h>

#define N_BOILS 200
#define FRAME_S (1.0 / 60)

typedef struct
{
  FrBoil boil;
  FrBoilTable table;
  double tight_s;
} Case;

static Case cases[N_BOILS];

typedef struct
{
  const FrBoil *boil;
  FrBoilMode mode;
} Side;

static int
right_side (double time_s, const double y[], double dydt[], void *data)
{
  Side *side = data;
  FrBoilMoment moment;

  return fr_boil_rates (side->boil, &side->mode, y, dydt, &moment) ? GSL_SUCCESS : GSL_EBADFUNC;
}

typedef enum
{
  BOILS,
  HOLDS,
  DRY,
  CUTOFF,
  N_EVENTS
} Event;

static double
ahead (const Side *side, Event event, const double *y, const FrBoilMoment *m, double feed_start_kg)
{
  switch (event)
    {
    case BOILS:
      return side->mode.boiling ? 1 : fr_boil_table_temp_c (side->boil->table, m->brix, NULL) - m->temp_c;
    case HOLDS:
      return side->mode.boiling && !side->mode.holding && !side->mode.dry ? m->volume_l - side->boil->hold_l
                                                                          : 1;
    case DRY:
      return side->mode.dry ? 1 : y[FR_STATE_FEED_KG] - 1e-9 * feed_start_kg;
    default:
      return side->mode.boiling ? m->volume_l - side->boil->cutoff_l : 1;
    }
}

static FrBoilMoment
moment_of (const Side *side, const double *y)
{
  double rates[FR_N_STATE];
  FrBoilMoment moment;

  if (!fr_boil_rates (side->boil, &side->mode, y, rates, &moment))
    moment.volume_l = -1;
  return moment;
}

/* A plain evening (full pan, held level, cut-off) with GSL's stepper; events by the secant within a step,
 * each trial one step of the same method, as ours does. Returns the end. */
static double
gsl_run (const FrBoil *boil, const gsl_odeiv2_step_type *type, double tolerance)
{
  Side side = { boil, { FALSE, FALSE, FALSE, FALSE } };
  gsl_odeiv2_system system = { right_side, NULL, FR_N_STATE, &side };
  gsl_odeiv2_step *stepper = gsl_odeiv2_step_alloc (type, FR_N_STATE);
  gsl_odeiv2_control *control;
  gsl_odeiv2_evolve *evolve = gsl_odeiv2_evolve_alloc (FR_N_STATE);
  double start_kg = mass_kg (boil->start_l, boil->start_brix, boil->start_c), s = boil->start_brix / 100;
  double feed_kg = mass_kg (boil->feed_l, boil->feed_brix, boil->feed_c), scale[FR_N_STATE];
  double y[FR_N_STATE] = { (1 - s) * start_kg,
                           s * start_kg,
                           start_kg
                               * ((1 - s) * fr_water_enthalpy_j_per_kg (boil->start_c)
                                  + s * fr_sugar_enthalpy_j_per_kg (boil->start_c)),
                           feed_kg,
                           0,
                           0 };
  double t = 0, h = 1, end_s = NAN;

  /* The same measure of error as ours: what is in the pan. */
  for (guint i = 0; i < FR_N_STATE; i++)
    scale[i] = start_kg;
  scale[FR_STATE_SUGAR_KG] *= 0.1;
  scale[FR_STATE_HEAT_J] *= 4.2e5;
  scale[FR_STATE_DRAWN_J] *= 2.5e6;
  control = gsl_odeiv2_control_scaled_new (tolerance, 0, 1, 0, scale, FR_N_STATE);
  while (isnan (end_s))
    {
      double before[FR_N_STATE], t_before = t;
      Event first = N_EVENTS;
      double first_at = INFINITY;
      FrBoilMoment at_end;

      memcpy (before, y, sizeof y);
      if (gsl_odeiv2_evolve_apply (evolve, control, stepper, &system, &t, t + 14400, &h, y) != GSL_SUCCESS)
        {
          memcpy (y, before, sizeof y);
          t = t_before;
          h /= 4;
          gsl_odeiv2_evolve_reset (evolve);
          gsl_odeiv2_step_reset (stepper);
          continue;
        }
      at_end = moment_of (&side, y);
      for (Event event = 0; event < N_EVENTS; event++)
        {
          FrBoilMoment moment;
          double lo = 0, hi = t - t_before, f_lo, f_hi;
          double trial[FR_N_STATE], unused[FR_N_STATE];
          int side_of = 0;

          f_hi = ahead (&side, event, y, &at_end, feed_kg);
          if (f_hi > 0)
            continue;
          moment = moment_of (&side, before);
          f_lo = ahead (&side, event, before, &moment, feed_kg);
          /* The rule of false position, with the weight of a stale end halved (Illinois). */
          for (guint i = 0; i < 60 && f_lo > 0 && hi - lo > 1e-7 && f_hi < 0; i++)
            {
              double at = (lo * f_hi - hi * f_lo) / (f_hi - f_lo), f;

              memcpy (trial, before, sizeof trial);
              gsl_odeiv2_step_reset (stepper);
              if (gsl_odeiv2_step_apply (stepper, t_before, at, trial, unused, NULL, NULL, &system)
                  != GSL_SUCCESS)
                g_error ("a part of a step fails");
              moment = moment_of (&side, trial);
              f = ahead (&side, event, trial, &moment, feed_kg);
              if (fabs (f) < 1e-13)
                {
                  hi = at;
                  break;
                }
              if (f > 0)
                {
                  lo = at;
                  f_lo = f;
                  if (side_of == 1)
                    f_hi /= 2;
                  side_of = 1;
                }
              else
                {
                  hi = at;
                  f_hi = f;
                  if (side_of == -1)
                    f_lo /= 2;
                  side_of = -1;
                }
            }
          if (f_lo <= 0)
            hi = 0;
          if (hi < first_at)
            {
              first_at = hi;
              first = event;
            }
        }
      if (first == N_EVENTS)
        continue;
      memcpy (y, before, sizeof y);
      t = t_before;
      gsl_odeiv2_step_reset (stepper);
      if (first_at > 0)
        {
          double unused[FR_N_STATE];

          if (gsl_odeiv2_step_apply (stepper, t, first_at, y, unused, NULL, NULL, &system) != GSL_SUCCESS)
            g_error ("a part of a step fails");
          t += first_at;
        }
      gsl_odeiv2_step_reset (stepper);
      gsl_odeiv2_evolve_reset (evolve);
      h = MIN (h, 60);
      if (first == BOILS)
        side.mode.boiling = TRUE;
      else if (first == HOLDS)
        side.mode.holding = TRUE;
      else if (first == DRY)
        {
          side.mode.dry = TRUE;
          side.mode.holding = FALSE;
        }
      else
        end_s = t;
    }
  gsl_odeiv2_evolve_free (evolve);
  gsl_odeiv2_control_free (control);
  gsl_odeiv2_step_free (stepper);
  return end_s;
}

static double
our_run (const FrBoil *boil)
{
  FrBoilRun run;

  if (fr_boil_run (boil, FALSE, &run) != FR_BOIL_OK || run.ended_by != FR_END_CUTOFF)
    g_error ("no end");
  return run.time_s;
}

/* Root mean square of the relative error of the end time. */
static double
error_of (double tolerance)
{
  double sum = 0;

  for (guint i = 0; i < N_BOILS; i++)
    {
      double end_s = tolerance > 0 ? gsl_run (&cases[i].boil, gsl_odeiv2_step_rkf45, tolerance)
                                   : our_run (&cases[i].boil);

      sum += pow (end_s / cases[i].tight_s - 1, 2);
    }
  return sqrt (sum / N_BOILS);
}

/* Of the processor, so that what else runs on the machine counts less. */
static double
now_s (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double
seconds_of (double tolerance)
{
  double begin = now_s ();

  for (guint i = 0; i < N_BOILS; i++)
    {
      if (tolerance > 0)
        gsl_run (&cases[i].boil, gsl_odeiv2_step_rkf45, tolerance);
      else
        our_run (&cases[i].boil);
    }
  return (now_s () - begin) / N_BOILS;
}

int
main (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (60);
  double ours, lo = -12, hi = -3, run_s = INFINITY, charge_s = INFINITY, gsl_s = INFINITY, table_s = INFINITY;
  double steps = 0, tolerance;

  gsl_set_error_handler_off ();
  for (guint i = 0; i < N_BOILS; i++)
    {
      Case *c = &cases[i];

      do
        {
          FrBoilRun run;

          c->boil = case_boil (rand, FR_FEED_LEVEL, &c->table);
          c->boil.start_l = c->boil.hold_l;
          c->boil.start_c = c->boil.feed_c = between (rand, 5, 15);
          c->boil.start_brix = c->boil.feed_brix = between (rand, 1, 4);
          c->boil.feed_l = between (rand, 3, 20);
          c->boil.cutoff_l = c->boil.hold_l * between (rand, 0.3, 0.8);
          c->boil.after_s = c->boil.stop_brix = c->boil.trip_s = c->boil.rim_l = c->boil.foam_l
              = c->boil.min_l = NAN;
          if (fr_boil_run (&c->boil, FALSE, &run) != FR_BOIL_OK)
            g_error ("no run");
          steps = run.ended_by == FR_END_CUTOFF ? run.n_steps : 0;
        }
      while (steps == 0);
      c->tight_s = gsl_run (&c->boil, gsl_odeiv2_step_rk8pd, 1e-13);
    }
  ours = error_of (0);
  /* The tolerance at which GSL errs as much, by halving its logarithm. */
  for (guint i = 0; i < 30; i++)
    {
      double middle = (lo + hi) / 2;

      if (error_of (pow (10, middle)) > ours)
        hi = middle;
      else
        lo = middle;
    }
  tolerance = pow (10, (lo + hi) / 2);
  for (guint round = 0; round < 40; round++)
    {
      double begin;

      run_s = MIN (run_s, seconds_of (0));
      gsl_s = MIN (gsl_s, seconds_of (tolerance));
      begin = now_s ();
      for (guint i = 0; i < N_BOILS; i++)
        {
          FrCharge charge;
          FrBoil boil = cases[i].boil;

          boil.after_s = 8 * 3600;
          boil.stop_brix = 60;
          if (fr_charge (&boil, 20, FALSE, &charge) != FR_BOIL_OK)
            g_error ("no charge");
        }
      charge_s = MIN (charge_s, (now_s () - begin) / N_BOILS);
      begin = now_s ();
      for (guint i = 0; i < N_BOILS; i++)
        {
          FrBoilTable table;

          fr_boil_table_init (&table, 90e3 + i);
        }
      table_s = MIN (table_s, (now_s () - begin) / N_BOILS);
    }
  printf ("table of boiling points: %.4f of a frame\n", table_s / FRAME_S);
  printf ("one run: %.4f of a frame\n", run_s / FRAME_S);
  printf ("largest charge: %.4f of a frame (%.1f runs)\n", charge_s / FRAME_S, charge_s / run_s);
  printf ("error of ours %.2e, of rkf45 at tolerance %.2e: %.2e (relative, end time, root mean square)\n",
          ours, tolerance, error_of (tolerance));
  printf ("GSL rkf45 takes %.2f times as long as ours at that error\n", gsl_s / run_s);
  return 0;
}
