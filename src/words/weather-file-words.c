/* Formats by the names their publishers give them. */
#include "words/weather-file-words.h"

#include <glib/gi18n-lib.h>

const char *
fr_weather_format_name (FrWeatherFormat format)
{
  switch (format)
    {
    case FR_WEATHER_CSV:
      return _ ("plain table");
    case FR_WEATHER_GHCND_DLY:
      return _ ("GHCN-Daily, fixed width");
    case FR_WEATHER_GHCND_ROWS:
      return _ ("GHCN-Daily CSV, an element a row");
    case FR_WEATHER_GHCND_TABLE:
      return _ ("GHCN-Daily CSV, a day a row");
    case FR_WEATHER_ECCC_DAILY:
      return _ ("Environment and Climate Change Canada, daily CSV");
    case FR_WEATHER_MET_COMPACT:
      return _ ("MET Norway, compact forecast");
    case FR_WEATHER_NWS_GRID:
      return _ ("US National Weather Service, gridpoint forecast");
    case FR_WEATHER_NWS_POINT:
      return _ ("US National Weather Service, where the forecast is");
    case FR_WEATHER_OPEN_METEO:
      return _ ("Open-Meteo forecast");
    case FR_WEATHER_OWN:
      return _ ("own thermometer");
    case FR_WEATHER_JOINED:
      return _ ("several sources");
    case FR_N_WEATHER_FORMATS:
      break;
    }
  g_return_val_if_reached ("");
}
