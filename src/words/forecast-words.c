/* The forecast's answer and warnings. Verb first, then how much, by when. What is not known is said not to
 * be. */
#include "words/forecast-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/forecast-words-private.h"

/* Less room is none. */
#define ROOM_MIN_L 0.5

/* Whole litres from ten on: a forecast knows no tenths. */
char *
fr_forecast_say_litres (const FrSay *say, double volume_l)
{
  double shown = fabs (fr_quantity_to_shown (volume_l, FR_QUANTITY_VOLUME, &say->units));

  return fr_say_amount (say, fmax (volume_l, 0), FR_QUANTITY_VOLUME, shown < 9.95 && shown >= 0.05 ? 1 : 0);
}

char *
fr_forecast_day_name (FrDate date, FrDate today)
{
  gint64 ahead = fr_date_to_days (date) - fr_date_to_days (today);
  g_autofree char *weekday = fr_say_weekday (date);

  if (ahead > 14)
    return fr_say_date (date);
  if (ahead > 6)
    /* Translators: a weekday and the day of the month, as in "Friday 19" */
    return g_strdup_printf (_ ("%s %u"), weekday, (guint)date.day);
  return g_steal_pointer (&weekday);
}

static char *
bold_day (FrDate date, FrDate today)
{
  return fr_say_bold (fr_forecast_day_name (date, today));
}

/* --- the answer --- */

static char *
from_today (const FrForecastAnswer *answer)
{
  g_autofree char *last = bold_day (answer->last, answer->today);
  g_autofree char *second = bold_day (fr_date_add_days (answer->first, 1), answer->today);

  if (answer->n_run_days == 1)
    return g_strdup (_ ("<b>today</b>"));
  if (answer->n_run_days == 2)
    /* Translators: behind "Empty the buckets": a weekday */
    return g_strdup_printf (_ ("<b>today</b> and on %s"), last);
  if (answer->n_run_days == 3)
    /* Translators: behind "Empty the buckets": two weekdays */
    return g_strdup_printf (_ ("<b>today</b>, on %s and on %s"), second, last);
  /* Translators: behind "Empty the buckets": a weekday */
  return g_strdup_printf (_ ("every day from <b>today</b> to %s"), last);
}

static char *
on_days (const FrForecastAnswer *answer)
{
  g_autofree char *first = bold_day (answer->first, answer->today),
                  *last = bold_day (answer->last, answer->today);
  g_autofree char *second = bold_day (fr_date_add_days (answer->first, 1), answer->today);

  if (fr_date_compare (answer->first, answer->today) == 0)
    return from_today (answer);
  if (answer->n_run_days == 1)
    /* Translators: behind "Empty the buckets": a weekday */
    return g_strdup_printf (_ ("on %s"), first);
  if (answer->n_run_days == 2)
    /* Translators: behind "Empty the buckets": two weekdays */
    return g_strdup_printf (_ ("on %s and %s"), first, last);
  if (answer->n_run_days == 3)
    /* Translators: behind "Empty the buckets": three weekdays */
    return g_strdup_printf (_ ("on %s, %s and %s"), first, second, last);
  /* Translators: behind "Empty the buckets": two weekdays */
  return g_strdup_printf (_ ("every day from %s to %s"), first, last);
}

/* "Saturday evening" by the gathering hour. */
static char *
by_when (const FrForecastAnswer *answer)
{
  g_autofree char *day = fr_forecast_day_name (answer->last, answer->today);

  if (answer->gather_hour < 0)
    return g_steal_pointer (&day);
  if (answer->gather_hour < 11)
    /* Translators: a weekday */
    return g_strdup_printf (_ ("%s morning"), day);
  if (answer->gather_hour < 14)
    /* Translators: a weekday */
    return g_strdup_printf (_ ("%s noon"), day);
  if (answer->gather_hour < 17)
    /* Translators: a weekday */
    return g_strdup_printf (_ ("%s afternoon"), day);
  /* Translators: a weekday */
  return g_strdup_printf (_ ("%s evening"), day);
}

