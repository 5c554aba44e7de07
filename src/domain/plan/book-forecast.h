/* The sap forecast asked of a book: its weather joined, its taps as groups, what was emptied as litres a tap; and the answer with the
 * litres that were really written down. */
#pragma once

#include "domain/maths/weather-join.h"
#include "domain/maths/weather-offset.h"
#include "domain/plan/forecast.h"
#include "domain/plan/season.h"

G_BEGIN_DECLS

/* Courses of weather that each member is run over. */
#define FR_BOOK_FORECAST_DRAWS 8
/* A gathering this long before the usual hour is the day's. Common sense, no source. */
#define FR_GATHERED_EARLY_S (4 * 3600)

/**
 * FrPlaceSource:
 * One source of the place's weather, or the household's own.
 * @station: its record, or NULL for the household's own days
 * @seen: what it observed, in order; owned
 * @low, @high: its offset to the household as learned from days that both have; @n_days 0 without
 */
typedef struct
{
  const FrStation *station;
  FrWeather *seen;
  FrOffset low;
  FrOffset high;
} FrPlaceSource;

/* The household's own days first, then each source. (element-type FrPlaceSource), free with g_array_unref. Borrows the stations. @days and
 * @station_days may be NULL. */
GArray *fr_place_sources_new (const GPtrArray *stations, const GPtrArray *days, const GPtrArray *station_days);

/* More days of one source, such as those of other seasons; 0 the household's own. Nothing when there is no such source. */
void fr_place_sources_add (GArray *sources, gint64 station, const FrWeather *more);

/**
 * fr_place_sources_learn:
 * The offsets of each source from days that the household has too. Call it when all days are there and in order.
 */
void fr_place_sources_learn (GArray *sources);

/* One series of them and of a forecast, each moved by its offset: what the source's record says, else what was learned. @outlook may be NULL.
 * Highs that were read on the morning after are put back a day. */
FrWeatherJoined *fr_place_weather (const GArray *sources, const FrOutlook *outlook, gint offset_s);

/**
 * FrBookForecast:
 * A question with all that it borrows, free of the book.
 * @weather: joined
 * @air: of the season, as the question has it
 * @groups: (element-type FrTapGroup): taps that are set and not pulled
 * @gathered: (element-type FrSapGathered)
 * @came_in: (element-type FrSapCame): litres that were written down, by the day they count to
 * @past: (element-type FrAirHours): seasons before; never changed
 * @outlook_utc: when the forecast that was used was issued, G_MININT64 without one; @outlook_station: of which source
 * @lows, @highs: what was learned of the source with most days in common, @n_days 0 without
 * @gather_hour: as the household's clock has it, −1 not told
 * @now_h: hours of the standard clock at the moment asked, after midnight of @today
 */
typedef struct
{
  FrDate date;
  double volume_l;
} FrSapCame;

typedef struct
{
  FrWeather *weather;
  FrAirHours *air;
  GArray *groups;
  GArray *gathered;
  GArray *came_in;
  GPtrArray *past;
  gint64 outlook_utc;
  gint64 outlook_station;
  FrOffset lows;
  FrOffset highs;
  FrDate today;
  gint gather_hour;
  double now_h;
  FrForecastQuestion question;
} FrBookForecast;

/**
 * fr_book_forecast_new:
 * @book: of the season that @now_utc lies in; its zone is needed
 * @sources: (nullable): of all seasons, with offsets learned; NULL takes those of @book
 * @past: (nullable): (element-type FrAirHours): seasons before; a reference is taken. NULL takes those that @sources know whole
 * @latitude_deg: of the place; NAN asks the sources
 *
 * Returns: never NULL; without weather its air has no hours
 */
FrBookForecast *fr_book_forecast_new (const FrSeasonBook *book, const GArray *sources, GPtrArray *past, double latitude_deg,
                                      gint64 now_utc);
/* It never changes, so that several may hold it, in threads too. */
FrBookForecast *fr_book_forecast_ref (FrBookForecast *asked);
void fr_book_forecast_free (FrBookForecast *asked);

/* The answer. What came in, and what is so far, are the book's own litres. */
FrForecast *fr_book_forecast_answer (const FrBookForecast *asked);

/* Puts what is expected into the days of a season that are still to come and within the weather known; and the air of days that the household
 * has not written down. */
void fr_season_view_expect (FrSeasonView *view, const FrForecast *forecast, const FrWeather *weather);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrBookForecast, fr_book_forecast_free)

G_END_DECLS
