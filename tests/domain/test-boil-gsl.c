/* The boil followed a second time by other means: the integrator of the GNU Scientific Library (rk8pd, 1e-10)
 * on a right side written apart from ours. Its state is mass, sugar, temperature and feed; its properties are
 * coded here once more from the published formulas (IAPWS R7-97 forward equation; Starzak and Peacock 1997 by
 * Newton; ICUMSA density on Kell's water; Bubnik's specific heat at the mean temperature; heat of evaporation
 * between the rows of the IF97 table); slopes are differences; a held level is a 2 × 2 system. Promised: 0.1
 * % on the end time and on the end density. One argument gives another number of runs than 200 per kind of
 * feed. */
#include "domain/maths/boil-run.h"

#include "boil-cases.h"
#include "found.h"
#include "table.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <stdlib.h>

#define LONGEST_S (400 * 86400.0)

static guint n_runs = 200;

/* --- properties, apart --- */

static double
vapour_pressure_pa (double temp_c)
{
  static const double n[] = { 0,
                              0.11670521452767e4,
                              -0.72421316703206e6,
                              -0.17073846940092e2,
                              0.12020824702470e5,
                              -0.32325550322333e7,
                              0.14915108613530e2,
                              -0.48232657361591e4,
                              0.40511340542057e6,
                              -0.23855557567849,
                              0.65017534844798e3 };
  double th = temp_c + 273.15;
  double a, b, c;

  th += n[9] / (th - n[10]);
  a = th * th + n[1] * th + n[2];
  b = n[3] * th * th + n[4] * th + n[5];
  c = n[6] * th * th + n[7] * th + n[8];
  return 1e6 * pow (2 * c / (-b + sqrt (b * b - 4 * a * c)), 4);
}

static double
partial_pressure_pa (double brix, double temp_c)
{
  double sugar = brix / 342.3, x = sugar / (sugar + (100 - brix) / 18.01528);
  double gamma
      = exp (-17638 / (8.314462618 * (temp_c + 273.15)) * (1 - 1.0038 * x - 0.24653 * x * x) * x * x);

  return (1 - x) * gamma * vapour_pressure_pa (temp_c);
}

static double
boils_c (double brix, double pressure_pa)
{
  double t = 100;

  for (guint i = 0; i < 30; i++)
    {
      double p = partial_pressure_pa (brix, t);
      double slope = (partial_pressure_pa (brix, t + 1e-4) - p) / 1e-4;
      double next = t - (p - pressure_pa) / slope;

      if (fabs (next - t) < 1e-12)
        return next;
      t = next;
    }
  return t;
}

static double
density_kg_m3 (double brix, double t)
{
  double w = brix / 100, s = (t - 20) / 100;
  double water = (999.83952 + 16.952577 * t - 7.9905127e-3 * t * t - 46.241757e-6 * pow (t, 3)
                  + 105.84601e-9 * pow (t, 4) - 281.03006e-12 * pow (t, 5))
                 / (1 + 16.887236e-3 * t);

  return water
         + (385.1761 * w + 135.3705 * w * w + 40.9299 * pow (w, 3) - 3.9643 * pow (w, 4)
            + 13.4853 * pow (w, 5) - 17.2890 * pow (w, 6))
         + s
               * (-46.2720 * w - 7.1720 * w * w + 1.1597 * pow (w, 3) + 5.1126 * pow (w, 4)
                  + 17.5254 * pow (w, 5))
         + s * s * (59.7712 * w + 7.2491 * w * w + 12.3630 * pow (w, 3) - 35.4791 * pow (w, 4))
         + pow (s, 3) * (-47.2207 * w - 21.6977 * w * w + 27.6301 * pow (w, 3))
         + pow (s, 4) * (18.3184 * w + 12.3081 * w * w);
}

static double
heat_capacity (double brix, double t)
{
  return 1e3 * (4.1868 - brix * (0.0297 - 4.6e-5 * 100) + 7.5e-5 * brix * t);
}

static GPtrArray *latent_rows;

/* Quadratic through the three nearest rows of the IF97 table. */
static double
latent_j_per_kg (double pressure_pa)
{
  double p = pressure_pa / 1e3, sum = 0, at[3], value[3];
  guint first = 0;

  while (first + 3 < latent_rows->len
         && test_row_number (g_ptr_array_index (latent_rows, first + 1), "pressure_kpa") < p)
    first++;
  for (guint i = 0; i < 3; i++)
    {
      at[i] = test_row_number (g_ptr_array_index (latent_rows, first + i), "pressure_kpa");
      value[i] = test_row_number (g_ptr_array_index (latent_rows, first + i), "latent_kj_per_kg");
    }
  for (guint i = 0; i < 3; i++)
    {
      double part = value[i];

      for (guint j = 0; j < 3; j++)
        if (j != i)
          part *= (p - at[j]) / (at[i] - at[j]);
      sum += part;
    }
  return 1e3 * sum;
}