static char *
empty_sentence (const FrForecastAnswer *answer, const FrSay *say)
{
  g_autofree char *days = on_days (answer), *by = by_when (answer);
  g_autofree char *litres = fr_say_bold (fr_forecast_say_litres (say, answer->expected.middle_l));

  if (answer->is_per_tap)
    /* Translators: "on Friday and Saturday", litres, "Saturday evening" */
    return g_strdup_printf (_ ("Empty the buckets %s: expect %s a tap by %s."), days, litres, by);
  /* Translators: "on Friday and Saturday", litres, "Saturday evening" */
  return g_strdup_printf (_ ("Empty the buckets %s: expect %s by %s."), days, litres, by);
}

static char *
wait_sentence (const FrForecastAnswer *answer)
{
  g_autofree char *until = bold_day (answer->known_until, answer->today);

  switch (answer->spell)
    {
    case FR_SPELL_HARD_FREEZE:
    case FR_SPELL_FREEZE:
      /* Translators: a weekday */
      return g_strdup_printf (_ ("Leave the buckets: frost holds the sap through %s."), until);
    case FR_SPELL_WARM:
      /* Translators: a weekday */
      return g_strdup_printf (_ ("Leave the buckets: without frost at night little runs through %s."), until);
    case FR_SPELL_UNKNOWN:
    case FR_SPELL_SLACK:
    case FR_N_SPELLS:
      break;
    }
  /* Translators: a weekday */
  return g_strdup_printf (_ ("Leave the buckets: little runs through %s."), until);
}

char *
fr_forecast_sentence (const FrForecastAnswer *answer, const FrSay *say)
{
  g_autofree char *litres = NULL;

  switch (answer->code)
    {
    case FR_ANSWER_EMPTY:
      return empty_sentence (answer, say);
    case FR_ANSWER_HANGING:
      litres = fr_say_bold (fr_forecast_say_litres (say, answer->hanging_l));
      /* Translators: litres */
      return g_strdup_printf (_ ("Empty the buckets <b>today</b>: about %s should hang in them."), litres);
    case FR_ANSWER_WAIT:
      return wait_sentence (answer);
    case FR_ANSWER_OVER:
      return g_strdup (_ ("Take out the taps: the season is over."));
    case FR_ANSWER_NOT_TAPPED:
      return g_strdup (_ ("No hole is drilled yet."));
    case FR_ANSWER_NO_WEATHER:
    case FR_N_ANSWERS:
      break;
    }
  return g_strdup (
      _ ("Add the nights’ lows and the days’ highs, or a forecast: without weather nothing can be told."));
}

/* --- below it --- */

/* "Nine times in ten it is under 48 L, and 54 L are free after tonight’s boil." */
static char *
how_sure (const FrForecastAnswer *answer, const FrSay *say)
{
  g_autofree char *hi = fr_forecast_say_litres (say, answer->expected.hi_l), *by = by_when (answer);
  g_autofree char *free = isnan (answer->free_l) ? NULL : fr_forecast_say_litres (say, answer->free_l);

  switch (answer->room)
    {
    case FR_ROOM_ENOUGH:
      if (answer->is_after_boil)
        /* Translators: litres expected, litres of room */
        return g_strdup_printf (_ ("Nine times in ten it is under %s, and %s are free after tonight’s boil."),
                                hi, free);
      /* Translators: litres expected, litres of room */
      return g_strdup_printf (_ ("Nine times in ten it is under %s, and %s are free."), hi, free);
    case FR_ROOM_TIGHT:
      if (answer->is_after_boil)
        /* Translators: litres expected, litres of room, "Saturday evening" */
        return g_strdup_printf (_ ("Nine times in ten it is under %s, but only %s are free after tonight’s "
                                   "boil: have more room by %s."),
                                hi, free, by);
      /* Translators: litres expected, litres of room, "Saturday evening" */
      return g_strdup_printf (
          _ ("Nine times in ten it is under %s, but only %s are free: have more room by %s."), hi, free, by);
    case FR_ROOM_SHORT:
      if (answer->free_l < ROOM_MIN_L && answer->is_after_boil)
        /* Translators: "Saturday evening" */
        return g_strdup_printf (_ ("Nothing is free after tonight’s boil: boil more or have more room by %s."), by);
      if (answer->free_l < ROOM_MIN_L)
        /* Translators: "Saturday evening" */
        return g_strdup_printf (_ ("Nothing is free: boil or have more room by %s."), by);
      if (answer->is_after_boil)
        /* Translators: litres of room, "Saturday evening" */
        return g_strdup_printf (
            _ ("Only %s are free after tonight’s boil: boil more or have more room by %s."), free, by);
      /* Translators: litres of room, "Saturday evening" */
      return g_strdup_printf (_ ("Only %s are free: boil or have more room by %s."), free, by);
    case FR_ROOM_UNKNOWN:
    case FR_N_ROOMS:
      break;
    }
  /* Translators: litres expected */
  return g_strdup_printf (_ ("Nine times in ten it is under %s."), hi);
}

