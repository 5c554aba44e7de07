/* The boil against closed forms, handbook values and common practice, and its parts against theory. */
#include "domain/maths/boil-run.h"

#include "domain/maths/dormand-prince.h"
#include "domain/units/units.h"

#include "boil-cases.h"
#include "found.h"

static FrBoilTable sea_level;

static gboolean
swing (const double *state, double *rates, gpointer data)
{
  rates[0] = state[1];
  rates[1] = -sin (state[0]);
  return TRUE;
}

static double
swing_to (double end, guint steps, double *estimate_out)
{
  double state[2] = { 1, 0.5 }, rates[2], errors[2], sum = 0;

  for (guint i = 0; i < steps; i++)
    {
      swing (state, rates, NULL);
      g_assert_true (
          fr_dormand_prince_step (swing, NULL, 2, state, rates, end / steps, state, rates, errors));
      sum += fabs (errors[0]);
    }
  *estimate_out = sum;
  return state[0];
}

/* Source: theory: halving the step of a fifth-order method divides its error by 2⁵, and its estimate, of
 * order 4 a step, by 2⁴ over a fixed span. A pendulum; a wrong coefficient would show as a lower order. */
static void
test_order (void)
{
  double unused, exact = swing_to (5, 4096, &unused);

  for (guint steps = 32; steps <= 128; steps *= 2)
    {
      double rough, fine, ratio = fabs (swing_to (5, steps, &rough) - exact);

      ratio = log2 (ratio / fabs (swing_to (5, 2 * steps, &fine) - exact));
      found_near ("order of the integrator", ratio, 5, 0.3);
      found_near ("order of its error estimate", log2 (rough / fine), 4, 0.3);
    }
}

/* The table of boiling points against the formula it is made from. */
static void
test_table (void)
{
  for (double pressure_pa = 60e3; pressure_pa <= 110e3; pressure_pa += 12.5e3)
    {
      FrBoilTable table;

      g_assert_true (fr_boil_table_init (&table, pressure_pa));
      for (double brix = 0; brix <= 80; brix += 0.0937)
        {
          double slope, up, down;

          found_near ("table of boiling points, K", fr_boil_table_temp_c (&table, brix, &slope),
                      fr_sucrose_boil_temp_c (brix, pressure_pa), 1e-6);
          if (brix < 0.01 || brix > 79.9)
            continue;
          up = fr_sucrose_boil_temp_c (brix + 1e-3, pressure_pa);
          down = fr_sucrose_boil_temp_c (brix - 1e-3, pressure_pa);
          found_near ("slope of the table, K/°Bx", slope, (up - down) / 2e-3, 1e-5);
        }
      g_assert_true (isnan (fr_boil_table_temp_c (&table, 80.1, NULL)));
      g_assert_true (isnan (fr_boil_table_temp_c (&table, -0.1, NULL)));
      g_assert_true (isnan (fr_boil_table_temp_c (&table, NAN, NULL)));
    }
  g_assert_false (fr_boil_table_init (&(FrBoilTable){ 0 }, 20e3));
  g_assert_false (fr_boil_table_init (&(FrBoilTable){ 0 }, NAN));
}

/* Source: worked out apart from this code by the author of the conventions: cut-off after about 6.6 h at
 * about 31.3 °Bx. */
static void
test_example (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;

  boil.after_s = 43200;
  boil.stop_brix = 60;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
  found_near ("the example's end, h", run.time_s / 3600, 6.6, 0.05);
  found_near ("the example's end, °Bx", run.left_brix, 31.3, 0.05);
}

/* Source: closed form. Plain water: an exponential up to the boil, then E = q / L down to hold, E = q / (L +
 * c (T − T_feed)) while it is fed, and E = q / L from dry to the cut-off. */
