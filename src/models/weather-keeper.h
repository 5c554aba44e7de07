/* Keeps the weather of the household's place at hand: asks the service the book names (FrForecasting) when
 * the program opens and once an hour after, at a minute drawn anew each time and never about the full hour,
 * when everybody asks. Off, it does nothing at all.
 *
 * What arrives is handed on; whoever puts it into the book listens to "arrived".
 *
 * Signals:
 * - "changed" (): state, weather or whether a question is out differ
 * - "arrived" (GBytes *body): a new answer, read as fr_weather_keeper_get_weather()
 */
#pragma once

#include "fetch/weather-fetch.h"
#include "models/book.h"
#include "models/tonight.h"

G_BEGIN_DECLS

#define FR_TYPE_WEATHER_KEEPER (fr_weather_keeper_get_type ())
G_DECLARE_FINAL_TYPE (FrWeatherKeeper, fr_weather_keeper, FR, WEATHER_KEEPER, GObject)

/**
 * fr_weather_keeper_new:
 * @clock: as for fr_tonight_new(); not one that is held still, since answers are dated by it
 * @folder: of the cache, such as g_get_user_cache_dir () with a folder of the program in it
 * @version: of the program, told to the service
 *
 * The place asked about is where the plan is tied to the earth, else that of the source of weather of the
 * same service, with the household's height.
 */
FrWeatherKeeper *
fr_weather_keeper_new (FrBook *book, FrTonightClock clock, const char *folder, const char *version);

/* How it stands; valid until the next "changed". */
const FrFetchState *
fr_weather_keeper_get_state (FrWeatherKeeper *self);
/* The last good weather of the service and place, or NULL; valid until the next "changed". */
const FrWeather *
fr_weather_keeper_get_weather (FrWeatherKeeper *self);
gboolean
fr_weather_keeper_is_asking (FrWeatherKeeper *self);
/* When it means to ask next, or FR_FETCH_NEVER while it does not. */
gint64
fr_weather_keeper_get_due (FrWeatherKeeper *self);

/* Looks at the clock, as happens by itself twice a minute: for a window that comes back, or a computer that
 * slept. */
void
fr_weather_keeper_refresh (FrWeatherKeeper *self);
/* Somebody wants to know now. The service's pace is kept all the same. */
void
fr_weather_keeper_ask (FrWeatherKeeper *self);

/* The place that @service would be told of, before it is rounded; what is not known is NAN. */
void
fr_weather_keeper_place (FrBook *book, FrWeatherService service, double *latitude_deg_out,
                         double *longitude_deg_out, double *altitude_m_out);

G_END_DECLS
