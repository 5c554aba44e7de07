/* The season's answer, its tally and its days. What is not known is left out; nothing is called nothing only where it was. */
#include "words/season-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Tenths, and whole ones from a hundred on. */
static int
litre_decimals (const FrSay *say, double volume_l)
{
  double shown = fabs (fr_quantity_to_shown (volume_l, FR_QUANTITY_VOLUME, &say->units));

  return shown >= 99.95 || shown < 0.05 ? 0 : 1;
}

char *
fr_season_litres (const FrSay *say, double volume_l)
{
  return fr_say_amount (say, volume_l, FR_QUANTITY_VOLUME, litre_decimals (say, volume_l));
}

static char *
syrup (const FrSay *say, double volume_l)
{
  return fr_say_amount (say, volume_l, FR_QUANTITY_VOLUME, 2);
}

/* --- the answer --- */

char *
fr_season_sentence (const FrSeasonView *view, const FrSay *say)
{
  const FrSeasonTally *tally = &view->tally;
  g_autofree char *gathered = NULL, *waiting = NULL, *made = NULL;

  if (isnan (tally->gathered_l))
    return g_strdup (view->today >= 0 ? _ ("Nothing is written down of this season yet.")
                                      : _ ("Nothing is written down of this season."));
  gathered = fr_say_bold (fr_season_litres (say, tally->gathered_l));
  if (tally->waiting_l > 0.05)
    waiting = fr_say_bold (fr_season_litres (say, tally->waiting_l));
  if (tally->syrup_l > 0.005)
    made = fr_say_bold (syrup (say, tally->syrup_l));
  if (waiting != NULL && made != NULL)
    /* Translators: litres gathered, in store, and of syrup */
    return g_strdup_printf (_ ("%s gathered, %s waiting, %s of syrup."), gathered, waiting, made);
  if (waiting != NULL)
    return g_strdup_printf (_ ("%s gathered, %s waiting."), gathered, waiting);
  if (made != NULL)
    return g_strdup_printf (_ ("%s gathered, %s of syrup, nothing waiting."), gathered, made);
  return g_strdup_printf (_ ("%s gathered."), gathered);
}

static char *
boiled (const FrSeasonTally *tally, const FrSay *say)
{
  g_autofree char *much = NULL, *cost = NULL;

  if (tally->n_nights == 0)
    return NULL;
  much = fr_season_litres (say, tally->boiled_l);
  if (isnan (tally->cost_minor))
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s boiled in %u night.", "%s boiled in %u nights.", tally->n_nights),
                            much, tally->n_nights);
  cost = fr_say_money (say, tally->cost_minor);
  if (tally->n_priced < tally->n_nights)
    /* Translators: litres, nights, how many of them, money */
    return g_strdup_printf (_ ("%s boiled in %u nights, %u of them for %s of power."), much, tally->n_nights, tally->n_priced,
                            cost);
  return g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%s boiled in %u night for %s of power.", "%s boiled in %u nights for %s of power.",
                   tally->n_nights),
      much, tally->n_nights, cost);
}

char *
fr_season_reason (const FrSeasonView *view, const FrSeasonTally *past, const FrSay *say)
{
  g_autofree char *now = boiled (&view->tally, say), *then = NULL, *litres = NULL;

  if (past != NULL && !isnan (past->gathered_l))
    {
      litres = fr_season_litres (say, past->gathered_l);
      /* Translators: a year, litres */
      then = view->today >= 0 ? g_strdup_printf (_ ("On this date in %u it was %s."), past->season, litres)
                              : g_strdup_printf (_ ("In %u it was %s."), past->season, litres);
    }
  if (now != NULL && then != NULL)
    return g_strdup_printf ("%s %s", now, then);
  return now != NULL ? g_steal_pointer (&now) : g_steal_pointer (&then);
}

/* --- figures --- */

/* Takes @number and @past_text. */
static void
add_figure (GPtrArray *figures, const char *label, char *number, const char *unit, char *past_text, const FrSeasonTally *past)
{
  FrFigure *figure = g_new0 (FrFigure, 1);

  figure->label = g_strdup (label);
  figure->number = number;
  figure->unit = g_strdup (unit);
  if (past_text != NULL)
    /* Translators: an amount, a year */
    figure->note = g_strdup_printf (_ ("%s in %u"), past_text, past->season);
  g_free (past_text);
  g_ptr_array_add (figures, figure);
}

static void
add_amount (GPtrArray *figures, const char *label, double value, double past_value, const FrSeasonTally *past,
            FrQuantityKind kind, int decimals, const FrSay *say)
{
  char *number = NULL;
  const char *unit = "";

  fr_quantity_format (value, kind, &say->units, decimals >= 0 ? decimals : litre_decimals (say, value), &number, &unit);
  add_figure (figures, label, number, unit,
              isnan (past_value) ? NULL
                                 : fr_say_amount (say, past_value, kind,
                                                  decimals >= 0 ? decimals : litre_decimals (say, past_value)),
              past);
}

