/* Stepping through a boil.
 *
 * Method: the pair of Dormand and Prince with the usual step control, which keeps water and sugar to
 * rounding. When an event's sign turns within a step the step is shortened by root finding, with a full step
 * of that length each time, until it ends on the event; then the mode changes. Accuracy: 1e-8 relative per
 * step; times and densities within 1e-5 of the exact solution of the same equations (found: see
 * docs/checks.md). */
#include "domain/maths/boil-run.h"

#include "domain/maths/dormand-prince.h"
#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#include <float.h>
#include <math.h>
#include <string.h>

#define RELATIVE_TOLERANCE 1e-8
#define STEPS_MAX 200000
#define NO_END_S (400.0 * 86400.0) /* a run that has not ended after this long never will */
#define TRACE_GAP_S 300.0
#define TIE_S 1e-6
#define NOTHING_KG_PER_S 1e-18
#define EMPTY_SHARE 1e-9 /* of the bucket: a falling head never quite empties it */

typedef enum
{
  EVENT_BOILS,  /* reaches the boil */
  EVENT_CALMS,  /* falls off it */
  EVENT_FEEDS,  /* level has come down to hold */
  EVENT_SWELLS, /* a held level would rise by itself */
  EVENT_DRY,    /* bucket empty */
  EVENT_CUTOFF,
  EVENT_BRIX,
  EVENT_LIMIT_L, /* the dry limit, by volume and by °Bx */
  EVENT_LIMIT_BRIX,
  EVENT_TIME,
  EVENT_TRIP,
  EVENT_RIM,
  EVENT_FOAM,
  EVENT_MIN,
  EVENT_CREST, /* a free level stops rising, and falling: steps end there, so that no line is crossed unseen
                */
  EVENT_TROUGH,
  N_EVENTS
} Event;

typedef struct
{
  const FrBoil *boil;
  FrBoilMode mode;
  double time_s;
  double state[FR_N_STATE];
  double rates[FR_N_STATE];
  FrBoilMoment moment;
  FrBoilMoment tried; /* at the end of the last step tried */
  double scale[FR_N_STATE];
  double feed_start_kg;
  double feed_density;
  Event turned; /* the last turn of the level: after a crest only a trough can come */
  FrBoilRun *run;
  GArray *trace;
} Run;

static gboolean
rates_of (const double *state, double *rates, gpointer data)
{
  Run *run = data;

  return fr_boil_rates (run->boil, &run->mode, state, rates, &run->tried);
}

/* One step of @h seconds from the present state; its end is in @state_out, @rates_out and run->tried.
 * @error_out is the largest scaled error, or NULL. */
static gboolean
step (Run *run, double h, double *state_out, double *rates_out, double *error_out)
{
  double errors[FR_N_STATE];

  if (!fr_dormand_prince_step (rates_of, run, FR_N_STATE, run->state, run->rates, h, state_out, rates_out,
                               error_out != NULL ? errors : NULL))
    return FALSE;
  if (error_out != NULL)
    {
      *error_out = 0;
      for (guint n = 0; n < FR_N_STATE; n++)
        *error_out = MAX (*error_out, fabs (errors[n]) / run->scale[n]);
    }
  return TRUE;
}

