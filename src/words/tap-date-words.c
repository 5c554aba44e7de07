/* When to tap, in words. */
#include "words/forecast-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/forecast-words-private.h"

char *
fr_tap_date_sentence (const FrTapDates *dates, const FrSay *say)
{
  g_autofree char *litres = NULL, *day = NULL;
  const FrTapDate *date;

  if (dates->why == FR_TAP_DATE_TOO_LATE)
    return g_strdup (_ ("Leave the trees alone this year: too little of the season is left."));
  if (dates->recommended < 0)
    return g_strdup (_ ("Wait with tapping: no run is in sight."));
  date = &dates->dates[dates->recommended];
  litres = fr_say_bold (fr_forecast_say_litres (say, date->total.middle_l));
  if (fr_date_compare (date->date, dates->as_of) == 0)
    {
      if (!dates->is_season_known)
        /* Translators: litres */
        return g_strdup_printf (_ ("Tap <b>today</b>: a hole is likely to give %s within the forecast."),
                                litres);
      /* Translators: litres */
      return g_strdup_printf (_ ("Tap <b>today</b>: a hole is likely to give %s by the season’s end."),
                              litres);
    }
  day = fr_say_bold (fr_say_date (date->date));
  if (!dates->is_season_known)
    /* Translators: a date, litres */
    return g_strdup_printf (_ ("Tap on %s: a hole is likely to give %s within the forecast."), day, litres);
  /* Translators: a date, litres */
  return g_strdup_printf (_ ("Tap on %s: a hole is likely to give %s by the season’s end."), day, litres);
}

static char *
why (const FrTapDates *dates)
{
  g_autofree char *run = dates->first_run.year ? fr_forecast_day_name (dates->first_run, dates->as_of) : NULL;

  switch (dates->why)
    {
    case FR_TAP_DATE_FROZEN:
      return g_strdup (_ ("Hardly any sap runs before, and a hole only gets older."));
    case FR_TAP_DATE_AGEING:
      return g_strdup (_ ("What runs before is less than an older hole would lose."));
    case FR_TAP_DATE_RUN_NEAR:
      /* Translators: a day */
      return g_strdup_printf (_ ("The first run is likely on %s."), run);
    case FR_TAP_DATE_RUNNING:
      return g_strdup (_ ("Sap is running already."));
    case FR_TAP_DATE_WAITING_LOSES:
      return g_strdup (_ ("By past seasons waiting loses more than an older hole."));
    case FR_TAP_DATE_TOO_LATE:
      return g_strdup (_ ("Little or nothing is still to come; a hole would cost the tree more than it brings."));
    case FR_TAP_DATE_UNKNOWN:
    case FR_N_TAP_DATE_WHYS:
      break;
    }
  return NULL;
}

/* "A week later loses 5.8 L a tap, a week earlier 1.1 L." */
static char *
shifts (const FrTapDates *dates, const FrSay *say)
{
  g_autofree char *late = NULL, *early = NULL;

  if (isnan (dates->late.loss_l))
    return NULL;
  late = fr_forecast_say_litres (say, dates->late.loss_l);
  if (isnan (dates->early.loss_l) || dates->early.loss_l < 0 || dates->why == FR_TAP_DATE_RUNNING)
    /* Translators: litres */
    return g_strdup_printf (_ ("A week later loses %s a tap."), late);
  early = fr_forecast_say_litres (say, dates->early.loss_l);
  /* Translators: litres, litres */
  return g_strdup_printf (_ ("A week later loses %s a tap, a week earlier %s."), late, early);
}

char *
fr_tap_date_reason (const FrTapDates *dates, const FrSay *say)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *because = why (dates), *lost = shifts (dates, say);

  if (because != NULL)
    g_string_append (text, because);
  if (lost != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", lost);
  if (!dates->is_season_known && dates->why != FR_TAP_DATE_TOO_LATE)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "",
                            _ ("Without past seasons on file the season cannot be told: only the days whose "
                               "weather is known count."));
  else if (dates->why != FR_TAP_DATE_TOO_LATE)
    {
      g_string_append_c (text, ' ');
      g_string_append_printf (
          text,
          g_dngettext (GETTEXT_PACKAGE, "Told by %u past season.", "Told by %u past seasons.", dates->n_past),
          dates->n_past);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
fr_tap_date_caution (const FrTapDates *dates)
{
  return dates->recommended >= 0
             ? g_strdup (_ ("Drill on a day above freezing: frozen wood splits around a tap."))
             : NULL;
}