GPtrArray *
fr_season_figures (const FrSeasonTally *tally, const FrSeasonTally *past, const FrSay *say)
{
  GPtrArray *figures = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);

  add_amount (figures, _ ("Gathered"), tally->gathered_l, past != NULL ? past->gathered_l : NAN, past, FR_QUANTITY_VOLUME, -1,
              say);
  add_amount (figures, _ ("Sugar in it"), tally->sugar_kg, past != NULL ? past->sugar_kg : NAN, past, FR_QUANTITY_MASS, 2, say);
  /* What waited a year ago helps nobody. */
  add_amount (figures, _ ("Waiting"), tally->waiting_l, NAN, past, FR_QUANTITY_VOLUME, -1, say);
  add_amount (figures, _ ("Syrup so far"), tally->syrup_l, past != NULL ? past->syrup_l : NAN, past,
              FR_QUANTITY_VOLUME, 2, say);
  add_figure (figures, _ ("Cost of power"), fr_say_money (say, tally->cost_minor), "",
              past != NULL && !isnan (past->cost_minor) ? fr_say_money (say, past->cost_minor) : NULL, past);
  return figures;
}

/* --- a day --- */

static char *
degrees (const FrSay *say, double temp_c)
{
  return fr_say_amount (say, temp_c, FR_QUANTITY_TEMPERATURE, 0);
}

char *
fr_season_span_words (double low_c, double high_c, const FrSay *say)
{
  g_autofree char *low = NULL, *high = NULL;

  if (isnan (low_c) && isnan (high_c))
    return NULL;
  high = degrees (say, high_c);
  if (isnan (low_c))
    return g_strdup_printf (_ ("up to %s"), high);
  if (isnan (high_c))
    {
      low = degrees (say, low_c);
      return g_strdup_printf (_ ("down to %s"), low);
    }
  low = fr_say_number (say, fr_quantity_to_shown (low_c, FR_QUANTITY_TEMPERATURE, &say->units), 0);
  /* Translators: a day's lowest and highest temperature, "−4 to 5 °C" */
  return g_strdup_printf (_ ("%s to %s"), low, high);
}

static int
days_since_tapping (const FrSeasonView *view, const FrSeasonDay *day)
{
  for (guint i = 0; i < view->n_days && fr_date_compare (view->days[i].date, day->date) <= 0; i++)
    if (view->days[i].taps_set > 0)
      return (int)(fr_date_to_days (day->date) - fr_date_to_days (view->days[i].date));
  return -1;
}

char *
fr_season_day_note (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say)
{
  g_autofree char *span = fr_season_span_words (day->low_c, day->high_c, say), *since = NULL, *weather = NULL;
  int days = days_since_tapping (view, day);

  if (days >= 0)
    since = g_strdup_printf (_ ("Day %d since tapping"), days);
  if (span != NULL)
    weather = day->is_expected_weather ? g_strdup_printf (_ ("%s expected"), span) : g_strdup (span);
  if (since != NULL && weather != NULL)
    return g_strdup_printf ("%s · %s", since, weather);
  return since != NULL ? g_steal_pointer (&since) : g_steal_pointer (&weather);
}

static const char *
buds_word (const char *buds)
{
  if (g_strcmp0 (buds, "tight") == 0)
    return _ ("buds tight");
  if (g_strcmp0 (buds, "swelling") == 0)
    return _ ("buds swelling");
  return g_strcmp0 (buds, "open") == 0 ? _ ("buds open") : NULL;
}

/* Whether all of the day has the lowest price. */
static gboolean
is_low_all_day (const FrSeasonView *view, const FrSeasonDay *day)
{
  gboolean any = FALSE;

  for (guint i = 0; i < view->n_prices; i++)
    {
      const FrSeasonPrice *price = &view->prices[i];

      if (price->to_utc <= day->from_utc || price->from_utc >= day->to_utc)
        continue;
      if (price->level != 0)
        return FALSE;
      any = TRUE;
    }
  return any;
}

char *
fr_season_clock_words (const FrSeasonDay *day)
{
  if (day->clock_change_s == 0)
    return NULL;
  return g_strdup (day->clock_change_s > 0 ? _ ("clocks go forward") : _ ("clocks go back"));
}

char *
fr_season_holiday_words (const FrSeasonView *view, const FrSeasonDay *day)
{
  if (!day->is_holiday)
    return NULL;
  return g_strdup (is_low_all_day (view, day) ? _ ("holiday, low all day") : _ ("holiday, other prices"));
}

