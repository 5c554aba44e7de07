/* A season's days against a plain recomputation on random seasons, written apart: dates by adding the zone's offset and GLib's calendar,
 * sums by walking all records for each day, prices minute by minute; and against cases worked out by hand. */
#include "domain/plan/gathering.h"
#include "domain/plan/season.h"

#include "domain/maths/sucrose.h"

#include "random-season.h"
#include "tariff-oracle.h"
#include "tariffs.h"

#include <string.h>

#define SEASONS 200

/* --- the same by another way --- */

static void
put (char **text, const char *value)
{
  random_season_text (text, value);
}

static gint
offset_at (const TestZone *zone, gint64 utc_s)
{
  gint offset_s = 0;

  for (guint i = 0; i < zone->n_spans; i++)
    if (zone->spans[i].from_utc <= utc_s)
      offset_s = zone->spans[i].offset_s;
  return offset_s;
}

/* "2025-03-09", some seconds before the instant. */
static char *
date_at (const TestZone *zone, gint64 utc_s, gint before_s)
{
  gint64 local_s = utc_s + offset_at (zone, utc_s) - before_s;
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (local_s);

  return g_date_time_format (time, "%Y-%m-%d");
}

static gboolean
on (const TestZone *zone, gint64 utc_s, gint before_s, const char *day)
{
  g_autofree char *date = date_at (zone, utc_s, before_s);

  return strcmp (date, day) == 0;
}

static gboolean
near (double a, double b)
{
  return (isnan (a) && isnan (b)) || fabs (a - b) <= 1e-9 * MAX (1, fabs (b));
}

static const FrContainer *
container_of (const FrSeasonBook *book, gint64 id)
{
  for (guint i = 0; i < book->containers->len; i++)
    if (((FrRecord *)book->containers->pdata[i])->id == id)
      return book->containers->pdata[i]; /* one put away has its measures still */
  return NULL;
}

static const FrNight *
night_of (const FrSeasonBook *book, gint64 id)
{
  for (guint i = 0; i < book->nights->len; i++)
    if (((FrRecord *)book->nights->pdata[i])->id == id && !((FrRecord *)book->nights->pdata[i])->archived)
      return book->nights->pdata[i];
  return NULL;
}

/* --- nights and taps, which the random season has none of --- */

static void
add_nights (GRand *random, RandomSeason *season)
{
  const FrSeasonBook *book = &season->book;
  gint n = g_rand_int_range (random, 0, 12);

  for (gint i = 0; i < n; i++)
    {
      FrDate day = fr_date_add_days ((FrDate){ (gint)season->season, 2, 20 }, g_rand_int_range (random, 0, 45));
      FrNight *night = random_season_add (season, FR_KIND_NIGHT);
      gint64 from, to;

      fr_day_span_utc (book->zone, day, &from, &to);
      night->evening = fr_date_to_iso (day);
      night->start_utc = from + 3600 * g_rand_int_range (random, 17, 29);
      night->plan_end_utc = night->start_utc + 10 * 3600;
      night->pan_l.value = g_rand_double_range (random, 0, 4);
      night->pan_brix.value = night->sap_brix.value = g_rand_double_range (random, 1.5, 3);
      if (g_rand_boolean (random))
        night->bucket_l.value = g_rand_double_range (random, 0, 25);
      night->plan_energy_kwh.value = g_rand_double_range (random, 5, 25);
      night->plan_cost.value = g_rand_double_range (random, 50, 400);
      if (g_rand_boolean (random))
        night->meter_kwh.value = g_rand_double_range (random, 5, 25);
      night->record.archived = g_rand_int_range (random, 0, 20) == 0;
    }
  for (guint i = 0; n > 0 && i < book->pours->len; i++)
    {
      FrPour *pour = book->pours->pdata[i];

      if (strcmp (pour->reason, "boiled") == 0 && g_rand_boolean (random))
        pour->night = g_rand_int_range (random, 1, n + 1);
    }
}

