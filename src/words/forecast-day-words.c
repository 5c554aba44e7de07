/* The day's words. Litres of all taps where there are taps, else of one. A chance is told to the whole percent, between 1 and 99: nothing
 * here is known for certain. */
#include "words/forecast-day-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Under this much change the litres were as expected; common sense, no source. */
#define EIGHT_IN_TEN 1.2815515655446004 /* normal quantile of 0.9 */
#define AS_EXPECTED_RATIO 0.02

/* Tenths for small amounts; both ends of a range alike, by its @size_l. */
static char *
litres_number (double volume_l, double size_l, const FrSay *say)
{
  char *number = NULL;
  const char *unit;

  fr_quantity_format (volume_l, FR_QUANTITY_VOLUME, &say->units, size_l < 9.95 ? 1 : 0, &number, &unit);
  return number;
}

char *
fr_forecast_litres_words (double lo_l, double hi_l, const FrSay *say)
{
  g_autofree char *lo = litres_number (lo_l, hi_l, say), *hi = litres_number (hi_l, hi_l, say);

  if (g_strcmp0 (lo, hi) == 0)
    /* Translators: an amount and its unit */
    return g_strdup_printf (_ ("%s %s"), hi, fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
  /* Translators: from an amount to an amount, and the unit */
  return g_strdup_printf (_ ("%s to %s %s"), lo, hi, fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
}

static void
add_row (FrForecastDayWords *words, const char *label, char *number, const char *unit)
{
  FrFigure *figure = g_new0 (FrFigure, 1);

  figure->label = g_strdup (label);
  figure->number = number;
  figure->unit = g_strdup (unit);
  g_ptr_array_add (words->rows, figure);
}

static char *
percent (double probability)
{
  return g_strdup_printf ("%ld", lround (CLAMP (100 * probability, 1, 99)));
}

static void
put_litres (FrForecastDayWords *words, const FrForecast *forecast, const FrForecastDay *day, double came_l, const FrSay *say)
{
  const FrLitres *litres = isnan (day->bush.middle_l) ? &day->per_tap : &day->bush;
  g_autofree char *range = NULL;

  if (!isnan (came_l))
    {
      words->number = litres_number (came_l, came_l, say);
      /* Translators: behind an amount: its unit */
      words->unit = g_strdup_printf (_ ("%s gathered"), fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
    }
  if (isnan (litres->middle_l))
    return;
  range = fr_forecast_litres_words (litres->lo_l, litres->hi_l, say);
  if (words->number != NULL)
    {
      /* Translators: an amount from … to …, of a day that is over */
      words->range = g_strdup_printf (_ ("%s were expected, eight times in ten"), range);
      return;
    }
  words->number = litres_number (litres->middle_l, litres->middle_l, say);
  if (isnan (day->bush.middle_l))
    /* Translators: behind an amount: its unit */
    words->unit = g_strdup_printf (_ ("%s from a tap"), fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units));
  else
    /* Translators: behind an amount: its unit, and how many taps */
    words->unit = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s from %u tap", "%s from %u taps", forecast->n_taps),
                                   fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units), forecast->n_taps);
  /* Translators: an amount from … to … */
  words->range = g_strdup_printf (_ ("%s, eight times in ten"), range);
}

static void
put_note (FrForecastDayWords *words, const FrForecastDay *day, gint gather_hour)
{
  if (isnan (day->run_probability))
    words->note = g_strdup (_ ("No weather is known for this day"));
  else if (day->is_beyond)
    words->note = g_strdup (_ ("as past seasons had it: no forecast reaches so far"));
  else if (gather_hour >= 0 && day->is_ahead)
    /* Translators: an hour of the clock; of buckets */
    words->note = g_strdup_printf (_ ("emptied at about %d:00"), gather_hour);
  else if (!day->is_ahead)
    words->note = g_strdup (_ ("this day is over"));
}

