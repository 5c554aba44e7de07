/* The forecast: a hundred seasons of 120 days with 1,024 members each, beside a bare loop over as many hours that only
 * keeps the wood's temperature; and the page's whole answer in display frames. Times are the processor's, the least of
 * several runs. */
#include "domain/plan/season-air.h"
#include "domain/plan/tap-date.h"
#include "formats/measured-seasons.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

#define SEASONS 100
#define DAYS 120
#define MEMBERS 1024
#define RUNS 5
#define FRAME_S (1.0 / 60)

static double
now_s (void)
{
  struct timespec time;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &time);
  return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static double
bare (const double *air_c, guint n)
{
  double wood_c = 0, sum = 0;

  for (guint i = 0; i < n; i++)
    {
      wood_c += 0.2 * (air_c[i] - wood_c);
      sum += wood_c > 0 ? wood_c : 0;
    }
  return sum;
}

int
main (void)
{
  const FrSapMembers *members = fr_sap_members ();
  g_auto (FrMeasuredSeason) season = { 0 };
  g_autoptr (FrAirHours) air = NULL;
  g_autofree double *ran = NULL;
  double ours_s = INFINITY, bare_s = INFINITY, page_s = INFINITY, sum = 0;

  fr_measured_season (0, &season);
  air = fr_season_air (season.weather, (FrDate){ 2013, 1, 1 }, 0);
  ran = g_new (double, DAYS * 24);
  for (guint run = 0; run < RUNS; run++)
    {
      double from = now_s ();

      for (guint i = 0; i < SEASONS * MEMBERS; i++)
        {
          FrSapState state = fr_sap_state ();

          fr_sap_run (&members->members[i % members->n].shape, &state, air->temp_c, DAYS * 24, ran);
          sum += ran[DAYS * 24 - 1];
        }
      ours_s = fmin (ours_s, now_s () - from);
      from = now_s ();
      for (guint i = 0; i < SEASONS * MEMBERS; i++)
        sum += bare (air->temp_c, DAYS * 24);
      bare_s = fmin (bare_s, now_s () - from);
    }
  printf ("%u seasons, %u days, %u members: %.2f s, %.1f ns an hour, %.2f of a bare loop (%.2f s)\n", SEASONS, DAYS, MEMBERS, ours_s,
          1e9 * ours_s / SEASONS / MEMBERS / DAYS / 24, ours_s / bare_s, bare_s);
  for (guint n_past = 0; n_past <= 15; n_past += 5)
    {
      const FrAirHours *past[15];
      FrForecastQuestion question = { .air = air,
                                      .as_of = { 2013, 3, 10 },
                                      .gather_hour = 17,
                                      .tapped = season.tapped,
                                      .n_gathered = season.gathered->len,
                                      .gathered = (const FrSapGathered *)season.gathered->data,
                                      .errors = fr_forecast_error_usual (),
                                      .n_past = n_past,
                                      .past = past,
                                      .n_draws = 8,
                                      .seed = 1 };
      FrAirHours ahead = *air;

      /* Ten days are foretold. */
      ahead.n_hours = (guint)fr_air_hours_midnight (air, (FrDate){ 2013, 3, 21 });
      question.air = &ahead;
      for (guint i = 0; i < n_past; i++)
        past[i] = air;
      page_s = INFINITY;
      for (guint run = 0; run < RUNS; run++)
        {
          double from = now_s ();
          g_autoptr (FrForecast) forecast = fr_forecast_new (&question);

          page_s = fmin (page_s, now_s () - from);
          sum += forecast->over_probability;
        }
      printf ("the page's whole answer, %2u past seasons: %.1f ms, %.2f of a frame\n", n_past, 1e3 * page_s, page_s / FRAME_S);
      page_s = INFINITY;
      for (guint run = 0; run < RUNS; run++)
        {
          double from = now_s ();
          g_autoptr (FrTapDates) dates = fr_tap_dates_new (&question);

          page_s = fmin (page_s, now_s () - from);
          sum += dates->n_dates;
        }
      printf ("when to tap, %2u past seasons: %.1f ms, %.2f of a frame\n", n_past, 1e3 * page_s, page_s / FRAME_S);
    }
  return sum > 1e300;
}
