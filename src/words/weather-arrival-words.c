/* What becomes of weather that comes in: counted, for a file may hold twenty thousand days; single days are told of only when they change or
 * cannot be kept. */
#include "words/weather-arrival-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/entry-words.h"

char *
fr_weather_arrival_summary (const FrWeatherPreview *preview)
{
  static const char *const parts[FR_N_WEATHER_FATES]
      = { N_ ("%u new"), N_ ("%u changed"), N_ ("%u the same"), N_ ("%u without any value, left out"), N_ ("%u refused") };
  const guint n = preview->rows->len;
  GString *text;

  if (n == 0)
    return g_strdup (_ ("There is no observed day in it."));
  text = g_string_new (NULL);
  g_string_append_printf (text, dngettext (GETTEXT_PACKAGE, "%u day", "%u days", n), n);
  for (guint i = 0, told = 0; i < FR_N_WEATHER_FATES; i++)
    if (preview->n[i] > 0)
      {
        g_auto (GStrv) halves = g_strsplit (_ (parts[i]), "%u", 2);

        g_string_append_printf (text, "%s%s%u%s", told++ > 0 ? ", " : ": ", halves[0], preview->n[i],
                                halves[1] != NULL ? halves[1] : "");
      }
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

char *
fr_weather_arrival_station_sentence (const FrWeatherPreview *preview, const FrUnits *units)
{
  const char *name = preview->station_after->name != NULL ? preview->station_after->name : "";
  g_autofree char *why = NULL;

  switch (preview->station_fate)
    {
    case FR_WEATHER_NEW:
      return g_strdup_printf (_ ("“%s” is a new source of weather."), name);
    case FR_WEATHER_CHANGES:
      return g_strdup_printf (_ ("What the file says of “%s” is added to what the book knows of it."), name);
    case FR_WEATHER_UNKEPT:
      why = fr_record_sentence (&preview->station_problem, &preview->station_after->record, units);
      return g_strdup_printf (_ ("The source “%s” cannot be kept: %s"), name, why);
    default:
      return NULL;
    }
}

char *
fr_weather_arrival_outlook_sentence (const FrWeatherPreview *preview, const FrUnits *units)
{
  g_autofree char *why = NULL;

  switch (preview->outlook_fate)
    {
    case FR_WEATHER_NEW:
      return g_strdup (_ ("A forecast comes with it."));
    case FR_WEATHER_CHANGES:
      return g_strdup (_ ("The forecast made at that time is told otherwise now, and is changed."));
    case FR_WEATHER_SAME:
      return g_strdup (_ ("Its forecast is in the book already."));
    case FR_WEATHER_UNKEPT:
      why = fr_record_sentence (&preview->outlook_problem, &preview->outlook_after->record, units);
      return g_strdup_printf (_ ("Its forecast cannot be kept: %s"), why);
    default:
      return NULL;
    }
}

char *
fr_weather_arrival_hours_sentence (const FrWeatherPreview *preview)
{
  return preview->n_hours_left > 0
             ? g_strdup (_ ("Readings of single hours are kept as the lows and highs of days that have enough of them."))
             : NULL;
}

static void
add_value (GString *text, const char *name, const FrAmount *before, const FrAmount *after, const FrUnits *units)
{
  g_autofree char *was = NULL, *is = NULL;

  if (before->value == after->value || (isnan (before->value) && isnan (after->value)))
    return;
  was = isnan (before->value) ? g_strdup (_ ("unknown")) : fr_quantity_to_string (before->value, FR_QUANTITY_TEMPERATURE, units, 1);
  is = fr_quantity_to_string (after->value, FR_QUANTITY_TEMPERATURE, units, 1);
  /* Translators: low or high, then what was in the book and what the file has */
  g_string_append_printf (text, _ ("%s%s was %s, is %s"), text->len > 0 ? "; " : "", name, was, is);
}

/* What is another, in its temperatures; rain, snow and sun are only said to be. */
static char *
what_changes (const FrStationDay *before, const FrStationDay *after, const FrUnits *units)
{
  GString *text = g_string_new (NULL);

  add_value (text, _ ("Low"), &before->low_c, &after->low_c, units);
  add_value (text, text->len > 0 ? _ ("high") : _ ("High"), &before->high_c, &after->high_c, units);
  if (text->len == 0)
    g_string_append (text, _ ("Rain, snow, sun or a mark changes"));
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

char *
fr_weather_arrival_row_sentence (const FrWeatherRow *row, const FrUnits *units)
{
  switch (row->fate)
    {
    case FR_WEATHER_NEW:
      return g_strdup (_ ("New."));
    case FR_WEATHER_CHANGES:
      return what_changes (row->before, row->after, units);
    case FR_WEATHER_SAME:
      return g_strdup (_ ("In the book already; nothing changes."));
    case FR_WEATHER_UNKEPT:
      return fr_record_sentence (&row->problem, &row->after->record, units);
    default:
      return g_strdup (_ ("The source has no value of it."));
    }
}

char *
fr_weather_arrival_other_sentence (const FrWeatherPreview *preview, const FrWeather *weather)
{
  return preview->is_other_station
             ? g_strdup_printf (_ ("The file is of “%s”, but the book has “%s” as %s."), weather->station,
                                preview->station_after->name, preview->station_after->station_key)
             : NULL;
}