static void
add_taps (GRand *random, RandomSeason *season)
{
  gint n = g_rand_int_range (random, 0, 20);

  for (gint i = 0; i < n; i++)
    {
      FrTap *tap = random_season_add (season, FR_KIND_TAP);
      FrDate set = fr_date_add_days ((FrDate){ (gint)season->season, 2, 10 }, g_rand_int_range (random, 0, 10));

      tap->season.value = season->season - (g_rand_int_range (random, 0, 10) == 0);
      if (g_rand_int_range (random, 0, 8) > 0)
        tap->set_on = fr_date_to_iso (set);
      if (tap->set_on != NULL && g_rand_boolean (random))
        tap->pulled_on = fr_date_to_iso (fr_date_add_days (set, 45));
    }
}

typedef struct
{
  double gathered_l, sugar_kg, ice_l, boiled_l, energy_kwh, cost_minor;
  guint n_gatherings, n_estimated, n_boils, taps_set, taps_pulled;
  gboolean has_entry, all_read;
} Plain;

static void
plain_sap (const RandomSeason *season, const TestZone *zone, const char *iso, Plain *plain)
{
  const FrSeasonBook *book = &season->book;
  gboolean other = FALSE;

  for (guint i = 0; i < book->gatherings->len; i++)
    {
      const FrGathering *g = book->gatherings->pdata[i];
      double brix = fr_gathering_brix (g), volume_l = fr_gathering_l (g, container_of (book, g->bucket), NAN);

      if (g->record.archived || !on (zone, g->gathered_utc, 0, iso))
        continue;
      plain->n_gatherings++;
      plain->n_estimated += strcmp (g->scope, "bush") == 0;
      plain->has_entry = TRUE;
      plain->all_read = plain->all_read && !isnan (brix) && !isnan (volume_l);
      if (!isnan (volume_l))
        {
          plain->gathered_l += volume_l;
          plain->sugar_kg += volume_l * fr_sucrose_density_kg_m3 (brix, 4) / 1000 * brix / 100;
        }
      if (!isnan (g->ice_l.value))
        plain->ice_l += g->ice_l.value;
    }
  for (guint i = 0; i < book->pours->len; i++)
    {
      const FrPour *p = book->pours->pdata[i];

      if (p->record.archived)
        continue;
      plain->has_entry = plain->has_entry || on (zone, p->poured_utc, 0, iso);
      if (strcmp (p->reason, "boiled") == 0 && night_of (book, p->night) == NULL && on (zone, p->poured_utc, 6 * 3600, iso))
        {
          plain->boiled_l += p->volume_l.value;
          other = TRUE;
        }
    }
  plain->n_boils += other;
  for (guint i = 0; i < book->dips->len; i++)
    {
      const FrDip *d = book->dips->pdata[i];

      plain->has_entry = plain->has_entry || (!d->record.archived && on (zone, d->found_utc, 0, iso));
    }
}

static void
plain_rest (const RandomSeason *season, const char *iso, Plain *plain)
{
  const FrSeasonBook *book = &season->book;

  for (guint i = 0; i < book->nights->len; i++)
    {
      const FrNight *n = book->nights->pdata[i];
      double kwh = isnan (n->meter_kwh.value) ? n->plan_energy_kwh.value : n->meter_kwh.value;

      if (n->record.archived || strcmp (n->evening, iso) != 0)
        continue;
      plain->has_entry = TRUE;
      plain->n_boils++;
      plain->boiled_l += n->pan_l.value + (isnan (n->bucket_l.value) ? 0 : n->bucket_l.value);
      plain->energy_kwh += kwh;
      plain->cost_minor += n->plan_cost.value / n->plan_energy_kwh.value * kwh;
    }
  for (guint i = 0; i < book->taps->len; i++)
    {
      const FrTap *t = book->taps->pdata[i];

      if ((guint)t->season.value != season->season || t->set_on == NULL)
        continue;
      plain->taps_set += strcmp (t->set_on, iso) == 0;
      plain->taps_pulled += g_strcmp0 (t->pulled_on, iso) == 0;
    }
  plain->has_entry = plain->has_entry || plain->taps_set > 0 || plain->taps_pulled > 0;
  for (guint i = 0; i < book->days->len; i++)
    plain->has_entry = plain->has_entry || strcmp (((FrDay *)book->days->pdata[i])->day, iso) == 0;
}