static const char *
then_text (FrSpell spell)
{
  switch (spell)
    {
    case FR_SPELL_HARD_FREEZE:
      return _ ("Then a hard freeze");
    case FR_SPELL_FREEZE:
      return _ ("Then a freeze");
    case FR_SPELL_WARM:
      return _ ("Then nights without frost");
    case FR_SPELL_SLACK:
      return _ ("Then little runs");
    case FR_SPELL_UNKNOWN:
    case FR_N_SPELLS:
      break;
    }
  return NULL;
}

/* "the next run is likely on Friday 19", or NULL. */
static char *
next_run (const FrForecastAnswer *answer)
{
  g_autofree char *day = NULL, *until = NULL;

  if (answer->next_run.year != 0)
    {
      day = fr_forecast_day_name (answer->next_run, answer->today);
      if (answer->is_next_by_past)
        /* Translators: within a sentence; a day */
        return g_strdup_printf (_ ("by past seasons the next run comes about %s"), day);
      /* Translators: within a sentence; a day */
      return g_strdup_printf (_ ("the next run is likely on %s"), day);
    }
  if (answer->known_until.year == 0 || answer->spell == FR_SPELL_UNKNOWN)
    return NULL;
  until = fr_forecast_day_name (answer->known_until, answer->today);
  /* Translators: within a sentence; a day */
  return g_strdup_printf (_ ("no run is in sight through %s"), until);
}

/* A sentence of its own. Takes @text. */
static char *
with_capital (char *text)
{
  g_autofree char *old = text;
  g_autofree char *first = g_utf8_substring (old, 0, 1), *big = g_utf8_strup (first, -1);

  return g_strdup_printf ("%s%s.", big, g_utf8_next_char (old));
}

static char *
what_then (const FrForecastAnswer *answer)
{
  const char *then = then_text (answer->spell);
  char *next = next_run (answer);
  g_autofree char *owned = NULL;

  if (next == NULL)
    return then != NULL ? g_strdup_printf ("%s.", then) : NULL;
  if (then == NULL || answer->n_run_days == 0)
    return with_capital (next);
  owned = next;
  /* Translators: "Then a hard freeze", "the next run is likely on Friday 19" */
  return g_strdup_printf (_ ("%s; %s."), then, owned);
}

/* Of days on which nothing has to be done: what comes all the same, and what is next. */
static char *
wait_reason (const FrForecastAnswer *answer, const FrSay *say)
{
  g_autofree char *then = answer->next_run.year != 0 ? what_then (answer) : NULL;
  g_autofree char *hi = fr_forecast_say_litres (say, answer->expected.hi_l);
  g_autofree char *until = fr_forecast_day_name (answer->known_until, answer->today), *much = NULL;

  if (answer->is_per_tap)
    /* Translators: litres, a day */
    much = g_strdup_printf (_ ("Nine times in ten less than %s a tap comes by %s."), hi, until);
  else
    /* Translators: litres, a day */
    much = g_strdup_printf (_ ("Nine times in ten less than %s comes by %s."), hi, until);
  return then != NULL ? g_strdup_printf ("%s %s", much, then) : g_steal_pointer (&much);
}

static char *
percent (double probability)
{
  return g_strdup_printf ("%ld %%", lround (CLAMP (100 * probability, 1, 99)));
}

