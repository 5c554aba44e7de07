/* Reminders: gathered from the rules, urgency by the calendar, put in order.
 *
 * "Today" and "in two days" are local dates: what is due at one in the morning is due tomorrow. */
#include "domain/plan/reminders-private.h"

#include "domain/plan/bush.h"

#include <math.h>
#include <string.h>

#define SOON_DAYS 2
#define TOLD_DAYS 4 /* further off is not told; common sense, no source */

static const char *const codes[FR_N_REMINDERS] = {
  [FR_REMIND_SPOILED] = "spoiled",   [FR_REMIND_BOIL_BY] = "boil_by",   [FR_REMIND_FROST] = "frost",
  [FR_REMIND_FULL] = "full",         [FR_REMIND_BUDDY] = "buddy",       [FR_REMIND_BUDS] = "buds",
  [FR_REMIND_TAPS] = "taps",         [FR_REMIND_LEDGER] = "ledger",     [FR_REMIND_FINDINGS] = "findings",
  [FR_REMIND_CHORE] = "chore",       [FR_REMIND_FILTERS] = "filters",   [FR_REMIND_BOTTLES] = "bottles",
};

void
fr_reminder_free (FrReminder *reminder)
{
  if (reminder == NULL)
    return;
  g_free (reminder->key);
  g_free (reminder);
}

const char *
fr_reminder_code (FrReminderCode code)
{
  g_return_val_if_fail ((guint)code < FR_N_REMINDERS, NULL);
  return codes[code];
}

const char *
fr_urgency_code (FrUrgency urgency)
{
  static const char *const all[] = { "later", "note", "soon", "now" };

  g_return_val_if_fail ((guint)urgency < G_N_ELEMENTS (all), NULL);
  return all[urgency];
}

FrReminder *
fr_remind (FrReminding *reminding, FrReminderCode code, char *key, gint64 due_utc)
{
  FrReminder *reminder = g_new0 (FrReminder, 1);
  gint64 days = 0;

  reminder->code = code;
  reminder->key = key;
  reminder->due_utc = due_utc;
  reminder->day = reminding->today;
  reminder->urgency = FR_URGENCY_NOTE;
  reminder->volume_l = reminder->capacity_l = reminder->temp_c = reminder->age_s = NAN;
  if (due_utc != G_MININT64)
    {
      FrDate day = fr_zone_local (reminding->book->zone, due_utc).date;

      days = fr_date_to_days (day) - fr_date_to_days (reminding->today);
      if (days > 0)
        reminder->day = day;
      reminder->urgency = days <= 0           ? FR_URGENCY_NOW
                          : days <= SOON_DAYS ? FR_URGENCY_SOON
                          : days <= TOLD_DAYS ? FR_URGENCY_NOTE
                                              : FR_URGENCY_LATER;
    }
  g_ptr_array_add (reminding->all, reminder);
  return reminder;
}

gboolean
fr_remind_hangs (const FrReminding *reminding, const FrTap *tap, FrDate *set_out)
{
  FrDate pulled = fr_season_date (tap->pulled_on);

  return fr_season_tap (tap, reminding->season, set_out) && fr_date_compare (*set_out, reminding->today) <= 0
         && (pulled.year == 0 || fr_date_compare (pulled, reminding->today) > 0);
}

const FrDay *
fr_remind_day (const FrReminding *reminding, FrDate date)
{
  GPtrArray *days = reminding->book->days;
  g_autofree char *iso = fr_date_to_iso (date);

  for (guint i = days != NULL ? days->len : 0; i > 0; i--)
    {
      const FrDay *day = days->pdata[i - 1];

      if (!day->record.archived && g_strcmp0 (day->day, iso) == 0)
        return day;
    }
  return NULL;
}

static void
count_taps (FrReminding *reminding)
{
  GPtrArray *taps = reminding->book->taps;
  FrDate set;

  for (guint i = 0; taps != NULL && i < taps->len; i++)
    {
      reminding->n_set += fr_season_tap (taps->pdata[i], reminding->season, &set)
                          && fr_date_compare (set, reminding->today) <= 0;
      reminding->n_hanging += fr_remind_hangs (reminding, taps->pdata[i], &set);
    }
}

static void
find_dismissed (FrReminding *reminding)
{
  GPtrArray *dismissals = reminding->book->dismissals;
  g_autoptr (GHashTable) about = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; dismissals != NULL && i < dismissals->len; i++)
    {
      const FrDismissal *dismissal = dismissals->pdata[i];

      if (!dismissal->record.archived && dismissal->about != NULL)
        g_hash_table_add (about, dismissal->about);
    }
  for (guint i = 0; i < reminding->all->len; i++)
    {
      FrReminder *reminder = reminding->all->pdata[i];

      reminder->dismissed = g_hash_table_contains (about, reminder->key);
    }
}

static gint
by_urgency (gconstpointer a, gconstpointer b)
{
  const FrReminder *one = *(const FrReminder *const *)a, *other = *(const FrReminder *const *)b;
  const gint64 due = one->due_utc == G_MININT64 ? G_MAXINT64 : one->due_utc;
  const gint64 other_due = other->due_utc == G_MININT64 ? G_MAXINT64 : other->due_utc;

  if (one->urgency != other->urgency)
    return one->urgency > other->urgency ? -1 : 1;
  if (due != other_due)
    return due < other_due ? -1 : 1;
  if (one->code != other->code)
    return one->code < other->code ? -1 : 1;
  return strcmp (one->key, other->key);
}

GPtrArray *
fr_reminders_new (const FrSeasonBook *book, const FrStock *stock, gint64 now_utc, FrReminders which)
{
  FrReminding reminding = { .book = book, .stock = stock, .now_utc = now_utc };

  reminding.all = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_reminder_free);
  g_return_val_if_fail (book != NULL && book->zone != NULL && stock != NULL, reminding.all);

  reminding.today = fr_zone_local (book->zone, now_utc).date;
  reminding.season = fr_season_of (reminding.today);
  count_taps (&reminding);
  fr_remind_of_sap (&reminding);
  fr_remind_of_work (&reminding);
  find_dismissed (&reminding);
  for (guint i = reminding.all->len; i > 0; i--)
    {
      const FrReminder *reminder = reminding.all->pdata[i - 1];

      if ((reminder->dismissed && !(which & FR_REMINDERS_DISMISSED))
          || (reminder->urgency == FR_URGENCY_LATER && !(which & FR_REMINDERS_LATER)))
        g_ptr_array_remove_index (reminding.all, i - 1);
    }
  g_ptr_array_sort (reminding.all, by_urgency);
  return reminding.all;
}
