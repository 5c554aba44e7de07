/* The texts of the season's drawings: in the household's units, on the right days, and the table of days as the view has them. */
#include "words/season-picture-words.h"

#include "random-season.h"
#include "sentences.h"

#include <math.h>
#include <stdlib.h>

static FrZoneTable *zone;

/* Eastern time of 2026: clocks go forward on 8 March at 07:00 UTC, back on 1 November (United States, second Sunday of March, first of
 * November: 15 U.S.C. § 260a). */
static FrZoneTable *
eastern (void)
{
  const FrZoneSpan spans[] = {
    { G_MININT64, -5 * 3600, FALSE, "EST" },
    { (fr_date_to_days ((FrDate){ 2026, 3, 8 }) * 24 + 7) * 3600, -4 * 3600, TRUE, "EDT" },
    { (fr_date_to_days ((FrDate){ 2026, 11, 1 }) * 24 + 6) * 3600, -5 * 3600, FALSE, "EST" },
  };

  return fr_zone_table_new ("Test/Eastern", spans, G_N_ELEMENTS (spans));
}

static FrSay
say_in (FrSystem system)
{
  return (FrSay){ .units = { .system = system, .decimal_mark = '.' }, .currency = "CAD", .zone = zone };
}

static gint64
at (gint month, gint day, gint hour)
{
  return (fr_date_to_days ((FrDate){ 2026, month, day }) * 24 + hour + 5) * 3600;
}

static void
add_night (RandomSeason *season, const char *evening, gint64 start_utc, double pan_l, double bucket_l)
{
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);

  night->evening = g_strdup (evening);
  night->start_utc = start_utc;
  night->pan_l.value = pan_l;
  night->bucket_l.value = bucket_l;
}

static RandomSeason *
some_season (void)
{
  RandomSeason *season = random_season_new_empty (2026, zone);
  FrGathering *one = random_season_add (season, FR_KIND_GATHERING);
  FrDay *day = random_season_add (season, FR_KIND_DAY);
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  FrPour *pour = random_season_add (season, FR_KIND_POUR);

  one->gathered_utc = at (3, 9, 16);
  one->volume_l.value = 31;
  one->reading_brix.value = 2.2;
  day->day = g_strdup ("2026-03-09");
  day->low_c.value = -4;
  day->high_c.value = 5;
  day->note = g_strdup ("snow to the knees");
  tap->season.value = 2026;
  tap->set_on = g_strdup ("2026-02-26");
  add_night (season, "2026-03-09", at (3, 9, 19), 2.5, 22.5);
  pour->poured_utc = at (3, 9, 18);
  random_season_text (&pour->reason, "boiled");
  pour->volume_l.value = 25;
  pour->night = 1;
  add_night (season, "2026-03-12", at (3, 12, 19), 2.5, 3.5);
  return season;
}

static void
test_lanes (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 10, 20));
  g_autoptr (FrSeasonView) past = fr_season_view_new (&season->book, 2025, at (3, 10, 20));
  FrSay say = say_in (FR_SYSTEM_METRIC), us = say_in (FR_SYSTEM_US);
  g_autoptr (FrSeasonPictureWords) words = fr_season_picture_words_new (view, &say);
  g_autoptr (FrSeasonPictureWords) in_gallons = fr_season_picture_words_new (view, &us);
  g_autoptr (FrSeasonPictureWords) other = fr_season_picture_words_new (past, &say);
  const FrSeasonLaneWords *lanes[] = { &words->span,  &words->gathered, &words->so_far, &words->store,
                                       &words->boils, &words->bottles,  &words->price };

  for (guint i = 0; i < G_N_ELEMENTS (lanes); i++)
    {
      sentence_parts (lanes[i]->name);
      if (lanes[i]->empty != NULL)
        sentence (lanes[i]->empty);
    }
  g_assert_cmpstr (words->span.unit, ==, "°C");
  g_assert_cmpstr (in_gallons->span.unit, ==, "°F");
  g_assert_cmpstr (words->gathered.unit, ==, "L a day");
  g_assert_cmpstr (in_gallons->gathered.unit, ==, "gal a day");
  g_assert_cmpstr (words->price.unit, ==, "¢/kWh");
  g_assert_cmpstr (words->so_far.known, ==, "2026");
  g_assert_cmpstr (words->boils.expected, ==, "1 planned");
  g_assert_nonnull (strstr (words->boils.known, "in 1 night"));
  g_assert_nonnull (strstr (words->boils.known, "25"));
  g_assert_null (words->bottles.known);
  g_assert_null (other->boils.known);
  g_assert_null (other->boils.expected);
  g_assert_cmpstr (other->so_far.name, !=, words->so_far.name);
  sentence (words->spoken);
  g_assert_nonnull (strstr (words->spoken, "2026"));
}

