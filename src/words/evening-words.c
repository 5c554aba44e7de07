/* The evening's entries in short, for the folded groups and the cookers' rows. */
#include "words/evening-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "domain/maths/calibrate.h"

char *
fr_kit_note (const FrPlanKit *kit, const FrSay *say)
{
  g_autofree char *power = fr_say_amount (say, kit->power_w, FR_QUANTITY_POWER, 0);
  double half_percent = 100 * fr_heat_ratio_half_range (kit->heat_ratio, kit->heat_ratio_sd);
  int decimals = half_percent < 1 ? 1 : 0; /* never "± 0" */
  g_autofree char *ratio = fr_say_number (say, 100 * kit->heat_ratio, decimals);
  g_autofree char *half = fr_say_number (say, half_percent, decimals);
  g_autofree char *hold = fr_say_amount (say, kit->hold_l, FR_QUANTITY_VOLUME, 1);
  g_autofree char *bucket
      = isnan (kit->bucket_l) ? NULL : fr_say_amount (say, kit->bucket_l, FR_QUANTITY_VOLUME, 0);
  g_autofree char *heat = g_strdup_printf (_ ("%s, heat %s ± %s %%"), power, ratio, half);
  g_autofree char *pan = g_strdup_printf (_ ("%s held at %s"), kit->pan_name, hold);

  if (bucket == NULL)
    return g_strdup_printf ("%s\n%s", heat, pan);
  {
    g_autofree char *with = g_strdup_printf (_ ("bucket %s"), bucket);

    return g_strdup_printf ("%s\n%s, %s", heat, pan, with);
  }
}

char *
fr_sap_summary (const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *volume = fr_say_amount (say, input->sap_l, FR_QUANTITY_VOLUME, -1);
  g_autofree char *brix = fr_say_amount (say, input->sap_brix, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *temp = fr_say_amount (say, input->sap_c, FR_QUANTITY_TEMPERATURE, -1);

  return g_strdup_printf (_ ("%s at %s, %s"), volume, brix, temp);
}

char *
fr_kits_summary (const FrPlanInput *input, const FrSay *say)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < input->n_kits; i++)
    if (!input->kits[i].off)
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", input->kits[i].name);
  if (names->len == 0)
    g_string_append (names, _ ("No cooker is on"));
  return g_string_free (names, FALSE);
}

char *
fr_hours_summary (const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *start = fr_say_clock (say, input->start_utc), *off = fr_say_clock (say, input->off_by_utc);
  g_autofree char *brix = fr_say_amount (say, input->max_brix, FR_QUANTITY_SWEETNESS, 0);

  return g_strdup_printf (_ ("%s until %s, no thicker than %s"), start, off, brix);
}

char *
fr_air_summary (const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *air = fr_say_amount (say, input->air_c, FR_QUANTITY_TEMPERATURE, -1);

  return g_strdup_printf (_ ("%s at the pan"), air);
}
