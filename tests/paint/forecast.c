/* Lows at 06:00 and highs at 15:00 with a cosine between them; the ranges widen from day to day. */
#include "forecast.h"

#include <math.h>

#define GATHER_H 17

/* Low, high, chance, and litres at 10, 25, 50, 75 and 90 in 100; of what is behind, gathered a tap and days.
 */
static const struct
{
  double low_c, high_c, chance, lo_l, quarter_lo_l, middle_l, quarter_hi_l, hi_l, gathered_l, gathered_days;
} typed[FORECAST_DAYS] = {
  { -5, 4, 0.62, 4, 7, 10, 14, 19, NAN, NAN },    { -7, 2, 0.31, 1, 2, 4, 6, 10, 1.25, 2 },
  { -6, 6, 0.84, 8, 12, 15, 18, 23, 1.5, 1 },     { -6, 5, 0.82, 8, 11.5, 14, 17, 22, NAN, NAN },
  { -4, 7, 0.91, 11, 15, 19, 24, 30, NAN, NAN },  { -1, 9, 0.78, 6, 9.5, 13, 18, 24, NAN, NAN },
  { 1, 10, 0.55, 2, 4.5, 7, 10.5, 16, NAN, NAN }, { -3, 3, 0.44, 1, 3, 5, 7.5, 12, NAN, NAN },
  { -8, -1, 0.06, 0, 0, 0, 0.6, 2, NAN, NAN },    { -9, 2, 0.33, 0, 2, 4, 6.5, 11, NAN, NAN },
  { -5, 6, 0.80, 7, 11, 15, 21, 29, NAN, NAN },
};

static const char *const weekdays[] = { "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun" };
static const char *const dates[] = { "9", "10", "11", "12", "13", "14", "15", "16", "17", "18", "19" };

static const FrForecastChartTexts texts = {
  .chance = "Chance",
  .litres = "Litres",
  .now = "Now 18:30",
  .gap = "no weather known",
  .beyond = "as in past seasons",
  .empty = "Days ahead stand here as soon as a forecast is read from a file or fetched.",
  .no_run = "No run expected in these days.",
  .caption
  = "Outer bar: eight days in ten fall inside. Inner bar: five in ten. Line: as likely above as below.",
};

void
forecast_extremes (guint column, double *low_c, double *high_c)
{
  *low_c = typed[column].low_c;
  *high_c = typed[column].high_c;
}

/* The next turn at or after an hour: 6, 15, 30, 39 … of the columns. */
static double
turn_c (gint turn)
{
  gint column = CLAMP (turn / 2, 0, FORECAST_DAYS - 1);

  if (turn < 0)
    return 2;
  return turn % 2 == 0 ? typed[column].low_c : typed[column].high_c;
}

static double
hour_c (gint hour)
{
  gint turn = -1;

  while (24 * ((turn + 1) / 2) + ((turn + 1) % 2 == 0 ? 6 : 15) <= hour)
    turn++;
  gboolean is_low = turn % 2 == 0;
  double from = turn < 0 ? -9 : 24 * (turn / 2) + (is_low ? 6 : 15), span = is_low ? 9 : 15;
  double part = CLAMP ((hour - from) / span, 0, 1), a = turn_c (turn), b = turn_c (turn + 1);

  return a + (b - a) * (1 - cos (G_PI * part)) / 2;
}

static FrLitres
litres (guint i, double factor)
{
  return (FrLitres){ typed[i].lo_l * factor,     typed[i].quarter_lo_l * factor,
                     typed[i].middle_l * factor, typed[i].quarter_hi_l * factor,
                     typed[i].hi_l * factor,     typed[i].middle_l * factor };
}

