/* frostrun-cli reading: what a refractometer's or hydrometer's reading means at the sample's temperature. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "domain/maths/instrument.h"
#include "formats/json-input.h"
#include "formats/json-output.h"

#include <json-glib/json-glib.h>
#include <math.h>

static char *instrument_text, *reading_text, *sample_text;

const GOptionEntry fr_reading_entries[]
    = { { "instrument", 0, 0, G_OPTION_ARG_STRING, &instrument_text,
          "refractometer_atc, refractometer, hydrometer_38f, hydrometer_60f or hydrometer_68f", "WHICH" },
        { "reading", 0, 0, G_OPTION_ARG_STRING, &reading_text, "What it shows, °Bx, 0 to 90", "BX" },
        { "sample-c", 0, 0, G_OPTION_ARG_STRING, &sample_text, "Temperature of the sample, °C, -5 to 110",
          "C" },
        { NULL } };

static const char *const code_names[]
    = { "ok", "warm_sample", "cool_sample", "needs_temperature", "out_of_scale", "unknown" };
static const char *const code_words[] = { "",
                                          "too cold to correct: warm the sample and read again",
                                          "too warm to correct: let it cool covered and read again",
                                          "this instrument needs --sample-c",
                                          "outside what this instrument can tell",
                                          "no reading" };

gboolean
fr_run_reading (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonObject) object = json_object_new ();
  GError *first = NULL;
  FrInput in = { object, "", &first };
  FrInstrument instrument;
  FrReading reading;
  double shown, sample_c;

  if (instrument_text == NULL || !fr_instrument_from_code (instrument_text, &instrument)
      || instrument == FR_INSTRUMENT_GUESS)
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "--instrument has to be one of %s",
                   fr_reading_entries[0].description);
      return FALSE;
    }
  if (!fr_cli_add_number (object, "reading", "--reading", reading_text, error)
      || !fr_cli_add_number (object, "sample_c", "--sample-c", sample_text, error))
    return FALSE;
  shown = fr_input_number (&in, "reading", FR_INPUT_REQUIRED, 0, 90);
  sample_c = sample_text != NULL ? fr_input_number (&in, "sample_c", FR_INPUT_REQUIRED, -5, 110) : NAN;
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return FALSE;
    }
  reading = fr_instrument_correct (instrument, shown, sample_c);
  if (options->json)
    {
      FrOutput out;
      g_autofree char *text = NULL;

      fr_output_init (&out);
      fr_output_object (&out, NULL);
      fr_output_string (&out, "code", code_names[reading.code]);
      fr_output_number (&out, "brix", reading.brix);
      fr_output_number (&out, "plus_minus_brix", reading.plus_minus_brix);
      fr_output_end_object (&out);
      text = fr_output_finish (&out);
      g_string_append (answer, text);
    }
  else
    {
      g_autoptr (FrPrint) print = fr_print_new ();

      if (reading.code == FR_READING_OK)
        {
          fr_print_number (print, "True sweetness", reading.brix, 2, "°Bx");
          fr_print_number (print, "Give or take", reading.plus_minus_brix, 2, "°Bx");
        }
      else
        fr_print_words (print, "No answer", code_words[reading.code]);
      fr_print_finish (print, answer);
    }
  return TRUE;
}