/* Positive while @event lies ahead; its sign turns when it happens. NAN where it cannot happen now. */
static double
event_value (const Run *run, Event event, double time_s, const double *state, const FrBoilMoment *moment)
{
  const FrBoil *boil = run->boil;
  const FrBoilMode *mode = &run->mode;

  switch (event)
    {
    case EVENT_BOILS:
      return mode->boiling || mode->tripped
                 ? NAN
                 : fr_boil_table_temp_c (boil->table, moment->brix, NULL) - moment->temp_c;
    case EVENT_CALMS:
      return mode->boiling ? moment->vapour_kg_per_s : NAN;
    case EVENT_FEEDS:
      return boil->feed_kind == FR_FEED_LEVEL && !mode->holding && !mode->dry
                 ? moment->volume_l - boil->hold_l
                 : NAN;
    case EVENT_SWELLS:
      /* A pan in which nothing moves does not swell. */
      return mode->holding && !mode->dry ? moment->feed_kg_per_s + NOTHING_KG_PER_S : NAN;
    case EVENT_DRY:
      return mode->dry ? NAN : state[FR_STATE_FEED_KG] - EMPTY_SHARE * run->feed_start_kg;
    case EVENT_CUTOFF:
      return mode->boiling ? moment->volume_l - boil->cutoff_l : NAN;
    case EVENT_BRIX:
      return mode->boiling ? boil->stop_brix - moment->brix : NAN;
    case EVENT_LIMIT_L:
      return mode->boiling ? moment->volume_l - FR_DRY_LIMIT_L : NAN;
    case EVENT_LIMIT_BRIX:
      return mode->boiling ? FR_DRY_LIMIT_BRIX - moment->brix : NAN;
    case EVENT_TIME:
      return boil->after_s - time_s;
    case EVENT_TRIP:
      return mode->tripped ? NAN : boil->trip_s - time_s;
    case EVENT_RIM:
      return isnan (run->run->rim_s) ? boil->rim_l - moment->volume_l : NAN;
    case EVENT_FOAM:
      return isnan (run->run->foam_s) ? boil->foam_l - moment->volume_l : NAN;
    case EVENT_MIN:
      return isnan (run->run->min_s) ? moment->volume_l - boil->min_l : NAN;
    case EVENT_CREST:
      return boil->feed_kind == FR_FEED_LEVEL ? NAN : moment->volume_l_per_s;
    case EVENT_TROUGH:
      return boil->feed_kind == FR_FEED_LEVEL ? NAN : -moment->volume_l_per_s;
    default:
      g_assert_not_reached ();
    }
}

typedef struct
{
  Run *run;
  Event event;
} Crossing;

static double
crossing_value (double h, gpointer data)
{
  Crossing *crossing = data;
  Run *run = crossing->run;
  double state[FR_N_STATE], rates[FR_N_STATE];

  if (!step (run, h, state, rates, NULL))
    return NAN;
  return event_value (run, crossing->event, run->time_s + h, state, &run->tried);
}

static gboolean
refresh (Run *run)
{
  return fr_boil_rates (run->boil, &run->mode, run->state, run->rates, &run->moment);
}

static void
keep_point (Run *run, double time_s, const FrBoilMoment *moment, double feed_kg)
{
  FrTracePoint point = { time_s,
                         moment->volume_l,
                         moment->brix,
                         moment->temp_c,
                         run->mode.dry ? 0 : 1e3 * feed_kg / run->feed_density,
                         run->mode.tripped ? 0 : run->boil->power_w };

  if (run->trace != NULL)
    g_array_append_val (run->trace, point);
}

/* Points between the ends of a long step, from the cubic that fits values and slopes at both ends. */
static void
keep_between (Run *run, double h, const double *state, const double *rates)
{
  guint pieces = (guint)ceil (h / TRACE_GAP_S);

  if (run->trace == NULL)
    return;
  for (guint i = 1; i < pieces; i++)
    {
      double u = (double)i / pieces, v = 1 - u, between[FR_N_STATE], unused[FR_N_STATE];
      FrBoilMoment moment;

      for (guint n = 0; n < FR_N_STATE; n++)
        between[n] = v * v * (1 + 2 * u) * run->state[n] + u * u * (1 + 2 * v) * state[n]
                     + u * v * h * (v * run->rates[n] - u * rates[n]);
      if (fr_boil_rates (run->boil, &run->mode, between, unused, &moment))
        keep_point (run, run->time_s + u * h, &moment, between[FR_STATE_FEED_KG]);
    }
}

/* Whether the bare pan's level is about to fall, so that the feed starts at once. */
static void
settle_feed (Run *run)
{
  FrBoilMode *mode = &run->mode;
  double hold_l = run->boil->hold_l;

  if (run->boil->feed_kind != FR_FEED_LEVEL || mode->dry)
    {
      mode->holding = FALSE;
      return;
    }
  mode->holding = FALSE;
  if (!refresh (run))
    return;
  if (run->moment.volume_l <= hold_l * (1 + 1e-9) && run->moment.volume_l_per_s < 0)
    mode->holding = TRUE;
}

