/* The book's weather and settings turned into a question, and the answer given the book's litres. */
#include "domain/plan/book-forecast-private.h"

#include "domain/plan/book-weather.h"
#include "domain/plan/bush.h"
#include "domain/plan/season-air.h"
#include "domain/plan/season-private.h"

#include <math.h>

#define SEED 20260319
/* Buckets are emptied by then where no hour was told; the last of those that are taken to be as likely (forecast.h). */
#define LATEST_HOUR 17

/* --- sources --- */

static void
source_clear (gpointer data)
{
  fr_weather_free (((FrPlaceSource *)data)->seen);
}

static gboolean
is_morning_read (const FrPlaceSource *source)
{
  const char *shift = source->station->shift_highs;

  if (g_strcmp0 (shift, "yes") == 0)
    return TRUE;
  return g_strcmp0 (shift, "no") != 0 && fr_weather_is_morning_read (source->seen, FR_READING_AS_TOLD);
}

GArray *
fr_place_sources_new (const GPtrArray *stations, const GPtrArray *days, const GPtrArray *station_days)
{
  GArray *sources = g_array_new (FALSE, TRUE, sizeof (FrPlaceSource));
  FrPlaceSource own = { .seen = fr_own_weather (days) };

  g_array_set_clear_func (sources, source_clear);
  g_array_append_val (sources, own);
  for (guint i = 0; stations != NULL && i < stations->len; i++)
    {
      FrPlaceSource source = { .station = stations->pdata[i] };

      if (source.station->record.archived)
        continue;
      source.seen = fr_station_weather (source.station, station_days);
      g_array_append_val (sources, source);
    }
  return sources;
}

void
fr_place_sources_add (GArray *sources, gint64 station, const FrWeather *more)
{
  for (guint i = 0; i < sources->len; i++)
    {
      FrPlaceSource *source = &g_array_index (sources, FrPlaceSource, i);

      if ((source->station != NULL ? source->station->record.id : 0) != station)
        continue;
      g_array_append_vals (source->seen->days, more->days->data, more->days->len);
      fr_weather_sort (source->seen);
    }
}

void
fr_place_sources_learn (GArray *sources)
{
  const FrOffsetPrior prior = fr_offset_prior_usual ();

  for (guint i = 1; i < sources->len; i++)
    {
      FrPlaceSource *source = &g_array_index (sources, FrPlaceSource, i);
      g_autoptr (FrWeather) moved = fr_weather_copy (source->seen);

      if (is_morning_read (source))
        fr_weather_shift_highs (moved);
      fr_weather_offsets (g_array_index (sources, FrPlaceSource, 0).seen, moved, &prior, &source->low, &source->high);
    }
}

static double
offset_of (FrAmount told_k, const FrOffset *learned)
{
  return isnan (told_k.value) ? learned->mean_k : told_k.value;
}

static void
put_offsets (FrWeather *weather, const FrPlaceSource *source, gint offset_s)
{
  fr_weather_put_offsets (weather, offset_of (source->station->low_offset_k, &source->low),
                          offset_of (source->station->high_offset_k, &source->high), offset_s);
}

/* What was told, moved as its source is. NULL when its text cannot be read. */
static FrWeather *
told (const GArray *sources, const FrOutlook *outlook, gint offset_s)
{
  for (guint i = 1; i < sources->len; i++)
    {
      const FrPlaceSource *source = &g_array_index (sources, FrPlaceSource, i);

      if (source->station->record.id == outlook->station)
        {
          FrWeather *weather = fr_outlook_weather (outlook, source->station);

          if (weather != NULL)
            put_offsets (weather, source, offset_s);
          return weather;
        }
    }
  return fr_outlook_weather (outlook, NULL);
}

FrWeatherJoined *
fr_place_weather (const GArray *sources, const FrOutlook *outlook, gint offset_s)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_weather_free);
  FrWeather *ahead = outlook != NULL ? told (sources, outlook, offset_s) : NULL;

  for (guint i = 0; i < sources->len; i++)
    {
      const FrPlaceSource *source = &g_array_index (sources, FrPlaceSource, i);
      FrWeather *part = fr_weather_copy (source->seen);

      if (source->station != NULL && is_morning_read (source))
        fr_weather_shift_highs (part);
      if (source->station != NULL)
        put_offsets (part, source, offset_s);
      g_ptr_array_add (parts, part);
    }
  if (ahead != NULL)
    g_ptr_array_add (parts, ahead);
  return fr_weather_join ((const FrWeather *const *)parts->pdata, parts->len, offset_s);
}

/* --- the question --- */

