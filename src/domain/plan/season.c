/* The season's frame of days, and its tally.
 *
 * Every day is found by its date alone, so a change of the clocks moves nothing into a neighbour. The tally is the sum of the days: what
 * is seen is what is counted. */
#include "domain/plan/season-private.h"

#include "domain/plan/bush.h"

#include <math.h>

#define BEFORE_DAYS 7
#define AFTER_DAYS 14
#define LEAST_DAYS 56
#define EVENING_FROM_S (6 * 3600)

/* --- small things --- */

const FrRecord *
fr_season_find (GPtrArray *records, gint64 id)
{
  guint low = 0, high = records != NULL && id != 0 ? records->len : 0;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      const FrRecord *record = records->pdata[middle];

      if (record->id == id)
        return record->archived ? NULL : record;
      if (record->id < id)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

FrDate
fr_season_date (const char *iso)
{
  FrDate date = { 0, 0, 0 };

  if (iso == NULL || !fr_date_parse (iso, &date))
    return (FrDate){ 0, 0, 0 };
  return date;
}

FrDate
fr_season_evening (const FrZoneTable *zone, gint64 utc_s)
{
  FrLocalTime local = fr_zone_local (zone, utc_s);

  return local.second_of_day < EVENING_FROM_S ? fr_date_add_days (local.date, -1) : local.date;
}

gint64
fr_season_full_hour (const FrZoneTable *zone, gint64 utc_s)
{
  return utc_s != G_MININT64 ? utc_s - fr_zone_local (zone, utc_s).second_of_day % 3600 : utc_s;
}

gboolean
fr_season_holds (guint season, FrDate day)
{
  return day.year != 0 && fr_season_of (day) == season;
}

gboolean
fr_season_tap (const FrTap *tap, guint season, FrDate *set_out)
{
  *set_out = fr_season_date (tap->set_on);
  return !tap->record.archived && tap->season.value == season && fr_season_holds (season, *set_out);
}

int
fr_season_index (const FrSeasonView *view, FrDate day)
{
  gint64 index;

  if (day.year == 0 || view->n_days == 0)
    return -1;
  index = fr_date_to_days (day) - fr_date_to_days (view->first);
  return index >= 0 && index < view->n_days ? (int)index : -1;
}

FrDate
fr_season_same_date (FrDate day, guint season)
{
  day.year += (gint)season - (gint)fr_season_of (day);
  if (!fr_date_is_valid (day))
    day.day = 28;
  return day;
}

/* --- from when to when --- */

typedef struct
{
  guint season;
  gboolean any;
  FrDate first;
  FrDate last;
  GHashTable *days; /* dates that have an entry, as days since 1970 */
} Entries;

static void
note (Entries *entries, FrDate day)
{
  if (!fr_season_holds (entries->season, day))
    return;
  if (!entries->any || fr_date_compare (day, entries->first) < 0)
    entries->first = day;
  if (!entries->any || fr_date_compare (day, entries->last) > 0)
    entries->last = day;
  entries->any = TRUE;
  g_hash_table_add (entries->days, GINT_TO_POINTER (fr_date_to_days (day)));
}

static void
note_instants (Entries *entries, const FrSeasonBook *book, GPtrArray *records, const char *field_name)
{
  const FrField *field = NULL;

  for (guint i = 0; records != NULL && i < records->len; i++)
    {
      const FrRecord *record = records->pdata[i];
      gint64 utc_s;

      if (field == NULL)
        field = fr_kind_field (record->kind, field_name);
      utc_s = fr_record_int (record, field);
      if (!record->archived && utc_s != G_MININT64)
        note (entries, fr_zone_local (book->zone, utc_s).date);
    }
}

static void
find_entries (Entries *entries, const FrSeasonBook *book)
{
  FrDate set;

  note_instants (entries, book, book->gatherings, "gathered_utc");
  note_instants (entries, book, book->pours, "poured_utc");
  note_instants (entries, book, book->dips, "found_utc");
  for (guint i = 0; book->days != NULL && i < book->days->len; i++)
    if (!((const FrRecord *)book->days->pdata[i])->archived)
      note (entries, fr_season_date (((const FrDay *)book->days->pdata[i])->day));
  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    if (!((const FrRecord *)book->nights->pdata[i])->archived)
      note (entries, fr_season_date (((const FrNight *)book->nights->pdata[i])->evening));
  for (guint i = 0; book->taps != NULL && i < book->taps->len; i++)
    if (fr_season_tap (book->taps->pdata[i], entries->season, &set))
      {
        note (entries, set);
        note (entries, fr_season_date (((const FrTap *)book->taps->pdata[i])->pulled_on));
      }
}

static void
find_frame (FrSeasonView *view, const Entries *entries, FrDate today)
{
  const FrDate begin = fr_season_first_day (view->season), end = fr_season_last_day (view->season);
  const gboolean is_now = fr_season_holds (view->season, today);
  FrDate first = entries->any ? entries->first : is_now ? today : (FrDate){ (gint)view->season, 2, 15 };
  FrDate last = entries->any ? entries->last : first;

  if (is_now && fr_date_compare (today, last) > 0)
    last = today;
  if (entries->any || is_now)
    {
      first = fr_date_add_days (first, -BEFORE_DAYS);
      last = fr_date_add_days (last, AFTER_DAYS);
    }
  if (fr_date_to_days (last) - fr_date_to_days (first) + 1 < LEAST_DAYS)
    last = fr_date_add_days (first, LEAST_DAYS - 1);
  if (fr_date_compare (last, end) > 0)
    last = end;
  if (fr_date_to_days (last) - fr_date_to_days (first) + 1 < LEAST_DAYS)
    first = fr_date_add_days (last, 1 - LEAST_DAYS);
  if (fr_date_compare (first, begin) < 0)
    first = begin;
  view->first = first;
  view->last = last;
}

/* --- the days --- */

static void
find_clock_change (FrSeasonDay *day, const FrZoneTable *zone)
{
  gint64 change;

  day->clock_change_utc = G_MININT64;
  if (!fr_zone_next_change (zone, day->from_utc - 1, &change) || change >= day->to_utc)
    return;
  day->clock_change_utc = change;
  day->clock_change_s = fr_zone_local (zone, change).offset_s - fr_zone_local (zone, change - 1).offset_s;
}

static void
make_days (FrSeasonView *view, const FrSeasonBook *book)
{
  view->n_days = (guint)(fr_date_to_days (view->last) - fr_date_to_days (view->first)) + 1;
  view->days = g_new0 (FrSeasonDay, view->n_days);
  for (guint i = 0; i < view->n_days; i++)
    {
      FrSeasonDay *day = &view->days[i];

      day->date = fr_date_add_days (view->first, (gint)i);
      day->weekday = fr_date_weekday (day->date);
      fr_day_span_utc (book->zone, day->date, &day->from_utc, &day->to_utc);
      find_clock_change (day, book->zone);
      day->low_c = day->high_c = day->gathered_l = day->sugar_kg = day->ice_l = NAN;
      day->expected_lo_l = day->expected_l = day->expected_hi_l = NAN;
      day->store_l = day->boiled_l = day->boiled_sugar_kg = day->energy_kwh = day->cost_minor = day->bottled_l = NAN;
      day->buds = "unknown";
    }
}

/* A day with an entry that is not still to come: what it does not speak of was not. */
static void
fill_nothing (FrSeasonView *view, const Entries *entries)
{
  for (guint i = 0; i < view->n_days && view->days[i].from_utc <= view->now_utc; i++)
    {
      FrSeasonDay *day = &view->days[i];

      if (!g_hash_table_contains (entries->days, GINT_TO_POINTER (fr_date_to_days (day->date))))
        continue;
      if (day->n_gatherings == 0)
        day->gathered_l = day->sugar_kg = day->ice_l = 0;
      if (day->n_boils == 0)
        day->boiled_l = day->boiled_sugar_kg = day->energy_kwh = day->cost_minor = 0;
    }
}

static void
make_stock (FrSeasonView *view, const FrSeasonBook *book)
{
  gint64 from_utc, to_utc, ignored;
  guint begin = 0;

  fr_day_span_utc (book->zone, fr_season_first_day (view->season), &from_utc, &ignored);
  fr_day_span_utc (book->zone, fr_season_last_day (view->season), &ignored, &to_utc);
  view->stock = fr_stock_new (book, from_utc, CLAMP (view->now_utc, from_utc, to_utc - 1));
  while (begin < view->stock->n_levels && view->stock->levels[begin].utc_s < view->days[0].from_utc)
    begin++;
  view->levels = view->stock->levels + begin;
  while (begin + view->n_levels < view->stock->n_levels
         && view->levels[view->n_levels].utc_s < view->days[view->n_days - 1].to_utc)
    view->n_levels++;
  view->capacity_l = view->stock->capacity_l;
}

static void
make_reminders (FrSeasonView *view, const FrSeasonBook *book, FrDate today)
{
  if (!fr_season_holds (view->season, today))
    {
      view->reminders = g_ptr_array_new ();
      return;
    }
  view->reminders = fr_reminders_new (book, view->stock, view->now_utc, FR_REMINDERS_STANDING);
  for (guint i = 0; i < view->reminders->len; i++)
    {
      int index = fr_season_index (view, ((const FrReminder *)view->reminders->pdata[i])->day);

      if (index >= 0)
        view->days[index].n_reminders++;
    }
}

FrSeasonView *
fr_season_view_new (const FrSeasonBook *book, guint season, gint64 now_utc)
{
  FrSeasonView *view = g_new0 (FrSeasonView, 1);
  Entries entries = { .season = season, .days = g_hash_table_new (NULL, NULL) };
  FrDate today;

  g_return_val_if_fail (book != NULL && book->zone != NULL, view);

  today = fr_zone_local (book->zone, now_utc).date;
  view->season = season;
  view->now_utc = now_utc;
  view->syrup_sugar_kg = fr_season_syrup_sugar_kg (book->household);
  find_entries (&entries, book);
  find_frame (view, &entries, today);
  make_days (view, book);
  make_stock (view, book);
  fr_season_fill_weather (view, book);
  fr_season_fill_sap (view, book);
  fr_season_fill_boils (view, book);
  fill_nothing (view, &entries);
  fr_season_fill_prices (view, book);
  make_reminders (view, book, today);
  view->today = fr_season_index (view, today);
  view->tally = fr_season_view_tally (view, fr_season_holds (season, today) ? today : fr_season_last_day (season));
  g_hash_table_unref (entries.days);
  return view;
}

void
fr_season_view_free (FrSeasonView *view)
{
  if (view == NULL)
    return;
  g_free (view->days);
  g_free (view->prices);
  g_clear_pointer (&view->stock, fr_stock_free);
  g_clear_pointer (&view->reminders, g_ptr_array_unref);
  g_free (view);
}

const FrSeasonDay *
fr_season_view_day (const FrSeasonView *view, FrDate date)
{
  int index = fr_season_index (view, date);

  return index >= 0 ? &view->days[index] : NULL;
}

/* --- the tally --- */

static void
add (double *sum, double value)
{
  if (!isnan (value))
    *sum = (isnan (*sum) ? 0 : *sum) + value;
}

FrSeasonTally
fr_season_view_tally (const FrSeasonView *view, FrDate until)
{
  FrSeasonTally tally = { .season = view->season, .until = until };
  double sugar_kg = NAN;

  tally.gathered_l = tally.sugar_kg = tally.ice_l = tally.waiting_l = tally.boiled_l = NAN;
  tally.syrup_l = tally.cost_minor = tally.energy_kwh = NAN;
  for (guint i = 0; i < view->n_days; i++)
    {
      const FrSeasonDay *day = &view->days[i];

      if (fr_date_compare (day->date, until) > 0 || day->from_utc > view->now_utc)
        break;
      add (&tally.gathered_l, day->gathered_l);
      add (&tally.sugar_kg, day->sugar_kg);
      add (&tally.ice_l, day->ice_l);
      tally.n_gathering_days += day->n_gatherings > 0;
      tally.waiting_l = day->store_l;
      if (day->is_boil_planned)
        continue;
      add (&tally.boiled_l, day->boiled_l);
      add (&sugar_kg, day->boiled_sugar_kg);
      if (day->n_boils == 0)
        continue;
      tally.n_nights++;
      tally.n_priced += !isnan (day->cost_minor);
      add (&tally.cost_minor, day->cost_minor);
      add (&tally.energy_kwh, day->energy_kwh);
    }
  /* No night at all cost nothing; nights of which nothing is known did not. */
  if (tally.n_nights == 0 && !isnan (tally.gathered_l))
    tally.cost_minor = tally.energy_kwh = 0;
  tally.syrup_l = sugar_kg / view->syrup_sugar_kg;
  return tally;
}
