/* The calendar's events: each kind by hand, names that stay and differ, and times of change that move with what an event is made of. */
#include "domain/plan/season-events.h"

#include "random-season.h"
#include "tariffs.h"
#include "zones.h"

#include <math.h>
#include <string.h>

static FrZoneTable *toronto;

static gint64
at (gint month, gint day, gint hour)
{
  gint64 first, second;

  fr_zone_instant (toronto, (FrDate){ 2025, month, day }, hour * 3600, &first, &second);
  return first;
}

static void
never (gint64 utc[FR_N_KINDS])
{
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    utc[kind] = G_MININT64;
}

static const FrSeasonEvent *
find (const FrSeasonEvents *events, FrSeasonEventCode code, guint nth)
{
  for (guint i = 0; i < events->events->len; i++)
    {
      const FrSeasonEvent *event = &g_array_index (events->events, FrSeasonEvent, i);

      if (event->code == code && nth-- == 0)
        return event;
    }
  return NULL;
}

static RandomSeason *
some_season (void)
{
  RandomSeason *season = random_season_new_empty (2025, toronto);
  FrHousehold *household = (FrHousehold *)fr_record_new (FR_KIND_HOUSEHOLD);
  FrContainer *can = random_season_add (season, FR_KIND_CONTAINER);
  FrGathering *one = random_season_add (season, FR_KIND_GATHERING);
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  FrTariffRecord *tariff = random_season_add (season, FR_KIND_TARIFF);
  FrDay *day = random_season_add (season, FR_KIND_DAY);

  g_strlcpy (household->record.uid, "home", sizeof household->record.uid);
  season->book.household = household;
  g_strlcpy (can->record.uid, "can", sizeof can->record.uid);
  can->capacity_l.value = 60;
  random_season_text (&can->place, "fridge");
  one->gathered_utc = at (3, 8, 17);
  one->volume_l.value = 20;
  one->reading_brix.value = 2;
  one->container = 1;
  g_strlcpy (night->record.uid, "night", sizeof night->record.uid);
  night->evening = g_strdup ("2025-03-08");
  night->start_utc = at (3, 8, 23);
  night->plan_dry_utc = at (3, 9, 6);
  night->plan_end_utc = at (3, 9, 7);
  night->pan_l.value = 2;
  tap->season.value = 2025;
  tap->set_on = g_strdup ("2025-02-22");
  tap->pulled_on = g_strdup ("2025-04-12");
  tariff->periods = g_strdup (WINTER_2024);
  tariff->holidays = g_strdup ("2025-04-18");
  tariff->in_use = TRUE;
  day->day = g_strdup ("2025-03-11");
  day->low_c.value = -5;
  day->high_c.value = 4;
  return season;
}

static void
test_kinds (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  gint64 changed[FR_N_KINDS];
  g_autoptr (FrSeasonEvents) events = NULL;
  const FrSeasonEvent *event;

  never (changed);
  events = fr_season_events_new (&season->book, view, changed);
  event = find (events, FR_EVENT_GATHERED, 0);
  g_assert_cmpstr (event->event.uid, ==, "gathered-2025-03-08-home@frostrun");
  g_assert_true (event->event.all_day && fr_date_compare (event->event.first, (FrDate){ 2025, 3, 8 }) == 0
                 && fr_date_compare (event->event.last, event->event.first) == 0);
  g_assert_null (find (events, FR_EVENT_GATHERED, 1));

  /* Over the change of the clocks: eight hours by the clock's hands, less one. */
  event = find (events, FR_EVENT_BOIL, 0);
  g_assert_cmpstr (event->event.uid, ==, "boil-night-home@frostrun");
  g_assert_cmpint (event->event.end_utc - event->event.start_utc, ==, 7 * 3600);
  g_assert_cmpint (event->event.alarm_lead_min, ==, 10);
  g_assert_cmpint (find (events, FR_EVENT_DRY, 0)->event.start_utc, ==, at (3, 9, 6));
  g_assert_cmpint (find (events, FR_EVENT_CUTOFF, 0)->event.end_utc, ==, at (3, 9, 7));
  g_assert_cmpint (find (events, FR_EVENT_CUTOFF, 0)->event.alarm_lead_min, ==, 15);

  event = find (events, FR_EVENT_BOIL_BY, 0);
  g_assert_cmpstr (event->event.uid, ==, "boil-by-2025-can-home@frostrun");
  g_assert_cmpfloat_with_epsilon (event->volume_l, 20, 1e-9);
  g_assert_cmpint (event->event.start_utc, >, at (3, 8, 17));
  g_assert_cmpfloat (event->age_s, ==, (double)(event->event.start_utc - at (3, 8, 17)));

  g_assert_cmpint (find (events, FR_EVENT_TAPS_SET, 0)->event.first.day, ==, 22);
  g_assert_cmpint (find (events, FR_EVENT_TAPS_PULLED, 0)->event.first.day, ==, 12);
  event = find (events, FR_EVENT_TAPS_OLD, 0);
  g_assert_cmpstr (event->event.uid, ==, "taps-old-2025-2025-02-22-home@frostrun");
  g_assert_cmpint (fr_date_compare (event->event.first, (FrDate){ 2025, 4, 5 }), ==, 0);
  event = find (events, FR_EVENT_FROST, 0);
  g_assert_cmpstr (event->event.uid, ==, "frost-2025-03-10-home@frostrun");
  g_assert_cmpint (event->event.start_utc, ==, at (3, 10, 18));
  g_assert_cmpint (fr_date_compare (find (events, FR_EVENT_CLOCK_CHANGE, 0)->event.first, (FrDate){ 2025, 3, 9 }), ==, 0);
  g_assert_cmpint (fr_date_compare (find (events, FR_EVENT_HOLIDAY, 0)->event.first, (FrDate){ 2025, 4, 18 }), ==, 0);
}

