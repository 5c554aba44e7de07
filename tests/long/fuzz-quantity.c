/* Number entry under random bytes. Not part of tests/run; from the repository's root:
 *
 *   clang -g -O1 -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=undefined -Isrc \
 *     $(pkg-config --cflags glib-2.0) tests/long/fuzz-quantity.c src/domain/units/{baume,measures,quantity}.c
 * \ src/domain/units/quantity-{parse,units}.c $(pkg-config --libs glib-2.0) -lm -o /tmp/fuzz-quantity mkdir
 * -p /tmp/fuzz-corpus G_SLICE=always-malloc /tmp/fuzz-quantity -max_len=300 -dict=tests/long/quantity.dict
 * -max_total_time=60 /tmp/fuzz-corpus
 *
 * The first byte picks the kind, the second the household; the rest is the text, once as typed and once as
 * the household's own measures. What must hold for any bytes: the answer is a finite number of at most 1e12
 * in its shown or typed unit, or NAN with a problem that points into the text at the start of a character;
 * the same text gives the same answer; what was read reopens as typed; and what is written out again can be
 * read again and means the same. */
#include "domain/units/quantity.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* abort (), not g_error (): the fuzzer keeps the input only for the former's signal */
#define HOLDS(condition)                                                                                     \
  do                                                                                                         \
    {                                                                                                        \
      if (!(condition))                                                                                      \
        {                                                                                                    \
          g_printerr ("does not hold: %s\n", #condition);                                                    \
          abort ();                                                                                          \
        }                                                                                                    \
    }                                                                                                        \
  while (0)

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size);

static void
check_measures (const char *text)
{
  FrMeasure *measures;
  guint n, line;

  if (!fr_measures_parse (text, &measures, &n, &line))
    {
      HOLDS (line >= 1 && measures == NULL && n == 0);
      return;
    }
  for (guint i = 0; i < n; i++)
    {
      const FrUnits units = { FR_SYSTEM_METRIC, FALSE, '.', measures, n };
      g_autofree char *one = g_strdup_printf ("2 %s", measures[i].name);
      double litres_l;

      HOLDS (measures[i].litres_l > 0);
      if (strlen (one) <= 200)
        {
          HOLDS (fr_quantity_parse (one, FR_QUANTITY_VOLUME, &units, &litres_l, NULL, NULL));
          HOLDS (litres_l == 2 * measures[i].litres_l);
        }
    }
  fr_measures_free (measures, n);
}

static void
check_text (const char *text, FrQuantityKind kind, const FrUnits *units)
{
  g_autofree char *entry = NULL;
  g_autofree char *written = NULL;
  g_autofree char *shown = NULL;
  FrQuantityProblem problem, again_problem;
  double value, again, back, shown_before, shown_after;
  gsize at, again_at;
  gboolean read = fr_quantity_parse (text, kind, units, &value, &problem, &at);

  HOLDS (read == (problem == FR_QUANTITY_OK || problem == FR_QUANTITY_EMPTY));
  HOLDS (isnan (value) == (problem != FR_QUANTITY_OK));
  HOLDS (at <= strlen (text));
  HOLDS (problem == FR_QUANTITY_NOT_A_NUMBER || ((guint8)text[at] & 0xC0) != 0x80);
  HOLDS (read == fr_quantity_parse (text, kind, units, &again, &again_problem, &again_at));
  HOLDS (problem == again_problem && at == again_at && memcmp (&value, &again, sizeof value) == 0);

  shown = fr_quantity_to_string (value, kind, units, -1);
  HOLDS (g_utf8_validate (shown, -1, NULL));
  if (problem != FR_QUANTITY_OK)
    return;
  HOLDS (fabs (value) <= 1e12);
  entry = fr_quantity_entry_text (value, text, kind, units);
  HOLDS (strcmp (entry, text) == 0);
  written = fr_quantity_entry_text (value, NULL, kind, units);
  HOLDS (fr_quantity_parse (written, kind, units, &back, NULL, NULL));
  /* half a hundredth of the coarsest digit shown, a whole degree, foot or hectopascal; off the °Bé scale, in
   * °Bx */
  shown_before = fr_quantity_to_shown (value, kind, units);
  shown_after = fr_quantity_to_shown (back, kind, units);
  if (isnan (shown_before))
    {
      shown_before = value;
      shown_after = back;
    }
  HOLDS (fabs (shown_after - shown_before) <= 0.00501 + 1e-9 * fabs (shown_before));
}

int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  static const FrMeasure measures[] = { { (char *)"bucket", 11 }, { (char *)"Crémaillère", 7.5 } };
  g_autofree char *text = NULL;
  FrUnits units = { FR_SYSTEM_METRIC, FALSE, '.', measures, G_N_ELEMENTS (measures) };

  if (size < 2)
    return 0;
  text = g_strndup ((const char *)data + 2, size - 2);
  units.system = (FrSystem)(data[1] % 3);
  units.decimal_mark = data[1] & 4 ? ',' : '.';
  units.baume = (data[1] & 8) != 0;
  check_text (text, (FrQuantityKind)(data[0] % FR_N_QUANTITIES), &units);
  check_measures (text);
  return 0;
}
