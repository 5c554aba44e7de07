/* The forecast's state. All that takes time is done in a thread, on records that are held and on copies; only rows of other seasons are read
 * here, once, and again when one of them has changed. Changes close on each other are answered together. */
#include "models/forecast.h"

#include "domain/plan/book-answer.h"
#include "domain/plan/book-weather.h"
#include "domain/plan/bush.h"
#include "formats/zone-source.h"

#include <math.h>

#define TOGETHER_MS 200

/* Days of one source in other seasons than today's. */
typedef struct
{
  gint64 station;
  FrWeather *weather;
} FarDays;

typedef struct
{
  FrForecaster *owner; /* NULL when it is gone */
  guint wanted;
  FrSeasonBook records;
  FrZoneTable *zone;
  GArray *far;
  GPtrArray *past;
  double latitude_deg;
  gint64 now_utc;
  FrBookForecast *asked;
  FrForecast *forecast;
  FrTapDates *dates;
  FrForecastAnswer answer;
  FrKitchen *kitchen;
  FrBookSugar *sugar;
} Question;

struct _FrForecaster
{
  GObject parent_instance;
  FrBook *book;
  FrSeasonClock clock;
  gulong handler;
  gboolean is_wanted; /* by anybody yet */
  gint64 asked_utc;
  FrZoneTable *zone;
  guint wanted;       /* which question is the latest */
  guint answered;
  guint serial;
  guint timeout;
  Question *running;
  FrBookForecast *asked;
  FrForecast *forecast;
  FrTapDates *dates; /* or NULL */
  FrForecastAnswer answer;
  FrKitchen *kitchen;
  FrBookSugar *sugar; /* its strays are not looked at: they are of a book that may be gone */
  GArray *far; /* (element-type FarDays), or NULL: to be read */
  guint far_season;
  guint far_serial, whole_serial;
  GPtrArray *past; /* (element-type FrAirHours) made of them */
};

G_DEFINE_FINAL_TYPE (FrForecaster, fr_forecaster, G_TYPE_OBJECT)

static guint changed_signal, pending_signal;

static void
far_clear (gpointer data)
{
  fr_weather_free (((FarDays *)data)->weather);
}

static void
question_free (Question *question)
{
  fr_book_season_book_clear (&question->records);
  fr_zone_table_free (question->zone);
  g_array_unref (question->far);
  g_clear_pointer (&question->past, g_ptr_array_unref);
  fr_book_forecast_free (question->asked);
  fr_forecast_free (question->forecast);
  fr_tap_dates_free (question->dates);
  fr_kitchen_free (question->kitchen);
  fr_book_sugar_free (question->sugar);
  g_free (question);
}

/* --- other seasons --- */

typedef struct
{
  GArray *far;
  guint season; /* left out */
} FarReading;

static void
take_far (const FrRecord *record, gpointer user_data)
{
  FarReading *reading = user_data;
  const char *iso = record->kind->id == FR_KIND_DAY ? ((const FrDay *)record)->day : ((const FrStationDay *)record)->day;
  FrDate date;

  if (iso == NULL || !fr_date_parse (iso, &date) || fr_season_of (date) == reading->season)
    return;
  for (guint i = 0; i < reading->far->len; i++)
    {
      FarDays *days = &g_array_index (reading->far, FarDays, i);
      FrWeatherTaking taking = { days->weather, days->station };

      fr_weather_take (record, &taking);
    }
}

static void
read_far (FrForecaster *self, guint season)
{
  FrRecordList *stations = fr_book_get_list (self->book, FR_KIND_STATION);
  FarReading reading = { g_array_new (FALSE, FALSE, sizeof (FarDays)), season };
  FarDays own = { 0, fr_weather_new (FR_WEATHER_OWN) };
  const FrRecordSpan always = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->far, g_array_unref);
  g_clear_pointer (&self->past, g_ptr_array_unref);
  g_array_set_clear_func (reading.far, far_clear);
  g_array_append_val (reading.far, own);
  for (guint i = 0; i < fr_record_list_get_size (stations); i++)
    {
      const FrStation *station = (const FrStation *)fr_record_list_get (stations, i);
      FarDays days = { station->record.id, NULL };

      if (station->record.archived)
        continue;
      days.weather = fr_station_weather_new (station);
      g_array_append_val (reading.far, days);
    }
  /* A book that cannot be read says so at the next change; the forecast does without its past. */
  if (!fr_book_each (self->book, FR_KIND_DAY, &always, fr_own_day_fields, take_far, &reading, &error)
      || !fr_book_each (self->book, FR_KIND_STATION_DAY, &always, fr_station_day_fields, take_far, &reading, &error))
    g_warning ("%s", error->message);
  self->far = reading.far;
  self->far_season = season;
  self->far_serial = fr_book_far_serial (self->book);
  self->whole_serial = fr_book_whole_serial (self->book);
}