/* A night of which something is written down rings no more. */
static void
test_over (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  FrNight *night = season->book.nights->pdata[0], *odd = random_season_add (season, FR_KIND_NIGHT);
  g_autoptr (FrSeasonView) view = NULL;
  gint64 changed[FR_N_KINDS];
  g_autoptr (FrSeasonEvents) events = NULL;

  night->end_utc = at (3, 9, 5);
  odd->evening = g_strdup ("2025-03-09");
  odd->start_utc = G_MAXINT64 / 4; /* far past any calendar */
  never (changed);
  view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  events = fr_season_events_new (&season->book, view, changed);
  g_assert_cmpint (find (events, FR_EVENT_BOIL, 0)->event.end_utc, ==, at (3, 9, 5));
  g_assert_cmpint (find (events, FR_EVENT_BOIL, 0)->event.alarm_lead_min, ==, -1);
  g_assert_null (find (events, FR_EVENT_BOIL, 1));
  g_assert_null (find (events, FR_EVENT_DRY, 0));
  g_assert_null (find (events, FR_EVENT_CUTOFF, 0));
}

static void
test_changed (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  static const struct
  {
    FrKindId kind;
    gboolean moves[FR_N_EVENTS];
  } all[] = {
    { FR_KIND_HOUSEHOLD, { 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 } },
    { FR_KIND_GATHERING, { [FR_EVENT_GATHERED] = 1, [FR_EVENT_BOIL_BY] = 1, [FR_EVENT_FROST] = 1 } },
    { FR_KIND_NIGHT, { [FR_EVENT_BOIL] = 1, [FR_EVENT_DRY] = 1, [FR_EVENT_CUTOFF] = 1 } },
    { FR_KIND_DAY, { [FR_EVENT_BOIL_BY] = 1, [FR_EVENT_FROST] = 1 } },
    { FR_KIND_TAP, { [FR_EVENT_TAPS_SET] = 1, [FR_EVENT_TAPS_PULLED] = 1, [FR_EVENT_TAPS_OLD] = 1, [FR_EVENT_FROST] = 1 } },
    { FR_KIND_TARIFF, { [FR_EVENT_HOLIDAY] = 1 } },
    { FR_KIND_FEATURE, { 0 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      gint64 changed[FR_N_KINDS];
      g_autoptr (FrSeasonEvents) events = NULL;

      for (guint kind = 0; kind < FR_N_KINDS; kind++)
        changed[kind] = 1000;
      changed[all[i].kind] = 2000;
      events = fr_season_events_new (&season->book, view, changed);
      for (guint code = 0; code < FR_N_EVENTS; code++)
        {
          g_assert_nonnull (find (events, code, 0));
          g_assert_cmpint (find (events, code, 0)->event.changed_utc, ==, all[i].moves[code] ? 2000 : 1000);
        }
    }
}

/* On random seasons: names differ, order rises, the passing of time alone moves nothing that stays, every event is one. */
static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);

  for (guint i = 0; i < 40; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2025, toronto);
      g_autoptr (FrSeasonView) view = NULL, later = NULL;
      g_autoptr (FrSeasonEvents) events = NULL, then = NULL;
      g_autoptr (GHashTable) by_uid = g_hash_table_new (g_str_hash, g_str_equal);
      gint64 changed[FR_N_KINDS];

      for (guint k = 0; k < season->book.containers->len; k++)
        g_snprintf (((FrRecord *)season->book.containers->pdata[k])->uid, 33, "%032x", k);
      never (changed);
      view = fr_season_view_new (&season->book, 2025, at (4, 5, 12));
      later = fr_season_view_new (&season->book, 2025, at (4, 5, 21));
      events = fr_season_events_new (&season->book, view, changed);
      then = fr_season_events_new (&season->book, later, changed);
      for (guint k = 0; k < events->events->len; k++)
        {
          const FrSeasonEvent *event = &g_array_index (events->events, FrSeasonEvent, k);

          g_assert_true (g_hash_table_insert (by_uid, (gpointer)event->event.uid, (gpointer)event));
          g_assert_true (event->event.all_day || event->event.end_utc >= event->event.start_utc);
          g_assert_cmpint (event->event.changed_utc, ==, view->days[0].from_utc);
          g_assert_nonnull (fr_season_event_code (event->code));
        }
      g_assert_cmpuint (events->events->len, ==, then->events->len);
      for (guint k = 0; k < then->events->len; k++)
        {
          const FrSeasonEvent *event = &g_array_index (then->events, FrSeasonEvent, k);
          const FrSeasonEvent *before = g_hash_table_lookup (by_uid, event->event.uid);

          g_assert_nonnull (before);
          g_assert_true (before->event.start_utc == event->event.start_utc && before->event.end_utc == event->event.end_utc);
          g_assert_true (before->volume_l == event->volume_l || (isnan (before->volume_l) && isnan (event->volume_l)));
        }
    }
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/season-events/kinds", test_kinds);
  g_test_add_func ("/season-events/over", test_over);
  g_test_add_func ("/season-events/changed", test_changed);
  g_test_add_func ("/season-events/random", test_random);
  result = g_test_run ();
  fr_zone_table_free (toronto);
  return result;
}
