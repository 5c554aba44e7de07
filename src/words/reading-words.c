/* Readings are kept as read; the corrected value and its doubt are said wherever one is shown. */
#include "words/reading-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/maths/instrument.h"

char *
fr_reading_sentence (const char *instrument_code, double reading_brix, double sample_c, const FrSay *say)
{
  FrInstrument instrument = FR_INSTRUMENT_GUESS;
  g_autofree char *brix = NULL, *doubt = NULL;
  FrReading reading;

  fr_instrument_from_code (instrument_code, &instrument);
  reading = fr_instrument_correct (instrument, reading_brix, sample_c);
  switch (reading.code)
    {
    case FR_READING_OK:
      brix = fr_say_amount (say, reading.brix, FR_QUANTITY_SWEETNESS, 1);
      if (isnan (reading.plus_minus_brix))
        return g_strdup_printf (_ ("Sweetness %s by guess; a refractometer or hydrometer tells it."), brix);
      doubt = fr_say_number (say, reading.plus_minus_brix, reading.plus_minus_brix < 0.095 ? 2 : 1);
      return g_strdup_printf (_ ("True sweetness %s, give or take %s °Bx."), brix, doubt);
    case FR_READING_WARM_SAMPLE:
      return g_strdup (_ ("The sample is too cold to correct. Warm it in the hand and read again."));
    case FR_READING_COOL_SAMPLE:
      return g_strdup (_ ("The sample is too warm to correct. Let it cool with a lid on and read again."));
    case FR_READING_NEEDS_TEMPERATURE:
      return g_strdup (_ ("This instrument needs the sample’s temperature to be corrected."));
    case FR_READING_OUT_OF_SCALE:
      return g_strdup (
          _ ("The reading lies outside what this instrument can tell. Read again, or dilute the sample."));
    default:
      return NULL;
    }
}
