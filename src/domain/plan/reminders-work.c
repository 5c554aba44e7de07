/* Reminders of work: taps that have been in for weeks, buds, what a night left unwritten, checklists, and what is to be ordered.
 *
 * Nights still likely: as many as followed this date, on average, in earlier seasons of the book; in its first season as many as the
 * sap in store makes at this season's litres a night. One filter a night. Syrup still likely: from the sugar in store, and from what
 * followed this date on average. Common sense, no source. */
#include "domain/plan/reminders-private.h"

#include "domain/plan/bush.h"

#include <math.h>

#define TAP_WEEKS 6 /* a household that did not say; producers' advice for open buckets is three to four weeks of good flow, weak */
#define FINDINGS_DAYS 14

/* --- taps and buds --- */

static void
remind_of_taps (FrReminding *reminding)
{
  const FrSeasonBook *book = reminding->book;
  const FrStoring *storing = book->storing;
  const guint weeks
      = storing != NULL && !isnan (storing->tap_weeks.value) ? (guint)storing->tap_weeks.value : TAP_WEEKS;
  const FrDate limit = fr_date_add_days (reminding->today, -7 * (gint)weeks);
  const FrTap *oldest = NULL;
  FrDate first = { 0 }, set;
  FrReminder *reminder;
  gint64 due_utc, ignored;
  guint n = 0;
  g_autofree char *iso = NULL;

  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    if (fr_remind_hangs (reminding, book->taps->pdata[i], &set) && (oldest == NULL || fr_date_compare (set, first) < 0))
      {
        oldest = book->taps->pdata[i];
        first = set;
      }
  if (oldest == NULL)
    return;
  for (guint i = 0; i < book->taps->len; i++)
    if (fr_remind_hangs (reminding, book->taps->pdata[i], &set))
      n += fr_date_compare (set, fr_date_compare (first, limit) > 0 ? first : limit) <= 0;
  iso = fr_date_to_iso (first);
  fr_day_span_utc (book->zone, fr_date_add_days (first, 7 * (gint)weeks), &due_utc, &ignored);
  reminder = fr_remind (reminding, FR_REMIND_TAPS, g_strdup_printf ("taps/%u/%s", reminding->season, iso), due_utc);
  reminder->urgency = due_utc <= reminding->now_utc ? FR_URGENCY_NOTE : FR_URGENCY_LATER;
  reminder->record = &oldest->record;
  reminder->n = n;
  reminder->weeks = weeks;
  fr_day_span_utc (book->zone, first, &due_utc, &ignored);
  reminder->age_s = (double)(reminding->now_utc - due_utc);
}

static gboolean
has_buds (const FrReminding *reminding, const FrDay *day, FrDate *date_out)
{
  *date_out = fr_season_date (day->day);
  return !day->record.archived && fr_season_holds (reminding->season, *date_out)
         && fr_date_compare (*date_out, reminding->today) <= 0 && g_strcmp0 (day->buds, "unknown") != 0;
}

static void
remind_of_buds (FrReminding *reminding)
{
  GPtrArray *days = reminding->book->days;
  const FrDay *latest = NULL, *first = NULL;
  FrDate latest_date = { 0 }, first_date = { 0 }, date;
  FrReminder *reminder;

  for (guint i = 0; days != NULL && i < days->len; i++)
    if (has_buds (reminding, days->pdata[i], &date) && (latest == NULL || fr_date_compare (date, latest_date) > 0))
      {
        latest = days->pdata[i];
        latest_date = date;
      }
  if (latest == NULL || g_strcmp0 (latest->buds, "tight") == 0
      || (reminding->n_set > 0 && reminding->n_hanging == 0))
    return;
  for (guint i = 0; i < days->len; i++)
    {
      const FrDay *day = days->pdata[i];

      if (has_buds (reminding, day, &date) && g_strcmp0 (day->buds, latest->buds) == 0
          && (first == NULL || fr_date_compare (date, first_date) < 0))
        {
          first = day;
          first_date = date;
        }
    }
  reminder = fr_remind (reminding, FR_REMIND_BUDS, g_strdup_printf ("buds/%u/%s", reminding->season, latest->buds),
                        G_MININT64);
  if (g_strcmp0 (latest->buds, "open") == 0)
    reminder->urgency = FR_URGENCY_SOON;
  reminder->record = &first->record;
  reminder->buds = first->buds;
}

/* --- nights and kit --- */

static void
remind_of_findings (FrReminding *reminding)
{
  GPtrArray *nights = reminding->book->nights;

  for (guint i = 0; nights != NULL && i < nights->len; i++)
    {
      const FrNight *night = nights->pdata[i];
      const gint64 end_utc = fr_season_night_end_utc (night);
      FrReminder *reminder;

      if (fr_season_night_has_findings (night) || night->record.archived || end_utc > reminding->now_utc
          || !fr_season_holds (reminding->season, fr_season_date (night->evening))
          || fr_date_to_days (reminding->today) - fr_date_to_days (fr_season_date (night->evening)) > FINDINGS_DAYS)
        continue;
      reminder = fr_remind (reminding, FR_REMIND_FINDINGS, g_strconcat ("findings/", night->record.uid, NULL), G_MININT64);
      reminder->record = &night->record;
      reminder->age_s = (double)(reminding->now_utc - end_utc);
    }
}

static gboolean
is_open (const FrChoreItem *item)
{
  return item->state == FR_CHORE_DUE || item->state == FR_CHORE_LATE;
}

