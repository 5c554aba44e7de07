/* Guidelines and spacings in the household's units. Where each is printed stands beside it in
 * maths/tapping.h. */
#include "words/bush-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Whole inches are printed; in centimetres they have a tenth. */
static char *
printed_length (const FrSay *say, double length_m)
{
  const double shown = fr_quantity_to_shown (length_m, FR_QUANTITY_LENGTH, &say->units);

  return fr_say_amount (say, length_m, FR_QUANTITY_LENGTH, fabs (shown - round (shown)) < 1e-6 ? 0 : 1);
}

const char *
fr_guideline_name (FrGuidelineId guideline)
{
  switch (guideline)
    {
    case FR_GUIDELINE_CONSERVATIVE:
      return _ ("Careful");
    case FR_GUIDELINE_ONE_TAP:
      return _ ("One a tree");
    case FR_GUIDELINE_FACTS:
      return _ ("Up to three");
    case FR_GUIDELINE_TRADITIONAL:
      return _ ("Older, up to four");
    case FR_N_GUIDELINES:
    default:
      g_return_val_if_reached ("");
    }
}

char *
fr_guideline_sentence (FrGuidelineId guideline, const FrSay *say)
{
  static const char *const numbers[]
      = { N_ ("one tap from %s"), N_ ("two from %s"), N_ ("three from %s"), N_ ("four from %s") };
  const FrGuideline *rule = fr_guideline (guideline);
  g_autoptr (GString) rows = g_string_new (NULL);
  GString *text = g_string_new (NULL);

  g_return_val_if_fail (rule != NULL && say != NULL, g_string_free (text, FALSE));

  for (guint i = 0; i < rule->n_rows; i++)
    {
      g_autofree char *from = printed_length (say, rule->rows[i].from_m);

      g_return_val_if_fail (rule->rows[i].taps >= 1 && rule->rows[i].taps <= G_N_ELEMENTS (numbers),
                            g_string_free (text, FALSE));
      if (i > 0)
        g_string_append (rows, ", ");
      g_string_append_printf (rows, _ (numbers[rule->rows[i].taps - 1]), from);
    }
  /* Translators: "By the trunk’s thickness: one tap from 30 cm, two from 46 cm." */
  g_string_append_printf (text, _ ("By the trunk’s thickness: %s."), rows->str);
  if (rule->more_needs_growth)
    g_string_append_printf (text, " %s", _ ("More than one only on a tree known to grow well."));
  if (rule->advised_against)
    g_string_append_printf (text, " %s", _ ("Those who print it advise against it."));
  return g_string_free (text, FALSE);
}

char *
fr_spacing_sentence (const FrBushSpacing *spacing, const FrSay *say)
{
  g_autofree char *sideways = NULL, *up_down = NULL, *low = NULL, *high = NULL;

  g_return_val_if_fail (spacing != NULL && say != NULL, NULL);

  sideways = printed_length (say, spacing->sideways_m);
  up_down = printed_length (say, spacing->up_down_m);
  low = printed_length (say, spacing->min_height_m);
  high = printed_length (say, spacing->max_height_m);
  return g_strdup_printf (
      _ ("%s sideways or %s up or down from every old hole, between %s and %s above the ground."), sideways,
      up_down, low, high);
}
