/* The calendar's texts. They are read on a phone, days later and in passing: the summary says it all in a line, nothing is said as seen
 * from now. */
#include "words/calendar-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/reminder-words.h"
#include "words/season-words.h"

void
fr_calendar_words_free (FrCalendarWords *words)
{
  if (words == NULL)
    return;
  for (guint i = 0; i < words->n; i++)
    {
      g_free ((char *)words->events[i].uid);
      g_free ((char *)words->events[i].summary);
      g_free ((char *)words->events[i].description);
      g_free ((char *)words->events[i].category);
    }
  g_free (words->events);
  g_free (words->name);
  g_free (words);
}

const char *
fr_season_event_category (FrSeasonEventCode code)
{
  switch (code)
    {
    case FR_EVENT_GATHERED:
      return _ ("Gathered");
    case FR_EVENT_BOIL:
    case FR_EVENT_DRY:
    case FR_EVENT_CUTOFF:
      return _ ("Boils");
    case FR_EVENT_TAPS_SET:
    case FR_EVENT_TAPS_PULLED:
    case FR_EVENT_TAPS_OLD:
      return _ ("Taps");
    case FR_EVENT_CLOCK_CHANGE:
    case FR_EVENT_HOLIDAY:
      return _ ("Days that differ");
    default:
      return _ ("Reminders");
    }
}

static const char *
cooker_name (const FrSeasonBook *book, gint64 id)
{
  for (guint i = 0; book->cookers != NULL && i < book->cookers->len; i++)
    {
      const FrRecord *cooker = book->cookers->pdata[i];

      if (cooker->id == id)
        return fr_record_label (cooker);
    }
  return "";
}

static void
say_gathered (const FrSeasonEvent *event, const FrSay *say, FrCalendarEvent *out)
{
  const FrSeasonDay *day = event->day;
  g_autofree char *litres = fr_season_litres (say, day->gathered_l), *sweet = NULL, *entries = NULL;
  const double brix = fr_season_brix (day->gathered_l, day->sugar_kg);

  if (isnan (day->gathered_l))
    out->summary = g_strdup (_ ("Sap gathered, not measured"));
  else if (isnan (brix))
    out->summary = g_strdup_printf (_ ("%s of sap gathered"), litres);
  else
    {
      sweet = fr_say_amount (say, brix, FR_QUANTITY_SWEETNESS, 1);
      out->summary = g_strdup_printf (_ ("%s of sap gathered at %s"), litres, sweet);
    }
  entries = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u entry.", "%u entries.", day->n_gatherings), day->n_gatherings);
  if (day->ice_l > 0)
    {
      g_autofree char *ice = fr_season_litres (say, day->ice_l);

      out->description = g_strdup_printf (_ ("%s Ice thrown out: %s."), entries, ice);
    }
  else
    out->description = g_steal_pointer (&entries);
}

static void
say_boil (const FrSeasonEvent *event, const FrSeasonBook *book, const FrSay *say, FrCalendarEvent *out)
{
  const FrNight *night = (const FrNight *)event->record;
  const char *cooker = cooker_name (book, night->cooker);
  g_autofree char *pan = fr_season_litres (say, night->pan_l.value), *bucket = fr_season_litres (say, night->bucket_l.value);
  g_autofree char *cost = isnan (night->plan_cost.value) ? NULL : fr_say_money (say, night->plan_cost.value);

  /* Translators: a cooker's name */
  if (event->code == FR_EVENT_DRY)
    out->summary = g_strdup_printf (_ ("The bucket runs dry: %s"), cooker);
  else if (event->code == FR_EVENT_CUTOFF)
    out->summary = g_strdup_printf (_ ("The boil cuts off, be there: %s"), cooker);
  else
    out->summary = g_strdup_printf (_ ("Boil on %s"), cooker);
  if (isnan (night->bucket_l.value))
    out->description = cost != NULL ? g_strdup_printf (_ ("%s in the pan. Power for %s as planned."), pan, cost)
                                    : g_strdup_printf (_ ("%s in the pan."), pan);
  else
    out->description = cost != NULL
                           ? g_strdup_printf (_ ("%s in the pan, %s in the bucket. Power for %s as planned."), pan, bucket, cost)
                           : g_strdup_printf (_ ("%s in the pan, %s in the bucket."), pan, bucket);
}

