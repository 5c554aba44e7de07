/* What the chart asks of a forecast: which day stands in a column, its litres and its hours. Hours are
 * counted from the first column's midnight. */
#include "paint/forecast-private.h"

#define MOST_C 100.0
#define MOST_L 1e6
#define NOON_H 12.0

double
fr_forecast_sane_c (double temp_c)
{
  return isfinite (temp_c) && fabs (temp_c) <= MOST_C ? temp_c : NAN;
}

static double
sane_l (double volume_l)
{
  return isfinite (volume_l) && volume_l >= 0 && volume_l <= MOST_L ? volume_l : NAN;
}

const FrForecastDay *
fr_forecast_column_day (const FrForecastPaint *p, guint column)
{
  const FrForecast *forecast = p->chart->forecast;

  return forecast != NULL ? fr_forecast_day (forecast, fr_date_add_days (p->chart->first, (gint)column))
                          : NULL;
}

gssize
fr_forecast_column_of (const FrForecastPaint *p, FrDate date)
{
  if (date.year == 0 || !fr_date_is_valid (date))
    return -1;
  gint64 at = fr_date_to_days (date) - fr_date_to_days (p->chart->first);

  return at >= 0 && at < p->chart->n_days ? (gssize)at : -1;
}

double
fr_forecast_hour_c (const FrForecastPaint *p, gint64 hour)
{
  const FrAirHours *air = p->chart->air;

  if (air == NULL)
    return NAN;
  hour += fr_air_hours_midnight (air, p->chart->first);
  return hour >= 0 && hour < air->n_hours ? fr_forecast_sane_c (air->temp_c[hour]) : NAN;
}

double
fr_forecast_gather_h (const FrForecastPaint *p)
{
  return p->chart->gather_hour < 0 ? NOON_H : p->chart->gather_hour;
}

double
fr_forecast_known_h (const FrForecastPaint *p)
{
  const FrForecast *f = p->chart->forecast;

  if (f == NULL || !fr_date_is_valid (f->as_of))
    return -INFINITY;
  return 24.0 * (double)(fr_date_to_days (f->as_of) - fr_date_to_days (p->chart->first))
         + fr_forecast_gather_h (p);
}

FrLitres
fr_forecast_litres (const FrForecastPaint *p, const FrForecastDay *day)
{
  FrLitres none = { NAN, NAN, NAN, NAN, NAN, NAN };

  if (day == NULL)
    return none;
  const FrLitres *of = p->chart->is_per_tap ? &day->per_tap : &day->bush;
  return (FrLitres){ sane_l (of->lo_l),         sane_l (of->quarter_lo_l), sane_l (of->middle_l),
                     sane_l (of->quarter_hi_l), sane_l (of->hi_l),         sane_l (of->mean_l) };
}

double
fr_forecast_gathered_l (const FrForecastPaint *p, const FrForecastDay *day, guint *n_days)
{
  *n_days = 1;
  if (day == NULL || !isfinite (day->gathered_l))
    return NAN;
  if (isfinite (day->gathered_days) && day->gathered_days > 1)
    *n_days = (guint)lround (MIN (day->gathered_days, 366));
  return sane_l (day->gathered_l * (p->chart->is_per_tap ? 1 : p->chart->forecast->n_taps) / *n_days);
}

void
fr_forecast_mark (FrForecastPaint *p, FrForecastMarkKind kind, guint day, FrBox box)
{
  FrForecastMark mark = { kind, day, box.x_px, box.y_px, box.width_px, box.height_px };

  if (p->marks != NULL)
    g_array_append_val (p->marks, mark);
}