/* --- asking --- */

static void
answer_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *cancellable)
{
  Question *question = task_data;
  const FrSeasonBook *book = &question->records;
  g_autoptr (GArray) sources = fr_place_sources_new (book->stations, book->days, book->station_days);

  for (guint i = 0; i < question->far->len; i++)
    {
      const FarDays *days = &g_array_index (question->far, FarDays, i);

      fr_place_sources_add (sources, days->station, days->weather);
    }
  fr_place_sources_learn (sources);
  question->asked
      = fr_book_forecast_new (book, sources, question->past, question->latitude_deg, question->now_utc);
  question->forecast = fr_book_forecast_answer (question->asked);
  if (question->asked->question.tapped.year == 0)
    question->dates = fr_tap_dates_new (&question->asked->question);
  question->kitchen
      = fr_book_answer (book, question->asked, question->forecast, question->now_utc, &question->answer);
  question->sugar = fr_book_sugar_new (book, question->asked->question.is_south, question->now_utc);
  g_task_return_boolean (task, TRUE);
}

static void ask (FrForecaster *self);

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Question *question = user_data;
  FrForecaster *self = question->owner;

  if (self == NULL)
    {
      question_free (question);
      return;
    }
  self->running = NULL;
  if (question->wanted != self->wanted)
    ask (self); /* the book moved meanwhile */
  else
    {
      g_clear_pointer (&self->past, g_ptr_array_unref);
      self->past = g_ptr_array_ref (question->asked->past);
      g_clear_pointer (&self->forecast, fr_forecast_free);
      g_clear_pointer (&self->asked, fr_book_forecast_free);
      g_clear_pointer (&self->dates, fr_tap_dates_free);
      g_clear_pointer (&self->kitchen, fr_kitchen_free);
      self->dates = g_steal_pointer (&question->dates);
      self->kitchen = g_steal_pointer (&question->kitchen);
      g_clear_pointer (&self->sugar, fr_book_sugar_free);
      self->sugar = g_steal_pointer (&question->sugar);
      self->answer = question->answer;
      self->forecast = g_steal_pointer (&question->forecast);
      self->asked = g_steal_pointer (&question->asked);
      self->answered = question->wanted;
      self->serial++;
      g_object_ref (self);
      g_signal_emit (self, changed_signal, 0);
      g_signal_emit (self, pending_signal, 0);
      g_object_unref (self);
    }
  question_free (question);
}

static double
latitude_of (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GROUND);

  return fr_record_list_get_size (list) > 0
             ? ((const FrGround *)fr_record_list_get (list, 0))->anchor_lat_deg.value
             : NAN;
}

