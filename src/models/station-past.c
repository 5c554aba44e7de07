/* The same sources and the same learning that the forecast takes (book-forecast.h), so that what is told here is what it adds. */
#include "models/station-past.h"

#include "domain/plan/book-forecast.h"
#include "models/weather-transfer.h"

gboolean
fr_station_past_read (FrBook *book, const FrStation *station, FrStationPast *past_out, GError **error)
{
  g_autoptr (GPtrArray) stations = g_ptr_array_new ();
  g_autoptr (FrWeather) own = NULL, seen = NULL;
  g_autoptr (GArray) sources = NULL;
  const FrPlaceSource *source;
  FrStation here = *station;

  *past_out = (FrStationPast){ 0 };
  own = fr_book_read_weather (book, 0, error);
  seen = own != NULL ? fr_book_read_weather (book, station->record.id, error) : NULL;
  if (seen == NULL)
    return FALSE;
  here.record.archived = FALSE; /* one that is put away is told of all the same */
  g_ptr_array_add (stations, &here);
  sources = fr_place_sources_new (stations, NULL, NULL);
  fr_place_sources_add (sources, 0, own);
  fr_place_sources_add (sources, station->record.id, seen);
  fr_place_sources_learn (sources);
  source = &g_array_index (sources, FrPlaceSource, 1);
  past_out->n_days = seen->days->len;
  if (seen->days->len > 0)
    {
      past_out->first = g_array_index (seen->days, FrWeatherDay, 0).date;
      past_out->last = g_array_index (seen->days, FrWeatherDay, seen->days->len - 1).date;
    }
  past_out->low = source->low;
  past_out->high = source->high;
  return TRUE;
}
