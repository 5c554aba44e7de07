/* The forecast's view on the demo's household: days are walked by keyboard and read out, litres stand in the calendar's days too, and a night and
 * a day come into the book and can be taken back. */
#include <math.h>
#include <string.h>

#include "models/forecast.h"
#include "models/season-edit.h"
#include "ui/clock.h"
#include "ui/forecast-chart-view.h"
#include "ui/forecast-panel.h"
#include "ui/forecast-scores-card.h"
#include "ui/season-page.h"
#include "ui/season-print.h"
#include "window-tools.h"
#include "words/forecast-day-words.h"
#include "words/forecast-words.h"

static GtkWidget *
part (gpointer window, const char *type_name)
{
  GtkWidget *found = find (GTK_WIDGET (window), is_a, type_name);

  if (found == NULL)
    g_error ("no %s", type_name);
  return found;
}

static guint
n_of (FrBook *book, FrKindId kind)
{
  return fr_record_list_get_size (fr_book_get_list (book, kind));
}

static FrForecaster *
forecaster_of (FrWindow *window)
{
  FrForecaster *forecaster = fr_season_page_get_forecaster (FR_SEASON_PAGE (part (window, "FrSeasonPage")));

  fr_forecaster_get (forecaster);
  while (fr_forecaster_is_pending (forecaster))
    g_main_context_iteration (NULL, TRUE);
  settle ();
  return forecaster;
}

static FrWindow *
open_forecast (const char *name)
{
  FrWindow *window = open_window (name, TOOLS_DEMO);

  act (window, "win.page", "season");
  act (window, "season.view", "forecast");
  forecaster_of (window);
  return window;
}

static void
type (GtkWidget *chart, guint keyval)
{
  press_key (chart, keyval);
  settle ();
}

static char *
panel_texts (FrWindow *window)
{
  return label_texts (part (window, "FrForecastPanel"));
}

static void
assert_day (FrWindow *window, FrDate date)
{
  FrForecastChartView *chart = FR_FORECAST_CHART_VIEW (part (window, "FrForecastChartView"));
  g_autofree char *title = fr_say_date (date), *texts = panel_texts (window);

  g_assert_cmpint (fr_date_compare (fr_forecast_chart_view_get_selected (chart), date), ==, 0);
  assert_shows (texts, title);
}

static void
test_days (void)
{
  FrWindow *window = open_forecast ("forecast.frostrun");
  GtkWidget *chart = part (window, "FrForecastChartView");
  const FrForecast *forecast = fr_forecaster_get (forecaster_of (window));
  const FrForecastDay *days = forecast->days;
  FrDate next = fr_date_add_days (forecast->as_of, 1);
  GdkRectangle box;
  g_autofree char *texts = panel_texts (window);

  g_assert_cmpuint (forecast->n_days, >, 10);
  assert_shows (texts, "Chance of a run");
  assert_shows (texts, "eight times in ten");
  gtk_widget_grab_focus (chart);
  type (chart, GDK_KEY_Escape);
  type (chart, GDK_KEY_Home);
  assert_day (window, days[0].date);
  g_assert_true (fr_forecast_chart_view_get_day (FR_FORECAST_CHART_VIEW (chart), days[0].date, &box));
  type (chart, GDK_KEY_Left); /* there is none before */
  assert_day (window, days[0].date);
  type (chart, GDK_KEY_Right);
  assert_day (window, days[1].date);
  type (chart, GDK_KEY_End);
  assert_day (window, days[forecast->n_days - 1].date);
  g_assert_true (fr_forecast_chart_view_get_day (FR_FORECAST_CHART_VIEW (chart), days[forecast->n_days - 1].date, &box));
  g_assert_false (fr_forecast_chart_view_get_day (FR_FORECAST_CHART_VIEW (chart), days[0].date, &box));
  type (chart, GDK_KEY_Escape);
  g_assert_true (fr_forecast_chart_view_get_day (FR_FORECAST_CHART_VIEW (chart), next, &box));
  close_window (window);
}

