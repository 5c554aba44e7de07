/* The forecast: its mixtures against sampling written apart, its days and sums against the members run by hand, and what holds of any
 * question. Weather here is made up; what it is worth on measured seasons is for the scores. */
#include "domain/maths/chance.h"
#include "domain/maths/sap-fit.h"
#include "domain/plan/forecast-private.h"
#include "domain/plan/season-air.h"

#include <math.h>
#include <string.h>

static FrWeather *
made_weather (FrDate first, guint n_days, guint64 seed)
{
  FrWeather *weather = fr_weather_new (FR_WEATHER_CSV);
  FrChance chance = { seed };

  for (guint d = 0; d < n_days; d++)
    {
      FrWeatherDay day = fr_weather_day (fr_date_add_days (first, (gint)d));
      double draws[2], level;

      fr_chance_normals (&chance, draws, 2);
      level = -9 + 0.16 * d + 3 * sin (d / 2.7) + draws[0];
      day.low_c = level - 4 - fabs (draws[1]);
      day.high_c = level + 5;
      g_array_append_val (weather->days, day);
    }
  return weather;
}

typedef struct
{
  FrWeather *weather;
  FrAirHours *air, *past[2];
  FrSapGathered gathered[3];
  FrTapGroup groups[2];
  FrForecastQuestion question;
} Case;

static void
case_init (Case *c)
{
  c->weather = made_weather ((FrDate){ 2026, 1, 1 }, 95, 1);
  c->air = fr_season_air (c->weather, (FrDate){ 2026, 1, 1 }, 0);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (FrWeather) weather = made_weather ((FrDate){ 2024 + i, 1, 1 }, 150, 7 + i);

      c->past[i] = fr_season_air (weather, (FrDate){ 2024 + i, 1, 1 }, 0);
    }
  c->gathered[0] = (FrSapGathered){ { 2026, 3, 3 }, 4.0, 2 };
  c->gathered[1] = (FrSapGathered){ { 2026, 3, 10 }, 2.5, 7 };
  c->gathered[2] = (FrSapGathered){ { 2026, 3, 30 }, 9.0, 1 };
  c->groups[0] = (FrTapGroup){ { 2026, 3, 1 }, 6, 1.2 };
  c->groups[1] = (FrTapGroup){ { 2026, 3, 8 }, 4, 0.7 };
  c->question = (FrForecastQuestion){ .air = c->air,
                                      .as_of = { 2026, 3, 20 },
                                      .gather_hour = 16,
                                      .n_groups = 2,
                                      .groups = c->groups,
                                      .tapped = { 2026, 3, 1 },
                                      .n_gathered = 3,
                                      .gathered = c->gathered,
                                      .errors = fr_forecast_error_usual (),
                                      .n_past = 2,
                                      .past = (const FrAirHours *const *)c->past,
                                      .n_draws = 4,
                                      .seed = 3 };
}

static void
case_clear (Case *c)
{
  fr_weather_free (c->weather);
  fr_air_hours_free (c->air);
  fr_air_hours_free (c->past[0]);
  fr_air_hours_free (c->past[1]);
}

static gint
by_value (gconstpointer a, gconstpointer b)
{
  double one = *(const double *)a, other = *(const double *)b;

  return one < other ? -1 : one > other;
}

/* Half a million draws from the same mixture. */
static void
test_mixture (void)
{
  static const FrSapMember members[] = { { .scatter_ratio = 0.4 }, { .scatter_ratio = 0.9 }, { .scatter_ratio = 0.4 } };
  static const FrSapMembers all = { 3, members, 1 };
  static const double litres[] = { 2.0, 0.3, 0.01 }, weights[] = { 0.5, 0.3, 0.2 };
  g_autoptr (FrForecastMix) mix = fr_forecast_mix_new (&all);
  FrChance chance = { 21 };
  guint n = 500000, n_runs = 0;
  g_autofree double *draws = g_new (double, n);
  double sum = 0;
  FrLitres found;

  fr_forecast_mix_begin (mix, 1, 0.2);
  for (guint i = 0; i < 3; i++)
    fr_forecast_mix_add (mix, i, litres[i], weights[i] * 7);
  found = fr_forecast_mix_litres (mix);
  for (guint i = 0; i < n; i++)
    {
      double share = fr_chance_ratio (&chance), normal;
      guint which = share < 0.5 ? 0 : share < 0.8 ? 1 : 2;

      fr_chance_normals (&chance, &normal, 1);
      draws[i] = fmax (exp (log (litres[which] + 0.2) + members[which].scatter_ratio * normal) - 0.2, 0);
      sum += draws[i];
      n_runs += draws[i] >= 0.5;
    }
  qsort (draws, n, sizeof *draws, by_value);
  g_assert_cmpfloat_with_epsilon (found.lo_l, draws[n / 10], 0.005);
  g_assert_cmpfloat_with_epsilon (found.quarter_lo_l, draws[n / 4], 0.01);
  g_assert_cmpfloat_with_epsilon (found.middle_l, draws[n / 2], 0.02);
  g_assert_cmpfloat_with_epsilon (found.quarter_hi_l, draws[n / 4 * 3], 0.02);
  g_assert_cmpfloat_with_epsilon (found.hi_l, draws[n / 10 * 9], 0.04);
  g_assert_cmpfloat_with_epsilon (found.mean_l, sum / n, 0.01);
  g_assert_cmpfloat_with_epsilon (fr_forecast_mix_reach_probability (mix, 0.5), (double)n_runs / n, 0.005);
}