/* --- the model, apart --- */

typedef enum
{
  WARMING,
  BOILING, /* free level */
  HELD
} Phase;

enum
{
  MASS,
  SUGAR,
  TEMP,
  FEED,
  N_STATES
};

typedef struct
{
  const FrBoil *in;
  Phase phase;
  gboolean dry;
  double pressure_pa;
  double latent;
  double feed_start_kg;
} Model;

static double
brix_of (const double *y)
{
  return 100 * y[SUGAR] / y[MASS];
}

static double
temp_of (const Model *model, const double *y)
{
  return model->phase == WARMING ? y[TEMP] : boils_c (brix_of (y), model->pressure_pa);
}

static double
litres_of (const Model *model, const double *y)
{
  return 1e3 * y[MASS] / density_kg_m3 (brix_of (y), temp_of (model, y));
}

static double
flow (const Model *model, const double *y)
{
  const FrBoil *in = model->in;
  double density = density_kg_m3 (in->feed_brix, in->feed_c);

  if (model->dry || in->feed_kind == FR_FEED_LEVEL)
    return 0;
  if (in->feed_kind == FR_FEED_STREAM)
    return in->stream_l_per_s * density / 1e3;
  return density * in->hole_m2
         * sqrt (2 * 9.80665 * (in->head_m + fmax (y[FEED], 0) / density / in->bucket_m2));
}

/* Vapour and feed, kg/s. */
static void
flows (const Model *model, const double *y, double *vapour_out, double *feed_out)
{
  const FrBoil *in = model->in;
  double b = brix_of (y), x = in->feed_brix, t = temp_of (model, y), d = 1e-3;
  double net = in->power_w * in->heat_ratio - in->wall_w_per_k * (t - in->air_c);
  double warm = heat_capacity (x, (t + in->feed_c) / 2) * (in->feed_c - t); /* per kg fed */
  double rise, thicken, f = flow (model, y);

  *feed_out = f;
  *vapour_out = 0;
  if (model->phase == WARMING)
    return;
  rise = heat_capacity (b, t) * (boils_c (b + d, model->pressure_pa) - boils_c (b - d, model->pressure_pa))
         / (2 * d);
  if (model->phase == BOILING)
    {
      /* rise [(x − b) f + b e] = net + f warm − e latent */
      *vapour_out = (net + f * (warm - rise * (x - b))) / (model->latent + rise * b);
      return;
    }
  thicken = (log (density_kg_m3 (b + d, boils_c (b + d, model->pressure_pa)))
             - log (density_kg_m3 (b - d, boils_c (b - d, model->pressure_pa))))
            / (2 * d);
  {
    /* a11 f + a12 e = 0: the level; a21 f + a22 e = net: the heat */
    double a11 = 1 - thicken * (x - b), a12 = -1 - thicken * b;
    double a21 = rise * (x - b) - warm, a22 = rise * b + model->latent;
    double det = a11 * a22 - a12 * a21;

    *feed_out = -a12 * net / det;
    *vapour_out = a11 * net / det;
  }
}

static int
right_side (double time_s, const double y[], double dydt[], void *data)
{
  const Model *model = data;
  const FrBoil *in = model->in;
  double e, f, b, t;

  if (!(y[MASS] > 1e-3) || !(y[SUGAR] >= 0) || brix_of (y) > 90)
    return GSL_EBADFUNC;
  flows (model, y, &e, &f);
  dydt[MASS] = f - e;
  dydt[SUGAR] = f * in->feed_brix / 100;
  dydt[FEED] = -f;
  dydt[TEMP] = 0;
  if (model->phase == WARMING)
    {
      b = brix_of (y);
      t = y[TEMP];
      dydt[TEMP] = (in->power_w * in->heat_ratio - in->wall_w_per_k * (t - in->air_c)
                    + f * heat_capacity (in->feed_brix, (t + in->feed_c) / 2) * (in->feed_c - t))
                   / (y[MASS] * heat_capacity (b, t));
    }
  return GSL_SUCCESS;
}

typedef enum
{
  ON_BOIL,
  ON_CALM,
  ON_HOLD,
  ON_DRY,
  ON_CUTOFF,
  ON_BRIX,
  ON_LIMIT,
  N_ON
} On;

