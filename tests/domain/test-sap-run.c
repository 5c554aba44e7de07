/* Sap through the air, against closed forms of cooling, freezing and melting and an integration written
 * apart. */
#include "domain/maths/sap-body.h"

#include "found.h"

/* Stated by the code's sources and repeated here on purpose. */
#define WATER_J_PER_KG_K 4186.8
#define FUSION_J_PER_KG 333.6e3
#define ICE_J_PER_KG_K 2060.0
#define ICE_W_PER_M_K 2.2
#define ICE_KG_PER_M3 917.0

static GArray *
trace_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (FrSapBodyMoment));
}

static FrSapBodyMoment
moment (const GArray *trace, guint i)
{
  return g_array_index (trace, FrSapBodyMoment, i);
}

/* Newton's cooling, T = air + (T0 − air) exp (−t loss / (m c)) (Incropera and DeWitt, lumped capacitance,
 * from memory), of water, whose specific heat does not change here; and the instant at which the air below 0
 * °C brings it to 0. */
static void
test_cooling (void)
{
  const FrSapHold hold = { 2.5, NAN };
  const FrAirKnot cool = { 0, 3 }, cold = { 0, -10 };
  const double span_s = 10 * WATER_J_PER_KG_K / 2.5;
  g_autoptr (GArray) trace = trace_new ();
  g_autoptr (GArray) frost = trace_new ();
  FrSapBody body = fr_sap_body_at (10, 0, 25);
  gint64 utc;

  fr_sap_body_run (&body, &hold, &cool, 1, 0, 100000, 1000, trace);
  g_assert_cmpuint (trace->len, ==, 101);
  for (guint i = 0; i < trace->len; i++)
    found_near ("lumped cooling, K", moment (trace, i).temp_c,
                3 + 22 * exp (-(double)moment (trace, i).utc_s / span_s), 1e-6);
  body = fr_sap_body_at (10, 0, 25);
  fr_sap_body_run (&body, &hold, &cold, 1, 0, 100000, 10000, frost);
  g_assert_true (fr_sap_trace_freezes_utc (frost, &utc));
  found_near ("first ice of water, s", (double)utc, span_s * log (35.0 / 10), 0.51);
}

/* Air that climbs: T lags behind by what it climbs in one time constant. */
static void
test_ramp (void)
{
  const FrSapHold hold = { 2.5, NAN };
  const FrAirKnot air[] = { { 0, 2 }, { 50000, 22 } };
  const double span_s = 10 * WATER_J_PER_KG_K / 2.5, per_s = 20.0 / 50000;
  g_autoptr (GArray) trace = trace_new ();
  FrSapBody body = fr_sap_body_at (10, 0, 7);

  fr_sap_body_run (&body, &hold, air, 2, 0, 50000, 1800, trace);
  for (guint i = 0; i < trace->len; i++)
    {
      double t = (double)moment (trace, i).utc_s;

      found_near ("air that climbs, K", moment (trace, i).temp_c,
                  2 + per_s * (t - span_s) + (5 + per_s * span_s) * exp (-t / span_s), 1e-6);
    }
}

/* Sap's specific heat moves little with temperature, so that the lumped form holds nearly: 2 °Bx is 4136.6
 * J/(kg K). */
static void
test_cooling_sap (void)
{
  const FrSapHold hold = fr_sap_hold (10, FR_INSULATION_BARE);
  const FrAirKnot air = { 0, 1 };
  FrSapBody body = fr_sap_body_at (10, 0.2, 12);

  fr_sap_body_run (&body, &hold, &air, 1, 0, 20000, 20000, NULL);
  found_near ("sap cooling, K", body.temp_c, 1 + 11 * exp (-20000 * hold.loss_w_per_k / (10 * 4136.6)),
              0.002);
}

/* Ice on 0.25 m² of water at 0 °C: s / h + s² / (2 k) = ΔT t / (ρ L) (Stefan 1891 with a surface coefficient,
 * quasi-steady, as in textbooks of heat transfer, from memory). */
