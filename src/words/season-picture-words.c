/* Labels of lanes, months and special days, and the days as a table. What is counted is counted over all days that the drawing shows. */
#include "words/season-picture-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/season-words.h"

static void
clear_month (gpointer data)
{
  FrSeasonMonthMark *month = data;

  g_free (month->label);
  g_free (month->label_short);
}

static void
clear_mark (gpointer data)
{
  FrSeasonDayMark *mark = data;

  g_free (mark->number);
  g_free (mark->words);
}

static void
clear_page (gpointer data)
{
  g_free (((FrSeasonMonthPage *)data)->title);
}

char *
fr_season_title (guint season)
{
  return g_strdup_printf (_ ("Season of %u"), season);
}

char *
fr_season_day_label (FrDate date)
{
  /* Translators: a day in short, as in "Saturday 13"; see strftime(3) */
  return fr_say_date_as (date, _ ("%A %-e"));
}

char *
fr_season_month_title (FrDate date)
{
  /* Translators: a month and its year, as in "March 2026"; %OB is the month's name by itself, see strftime(3) */
  return fr_say_date_as (date, _ ("%OB %Y"));
}

/* --- lanes --- */

static char *
boils_known (const FrSeasonView *view, const FrSay *say)
{
  const FrSeasonTally *tally = &view->tally;
  g_autofree char *litres = NULL;

  if (tally->n_nights == 0 || isnan (tally->boiled_l))
    return NULL;
  litres = fr_season_litres (say, tally->boiled_l);
  /* Translators: litres boiled, nights */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%s in %u night", "%s in %u nights", tally->n_nights), litres,
                          tally->n_nights);
}

static char *
boils_planned (const FrSeasonView *view)
{
  guint n = 0;

  for (guint i = 0; i < view->n_days; i++)
    n += view->days[i].is_boil_planned;
  /* Translators: nights at the stove that are kept but not begun */
  return n > 0 ? g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u planned", "%u planned", n), n) : NULL;
}

static char *
bottles_known (const FrSeasonView *view, const FrSay *say)
{
  g_autofree char *litres = NULL;
  double volume_l = NAN;
  guint n = 0;

  for (guint i = 0; i < view->n_days; i++)
    {
      n += view->days[i].n_bottles;
      if (!isnan (view->days[i].bottled_l))
        volume_l = isnan (volume_l) ? view->days[i].bottled_l : volume_l + view->days[i].bottled_l;
    }
  if (n == 0)
    return NULL;
  if (isnan (volume_l))
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bottle", "%u bottles", n), n);
  litres = fr_say_amount (say, volume_l, FR_QUANTITY_VOLUME, 2);
  /* Translators: how many bottles, and how much is in all of them */
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u bottle, %s", "%u bottles, %s", n), n, litres);
}

static void
fill_lanes (FrSeasonPictureWords *words, const FrSeasonView *view, const FrSay *say)
{
  const char *litres = fr_quantity_unit (FR_QUANTITY_VOLUME, &say->units);

  words->span = (FrSeasonLaneWords){
    .name = g_strdup (_ ("Day’s span")),
    .unit = g_strdup (fr_quantity_unit (FR_QUANTITY_TEMPERATURE, &say->units)),
    .expected = g_strdup (C_ ("weather", "expected")),
    .empty = g_strdup (_ ("Lows and highs you write down stand here: thaw over the line, frost under it.")),
  };
  words->gathered = (FrSeasonLaneWords){
    .name = g_strdup (_ ("Gathered")),
    /* Translators: a unit of volume */
    .unit = g_strdup_printf (_ ("%s a day"), litres),
    .expected = g_strdup (_ ("expected, 8 in 10 inside")),
    .empty = g_strdup (_ ("What you gather stands here, a bar a day.")),
  };
  words->so_far = (FrSeasonLaneWords){
    .name = g_strdup (view->today >= 0 ? _ ("So far") : _ ("Added up")),
    .unit = g_strdup (litres),
    .known = g_strdup_printf ("%u", view->season),
    .empty = g_strdup (_ ("What you gather adds up here, beside other seasons.")),
  };
  words->store = (FrSeasonLaneWords){
    .name = g_strdup (_ ("In store")),
    .unit = g_strdup (litres),
    .empty = g_strdup (_ ("Sap that waits stands here until it is boiled.")),
  };
  words->boils = (FrSeasonLaneWords){
    .name = g_strdup (_ ("Boils")),
    .known = boils_known (view, say),
    .expected = boils_planned (view),
    .empty = g_strdup (_ ("Nights you keep stand here.")),
  };
  words->bottles = (FrSeasonLaneWords){ .name = g_strdup (_ ("Bottles")), .known = bottles_known (view, say) };
  words->price = (FrSeasonLaneWords){
    .name = g_strdup (_ ("Price")),
    .unit = g_strdup_printf ("%s/kWh", fr_money_minor_sign (say->currency)),
    .empty = g_strdup (_ ("With a price plan its hours stand here, taller for dearer.")),
  };
}