/* The standard clock is that of midwinter. */
static gint
standard_offset_s (const FrZoneTable *zone, FrDate today, gboolean is_south)
{
  FrDate midwinter = fr_midwinter (today, is_south);
  gint64 from, to;

  fr_day_span_utc (zone, midwinter, &from, &to);
  return fr_zone_local (zone, from).offset_s;
}

/* The usual minute of the local clock on the standard one, to the full hour. */
static gint
gather_hour (const FrSeasonBook *book, gint local_offset_s, gint standard_offset_s)
{
  double minute = book->forecasting != NULL ? book->forecasting->gather_minute.value : NAN;

  if (isnan (minute))
    return -1;
  return ((gint)lround ((minute * 60 - (local_offset_s - standard_offset_s)) / 3600) + 24) % 24;
}

static FrForecastError
errors_of (const FrForecasting *forecasting)
{
  FrForecastError errors = fr_forecast_error_usual (), own = errors;

  if (forecasting == NULL)
    return errors;
  if (!isnan (forecasting->error_first_k.value))
    own.first_sd_k = forecasting->error_first_k.value;
  if (!isnan (forecasting->error_week_k.value))
    own.last_sd_k = forecasting->error_week_k.value;
  if (!isnan (forecasting->error_memory_ratio.value))
    own.day_ratio = forecasting->error_memory_ratio.value;
  return fr_forecast_error_is_valid (&own) ? own : errors;
}

/* Today once its buckets were emptied or its hour is past; else yesterday. */
static FrDate
as_of (const FrForecastFrame *frame, gint64 now_utc)
{
  gint hour = frame->gather_hour >= 0 ? frame->gather_hour : LATEST_HOUR;
  gint64 end_utc = fr_date_to_days (frame->today) * 86400 + hour * 3600 - frame->offset_s;
  const GPtrArray *gatherings = frame->book->gatherings;

  if (now_utc >= end_utc)
    return frame->today;
  for (guint i = 0; gatherings != NULL && i < gatherings->len; i++)
    {
      const FrGathering *gathering = gatherings->pdata[i];

      if (!gathering->record.archived && gathering->gathered_utc >= end_utc - FR_GATHERED_EARLY_S
          && gathering->gathered_utc <= now_utc)
        return frame->today;
    }
  return fr_date_add_days (frame->today, -1);
}

static double
latitude_of (const GArray *sources, double latitude_deg)
{
  for (guint i = 1; isnan (latitude_deg) && i < sources->len; i++)
    latitude_deg = g_array_index (sources, FrPlaceSource, i).station->latitude_deg.value;
  return latitude_deg;
}

static void
put_weather (FrBookForecast *asked, const FrForecastFrame *frame, const GArray *sources, gint64 now_utc)
{
  const FrOutlook *outlook = fr_latest_outlook (frame->book->outlooks, 0, now_utc);
  g_autoptr (FrWeatherJoined) joined = fr_place_weather (sources, outlook, frame->offset_s);
  FrDate midwinter = fr_midwinter (asked->question.as_of, asked->question.is_south);

  asked->weather = g_steal_pointer (&joined->weather);
  asked->outlook_utc = outlook != NULL ? outlook->issued_utc : G_MININT64;
  asked->outlook_station = outlook != NULL ? outlook->station : 0;
  asked->air = fr_season_air (asked->weather, midwinter, frame->offset_s);
  if (asked->air->n_hours == 0)
    asked->air->first = midwinter;
  for (guint i = 1; i < sources->len; i++)
    {
      const FrPlaceSource *source = &g_array_index (sources, FrPlaceSource, i);

      if (source->low.n_days > asked->lows.n_days)
        {
          asked->lows = source->low;
          asked->highs = source->high;
        }
    }
}

