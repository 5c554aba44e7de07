/* A reading's meaning: corrected, or what to do with the sample. The corrected values are checked in
 * domain/test-instrument. */
#include <math.h>
#include <string.h>

#include "words/reading-words.h"

static void
check (const char *instrument, double reading_brix, double sample_c, const char *part)
{
  FrSay say = { .units = { .decimal_mark = '.' }, .currency = "CAD" };
  g_autofree char *sentence = fr_reading_sentence (instrument, reading_brix, sample_c, &say);

  if (part == NULL)
    {
      g_assert_null (sentence);
      return;
    }
  g_test_message ("%s", sentence);
  g_assert_nonnull (strstr (sentence, part));
  g_assert_true (g_str_has_suffix (sentence, "."));
}

static void
test_sentences (void)
{
  check ("refractometer_atc", 2.1, 14, "True sweetness 2.1");
  check ("refractometer", 2.1, 2, "Warm it");
  check ("refractometer", 2.1, 35, "cool");
  check ("refractometer", 2.1, NAN, "temperature");
  /* The 10 % row at 15 °C is −0.32 (OIV-MA-AS2-02, table I). */
  check ("refractometer", 2.4, 15, "True sweetness 2.1");
  check ("hydrometer_60f", 2.16, 0, "True sweetness 2.0");
  check ("guess", 2, NAN, "by guess");
  check ("refractometer_atc", NAN, 14, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading-words/sentences", test_sentences);
  return g_test_run ();
}
