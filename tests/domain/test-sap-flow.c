/* The run of sap against another author's output and closed forms, the learning against a posterior written apart on a finer grid, the
 * fit against seasons whose members are known. */
#include "air-cases.h"

#include "domain/maths/chance.h"
#include "domain/maths/sap-fit.h"

#include "found.h"

#include <string.h>

#define FLOOR_PER_H (0.002 / 24)

/* The reference form: wood that follows at once, no ice, no end, frost below −1 and thaw above 0 °C. */
static const FrSapShape reference = { .lag_h = 1e-9,
                                      .thaw_c = 0,
                                      .rest_k = 1,
                                      .charge_h = 3,
                                      .drain_per_k_h = 0.0025,
                                      .cap_k = 15,
                                      .ice_k_h = 1e12,
                                      .age_days = 150,
                                      .end_k_days = 1e9 };

/* Source: sap-reference-form.csv, computed by another author's program; rounded to 1e-5. Each season starts empty on 1 January. */
static void
test_reference_form (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (GPtrArray) days = test_table_load ("sap-site-days.csv");
  g_autoptr (GPtrArray) wanted = test_table_load ("sap-reference-form.csv");
  g_autoptr (FrAirHours) air = NULL;
  g_autofree double *hours = NULL;

  for (guint i = 0; i < days->len; i++)
    {
      const TestRow *row = g_ptr_array_index (days, i);

      add_day (weather, test_row_text (row, "date"), test_row_number (row, "tmin_c"), test_row_number (row, "tmax_c"));
    }
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, 0);
  hours = g_new0 (double, air->n_hours);
  for (gint year = 2013; year <= 2014; year++)
    {
      FrSapState state = { .wood_c = NAN };
      guint from = (guint)fr_air_hours_midnight (air, (FrDate){ year, 1, 1 });
      guint to = (guint)fr_air_hours_midnight (air, (FrDate){ year, 5, 1 });
      gint64 tapped = G_MAXINT64;

      fr_sap_run (&reference, &state, air->temp_c + from, to - from, hours + from);
      for (guint i = 0; i < wanted->len; i++)
        {
          const TestRow *row = g_ptr_array_index (wanted, i);
          double sum = 0;
          FrDate date;
          gint64 at;

          g_assert_true (fr_date_parse (test_row_text (row, "date"), &date));
          if (date.year != year)
            continue;
          at = fr_air_hours_midnight (air, date);
          tapped = MIN (tapped, at);
          for (guint h = 0; h < 24; h++)
            sum += (hours[at + h] - FLOOR_PER_H) * fr_sap_age_ratio (&reference, (double)(at + h - tapped) / 24);
          found_near ("units of a date against the reference form", sum, test_row_number (row, "reservoir_units"), 1e-4);
        }
    }
}

/* Constant frost fills as 1 − e^(−t/τ); constant thaw empties as e^(−k ΔT t); the wood follows as e^(−t/τ). */
static void
test_closed_forms (void)
{
  FrSapShape shape = reference;
  FrSapState state = { .wood_c = NAN };
  double ran = 0;

  for (guint h = 0; h < 10; h++)
    g_assert_cmpfloat (fr_sap_step (&shape, &state, -8), <, 1e-4);
  found_near ("charge after ten hours of frost", state.charge_ratio, 1 - exp (-10 / 3.0), 1e-12);
  for (guint h = 0; h < 50; h++)
    ran += fr_sap_step (&shape, &state, 6) - FLOOR_PER_H;
  found_near ("ran in fifty hours of thaw", ran, (1 - exp (-10 / 3.0)) * (1 - exp (-0.0025 * 6 * 50)), 1e-9);
  found_near ("charge and what ran are what was there", ran + state.charge_ratio, 1 - exp (-10 / 3.0), 1e-12);
  found_near ("warmth of fifty hours at 6 °C, K d", state.warmth_k_days, 50 / 24.0, 1e-12);

  shape.lag_h = 5;
  state = fr_sap_state ();
  fr_sap_step (&shape, &state, 10);
  for (guint h = 0; h < 12; h++)
    fr_sap_step (&shape, &state, -4);
  found_near ("wood twelve hours after the air fell", state.wood_c, -4 + 14 * exp (-12 / 5.0), 1e-12);
}

/* Ice takes as many degree hours to thaw as to freeze, and nothing runs through frozen wood. */
static void
test_ice (void)
{
  FrSapShape shape = reference;
  FrSapState state = { .wood_c = NAN };
  double first;

  shape.ice_k_h = 100;
  for (guint h = 0; h < 30; h++)
    fr_sap_step (&shape, &state, -6);
  g_assert_cmpfloat (state.ice_ratio, ==, 1);
  first = fr_sap_step (&shape, &state, 5);
  g_assert_cmpfloat (state.ice_ratio, ==, 0.95);
  found_near ("the first hour of thaw through ice", first - FLOOR_PER_H, 1 - exp (-0.0025 * 5 * 0.05), 1e-4);
  for (guint h = 0; h < 18; h++)
    fr_sap_step (&shape, &state, 5);
  g_assert_cmpfloat (state.ice_ratio, >, 0.04);
  fr_sap_step (&shape, &state, 5);
  g_assert_cmpfloat (state.ice_ratio, <, 1e-9);
}