static void
test_plain_water (gconstpointer data)
{
  double wall = *(const double *)data;
  FrBoil boil = evening ();
  FrBoilRun run;
  double c = 4186.8, boils, latent, rho_boil, start_kg, feed_kg, heat, warm_s, down_s, fed_s, last_s, q;

  boil.wall_w_per_k = wall;
  boil.start_brix = boil.feed_brix = 0;
  boil.start_c = 6;
  boil.reflux_ratio = 0.1;
  boils = boil.table->water_boils_c;
  latent = boil.table->latent_j_per_kg / 0.9;
  rho_boil = fr_water_density_kg_m3 (boils);
  start_kg = mass_kg (boil.start_l, 0, 6);
  feed_kg = mass_kg (boil.feed_l, 0, 3);
  heat = boil.power_w * boil.heat_ratio;
  q = heat - wall * (boils - boil.air_c);
  warm_s = wall > 0 ? start_kg * c / wall
                          * log ((boil.air_c + heat / wall - 6) / (boil.air_c + heat / wall - boils))
                    : start_kg * c * (boils - 6) / heat;
  down_s = (start_kg - 1e-3 * boil.hold_l * rho_boil) * latent / q;
  fed_s = feed_kg * (latent + c * (boils - 3)) / q;
  last_s = 1e-3 * (boil.hold_l - boil.cutoff_l) * rho_boil * latent / q;

  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
  found_near ("plain water to the boil, relative", run.boils_s / warm_s, 1, 1e-7);
  found_near ("steady state of a held level, relative", (run.feed_dry_s - warm_s - down_s) / fed_s, 1, 1e-7);
  found_near ("plain water to the cut-off, relative", run.time_s / (warm_s + down_s + fed_s + last_s), 1,
              1e-7);
  found_near ("plain water, energy, relative",
              run.energy_kwh * FR_JOULES_PER_KWH / (boil.power_w * run.time_s), 1, 1e-9);
}

static const double walls[] = { 0, 0.9, 5 };

/* Source: energy handbooks: 1.8 kW × 0.85 from 4 °C evaporates 2.07 L/h, 1.5 kW × 0.85 1.73, × 0.75 1.52, 500
 * W × 0.85 0.58; litres of cold water fed, sea level. */
static void
test_handbook_rates (void)
{
  static const struct
  {
    double power_w, ratio, l_per_h;
  } rows[] = { { 1800, 0.85, 2.07 }, { 1500, 0.85, 1.73 }, { 1500, 0.75, 1.52 }, { 500, 0.85, 0.58 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      FrBoil boil = evening ();
      double state[FR_N_STATE] = { 1.5, 0, 0, 10, 0, 0 }, rates[FR_N_STATE];
      FrBoilMode mode = { .boiling = TRUE, .holding = TRUE };
      FrBoilMoment moment;

      boil.table = &sea_level;
      boil.power_w = rows[i].power_w;
      boil.heat_ratio = rows[i].ratio;
      boil.wall_w_per_k = 0;
      boil.feed_brix = 0;
      boil.feed_c = 4;
      g_assert_true (fr_boil_rates (&boil, &mode, state, rates, &moment));
      found_near ("handbook evaporation, L/h", moment.feed_kg_per_s * 3600, rows[i].l_per_h, 0.006);
      found_near ("steady vapour equals feed, relative", moment.vapour_kg_per_s / moment.feed_kg_per_s, 1,
                  1e-12);
    }
}

/* Source: closed form. Below the boil a fixed stream into water that neither gains nor loses heat but by the
 * stream: volume and temperature are straight mixing. */
static void
test_stream (void)
{
  FrBoil boil = evening ();
  FrBoilRun run;
  double start_kg, fed_kg, rate = 2.0 / 3600;

  boil.feed_kind = FR_FEED_STREAM;
  boil.stream_l_per_s = rate;
  boil.start_brix = boil.feed_brix = 0;
  boil.start_c = 40;
  boil.feed_c = 10;
  boil.cutoff_l = NAN;
  boil.wall_w_per_k = 0;
  boil.trip_s = 0;
  boil.after_s = 3 * 3600;
  boil.rim_l = 4.5;
  start_kg = mass_kg (1.5, 0, 40);
  g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_TIME);
  fed_kg = rate * 3 * 3600 * 1e-3 * fr_water_density_kg_m3 (10);
  found_near ("stream, fed, relative", run.fed_kg / fed_kg, 1, 1e-12);
  found_near ("stream, mixed temperature, K", run.left_temp_c,
              (start_kg * 40 + fed_kg * 10) / (start_kg + fed_kg), 1e-6);
  for (guint i = 0; i < run.n_trace; i++)
    {
      double in_kg = rate * run.trace[i].time_s * 1e-3 * fr_water_density_kg_m3 (10);
      double mixed_c = (start_kg * 40 + in_kg * 10) / (start_kg + in_kg);

      found_near ("stream, volume, relative",
                  run.trace[i].volume_l / (1e3 * (start_kg + in_kg) / fr_water_density_kg_m3 (mixed_c)), 1,
                  1e-7);
    }
  g_assert_cmpfloat_with_epsilon (fr_boil_run_at (&run, run.rim_s).volume_l, 4.5, 1e-4);
  g_assert_cmpfloat (run.energy_kwh, ==, 0);
  fr_boil_run_clear (&run);
}

