/* One question is out at most. A change of service, address, contact or place drops it and begins anew with
 * what is kept of the new one; other changes of the book are nothing to it. The wall clock is looked at twice
 * a minute, not waited for: a timer of an hour would stand still while the computer sleeps. */
#include "models/weather-keeper.h"

#include <math.h>
#include <string.h>

#include "fetch/etiquette.h"
#include "formats/weather-file.h"

#define LOOK_S 30
#define SET_BACK_S 120

/* What is asked, as the book has it. */
typedef struct
{
  FrWeatherService service;
  char *base_address;
  char *contact;
  double latitude_deg;
  double longitude_deg;
  double altitude_m;
} Wanted;

struct _FrWeatherKeeper
{
  GObject parent_instance;
  FrBook *book;
  FrTonightClock clock;
  char *folder;
  char *version;
  Wanted wanted;
  FrFetchState state;
  FrWeather *weather;
  GCancellable *cancellable; /* of the question that is out */
  gboolean is_asking;
  gint64 due_utc;
  gint64 looked_utc; /* at the clock */
  guint timer;
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_ARRIVED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (FrWeatherKeeper, fr_weather_keeper, G_TYPE_OBJECT)

/* --- what is wanted --- */

static void
wanted_clear (Wanted *wanted)
{
  g_clear_pointer (&wanted->base_address, g_free);
  g_clear_pointer (&wanted->contact, g_free);
}

static const FrRecord *
single (FrBook *book, FrKindId kind)
{
  FrRecordList *list = fr_book_get_list (book, kind);

  return fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
}

/* Of the source of weather that stands for the service, where the plan is not tied to the earth. */
static void
place_of_station (FrBook *book, FrWeatherService service, double *latitude_deg_out, double *longitude_deg_out)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_STATION);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrStation *station = (const FrStation *)fr_record_list_get (list, i);

      if (station->record.archived || g_strcmp0 (station->source, fr_weather_service_code (service)) != 0)
        continue;
      *latitude_deg_out = station->latitude_deg.value;
      *longitude_deg_out = station->longitude_deg.value;
      return;
    }
}

void
fr_weather_keeper_place (FrBook *book, FrWeatherService service, double *latitude_deg_out,
                         double *longitude_deg_out, double *altitude_m_out)
{
  const FrGround *ground = (const FrGround *)single (book, FR_KIND_GROUND);
  const FrHousehold *household = fr_book_get_household (book);

  *latitude_deg_out = ground != NULL ? ground->anchor_lat_deg.value : NAN;
  *longitude_deg_out = ground != NULL ? ground->anchor_lon_deg.value : NAN;
  *altitude_m_out = household != NULL ? household->altitude_m.value : NAN;
  if (!fr_weather_place_is_known (*latitude_deg_out, *longitude_deg_out))
    place_of_station (book, service, latitude_deg_out, longitude_deg_out);
}

static Wanted
wanted_by (FrBook *book)
{
  const FrForecasting *forecasting = (const FrForecasting *)single (book, FR_KIND_FORECASTING);
  Wanted wanted = { .latitude_deg = NAN, .longitude_deg = NAN, .altitude_m = NAN };

  if (forecasting == NULL || !fr_weather_service_from_code (forecasting->service, &wanted.service)
      || wanted.service == FR_WEATHER_SERVICE_OFF)
    return wanted;
  if (forecasting->base_address != NULL && *forecasting->base_address != '\0')
    wanted.base_address = g_strdup (forecasting->base_address);
  wanted.contact = g_strdup (forecasting->contact);
  fr_weather_keeper_place (book, wanted.service, &wanted.latitude_deg, &wanted.longitude_deg,
                           &wanted.altitude_m);
  return wanted;
}

