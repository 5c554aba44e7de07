/* Labels of lanes, days and months, the days as a table, and the answer with all that stands under it. */
#include "words/forecast-picture-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/forecast-words.h"
#include "words/kitchen-words.h"

/* --- drawings --- */

FrForecastChartWords *
fr_forecast_chart_words_new (FrDate first, guint n_days, const char *clock, const FrUnits *units)
{
  FrForecastChartWords *words = g_new0 (FrForecastChartWords, 1);

  words->chance = _ ("Chance");
  words->litres = g_str_equal (fr_quantity_unit (FR_QUANTITY_VOLUME, units), "L") ? _ ("Litres") : _ ("Gallons");
  words->gap = _ ("no weather known");
  words->beyond = _ ("as in past seasons");
  words->empty = _ ("Days ahead stand here as soon as weather is written down, read from a file or fetched.");
  words->no_run = _ ("No run expected in these days.");
  words->caption = _ ("Bar: eight days in ten fall inside. Inner bar: five in ten. Line: as likely above as below.");
  /* Translators: a clock time */
  words->now = clock != NULL ? g_strdup_printf (_ ("Now %s"), clock) : NULL;
  words->heads = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n_days; i++)
    {
      FrDate date = fr_date_add_days (first, (gint)i);

      g_ptr_array_add (words->heads, fr_say_date_as (date, "%a"));
      g_ptr_array_add (words->heads, fr_say_date_as (date, "%-e"));
    }
  return words;
}

void
fr_forecast_chart_words_free (FrForecastChartWords *words)
{
  if (words == NULL)
    return;
  g_free (words->now);
  g_ptr_array_unref (words->heads);
  g_free (words);
}

static void
clear_month (gpointer data)
{
  FrForecastMonthMark *month = data;

  g_free (month->label);
  g_free (month->label_short);
}

FrForecastSeasonWords *
fr_forecast_season_words_new (FrDate first, FrDate last, guint past_season, const FrUnits *units)
{
  FrForecastSeasonWords *words = g_new0 (FrForecastSeasonWords, 1);

  words->likely = _ ("likely");
  words->empty = _ ("Nothing was gathered, and no day ahead is known.");
  /* Translators: a unit of volume */
  words->unit = g_strdup_printf (_ ("%s in all"), fr_quantity_unit (FR_QUANTITY_VOLUME, units));
  if (past_season != 0)
    {
      words->past_name = g_strdup_printf ("%u", past_season);
      /* Translators: a year */
      words->past_words = g_strdup_printf (_ ("grey: the season of %u"), past_season);
    }
  words->months = g_array_new (FALSE, FALSE, sizeof (FrForecastMonthMark));
  g_array_set_clear_func (words->months, clear_month);
  for (FrDate date = first; fr_date_compare (date, last) <= 0; date = fr_date_add_days (date, 1))
    if (date.day == 1)
      {
        FrForecastMonthMark month = { (guint)(fr_date_to_days (date) - fr_date_to_days (first)), fr_say_date_as (date, "%OB"),
                                      fr_say_date_as (date, "%Ob") };

        g_array_append_val (words->months, month);
      }
  return words;
}

void
fr_forecast_season_words_free (FrForecastSeasonWords *words)
{
  if (words == NULL)
    return;
  g_free (words->unit);
  g_free (words->past_name);
  g_free (words->past_words);
  g_array_unref (words->months);
  g_free (words);
}

/* --- the days as a table --- */

guint
fr_forecast_paper_days (const FrForecast *forecast, FrDate *first_out)
{
  gint64 first, last;

  *first_out = forecast->as_of;
  if (forecast->n_days == 0)
    return 0;
  last = fr_date_to_days (forecast->days[forecast->n_days - 1].date);
  first = MIN (fr_date_to_days (forecast->as_of) - 1, last + 1 - FR_FORECAST_PAPER_DAYS);
  first = MAX (first, fr_date_to_days (forecast->days[0].date));
  *first_out = fr_date_from_days (first);
  return (guint)MIN (last + 1 - first, FR_FORECAST_PAPER_DAYS);
}

char *
fr_forecast_title (void)
{
  return g_strdup (_ ("Sap Forecast"));
}

const char *
fr_forecast_season_title (void)
{
  return _ ("The Season So Far");
}

enum
{
  COLUMN_DATE,
  COLUMN_LOW,
  COLUMN_HIGH,
  COLUMN_FROZEN,
  COLUMN_THAW,
  COLUMN_CHANCE,
  COLUMN_MIDDLE,
  COLUMN_LO,
  COLUMN_HI,
  N_COLUMNS
};

