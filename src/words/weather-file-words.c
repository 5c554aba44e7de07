/* Formats by the names their publishers give them. */
#include "words/weather-file-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
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

/* From the first day that was seen or told to the last, or as many hours. With years, which spoken dates leave out. */
static char *
what_is_in (const FrWeather *weather)
{
  const GArray *days = weather->days;
  const guint n_hours = weather->hours->len;

  if (days->len > 0)
    {
      g_autofree char *from = fr_date_to_iso (g_array_index (days, FrWeatherDay, 0).date);
      g_autofree char *to = fr_date_to_iso (g_array_index (days, FrWeatherDay, days->len - 1).date);

      return days->len == 1 ? g_strdup_printf (_ ("One day, %s"), from)
                            : g_strdup_printf (_ ("%u days, %s to %s"), days->len, from, to);
    }
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u hour", "%u hours", n_hours), n_hours);
}

char *
fr_weather_found_sentence (const FrWeather *weather)
{
  const char *place = weather->place_name != NULL ? weather->place_name : weather->station;
  g_autofree char *in = what_is_in (weather);

  if (place != NULL)
    /* Translators: what is in a file, the place it is of, how it is written: "365 days, 2025-01-01 to 2025-12-31, of “Hill Farm”. Read as:
     * plain table." */
    return g_strdup_printf (_ ("%s, of “%s”. Read as: %s."), in, place, fr_weather_format_name (weather->format));
  return g_strdup_printf (_ ("%s. Read as: %s."), in, fr_weather_format_name (weather->format));
}

static void
add_part (GString *text, guint n, const char *one, const char *many)
{
  if (n == 0)
    return;
  g_string_append (text, text->len > 0 ? ", " : "");
  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, one, many, n), n);
}

char *
fr_weather_left_out_sentence (const FrWeather *weather)
{
  g_autoptr (GArray) gaps = fr_weather_gaps (weather);
  GString *text = g_string_new (NULL);
  guint n_missing = 0;

  for (guint i = 0; i < gaps->len; i++)
    n_missing += g_array_index (gaps, FrWeatherGap, i).n_days;
  add_part (text, n_missing, N_ ("%u day is missing"), N_ ("%u days are missing"));
  add_part (text, weather->n_absent, N_ ("%u value is empty"), N_ ("%u values are empty"));
  add_part (text, weather->n_refused, N_ ("%u value failed a check and is left out"), N_ ("%u values failed a check and are left out"));
  add_part (text, weather->n_estimated, N_ ("%u is estimated"), N_ ("%u are estimated"));
  add_part (text, weather->n_duplicates, N_ ("%u stands twice"), N_ ("%u stand twice"));
  if (text->len == 0)
    {
      g_string_free (text, TRUE);
      return NULL;
    }
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

static char *
difference (const FrOffset *offset, const FrUnits *units)
{
  g_autofree char *size = fr_quantity_to_string (fabs (offset->mean_k), FR_QUANTITY_DIFFERENCE, units, 1);

  if (fabs (offset->mean_k) < .05)
    return g_strdup (_ ("like its own"));
  /* Translators: a difference of temperatures */
  return g_strdup_printf (offset->mean_k < 0 ? _ ("%s below its own") : _ ("%s above its own"), size);
}

char *
fr_station_sentence (guint n_days, FrDate first, FrDate last, const FrOffset *low, const FrOffset *high, const FrUnits *units)
{
  g_autofree char *from = NULL, *to = NULL, *lows = NULL, *highs = NULL, *on_file = NULL;
  guint n_both = MAX (low->n_days, high->n_days);

  if (n_days == 0)
    return g_strdup (_ ("No day of it is on file yet."));
  from = fr_date_to_iso (first);
  to = fr_date_to_iso (last);
  on_file = n_days == 1 ? g_strdup_printf (_ ("One day on file, %s."), from)
                        : g_strdup_printf (_ ("%u days on file, %s to %s."), n_days, from, to);
  if (n_both == 0)
    return g_strdup_printf (_ ("%s None of them did you write down yourself, so how far it lies from your own thermometer is not known."), on_file);
  lows = difference (low, units);
  highs = difference (high, units);
  /* Translators: what is on file, a number of days, two differences */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s By %u day that you wrote down too, your lows are %s and your highs %s.",
                                       "%s By %u days that you wrote down too, your lows are %s and your highs %s.", n_both),
                          on_file, n_both, lows, highs);
}