/* --- days --- */

static void
fill_months (FrSeasonPictureWords *words, const FrSeasonView *view)
{
  for (guint i = 0; i < view->n_days; i++)
    {
      FrSeasonMonthMark month = { .day = i };

      if (i > 0 && view->days[i].date.day != 1)
        continue;
      /* Translators: a day and its month without a year, as in "15 February"; see strftime(3) */
      month.label = fr_say_date_as (view->days[i].date, view->days[i].date.day == 1 ? "%OB" : _ ("%-e %B"));
      month.label_short = fr_say_date_as (view->days[i].date, "%b");
      g_array_append_val (words->months, month);
    }
}

static void
add_mark (FrSeasonPictureWords *words, const FrSeasonView *view, guint day, char *text)
{
  FrSeasonDayMark mark = { .day = day, .date = view->days[day].date, .words = text };

  if (text == NULL)
    return;
  mark.number = g_strdup_printf ("%d", mark.date.day);
  g_array_append_val (words->marks, mark);
}

static void
fill_pages (FrSeasonPictureWords *words, const FrSeasonView *view)
{
  gint64 last = -1;

  for (guint i = 0; i < view->n_days; i++)
    if (view->days[i].n_gatherings > 0 || view->days[i].n_boils > 0 || view->days[i].taps_set > 0
        || view->days[i].taps_pulled > 0 || view->days[i].day != NULL)
      last = i;
  for (gint64 i = 0, first = -1; i <= last; i++)
    {
      const FrSeasonDay *day = &view->days[i];
      FrSeasonMonthPage page = { .first = { day->date.year, day->date.month, 1 } };

      if (first < 0 && day->n_gatherings == 0 && day->n_boils == 0 && day->taps_set == 0 && day->day == NULL)
        continue;
      if (first >= 0 && day->date.day != 1)
        continue;
      first = i;
      page.title = fr_season_month_title (page.first);
      g_array_append_val (words->pages, page);
    }
}

static char *
spoken (const FrSeasonView *view, const FrSay *say)
{
  g_autofree char *markup = fr_season_sentence (view, say), *answer = fr_say_plain (markup);
  g_autofree char *first = NULL, *last = NULL;

  if (view->n_days == 0)
    return g_steal_pointer (&answer);
  first = fr_say_date (view->days[0].date);
  last = fr_say_date (view->days[view->n_days - 1].date);
  /* Translators: the season's year, its first and last day in the drawing, and its answer as a sentence */
  return g_strdup_printf (_ ("Season of %u, %s to %s, day by day. %s"), view->season, first, last, answer);
}

FrSeasonPictureWords *
fr_season_picture_words_new (const FrSeasonView *view, const FrSay *say)
{
  FrSeasonPictureWords *words = g_new0 (FrSeasonPictureWords, 1);

  words->months = g_array_new (FALSE, FALSE, sizeof (FrSeasonMonthMark));
  words->marks = g_array_new (FALSE, FALSE, sizeof (FrSeasonDayMark));
  words->pages = g_array_new (FALSE, FALSE, sizeof (FrSeasonMonthPage));
  g_array_set_clear_func (words->pages, clear_page);
  g_array_set_clear_func (words->months, clear_month);
  g_array_set_clear_func (words->marks, clear_mark);
  fill_lanes (words, view, say);
  words->today = g_strdup (_ ("Today"));
  words->taps_set = g_strdup (_ ("taps set"));
  words->taps_pulled = g_strdup (_ ("taps pulled"));
  /* Translators: at the line of all containers' capacity */
  words->full = g_strdup (C_ ("containers", "full"));
  for (gint i = 0; i < 7; i++)
    words->weekdays[i] = fr_say_date_as ((FrDate){ 2001, 1, 1 + i }, "%a"); /* 1 January 2001 was a Monday */
  fill_months (words, view);
  for (guint i = 0; i < view->n_days; i++)
    {
      add_mark (words, view, i, fr_season_clock_words (&view->days[i]));
      add_mark (words, view, i, fr_season_holiday_words (view, &view->days[i]));
    }
  fill_pages (words, view);
  words->spoken = spoken (view, say);
  return words;
}