/* One member, no error: the middle of a day is its gain times what its shape ran in 24 hours up to the gathering hour, by each group's age. */
static void
test_by_hand (void)
{
  Case c;
  guint hour;
  FrSapMember member = { .shape = fr_sap_fit_draw (40, &hour), .gain_l = 14, .scatter_ratio = 0.05, .weight_ratio = 1 };
  FrSapMembers one = { 1, &member, 1e-3 };
  g_autoptr (FrForecast) forecast = NULL;
  g_autofree double *hours = NULL;
  FrSapState state = fr_sap_state ();

  case_init (&c);
  c.question.members = &one;
  c.question.errors.first_sd_k = c.question.errors.last_sd_k = 0;
  forecast = fr_forecast_new (&c.question);
  hours = g_new (double, c.air->n_hours);
  fr_sap_run (&member.shape, &state, c.air->temp_c, c.air->n_hours, hours);
  g_assert_cmpuint (forecast->n_taps, ==, 10);
  for (guint i = 0; i < forecast->n_days && !forecast->days[i].is_beyond; i++)
    {
      const FrForecastDay *day = &forecast->days[i];
      gint64 end = fr_air_hours_midnight (c.air, day->date) + 16;
      double units = 0, litres;

      for (gint64 h = end - 24; h < end; h++)
        units += hours[h];
      litres = 14 * units
               * (0.6 * 1.2 * fr_sap_age_ratio (&member.shape, fr_date_to_days (day->date) - 0.5 - fr_date_to_days (c.groups[0].tapped))
                  + 0.4 * 0.7 * fr_sap_age_ratio (&member.shape, fr_date_to_days (day->date) - 0.5 - fr_date_to_days (c.groups[1].tapped)));
      g_assert_cmpfloat_with_epsilon (day->per_tap.middle_l, litres, 0.02 * (litres + 0.2) + 0.005);
      g_assert_cmpfloat_with_epsilon (day->bush.middle_l, 10 * day->per_tap.middle_l, 1e-9);
    }
  case_clear (&c);
}

/* What comes after the day it is made on is not looked at: neither litres nor the hours of the days before it change. */
static void
test_no_looking_ahead (void)
{
  Case c;
  g_autoptr (FrForecast) before = NULL, after = NULL;

  case_init (&c);
  before = fr_forecast_new (&c.question);
  c.gathered[2].per_tap_l = 90;
  after = fr_forecast_new (&c.question);
  g_assert_cmpuint (before->n_learned, ==, 2);
  g_assert_cmpuint (before->n_days, ==, after->n_days);
  for (guint i = 0; i < before->n_days; i++)
    g_assert_cmpfloat (before->days[i].per_tap.middle_l, ==, after->days[i].per_tap.middle_l);
  for (gint64 h = fr_air_hours_midnight (c.air, (FrDate){ 2026, 3, 20 }) + 16; h < (gint64)c.air->n_hours; h++)
    c.air->temp_c[h] += 8;
  fr_forecast_free (after);
  after = fr_forecast_new (&c.question);
  for (guint i = 0; i < before->n_days && !before->days[i].is_ahead; i++)
    {
      g_assert_cmpfloat (before->days[i].per_tap.hi_l, ==, after->days[i].per_tap.hi_l);
      g_assert_cmpfloat (before->days[i].run_probability, ==, after->days[i].run_probability);
    }
  g_assert_cmpfloat (before->gain_after_l[1], ==, after->gain_after_l[1]);
  case_clear (&c);
}