static const FrPaperColumn columns[N_COLUMNS] = {
  { N_ ("Day"), FR_PAPER_TEXT, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Low"), FR_PAPER_NUMBER, FR_QUANTITY_TEMPERATURE, 0 },
  { N_ ("High"), FR_PAPER_NUMBER, FR_QUANTITY_TEMPERATURE, 0 },
  { N_ ("Frost, h"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Thaw, h"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Run, %"), FR_PAPER_NUMBER, FR_QUANTITY_PLAIN, 0 },
  { N_ ("Middle"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
  { N_ ("Low end"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
  { N_ ("High end"), FR_PAPER_NUMBER, FR_QUANTITY_VOLUME, 0 },
};

static char *
hours (const FrSay *say, double span_h)
{
  return isnan (span_h) ? NULL : fr_say_number (say, span_h, 0);
}

static void
add_day (FrPaperWords *words, const FrForecastDay *day, const FrSay *say)
{
  const FrLitres *litres = isnan (day->bush.middle_l) ? &day->per_tap : &day->bush;
  gint decimals = litres->hi_l < 9.95 ? 1 : 0;
  char *cells[N_COLUMNS] = { NULL };

  cells[COLUMN_DATE] = fr_say_date (day->date);
  cells[COLUMN_LOW] = fr_paper_number (say, day->low_c, FR_QUANTITY_TEMPERATURE, 0);
  cells[COLUMN_HIGH] = fr_paper_number (say, day->high_c, FR_QUANTITY_TEMPERATURE, 0);
  cells[COLUMN_FROZEN] = hours (say, day->frozen_h);
  cells[COLUMN_THAW] = hours (say, day->thaw_h);
  if (!isnan (day->run_probability))
    cells[COLUMN_CHANCE] = fr_say_number (say, CLAMP (100 * day->run_probability, 1, 99), 0);
  cells[COLUMN_MIDDLE] = fr_paper_number (say, litres->middle_l, FR_QUANTITY_VOLUME, decimals);
  cells[COLUMN_LO] = fr_paper_number (say, litres->lo_l, FR_QUANTITY_VOLUME, decimals);
  cells[COLUMN_HI] = fr_paper_number (say, litres->hi_l, FR_QUANTITY_VOLUME, decimals);
  for (guint i = 0; i < N_COLUMNS; i++)
    g_ptr_array_add (words->cells, cells[i]);
  g_ptr_array_add (words->headings, NULL);
  words->n_rows++;
}

static char *
table_sentence (const FrForecast *forecast, FrDate first, guint n_days, const FrSay *say)
{
  g_autofree char *warm = fr_say_amount (say, FR_RUN_AIR_C, FR_QUANTITY_TEMPERATURE, 0), *text = NULL, *taps = NULL;
  gboolean is_bush = FALSE, is_beyond = FALSE;

  for (guint i = 0; i < n_days; i++)
    {
      const FrForecastDay *day = fr_forecast_day (forecast, fr_date_add_days (first, (gint)i));

      is_bush = is_bush || (day != NULL && !isnan (day->bush.middle_l));
      is_beyond = is_beyond || (day != NULL && day->is_beyond && !isnan (day->run_probability));
    }
  taps = is_bush ? g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Sap of %u tap.", "Sap of %u taps.", forecast->n_taps),
                                    forecast->n_taps)
                 : g_strdup (_ ("Sap of one tap."));
  /* Translators: how many taps, as a sentence; a temperature */
  text = g_strdup_printf (_ ("%s Eight days in ten fall between low end and high end; the middle is as likely above as below. Thaw "
                             "counts above %s. A day ends when it is gathered."),
                          taps, warm);
  return is_beyond ? g_strdup_printf ("%s %s", text, _ ("Days without a low and a high are as in past seasons."))
                   : g_steal_pointer (&text);
}

FrPaperWords *
fr_forecast_table_words_new (const FrForecast *forecast, const FrSay *say)
{
  FrPaperWords *words = g_new0 (FrPaperWords, 1);
  FrDate first;
  guint n = fr_forecast_paper_days (forecast, &first);

  words->cells = g_ptr_array_new_with_free_func (g_free);
  words->headings = g_ptr_array_new_with_free_func (g_free);
  words->columns = columns;
  words->n_columns = N_COLUMNS;
  words->title = g_strdup (_ ("Day by Day"));
  words->sentence = table_sentence (forecast, first, n, say);
  for (guint i = 0; i < n; i++)
    {
      const FrForecastDay *day = fr_forecast_day (forecast, fr_date_add_days (first, (gint)i));

      if (day != NULL)
        add_day (words, day, say);
    }
  return words;
}

/* --- the answer --- */

static void
add_line (GString *lines, char *line)
{
  if (line != NULL && line[0] != '\0')
    g_string_append_printf (lines, lines->len > 0 ? "\n%s" : "%s", line);
  g_free (line);
}

static void
add_kitchen (GString *lines, const FrKitchen *kitchen, const FrSay *say)
{
  g_autofree char *markup = fr_kitchen_sentence (kitchen, say), *why = fr_kitchen_reason (kitchen, say);
  g_autofree char *boil = fr_say_plain (markup);

  add_line (lines, why != NULL ? g_strdup_printf ("%s %s", boil, why) : g_steal_pointer (&boil));
}

char *
fr_forecast_paper_answer (const FrForecast *forecast, const FrForecastAnswer *answer, const FrTapDates *dates,
                          const FrKitchen *kitchen, const FrSay *say, char **reason_out)
{
  GString *lines = g_string_new (NULL);
  g_autoptr (GPtrArray) warnings = fr_forecast_warnings (answer);
  char *sentence;

  if (answer->code == FR_ANSWER_NOT_TAPPED && dates != NULL)
    {
      sentence = fr_tap_date_sentence (dates, say);
      add_line (lines, fr_tap_date_reason (dates, say));
      add_line (lines, fr_tap_date_caution (dates));
    }
  else
    {
      sentence = fr_forecast_sentence (answer, say);
      add_line (lines, fr_forecast_reason (answer, say));
    }
  if (kitchen != NULL && answer->code != FR_ANSWER_NOT_TAPPED)
    add_kitchen (lines, kitchen, say);
  for (guint i = 0; i < warnings->len; i++)
    add_line (lines, g_strdup (warnings->pdata[i]));
  *reason_out = g_string_free (lines, FALSE);
  return sentence;
}