void
forecast_fill (Forecast *f)
{
  const FrDate first = { 2026, 3, 9 };
  double sum = 141;

  *f = (Forecast){ 0 };
  for (guint i = 0; i < FORECAST_DAYS; i++)
    {
      gboolean is_ahead = i >= FORECAST_PAST;
      double wide = is_ahead ? 0.8 + 0.25 * (i - FORECAST_PAST) : 0;
      FrDate date = fr_date_add_days (first, (gint)i);
      f->days[i] = (FrForecastDay){ .date = date,
                                    .is_ahead = is_ahead,
                                    .low_c = typed[i].low_c,
                                    .low_lo_c = typed[i].low_c - wide,
                                    .low_hi_c = typed[i].low_c + wide,
                                    .high_c = typed[i].high_c,
                                    .high_lo_c = typed[i].high_c - wide,
                                    .high_hi_c = typed[i].high_c + wide,
                                    .frozen_h = 9,
                                    .thaw_h = 8,
                                    .run_probability = typed[i].chance,
                                    .per_tap = litres (i, 1 / 14.0),
                                    .bush = litres (i, 1),
                                    .gathered_l = typed[i].gathered_l,
                                    .gathered_days = typed[i].gathered_days,
                                    .tapped_days = 18 + i,
                                    .warmth_k_days = 3 };
      if (isfinite (typed[i].gathered_l))
        sum += 14 * typed[i].gathered_l;
      f->days[i].so_far = (FrLitres){ sum, sum, sum, sum, sum, sum };
      f->heads[i] = (FrForecastHead){ weekdays[fr_date_weekday (date) - 1], dates[i] };
    }
  double spread[3] = { sum, sum, sum };
  for (guint i = FORECAST_PAST; i < FORECAST_DAYS; i++)
    {
      spread[0] += 0.75 * typed[i].lo_l;
      spread[1] += typed[i].middle_l;
      spread[2] += 0.75 * typed[i].hi_l;
      f->days[i].so_far = (FrLitres){ spread[0], (spread[0] + spread[1]) / 2,
                                      spread[1], (spread[1] + spread[2]) / 2,
                                      spread[2], spread[1] };
    }
  f->forecast = (FrForecast){ .n_days = FORECAST_DAYS,
                              .days = f->days,
                              .as_of = { 2026, 3, 11 },
                              .n_taps = 14,
                              .gathered_l = sum,
                              .to_come = { 89, 115, 138, 165, 193, 140 },
                              .n_past = 8,
                              .over_probability = 0.02,
                              .off_flavour_probability = 0,
                              .n_learned = 9,
                              .raised_ratio = 1.06 };
  for (gint k = 0; k < FORECAST_HOURS; k++)
    {
      f->temp_c[k] = hour_c (k - 24);
      f->is_forecast[k] = k - 24 > 24 * 2 + GATHER_H;
      f->from[k] = FR_AIR_DAY;
    }
  f->air = (FrAirHours){ .first = { 2026, 3, 8 },
                         .offset_s = -5 * 3600,
                         .n_hours = FORECAST_HOURS,
                         .temp_c = f->temp_c,
                         .is_forecast = f->is_forecast,
                         .from = f->from };
  f->texts = texts;
  f->texts.heads = f->heads;
  f->chart = (FrForecastChart){ .forecast = &f->forecast,
                                .air = &f->air,
                                .gather_hour = GATHER_H,
                                .texts = &f->texts,
                                .first = first,
                                .n_days = FORECAST_DAYS,
                                .today = { 2026, 3, 11 },
                                .now_h = 18.5 };
}

void
forecast_season_fill (ForecastSeason *f)
{
  static const char *const names[FORECAST_PASTS] = { "2025", "2024", "2023", "2022" };
  static const double came[] = { 0, 0, 4, 0, 9, 0, 6, 0, 15, 0, 12, 22, 0, 0, 18, 24, 31, 0, 0, 21 };
  const guint known = G_N_ELEMENTS (came);
  double sum = 0;

  *f = (ForecastSeason){ 0 };
  forecast_fill (&f->forecast);
  for (guint i = 0; i < FORECAST_SEASON_DAYS; i++)
    {
      double ahead = i >= known ? 200 * (1 - exp (-(i - known + 1.0) / 16)) : 0;
      if (i < known)
        sum += came[i];
      f->days[i] = (FrForecastDay){ .date = fr_date_add_days ((FrDate){ 2026, 2, 20 }, (gint)i),
                                    .is_ahead = i >= known,
                                    .is_beyond = i >= known + 8,
                                    .so_far = { sum + 0.6 * ahead, sum + 0.8 * ahead, sum + ahead,
                                                sum + 1.2 * ahead, sum + 1.4 * ahead, sum + ahead } };
    }
  f->forecast.forecast.days = f->days;
  f->forecast.forecast.n_days = FORECAST_SEASON_DAYS;
  f->forecast.forecast.gathered_l = sum;
  for (guint k = 0; k < FORECAST_PASTS; k++)
    {
      for (guint i = 0; i < FORECAST_SEASON_DAYS; i++)
        f->past_l[k][i] = i > 3 * k && i < 60 && (i + k) % 3 != 0 ? (5.0 + k) * (i % 5) / 2 : NAN;
      f->past[k] = (FrSeasonPast){
        names[k], 2025 - k, { 2025 - (gint)k, 2, 20 }, FORECAST_SEASON_DAYS, f->past_l[k]
      };
    }
  f->months[0] = (FrSeasonMonth){ 9, "March", "Mar" };
  f->months[1] = (FrSeasonMonth){ 40, "April", "Apr" };
  f->season = (FrForecastSeason){ .forecast = &f->forecast.forecast,
                                  .season = 2026,
                                  .first = { 2026, 2, 20 },
                                  .last = { 2026, 4, 30 },
                                  .past = f->past,
                                  .n_past = FORECAST_PASTS,
                                  .months = f->months,
                                  .n_months = 2,
                                  .unit = "L in all",
                                  .past_words = "grey: four past seasons",
                                  .likely = "likely",
                                  .empty = "Litres add up here from the first gathering on." };
}