static void
check_day (const RandomSeason *season, const TestZone *zone, const FrSeasonView *view, const FrSeasonDay *day)
{
  g_autofree char *iso = fr_date_to_iso (day->date), *first = date_at (zone, day->from_utc, 0),
                  *last = date_at (zone, day->to_utc - 1, 0), *before = date_at (zone, day->from_utc - 1, 0),
                  *after = date_at (zone, day->to_utc, 0);
  gboolean past = day->from_utc <= view->now_utc;
  Plain plain = { .all_read = TRUE };

  g_assert_cmpstr (first, ==, iso);
  g_assert_cmpstr (last, ==, iso);
  g_assert_cmpstr (before, <, iso);
  g_assert_cmpstr (after, >, iso);
  g_assert_cmpint (day->to_utc - day->from_utc, ==,
                   86400 - (offset_at (zone, day->to_utc - 1) - offset_at (zone, day->from_utc)));
  g_assert_cmpint (day->clock_change_s, ==, offset_at (zone, day->to_utc - 1) - offset_at (zone, day->from_utc));

  plain_sap (season, zone, iso, &plain);
  plain_rest (season, iso, &plain);
  g_assert_cmpuint (day->n_gatherings, ==, plain.n_gatherings);
  g_assert_cmpuint (day->n_estimated, ==, plain.n_estimated);
  g_assert_cmpuint (day->taps_set, ==, plain.taps_set);
  g_assert_cmpuint (day->taps_pulled, ==, plain.taps_pulled);
  if (plain.n_gatherings == 0)
    g_assert_true (past && plain.has_entry ? day->gathered_l == 0 && day->ice_l == 0 : isnan (day->gathered_l));
  else
    g_assert_true (near (isnan (day->ice_l) ? 0 : day->ice_l, plain.ice_l));
  if (plain.all_read && plain.n_gatherings > 0)
    {
      g_assert_true (near (day->gathered_l, plain.gathered_l));
      /* What is dated later than now is no sap in store yet, and its sugar no account. */
      if (day->to_utc <= view->now_utc)
        g_assert_true (near (day->sugar_kg, plain.sugar_kg));
    }
  if (past)
    {
      double store_l = NAN;

      for (guint i = 0; i < view->stock->n_levels; i++)
        {
          g_autofree char *then = date_at (zone, view->stock->levels[i].utc_s, 0);

          if (strcmp (then, iso) <= 0)
            store_l = view->stock->levels[i].volume_l;
        }
      g_assert_true (near (day->store_l, store_l));
    }
  else
    g_assert_true (isnan (day->store_l));
  if (day->to_utc + 6 * 3600 <= view->now_utc)
    {
      g_assert_cmpuint (day->n_boils, ==, plain.n_boils);
      g_assert_true (plain.n_boils > 0 || plain.has_entry ? near (day->boiled_l, plain.boiled_l) : isnan (day->boiled_l));
      if (plain.energy_kwh > 0)
        g_assert_true (near (day->energy_kwh, plain.energy_kwh) && near (day->cost_minor, plain.cost_minor));
    }
}

