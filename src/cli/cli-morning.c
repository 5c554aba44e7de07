/* frostrun-cli morning: what came of the latest kept night, beside what was planned. Nothing is written. */
#include "cli/cli-commands.h"
#include "cli/cli-evening.h"
#include "formats/json-input.h"
#include "formats/json-output.h"
#include "words/morning-words.h"

#include <math.h>
#include <string.h>

static char *book_path, *left_text, *brix_text, *boils_text, *bucket_text, *meter_text;

const GOptionEntry fr_morning_entries[]
    = { { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
        { "left", 0, 0, G_OPTION_ARG_STRING, &left_text, "Left in the pan, cooled, in your units", "0.8" },
        { "brix", 0, 0, G_OPTION_ARG_STRING, &brix_text, "Its sweetness", "55" },
        { "boils", 0, 0, G_OPTION_ARG_STRING, &boils_text, "Or the temperature at which it boils", "101.4" },
        { "bucket", 0, 0, G_OPTION_ARG_STRING, &bucket_text, "Left in the bucket", "0" },
        { "meter", 0, 0, G_OPTION_ARG_STRING, &meter_text, "Electricity used, kWh", "20.1" },
        { NULL } };

static gboolean
take (const FrSay *say, const char *option, const char *text, FrQuantityKind kind, FrAmount *amount,
      GError **error)
{
  double value = NAN;

  if (!fr_cli_evening_amount (say, option, text, kind, &value, error))
    return FALSE;
  if (text != NULL)
    fr_amount_set (amount, value, text);
  return TRUE;
}

static const FrNight *
latest_night (GPtrArray *nights)
{
  const FrNight *latest = NULL;

  for (guint i = 0; i < nights->len; i++)
    {
      const FrNight *night = nights->pdata[i];

      if (!night->record.archived && (latest == NULL || night->start_utc > latest->start_utc))
        latest = night;
    }
  return latest;
}

static void
print_words (GString *out, const FrMorningWords *words, const char *evening)
{
  g_string_append_printf (out, "%s\n\n", evening);
  for (guint i = 0; i < words->lines->len; i++)
    {
      const FrMorningLine *line = words->lines->pdata[i];

      g_string_append_printf (out, "  %s: planned %s, found %s\n", line->what, line->plan, line->fact);
    }
  g_string_append_c (out, '\n');
  for (guint i = 0; i < words->whys->len; i++)
    g_string_append_printf (out, "%s\n", (const char *)words->whys->pdata[i]);
  g_string_append_printf (out, "%s\n", words->learned);
}

static void
print_json (GString *answer, const FrMorningReport *report, const char *evening)
{
  FrOutput out;
  g_autofree char *text = NULL;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_string (&out, "evening", evening);
  fr_output_number (&out, "plan_end_s", report->plan_end_s);
  fr_output_number (&out, "fact_end_s", report->fact_end_s);
  fr_output_number (&out, "plan_brix", report->plan_brix);
  fr_output_number (&out, "fact_brix", report->fact_brix);
  fr_output_number (&out, "plan_left_20c_l", report->plan_left_l);
  fr_output_number (&out, "fact_left_l", report->fact_left_l);
  fr_output_number (&out, "plan_energy_kwh", report->plan_energy_kwh);
  fr_output_number (&out, "fact_energy_kwh", report->fact_energy_kwh);
  fr_output_number (&out, "night_heat_ratio", report->has_learned ? report->learned.night_ratio : NAN);
  fr_output_number (&out, "heat_ratio", report->has_learned ? report->learned.heat_ratio : NAN);
  fr_output_number (&out, "heat_ratio_sd", report->has_learned ? report->learned.heat_ratio_sd : NAN);
  fr_output_number (&out, "sugar_ratio", report->learned.sugar_ratio);
  fr_output_end_object (&out);
  text = fr_output_finish (&out);
  g_string_append (answer, text);
}

static gboolean
report_night (FrCliEvening *evening, const FrCommandOptions *options, GString *answer, GError **error)
{
  const FrNight *latest = latest_night (evening->book.nights);
  const FrSay *say = &evening->say;
  const FrCooker *cooker = NULL;
  g_autoptr (FrRecord) copy = NULL;
  g_autoptr (FrMorningWords) words = NULL;
  FrMorningReport report;
  FrNight *night;
  FrPlanKit kit;

  if (latest == NULL)
    {
      g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "the book has no kept night");
      return FALSE;
    }
  copy = fr_record_copy (&latest->record);
  night = (FrNight *)copy;
  if (!take (say, "--left", left_text, FR_QUANTITY_VOLUME, &night->left_l, error)
      || !take (say, "--brix", brix_text, FR_QUANTITY_SWEETNESS, &night->left_brix, error)
      || !take (say, "--boils", boils_text, FR_QUANTITY_TEMPERATURE, &night->left_boil_c, error)
      || !take (say, "--bucket", bucket_text, FR_QUANTITY_VOLUME, &night->bucket_left_l, error)
      || !take (say, "--meter", meter_text, FR_QUANTITY_ENERGY, &night->meter_kwh, error))
    return FALSE;
  for (guint i = 0; i < evening->book.cookers->len; i++)
    if (((FrRecord *)evening->book.cookers->pdata[i])->id == night->cooker)
      cooker = evening->book.cookers->pdata[i];
  if (cooker == NULL || !fr_evening_kit (&evening->book, cooker, &kit)
      || !fr_morning_report (night, &kit, evening->book.household->altitude_m.value, &report))
    {
      g_set_error_literal (
          error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
          "the night cannot be followed again: its cooker or pan is no longer whole in the book");
      return FALSE;
    }
  words = fr_morning_words_new (&report, night, &kit, say);
  if (options->json)
    print_json (answer, &report, night->evening);
  else
    print_words (answer, words, night->evening);
  return TRUE;
}

gboolean
fr_run_morning (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliEvening evening;
  gboolean ok
      = fr_cli_evening_load (&evening, book_path, error) && report_night (&evening, options, answer, error);

  fr_cli_evening_clear (&evening);
  return ok;
}
