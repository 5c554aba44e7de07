/* The reminders' sentences: a verb first, the quantity, the time; then what it rests on. Food and local rules are pointed to, never
 * replaced: nothing here says that sap is good. */
#include "words/reminder-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "words/chore-words.h"
#include "words/season-words.h"

void
fr_reminder_words_free (FrReminderWords *words)
{
  if (words == NULL)
    return;
  g_free (words->title);
  g_free (words->sentence);
  g_free (words->why);
  g_free (words);
}

char *
fr_container_words (const FrRecord *container)
{
  return container != NULL ? g_strdup_printf ("“%s”", fr_record_label (container)) : g_strdup (_ ("the sap without a container"));
}

static char *
date_of (const FrSay *say, gint64 utc_s)
{
  return fr_say_date (fr_zone_local (say->zone, utc_s).date);
}

/* --- sap --- */

static void
keeping (const FrReminder *reminder, gint64 now_utc, const FrSay *say, FrReminderWords *words)
{
  const gboolean is_spoiled = reminder->code == FR_REMIND_SPOILED;
  g_autofree char *name = fr_container_words (reminder->record), *litres = fr_season_litres (say, reminder->volume_l);
  g_autofree char *when = reminder->due_utc != G_MININT64 ? fr_say_when (say, reminder->due_utc, now_utc) : NULL;
  const double then_s = reminder->age_s + (is_spoiled || when == NULL ? 0 : (double)(reminder->due_utc - now_utc));
  g_autofree char *age = fr_say_span (then_s);

  if (is_spoiled)
    {
      words->title = g_strdup_printf (_ ("Past its time: %s"), name);
      words->sentence = when == NULL
                            ? g_strdup_printf (_ ("Look at %s before anything else: %s are past their time."), name, litres)
                            : g_strdup_printf (_ ("Look at %s before anything else: %s are past their time since %s."), name,
                                               litres, when);
      words->why = isnan (reminder->age_s)
                       ? g_strdup (_ ("Sap that was kept too warm for too long spoils. Pour away what is cloudy, sour or ropy; "
                                      "local food rules come first."))
                       : g_strdup_printf (_ ("The oldest of it is %s old, kept at the temperatures that were noted. Pour away "
                                             "what is cloudy, sour or ropy; local food rules come first."),
                                          age);
      return;
    }
  words->title = g_strdup_printf (_ ("Boil %s by %s"), name, when);
  words->sentence = isnan (reminder->age_s)
                        ? g_strdup_printf (_ ("Boil %s by %s: %s."), name, when, litres)
                        : g_strdup_printf (_ ("Boil %s by %s: %s, the oldest then %s old."), name, when, litres, age);
  words->why = g_strdup (_ ("How long sap keeps follows the temperatures it had, by the household’s table. Colder sap keeps "
                            "longer; local food rules come first."));
}

static void
frost (const FrReminder *reminder, const FrSay *say, FrReminderWords *words)
{
  g_autofree char *low = fr_say_amount (say, reminder->temp_c, FR_QUANTITY_TEMPERATURE, 0);
  g_autofree char *age = isnan (reminder->age_s) ? NULL : fr_say_span (reminder->age_s);
  g_autofree char *clock = fr_say_clock (say, reminder->due_utc);

  words->title = g_strdup (_ ("Gather before tonight’s frost"));
  words->sentence = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "Gather by %s: %s is expected tonight, and a bucket hangs at %u tap.",
                   "Gather by %s: %s is expected tonight, and buckets hang at %u taps.", reminder->n),
      clock, low, reminder->n);
  words->why = age == NULL ? g_strdup (_ ("No gathering is written down yet. What freezes in the buckets may split them."))
                           : g_strdup_printf (_ ("The last gathering was %s ago. What freezes in the buckets may split them."), age);
}