static void
assert_in_order (const FrLitres *litres)
{
  g_assert_true (litres->lo_l >= 0 && litres->lo_l <= litres->quarter_lo_l && litres->quarter_lo_l <= litres->middle_l
                 && litres->middle_l <= litres->quarter_hi_l && litres->quarter_hi_l <= litres->hi_l);
  g_assert_true (litres->mean_l >= 0 && isfinite (litres->mean_l));
}

static void
test_season (void)
{
  Case c;
  g_autoptr (FrForecast) forecast = NULL;
  const FrForecastDay *last;

  case_init (&c);
  forecast = fr_forecast_new (&c.question);
  last = &forecast->days[forecast->n_days - 1];
  g_assert_cmpint (fr_date_compare (forecast->days[0].date, (FrDate){ 2026, 3, 2 }), ==, 0);
  g_assert_cmpint (fr_date_to_days (last->date), ==, fr_date_to_days ((FrDate){ 2026, 1, 1 }) + FR_SEASON_DAYS - 1);
  g_assert_cmpfloat_with_epsilon (forecast->gathered_l, 65, 1e-9);
  g_assert_true (last->is_beyond && forecast->days[40].is_beyond && !forecast->days[30].is_beyond);
  for (guint i = 0; i < forecast->n_days; i++)
    {
      const FrForecastDay *day = &forecast->days[i];

      g_assert_true (day->run_probability >= 0 && day->run_probability <= 1);
      assert_in_order (&day->per_tap);
      assert_in_order (&day->so_far);
      g_assert_true (i == 0 || day->so_far.middle_l >= forecast->days[i - 1].so_far.middle_l - 0.7);
      g_assert_cmpint (day->is_ahead, ==, fr_date_compare (day->date, c.question.as_of) > 0);
    }
  g_assert_cmpfloat_with_epsilon (forecast->to_come.middle_l, last->so_far.middle_l - 65, 1e-9);
  g_assert_true (forecast->over_probability >= 0 && forecast->over_probability < 0.5);
  c.question.as_of = (FrDate){ 2026, 5, 26 };
  fr_forecast_free (forecast);
  forecast = fr_forecast_new (&c.question);
  g_assert_cmpfloat (forecast->over_probability, >, 0.95);
  c.question.as_of = (FrDate){ 2026, 10, 1 };
  fr_forecast_free (forecast);
  forecast = fr_forecast_new (&c.question);
  g_assert_cmpfloat (forecast->over_probability, ==, 1);
  case_clear (&c);
}

/* The more it errs the wider, and no error at all is narrowest. */
static void
test_errors_widen (void)
{
  Case c;
  double width[3];

  case_init (&c);
  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (FrForecast) forecast = NULL;
      const FrForecastDay *day;

      c.question.errors.first_sd_k = 1.5 * i;
      c.question.errors.last_sd_k = 3.5 * i;
      forecast = fr_forecast_new (&c.question);
      day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 27 });
      width[i] = log (day->per_tap.hi_l + 0.2) - log (day->per_tap.lo_l + 0.2);
      g_assert_cmpfloat_with_epsilon (day->high_hi_c - day->high_c, 1.2815516 * 3.5 * i, 1e-5);
    }
  g_assert_true (width[0] < width[1] && width[1] < width[2]);
  case_clear (&c);
}

/* Three days, none, gaps, an as-of before and long after the weather, taps to come: an answer each time, unknown where nothing is known. */
static void
test_little (void)
{
  Case c;
  static const FrDate as_ofs[] = { { 2025, 12, 20 }, { 2026, 1, 1 }, { 2026, 1, 2 }, { 2026, 1, 9 }, { 2027, 1, 1 } };

  case_init (&c);
  for (guint n = 0; n <= 72; n += 24)
    for (guint i = 0; i < G_N_ELEMENTS (as_ofs); i++)
      for (gint past = 0; past <= 2; past += 2)
        {
          g_autoptr (FrForecast) forecast = NULL;
          FrAirHours air = *c.air;

          air.n_hours = n;
          c.question.air = &air;
          c.question.as_of = as_ofs[i];
          c.question.n_past = (guint)past;
          c.question.tapped = i % 2 ? (FrDate){ 0 } : (FrDate){ 2026, 1, 1 };
          c.question.n_groups = i == 3 ? 0 : 2;
          forecast = fr_forecast_new (&c.question);
          g_assert_true (n > 24 || forecast->n_days == 0 || past > 0 || i == 0);
          g_assert_true (past > 0 || n > 24 || i == 0 || i == 4 || isnan (forecast->over_probability));
          for (guint d = 0; d < forecast->n_days; d++)
            g_assert_true (isnan (forecast->days[d].run_probability)
                           || (forecast->days[d].run_probability >= 0 && forecast->days[d].run_probability <= 1));
        }
  case_clear (&c);
}