/* Unknown is the same as unknown. */
static gboolean
same_number (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static gboolean
same (const Wanted *a, const Wanted *b)
{
  return a->service == b->service && g_strcmp0 (a->base_address, b->base_address) == 0
         && g_strcmp0 (a->contact, b->contact) == 0 && same_number (a->latitude_deg, b->latitude_deg)
         && same_number (a->longitude_deg, b->longitude_deg) && same_number (a->altitude_m, b->altitude_m);
}

/* --- asking --- */

static FrWeather *
read_bytes (GBytes *body, FrWeatherFormat format, GError **error)
{
  gsize length;
  const char *bytes = g_bytes_get_data (body, &length);

  return fr_weather_read (bytes != NULL ? bytes : "", length, NULL, error);
}

typedef struct
{
  FrWeatherKeeper *keeper;
  GCancellable *cancellable;
  gboolean only_kept;
} Out;

static void
fetch (FrWeatherKeeper *self, gboolean only_kept);

/* Whether asking makes sense at all as the book stands. */
static gboolean
may_ever (const FrFetchState *state)
{
  return state->outcome != FR_FETCH_OFF && state->outcome != FR_FETCH_NO_PLACE
         && state->outcome != FR_FETCH_NO_CONTACT && state->outcome != FR_FETCH_BAD_ADDRESS
         && state->next_utc != FR_FETCH_UNTIL_CHANGED;
}

static void
take (FrWeatherKeeper *self, FrWeatherFetched *fetched, gboolean only_kept)
{
  const gint64 now_utc = self->clock (NULL);
  gint64 next_utc = fetched->state.next_utc;

  self->state = fetched->state;
  g_clear_pointer (&self->weather, fr_weather_free);
  self->weather = g_steal_pointer (&fetched->weather);
  self->due_utc = FR_FETCH_NEVER;
  if (may_ever (&self->state))
    {
      if (next_utc == FR_FETCH_NEVER && !only_kept)
        next_utc = now_utc + FR_ETIQUETTE_PACE_S;
      /* Another program may be asking: its answer is there before the hour is over. */
      if (next_utc != FR_FETCH_NEVER && self->state.outcome == FR_FETCH_BROKEN_OFF)
        next_utc = now_utc;
      self->due_utc
          = next_utc == FR_FETCH_NEVER ? now_utc : fr_etiquette_due (next_utc, now_utc, g_random_int ());
    }
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  if (fetched->is_new)
    g_signal_emit (self, signals[SIGNAL_ARRIVED], 0, fetched->body);
}

static void
on_fetched (GObject *object, GAsyncResult *result, gpointer data)
{
  Out *out = data;
  g_autoptr (FrWeatherKeeper) self = out->keeper;
  g_autoptr (GCancellable) cancellable = out->cancellable;
  const gboolean only_kept = out->only_kept;
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeatherFetched) fetched = fr_weather_fetch_finish (result, &error);

  g_free (out);
  /* Cancelled, another has taken its place or nobody wants to know any longer. */
  if (fetched == NULL || self->cancellable != cancellable)
    return;
  self->is_asking = FALSE;
  g_clear_object (&self->cancellable);
  take (self, fetched, only_kept);
  fr_weather_keeper_refresh (self);
}

static void
fetch (FrWeatherKeeper *self, gboolean only_kept)
{
  const FrWeatherAsk ask = { .service = self->wanted.service,
                             .base_address = self->wanted.base_address,
                             .contact = self->wanted.contact,
                             .version = self->version,
                             .latitude_deg = self->wanted.latitude_deg,
                             .longitude_deg = self->wanted.longitude_deg,
                             .altitude_m = self->wanted.altitude_m,
                             .folder = self->folder,
                             .reader = read_bytes,
                             .limits = fr_web_limits,
                             .now_utc = self->clock (NULL),
                             .only_kept = only_kept };
  Out *out = g_new (Out, 1);

  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  self->is_asking = !only_kept;
  *out = (Out){ g_object_ref (self), g_object_ref (self->cancellable), only_kept };
  fr_weather_fetch_async (&ask, self->cancellable, on_fetched, out);
}

static void
drop_question (FrWeatherKeeper *self)
{
  if (self->cancellable != NULL)
    g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->is_asking = FALSE;
}

static gboolean
look (gpointer data)
{
  fr_weather_keeper_refresh (data);
  return G_SOURCE_CONTINUE;
}