/* Steps and runs are one; unknown air holds everything; nothing leaves its range. */
static void
test_range (void)
{
  FrChance chance = { 5 };

  for (guint round = 0; round < 200; round++)
    {
      guint hour;
      FrSapShape shape = fr_sap_fit_draw (round, &hour);
      FrSapState state = fr_sap_state (), same = state;
      double air[300], ran[300];

      g_assert_cmpuint (hour, <, 18);
      for (guint h = 0; h < 300; h++)
        air[h] = fr_chance_below (&chance, 20) == 0 ? NAN : -60 + 110 * fr_chance_ratio (&chance);
      fr_sap_run (&shape, &state, air, 300, ran);
      for (guint h = 0; h < 300; h++)
        {
          FrSapState before = same;

          g_assert_cmpfloat (fr_sap_step (&shape, &same, air[h]), ==, ran[h]);
          g_assert_true (ran[h] >= 0 && ran[h] <= 1.001);
          g_assert_true (same.charge_ratio >= 0 && same.charge_ratio <= 1 && same.ice_ratio >= 0 && same.ice_ratio <= 1);
          g_assert_true (!isnan (air[h]) || memcmp (&before, &same, sizeof same) == 0);
        }
      g_assert_true (memcmp (&state, &same, sizeof same) == 0);
    }
}

/* --- learning --- */

static double
t_density (double off, double scatter)
{
  return pow (1 + off * off / (5 * scatter * scatter), -3) / scatter;
}

/* The posterior of member and gain by brute force: a grid forty times as fine, in litres and not in logarithms of ratios. */
static void
test_grid (void)
{
  static const FrSapMember members[] = { { .gain_l = 8, .scatter_ratio = 0.5, .weight_ratio = 0.7 },
                                         { .gain_l = 20, .scatter_ratio = 0.9, .weight_ratio = 0.3 } };
  static const FrSapMembers both = { 2, members, 0.8 };
  static const struct
  {
    double units[2], litres, days;
  } entries[] = { { { 0.10, 0.05 }, 1.7, 1 }, { { 0.02, 0.08 }, 0.1, 1 }, { { 0.31, 0.22 }, 6.0, 3 }, { { 0.2, 0.1 }, 0, 2 } };
  g_autoptr (FrSapLearn) learn = fr_sap_learn_new (&both);
  g_autoptr (FrSapLearn) backwards = fr_sap_learn_new (&both);
  double sum[2] = { 0 }, below[2] = { 0 }, alone = 0;
  double median_l;

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    fr_sap_learn_add (learn, entries[i].units, entries[i].litres, entries[i].days);
  for (guint i = G_N_ELEMENTS (entries); i-- > 0;)
    fr_sap_learn_add (backwards, entries[i].units, entries[i].litres, entries[i].days);
  median_l = fr_sap_learn_gain_l (learn, 0, 0.5);
  found_near ("the order of the entries does not matter", fr_sap_learn_gain_l (backwards, 0, 0.5), median_l, 1e-9);
  for (guint m = 0; m < 2; m++)
    for (double log_gain = log (members[m].gain_l) - 3; log_gain <= log (members[m].gain_l) + 3; log_gain += 0.0025)
      {
        double belief = members[m].weight_ratio * exp (-0.5 * pow ((log_gain - log (members[m].gain_l)) / 0.8, 2));

        alone += belief;
        for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
          belief *= t_density (log (entries[i].litres / entries[i].days + FR_SAP_NOISE_L)
                                   - log (exp (log_gain) * entries[i].units[m] / entries[i].days + FR_SAP_NOISE_L),
                               members[m].scatter_ratio);
        sum[m] += belief;
        if (exp (log_gain) <= median_l)
          below[m] += belief;
      }
  found_near ("weight of a member against a fine grid", fr_sap_learn_weight_ratio (learn, 0), sum[0] / (sum[0] + sum[1]), 1e-4);
  found_near ("share below its median gain", below[0] / sum[0], 0.5, 3e-3);
  found_near ("how likely the entries were, logarithm", fr_sap_learn_log_probability (learn), log ((sum[0] + sum[1]) / alone), 1e-3);
}

/* Fifteen true emptyings and a slip of the pen a hundred times too high or low: the gain moves by less than a fifth. */
static void
test_stray (void)
{
  static const FrSapMember member = { .gain_l = 12, .scatter_ratio = 0.6, .weight_ratio = 1 };
  static const FrSapMembers one = { 1, &member, 0.8 };
  double clean_l = NAN, units = 0.15;
  double worst = 0;

  for (guint stray = 0; stray < 3; stray++)
    {
      g_autoptr (FrSapLearn) learn = fr_sap_learn_new (&one);
      double gain_l;

      for (guint i = 0; i < 15; i++)
        fr_sap_learn_add (learn, &units, 25 * units * exp (0.4 * sin (i * 2.3)), 1);
      if (stray > 0)
        fr_sap_learn_add (learn, &units, stray == 1 ? 100 * 25 * units : 0, 1);
      gain_l = fr_sap_learn_gain_l (learn, 0, 0.5);
      if (stray == 0)
        clean_l = gain_l;
      else
        worst = fmax (worst, fabs (log (gain_l / clean_l)));
    }
  found_near ("what a slip a hundred times too high moves the gain by, logarithm", worst, 0, 0.2);
}