static void
ask (FrForecaster *self)
{
  const FrHousehold *household = fr_book_get_household (self->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (GTask) task = NULL;
  Question *question;
  gint64 now_utc = self->clock (self->zone);
  gint year = fr_date_from_days (now_utc / 86400).year;
  guint season;

  if (self->running != NULL) /* answered_cb asks again */
    return;
  g_clear_pointer (&self->zone, fr_zone_table_free);
  if (household != NULL && household->zone != NULL)
    self->zone = fr_zone_table_load (household->zone, year - 2, year + 2, NULL);
  if (self->zone == NULL)
    self->zone = fr_zone_table_new_utc ();
  now_utc = self->clock (self->zone);
  season = fr_season_of (fr_zone_local (self->zone, now_utc).date);
  if (self->far == NULL || self->far_season != season || self->far_serial != fr_book_far_serial (self->book)
      || self->whole_serial != fr_book_whole_serial (self->book))
    read_far (self, season);
  question = g_new0 (Question, 1);
  question->zone = fr_zone_table_copy (self->zone);
  if (!fr_book_other_season_book (self->book, &question->records, season, question->zone, &error))
    {
      /* As the lists have it, which told of the failure already. */
      g_warning ("%s", error->message);
      fr_book_season_book (self->book, &question->records, question->zone);
    }
  question->owner = self;
  question->wanted = self->wanted;
  question->far = g_array_ref (self->far);
  question->past = self->past != NULL ? g_ptr_array_ref (self->past) : NULL;
  question->latitude_deg = latitude_of (self->book);
  question->now_utc = self->asked_utc = now_utc;
  self->running = question;
  task = g_task_new (NULL, NULL, answered_cb, question);
  g_task_set_task_data (task, question, NULL);
  g_task_run_in_thread (task, answer_thread);
}

static gboolean
together_cb (gpointer user_data)
{
  FrForecaster *self = FR_FORECASTER (user_data);

  self->timeout = 0;
  ask (self);
  return G_SOURCE_REMOVE;
}

static void
want (FrForecaster *self, guint after_ms)
{
  gboolean was_pending = fr_forecaster_is_pending (self);

  self->wanted++;
  g_clear_handle_id (&self->timeout, g_source_remove);
  self->timeout = g_timeout_add (after_ms, together_cb, self);
  if (!was_pending)
    g_signal_emit (self, pending_signal, 0);
}

static void
book_changed_cb (FrForecaster *self)
{
  if (self->is_wanted)
    want (self, TOGETHER_MS);
}

static void
fr_forecaster_finalize (GObject *object)
{
  FrForecaster *self = FR_FORECASTER (object);

  g_clear_handle_id (&self->timeout, g_source_remove);
  g_signal_handler_disconnect (self->book, self->handler);
  if (self->running != NULL)
    self->running->owner = NULL;
  fr_forecast_free (self->forecast);
  fr_book_forecast_free (self->asked);
  fr_tap_dates_free (self->dates);
  fr_kitchen_free (self->kitchen);
  fr_book_sugar_free (self->sugar);
  g_clear_pointer (&self->far, g_array_unref);
  g_clear_pointer (&self->past, g_ptr_array_unref);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_forecaster_parent_class)->finalize (object);
}

static void
fr_forecaster_class_init (FrForecasterClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_forecaster_finalize;
  changed_signal
      = g_signal_new ("changed", FR_TYPE_FORECASTER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  pending_signal = g_signal_new ("pending-changed", FR_TYPE_FORECASTER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
fr_forecaster_init (FrForecaster *self)
{
}

FrForecaster *
fr_forecaster_new (FrBook *book, FrSeasonClock clock)
{
  FrForecaster *self = g_object_new (FR_TYPE_FORECASTER, NULL);

  self->book = g_object_ref (book);
  self->clock = clock;
  self->handler = g_signal_connect_swapped (book, "changed", G_CALLBACK (book_changed_cb), self);
  return self;
}

void
fr_forecaster_refresh (FrForecaster *self)
{
  if (self->is_wanted && self->clock (self->zone) / 3600 != self->asked_utc / 3600)
    want (self, 0);
}

const FrForecast *
fr_forecaster_get (FrForecaster *self)
{
  if (!self->is_wanted)
    {
      self->is_wanted = TRUE;
      want (self, 0);
    }
  return self->forecast;
}

const FrBookForecast *
fr_forecaster_get_asked (FrForecaster *self)
{
  fr_forecaster_get (self);
  return self->asked;
}

const FrTapDates *
fr_forecaster_get_tap_dates (FrForecaster *self)
{
  fr_forecaster_get (self);
  return self->dates;
}

const FrForecastAnswer *
fr_forecaster_get_answer (FrForecaster *self)
{
  return fr_forecaster_get (self) != NULL ? &self->answer : NULL;
}

const FrKitchen *
fr_forecaster_get_kitchen (FrForecaster *self)
{
  fr_forecaster_get (self);
  return self->kitchen;
}

gboolean
fr_forecaster_get_sugar (FrForecaster *self, FrDate date, FrSugarBrix *sugar_out)
{
  if (self->sugar == NULL || self->sugar->n_readings <= self->sugar->n_strays)
    return FALSE;
  *sugar_out = fr_book_sugar_on (self->sugar, date, 0);
  return TRUE;
}

gboolean
fr_forecaster_is_pending (FrForecaster *self)
{
  return self->answered != self->wanted;
}

guint
fr_forecaster_get_serial (FrForecaster *self)
{
  return self->serial;
}