static void
say_boil_by (const FrSeasonEvent *event, const FrSay *say, FrCalendarEvent *out)
{
  g_autofree char *name = fr_container_words (event->record), *litres = fr_season_litres (say, event->volume_l);
  g_autofree char *age = isnan (event->age_s) ? NULL : fr_say_span (event->age_s);

  /* Translators: a container's name, litres */
  out->summary = g_strdup_printf (_ ("Boil %s by now: %s"), name, litres);
  out->description = age == NULL ? g_strdup (_ ("Local food rules come first."))
                                 : g_strdup_printf (_ ("The oldest of it is %s old by then. Local food rules come first."), age);
}

static void
say_taps (const FrSeasonEvent *event, FrCalendarEvent *out)
{
  const guint set = event->day->taps_set, pulled = event->day->taps_pulled;

  if (event->code == FR_EVENT_TAPS_SET)
    out->summary = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap set", "%u taps set", set), set);
  else
    out->summary = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u tap pulled", "%u taps pulled", pulled), pulled);
}

static void
say_old_taps (const FrSeasonEvent *event, FrCalendarEvent *out)
{
  const guint weeks = event->reminder->weeks;
  g_autofree char *date = NULL;
  FrDate set = { 0 };

  fr_date_parse (((const FrTap *)event->record)->set_on, &set);
  date = fr_say_date (set);
  out->summary = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "Taps of %s are %u week old", "Taps of %s are %u weeks old", weeks), date, weeks);
  out->description = g_strdup (_ ("Holes give less as they dry. Flow and smell tell when to pull them."));
}

static void
say_clock (const FrSeasonEvent *event, const FrSay *say, FrCalendarEvent *out)
{
  const gint64 change_utc = event->day->clock_change_utc;
  g_autofree char *before = fr_say_clock (say, change_utc - 60), *after = fr_say_clock (say, change_utc);

  out->summary = g_strdup (event->day->clock_change_s > 0 ? _ ("Clocks go forward") : _ ("Clocks go back"));
  out->description = g_strdup_printf (_ ("After %s comes %s."), before, after);
}

static void
say_holiday (const FrSeasonEvents *events, const FrSeasonEvent *event, const FrSay *say, FrCalendarEvent *out)
{
  g_autoptr (GPtrArray) marks = fr_season_day_marks (events->view, event->day, say);

  out->summary = g_strdup (_ ("Holiday: power at other prices"));
  for (guint i = 0; i < marks->len; i++)
    if (out->description == NULL && g_strcmp0 (marks->pdata[i], _ ("holiday, low all day")) == 0)
      out->description = g_strdup (_ ("Low all day."));
}

static void
say_frost (const FrSeasonEvent *event, const FrSay *say, FrCalendarEvent *out)
{
  g_autoptr (FrReminderWords) words = fr_reminder_words_new (event->reminder, event->event.start_utc, say);

  out->summary = g_steal_pointer (&words->title);
  out->description = g_strdup (words->sentence);
}

FrCalendarWords *
fr_calendar_words_new (const FrSeasonEvents *events, const FrSeasonBook *book, const FrSay *say)
{
  FrCalendarWords *words = g_new0 (FrCalendarWords, 1);

  words->name = book->household != NULL ? g_strdup (book->household->name) : NULL;
  words->n = events->events->len;
  words->events = g_new0 (FrCalendarEvent, words->n);
  for (guint i = 0; i < words->n; i++)
    {
      const FrSeasonEvent *event = &g_array_index (events->events, FrSeasonEvent, i);
      FrCalendarEvent *out = &words->events[i];

      *out = event->event;
      out->uid = g_strdup (event->event.uid);
      out->category = g_strdup (fr_season_event_category (event->code));
      switch (event->code)
        {
        case FR_EVENT_GATHERED:
          say_gathered (event, say, out);
          break;
        case FR_EVENT_BOIL:
        case FR_EVENT_DRY:
        case FR_EVENT_CUTOFF:
          say_boil (event, book, say, out);
          break;
        case FR_EVENT_BOIL_BY:
          say_boil_by (event, say, out);
          break;
        case FR_EVENT_TAPS_SET:
        case FR_EVENT_TAPS_PULLED:
          say_taps (event, out);
          break;
        case FR_EVENT_TAPS_OLD:
          say_old_taps (event, out);
          break;
        case FR_EVENT_FROST:
          say_frost (event, say, out);
          break;
        case FR_EVENT_CLOCK_CHANGE:
          say_clock (event, say, out);
          break;
        case FR_EVENT_HOLIDAY:
          say_holiday (events, event, say, out);
          break;
        default:
          g_assert_not_reached ();
        }
    }
  return words;
}