static void
check_tally (const FrSeasonView *view)
{
  double gathered_l = 0, boiled_l = 0, cost_minor = 0;
  FrSeasonTally before = { 0 };
  guint n = 0, n_nights = 0, n_priced = 0;

  for (guint i = 0; i < view->n_days; i++)
    {
      const FrSeasonDay *day = &view->days[i];
      FrSeasonTally tally = fr_season_view_tally (view, day->date);

      if (day->from_utc > view->now_utc)
        {
          g_assert_true (near (tally.gathered_l, before.gathered_l) && near (tally.boiled_l, before.boiled_l));
          continue;
        }
      gathered_l += isnan (day->gathered_l) ? 0 : day->gathered_l;
      n += !isnan (day->gathered_l);
      if (!day->is_boil_planned)
        {
          boiled_l += isnan (day->boiled_l) ? 0 : day->boiled_l;
          cost_minor += isnan (day->cost_minor) ? 0 : day->cost_minor;
          n_nights += day->n_boils > 0;
          n_priced += day->n_boils > 0 && !isnan (day->cost_minor);
        }
      g_assert_true (n > 0 ? near (tally.gathered_l, gathered_l) : isnan (tally.gathered_l));
      g_assert_true (near (isnan (tally.boiled_l) ? 0 : tally.boiled_l, boiled_l));
      g_assert_cmpuint (tally.n_nights, ==, n_nights);
      g_assert_cmpuint (tally.n_priced, ==, n_priced);
      if (n_nights > 0 && n_priced == 0)
        g_assert_true (isnan (tally.cost_minor)); /* unknown is not nothing */
      else
        g_assert_true (n > 0 ? near (tally.cost_minor, cost_minor) : isnan (tally.cost_minor));
      g_assert_true (near (tally.waiting_l, day->store_l));
      before = tally;
    }
}

static void
test_random (void)
{
  static const guint zones[] = { 0, 1, 2, 3, 5 };
  g_autoptr (GRand) random = g_rand_new_with_seed (20250309);

  for (guint i = 0; i < SEASONS; i++)
    {
      const TestZone *zone = &test_zones[zones[i % G_N_ELEMENTS (zones)]];
      g_autoptr (FrZoneTable) table = test_zone (zone->name);
      g_autoptr (RandomSeason) season = random_season_new (random, 2024 + i % 2, table);
      gint64 now_utc = season->from_utc + 86400 * (gint64)g_rand_int_range (random, 200, 300);
      g_autoptr (FrSeasonView) view = NULL;

      add_nights (random, season);
      add_taps (random, season);
      view = fr_season_view_new (&season->book, season->season, now_utc);
      g_assert_cmpuint (view->n_days, >=, 56);
      for (guint k = 0; k < view->n_days; k++)
        check_day (season, zone, view, &view->days[k]);
      check_tally (view);
      g_assert_true (view->today < 0
                     || (view->days[view->today].from_utc <= now_utc && now_utc < view->days[view->today].to_utc));
    }
}

/* --- by hand --- */

static FrZoneTable *toronto;

static gint64
at (gint month, gint day, gint hour)
{
  gint64 first, second;

  fr_zone_instant (toronto, (FrDate){ 2025, month, day }, hour * 3600, &first, &second);
  return first;
}

static void
gather (RandomSeason *season, gint64 utc_s, double volume_l, double brix)
{
  FrGathering *made = random_season_add (season, FR_KIND_GATHERING);

  made->gathered_utc = utc_s;
  made->volume_l.value = volume_l;
  made->reading_brix.value = brix;
  put (&made->instrument, "guess");
}

static FrNight *
night (RandomSeason *season, const char *evening, gint64 start_utc)
{
  FrNight *made = random_season_add (season, FR_KIND_NIGHT);

  made->evening = g_strdup (evening);
  made->start_utc = start_utc;
  made->plan_end_utc = start_utc + 12 * 3600;
  made->pan_l.value = 2.5;
  made->bucket_l.value = 22.5;
  made->pan_brix.value = made->sap_brix.value = 2;
  made->plan_energy_kwh.value = 20;
  made->plan_cost.value = 200;
  return made;
}

static const FrSeasonDay *
day_of (const FrSeasonView *view, gint year, gint month, gint day)
{
  const FrSeasonDay *found = fr_season_view_day (view, (FrDate){ year, month, day });

  g_assert_nonnull (found);
  return found;
}

static void
assert_date (FrDate date, gint year, gint month, gint day)
{
  g_assert_cmpint (fr_date_compare (date, (FrDate){ year, month, day }), ==, 0);
}