static void
full (const FrReminder *reminder, const FrSay *say, FrReminderWords *words)
{
  g_autofree char *name = fr_container_words (reminder->record), *litres = fr_season_litres (say, reminder->volume_l),
                  *holds = fr_season_litres (say, reminder->capacity_l);
  const gboolean is_full = reminder->volume_l >= reminder->capacity_l;

  words->title = g_strdup_printf (is_full ? _ ("Full: %s") : _ ("Nearly full: %s"), name);
  words->sentence = g_strdup_printf (is_full ? _ ("Find another container than %s: %s in it, and it holds %s.")
                                             : _ ("Find room beside %s before the next gathering: %s in it, and it holds %s."),
                                     name, litres, holds);
  words->why = g_strdup (_ ("By what was poured in and taken out since it was last looked into."));
}

static void
ledger (const FrReminder *reminder, const FrSay *say, FrReminderWords *words)
{
  const FrStockLine *line = reminder->line;
  g_autofree char *litres = fr_season_litres (say, fabs (reminder->volume_l)), *date = date_of (say, line->utc_s);
  const char *what;

  switch (line->code)
    {
    case FR_LINE_FOUND:
      what = reminder->volume_l < 0 ? _ ("On %s %s less was found than there should be.")
                                    : _ ("On %s %s more was found than there should be.");
      break;
    case FR_LINE_NEGATIVE:
      what = _ ("On %s %s more left a container than was in it.");
      break;
    case FR_LINE_OVERFLOW:
      what = _ ("On %s a container was given %s more than it holds.");
      break;
    default:
      what = NULL;
      break;
    }
  words->title = g_strdup (_ ("The account of sap does not add up"));
  if (what != NULL && !isnan (reminder->volume_l))
    words->why = g_strdup_printf (what, date, litres);
  else
    words->why = g_strdup_printf (line->code == FR_LINE_NO_AMOUNT
                                      ? _ ("On %s an amount was noted that cannot be worked out: the container’s measures are missing.")
                                      : _ ("On %s the sweetness noted cannot be."),
                                  date);
  if (line->code == FR_LINE_NO_SUGAR)
    {
      g_free (words->why);
      words->why = g_strdup (_ ("Nothing is known of the sap’s sweetness. Read one sample and write it down."));
    }
  words->sentence = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Look at %u line of the account.",
                                                  "Look at %u lines of the account.", reminder->n),
                                     reminder->n);
}

/* --- trees --- */

static void
taps (const FrReminder *reminder, gint64 now_utc, const FrSay *say, FrReminderWords *words)
{
  FrDate set = { 0 };
  g_autofree char *date = NULL;

  if (reminder->due_utc > now_utc)
    {
      date = date_of (say, reminder->due_utc);
      words->title = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Taps will be %u week old", "Taps will be %u weeks old", reminder->weeks),
          reminder->weeks);
      words->sentence = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "From %s on, watch what %u tap still gives.",
                                                      "From %s on, watch what %u taps still give.", reminder->n),
                                         date, reminder->n);
    }
  else
    {
      fr_date_parse (((const FrTap *)reminder->record)->set_on, &set);
      date = fr_say_date (set);
      words->title = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Taps are %u week old", "Taps are %u weeks old", reminder->weeks), reminder->weeks);
      words->sentence = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Watch what %u tap still gives: the first was set on %s.",
                       "Watch what %u taps still give: the first was set on %s.", reminder->n),
          reminder->n, date);
    }
  words->why = g_strdup (_ ("Holes give less as they dry and grow microbes, sooner in warm weeks. Flow and smell tell when to pull."));
}

static void
buds (const FrReminder *reminder, FrReminderWords *words)
{
  const gboolean is_open = g_strcmp0 (reminder->buds, "open") == 0;
  FrDate day = { 0 };
  g_autofree char *date = NULL;

  fr_date_parse (((const FrDay *)reminder->record)->day, &day);
  date = fr_say_date (day);
  words->title = g_strdup (is_open ? _ ("Buds are open") : _ ("Buds are swelling"));
  words->sentence = g_strdup_printf (is_open ? _ ("Pull the taps: buds are open since %s.")
                                             : _ ("Smell the sap at every gathering: buds swell since %s."),
                                     date);
  words->why = g_strdup (_ ("As buds open, sap turns buddy, and boiling makes that taste stronger."));
}

