/* frostrun-cli tap-date. */
#include "cli/cli-commands.h"
#include "cli/cli-forecast-ask.h"
#include "cli/cli-print.h"
#include "formats/forecast-json.h"
#include "words/forecast-words.h"

#include <math.h>

/* The text lists a date in so many; JSON has them all. */
#define STEP_D 5

static void
add_row (GPtrArray *rows, const FrTapDates *dates, double most_l, guint i)
{
  const FrTapDate *date = &dates->dates[i];
  char **row = g_new0 (char *, 7);
  g_autofree char *iso = fr_date_to_iso (date->date);

  row[0] = g_strdup_printf ("%s%s", iso, (gint)i == dates->recommended ? " <" : date->is_past ? " *" : "");
  row[1] = g_strdup_printf ("%.1f", date->total.mean_l);
  row[2] = g_strdup_printf ("%.1f", date->total.lo_l);
  row[3] = g_strdup_printf ("%.1f", date->total.middle_l);
  row[4] = g_strdup_printf ("%.1f", date->total.hi_l);
  row[5] = most_l > 0 ? g_strdup_printf ("%.0f", 100 * date->total.mean_l / most_l) : g_strdup ("–");
  g_ptr_array_add (rows, row);
}

static void
print_shift (FrPrint *print, const char *what, const FrTapDateShift *shift)
{
  g_autofree char *loses = g_strdup_printf ("A week %s loses", what);

  fr_print_number (print, loses, shift->loss_l, 1, "L a tap");
  fr_print_number (print, "which is", 100 * shift->loss_ratio, 0, "%");
  fr_print_number (print, "and turns out better in", 100 * shift->better_probability, 0, "% of cases");
}

static void
print_date (FrPrint *print, const char *what, FrDate date)
{
  g_autofree char *iso = date.year ? fr_date_to_iso (date) : g_strdup ("–");

  fr_print_words (print, what, iso);
}

static void
print_dates (const FrTapDates *dates, GString *answer)
{
  static const char *const head[] = { "Tap on", "L/tap mean", "10 %", "50 %", "90 %", "% of most", NULL };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  g_autoptr (FrPrint) print = fr_print_new ();
  double most_l = 0;

  g_ptr_array_add (rows, g_strdupv ((char **)head));
  fr_cli_forecast_line (answer, fr_tap_date_sentence (dates, &fr_cli_forecast_say));
  fr_cli_forecast_line (answer, fr_tap_date_reason (dates, &fr_cli_forecast_say));
  fr_cli_forecast_line (answer, fr_tap_date_caution (dates));
  g_string_append_c (answer, '\n');
  for (guint i = 0; i < dates->n_dates; i++)
    most_l = fmax (most_l, dates->dates[i].total.mean_l);
  for (guint i = 0; i < dates->n_dates; i++)
    if (i % STEP_D == 0 || (gint)i == dates->recommended)
      add_row (rows, dates, most_l, i);
  fr_print_rows (answer, rows, 6);
  g_string_append (
      answer,
      "* past, < recommended. Litres a tap to the season's end, or as far as the weather is known.\n\n");
  print_date (print, "Tap on", fr_tap_dates_recommended (dates));
  print_shift (print, "earlier", &dates->early);
  print_shift (print, "later", &dates->late);
  print_date (print, "First run expected", dates->first_run);
  fr_print_number (print, "Past seasons that stand in", dates->n_past, 0, "");
  if (dates->n_gap_days > 0)
    fr_print_number (print, "Days with gaps, taken as dry", dates->n_gap_days, 0, "");
  fr_print_finish (print, answer);
}

gboolean
fr_run_tap_date (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_auto (FrCliForecast) ask = { 0 };
  g_autoptr (FrTapDates) dates = NULL;

  (void)file;
  if (!fr_cli_forecast_ask (&ask, error))
    return FALSE;
  dates = fr_tap_dates_new (&ask.question);
  if (options->json)
    {
      FrOutput output;
      g_autofree char *text = NULL;

      fr_output_init (&output);
      fr_output_object (&output, NULL);
      fr_tap_dates_write_json (&output, dates);
      fr_output_end_object (&output);
      text = fr_output_finish (&output);
      g_string_append (answer, text);
    }
  else
    print_dates (dates, answer);
  return TRUE;
}