static void
test_frame (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrSeasonView) none = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  g_autoptr (FrSeasonView) past = fr_season_view_new (&season->book, 2024, at (3, 10, 12));
  g_autoptr (FrSeasonView) view = NULL, long_ago = NULL, late = NULL;
  FrTap *tap = random_season_add (season, FR_KIND_TAP);

  assert_date (none->first, 2025, 3, 3);
  g_assert_cmpuint (none->n_days, ==, 56);
  g_assert_cmpint (none->today, ==, 7);
  g_assert_true (isnan (none->tally.gathered_l) && isnan (none->tally.syrup_l) && isnan (none->tally.waiting_l));
  assert_date (past->first, 2024, 2, 15);
  g_assert_cmpint (past->today, ==, -1);
  g_assert_cmpuint (past->reminders->len, ==, 0);

  /* The first tap is the first entry; two weeks follow the last, be it an entry or today. */
  tap->season.value = 2025;
  tap->set_on = g_strdup ("2025-02-20");
  gather (season, at (4, 20, 17), 9, 2);
  view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  assert_date (view->first, 2025, 2, 13);
  assert_date (view->last, 2025, 5, 4);
  g_assert_cmpuint (view->n_days, ==, 81);
  g_assert_cmpuint (day_of (view, 2025, 2, 20)->taps_set, ==, 1);
  g_assert_null (fr_season_view_day (view, (FrDate){ 2025, 5, 5 }));
  late = fr_season_view_new (&season->book, 2025, at (6, 10, 12));
  assert_date (late->last, 2025, 6, 24);
  /* Seen from the next season it ends with its last entry. */
  long_ago = fr_season_view_new (&season->book, 2025, at (8, 10, 12));
  assert_date (long_ago->last, 2025, 5, 4);
  g_assert_true (near (day_of (long_ago, 2025, 5, 4)->store_l, 9));
  g_assert_cmpfloat (long_ago->tally.gathered_l, ==, 9);

  /* Never out of the season. */
  gather (season, at (7, 30, 8), 1, 2);
  g_clear_pointer (&view, fr_season_view_free);
  view = fr_season_view_new (&season->book, 2025, at (7, 31, 12));
  assert_date (view->last, 2025, 7, 31);
}

/* Source: IANA time zone database (zones.h). */
static void
test_clocks (void)
{
  static const struct
  {
    const char *zone;
    guint season;
    gint month, day;
    gint hours_s, change_s;
    gint64 change_utc;
  } all[] = {
    { "America/Toronto", 2025, 3, 9, 23 * 3600, 3600, 1741503600 },
    { "Europe/Paris", 2024, 3, 31, 23 * 3600, 3600, 1711846800 },
    { "Australia/Adelaide", 2024, 4, 7, 25 * 3600, -3600, 1712421000 },
    { "Australia/Lord_Howe", 2025, 4, 6, 24 * 3600 + 1800, -1800, 1743865200 },
    { "Asia/Kolkata", 2024, 2, 29, 24 * 3600, 0, G_MININT64 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autoptr (FrZoneTable) zone = test_zone (all[i].zone);
      g_autoptr (RandomSeason) season = random_season_new_empty (all[i].season, zone);
      g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, all[i].season, season->to_utc + 86400 * 30);
      const FrSeasonDay *day = day_of (view, (gint)all[i].season, all[i].month, all[i].day);

      g_assert_cmpint (day->to_utc - day->from_utc, ==, all[i].hours_s);
      g_assert_cmpint (day->clock_change_s, ==, all[i].change_s);
      g_assert_cmpint (day->clock_change_utc, ==, all[i].change_utc);
      for (guint k = 0; k + 1 < view->n_days; k++)
        g_assert_cmpint (view->days[k].to_utc, ==, view->days[k + 1].from_utc);
    }
}

/* Two sums by hand: 25 L of 2 °Bx at 4 °C, 1.0079 kg/L as in test-stock, hold 0.504 kg; a litre of syrup of 66.9 °Bx weighs 1.3282 kg at
 * 20 °C (11.084 lb a US gallon, published), 0.8885 kg of it sugar; so it makes 0.567 L. */