/* The calendar's day to come has what the forecast's has. */
static void
test_calendar_days (void)
{
  FrWindow *window = open_forecast ("forecast-calendar.frostrun");
  const FrForecast *forecast = fr_forecaster_get (forecaster_of (window));
  FrSeason *season = fr_season_page_get_season (FR_SEASON_PAGE (part (window, "FrSeasonPage")));
  const FrForecastDay *ahead = fr_forecast_day (forecast, fr_date_add_days (forecast->as_of, 2));
  const FrSeasonDay *day;

  g_assert_nonnull (ahead);
  day = fr_season_view_day (fr_season_get_view (season), ahead->date);
  g_assert_nonnull (day);
  g_assert_cmpfloat_with_epsilon (day->expected_l, ahead->bush.middle_l, 1e-9);
  g_assert_true (day->is_expected_weather);
  act (window, "season.calendar", "season");
  fr_season_set_day (season, ahead->date);
  settle ();
  {
    g_autofree char *texts = label_texts (part (window, "FrDayPanel"));
    g_autofree char *chance = g_strdup_printf ("%.0f %% chance of a run", 100 * ahead->run_probability);

    assert_shows (texts, chance);
    assert_shows (texts, "eight times in ten");
  }
  close_window (window);
}

/* At half past six in the evening the high is today's. */
static void
test_night_and_day (void)
{
  FrWindow *window = open_forecast ("night-and-day.frostrun");
  FrBook *book = fr_window_get_book (window);
  FrDate today = fr_season_get_today (fr_season_page_get_season (FR_SEASON_PAGE (part (window, "FrSeasonPage"))));
  guint serial = fr_forecaster_get_serial (forecaster_of (window));
  double low_c = fr_season_find_day (book, today)->low_c.value;
  GtkWidget *dialog;

  act (window, "season.add-air", NULL);
  dialog = find_window ("FrNightDayDialog");
  g_assert_nonnull (dialog);
  fr_entry_row_enter (row (dialog, "Lowest, night to Thursday 19 March"), "-9");
  fr_entry_row_enter (row (dialog, "Highest on Thursday 19 March"), "3");
  press (dialog, "_Keep");
  g_assert_null (find_window ("FrNightDayDialog"));
  g_assert_cmpfloat (fr_season_find_day (book, today)->low_c.value, ==, -9);
  g_assert_cmpfloat (fr_season_find_day (book, today)->high_c.value, ==, 3);
  g_assert_cmpuint (fr_forecaster_get_serial (forecaster_of (window)), >, serial);
  act (window, "win.undo", NULL);
  g_assert_cmpfloat (fr_season_find_day (book, today)->low_c.value, ==, low_c);
  /* What cannot be read stands under its row and nothing is kept. */
  act (window, "season.add-air", NULL);
  dialog = find_window ("FrNightDayDialog");
  fr_entry_row_enter (row (dialog, "Lowest, night to Thursday 19 March"), "cold");
  press (dialog, "_Keep");
  g_assert_nonnull (find_window ("FrNightDayDialog"));
  g_assert_nonnull (fr_entry_row_get_problem (row (dialog, "Lowest, night to Thursday 19 March")));
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  close_window (window);
}

/* While there is nothing to boil, the first page tells what comes next. */
static void
test_tonight (void)
{
  FrWindow *window = open_window ("forecast-tonight.frostrun", TOOLS_DEMO);
  gint64 until_us = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;
  g_autofree char *texts = NULL;

  act (window, "win.page", "tonight");
  type_keys (row (window, "Amount"), "0");
  fr_entry_row_finish (row (window, "Amount"));
  do /* the answer comes from a thread */
    {
      g_free (texts);
      settle ();
      texts = label_texts (part (window, "FrTonightAnswer"));
    }
  while (strstr (texts, "will bring") == NULL && g_get_monotonic_time () < until_us);
  assert_shows (texts, "Nothing to boil tonight. Friday will bring ");
  close_window (window);
}

/* What to do stands over the days, by the same words as elsewhere. */
static void
test_answer (void)
{
  FrWindow *window = open_forecast ("forecast-answer.frostrun");
  FrForecaster *forecaster = forecaster_of (window);
  FrSeason *season = fr_season_page_get_season (FR_SEASON_PAGE (part (window, "FrSeasonPage")));
  g_autofree char *markup = fr_forecast_sentence (fr_forecaster_get_answer (forecaster), fr_season_get_say (season));
  g_autofree char *said = fr_say_plain (markup), *sentence = plain_spaces (said);
  g_autofree char *texts = label_texts (part (window, "FrForecastView"));

  g_assert_nonnull (fr_forecaster_get_kitchen (forecaster));
  g_assert_null (fr_forecaster_get_tap_dates (forecaster)); /* there are taps */
  assert_shows (texts, sentence);
  assert_shows (texts, "by the season’s end, eight times in ten");
  close_window (window);
}

static GtkWidget *
ask_print (FrWindow *window)
{
  act (window, "season.print", NULL);
  settle ();
  return find_window ("FrSeasonPrint");
}

