/* The boil against conservation over random runs, and against its own promises. */
#include "domain/maths/boil-run.h"

#include "domain/units/units.h"

#include "boil-cases.h"
#include "found.h"

#define N_RUNS 1000

static double
heat_j (double mass, double brix, double temp_c)
{
  return mass
         * ((1 - brix / 100) * fr_water_enthalpy_j_per_kg (temp_c)
            + brix / 100 * fr_sugar_enthalpy_j_per_kg (temp_c));
}

static void
never_nan (const FrBoilRun *run)
{
  const double all[] = { run->time_s,       run->max_volume_l,   run->evaporated_kg, run->fed_kg,
                         run->left_kg,      run->left_l,         run->left_20c_l,    run->left_brix,
                         run->left_temp_c,  run->boil_c,         run->energy_kwh,    run->sugar_in_kg,
                         run->sugar_out_kg, run->water_start_kg, run->water_fed_kg,  run->water_left_kg };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (!isfinite (all[i]))
      g_test_fail_printf ("figure %u of the run is %g", i, all[i]);
}

/* Water, sugar and heat of a run, from its figures and its trace alone. */
static void
check_balances (const FrBoil *boil, const FrBoilRun *run)
{
  double start_kg = mass_kg (boil->start_l, boil->start_brix, boil->start_c);
  double feed_kg = mass_kg (boil->feed_l, boil->feed_brix, boil->feed_c);
  double sugar_in = start_kg * boil->start_brix / 100 + run->fed_kg * boil->feed_brix / 100;
  double water_in = start_kg * (1 - boil->start_brix / 100) + run->fed_kg * (1 - boil->feed_brix / 100);
  double latent = boil->table->latent_j_per_kg / (1 - boil->reflux_ratio);
  double in_j, out_j = 0, lost_j = 0, drawn_j = 0, vapour_before = 0, mass;

  found_near ("water: start + fed − left against vapour, relative",
              (water_in - run->water_left_kg - run->evaporated_kg) / water_in, 0, 1e-9);
  found_near ("sugar: start + fed against left, relative",
              (sugar_in - run->left_kg * run->left_brix / 100) / sugar_in, 0, 1e-9);
  found_near ("figures agree: left kg, L and °Bx, relative",
              mass_kg (run->left_l, run->left_brix, run->left_temp_c) / run->left_kg, 1, 1e-12);
  found_near ("figures agree: left at 20 °C, relative",
              mass_kg (run->left_20c_l, run->left_brix, 20) / run->left_kg, 1, 1e-12);
  found_near ("sugar_in and sugar_out as stated, relative", run->sugar_in_kg / sugar_in, 1, 1e-12);
  found_near ("sugar_in and sugar_out as stated, relative", run->sugar_out_kg / run->sugar_in_kg, 1, 1e-9);
  g_assert_cmpfloat (run->fed_kg, >=, 0);
  g_assert_cmpfloat (run->fed_kg, <=, feed_kg * (1 + 1e-12));

  /* Heat, by trapezoids along the trace. */
  g_assert_cmpuint (run->n_trace, >=, 1);
  in_j = heat_j (start_kg, boil->start_brix, boil->start_c)
         + heat_j (run->fed_kg, boil->feed_brix, boil->feed_c);
  for (guint i = 0; i < run->n_trace; i++)
    {
      const FrTracePoint *p = &run->trace[i];
      double fed = feed_kg - mass_kg (p->feed_left_l, boil->feed_brix, boil->feed_c), vapour;

      if (!isfinite (p->volume_l) || !isfinite (p->brix) || !isfinite (p->temp_c)
          || !isfinite (p->feed_left_l))
        g_test_fail_printf ("trace point %u is not finite", i);
      mass = mass_kg (p->volume_l, p->brix, p->temp_c);
      vapour = start_kg + fed - mass;
      if (i > 0)
        {
          const FrTracePoint *o = p - 1;
          double span_s = p->time_s - o->time_s, mean_c = (p->temp_c + o->temp_c) / 2;

          g_assert_cmpfloat (span_s, >=, 0);
          if (run->ended_by != FR_END_NEVER_BOILS)
            g_assert_cmpfloat (span_s, <=, 301);
          drawn_j += o->power_w * span_s;
          /* A tripped pan that cools to the ice point loses no more; the loss fades over the last tenth of a kelvin. */
          lost_j += boil->wall_w_per_k * (mean_c - boil->air_c) * span_s
                    * (o->power_w == 0 && mean_c > boil->air_c ? CLAMP (mean_c / 0.1, 0, 1) : 1);
          out_j += (vapour - vapour_before) * (fr_water_enthalpy_j_per_kg (mean_c) + latent);
        }
      vapour_before = vapour;
    }
  found_near ("energy at the plug against the trace, relative",
              drawn_j / FR_JOULES_PER_KWH / MAX (run->energy_kwh, 1e-9), run->energy_kwh > 0 ? 1 : 0, 1e-9);
  in_j += run->energy_kwh * FR_JOULES_PER_KWH * boil->heat_ratio;
  out_j += heat_j (run->left_kg, run->left_brix, run->left_temp_c) + lost_j;
  if (run->ended_by != FR_END_NEVER_BOILS)
    found_near ("heat in against heat out by the trace, relative",
                (in_j - out_j) / (fabs (in_j) + 4e5 * start_kg), 0, 2e-3);
}