static void
test_nights (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrNight *measured = night (season, "2025-03-10", at (3, 10, 19)), *second, *rest, *planned;
  FrPour *pour = random_season_add (season, FR_KIND_POUR), *wood = random_season_add (season, FR_KIND_POUR);
  g_autoptr (FrSeasonView) view = NULL;
  const FrSeasonDay *day;

  /* 18 kWh read where 20 were planned for 200: 180. */
  measured->meter_kwh.value = 18;
  second = night (season, "2025-03-10", at (3, 10, 19));
  second->pan_l.value = 1.5;
  second->bucket_l.value = NAN;
  second->plan_energy_kwh.value = NAN;
  second->plan_cost.value = NAN;
  /* A pan in which last night's was left: what left the store is the sap that was boiled. */
  rest = night (season, "2025-03-12", at (3, 12, 19));
  rest->pan_brix.value = 15;
  rest->bucket_left_l.value = 4;
  pour->poured_utc = at (3, 12, 18);
  put (&pour->reason, "boiled");
  pour->volume_l.value = 24;
  pour->night = rest->record.id;
  /* Over wood until one in the morning: last evening's. */
  wood->poured_utc = at (3, 15, 1);
  put (&wood->reason, "boiled");
  wood->volume_l.value = 10;
  planned = night (season, "2025-03-16", at (3, 16, 19));
  gather (season, at (3, 9, 17), 100, 2);
  g_assert_nonnull (planned);

  view = fr_season_view_new (&season->book, 2025, at (3, 16, 12));
  day = day_of (view, 2025, 3, 10);
  g_assert_cmpuint (day->n_boils, ==, 2);
  g_assert_true (near (day->boiled_l, 26.5) && near (day->energy_kwh, 18) && near (day->cost_minor, 180));
  g_assert_false (day->is_boil_planned);
  day = day_of (view, 2025, 3, 12);
  g_assert_true (near (day->boiled_l, 24));
  g_assert_cmpfloat_with_epsilon (day->boiled_sugar_kg, 20 * 1.0079 * 0.02, 1e-4);
  day = day_of (view, 2025, 3, 14);
  g_assert_cmpuint (day->n_boils, ==, 1);
  g_assert_true (near (day->boiled_l, 10) && isnan (day->energy_kwh));
  g_assert_cmpuint (day_of (view, 2025, 3, 15)->n_boils, ==, 0);
  day = day_of (view, 2025, 3, 16);
  g_assert_true (day->is_boil_planned && near (day->boiled_l, 25) && near (day->cost_minor, 200));
  g_assert_true (isnan (day_of (view, 2025, 3, 17)->boiled_l));

  /* The planned night is no part of it. */
  g_assert_cmpuint (view->tally.n_nights, ==, 3);
  g_assert_cmpuint (view->tally.n_priced, ==, 2); /* nobody knows of the wood */
  g_assert_true (near (view->tally.boiled_l, 60.5) && near (view->tally.cost_minor, 380) && near (view->tally.energy_kwh, 38));
  g_assert_cmpfloat_with_epsilon (view->syrup_sugar_kg, 0.8885, 5e-4);
  g_assert_cmpfloat_with_epsilon (view->tally.syrup_l, (26.5 + 20 + 10) * 1.0079 * 0.02 / 0.8885, 1e-3);
  g_assert_cmpfloat_with_epsilon (view->tally.gathered_l, 100, 1e-9);
  g_assert_cmpfloat_with_epsilon (view->tally.sugar_kg, 100 * 1.0079 * 0.02, 1e-3);
  /* Once it has begun it is. */
  g_clear_pointer (&view, fr_season_view_free);
  view = fr_season_view_new (&season->book, 2025, at (3, 16, 20));
  g_assert_cmpuint (view->tally.n_nights, ==, 4);
  g_assert_true (near (view->tally.boiled_l, 85.5));
}