/* Over 0 before it happens. */
static double
ahead (const Model *model, On on, const double *y)
{
  const FrBoil *in = model->in;
  gboolean boils = model->phase != WARMING;
  double e, f;

  switch (on)
    {
    case ON_BOIL:
      return boils ? NAN : boils_c (brix_of (y), model->pressure_pa) - y[TEMP];
    case ON_CALM:
      if (model->phase != BOILING || in->feed_kind == FR_FEED_LEVEL)
        return NAN;
      flows (model, y, &e, &f);
      return e;
    case ON_HOLD:
      return model->phase == BOILING && in->feed_kind == FR_FEED_LEVEL && !model->dry
                 ? litres_of (model, y) - in->hold_l
                 : NAN;
    case ON_DRY:
      return model->dry ? NAN : y[FEED] - 1e-9 * model->feed_start_kg;
    case ON_CUTOFF:
      return boils ? litres_of (model, y) - in->cutoff_l : NAN;
    case ON_BRIX:
      return boils ? in->stop_brix - brix_of (y) : NAN;
    default:
      return boils ? MIN (litres_of (model, y) - 0.05, 75 - brix_of (y)) : NAN;
    }
}

/* The first of what has happened, by precedence. */
static On
due (const Model *model, const double *y)
{
  for (On on = 0; on < N_ON; on++)
    if (ahead (model, on, y) <= 0)
      return on;
  return N_ON;
}

/* From @y over @span_s in one go. */
static gboolean
advance (Model *model, gsl_odeiv2_driver *driver, double *y, double span_s)
{
  double t = 0;

  gsl_odeiv2_driver_reset (driver);
  gsl_odeiv2_driver_reset_hstart (driver, MIN (1, span_s));
  return gsl_odeiv2_driver_apply (driver, &t, span_s, y) == GSL_SUCCESS;
}

typedef struct
{
  FrEnd end;
  double time_s;
  double brix;
  double temp_c;
} Answer;

static void
start (Model *model, double *y)
{
  const FrBoil *in = model->in;
  double start_kg = in->start_l * density_kg_m3 (in->start_brix, in->start_c) / 1e3;
  double lo = 0, hi;

  model->feed_start_kg = in->feed_l * density_kg_m3 (in->feed_brix, in->feed_c) / 1e3;
  y[MASS] = start_kg;
  y[SUGAR] = start_kg * in->start_brix / 100;
  y[TEMP] = in->start_c;
  y[FEED] = hi = model->feed_start_kg;
  if (in->feed_kind != FR_FEED_LEVEL || in->start_l >= in->hold_l || hi <= 0)
    return;
  for (guint i = 0; i < 200; i++)
    {
      double add = i == 0 ? hi : (lo + hi) / 2, mass = start_kg + add;
      double sugar = start_kg * in->start_brix / 100 + add * in->feed_brix / 100, t = in->start_c;

      /* Mixed temperature from m c̄ dT given and taken, again with the mean specific heat, by repetition. */
      for (guint k = 0; k < 60; k++)
        {
          double own = start_kg * heat_capacity (in->start_brix, (in->start_c + t) / 2);
          double cold = add * heat_capacity (in->feed_brix, (in->feed_c + t) / 2);

          t = (own * in->start_c + cold * in->feed_c) / (own + cold);
        }
      y[MASS] = mass;
      y[SUGAR] = sugar;
      y[TEMP] = t;
      y[FEED] = model->feed_start_kg - add;
      if (1e3 * mass / density_kg_m3 (100 * sugar / mass, t) < in->hold_l)
        {
          if (i == 0)
            return;
          lo = add;
        }
      else
        hi = add;
    }
}

