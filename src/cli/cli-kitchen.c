/* frostrun-cli kitchen: which nights must boil by a book's forecast. Nothing is written. */
#include "cli/cli-forecast-ask.h"
#include "cli/cli-print.h"
#include "cli/cli-stock.h"

#include "domain/plan/book-forecast.h"
#include "formats/kitchen-json.h"
#include "words/forecast-words.h"
#include "words/kitchen-words.h"

#include <math.h>

static char *book_path, *at_text;

const GOptionEntry fr_kitchen_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "at", 0, 0, G_OPTION_ARG_STRING, &at_text, "As it was or will be then, local time; without it now",
          "2026-03-11T16:00" },
        { NULL } };

static void
add_row (GPtrArray *rows, const FrKitchen *kitchen, guint day)
{
  const FrKitchenNight *middle = &kitchen->courses[FR_KITCHEN_MIDDLE].nights[day],
                       *hi = &kitchen->courses[FR_KITCHEN_NINE_IN_TEN].nights[day];
  char **row = g_new0 (char *, 7);

  row[0] = fr_date_to_iso (fr_date_add_days (kitchen->today, (gint)day));
  row[1] = g_strdup_printf ("%.1f", middle->store_l);
  row[2] = isnan (middle->boiled_l) ? g_strdup ("–") : g_strdup_printf ("%.1f", middle->boiled_l);
  row[3] = g_strdup_printf ("%.1f", hi->store_l);
  row[4] = isnan (hi->boiled_l) ? g_strdup ("–") : g_strdup_printf ("%.1f", hi->boiled_l);
  row[5] = g_strdup (middle->is_nothing  ? "nothing to boil"
                     : middle->must_boil ? "must boil"
                     : hi->must_boil     ? "may have to"
                                         : "");
  g_ptr_array_add (rows, row);
}

static void
print_kitchen (const FrKitchen *kitchen, const FrSay *say, GString *answer)
{
  static const char *const head[] = { "Evening", "In store, L", "boiled", "9 in 10, L", "boiled", "", NULL };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);

  fr_cli_forecast_line (answer, fr_kitchen_sentence (kitchen, say));
  fr_cli_forecast_line (answer, fr_kitchen_reason (kitchen, say));
  g_string_append_c (answer, '\n');
  g_ptr_array_add (rows, g_strdupv ((char **)head));
  for (guint d = 0; d < kitchen->n_days; d++)
    add_row (rows, kitchen, d);
  fr_print_rows (answer, rows, 6);
}

static void
answer_book (const FrCliSeason *season, gboolean wants_json, GString *answer)
{
  const FrSeasonBook *book = &season->evening.book;
  g_autoptr (FrBookForecast) asked = fr_book_forecast_new (book, NULL, NULL, NAN, season->now_utc);
  g_autoptr (FrForecast) forecast = fr_book_forecast_answer (asked);
  const FrAnswerQuestion question = { .forecast = forecast,
                                      .is_tapped = asked->question.tapped.year != 0,
                                      .today = asked->today,
                                      .gather_hour = asked->question.gather_hour,
                                      .free_l = NAN };
  FrForecastAnswer found;
  g_autoptr (FrKitchen) kitchen = NULL;

  fr_forecast_answer (&question, &found);
  kitchen = fr_kitchen_of_book (book, forecast, &found, season->now_utc);
  if (wants_json)
    {
      FrOutput output;
      g_autofree char *text = NULL;

      fr_output_init (&output);
      fr_output_object (&output, NULL);
      fr_kitchen_write_json (&output, kitchen);
      fr_output_end_object (&output);
      text = fr_output_finish (&output);
      g_string_append (answer, text);
    }
  else if (kitchen == NULL)
    fr_cli_forecast_line (answer, fr_forecast_sentence (&found, &season->evening.say));
  else
    print_kitchen (kitchen, &season->evening.say, answer);
}

gboolean
fr_run_kitchen (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliSeason season;
  gint64 from_utc, at_utc;
  gboolean ok = fr_cli_stock_load (&season, book_path, NULL, at_text, &from_utc, &at_utc, error);

  (void)file;
  if (ok)
    answer_book (&season, options->json, answer);
  fr_cli_season_clear (&season);
  return ok;
}