FrBookForecast *
fr_book_forecast_new (const FrSeasonBook *book, const GArray *given, GPtrArray *past, double latitude_deg, gint64 now_utc)
{
  FrBookForecast *asked = g_atomic_rc_box_new0 (FrBookForecast);
  FrForecastQuestion *question = &asked->question;
  g_autoptr (GArray) read = NULL;
  const GArray *sources = given;
  const FrLocalTime now = fr_zone_local (book->zone, now_utc);
  FrForecastFrame frame = { .book = book, .today = now.date };

  if (sources == NULL)
    {
      sources = read = fr_place_sources_new (book->stations, book->days, book->station_days);
      fr_place_sources_learn (read);
    }
  question->is_south = latitude_of (sources, latitude_deg) < 0;
  frame.season = fr_season_of (now.date);
  frame.offset_s = standard_offset_s (book->zone, now.date, question->is_south);
  frame.gather_hour = gather_hour (book, now.offset_s, frame.offset_s);
  asked->today = now.date;
  asked->gather_hour = gather_hour (book, 0, 0);
  asked->now_h = (now.second_of_day - (now.offset_s - frame.offset_s)) / 3600.0;
  asked->groups = g_array_new (FALSE, FALSE, sizeof (FrTapGroup));
  asked->gathered = g_array_new (FALSE, FALSE, sizeof (FrSapGathered));
  asked->came_in = g_array_new (FALSE, FALSE, sizeof (FrSapCame));
  question->as_of = as_of (&frame, now_utc);
  put_weather (asked, &frame, sources, now_utc);
  if (past != NULL)
    asked->past = g_ptr_array_ref (past);
  else
    {
      asked->past = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_air_hours_free);
      fr_past_airs (asked->weather, fr_midwinter (question->as_of, question->is_south), frame.offset_s, asked->past);
    }
  fr_book_forecast_put_taps (asked, &frame);
  question->air = asked->air;
  question->gather_hour = frame.gather_hour;
  question->n_groups = asked->groups->len;
  question->groups = (const FrTapGroup *)asked->groups->data;
  question->n_gathered = asked->gathered->len;
  question->gathered = (const FrSapGathered *)asked->gathered->data;
  question->errors = errors_of (book->forecasting);
  question->n_past = asked->past->len;
  question->past = (const FrAirHours *const *)asked->past->pdata;
  question->n_draws = FR_BOOK_FORECAST_DRAWS;
  question->seed = SEED;
  return asked;
}

static void
clear (gpointer data)
{
  FrBookForecast *asked = data;

  fr_weather_free (asked->weather);
  fr_air_hours_free (asked->air);
  g_array_unref (asked->groups);
  g_array_unref (asked->gathered);
  g_array_unref (asked->came_in);
  g_ptr_array_unref (asked->past);
}

FrBookForecast *
fr_book_forecast_ref (FrBookForecast *asked)
{
  return g_atomic_rc_box_acquire (asked);
}

void
fr_book_forecast_free (FrBookForecast *asked)
{
  if (asked != NULL)
    g_atomic_rc_box_release_full (asked, clear);
}

/* --- and back --- */

static void
move (FrLitres *litres, double by_l)
{
  litres->lo_l += by_l;
  litres->quarter_lo_l += by_l;
  litres->middle_l += by_l;
  litres->quarter_hi_l += by_l;
  litres->hi_l += by_l;
  litres->mean_l += by_l;
}

FrForecast *
fr_book_forecast_answer (const FrBookForecast *asked)
{
  FrForecast *forecast = fr_forecast_new (&asked->question);
  double came_l = 0, told_l = forecast->gathered_l;
  guint next = 0;

  for (guint i = 0; i < asked->came_in->len; i++)
    {
      const FrSapCame *came = &g_array_index (asked->came_in, FrSapCame, i);

      came_l += fr_date_compare (came->date, forecast->as_of) <= 0 ? came->volume_l : 0;
    }
  forecast->gathered_l = came_l;
  came_l = 0;
  for (guint i = 0; i < forecast->n_days; i++)
    {
      FrForecastDay *day = &forecast->days[i];

      for (; next < asked->came_in->len
             && fr_date_compare (g_array_index (asked->came_in, FrSapCame, next).date, day->date) <= 0;
           next++)
        came_l += g_array_index (asked->came_in, FrSapCame, next).volume_l;
      if (day->is_ahead)
        move (&day->so_far, forecast->gathered_l - told_l);
      else
        move (&day->so_far, came_l - day->so_far.middle_l);
    }
  return forecast;
}

static void
put_air (FrSeasonView *view, const FrWeather *weather)
{
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *seen = &g_array_index (weather->days, FrWeatherDay, i);
      int index = fr_season_index (view, seen->date);
      FrSeasonDay *day = index >= 0 ? &view->days[index] : NULL;

      if (day == NULL || !isnan (day->low_c) || !isnan (day->high_c))
        continue;
      day->low_c = seen->low_c;
      day->high_c = seen->high_c;
      day->is_expected_weather = seen->is_forecast;
    }
}

void
fr_season_view_expect (FrSeasonView *view, const FrForecast *forecast, const FrWeather *weather)
{
  for (guint i = 0; i < forecast->n_days; i++)
    {
      const FrForecastDay *ahead = &forecast->days[i];
      int index = fr_season_index (view, ahead->date);

      if (index < 0 || !ahead->is_ahead || ahead->is_beyond)
        continue;
      view->days[index].expected_lo_l = ahead->bush.lo_l;
      view->days[index].expected_l = ahead->bush.middle_l;
      view->days[index].expected_hi_l = ahead->bush.hi_l;
    }
  put_air (view, weather);
}