static gboolean
follow (const FrBoil *in, Answer *answer)
{
  Model model = { .in = in, .pressure_pa = in->table->pressure_pa };
  gsl_odeiv2_system system = { right_side, NULL, N_STATES, &model };
  gsl_odeiv2_driver *driver = gsl_odeiv2_driver_alloc_y_new (&system, gsl_odeiv2_step_rk8pd, 1, 1e-10, 1e-10);
  double y[N_STATES], time_s = 0, span_s = 120;
  gboolean done = FALSE;

  model.latent = latent_j_per_kg (model.pressure_pa) / (1 - in->reflux_ratio);
  start (&model, y);
  model.dry = !(y[FEED] > 1e-9 * model.feed_start_kg);
  while (!done && time_s < LONGEST_S)
    {
      double begin[N_STATES], length = span_s;
      On first = N_ON;

      memcpy (begin, y, sizeof y);
      if (!isnan (in->after_s) && time_s + length >= in->after_s)
        length = in->after_s - time_s;
      if (length <= 0)
        {
          answer->end = FR_END_TIME;
          break;
        }
      if (!advance (&model, driver, y, length))
        {
          memcpy (y, begin, sizeof y);
          span_s /= 4;
          if (span_s < 1e-6)
            break;
          continue;
        }
      /* The earliest event, by halving the step until it just holds one. */
      if (due (&model, y) != N_ON)
        {
          double lo = 0, hi = length;

          for (guint i = 0; i < 50; i++)
            {
              double half = (lo + hi) / 2;

              memcpy (y, begin, sizeof y);
              if (!advance (&model, driver, y, half) || due (&model, y) != N_ON)
                hi = half;
              else
                lo = half;
            }
          length = hi;
          memcpy (y, begin, sizeof y);
          if (!advance (&model, driver, y, length))
            g_error ("a part of a step fails");
          first = due (&model, y);
        }
      time_s += length;
      span_s = first == N_ON ? MIN (2 * span_s, 14400) : 120;
      switch (first)
        {
        case ON_BOIL:
          model.phase = BOILING;
          /* Stops that were only waiting for the boil. */
          first = due (&model, y);
          done = first == ON_CUTOFF || first == ON_BRIX || first == ON_LIMIT;
          break;
        case ON_CALM:
          y[TEMP] = temp_of (&model, y);
          model.phase = WARMING;
          /* Off the boil by a hair, so that it is not found boiling at once. */
          y[TEMP] -= 1e-7;
          break;
        case ON_HOLD:
          model.phase = HELD;
          break;
        case ON_DRY:
          model.dry = TRUE;
          if (model.phase == HELD)
            model.phase = BOILING;
          break;
        case ON_CUTOFF:
        case ON_BRIX:
        case ON_LIMIT:
          done = TRUE;
          break;
        default:
          break;
        }
      if (done)
        answer->end = first == ON_CUTOFF ? FR_END_CUTOFF : first == ON_BRIX ? FR_END_BRIX : FR_END_DRY_LIMIT;
    }
  answer->time_s = time_s;
  answer->brix = brix_of (y);
  answer->temp_c = temp_of (&model, y);
  gsl_odeiv2_driver_free (driver);
  return time_s < LONGEST_S;
}

static void
test_against_gsl (gconstpointer data)
{
  FrFeedKind kind = (FrFeedKind)GPOINTER_TO_INT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (4000 + kind);
  FrBoilTable table;
  guint compared = 0, runs = kind == FR_FEED_LEVEL ? n_runs : n_runs / 4;

  gsl_set_error_handler_off ();
  for (guint i = 0; i < runs; i++)
    {
      FrBoil boil = case_boil (rand, kind, &table);
      FrBoilRun run;
      Answer answer = { FR_END_NEVER_BOILS, 0, 0, 0 };

      boil.trip_s = NAN;
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      if (run.ended_by == FR_END_NEVER_BOILS)
        continue;
      if (!follow (&boil, &answer))
        {
          g_test_fail_printf ("run %u: the other integrator found no end; ours %s at %g s", i,
                              fr_end_code (run.ended_by), run.time_s);
          return;
        }
      compared++;
      if (answer.end != run.ended_by)
        g_test_fail_printf ("run %u of kind %d: ended by %s, the other says %s (%g and %g s)", i, kind,
                            fr_end_code (run.ended_by), fr_end_code (answer.end), run.time_s, answer.time_s);
      found_near ("end time against GSL, relative", run.time_s / answer.time_s, 1, 1e-3);
      found_near ("end density against GSL, relative",
                  density_kg_m3 (run.left_brix, run.left_temp_c) / density_kg_m3 (answer.brix, answer.temp_c),
                  1, 1e-3);
      found_near ("end °Bx against GSL, °Bx", run.left_brix, answer.brix, 0.1);
      if (g_test_failed ())
        {
          printf ("# first difference at run %u of kind %d\n", i, kind);
          return;
        }
    }
  g_assert_cmpuint (compared, >, runs / 2);
}

int
main (int argc, char *argv[])
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  if (argc > 1)
    n_runs = (guint)strtoul (argv[1], NULL, 10);
  latent_rows = test_table_load ("water-saturation.csv");
  for (gint kind = 0; kind < FR_N_FEEDS; kind++)
    {
      g_autofree char *path = g_strdup_printf ("/boil-gsl/%s", fr_feed_code ((FrFeedKind)kind));

      g_test_add_data_func (path, GINT_TO_POINTER (kind), test_against_gsl);
    }
  failed = found_run ();
  g_ptr_array_unref (latent_rows);
  return failed;
}