/* After a change of the book. */
static void
follow (FrWeatherKeeper *self)
{
  Wanted wanted = wanted_by (self->book);

  if (same (&wanted, &self->wanted))
    {
      wanted_clear (&wanted);
      return;
    }
  wanted_clear (&self->wanted);
  self->wanted = wanted;
  drop_question (self);
  g_clear_pointer (&self->weather, fr_weather_free);
  self->due_utc = FR_FETCH_NEVER;
  g_clear_handle_id (&self->timer, g_source_remove);
  self->state = fr_fetch_state (
      wanted.service, wanted.service == FR_WEATHER_SERVICE_OFF ? FR_FETCH_OFF : FR_FETCH_NEVER_ASKED);
  if (wanted.service != FR_WEATHER_SERVICE_OFF)
    {
      self->timer = g_timeout_add_seconds (LOOK_S, look, self);
      fetch (self, TRUE);
    }
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* --- from outside --- */

void
fr_weather_keeper_refresh (FrWeatherKeeper *self)
{
  gint64 now_utc;
  gboolean was_set_back;

  g_return_if_fail (FR_IS_WEATHER_KEEPER (self));

  now_utc = self->clock (NULL);
  was_set_back = self->looked_utc != FR_FETCH_NEVER && now_utc < self->looked_utc - SET_BACK_S;
  self->looked_utc = now_utc;
  if (self->due_utc == FR_FETCH_NEVER)
    return;
  if (now_utc >= self->due_utc)
    fr_weather_keeper_ask (self);
  else if (was_set_back && self->cancellable == NULL)
    fetch (self, TRUE); /* what is due was reckoned by another clock */
}

void
fr_weather_keeper_ask (FrWeatherKeeper *self)
{
  g_return_if_fail (FR_IS_WEATHER_KEEPER (self));

  if (self->wanted.service == FR_WEATHER_SERVICE_OFF || self->cancellable != NULL)
    return;
  fetch (self, FALSE);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

const FrFetchState *
fr_weather_keeper_get_state (FrWeatherKeeper *self)
{
  g_return_val_if_fail (FR_IS_WEATHER_KEEPER (self), NULL);
  return &self->state;
}

const FrWeather *
fr_weather_keeper_get_weather (FrWeatherKeeper *self)
{
  g_return_val_if_fail (FR_IS_WEATHER_KEEPER (self), NULL);
  return self->weather;
}

gboolean
fr_weather_keeper_is_asking (FrWeatherKeeper *self)
{
  g_return_val_if_fail (FR_IS_WEATHER_KEEPER (self), FALSE);
  return self->is_asking;
}

gint64
fr_weather_keeper_get_due (FrWeatherKeeper *self)
{
  g_return_val_if_fail (FR_IS_WEATHER_KEEPER (self), FR_FETCH_NEVER);
  return self->due_utc;
}

static void
fr_weather_keeper_dispose (GObject *object)
{
  FrWeatherKeeper *self = FR_WEATHER_KEEPER (object);

  drop_question (self);
  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_weather_keeper_parent_class)->dispose (object);
}

static void
fr_weather_keeper_finalize (GObject *object)
{
  FrWeatherKeeper *self = FR_WEATHER_KEEPER (object);

  wanted_clear (&self->wanted);
  g_clear_pointer (&self->weather, fr_weather_free);
  g_free (self->folder);
  g_free (self->version);
  G_OBJECT_CLASS (fr_weather_keeper_parent_class)->finalize (object);
}

static void
fr_weather_keeper_class_init (FrWeatherKeeperClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_weather_keeper_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_weather_keeper_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", FR_TYPE_WEATHER_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                          NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_ARRIVED] = g_signal_new ("arrived", FR_TYPE_WEATHER_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                          NULL, G_TYPE_NONE, 1, G_TYPE_BYTES);
}

static void
fr_weather_keeper_init (FrWeatherKeeper *self)
{
  self->state = fr_fetch_state (FR_WEATHER_SERVICE_OFF, FR_FETCH_OFF);
  self->due_utc = self->looked_utc = FR_FETCH_NEVER;
  self->wanted = (Wanted){ .latitude_deg = NAN, .longitude_deg = NAN, .altitude_m = NAN };
}

FrWeatherKeeper *
fr_weather_keeper_new (FrBook *book, FrTonightClock clock, const char *folder, const char *version)
{
  FrWeatherKeeper *self;

  g_return_val_if_fail (FR_IS_BOOK (book) && clock != NULL && folder != NULL && version != NULL, NULL);

  self = g_object_new (FR_TYPE_WEATHER_KEEPER, NULL);
  self->book = g_object_ref (book);
  self->clock = clock;
  self->folder = g_strdup (folder);
  self->version = g_strdup (version);
  g_signal_connect_object (book, "changed", G_CALLBACK (follow), self, G_CONNECT_SWAPPED);
  follow (self);
  return self;
}