char *
fr_forecast_reason (const FrForecastAnswer *answer, const FrSay *say)
{
  g_autofree char *sure = NULL, *then = NULL;

  switch (answer->code)
    {
    case FR_ANSWER_EMPTY:
      sure = how_sure (answer, say);
      then = what_then (answer);
      return then != NULL ? g_strdup_printf ("%s %s", sure, then) : g_steal_pointer (&sure);
    case FR_ANSWER_HANGING:
    case FR_ANSWER_WAIT:
      return wait_reason (answer, say);
    case FR_ANSWER_OVER:
      sure = percent (answer->over_probability);
      /* Translators: a number of percent */
      return g_strdup_printf (_ ("The chance that no run comes any more is %s."), sure);
    case FR_ANSWER_NOT_TAPPED:
    case FR_ANSWER_NO_WEATHER:
    case FR_N_ANSWERS:
      break;
    }
  return NULL;
}

/* --- warnings --- */

static char *
buds_warning (const FrForecastAnswer *answer)
{
  g_autofree char *chance = percent (answer->off_flavour_probability);

  if (answer->off_flavour_probability >= FR_BUDS_PROBABILITY)
    /* Translators: a number of percent */
    return g_strdup_printf (_ ("Boil and taste a little before you boil the rest: the sap is likely to taste "
                               "of buds by now (%s)."),
                            chance);
  /* Translators: a number of percent */
  return g_strdup_printf (
      _ ("Boil and taste a little before you boil the rest: the sap may taste of buds (%s)."), chance);
}

GPtrArray *
fr_forecast_warnings (const FrForecastAnswer *answer)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);

  if (answer->off_flavour_probability >= FR_BUDS_MAYBE_PROBABILITY)
    g_ptr_array_add (texts, buds_warning (answer));
  if (answer->over_probability >= FR_OVER_MAYBE_PROBABILITY && answer->code != FR_ANSWER_OVER)
    {
      g_autofree char *chance = percent (answer->over_probability);

      /* Translators: a number of percent */
      g_ptr_array_add (
          texts, g_strdup_printf (_ ("Look at the buds each day: the season may be over (%s)."), chance));
    }
  if (answer->n_gaps > 0)
    g_ptr_array_add (
        texts,
        g_strdup_printf (
            g_dngettext (GETTEXT_PACKAGE, "Of %u day ahead the weather is not known; it counts as dry.",
                         "Of %u days ahead the weather is not known; they count as dry.", answer->n_gaps),
            answer->n_gaps));
  if (answer->n_known > 0 && answer->n_known < FR_FEW_DAYS)
    {
      g_autofree char *until = fr_forecast_day_name (answer->known_until, answer->today);

      g_ptr_array_add (texts,
                       g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                     /* Translators: a number of days, a weekday */
                                                     "The weather is known for %u day only, through %s.",
                                                     "The weather is known for %u days only, through %s.",
                                                     answer->n_known),
                                        answer->n_known, until));
    }
  return texts;
}

/* --- a day --- */

char *
fr_forecast_day_why (const FrForecastDay *day, const FrSay *say)
{
  g_autofree char *thaw = NULL, *frost = NULL, *above = NULL;
  gboolean is_run = day->run_probability >= FR_RUN_DAY_PROBABILITY;

  if (isnan (day->run_probability) || isnan (day->thaw_h))
    return NULL;
  thaw = fr_say_number (say, day->thaw_h, 0);
  frost = fr_say_number (say, day->frozen_h, 0);
  above = fr_say_amount (say, FR_RUN_AIR_C, FR_QUANTITY_TEMPERATURE, 0);
  switch (fr_forecast_day_spell (day))
    {
    case FR_SPELL_HARD_FREEZE:
    case FR_SPELL_FREEZE:
      if (!is_run)
        return g_strdup (_ ("Frost holds the sap nearly all day."));
      break;
    case FR_SPELL_WARM:
      return is_run ? g_strdup (_ ("No frost in the night before: what runs is left from earlier frost."))
                    : g_strdup (_ ("No frost in the night before, and little is left from earlier frost."));
    case FR_SPELL_SLACK:
    case FR_SPELL_UNKNOWN:
    case FR_N_SPELLS:
      break;
    }
  if (is_run)
    /* Translators: hours, a temperature, hours */
    return g_strdup_printf (_ ("A run is likely: %s h above %s after %s h of frost."), thaw, above, frost);
  /* Translators: hours, a temperature, hours */
  return g_strdup_printf (_ ("A run is unlikely with %s h above %s after %s h of frost."), thaw, above,
                          frost);
}