/* Lets the mode follow an event. TRUE when the run is over. */
static gboolean
happen (Run *run, Event event)
{
  FrBoilRun *out = run->run;
  FrBoilMode *mode = &run->mode;

  switch (event)
    {
    case EVENT_BOILS:
      mode->boiling = TRUE;
      if (isnan (out->boils_s))
        out->boils_s = run->time_s;
      settle_feed (run);
      return FALSE;
    case EVENT_CALMS:
      mode->boiling = FALSE;
      run->state[FR_STATE_HEAT_J]
          = run->state[FR_STATE_WATER_KG] * fr_water_enthalpy_j_per_kg (run->moment.temp_c)
            + run->state[FR_STATE_SUGAR_KG] * fr_sugar_enthalpy_j_per_kg (run->moment.temp_c);
      settle_feed (run);
      return FALSE;
    case EVENT_FEEDS:
      mode->holding = TRUE;
      return FALSE;
    case EVENT_SWELLS:
      mode->holding = FALSE;
      return FALSE;
    case EVENT_DRY:
      mode->dry = TRUE;
      mode->holding = FALSE;
      out->feed_dry_s = run->time_s;
      return FALSE;
    case EVENT_TRIP:
      mode->tripped = TRUE;
      return FALSE;
    case EVENT_RIM:
      out->rim_s = run->time_s;
      return FALSE;
    case EVENT_FOAM:
      out->foam_s = run->time_s;
      return FALSE;
    case EVENT_MIN:
      out->min_s = run->time_s;
      return FALSE;
    case EVENT_CREST:
    case EVENT_TROUGH:
      return FALSE;
    case EVENT_CUTOFF:
      out->ended_by = FR_END_CUTOFF;
      return TRUE;
    case EVENT_BRIX:
      out->ended_by = FR_END_BRIX;
      return TRUE;
    case EVENT_TIME:
      out->ended_by = FR_END_TIME;
      return TRUE;
    case EVENT_LIMIT_L:
    case EVENT_LIMIT_BRIX:
      out->ended_by = FR_END_DRY_LIMIT;
      return TRUE;
    default:
      g_assert_not_reached ();
    }
}

/* Whether @event turns on which way things are moving, which only a step shows. */
static gboolean
is_turn (const Run *run, Event event)
{
  return event == EVENT_FEEDS || event == EVENT_SWELLS || event == EVENT_CREST || event == EVENT_TROUGH
         || (event == EVENT_CALMS && !run->mode.tripped);
}

/* Everything that is due now, in the order of Event, which is also the order of precedence at equal times.
 * @just is what has happened: a pan that has just calmed stands exactly at its boiling point and must not be
 * taken for boiling. */
static gboolean
settle (Run *run, Event just)
{
  for (guint round = 0; round < 8; round++)
    {
      gboolean changed = FALSE;

      if (!refresh (run))
        return FALSE;
      for (Event event = 0; event < N_EVENTS; event++)
        {
          double value = event_value (run, event, run->time_s, run->state, &run->moment);

          if (!(value <= 0))
            continue;
          if (is_turn (run, event) || (event == EVENT_BOILS && just == EVENT_CALMS))
            continue;
          if (happen (run, event))
            return TRUE;
          changed = TRUE;
          if (!refresh (run))
            return FALSE;
        }
      if (!changed)
        break;
    }
  return FALSE;
}

static double
mix_gap (double feed_kg, gpointer data)
{
  Run *run = data;
  const FrBoil *boil = run->boil;
  double x = boil->feed_brix / 100;
  double water = run->state[FR_STATE_WATER_KG] + (1 - x) * feed_kg;
  double sugar = run->state[FR_STATE_SUGAR_KG] + x * feed_kg;
  double heat = run->state[FR_STATE_HEAT_J]
                + feed_kg
                      * ((1 - x) * fr_water_enthalpy_j_per_kg (boil->feed_c)
                         + x * fr_sugar_enthalpy_j_per_kg (boil->feed_c));
  double density
      = fr_sucrose_density_kg_m3 (100 * sugar / (water + sugar), fr_boil_temp_of_heat_c (water, sugar, heat));

  return 1e3 * (water + sugar) / density - boil->hold_l;
}

/* A pan below hold is filled at time 0, as far as the bucket goes. */
static void
fill_to_hold (Run *run)
{
  const FrBoil *boil = run->boil;
  double x = boil->feed_brix / 100, flows = run->feed_start_kg;

  if (boil->feed_kind != FR_FEED_LEVEL || !(flows > 0) || boil->start_l >= boil->hold_l)
    return;
  if (mix_gap (flows, run) > 0)
    fr_solve_root (mix_gap, run, boil->start_l > 0 ? 0 : 1e-9 * flows, flows, 1e-15 * flows, &flows);
  run->state[FR_STATE_WATER_KG] += (1 - x) * flows;
  run->state[FR_STATE_SUGAR_KG] += x * flows;
  run->state[FR_STATE_HEAT_J] += flows
                                 * ((1 - x) * fr_water_enthalpy_j_per_kg (boil->feed_c)
                                    + x * fr_sugar_enthalpy_j_per_kg (boil->feed_c));
  run->state[FR_STATE_FEED_KG] -= flows;
}