/* Every label of the page's table of scores stands on the sheet, as poppler reads it. */
static void
assert_scores_printed (FrWindow *window)
{
  GtkWidget *dialog = ask_print (window);
  g_autofree char *path = tools_path ("scores.pdf"), *out = NULL;
  const char *command[] = { "pdftotext", "-raw", "-enc", "UTF-8", path, "-", NULL };
  static const char *const words[] = { "How Well It Did Here", "gatherings of this season", "Same as last", "Runs called right",
                                       "Litres wrong, a tap", "eight-in-ten bar, where", "which flatters every way" };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = fr_season_print_make (FR_SEASON_PRINT (dialog), NULL, &error);

  g_assert_no_error (error);
  g_assert_true (g_file_set_contents (path, g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf), NULL));
  g_assert_true (g_spawn_sync (NULL, (char **)command, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, NULL, &error));
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_shows (out, words[i]);
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
}

/* Each emptying told again takes seconds in a thread; the table then says of how many. */
static void
test_scores (void)
{
  FrWindow *window = open_forecast ("forecast-scores.frostrun");
  const FrBookForecast *asked = fr_forecaster_get_asked (forecaster_of (window));
  gint64 until_us = g_get_monotonic_time () + 40 * G_USEC_PER_SEC;
  g_autofree char *texts = NULL;

  g_assert_cmpuint (asked->gathered->len, >=, FR_SCORES_LEAST);
  do
    {
      g_free (texts);
      settle ();
      texts = label_texts (part (window, "FrForecastScoresCard"));
    }
  while (strstr (texts, "eight-in-ten bar") == NULL && g_get_monotonic_time () < until_us);
  assert_shows (texts, "Freeze and thaw");
  assert_shows (texts, "eight-in-ten bar, where");
  assert_shows (texts, "which flatters every way");
  assert_scores_printed (window);
  close_window (window);
}

static void
drop_weather (FrWindow *window)
{
  FrBook *book = fr_window_get_book (window);
  const FrKindId kinds[] = { FR_KIND_DAY, FR_KIND_STATION_DAY, FR_KIND_OUTLOOK };
  g_autoptr (FrChange) change = fr_change_new ("delete-day", NULL);

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < n_of (book, kinds[k]); i++)
      fr_change_add (change, fr_record_list_get (fr_book_get_list (book, kinds[k]), i), NULL);
  g_assert_true (fr_book_apply (book, change, NULL));
  g_assert_cmpuint (fr_forecaster_get (forecaster_of (window))->n_days, ==, 0);
}

/* A book without weather says so and has ways to some. */
static void
test_no_weather (void)
{
  FrWindow *window = open_forecast ("forecast-none.frostrun");
  g_autofree char *texts = NULL, *panel = NULL;

  drop_weather (window);
  texts = label_texts (part (window, "FrForecastView"));
  assert_shows (texts, "Import Weather…");
  panel = panel_texts (window);
  assert_shows (panel, "No Day Yet");
  close_window (window);
}

/* The picture, the days and the season do not go on one page; without weather the answer does. No month has a page here. */
static void
test_print (void)
{
  FrWindow *window = open_forecast ("forecast-print.frostrun");
  GtkWidget *dialog = ask_print (window);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = NULL, bare = NULL;
  guint n_pages = 0;

  g_assert_nonnull (dialog);
  g_assert_null (find (dialog, is_a, "GtkSwitch"));
  pdf = fr_season_print_make (FR_SEASON_PRINT (dialog), &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (pdf, NULL), 5, "%PDF-", 5);
  g_assert_cmpuint (n_pages, ==, 2);
  drop_weather (window);
  bare = fr_season_print_make (FR_SEASON_PRINT (dialog), &n_pages, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (n_pages, ==, 1);
  gtk_window_close (GTK_WINDOW (dialog));
  settle ();
  close_window (window);
}

int
main (int argc, char **argv)
{
  tools_init (&argc, &argv);
  g_assert_true (fr_clock_hold ("2026-03-19T18:30"));
  g_test_add_func ("/forecast-view/days", test_days);
  g_test_add_func ("/forecast-view/calendar", test_calendar_days);
  g_test_add_func ("/forecast-view/night-and-day", test_night_and_day);
  g_test_add_func ("/forecast-view/tonight", test_tonight);
  g_test_add_func ("/forecast-view/answer", test_answer);
  g_test_add_func ("/forecast-view/scores", test_scores);
  g_test_add_func ("/forecast-view/no-weather", test_no_weather);
  g_test_add_func ("/forecast-view/print", test_print);
  return tools_run ();
}