static void
put_rows (FrForecastDayWords *words, const FrForecastDay *day, const FrSay *say)
{
  if (!isnan (day->run_probability))
    add_row (words, _ ("Chance of a run"), percent (day->run_probability), "%");
  if (!isnan (day->low_c) && !isnan (day->high_c))
    {
      g_autofree char *low = NULL, *high = NULL;
      const char *unit;

      fr_quantity_format (day->low_c, FR_QUANTITY_TEMPERATURE, &say->units, 0, &low, &unit);
      fr_quantity_format (day->high_c, FR_QUANTITY_TEMPERATURE, &say->units, 0, &high, &unit);
      /* Translators: a low and a high temperature */
      add_row (words, _ ("Low and high"), g_strdup_printf (_ ("%s to %s"), low, high), unit);
    }
  if (!isnan (day->thaw_h))
    {
      g_autofree char *warm = fr_say_amount (say, FR_RUN_AIR_C, FR_QUANTITY_TEMPERATURE, 0);
      /* Translators: a temperature */
      g_autofree char *label = g_strdup_printf (_ ("Thawed above %s"), warm);

      add_row (words, _ ("Frozen before"), fr_say_number (say, day->frozen_h, 0), _ ("h"));
      add_row (words, label, fr_say_number (say, day->thaw_h, 0), _ ("h"));
    }
  if (!isnan (day->tapped_days))
    add_row (words, _ ("Taps since drilling"), fr_say_number (say, day->tapped_days, 0),
             g_dngettext (GETTEXT_PACKAGE, "day", "days", (gulong)fmax (day->tapped_days, 0)));
}

static char *
spoken (const FrForecastDayWords *words)
{
  g_autoptr (GString) text = g_string_new (words->title);

  if (words->number != NULL)
    g_string_append_printf (text, ", %s %s", words->number, words->unit);
  if (words->range != NULL)
    g_string_append_printf (text, ", %s", words->range);
  if (words->note != NULL)
    g_string_append_printf (text, ", %s", words->note);
  for (guint i = 0; i < words->rows->len; i++)
    {
      const FrFigure *figure = words->rows->pdata[i];

      g_string_append_printf (text, "; %s %s %s", figure->label, figure->number, figure->unit);
    }
  g_string_append_c (text, '.');
  return g_string_free (g_steal_pointer (&text), FALSE);
}

const FrForecastDay *
fr_forecast_next_run (const FrForecast *forecast)
{
  for (guint i = 0; i < forecast->n_days; i++)
    if (forecast->days[i].is_ahead && !forecast->days[i].is_beyond && forecast->days[i].run_probability >= 0.5)
      return &forecast->days[i];
  return NULL;
}

char *
fr_forecast_next_sentence (const FrForecast *forecast, const FrSay *say)
{
  const FrForecastDay *day = fr_forecast_next_run (forecast), *last = NULL;
  g_autofree char *weekday = NULL, *litres = NULL;

  for (guint i = 0; i < forecast->n_days; i++)
    if (forecast->days[i].is_ahead && !forecast->days[i].is_beyond)
      last = &forecast->days[i];
  if (last == NULL)
    return NULL;
  weekday = fr_say_bold (fr_say_weekday ((day != NULL ? day : last)->date));
  if (day == NULL)
    /* Translators: a weekday */
    return g_strdup_printf (_ ("No run is likely up to %s."), weekday);
  if (isnan (day->bush.lo_l))
    {
      litres = fr_say_bold (fr_forecast_litres_words (day->per_tap.lo_l, day->per_tap.hi_l, say));
      /* Translators: a weekday, an amount from … to … */
      return g_strdup_printf (_ ("%s would bring a tap %s."), weekday, litres);
    }
  litres = fr_say_bold (fr_forecast_litres_words (day->bush.lo_l, day->bush.hi_l, say));
  /* Translators: a weekday, an amount from … to … */
  return g_strdup_printf (_ ("%s will bring %s."), weekday, litres);
}