static void
buddy (const FrReminder *reminder, const FrSay *say, FrReminderWords *words)
{
  const FrRecord *record = reminder->record;
  const char *field = record->kind->id == FR_KIND_GATHERING ? "gathered_utc" : "found_utc";
  g_autofree char *date = date_of (say, fr_record_int (record, fr_kind_field (record->kind, field)));

  words->title = g_strdup (_ ("Sap smelled buddy"));
  words->sentence = g_strdup_printf (_ ("Keep the sap of %s apart and boil a cup of it first: it smelled buddy."), date);
  words->why = g_strdup (_ ("A little buddy sap spoils the taste of a whole pan."));
}

/* --- work --- */

static void
findings (const FrReminder *reminder, FrReminderWords *words)
{
  FrDate evening = { 0 };
  g_autofree char *date = NULL;

  fr_date_parse (((const FrNight *)reminder->record)->evening, &evening);
  date = fr_say_date (evening);
  words->title = g_strdup (_ ("Write down what the boil came to"));
  words->sentence = g_strdup_printf (_ ("Write down what the boil of %s came to."), date);
  words->why = g_strdup (_ ("What was left, how thick, and the meter tell how much heat the cooker gives; the next plan is nearer "
                            "for it."));
}

static void
chore (const FrReminder *reminder, FrReminderWords *words)
{
  g_autofree char *title = fr_chore_item_title (&reminder->item);

  words->title = g_strdup (fr_chore_title (reminder->item.task));
  if (reminder->n > 1)
    words->sentence = g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "%s and %u more.", "%s and %u more.", reminder->n - 1), title, reminder->n - 1);
  else
    words->sentence = g_strdup_printf ("%s.", title);
  words->why = fr_chore_item_sentence (&reminder->item);
}

static void
order (const FrReminder *reminder, const FrSay *say, FrReminderWords *words)
{
  g_autofree char *litres = NULL;

  if (reminder->code == FR_REMIND_FILTERS)
    {
      words->title = g_strdup (_ ("Order filters"));
      words->sentence = g_strdup_printf (
          g_dngettext (GETTEXT_PACKAGE, "Order filters: %u left, and about %u night is likely.",
                       "Order filters: %u left, and about %u nights are likely.", reminder->n_wanted),
          reminder->n, reminder->n_wanted);
      words->why = g_strdup (_ ("One for each night: as many as followed this date in earlier seasons, or as the sap in store makes."));
      return;
    }
  litres = fr_say_amount (say, reminder->volume_l, FR_QUANTITY_VOLUME, 1);
  words->title = g_strdup (_ ("Order bottles"));
  words->sentence = g_strdup_printf (_ ("Order bottles: %u left, and %u are wanted for %s of syrup."), reminder->n,
                                     reminder->n_wanted, litres);
  words->why = g_strdup (_ ("From the sugar in store and what followed this date in earlier seasons."));
}

FrReminderWords *
fr_reminder_words_new (const FrReminder *reminder, gint64 now_utc, const FrSay *say)
{
  FrReminderWords *words = g_new0 (FrReminderWords, 1);

  switch (reminder->code)
    {
    case FR_REMIND_SPOILED:
    case FR_REMIND_BOIL_BY:
      keeping (reminder, now_utc, say, words);
      break;
    case FR_REMIND_FROST:
      frost (reminder, say, words);
      break;
    case FR_REMIND_FULL:
      full (reminder, say, words);
      break;
    case FR_REMIND_BUDDY:
      buddy (reminder, say, words);
      break;
    case FR_REMIND_BUDS:
      buds (reminder, words);
      break;
    case FR_REMIND_TAPS:
      taps (reminder, now_utc, say, words);
      break;
    case FR_REMIND_LEDGER:
      ledger (reminder, say, words);
      break;
    case FR_REMIND_FINDINGS:
      findings (reminder, words);
      break;
    case FR_REMIND_CHORE:
      chore (reminder, words);
      break;
    case FR_REMIND_FILTERS:
    case FR_REMIND_BOTTLES:
      order (reminder, say, words);
      break;
    default:
      g_assert_not_reached ();
    }
  return words;
}