static void
test_nothing_learned (void)
{
  g_autoptr (FrSapLearn) learn = fr_sap_learn_new (fr_sap_members ());
  double all = 0;

  found_near ("the middle of the gain before any entry", fr_sap_learn_gain_ratio (learn, 0.5), 1, 1e-9);
  found_near ("nine in ten of it, against the normal distribution", log (fr_sap_learn_gain_ratio (learn, 0.9)),
              fr_sap_members ()->gain_spread_ratio * 1.2815516, 4e-3);
  found_near ("no entry is certain", fr_sap_learn_log_probability (learn), 0, 1e-12);
  for (guint m = 0; m < fr_sap_members ()->n; m++)
    all += fr_sap_learn_weight_ratio (learn, m);
  found_near ("weights together", all, 1, 1e-12);
}

/* --- fitting --- */

/* A season's air with frosty nights and mild days; not measured, only there to be run over. */
static void
make_air (FrChance *chance, double *air, guint n)
{
  double level = -6;

  for (guint h = 0; h < n; h++)
    {
      double noise;

      fr_chance_normals (chance, &noise, 1);
      level += 0.004 + 0.12 * noise;
      air[h] = level + 6 * cos (2 * G_PI * (h - 15.0) / 24);
    }
}

/* Seasons run by a shape of its own, far from the middle of the prior: it draws the members to it. */
static void
test_known_members (void)
{
  FrChance chance = { 11 };
  guint n_hours = 24 * 100;
  g_autofree double *air = g_new (double, 3 * n_hours), *ran = g_new (double, n_hours);
  FrSapFitSpan spans[3][40];
  FrSapFitSeason seasons[3];
  guint hour;
  FrSapShape truth = fr_sap_fit_draw (3, &hour);
  g_autoptr (FrSapFit) fit = NULL;
  double gain_log = 0, thaw_c = 0, drain_log = 0, prior_thaw_c = 0;

  truth.thaw_c = -1.6;
  truth.drain_per_k_h = 0.006;
  for (guint s = 0; s < 3; s++)
    {
      FrSapState state = fr_sap_state ();

      make_air (&chance, air + s * n_hours, n_hours);
      fr_sap_run (&truth, &state, air + s * n_hours, n_hours, ran);
      seasons[s] = (FrSapFitSeason){ n_hours, air + s * n_hours, 24 * 30 + 12, 40, spans[s] };
      for (guint i = 0; i < 40; i++)
        {
          guint from = 24 * (31 + i);
          double units = 0, noise;

          for (guint h = from + 12; h < from + 36; h++)
            units += ran[h] * fr_sap_age_ratio (&truth, (h - (24.0 * 30 + 12)) / 24);
          fr_chance_normals (&chance, &noise, 1);
          spans[s][i] = (FrSapFitSpan){ from, from + 24, 15 * units * exp (0.5 * noise) };
        }
    }
  fit = fr_sap_fit (seasons, 3, 4096, 64);
  for (guint m = 0; m < 64; m++)
    {
      const FrSapMember *member = &fit->members.members[m];

      gain_log += log (member->gain_l) / 64;
      thaw_c += member->shape.thaw_c / 64;
      drain_log += log (member->shape.drain_per_k_h) / 64;
    }
  for (guint i = 0; i < 512; i++)
    prior_thaw_c += fr_sap_fit_draw (i, &hour).thaw_c / 512;
  found_near ("mean of the draws' thaw point, °C", prior_thaw_c, -0.8, 0.01);
  found_near ("fitted thaw point of −1.6 °C", thaw_c, -1.6, 0.3);
  /* A slow drain of much and a quick one of little look alike for a while: what a bush gives at first is their product. */
  found_near ("fitted gain of 15 L times drain of 0.006, logarithm", gain_log + drain_log, log (15 * 0.006), 0.3);
  found_near ("spread of a new season's gain, three fitted", fit->members.gain_spread_ratio, 0.7 * sqrt (4 / 3.0), 1e-12);
  g_assert_cmpuint (fit->n_effective, >, 3);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-flow/reference-form", test_reference_form);
  g_test_add_func ("/sap-flow/closed-forms", test_closed_forms);
  g_test_add_func ("/sap-flow/ice", test_ice);
  g_test_add_func ("/sap-flow/range", test_range);
  g_test_add_func ("/sap-flow/learn/grid", test_grid);
  g_test_add_func ("/sap-flow/learn/stray", test_stray);
  g_test_add_func ("/sap-flow/learn/nothing", test_nothing_learned);
  g_test_add_func ("/sap-flow/fit/known-members", test_known_members);
  return found_run ();
}