FrForecastDayWords *
fr_forecast_day_words_new (const FrForecast *forecast, const FrForecastDay *day, gint gather_hour, double came_l,
                           const FrSay *say)
{
  FrForecastDayWords *words = g_new0 (FrForecastDayWords, 1);

  words->title = fr_say_date (day->date);
  words->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);
  put_litres (words, forecast, day, came_l, say);
  put_note (words, day, gather_hour);
  put_rows (words, day, say);
  words->spoken = spoken (words);
  return words;
}

void
fr_forecast_day_words_add_sugar (FrForecastDayWords *words, double mean_brix, double brix_sd, const FrSay *say)
{
  g_autofree char *mean = NULL, *off = NULL;
  const char *unit;

  fr_quantity_format (mean_brix, FR_QUANTITY_SWEETNESS, &say->units, 1, &mean, &unit);
  fr_quantity_format (EIGHT_IN_TEN * brix_sd, FR_QUANTITY_SWEETNESS, &say->units, 1, &off, &unit);
  /* Translators: a sweetness and how far it may be off */
  add_row (words, _ ("Sweetness"), g_strdup_printf (_ ("%s ± %s"), mean, off), unit);
}

void
fr_forecast_day_words_free (FrForecastDayWords *words)
{
  if (words == NULL)
    return;
  g_free (words->title);
  g_free (words->note);
  g_free (words->number);
  g_free (words->unit);
  g_free (words->range);
  g_free (words->spoken);
  g_ptr_array_unref (words->rows);
  g_free (words);
}

/* Both ways alike, and both worth saying. */
static gboolean
agrees (double ran_by, double raised_by)
{
  return fabs (ran_by) >= AS_EXPECTED_RATIO && ran_by * raised_by > 0;
}

char *
fr_forecast_learned_words (const FrForecast *forecast, const FrSay *say)
{
  double by = forecast->raised_ratio - 1, ran_by = forecast->ran_ratio - 1;
  g_autofree char *number = NULL, *ran = NULL;

  if (forecast->n_learned == 0 || isnan (by))
    return NULL;
  if (fabs (by) < AS_EXPECTED_RATIO)
    return g_strdup (_ ("Your buckets this season ran as expected."));
  number = fr_say_number (say, fabs (100 * by), 0);
  ran = fr_say_number (say, fabs (100 * ran_by), 0);
  if (by > 0)
    {
      if (agrees (ran_by, by))
        /* Translators: two numbers of percent */
        return g_strdup_printf (_ ("Your buckets this season ran %s %% above the model, so it was raised by %s %%."), ran,
                                number);
      /* Translators: a number of percent */
      return g_strdup_printf (_ ("By what your buckets gave this season the model was raised by %s %%."), number);
    }
  if (agrees (ran_by, by))
    /* Translators: two numbers of percent */
    return g_strdup_printf (_ ("Your buckets this season ran %s %% below the model, so it was lowered by %s %%."), ran, number);
  /* Translators: a number of percent */
  return g_strdup_printf (_ ("By what your buckets gave this season the model was lowered by %s %%."), number);
}

char *
fr_forecast_season_words (const FrForecast *forecast, const FrSay *say)
{
  g_autofree char *came = fr_forecast_litres_words (forecast->gathered_l, forecast->gathered_l, say), *date = NULL, *range = NULL;
  const FrForecastDay *last = forecast->n_days > 0 ? &forecast->days[forecast->n_days - 1] : NULL;

  if (last == NULL || !last->is_ahead || isnan (last->so_far.lo_l))
    /* Translators: an amount of sap */
    return g_strdup_printf (_ ("%s came in so far."), came);
  range = fr_forecast_litres_words (last->so_far.lo_l, last->so_far.hi_l, say);
  date = fr_say_date (last->date);
  if (forecast->n_past == 0)
    /* Translators: an amount of sap, an amount from … to …, a date */
    return g_strdup_printf (_ ("%s came in so far; %s by %s, eight times in ten. Later days wait for weather."), came, range, date);
  /* Translators: an amount of sap, an amount from … to … */
  return g_strdup_printf (_ ("%s came in so far; %s by the season’s end, eight times in ten."), came, range);
}