/* Source: Torricelli's law; the time for the head to fall from h0 to h1 is A / (Cd a) √(2 / g) (√h0 − √h1).
 */
static void
test_hole (void)
{
  static const double heads_m[] = { 0, 0.1, 0.5 };

  for (guint i = 0; i < G_N_ELEMENTS (heads_m); i++)
    {
      FrBoil boil = evening ();
      FrBoilRun run;
      double h0, h1 = heads_m[i], drains_s;

      boil.feed_kind = FR_FEED_HOLE;
      boil.hole_m2 = 0.62 * G_PI / 4 * 1e-6;
      boil.bucket_m2 = 0.05;
      boil.head_m = h1;
      boil.feed_l = 15;
      boil.cutoff_l = NAN;
      boil.trip_s = 0;
      boil.wall_w_per_k = 0;
      boil.after_s = 10 * 86400;
      h0 = h1 + 0.015 / 0.05;
      drains_s = boil.bucket_m2 / boil.hole_m2 * sqrt (2 / 9.80665) * (sqrt (h0) - sqrt (h1));
      g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
      /* The last billionth of the bucket is not waited for: √1e-9 of the time at no head. */
      found_near (h1 > 0 ? "falling head, relative" : "falling head to nothing, relative",
                  run.feed_dry_s / drains_s, 1, h1 > 0 ? 1e-7 : 5e-5);
    }
}

/* Source: common practice, no source: an electric wok of the 1.5 kW class boils down roughly 2 cm an hour.
 * Wok of 34 cm, 9 cm deep, from 8 cm, heat ratio 0.75 from practice. */
static void
test_wok_falls (void)
{
  FrVessel wok = { .shape = FR_SHAPE_CAP, .a_m = 0.17, .height_m = 0.09 };
  FrBoil boil = evening ();
  FrBoilRun run;
  double fall_cm_per_h;

  boil.table = &sea_level;
  boil.power_w = 1500;
  boil.heat_ratio = 0.75;
  boil.wall_w_per_k = 0;
  boil.feed_l = 0;
  boil.start_l = fr_vessel_volume_l (&wok, 0.08);
  boil.start_c = 99;
  boil.cutoff_l = fr_vessel_volume_l (&wok, 0.05);
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  g_assert_cmpint (run.ended_by, ==, FR_END_CUTOFF);
  fall_cm_per_h = 3 / ((run.time_s - run.boils_s) / 3600);
  found_near ("fall of a wok's level, cm/h", fall_cm_per_h, 2, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  if (!fr_boil_table_init (&sea_level, 101325))
    g_error ("no table");
  g_test_add_func ("/boil-forms/order", test_order);
  g_test_add_func ("/boil-forms/table", test_table);
  g_test_add_func ("/boil-forms/example", test_example);
  for (guint i = 0; i < G_N_ELEMENTS (walls); i++)
    {
      g_autofree char *path = g_strdup_printf ("/boil-forms/plain-water/%u", i);

      g_test_add_data_func (path, &walls[i], test_plain_water);
    }
  g_test_add_func ("/boil-forms/handbook-rates", test_handbook_rates);
  g_test_add_func ("/boil-forms/stream", test_stream);
  g_test_add_func ("/boil-forms/hole", test_hole);
  g_test_add_func ("/boil-forms/wok-falls", test_wok_falls);
  return found_run ();
}