/* Whether the run ended on what it says. */
static void
check_end (const FrBoil *boil, const FrBoilRun *run)
{
  switch (run->ended_by)
    {
    case FR_END_CUTOFF:
      g_assert_cmpfloat (run->left_l, <=, boil->cutoff_l * (1 + 1e-8));
      if (run->time_s > run->boils_s)
        found_near ("volume at the cut-off, relative", run->left_l / boil->cutoff_l, 1, 1e-7);
      break;
    case FR_END_BRIX:
      g_assert_cmpfloat (run->left_brix, >=, boil->stop_brix - 1e-6);
      if (run->time_s > run->boils_s)
        found_near ("°Bx at the stop, °Bx", run->left_brix, boil->stop_brix, 1e-5);
      break;
    case FR_END_TIME:
      g_assert_cmpfloat (run->time_s, ==, boil->after_s);
      break;
    case FR_END_DRY_LIMIT:
      g_assert_true (run->left_l <= FR_DRY_LIMIT_L * (1 + 1e-6)
                     || run->left_brix >= FR_DRY_LIMIT_BRIX - 1e-5);
      break;
    default:
      g_assert_cmpint (run->ended_by, ==, FR_END_NEVER_BOILS);
    }
  /* No stop was run past. */
  if (!isnan (boil->after_s))
    g_assert_cmpfloat (run->time_s, <=, boil->after_s);
  if (!isnan (run->boils_s) && !isnan (boil->cutoff_l) && run->ended_by != FR_END_CUTOFF)
    g_assert_cmpfloat (run->left_l, >=, boil->cutoff_l * (1 - 1e-8));
}

static void
test_random (gconstpointer data)
{
  FrFeedKind kind = (FrFeedKind)GPOINTER_TO_INT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (1000 + kind);
  FrBoilTable table;
  guint ends[FR_N_ENDS] = { 0 };

  for (guint i = 0; i < N_RUNS; i++)
    {
      FrBoil boil = case_boil (rand, kind, &table);
      FrBoilRun run;
      FrBoilStatus status = fr_boil_run (&boil, TRUE, &run);

      if (status != FR_BOIL_OK)
        {
          FrBoilFault fault = { "none", 0, 0, 0 };

          fr_boil_check (&boil, &fault);
          g_test_fail_printf ("run %u of kind %d ended with status %d, fault %s %g", i, kind, status,
                              fault.name, fault.value);
          continue;
        }
      never_nan (&run);
      check_balances (&boil, &run);
      check_end (&boil, &run);
      ends[run.ended_by]++;
      fr_boil_run_clear (&run);
      if (g_test_failed ())
        {
          g_test_message ("first failure at run %u of kind %d", i, kind);
          return;
        }
    }
  for (guint end = 0; end < FR_N_ENDS; end++)
    printf ("# kind %s ended by %s: %u\n", fr_feed_code (kind), fr_end_code ((FrEnd)end), ends[end]);
  for (guint end = 0; end < FR_N_ENDS; end++)
    if (end != FR_END_NEVER_BOILS)
      g_assert_cmpuint (ends[end], >, 0);
}

