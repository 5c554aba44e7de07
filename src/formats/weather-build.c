/* What every reader ends with. */
#include "formats/weather-private.h"

#include <math.h>

static void
count_mark (FrWeather *weather, FrWeatherMark mark)
{
  weather->n_absent += mark == FR_WEATHER_ABSENT;
  weather->n_estimated += mark == FR_WEATHER_ESTIMATED;
  weather->n_refused += mark == FR_WEATHER_REFUSED;
}

void
fr_weather_finish (FrWeather *weather)
{
  weather->n_duplicates += fr_weather_sort (weather);
  for (guint i = 0; i < weather->days->len; i++)
    {
      FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      /* Which of the two is wrong does not show. */
      if (day->low_c > day->high_c)
        {
          day->low_c = day->high_c = NAN;
          day->low_mark = day->high_mark = FR_WEATHER_REFUSED;
        }
      count_mark (weather, day->low_mark);
      count_mark (weather, day->high_mark);
    }
}