static void
finish (Run *run)
{
  FrBoilRun *out = run->run;
  const FrBoil *boil = run->boil;
  double x = boil->feed_brix / 100;

  out->time_s = run->time_s;
  out->fed_kg = run->feed_start_kg - run->state[FR_STATE_FEED_KG];
  out->water_fed_kg = (1 - x) * out->fed_kg;
  out->water_left_kg = run->state[FR_STATE_WATER_KG];
  out->left_kg = run->moment.mass_kg;
  out->left_l = run->moment.volume_l;
  out->left_brix = run->moment.brix;
  out->left_temp_c = run->moment.temp_c;
  out->left_20c_l = 1e3 * out->left_kg / fr_sucrose_density_kg_m3 (out->left_brix, 20);
  out->boil_c = fr_boil_table_temp_c (boil->table, out->left_brix, NULL);
  out->evaporated_kg = run->state[FR_STATE_VAPOUR_KG];
  out->energy_kwh = run->state[FR_STATE_DRAWN_J] / FR_JOULES_PER_KWH;
  out->sugar_in_kg += x * out->fed_kg;
  out->sugar_out_kg = run->state[FR_STATE_SUGAR_KG];
  out->extrapolated = fr_sucrose_density_is_extrapolated (out->left_brix, out->left_temp_c);
  if (run->trace != NULL)
    {
      out->n_trace = run->trace->len;
      out->trace = (FrTracePoint *)(gpointer)g_array_free (run->trace, FALSE);
    }
}

static void
begin (Run *run)
{
  const FrBoil *boil = run->boil;
  double start_kg = 1e-3 * boil->start_l * fr_sucrose_density_kg_m3 (boil->start_brix, boil->start_c);
  double s = boil->start_brix / 100;

  run->feed_density = fr_sucrose_density_kg_m3 (boil->feed_brix, boil->feed_c);
  run->feed_start_kg = 1e-3 * boil->feed_l * run->feed_density;
  run->state[FR_STATE_WATER_KG] = (1 - s) * start_kg;
  run->state[FR_STATE_SUGAR_KG] = s * start_kg;
  run->state[FR_STATE_HEAT_J] = start_kg
                                * ((1 - s) * fr_water_enthalpy_j_per_kg (boil->start_c)
                                   + s * fr_sugar_enthalpy_j_per_kg (boil->start_c));
  run->state[FR_STATE_FEED_KG] = run->feed_start_kg;
  run->run->sugar_in_kg = s * start_kg;
  run->run->water_start_kg = (1 - s) * start_kg;
  fill_to_hold (run);
  /* Errors are measured against what is in the pan, so that a hundred litres in the bucket do not hide them.
   */
  for (guint n = 0; n < FR_N_STATE; n++)
    run->scale[n] = RELATIVE_TOLERANCE * (run->state[FR_STATE_WATER_KG] + run->state[FR_STATE_SUGAR_KG]);
  run->scale[FR_STATE_HEAT_J] *= 4.2e5;
  run->scale[FR_STATE_DRAWN_J] *= 2.5e6;
  run->scale[FR_STATE_SUGAR_KG] *= 0.1;
}

/* Finds the first event on a step. Of events less than TIE_S apart the one that takes precedence comes first.
 */
static Event
first_event (Run *run, double h, const double *state_end, const FrBoilMoment *moment_end, double *at_out)
{
  double at[N_EVENTS], earliest = INFINITY;

  for (Event event = 0; event < N_EVENTS; event++)
    {
      Crossing crossing = { run, event };
      double end = event_value (run, event, run->time_s + h, state_end, moment_end), begin;

      at[event] = INFINITY;
      if (!(end <= 0))
        continue;
      begin = event_value (run, event, run->time_s, run->state, &run->moment);
      if ((event == EVENT_CREST || event == EVENT_TROUGH) && (begin <= 0 || event == run->turned))
        continue;
      if (begin <= 0)
        at[event] = 0;
      else if (!fr_solve_root (crossing_value, &crossing, 0, h, 1e-7, &at[event]))
        at[event] = h;
      earliest = MIN (earliest, at[event]);
    }
  *at_out = h;
  if (isinf (earliest))
    return N_EVENTS;
  for (Event event = 0; event < N_EVENTS; event++)
    if (at[event] <= earliest + TIE_S)
      {
        *at_out = at[event];
        return event;
      }
  g_assert_not_reached ();
}