/* The order of precedence: cut-off before °Brix before time, when all come at once. */
static void
test_precedence (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  for (guint i = 0; i < 200; i++)
    {
      FrBoil boil = evening ();
      FrBoilRun run;

      boil.power_w = between (rand, 600, 2500);
      boil.feed_l = between (rand, 1, 20);
      boil.cutoff_l = between (rand, 0.4, 1.3);
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
      boil.after_s = run.time_s;
      boil.stop_brix = run.left_brix;
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
      boil.cutoff_l = NAN;
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      g_assert_cmpint (run.ended_by, ==, FR_END_BRIX);
      boil.stop_brix = NAN;
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
    }
}

/* Cut-off and °Brix sleep until the first boil: a pan below its cut-off ends there, not at switch-on. */
static void
test_cutoff_sleeps (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.feed_l = 0;
  boil.cutoff_l = 2;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
  g_assert_cmpfloat (run.time_s, >, 60);
  g_assert_cmpfloat (run.time_s, ==, run.boils_s);
  g_assert_cmpfloat (run.evaporated_kg, ==, 0);
  g_assert_true (isnan (run.feed_dry_s));
  boil.cutoff_l = NAN;
  boil.stop_brix = 1;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_BRIX);
  g_assert_cmpfloat (run.time_s, ==, run.boils_s);
}

/* Too weak for the cold: it is known at time 0. */
static void
test_never_boils (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.wall_w_per_k = 20;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_NEVER_BOILS);
  g_assert_cmpfloat (run.time_s, ==, 0);
  g_assert_true (isnan (run.boils_s));
}

/* An empty pan is filled from the bucket at time 0. */
static void
test_filled_at_start (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.start_l = 0;
  g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
  found_near ("filled to hold at the start, L", run.trace[0].volume_l, 1.5, 1e-9);
  found_near ("filled to hold at the start, L", run.trace[0].feed_left_l, 10.5, 1e-9);
  fr_boil_run_clear (&run);
}

/* A level that rises and then falls: the crest is met and the lines it crosses are seen, however briefly. */
static void
test_crest (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;
  double crest_l = 0;

  boil.feed_kind = FR_FEED_HOLE;
  boil.hole_m2 = 0.62 * G_PI / 4 * 0.64e-6;
  boil.bucket_m2 = 0.05;
  boil.head_m = 0.01;
  boil.feed_l = 15;
  boil.start_c = 90;
  boil.cutoff_l = 0.8;
  g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
  for (guint i = 0; i < run.n_trace; i++)
    crest_l = MAX (crest_l, run.trace[i].volume_l);
  g_assert_cmpfloat (crest_l, >, 1.6);
  g_assert_cmpfloat (run.max_volume_l, >=, crest_l);
  fr_boil_run_clear (&run);
  for (guint i = 1; i <= 6; i++)
    {
      boil.rim_l = run.max_volume_l * (1 - pow (10, -(double)i));
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      g_assert_false (isnan (run.rim_s));
    }
}

/* A stream that cools a thinning pan off the boil: it calms, and the run goes on. */
static void
test_calms (void)
{
  guint calmed = 0;

  for (double brix = 30; brix <= 70; brix += 5)
    for (double rate = 0.5; rate <= 15; rate += 0.1)
      {
        FrBoil boil = evening ();
        FrBoilRun run;
        gboolean boiled = FALSE;

        boil.feed_kind = FR_FEED_STREAM;
        boil.stream_l_per_s = rate / 3600;
        boil.start_brix = brix;
        boil.start_c = fr_boil_table_temp_c (boil.table, brix, NULL);
        boil.cutoff_l = NAN;
        boil.feed_l = 50;
        boil.after_s = 6 * 3600;
        g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
        never_nan (&run);
        check_balances (&boil, &run);
        for (guint i = 0; i < run.n_trace; i++)
          {
            double gap = fr_boil_table_temp_c (boil.table, run.trace[i].brix, NULL) - run.trace[i].temp_c;

            boiled |= gap < 1e-9 && run.evaporated_kg > 0;
            if (boiled && gap > 0.01)
              {
                calmed++;
                break;
              }
          }
        g_assert_cmpuint (run.n_steps, <, 2000);
        fr_boil_run_clear (&run);
      }
  g_assert_cmpuint (calmed, >, 0);
}