/* A day whose hours are not known says so, and its emptying teaches nothing. */
static void
test_gap (void)
{
  Case c;
  g_autoptr (FrForecast) forecast = NULL;
  const FrForecastDay *day;

  case_init (&c);
  for (gint64 h = fr_air_hours_midnight (c.air, (FrDate){ 2026, 3, 6 }); h < fr_air_hours_midnight (c.air, (FrDate){ 2026, 3, 9 }); h++)
    c.air->temp_c[h] = NAN;
  forecast = fr_forecast_new (&c.question);
  g_assert_cmpuint (forecast->n_learned, ==, 1);
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 7 });
  g_assert_true (isnan (day->run_probability) && isnan (day->per_tap.middle_l) && isnan (day->low_c));
  day = fr_forecast_day (forecast, (FrDate){ 2026, 3, 12 });
  g_assert_false (isnan (day->run_probability));
  case_clear (&c);
}

/* Half a year later in the south: the same air gives the same litres. */
static void
test_south (void)
{
  Case c;
  g_autoptr (FrForecast) north = NULL, south = NULL;

  case_init (&c);
  c.question.n_past = 0;
  north = fr_forecast_new (&c.question);
  c.question.is_south = TRUE;
  c.air->first = (FrDate){ 2026, 7, 1 };
  c.question.as_of = fr_date_add_days (c.question.as_of, 181);
  c.question.tapped = fr_date_add_days (c.question.tapped, 181);
  for (guint i = 0; i < 2; i++)
    c.groups[i].tapped = fr_date_add_days (c.groups[i].tapped, 181);
  for (guint i = 0; i < 3; i++)
    c.gathered[i].date = fr_date_add_days (c.gathered[i].date, 181);
  south = fr_forecast_new (&c.question);
  g_assert_cmpuint (north->n_days, ==, south->n_days);
  for (guint i = 0; i < north->n_days; i++)
    g_assert_cmpfloat (north->days[i].per_tap.middle_l, ==, south->days[i].per_tap.middle_l);
  g_assert_cmpint (fr_date_compare (fr_midwinter ((FrDate){ 2026, 6, 30 }, TRUE), (FrDate){ 2025, 7, 1 }), ==, 0);
  g_assert_cmpint (fr_date_compare (fr_midwinter ((FrDate){ 2026, 6, 30 }, FALSE), (FrDate){ 2026, 1, 1 }), ==, 0);
  case_clear (&c);
}

static void
test_seasons (void)
{
  g_autoptr (FrWeather) weather = made_weather ((FrDate){ 2022, 11, 1 }, 1300, 4);
  g_autoptr (GPtrArray) airs = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_air_hours_free);
  g_autoptr (FrAirHours) one = fr_season_air (weather, (FrDate){ 2024, 1, 1 }, 0);

  fr_past_airs (weather, (FrDate){ 2025, 1, 1 }, 0, airs);
  g_assert_cmpuint (airs->len, ==, 2); /* 2023 and 2024; of 2022 only its last weeks */
  g_assert_cmpint (fr_date_compare (one->first, (FrDate){ 2024, 1, 1 }), ==, 0);
  g_assert_cmpuint (one->n_hours, ==, 366 * 24);
  g_assert_cmpint (fr_standard_offset_s (-72.7), ==, -5 * 3600);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast/mixture", test_mixture);
  g_test_add_func ("/forecast/by-hand", test_by_hand);
  g_test_add_func ("/forecast/no-looking-ahead", test_no_looking_ahead);
  g_test_add_func ("/forecast/season", test_season);
  g_test_add_func ("/forecast/errors-widen", test_errors_widen);
  g_test_add_func ("/forecast/little", test_little);
  g_test_add_func ("/forecast/gap", test_gap);
  g_test_add_func ("/forecast/south", test_south);
  g_test_add_func ("/forecast/seasons", test_seasons);
  return g_test_run ();
}