static FrBoilStatus
follow (Run *run)
{
  double h = 1;

  for (guint i = 0; i < STEPS_MAX; i++)
    {
      double state[FR_N_STATE], rates[FR_N_STATE], error = 0, at;
      FrBoilMoment moment;
      Event event;

      if (run->time_s > NO_END_S)
        {
          run->run->ended_by = FR_END_NEVER_BOILS;
          return FR_BOIL_OK;
        }
      if (!step (run, h, state, rates, &error) || error > 1)
        {
          h *= error > 1 ? MAX (0.1, 0.9 * pow (error, -0.2)) : 0.25;
          if (h < 1e-9)
            return FR_BOIL_NO_SOLUTION;
          continue;
        }
      run->run->n_steps++;
      moment = run->tried;
      event = first_event (run, h, state, &moment, &at);
      if (event != N_EVENTS && at < h)
        {
          if (!step (run, at, state, rates, NULL))
            return FR_BOIL_NO_SOLUTION;
          moment = run->tried;
        }
      keep_between (run, at, state, rates);
      run->time_s += at;
      memcpy (run->state, state, sizeof state);
      memcpy (run->rates, rates, sizeof rates);
      run->moment = moment;
      run->run->max_volume_l = MAX (run->run->max_volume_l, moment.volume_l);
      keep_point (run, run->time_s, &moment, state[FR_STATE_FEED_KG]);
      if (event != N_EVENTS)
        {
          gboolean tripped = run->mode.tripped;

          /* Also when another stop tied with the time and was found a hair after it. */
          if (event == EVENT_TIME || run->time_s > run->boil->after_s)
            run->time_s = run->boil->after_s;
          if (happen (run, event) || settle (run, event))
            return FR_BOIL_OK;
          if (!refresh (run))
            return FR_BOIL_NO_SOLUTION;
          if (run->mode.tripped != tripped)
            keep_point (run, run->time_s, &run->moment, run->state[FR_STATE_FEED_KG]);
          run->turned = event == EVENT_CREST || event == EVENT_TROUGH ? event : N_EVENTS;
          if (run->turned == N_EVENTS)
            h = MIN (h, 60);
          continue;
        }
      h = MIN (h * CLAMP (0.9 * pow (MAX (error, 1e-10), -0.2), 0.3, 5.0), 14400);
    }
  return FR_BOIL_NO_SOLUTION;
}

FrBoilStatus
fr_boil_run (const FrBoil *boil, gboolean want_trace, FrBoilRun *run_out)
{
  Run run = { .boil = boil, .run = run_out, .turned = N_EVENTS };
  FrBoilStatus status;
  FrBoilFault fault;

  memset (run_out, 0, sizeof *run_out);
  run_out->time_s = run_out->boils_s = run_out->feed_dry_s = run_out->rim_s = run_out->foam_s = run_out->min_s
      = NAN;
  if (!fr_boil_check (boil, &fault))
    return FR_BOIL_BAD_INPUT;
  begin (&run);
  run.mode.dry = !(run.state[FR_STATE_FEED_KG] > EMPTY_SHARE * run.feed_start_kg);
  if (run.mode.dry && run.feed_start_kg > 0)
    run_out->feed_dry_s = 0;
  if (!refresh (&run))
    return FR_BOIL_BAD_INPUT;
  if (want_trace)
    run.trace = g_array_new (FALSE, FALSE, sizeof (FrTracePoint));
  run_out->max_volume_l = run.moment.volume_l;
  keep_point (&run, 0, &run.moment, run.state[FR_STATE_FEED_KG]);

  /* Warmed to the boil, would there be heat left over? If not, no wait is long enough. */
  if (boil->power_w * boil->heat_ratio
      <= boil->wall_w_per_k * (fr_boil_table_temp_c (boil->table, run.moment.brix, NULL) - boil->air_c))
    {
      run_out->ended_by = FR_END_NEVER_BOILS;
      status = FR_BOIL_OK;
    }
  else
    {
      settle_feed (&run);
      if (settle (&run, N_EVENTS))
        status = FR_BOIL_OK;
      else
        {
          status = FR_BOIL_NO_SOLUTION;
          if (refresh (&run))
            {
              if (run.mode.tripped)
                keep_point (&run, 0, &run.moment, run.state[FR_STATE_FEED_KG]);
              status = follow (&run);
            }
        }
    }
  finish (&run);
  return status;
}
