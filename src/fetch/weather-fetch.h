/* The weather of the household's place from the service it has chosen, asked with the manners the services
 * want, or from what is kept.
 *
 * Everything slow happens in a thread; the caller's main context stays live. The last good weather is given
 * with every result. */
#pragma once

#include <gio/gio.h>

#include "domain/plan/fetch-state.h"
#include "fetch/web-get.h"

G_BEGIN_DECLS

/* Reads an answer's bytes, in a thread; NULL with @error when they are not @format or hold no weather. An
 * answer that cannot be read never takes the place of a good one. */
typedef FrWeather *(*FrWeatherReader) (GBytes *body, FrWeatherFormat format, GError **error);

/**
 * FrWeatherAsk:
 * @base_address: instead of the service's own, or NULL
 * @contact: an e-mail address or a page of the household, sent only where the service's terms ask for one; or
 * NULL
 * @version: of the program
 * @latitude_deg: north positive, or NAN; no more than two decimals are sent
 * @longitude_deg: east positive, or NAN
 * @altitude_m: above the sea, or NAN; sent by tens of metres where the service uses it
 * @folder: of the cache; made when missing
 * @authorities: whom to trust instead of those the system trusts, or NULL
 * @limits: of time and size; the default is fr_web_limits
 * @now_utc: the clock
 * @only_kept: look at what is kept and ask nothing
 *
 * Plain value; everything in it is borrowed, and copied by fr_weather_fetch_async.
 */
typedef struct
{
  FrWeatherService service;
  const char *base_address;
  const char *contact;
  const char *version;
  double latitude_deg;
  double longitude_deg;
  double altitude_m;
  const char *folder;
  FrWeatherReader reader;
  GTlsDatabase *authorities;
  FrWebLimits limits;
  gint64 now_utc;
  gboolean only_kept;
} FrWeatherAsk;

/**
 * FrWeatherFetched:
 * @body: of the last good answer, or NULL
 * @weather: as read from it, or NULL
 * @is_new: it came with this question
 * @problem: what the reader, the cache or the file system said, for who wants to know more; or NULL
 */
typedef struct
{
  FrFetchState state;
  GBytes *body;
  FrWeather *weather;
  gboolean is_new;
  char *problem;
} FrWeatherFetched;

/* Asks when the household wants it and the service may be asked now; else tells how it stands. With
 * FR_WEATHER_SERVICE_OFF neither a file nor a socket is opened. */
void
fr_weather_fetch_async (const FrWeatherAsk *ask, GCancellable *cancellable, GAsyncReadyCallback callback,
                        gpointer user_data);
/* NULL with G_IO_ERROR_CANCELLED when cancelled, and with no other error. */
FrWeatherFetched *
fr_weather_fetch_finish (GAsyncResult *result, GError **error);
void
fr_weather_fetched_free (FrWeatherFetched *fetched);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherFetched, fr_weather_fetched_free)

G_END_DECLS
