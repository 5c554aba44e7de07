/* The forecast on paper, read back with poppler: pages, size, the order of the words, nothing cut or outside.
 */
#include <math.h>
#include <string.h>

#include "forecast.h"
#include "paint/forecast-sheet.h"
#include "stage.h"

static const FrFieldColumn day_columns[] = { { "Day", FR_FIELD_SHEET_TEXT, 0, 0 },
                                             { "Low, °C", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                             { "High, °C", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                             { "Chance", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                             { "Hours above 1 °C", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                             { "Litres", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                             { "8 in 10", FR_FIELD_SHEET_NUMBER, 0, 0 } };
static const FrFieldColumn score_columns[] = { { NULL, FR_FIELD_SHEET_TEXT, 0, 0 },
                                               { "This", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                               { "Constant", FR_FIELD_SHEET_NUMBER, 0, 0 },
                                               { "Freeze and thaw", FR_FIELD_SHEET_NUMBER, 0, 0 } };
static const char *const scores[]
    = { "Runs called right", "94 %", "100 %", "76 %", "Brier score", "0.12", "0.26", "0.27" };
static const FrReliabilityBin bins[] = { { 0.1, 0.05, 0, 0.2, 20 }, { 0.8, 0.9, 0.7, 1, 14 } };

typedef struct
{
  ForecastSeason season;
  Forecast forecast;
  FrFieldSheet days, scores;
  const char *cells[7 * 120];
  FrForecastReliability reliability;
  FrForecastSheet sheet;
} Paper;

static void
fill (Paper *p, guint n_rows)
{
  static const char *const row[7] = { "Friday 13 March", "−4", "7", "91 %", "10", "19", "11 to 30" };

  *p = (Paper){ 0 };
  forecast_season_fill (&p->season);
  forecast_fill (&p->forecast);
  p->forecast.chart.selected = (FrDate){ 2026, 3, 13 };
  p->forecast.chart.is_focused = TRUE;
  for (guint i = 0; i < 7 * n_rows; i++)
    p->cells[i] = row[i % 7];
  p->days = (FrFieldSheet){
    .title = "Day by day", .columns = day_columns, .n_columns = 7, .cells = p->cells, .n_rows = n_rows
  };
  p->scores = (FrFieldSheet){ .title = "How well it did here",
                              .sentence = "34 gatherings, each told the evening before.",
                              .columns = score_columns,
                              .n_columns = 4,
                              .cells = scores,
                              .n_rows = 2 };
  p->reliability = (FrForecastReliability){ .bins = bins,
                                            .n_bins = 2,
                                            .said = "said",
                                            .happened = "came so",
                                            .caption = "Dots on the line: chances meant what they said.",
                                            .chosen = 1 };
  p->sheet = (FrForecastSheet){ .title = "Forecast",
                                .author = "Hollow Lane",
                                .date = "Wednesday 11 March",
                                .sentence_markup = "Empty the buckets on <b>Friday</b>: expect <b>19 L</b>.",
                                .reason = "Nine times in ten it is under 30 L.",
                                .footer = "Hollow Lane, 14 taps",
                                .chart = &p->forecast.chart,
                                .days = &p->days,
                                .season_title = "The season so far",
                                .season = &p->season.season,
                                .season_note = "210 L came in so far.",
                                .scores = &p->scores,
                                .scores_note = "27 of 34 fell inside the eight-in-ten bar.",
                                .reliability_title = "Whether chances meant what they said",
                                .reliability = &p->reliability };
}

static void
check_order (const char *text, const char *const *words, guint n)
{
  const char *at = text;

  for (guint i = 0; i < n; i++)
    {
      const char *found = strstr (at, words[i]);
      if (found == NULL)
        g_test_fail_printf ("“%s” is missing after “%s”", words[i], i > 0 ? words[i - 1] : "");
      else
        at = found + strlen (words[i]);
    }
}

static void
test_pages (void)
{
  static const char *const words[] = { "Forecast",
                                       "Empty the buckets on Friday: expect 19 L.",
                                       "Nine times in ten it is under 30 L.",
                                       "Day by day",
                                       "11 to 30",
                                       "The season so far",
                                       "353 likely",
                                       "210 L came in so far.",
                                       "How well it did here",
                                       "each told the evening before",
                                       "Brier score",
                                       "27 of 34 fell inside the eight-in-ten bar." };

  for (guint k = 0; k < 2; k++)
    {
      Paper *p = g_new (Paper, 1);
      guint n_pages = 0;
      g_autoptr (GError) error = NULL;
      /* ISO 216: 210 × 297 mm; ANSI letter: 8.5 × 11 inches. */
      double width = k == 0 ? 210 / 25.4 * 72 : 612, height = k == 0 ? 297 / 25.4 * 72 : 792;
      fill (p, 8);
      g_autoptr (GBytes) pdf
          = fr_forecast_sheet_pdf (&p->sheet, k == 0 ? FR_SHEET_A4 : FR_SHEET_LETTER, &n_pages, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (n_pages, ==, 2);
      g_autofree char *info
          = stage_ask (pdf, "pdfinfo", NULL, k == 0 ? "forecast.pdf" : "forecast-letter.pdf");
      g_autofree char *flat_info = stage_flat (info);
      stage_check_contains (flat_info, "Pages: 2");
      stage_check_contains (flat_info, "Title: Forecast");
      stage_check_contains (flat_info, "Author: Hollow Lane");
      stage_check_contains (flat_info, k == 0 ? "(A4)" : "(letter)");
      g_autofree char *text = stage_ask (pdf, "pdftotext", NULL, NULL), *flat = stage_flat (text);
      check_order (flat, words, G_N_ELEMENTS (words));
      stage_check_contains (flat, "Wednesday 11 March");
      stage_check_contains (flat, "Chance");
      stage_check_contains (flat, "came so");
      stage_check_contains (flat, "1/2");
      stage_check_contains (flat, "2/2");
      g_assert_cmpuint (stage_count_words (flat, "Hollow Lane, 14 taps"), ==, 2);
      g_assert_cmpuint (stage_count_words (flat, "Friday 13 March"), ==, 8);
      g_assert_cmpuint (stage_check_inside (pdf, width, height), >, 150);
      /* A table that goes on a page is not broken: its head stands once. */
      g_assert_cmpuint (stage_count_words (flat, "Constant"), ==, 1);
      g_free (p);
    }
}

/* A table over several pages has its head on each; nothing at all to say is one empty page. */
static void
test_parts (void)
{
  Paper *p = g_new (Paper, 1);
  guint n_pages = 0;
  g_autoptr (GError) error = NULL;

  fill (p, 120);
  g_autoptr (GBytes) tall = fr_forecast_sheet_pdf (&p->sheet, FR_SHEET_A4, &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n_pages, >=, 4);
  g_autofree char *text = stage_ask (tall, "pdftotext", NULL, NULL), *flat = stage_flat (text);
  g_autofree char *last = g_strdup_printf ("%u/%u", n_pages, n_pages);
  stage_check_contains (flat, last);
  g_assert_cmpuint (stage_count_words (flat, "Friday 13 March"), ==, 120);
  g_assert_cmpuint (stage_count_words (flat, "Hours above 1 °C"), >=, 3);
  g_assert_cmpuint (stage_check_inside (tall, 210 / 25.4 * 72, 297 / 25.4 * 72), >, 800);

  FrForecastSheet nothing = { 0 };
  g_autoptr (GBytes) empty = fr_forecast_sheet_pdf (&nothing, FR_SHEET_A4, &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n_pages, ==, 1);
  g_assert_nonnull (empty);
  g_free (p);
}

/* Texts of any length stay on the page, in the answer, the notes and the tables. */
static void
test_long (void)
{
  Paper *p = g_new (Paper, 1);
  g_autoptr (GString) much = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 120; i++)
    g_string_append (much, "much to say ");
  fill (p, 3);
  p->sheet.sentence_markup = p->sheet.reason = p->sheet.footer = p->sheet.scores_note = much->str;
  p->cells[0] = "A day with a name that is longer than any day of any calendar ought to have, and more of it";
  p->cells[13] = "numbers as long as this";
  p->days.sentence = much->str;
  g_autoptr (GBytes) pdf = fr_forecast_sheet_pdf (&p->sheet, FR_SHEET_A4, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (stage_check_inside (pdf, 210 / 25.4 * 72, 297 / 25.4 * 72), >, 400);
  g_autofree char *text = stage_ask (pdf, "pdftotext", NULL, NULL), *flat = stage_flat (text);
  stage_check_contains (flat, "ought to have");
  stage_check_contains (flat, "numbers as long as this");
  g_free (p);
}

static void
test_markup (void)
{
  Paper *p = g_new (Paper, 1);
  g_autoptr (GError) error = NULL;

  fill (p, 1);
  p->sheet.sentence_markup = "<b>19 L";
  g_assert_null (fr_forecast_sheet_pdf (&p->sheet, FR_SHEET_A4, NULL, &error));
  g_assert_error (error, G_MARKUP_ERROR, G_MARKUP_ERROR_PARSE);
  g_free (p);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-sheet/pages", test_pages);
  g_test_add_func ("/forecast-sheet/parts", test_parts);
  g_test_add_func ("/forecast-sheet/long", test_long);
  g_test_add_func ("/forecast-sheet/markup", test_markup);
  return g_test_run ();
}