static void
test_sap (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrGathering *unread;
  FrDay *record = random_season_add (season, FR_KIND_DAY);
  g_autoptr (FrSeasonView) view = NULL;
  const FrSeasonDay *day;

  record->day = g_strdup ("2025-03-08");
  record->low_c.value = -7;
  record->high_c.value = 4;
  put (&record->buds, "tight");
  gather (season, at (3, 9, 1), 8, 2.4); /* before the clock jumps */
  gather (season, at (3, 9, 23), 4, 2.4);
  unread = random_season_add (season, FR_KIND_GATHERING);
  unread->gathered_utc = at (3, 9, 23);
  unread->volume_l.value = 3;
  put (&unread->scope, "tree");
  unread->ice_l.value = 1.5;
  gather (season, at (3, 12, 8), 5, 2.4); /* dated tomorrow */

  view = fr_season_view_new (&season->book, 2025, at (3, 11, 16));
  day = day_of (view, 2025, 3, 8);
  g_assert_true (day->low_c == -7 && day->high_c == 4 && !day->is_expected_weather && day->day == record);
  g_assert_cmpstr (day->buds, ==, "tight");
  g_assert_true (day->gathered_l == 0 && isnan (day->store_l));
  day = day_of (view, 2025, 3, 9);
  g_assert_cmpuint (day->n_gatherings, ==, 3);
  g_assert_cmpuint (day->n_estimated, ==, 2);
  g_assert_true (near (day->gathered_l, 15) && near (day->ice_l, 1.5) && day->is_sugar_assumed);
  /* The unread one is as the others. */
  g_assert_cmpfloat_with_epsilon (day->sugar_kg, 15e-3 * fr_sucrose_density_kg_m3 (2.4, 4) * 0.024, 1e-9);
  g_assert_cmpstr (day->buds, ==, "unknown");
  g_assert_true (isnan (day_of (view, 2025, 3, 10)->gathered_l) && near (day_of (view, 2025, 3, 10)->store_l, 15));
  g_assert_true (near (day_of (view, 2025, 3, 12)->gathered_l, 5) && isnan (day_of (view, 2025, 3, 12)->store_l));
  g_assert_true (near (view->tally.gathered_l, 15) && near (view->tally.waiting_l, 15));
  g_assert_cmpuint (view->tally.n_gathering_days, ==, 1);
  g_assert_cmpuint (view->n_levels, ==, 3);
  g_assert_true (near (view->levels[2].volume_l, 15));
}

/* --- prices --- */

/* Good Friday of 2025 is 18 April (from memory); the Sunday before is the 13th, which has low prices anyhow. */
static void
test_prices (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrTariffRecord *other = random_season_add (season, FR_KIND_TARIFF), *tariff = random_season_add (season, FR_KIND_TARIFF);
  g_autoptr (FrSeasonView) view = NULL;
  const FrDate holiday = { 2025, 4, 18 };
  static const double listed[] = { 7.6, 12.2, 15.8 };
  FrTariffPeriod periods[] = {
    { 11, 1, 4, 30, FR_DAYS_WEEKDAY, 19 * 60, 7 * 60, 7.6 },   { 11, 1, 4, 30, FR_DAYS_WEEKDAY, 7 * 60, 11 * 60, 15.8 },
    { 11, 1, 4, 30, FR_DAYS_WEEKDAY, 11 * 60, 17 * 60, 12.2 }, { 11, 1, 4, 30, FR_DAYS_WEEKDAY, 17 * 60, 19 * 60, 15.8 },
    { 11, 1, 4, 30, FR_DAYS_WEEKEND, 0, 24 * 60, 7.6 },
  };
  Oracle oracle = { periods, G_N_ELEMENTS (periods), &holiday, 1, toronto_spans, G_N_ELEMENTS (toronto_spans) };
  gint64 until;

  other->periods = g_strdup (OFF_PEAK_2025);
  tariff->periods = g_strdup (WINTER_2024);
  tariff->holidays = g_strdup ("2025-04-13\n2025-04-18");
  tariff->adder_per_kwh.value = 2;
  tariff->tax_ratio.value = 0.13;
  tariff->in_use = TRUE;
  gather (season, at (2, 20, 17), 4, 2);
  gather (season, at (4, 20, 17), 4, 2);
  view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
  g_assert_cmpuint (view->n_prices, >, 100);
  until = view->days[0].from_utc;
  for (guint i = 0; i < view->n_prices; i++)
    {
      const FrSeasonPrice *price = &view->prices[i];

      g_assert_cmpint (price->from_utc, ==, until); /* no gap up to the end of April */
      g_assert_cmpint (price->to_utc, >, price->from_utc);
      until = price->to_utc;
      for (gint64 utc = price->from_utc; utc < price->to_utc; utc += 60)
        g_assert_true (near (price->price_per_kwh, (oracle_price (&oracle, utc) + 2) * 1.13));
      g_assert_true (near (price->price_per_kwh, (listed[price->level] + 2) * 1.13));
      if (i > 0)
        g_assert_true (price->price_per_kwh != view->prices[i - 1].price_per_kwh);
    }
  /* The tariff answers for winter only; May has no price. */
  g_assert_cmpint (until, ==, at (5, 1, 0));
  for (guint i = 0; i < view->n_days; i++)
    g_assert_cmpint (view->days[i].is_holiday, ==, fr_date_compare (view->days[i].date, holiday) == 0);
}