/* Months begin where they begin, the clock change stands on its Sunday, weekdays from Monday. */
static void
test_days (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 10, 20));
  FrSay say = say_in (FR_SYSTEM_METRIC);
  g_autoptr (FrSeasonPictureWords) words = fr_season_picture_words_new (view, &say);
  guint n_firsts = 0;

  g_assert_cmpuint (words->months->len, >=, 2);
  for (guint i = 0; i < words->months->len; i++)
    {
      const FrSeasonMonthMark *month = &g_array_index (words->months, FrSeasonMonthMark, i);
      gint day = view->days[month->day].date.day;

      g_assert_true (i == 0 ? month->day == 0 : day == 1);
      if (i == 0 && day != 1)
        g_assert_cmpint (atoi (month->label), ==, day);
      n_firsts += day == 1;
    }
  for (guint i = 0; i < view->n_days; i++)
    n_firsts -= view->days[i].date.day == 1;
  g_assert_cmpuint (n_firsts, ==, 0);
  g_assert_cmpstr (g_array_index (words->months, FrSeasonMonthMark, 1).label, ==, "March");

  g_assert_cmpuint (words->marks->len, ==, 1);
  const FrSeasonDayMark *mark = &g_array_index (words->marks, FrSeasonDayMark, 0);
  g_assert_cmpstr (mark->number, ==, "8");
  g_assert_cmpstr (mark->words, ==, "clocks go forward");
  g_assert_cmpint (mark->date.month, ==, 3);
  g_assert_cmpint (view->days[mark->day].date.day, ==, 8);
  g_assert_cmpstr (words->weekdays[0], ==, "Mon");
  g_assert_cmpstr (words->weekdays[6], ==, "Sun");

  /* Taps were set in February, the last entry is of March. */
  g_assert_cmpuint (words->pages->len, ==, 2);
  g_assert_cmpstr (g_array_index (words->pages, FrSeasonMonthPage, 0).title, ==, "February 2026");
  g_assert_cmpstr (g_array_index (words->pages, FrSeasonMonthPage, 1).title, ==, "March 2026");
  g_assert_cmpint (g_array_index (words->pages, FrSeasonMonthPage, 1).first.month, ==, 3);

  g_autofree char *label = fr_season_day_label ((FrDate){ 2026, 3, 7 }), *month = fr_season_month_title ((FrDate){ 2026, 3, 7 }),
                  *title = fr_season_title (2026);
  g_assert_cmpstr (label, ==, "Saturday 7");
  g_assert_cmpstr (month, ==, "March 2026");
  sentence_parts (title);
}

static const char *
cell (const FrPaperWords *table, guint row, guint column)
{
  return table->cells->pdata[row * table->n_columns + column];
}

/* A row for each day of which something is known, its numbers in the units that stand over the columns. */
static void
test_table (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 10, 20));
  FrSay say = say_in (FR_SYSTEM_METRIC), us = say_in (FR_SYSTEM_US);
  g_autoptr (FrPaperWords) table = fr_season_table_words_new (view, &say), in_gallons = fr_season_table_words_new (view, &us);
  static const char *const titles[]
      = { "Day", "Low, °C", "High, °C", "Gathered, L", "Sweetness, °Bx", "In store, L", "Boiled, L", "Notes" };
  gboolean found = FALSE;

  g_assert_cmpuint (table->n_columns, ==, G_N_ELEMENTS (titles));
  g_assert_cmpuint (table->cells->len, ==, table->n_rows * table->n_columns);
  g_assert_cmpuint (table->n_rows, ==, in_gallons->n_rows);
  for (guint i = 0; i < table->n_columns; i++)
    {
      g_autofree char *title = fr_paper_column_title (&table->columns[i], &say);
      g_assert_cmpstr (title, ==, titles[i]);
    }
  for (guint row = 0; row < table->n_rows; row++)
    {
      g_assert_nonnull (cell (table, row, 0));
      if (strstr (cell (table, row, 0), "9") == NULL || g_strcmp0 (cell (table, row, 2), "5") != 0)
        continue;
      found = TRUE;
      g_assert_cmpstr (cell (table, row, 1), ==, "−4");
      g_assert_cmpstr (cell (table, row, 3), ==, "31.0");
      g_assert_cmpstr (cell (table, row, 4), ==, "2.2");
      g_assert_cmpstr (cell (table, row, 5), ==, "6.0");
      g_assert_cmpstr (cell (table, row, 6), ==, "25.0");
      g_assert_nonnull (strstr (cell (table, row, 7), "snow to the knees"));
      /* 31 L are 8.19 US gallons, −4 °C are 24.8 °F: NIST SP 811 (2008), appendix B. */
      g_assert_cmpstr (cell (in_gallons, row, 3), ==, "8.2");
      g_assert_cmpstr (cell (in_gallons, row, 1), ==, "25");
    }
  g_assert_true (found);
  /* The planned night is not said to be boiled. */
  for (guint row = 0; row < table->n_rows; row++)
    if (g_strcmp0 (cell (table, row, 6), "6.0") == 0)
      g_test_fail_printf ("a planned night is boiled");
}

/* Whatever a season holds, every text is one. */
static void
test_random (void)
{
  GRand *random = g_rand_new_with_seed (20260308);

  for (guint run = 0; run < 60; run++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2026, zone);
      g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 10, 20));
      FrSay say = say_in ((FrSystem)(run % 3));
      g_autoptr (FrSeasonPictureWords) words = fr_season_picture_words_new (view, &say);
      g_autoptr (FrPaperWords) table = fr_season_table_words_new (view, &say);

      sentence (words->spoken);
      if (words->boils.known != NULL)
        sentence_parts (words->boils.known);
      for (guint i = 0; i < table->cells->len; i++)
        if (table->cells->pdata[i] != NULL && i % table->n_columns != table->n_columns - 1)
          sentence_parts (table->cells->pdata[i]);
    }
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  int result;

  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  zone = eastern ();
  g_test_add_func ("/season-picture-words/lanes", test_lanes);
  g_test_add_func ("/season-picture-words/days", test_days);
  g_test_add_func ("/season-picture-words/table", test_table);
  g_test_add_func ("/season-picture-words/random", test_random);
  result = g_test_run ();
  fr_zone_table_free (zone);
  return result;
}