/* The power trips on a freezing night while the feed runs on. */
static void
test_trip_in_the_cold (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.air_c = -25;
  boil.start_l = 5;
  boil.cutoff_l = NAN;
  boil.wall_w_per_k = 2;
  boil.trip_s = 3600;
  boil.after_s = 10 * 3600;
  boil.feed_kind = FR_FEED_STREAM;
  boil.stream_l_per_s = 0.1 / 3600;
  g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
  found_near ("energy after a trip, kWh", run.energy_kwh, 1.8, 1e-9);
  g_assert_cmpfloat (run.left_temp_c, <=, 0.5);
  g_assert_cmpfloat (run.left_temp_c, >=, -1);
  check_balances (&boil, &run);
  fr_boil_run_clear (&run);
}

/* Values at the edge of what is allowed are allowed. */
static void
test_edges (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.start_c = boil.feed_c = -1;
  for (double brix = 0; brix <= 70; brix += 0.7)
    {
      boil.start_brix = brix;
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
    }
  boil = evening ();
  boil.start_brix = 75;
  boil.feed_l = 0;
  boil.start_c = fr_boil_table_temp_c (boil.table, 75, NULL);
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  boil = evening ();
  boil.after_s = 0;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
  g_assert_cmpfloat (run.time_s, ==, 0);
}

typedef struct
{
  const char *name;
  gsize offset;
  double value;
} Bad;

#define BAD(member, value)                                                                                   \
  {                                                                                                          \
#member, G_STRUCT_OFFSET(FrBoil, member), value                                                          \
  }

static const Bad bads[] = {
  BAD (air_c, NAN),      BAD (air_c, 61),       BAD (power_w, 0),       BAD (power_w, NAN),
  BAD (heat_ratio, 0),   BAD (heat_ratio, 1.1), BAD (wall_w_per_k, -1), BAD (wall_w_per_k, NAN),
  BAD (reflux_ratio, 1), BAD (start_l, -1),     BAD (start_l, NAN),     BAD (start_brix, 76),
  BAD (start_brix, -1),  BAD (start_c, 150),    BAD (start_c, -2),      BAD (feed_l, -1),
  BAD (feed_l, NAN),     BAD (feed_brix, 71),   BAD (feed_c, 120),      BAD (hold_l, NAN),
  BAD (hold_l, 0.01),    BAD (cutoff_l, -1),    BAD (after_s, -1),      BAD (stop_brix, 101),
  BAD (trip_s, -1),
};

/* Each refusal names the member that is wrong. */
static void
test_refused (gconstpointer data)
{
  const Bad *bad = data;
  FrBoil boil = evening ();
  FrBoilFault fault = { NULL, 0, 0, 0 };
  FrBoilRun run;

  g_assert_true (fr_boil_check (&boil, &fault));
  G_STRUCT_MEMBER (double, &boil, bad->offset) = bad->value;
  g_assert_false (fr_boil_check (&boil, &fault));
  g_assert_cmpstr (fault.name, ==, bad->name);
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_BAD_INPUT);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boil/precedence", test_precedence);
  g_test_add_func ("/boil/cutoff-sleeps", test_cutoff_sleeps);
  g_test_add_func ("/boil/never-boils", test_never_boils);
  g_test_add_func ("/boil/filled-at-start", test_filled_at_start);
  g_test_add_func ("/boil/crest", test_crest);
  g_test_add_func ("/boil/calms", test_calms);
  g_test_add_func ("/boil/trip-in-the-cold", test_trip_in_the_cold);
  g_test_add_func ("/boil/edges", test_edges);
  for (guint i = 0; i < G_N_ELEMENTS (bads); i++)
    {
      g_autofree char *path = g_strdup_printf ("/boil/refused/%u-%s", i, bads[i].name);

      g_test_add_data_func (path, &bads[i], test_refused);
    }
  for (gint kind = 0; kind < FR_N_FEEDS; kind++)
    {
      g_autofree char *path = g_strdup_printf ("/boil/random/%s", fr_feed_code ((FrFeedKind)kind));

      g_test_add_data_func (path, GINT_TO_POINTER (kind), test_random);
    }
  return found_run ();
}