/* One price lies lowest; two are lowest and highest; of four the two between are both the middle. */
static void
test_levels (void)
{
  static const struct
  {
    const char *periods;
    guint n;
    double prices[4];
    guint levels[4];
  } all[] = {
    { OFF_PEAK_2025, 1, { 16.96 }, { 0 } },
    { "01-01 12-31 all 00:00 06:00 5\n01-01 12-31 all 06:00 24:00 9\n", 2, { 5, 9 }, { 0, 2 } },
    { OVERNIGHT_2024, 4, { 2.8, 7.6, 12.2, 28.4 }, { 0, 1, 1, 2 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
      FrTariffRecord *tariff = random_season_add (season, FR_KIND_TARIFF);
      g_autoptr (FrSeasonView) view = NULL;

      tariff->periods = g_strdup (all[i].periods);
      tariff->in_use = TRUE;
      view = fr_season_view_new (&season->book, 2025, at (3, 10, 12));
      g_assert_cmpuint (view->n_prices, >, 0);
      for (guint k = 0; k < view->n_prices; k++)
        {
          guint found = 0;

          for (guint p = 0; p < all[i].n; p++)
            if (near (view->prices[k].price_per_kwh, all[i].prices[p]))
              {
                g_assert_cmpuint (view->prices[k].level, ==, all[i].levels[p]);
                found++;
              }
          g_assert_cmpuint (found, ==, 1);
        }
      if (all[i].n == 1)
        g_assert_cmpuint (view->n_prices, ==, 1);
    }
}

static void
test_same_date (void)
{
  assert_date (fr_season_same_date ((FrDate){ 2024, 2, 29 }, 2023), 2023, 2, 28);
  assert_date (fr_season_same_date ((FrDate){ 2024, 2, 29 }, 2020), 2020, 2, 29);
  assert_date (fr_season_same_date ((FrDate){ 2025, 3, 9 }, 2024), 2024, 3, 9);
  assert_date (fr_season_same_date ((FrDate){ 2025, 10, 9 }, 2024), 2023, 10, 9); /* the autumn before */
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/season/random", test_random);
  g_test_add_func ("/season/frame", test_frame);
  g_test_add_func ("/season/clocks", test_clocks);
  g_test_add_func ("/season/nights", test_nights);
  g_test_add_func ("/season/sap", test_sap);
  g_test_add_func ("/season/prices", test_prices);
  g_test_add_func ("/season/levels", test_levels);
  g_test_add_func ("/season/same-date", test_same_date);
  result = g_test_run ();
  fr_zone_table_free (toronto);
  return result;
}
