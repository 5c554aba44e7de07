/* The calendar's texts: every kind of event has a line that shows something, facts are in it, and nothing is said as seen from now. */
#include "words/calendar-words.h"

#include "random-season.h"
#include "sentences.h"

#include <math.h>

/* Source: IANA time zone database: Toronto's clock went from 01:59:59 to 03:00 at 07:00 UTC on 8 March 2026. */
static const FrZoneSpan spans[] = { { G_MININT64, -18000, FALSE, "EST" }, { 1772953200, -14400, TRUE, "EDT" } };

static FrZoneTable *toronto;

static gint64
at (gint month, gint day, gint hour)
{
  gint64 first, second;

  fr_zone_instant (toronto, (FrDate){ 2026, month, day }, hour * 3600, &first, &second);
  return first;
}

static RandomSeason *
some_season (void)
{
  RandomSeason *season = random_season_new_empty (2026, toronto);
  FrHousehold *household = (FrHousehold *)fr_record_new (FR_KIND_HOUSEHOLD);
  FrContainer *can = random_season_add (season, FR_KIND_CONTAINER);
  FrCooker *cooker = random_season_add (season, FR_KIND_COOKER);
  FrGathering *one = random_season_add (season, FR_KIND_GATHERING), *unmeasured = random_season_add (season, FR_KIND_GATHERING);
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  FrTariffRecord *tariff = random_season_add (season, FR_KIND_TARIFF);
  FrDay *day = random_season_add (season, FR_KIND_DAY);

  household->name = g_strdup ("Gable End");
  season->book.household = household;
  can->name = g_strdup ("Cellar crock");
  can->capacity_l.value = 60;
  random_season_text (&can->place, "cellar");
  cooker->name = g_strdup ("hot plate");
  one->gathered_utc = at (3, 8, 17);
  one->volume_l.value = 20;
  one->reading_brix.value = 2.2;
  one->container = 1;
  one->ice_l.value = 1.5;
  unmeasured->gathered_utc = at (3, 5, 17);
  random_season_text (&unmeasured->measured_by, "depth");
  night->evening = g_strdup ("2026-03-09");
  night->cooker = 1;
  night->start_utc = at (3, 9, 19);
  night->plan_dry_utc = at (3, 10, 6);
  night->plan_end_utc = at (3, 10, 7);
  night->pan_l.value = 2.5;
  night->bucket_l.value = 12;
  night->sap_brix.value = 2.2;
  night->plan_cost.value = 120;
  tap->season.value = 2026;
  tap->set_on = g_strdup ("2026-02-22");
  tap->pulled_on = g_strdup ("2026-04-12");
  tariff->periods = g_strdup ("01-01 12-31 weekday 00:00 07:00 5\n01-01 12-31 weekday 07:00 24:00 9\n01-01 12-31 weekend 00:00 24:00 5\n");
  tariff->holidays = g_strdup ("2026-04-03");
  tariff->in_use = TRUE;
  day->day = g_strdup ("2026-03-12");
  day->low_c.value = -5;
  return season;
}

/* Blanks of all kinds as one. */
static void
assert_holds (const char *text, const char *part)
{
  g_auto (GStrv) words = g_strsplit (text, "\302\240", -1);
  g_autofree char *is = g_strjoinv (" ", words);

  if (strstr (is, part) == NULL)
    g_error ("“%s” does not say “%s”", is, part);
}

static const FrCalendarEvent *
called (const FrCalendarWords *words, const char *start, guint nth)
{
  for (guint i = 0; i < words->n; i++)
    if (g_str_has_prefix (words->events[i].uid, start) && nth-- == 0)
      return &words->events[i];
  g_error ("no event “%s”", start);
}

static void
test_texts (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 11, 12));
  gint64 changed[FR_N_KINDS];
  static const FrSystem systems[] = { FR_SYSTEM_METRIC, FR_SYSTEM_US };
  static const struct
  {
    const char *uid;
    guint nth;
    const char *summary;
    const char *description;
  } all[] = {
    { "gathered-", 0, "Sap gathered, not measured", "1 entry." },
    { "gathered-", 1, "20.0 L of sap gathered at 2.2 °Bx", "1 entry. Ice thrown out: 1.5 L." },
    { "boil-0", 0, "Boil on hot plate", "2.5 L in the pan, 12.0 L in the bucket. Power for $1.20 as planned." },
    { "dry-", 0, "The bucket runs dry: hot plate", "12.0 L" },
    { "cutoff-", 0, "The boil cuts off, be there: hot plate", "2.5 L" },
    { "boil-by-", 0, "Boil “Cellar crock” by now: 20.0 L", "Local food rules come first." },
    { "taps-set-", 0, "1 tap set", NULL },
    { "taps-pulled-", 0, "1 tap pulled", NULL },
    { "taps-old-", 0, "are 6 weeks old", "pull" },
    { "frost-", 0, "Gather before tonight’s frost", "−5 °C" },
    { "clock-change-", 0, "Clocks go forward", "After 01:59 comes 03:00." },
    { "holiday-", 0, "Holiday", "Low all day." },
  };

  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    changed[kind] = 1000;
  for (guint s = 0; s < G_N_ELEMENTS (systems); s++)
    {
      FrSay say = { .units = { .system = systems[s], .decimal_mark = '.' }, .currency = "CAD", .zone = toronto };
      g_autoptr (FrSeasonEvents) events = NULL;
      g_autoptr (FrCalendarWords) words = NULL;

      g_snprintf (((FrRecord *)season->book.nights->pdata[0])->uid, 33, "%032d", 7);
      events = fr_season_events_new (&season->book, view, changed);
      words = fr_calendar_words_new (events, &season->book, &say);
      g_assert_cmpstr (words->name, ==, "Gable End");
      g_assert_cmpuint (words->n, ==, events->events->len);
      g_assert_cmpuint (words->n, ==, G_N_ELEMENTS (all));
      for (guint i = 0; i < words->n; i++)
        {
          sentence_parts (words->events[i].summary);
          sentence_parts (words->events[i].category);
          g_assert_null (strchr (words->events[i].summary, '<'));
          if (words->events[i].description != NULL)
            sentence (words->events[i].description);
        }
      for (guint i = 0; systems[s] == FR_SYSTEM_METRIC && i < G_N_ELEMENTS (all); i++)
        {
          const FrCalendarEvent *event = called (words, all[i].uid, all[i].nth);

          assert_holds (event->summary, all[i].summary);
          if (all[i].description == NULL)
            g_assert_null (event->description);
          else
            assert_holds (event->description, all[i].description);
        }
    }
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  toronto = fr_zone_table_new ("America/Toronto", spans, G_N_ELEMENTS (spans));
  g_test_add_func ("/calendar-words/texts", test_texts);
  result = g_test_run ();
  fr_zone_table_free (toronto);
  return result;
}
