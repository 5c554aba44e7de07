/* frostrun-cli forecast. */
#include "cli/cli-commands.h"
#include "cli/cli-forecast-ask.h"
#include "cli/cli-print.h"
#include "cli/cli-season.h"
#include "domain/plan/book-answer.h"
#include "formats/forecast-json.h"
#include "words/forecast-words.h"
#include "words/kitchen-words.h"

#include <math.h>

static char *
litres_text (double litres)
{
  return isnan (litres) ? g_strdup ("–") : g_strdup_printf ("%.1f", litres);
}

static void
add_row (GPtrArray *rows, const FrForecastDay *day)
{
  char **row = g_new0 (char *, 9);
  g_autofree char *iso = fr_date_to_iso (day->date);

  row[0] = g_strdup_printf ("%s%s", iso, day->is_ahead ? "" : " *");
  row[1] = isnan (day->low_c) ? g_strdup ("–") : g_strdup_printf ("%.0f to %.0f", day->low_c, day->high_c);
  row[2] = isnan (day->thaw_h) ? g_strdup ("–") : g_strdup_printf ("%.0f", day->thaw_h);
  row[3] = isnan (day->run_probability) ? g_strdup ("–") : g_strdup_printf ("%.0f", 100 * day->run_probability);
  row[4] = litres_text (day->per_tap.lo_l);
  row[5] = litres_text (day->per_tap.middle_l);
  row[6] = litres_text (day->per_tap.hi_l);
  row[7] = litres_text (day->gathered_l);
  g_ptr_array_add (rows, row);
}

/* What to do, or when to tap. */
static void
print_found (const FrForecastAnswer *found, const FrForecastQuestion *question, const FrSay *say, GString *answer)
{
  g_autoptr (GPtrArray) warnings = NULL;

  fr_cli_forecast_line (answer, fr_forecast_sentence (found, say));
  fr_cli_forecast_line (answer, fr_forecast_reason (found, say));
  if (found->code != FR_ANSWER_NOT_TAPPED)
    {
      warnings = fr_forecast_warnings (found);
      for (guint i = 0; i < warnings->len; i++)
        fr_cli_forecast_line (answer, g_strdup (warnings->pdata[i]));
    }
  else
    {
      g_autoptr (FrTapDates) dates = fr_tap_dates_new (question);

      fr_cli_forecast_line (answer, fr_tap_date_sentence (dates, say));
      fr_cli_forecast_line (answer, fr_tap_date_reason (dates, say));
      fr_cli_forecast_line (answer, fr_tap_date_caution (dates));
    }
}

static void
print_answer (const FrForecast *forecast, const FrForecastQuestion *question, GString *answer)
{
  /* As it reads on the evening of as_of; a file says nothing of room. */
  const FrAnswerQuestion asked = { .forecast = forecast,
                                   .is_tapped = question->tapped.year != 0,
                                   .today = question->as_of,
                                   .gather_hour = question->gather_hour,
                                   .free_l = NAN };
  FrForecastAnswer found;

  fr_forecast_answer (&asked, &found);
  print_found (&found, question, &fr_cli_forecast_say, answer);
  g_string_append_c (answer, '\n');
}

static void
print_forecast (const FrForecast *forecast, GString *answer)
{
  static const char *const head[] = { "Day", "°C", "h > 1 °C", "Run %", "L/tap 10 %", "50 %", "90 %", "Gathered", NULL };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autoptr (FrPrint) print = fr_print_new ();

  g_ptr_array_add (rows, g_strdupv ((char **)head));
  for (guint i = 0; i < forecast->n_days; i++)
    if (!forecast->days[i].is_beyond)
      add_row (rows, &forecast->days[i]);
  fr_print_rows (answer, rows, 8);
  g_string_append (answer, "* observed. Eight days in ten fall between the 10 % and the 90 % column; a run is at least 0.5 L a tap.\n\n");
  fr_print_number (print, "Gathered", forecast->gathered_l, 1, "L");
  fr_print_number (print, "To come, middle", forecast->to_come.middle_l, 1, "L");
  fr_print_number (print, "eight times in ten from", forecast->to_come.lo_l, 1, "L");
  fr_print_number (print, "to", forecast->to_come.hi_l, 1, "L");
  fr_print_number (print, "Past seasons that stand in", forecast->n_past, 0, "");
  fr_print_number (print, "Chance that it is over", 100 * forecast->over_probability, 0, "%");
  fr_print_number (print, "Chance that buds may be tasted", 100 * forecast->off_flavour_probability, 0, "%");
  fr_print_number (print, "Learned from", forecast->n_learned, 0, "emptyings");
  fr_print_number (print, "which moved the forecast to", 100 * forecast->raised_ratio, 0, "% of what it was");
  fr_print_finish (print, answer);
}

static void
write_json (const FrForecast *forecast, const FrForecastQuestion *question, GString *answer)
{
  FrOutput output;
  g_autofree char *text = NULL;
  /* The date is asked of those who have not tapped. */
  g_autoptr (FrTapDates) dates = question->tapped.year == 0 ? fr_tap_dates_new (question) : NULL;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_forecast_write_json (&output, forecast, dates != NULL ? fr_tap_dates_recommended (dates) : (FrDate){ 0 });
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (answer, text);
}

/* By the same words as the window. */
static void
answer_book (const FrCliSeason *season, gboolean wants_json, GString *answer)
{
  const FrSeasonBook *book = &season->evening.book;
  const FrSay *say = &season->evening.say;
  g_autoptr (FrBookForecast) asked = fr_book_forecast_new (book, NULL, NULL, NAN, season->now_utc);
  g_autoptr (FrForecast) forecast = fr_book_forecast_answer (asked);
  FrForecastAnswer found;
  g_autoptr (FrKitchen) kitchen = fr_book_answer (book, asked, forecast, season->now_utc, &found);

  if (wants_json)
    {
      write_json (forecast, &asked->question, answer);
      return;
    }
  print_found (&found, &asked->question, say, answer);
  if (kitchen != NULL && found.code != FR_ANSWER_NOT_TAPPED)
    {
      fr_cli_forecast_line (answer, fr_kitchen_sentence (kitchen, say));
      fr_cli_forecast_line (answer, fr_kitchen_reason (kitchen, say));
    }
  g_string_append_c (answer, '\n');
  print_forecast (forecast, answer);
}

static gboolean
run_book (const FrCommandOptions *options, const char *path, const char *now, GString *answer, GError **error)
{
  FrCliSeason season;
  gboolean ok = fr_cli_season_load (&season, path, NULL, now, error);

  if (ok)
    answer_book (&season, options->json, answer);
  fr_cli_season_clear (&season);
  return ok;
}

gboolean
fr_run_forecast (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_auto (FrCliForecast) ask = { 0 };
  g_autoptr (FrForecast) forecast = NULL;
  const char *now, *book = fr_cli_forecast_book (&now);

  (void)file;
  if (book != NULL)
    return run_book (options, book, now, answer, error);
  if (!fr_cli_forecast_ask (&ask, error))
    return FALSE;
  forecast = fr_forecast_new (&ask.question);
  if (options->json)
    write_json (forecast, &ask.question, answer);
  else
    {
      print_answer (forecast, &ask.question, answer);
      print_forecast (forecast, answer);
    }
  return TRUE;
}