GPtrArray *
fr_season_day_marks (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func (g_free);
  const char *buds = buds_word (day->buds);

  if (day->clock_change_s != 0)
    g_ptr_array_add (marks, fr_season_clock_words (day));
  if (day->is_holiday)
    g_ptr_array_add (marks, fr_season_holiday_words (view, day));
  if (day->taps_set > 0)
    g_ptr_array_add (marks, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap set", "%u taps set", day->taps_set),
                                             day->taps_set));
  if (day->taps_pulled > 0)
    g_ptr_array_add (
        marks, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap pulled", "%u taps pulled", day->taps_pulled),
                                day->taps_pulled));
  if (buds != NULL)
    g_ptr_array_add (marks, g_strdup (buds));
  return marks;
}

/* Adds a sentence; takes @text. */
static void
speak (GString *spoken, char *text)
{
  if (text != NULL)
    {
      const char *rest = g_utf8_next_char (text);
      gunichar first = g_unichar_toupper (g_utf8_get_char (text));

      g_string_append_c (spoken, ' ');
      g_string_append_unichar (spoken, first);
      g_string_append_printf (spoken, "%s.", rest);
    }
  g_free (text);
}

static char *
gathered_words (const FrSeasonDay *day, const FrSay *say)
{
  g_autofree char *litres = fr_season_litres (say, day->gathered_l), *sweet = NULL;
  const double brix = fr_season_brix (day->gathered_l, day->sugar_kg);

  if (isnan (day->gathered_l))
    return day->n_gatherings > 0 ? g_strdup (_ ("gathered, not measured")) : NULL;
  if (day->n_gatherings == 0)
    return g_strdup (_ ("nothing gathered"));
  if (isnan (brix))
    return g_strdup_printf (_ ("%s gathered"), litres);
  sweet = fr_say_amount (say, brix, FR_QUANTITY_SWEETNESS, 1);
  return g_strdup_printf (_ ("%s gathered at %s"), litres, sweet);
}

static char *
boil_words (const FrSeasonDay *day, const FrSay *say)
{
  g_autofree char *litres = fr_season_litres (say, day->boiled_l), *cost = NULL;

  if (day->n_boils == 0)
    return NULL;
  if (isnan (day->cost_minor))
    return g_strdup_printf (day->is_boil_planned ? _ ("boil of %s planned") : _ ("%s boiled"), litres);
  cost = fr_say_money (say, day->cost_minor);
  return g_strdup_printf (day->is_boil_planned ? _ ("boil of %s planned for %s of power") : _ ("%s boiled for %s of power"),
                          litres, cost);
}

static char *
expected_words (const FrSeasonDay *day, const FrSay *say)
{
  g_autofree char *lo = NULL, *hi = NULL;

  if (isnan (day->expected_lo_l) || isnan (day->expected_hi_l))
    return NULL;
  lo = fr_say_number (say, fr_quantity_to_shown (day->expected_lo_l, FR_QUANTITY_VOLUME, &say->units), 0);
  hi = fr_say_amount (say, day->expected_hi_l, FR_QUANTITY_VOLUME, 0);
  return g_strdup_printf (_ ("%s to %s expected, 8 in 10 inside"), lo, hi);
}

char *
fr_season_day_spoken (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say)
{
  GString *spoken = g_string_new (NULL);
  g_autofree char *date = fr_say_date (day->date), *span = fr_season_span_words (day->low_c, day->high_c, say),
                  *store = NULL;
  g_autoptr (GPtrArray) marks = fr_season_day_marks (view, day, say);

  g_string_append_printf (spoken, "%s.", date);
  if (view->today >= 0 && fr_date_compare (view->days[view->today].date, day->date) == 0)
    speak (spoken, g_strdup (_ ("today")));
  if (span != NULL)
    speak (spoken, day->is_expected_weather ? g_strdup_printf (_ ("%s expected"), span) : g_strdup (span));
  speak (spoken, gathered_words (day, say));
  if (day->ice_l > 0)
    {
      g_autofree char *ice = fr_season_litres (say, day->ice_l);

      speak (spoken, g_strdup_printf (_ ("%s of ice thrown out"), ice));
    }
  speak (spoken, expected_words (day, say));
  if (!isnan (day->store_l))
    {
      store = fr_season_litres (say, day->store_l);
      speak (spoken, g_strdup_printf (_ ("%s in store"), store));
    }
  speak (spoken, boil_words (day, say));
  if (day->n_bottles > 0)
    speak (spoken, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bottle filled", "%u bottles filled", day->n_bottles),
                                    day->n_bottles));
  for (guint i = 0; i < marks->len; i++)
    speak (spoken, g_strdup (marks->pdata[i]));
  if (day->n_reminders > 0)
    speak (spoken, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u reminder", "%u reminders", day->n_reminders),
                                    day->n_reminders));
  if (day->day != NULL && day->day->note != NULL)
    speak (spoken, g_strdup (_ ("a note")));
  return g_string_free (spoken, FALSE);
}