static void
remind_of_task (FrReminding *reminding, GArray *items, FrChoreTask task)
{
  const FrChoreItem *first = NULL, *newest = NULL;
  FrReminder *reminder;
  guint n = 0;

  for (guint i = 0; i < items->len; i++)
    {
      const FrChoreItem *item = &g_array_index (items, FrChoreItem, i);

      if (item->task != task)
        continue;
      if (newest == NULL || item->kit->kind->id > newest->kit->kind->id
          || (item->kit->kind->id == newest->kit->kind->id && item->kit->id > newest->kit->id))
        newest = item;
      if (!is_open (item))
        continue;
      n++;
      if (first == NULL || (first->state == FR_CHORE_DUE && item->state == FR_CHORE_LATE))
        first = item;
    }
  if (n == 0)
    return;
  /* Put away, it comes again with a new piece of kit, not with one that was done. */
  reminder = fr_remind (
      reminding, FR_REMIND_CHORE,
      g_strdup_printf ("chore/%u/%s/%s", reminding->season, fr_chore_code (task), newest->kit->uid), G_MININT64);
  if (first->state == FR_CHORE_LATE)
    reminder->urgency = FR_URGENCY_SOON;
  reminder->item = *first;
  reminder->record = first->kit;
  reminder->n = n;
}

/* --- what is to be ordered --- */

/* What followed this date, on average, and what this season did so far. */
typedef struct
{
  guint n_seasons;
  double after_nights;
  double after_sugar_kg;
  guint n_nights;
  double night_l;
} Pace;

static gint
by_evening (gconstpointer a, gconstpointer b)
{
  const FrNight *one = *(const FrNight *const *)a, *other = *(const FrNight *const *)b;
  int order = g_strcmp0 (one->evening, other->evening);

  return order != 0 ? order : (one->record.id > other->record.id) - (one->record.id < other->record.id);
}

static Pace
find_pace (const FrReminding *reminding)
{
  GPtrArray *nights = reminding->book->nights;
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();
  guint season = 0;
  FrDate evening = { 0 };
  Pace pace = { 0 };

  for (guint i = 0; nights != NULL && i < nights->len; i++)
    if (!((const FrRecord *)nights->pdata[i])->archived)
      g_ptr_array_add (sorted, nights->pdata[i]);
  g_ptr_array_sort (sorted, by_evening);
  for (guint i = 0; i < sorted->len; i++)
    {
      FrSeasonBoil boil;
      gboolean is_new;
      guint of;

      fr_season_boil (sorted->pdata[i], NAN, reminding->now_utc, &boil);
      if (boil.evening.year == 0)
        continue;
      of = fr_season_of (boil.evening);
      is_new = fr_date_compare (boil.evening, evening) != 0;
      evening = boil.evening;
      if (of < reminding->season)
        {
          pace.n_seasons += of != season;
          season = of;
          if (fr_date_compare (boil.evening, fr_season_same_date (reminding->today, of)) <= 0)
            continue;
          pace.after_nights += is_new;
          pace.after_sugar_kg += isnan (boil.sugar_kg) ? 0 : boil.sugar_kg;
        }
      else if (of == reminding->season && !boil.is_planned)
        {
          pace.n_nights += is_new;
          pace.night_l += boil.volume_l;
        }
    }
  if (pace.n_seasons > 0)
    {
      pace.after_nights /= pace.n_seasons;
      pace.after_sugar_kg /= pace.n_seasons;
    }
  if (pace.n_nights > 0)
    pace.night_l /= pace.n_nights;
  return pace;
}

static void
order (FrReminding *reminding, FrReminderCode code, const char *key, double left, double wanted, double volume_l)
{
  FrReminder *reminder;

  if (isnan (left) || !(left < wanted))
    return;
  reminder = fr_remind (reminding, code, g_strdup_printf ("%s/%u/%.0f", key, reminding->season, left), G_MININT64);
  reminder->n = (guint)left;
  reminder->n_wanted = (guint)wanted;
  reminder->volume_l = volume_l;
}

static void
remind_of_orders (FrReminding *reminding)
{
  const FrStoring *storing = reminding->book->storing;
  const FrHousehold *household = reminding->book->household;
  const double waiting_l = reminding->stock->volume_l, waiting_kg = reminding->stock->sugar_kg;
  double wanted, syrup_l;
  Pace pace;

  if (storing == NULL || (isnan (storing->filters.value) && isnan (storing->bottles.value))
      || (reminding->n_set > 0 && reminding->n_hanging == 0))
    return;
  pace = find_pace (reminding);
  wanted = pace.after_nights;
  if (pace.n_seasons == 0 && waiting_l >= FR_STOCK_EMPTY_L)
    wanted = pace.night_l > 0 ? waiting_l / pace.night_l : 1;
  order (reminding, FR_REMIND_FILTERS, "filters", storing->filters.value, ceil (wanted - 1e-9), NAN);
  syrup_l = (pace.after_sugar_kg + (waiting_kg > 0 ? waiting_kg : 0)) / fr_season_syrup_sugar_kg (household);
  if (household != NULL && household->jar_l.value > 0)
    order (reminding, FR_REMIND_BOTTLES, "bottles", storing->bottles.value,
           ceil (syrup_l / household->jar_l.value - 1e-9), syrup_l);
}

void
fr_remind_of_work (FrReminding *reminding)
{
  g_autoptr (GArray) items = fr_chores (reminding->book, reminding->season, reminding->now_utc);

  remind_of_taps (reminding);
  remind_of_buds (reminding);
  remind_of_findings (reminding);
  for (guint task = 0; task < FR_N_CHORES; task++)
    remind_of_task (reminding, items, task);
  remind_of_orders (reminding);
}