static void
clear_lane (FrSeasonLaneWords *lane)
{
  g_free (lane->name);
  g_free (lane->unit);
  g_free (lane->known);
  g_free (lane->expected);
  g_free (lane->empty);
}

void
fr_season_picture_words_free (FrSeasonPictureWords *words)
{
  if (words == NULL)
    return;
  clear_lane (&words->span);
  clear_lane (&words->gathered);
  clear_lane (&words->so_far);
  clear_lane (&words->store);
  clear_lane (&words->boils);
  clear_lane (&words->bottles);
  clear_lane (&words->price);
  g_free (words->today);
  g_free (words->taps_set);
  g_free (words->taps_pulled);
  g_free (words->full);
  for (guint i = 0; i < 7; i++)
    g_free (words->weekdays[i]);
  g_array_unref (words->months);
  g_array_unref (words->marks);
  g_array_unref (words->pages);
  g_free (words->spoken);
  g_free (words);
}

/* --- the days as a table --- */

enum
{
  COLUMN_DATE,
  COLUMN_LOW,
  COLUMN_HIGH,
  COLUMN_GATHERED,
  COLUMN_BRIX,
  COLUMN_STORE,
  COLUMN_BOILED,
  COLUMN_NOTE,
  N_COLUMNS
};

static const FrPaperColumn columns[N_COLUMNS] = {
  { N_ ("Day"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Low"), FR_PAPER_NUMBER, FR_QUANTITY_TEMPERATURE, 0 },
  { N_ ("High"), FR_PAPER_NUMBER, FR_QUANTITY_TEMPERATURE, 0 },
  { N_ ("Gathered"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
  { N_ ("Sweetness"), FR_PAPER_NUMBER, FR_QUANTITY_SWEETNESS, 0 },
  { N_ ("In store"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
  { N_ ("Boiled"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
  { N_ ("Notes"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
};

static char *
remarks (const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say)
{
  g_autoptr (GPtrArray) marks = fr_season_day_marks (view, day, say);
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < marks->len; i++)
    g_string_append_printf (all, i > 0 ? "; %s" : "%s", (const char *)marks->pdata[i]);
  if (day->day != NULL && day->day->note != NULL && day->day->note[0] != '\0')
    g_string_append_printf (all, all->len > 0 ? "; %s" : "%s", day->day->note);
  return g_string_free (all, all->len == 0);
}

static void
add_day (FrPaperWords *words, const FrSeasonView *view, const FrSeasonDay *day, const FrSay *say)
{
  char *cells[N_COLUMNS] = { NULL };
  gboolean is_boiled = day->n_boils > 0 && !day->is_boil_planned, any = FALSE;

  cells[COLUMN_LOW] = fr_paper_number (say, day->low_c, FR_QUANTITY_TEMPERATURE, 0);
  cells[COLUMN_HIGH] = fr_paper_number (say, day->high_c, FR_QUANTITY_TEMPERATURE, 0);
  cells[COLUMN_GATHERED] = fr_paper_number (say, day->gathered_l, FR_QUANTITY_VOLUME, 1);
  cells[COLUMN_BRIX] = fr_paper_number (say, fr_season_brix (day->gathered_l, day->sugar_kg), FR_QUANTITY_SWEETNESS, 1);
  cells[COLUMN_BOILED] = is_boiled ? fr_paper_number (say, day->boiled_l, FR_QUANTITY_VOLUME, 1) : NULL;
  cells[COLUMN_NOTE] = remarks (view, day, say);
  for (guint i = 0; i < N_COLUMNS; i++)
    any = any || cells[i] != NULL;
  if (any)
    {
      cells[COLUMN_DATE] = fr_say_date (day->date);
      /* What waits alone makes no row: it is the row's before. */
      cells[COLUMN_STORE] = fr_paper_number (say, day->store_l, FR_QUANTITY_VOLUME, 1);
      for (guint i = 0; i < N_COLUMNS; i++)
        g_ptr_array_add (words->cells, cells[i]);
      g_ptr_array_add (words->headings, NULL);
      words->n_rows++;
    }
}

FrPaperWords *
fr_season_table_words_new (const FrSeasonView *view, const FrSay *say)
{
  FrPaperWords *words = g_new0 (FrPaperWords, 1);

  words->cells = g_ptr_array_new_with_free_func (g_free);
  words->headings = g_ptr_array_new_with_free_func (g_free);
  words->columns = columns;
  words->n_columns = N_COLUMNS;
  words->title = g_strdup (_ ("Day by Day"));
  for (guint i = 0; i < view->n_days; i++)
    add_day (words, view, &view->days[i], say);
  return words;
}