static double
stefan_m (double h, double cold_k, double t_s)
{
  double a = 1 / (2 * ICE_W_PER_M_K), b = 1 / h, c = cold_k * t_s / (ICE_KG_PER_M3 * FUSION_J_PER_KG);

  return (-b + sqrt (b * b + 4 * a * c)) / (2 * a);
}

static void
test_stefan (void)
{
  const struct
  {
    double h, cold_k;
  } cases[] = { { 10, 5 }, { 10, 20 }, { 25, 10 }, { 1.3, 15 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const FrSapHold hold = { cases[i].h * 0.25, 0.25 };
      const FrAirKnot air = { 0, -cases[i].cold_k };
      g_autoptr (GArray) trace = trace_new ();
      FrSapBody body = fr_sap_body_at (50, 0, 0);

      fr_sap_body_run (&body, &hold, &air, 1, 0, 500000, 25000, trace);
      for (guint k = 1; k < trace->len; k++)
        {
          double ice_m = moment (trace, k).ice_kg / (ICE_KG_PER_M3 * 0.25),
                 wanted_m = stefan_m (cases[i].h, cases[i].cold_k, (double)moment (trace, k).utc_s);

          if (wanted_m * ICE_KG_PER_M3 * 0.25 < 50)
            found_near ("Stefan with a surface coefficient, relative", ice_m / wanted_m, 1, 1e-6);
        }
    }
}

/* Without resistance at the surface s = √(2 k ΔT t / (ρ L)); and Neumann's exact answer of one phase (Carslaw
 * and Jaeger, from memory): s = 2 λ √(α t), √π λ exp (λ²) erf λ = c ΔT / L, which counts the cold that the
 * ice itself holds. */
static void
test_neumann (void)
{
  const FrSapHold hold = { 1e6, 0.25 };
  const double colds_k[] = { 2, 5, 10, 20 };

  for (guint i = 0; i < G_N_ELEMENTS (colds_k); i++)
    {
      const FrAirKnot air = { 0, -colds_k[i] };
      double lo = 0, hi = 1, alpha = ICE_W_PER_M_K / (ICE_KG_PER_M3 * ICE_J_PER_KG_K), ice_m;
      FrSapBody body = fr_sap_body_at (50000, 0, 0);

      fr_sap_body_run (&body, &hold, &air, 1, 0, 400000, 400000, NULL);
      ice_m = body.ice_kg / (ICE_KG_PER_M3 * 0.25);
      found_near ("Stefan's root of time, relative",
                  ice_m / sqrt (2 * ICE_W_PER_M_K * colds_k[i] * 400000 / (ICE_KG_PER_M3 * FUSION_J_PER_KG)),
                  1, 1e-4);
      for (guint k = 0; k < 60; k++)
        {
          double lambda = (lo + hi) / 2;

          if (sqrt (G_PI) * lambda * exp (lambda * lambda) * erf (lambda)
              > ICE_J_PER_KG_K * colds_k[i] / FUSION_J_PER_KG)
            hi = lambda;
          else
            lo = lambda;
        }
      /* The next term of the series is a sixth of c ΔT / L. */
      found_near ("Neumann, one phase, relative to c ΔT / L / 6",
                  (ice_m / (2 * lo * sqrt (alpha * 400000)) - 1)
                      / (ICE_J_PER_KG_K * colds_k[i] / FUSION_J_PER_KG / 6),
                  1, 0.05);
    }
}

/* Plank's time to freeze a slab of thickness a from both sides, ρ L / ΔT (a / (2 h) + a² / (8 k)) (ASHRAE
 * Handbook, Refrigeration, from memory). */
static void
test_plank (void)
{
  const double a_m = 0.08, h = 15, cold_k = 12, area_m2 = 2 * 0.3,
               time_s
               = ICE_KG_PER_M3 * FUSION_J_PER_KG / cold_k * (a_m / (2 * h) + a_m * a_m / (8 * ICE_W_PER_M_K));
  const FrSapHold hold = { h * area_m2, area_m2 };
  const FrAirKnot air = { 0, -cold_k };
  g_autoptr (GArray) trace = trace_new ();
  double mass_kg = ICE_KG_PER_M3 * a_m * 0.3;
  FrSapBody body = fr_sap_body_at (mass_kg, 0, 0);
  gint64 utc;

  fr_sap_body_run (&body, &hold, &air, 1, 0, 400000, 60, trace);
  g_assert_true (fr_sap_trace_ice_utc (trace, mass_kg, 0.5, &utc));
  found_near (
      "half of it, by the same, relative",
      (double)utc
          / (ICE_KG_PER_M3 * FUSION_J_PER_KG / cold_k * (a_m / (4 * h) + a_m * a_m / (32 * ICE_W_PER_M_K))),
      1, 1e-4);
  g_assert_true (fr_sap_trace_ice_utc (trace, mass_kg, 1 - 1e-9, &utc));
  found_near ("Plank's freezing time, relative", (double)utc / time_s, 1, 1e-3);
  found_near ("frozen through, then cold as the air, K", body.temp_c, -cold_k, 0.5);
  g_assert_cmpfloat (body.temp_c, <, -5);
}

/* 4 kg of ice in 6 kg of water melt in m L / (loss ΔT); no ice stands in the way of heat that goes in. */
static void
test_melting (void)
{
  const FrSapHold hold = { 2.5, 0.25 };
  const FrAirKnot air = { 1000, 8 };
  const double span_s = 4 * FUSION_J_PER_KG / (2.5 * 8);
  g_autoptr (GArray) trace = trace_new ();
  FrSapBody body = { 10, 0, 0, 4 };
  gint64 utc;

  fr_sap_body_run (&body, &hold, &air, 1, 1000, 101000, 3600, trace);
  g_assert_true (fr_sap_trace_thawed_utc (trace, &utc));
  found_near ("melting, s", (double)(utc - 1000), span_s, 1);
  found_near ("and warming after it, K", body.temp_c,
              8 - 8 * exp (-(100000 - span_s) * 2.5 / (10 * WATER_J_PER_KG_K)), 1e-6);
  g_assert_true (fr_sap_trace_freezes_utc (trace, &utc));
  g_assert_cmpint (utc, ==, 1000);
}

/* The same written apart: T is the state, heat is searched for by halving, steps are short and plain
 * (midpoint). */
static double
apart_heat_j (double mass_kg, double sugar_kg, double temp_c, double *ice_kg_out)
{
  double ice_kg = 0;

  if (temp_c < fr_sap_freezing_c (100 * sugar_kg / mass_kg))
    {
      double lo = 100 * sugar_kg / mass_kg, hi = 80;

      for (guint i = 0; i < 48; i++)
        {
          double brix = (lo + hi) / 2;

          if (fr_sap_freezing_c (brix) > temp_c)
            lo = brix;
          else
            hi = brix;
        }
      ice_kg = mass_kg - 100 * sugar_kg / lo;
    }
  *ice_kg_out = ice_kg;
  return sugar_kg * (1676.8 + 3.75 * temp_c) * temp_c
         + (mass_kg - sugar_kg - ice_kg) * WATER_J_PER_KG_K * temp_c
         + ice_kg * (ICE_J_PER_KG_K * temp_c - FUSION_J_PER_KG);
}

static double
apart_temp_c (double mass_kg, double sugar_kg, double heat_j, double *ice_kg_out)
{
  double lo = -12, hi = 20;

  for (guint i = 0; i < 44; i++)
    {
      double middle = (lo + hi) / 2;

      if (apart_heat_j (mass_kg, sugar_kg, middle, ice_kg_out) < heat_j)
        lo = middle;
      else
        hi = middle;
    }
  apart_heat_j (mass_kg, sugar_kg, lo, ice_kg_out);
  return lo;
}

static double
apart_rate_w (const FrSapHold *hold, double air_c, double temp_c, double ice_kg)
{
  double r = 1 / hold->loss_w_per_k;

  if (temp_c > air_c)
    r += ice_kg / (ICE_KG_PER_M3 * ICE_W_PER_M_K * hold->freeze_m2 * hold->freeze_m2);
  return (air_c - temp_c) / r;
}

/* Three days by sine, the first night -10 °C and each day warmer: it freezes and thaws. */
static void
test_apart (void)
{
  const FrSapHold hold = fr_sap_hold (10, FR_INSULATION_BARE);
  FrAirKnot air[73];
  g_autoptr (GArray) trace = trace_new ();
  FrSapBody body = fr_sap_body_at (10, 0.2, 2);
  double ice_kg, heat_j = apart_heat_j (10, 0.2, 2, &ice_kg), most_kg = 0;
  guint seen = 0;

  for (guint h = 0; h <= 72; h++)
    air[h] = (FrAirKnot){ 3600 * h, -3 + h / 9.0 + 8 * sin (2 * G_PI * (h + 12) / 24) };
  fr_sap_body_run (&body, &hold, air, 73, 0, 72 * 3600, 3600, trace);
  for (gint t = 0; t <= 72 * 3600; t += 60)
    {
      double temp_c = apart_temp_c (10, 0.2, heat_j, &ice_kg), half_j, half_c, half_kg;

      while (seen < trace->len && moment (trace, seen).utc_s < t)
        seen++;
      if (t % 3600 == 0)
        {
          while (seen + 1 < trace->len && moment (trace, seen + 1).utc_s == t)
            seen++;
          found_near ("three days, written apart: temperature, K", moment (trace, seen).temp_c, temp_c, 1e-4);
          found_near ("three days, written apart: ice, kg", moment (trace, seen).ice_kg, ice_kg, 1e-4);
        }
      most_kg = MAX (most_kg, ice_kg);
      half_j = heat_j + 30 * apart_rate_w (&hold, fr_air_temp_c (air, 73, t), temp_c, ice_kg);
      half_c = apart_temp_c (10, 0.2, half_j, &half_kg);
      heat_j += 60 * apart_rate_w (&hold, fr_air_temp_c (air, 73, t + 30), half_c, half_kg);
    }
  g_assert_cmpfloat (most_kg, >, 1);
  g_assert_cmpfloat (body.ice_kg, ==, 0);
}

/* What crossed the wall is what the body lost: Simpson's rule on its own temperatures, every 10 s, air on a
 * saw. And the answer does not depend on how often one looks. */
static void
test_energy (void)
{
  const FrSapHold hold = { 2.5, NAN };
  const FrAirKnot air[] = { { 0, 6 }, { 20000, -14 }, { 50000, -3 }, { 50000, 4 }, { 90000, 9 } };
  const double brixes[] = { 0, 0.5, 2, 4, 20 };

  for (guint i = 0; i < G_N_ELEMENTS (brixes); i++)
    {
      g_autoptr (GArray) trace = trace_new ();
      FrSapBody body = fr_sap_body_at (10, brixes[i] / 10, 5), start = body, seldom = body;
      double sum_j = 0, latent_j = 10 * FUSION_J_PER_KG, gap[3];
      guint n = 0;

      fr_sap_body_run (&body, &hold, air, 5, 0, 90000, 10, trace);
      for (guint k = 0; k < trace->len; k++)
        {
          FrSapBodyMoment here = moment (trace, k);
          double air_c = here.utc_s == 50000 && n == 2 ? -3 : fr_air_temp_c (air, 5, here.utc_s);

          if (here.utc_s % 10 != 0)
            continue; /* the first ice */
          gap[n++] = hold.loss_w_per_k * (air_c - here.temp_c);
          if (n == 3)
            {
              sum_j += 20.0 / 6 * (gap[0] + 4 * gap[1] + gap[2]);
              gap[0] = hold.loss_w_per_k * (fr_air_temp_c (air, 5, here.utc_s) - here.temp_c);
              n = 1;
            }
        }
      found_near ("heat through the wall, of the heat of all its ice",
                  (fr_sap_body_heat_j (&body) - fr_sap_body_heat_j (&start) - sum_j) / latent_j, 0, 1e-7);
      fr_sap_body_run (&seldom, &hold, air, 5, 0, 90000, 90000, NULL);
      found_near ("however seldom one looks, of the heat of all its ice",
                  (fr_sap_body_heat_j (&body) - fr_sap_body_heat_j (&seldom)) / latent_j, 0, 1e-7);
      g_assert_cmpfloat (body.mass_kg, ==, start.mass_kg);
      g_assert_cmpfloat (body.sugar_kg, ==, start.sugar_kg);
    }
}

/* By hand: 10 L as high as wide are 23.35 cm, wall, bottom and surface 0.2569 m². */
static void
test_hold (void)
{
  FrSapHold bare = fr_sap_hold (10, FR_INSULATION_BARE);

  found_near ("a bucket of 10 L, m2", bare.freeze_m2, 0.2569, 5e-5);
  found_near ("its loss, W/K", bare.loss_w_per_k, 2.569, 5e-4);
  found_near ("eight times the volume, four times the loss",
              fr_sap_hold (80, FR_INSULATION_WRAPPED).loss_w_per_k, 4 * 0.13 * bare.loss_w_per_k, 1e-9);
  g_assert_cmpfloat (fr_sap_hold (10, FR_INSULATION_CHEST).loss_w_per_k, <,
                     fr_sap_hold (10, FR_INSULATION_WRAPPED).loss_w_per_k);
  g_assert_true (isnan (fr_sap_hold (NAN, FR_INSULATION_BARE).loss_w_per_k));
  g_assert_true (isnan (fr_sap_hold (0, FR_INSULATION_BARE).loss_w_per_k));
  for (FrInsulation i = 0; i < FR_N_INSULATIONS; i++)
    {
      FrInsulation back;

      g_assert_true (fr_insulation_from_code (fr_insulation_code (i), &back));
      g_assert_cmpint (back, ==, i);
    }
  g_assert_false (fr_insulation_from_code ("foil", &(FrInsulation){ 0 }));
  g_assert_false (fr_insulation_from_code (NULL, &(FrInsulation){ 0 }));
}

static void
test_unknown (void)
{
  const FrSapHold hold = { 2.5, 0.25 }, apart = { NAN, NAN };
  const FrAirKnot gap[] = { { 0, -5 }, { 5000, -5 }, { 5000, NAN }, { 9000, NAN }, { 9000, -5 } };
  g_autoptr (GArray) trace = trace_new ();
  FrSapBody body = fr_sap_body_at (10, 0.2, 10), start = body;
  gint64 utc;

  /* Known until the air is not, and not again. */
  fr_sap_body_run (&body, &hold, gap, 5, 0, 20000, 1000, trace);
  g_assert_true (isnan (body.temp_c) && isnan (body.ice_kg));
  g_assert_cmpfloat (body.mass_kg, ==, 10);
  for (guint i = 0; i < trace->len; i++)
    g_assert_cmpint (isnan (moment (trace, i).temp_c) != 0, ==, moment (trace, i).utc_s > 5000);
  g_assert_false (fr_sap_trace_freezes_utc (trace, &utc));
  g_assert_false (fr_sap_trace_ice_utc (trace, 10, 0.1, &utc));
  g_assert_false (fr_sap_trace_thawed_utc (trace, &utc));

  body = start;
  fr_sap_body_run (&body, &hold, NULL, 0, 0, 20000, 1000, NULL);
  g_assert_true (isnan (body.temp_c));

  /* Nothing exchanged: air unknown or not. */
  g_array_set_size (trace, 0);
  body = start;
  fr_sap_body_run (&body, &apart, gap, 5, 0, 20000, 1000, trace);
  g_assert_cmpmem (&body, sizeof body, &start, sizeof start);
  for (guint i = 0; i < trace->len; i++)
    g_assert_cmpfloat (moment (trace, i).temp_c, ==, 10);

  body = fr_sap_body_at (10, 0.2, NAN);
  fr_sap_body_run (&body, &hold, gap, 2, 0, 20000, 1000, NULL);
  g_assert_true (isnan (body.temp_c));

  /* No time at all. */
  g_array_set_size (trace, 0);
  body = start;
  fr_sap_body_run (&body, &hold, gap, 5, 7, 7, 1000, trace);
  g_assert_cmpuint (trace->len, ==, 1);
  g_assert_cmpmem (&body, sizeof body, &start, sizeof start);
}

/* A spoonful in a bucket, and nothing in it, have the air's temperature; a season of it takes no time. */
static void
test_spoonful (void)
{
  const FrSapHold hold = { 2.5, 0.25 };
  const FrAirKnot air[] = { { 0, 3 }, { 20000, -7 }, { 40000, 4 }, { 60000, NAN }, { 60000, 5 } };
  const double masses_kg[] = { 0, 1e-12, 1e-6, 0.01, 0.05 };

  for (guint i = 0; i < G_N_ELEMENTS (masses_kg); i++)
    {
      FrSapBody body = fr_sap_body_at (masses_kg[i], masses_kg[i] / 50, 20);

      fr_sap_body_run (&body, &hold, air, 3, 0, 30000, 3600, NULL);
      if (i < 4)
        found_near ("a spoonful, K", body.temp_c, -1.5, 1e-12);
      fr_sap_body_run (&body, &hold, air, 3, 30000, 60 * 86400, 3600, NULL);
      found_near ("after a season, K", body.temp_c, 4, 1e-6);
      g_assert_cmpfloat (body.mass_kg, ==, masses_kg[i]);
    }
}

static void
test_questions (void)
{
  const FrSapBodyMoment moments[]
      = { { 0, 1, 0 },       { 100, -0.1, 0 },  { 100, -0.1, 0 }, { 200, -0.12, 1 },
          { 300, -0.14, 3 }, { 400, -0.12, 2 }, { 500, -0.1, 0 }, { 600, 1, 0 } };
  g_autoptr (GArray) trace = trace_new ();
  gint64 utc;

  g_assert_false (fr_sap_trace_freezes_utc (trace, &utc));
  g_array_append_vals (trace, moments, G_N_ELEMENTS (moments));
  g_assert_true (fr_sap_trace_freezes_utc (trace, &utc));
  g_assert_cmpint (utc, ==, 100);
  g_assert_true (fr_sap_trace_ice_utc (trace, 10, 0.2, &utc));
  g_assert_cmpint (utc, ==, 250);
  g_assert_true (fr_sap_trace_ice_utc (trace, 10, 0.1, &utc));
  g_assert_cmpint (utc, ==, 200);
  g_assert_false (fr_sap_trace_ice_utc (trace, 10, 0.31, &utc));
  g_assert_true (fr_sap_trace_thawed_utc (trace, &utc));
  g_assert_cmpint (utc, ==, 500);
  g_array_set_size (trace, 6);
  g_assert_false (fr_sap_trace_thawed_utc (trace, &utc));
  g_array_remove_range (trace, 0, 3);
  g_assert_true (fr_sap_trace_freezes_utc (trace, &utc));
  g_assert_cmpint (utc, ==, 200);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-run/cooling/water", test_cooling);
  g_test_add_func ("/sap-run/cooling/ramp", test_ramp);
  g_test_add_func ("/sap-run/cooling/sap", test_cooling_sap);
  g_test_add_func ("/sap-run/freezing/stefan", test_stefan);
  g_test_add_func ("/sap-run/freezing/neumann", test_neumann);
  g_test_add_func ("/sap-run/freezing/plank", test_plank);
  g_test_add_func ("/sap-run/melting", test_melting);
  g_test_add_func ("/sap-run/apart", test_apart);
  g_test_add_func ("/sap-run/energy", test_energy);
  g_test_add_func ("/sap-run/hold", test_hold);
  g_test_add_func ("/sap-run/unknown", test_unknown);
  g_test_add_func ("/sap-run/spoonful", test_spoonful);
  g_test_add_func ("/sap-run/questions", test_questions);
  return found_run ();
}
