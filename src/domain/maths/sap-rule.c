/* Thresholds: −1.1 and 2.2 °C after Skinner, DeGaetano and Chabot 2010 (from memory); 0 °C and the last four nights are
 * what sugarmakers say, common practice, no source; hours above 1 °C, the best simple sign found in the measured seasons. */
#include "domain/maths/sap-rule.h"

#include <math.h>

#define DAY_H 24
#define NIGHTS 4

static double
extreme_c (const double *air_c, gint n_hours, gint from, gint end, gboolean low)
{
  double found = NAN;

  for (gint h = MAX (from, 0); h < MIN (end, n_hours); h++)
    if (isnan (found) || (low ? air_c[h] < found : air_c[h] > found))
      found = air_c[h];
  return found;
}

double
fr_sap_rule_units (FrSapRule rule, const double *air_c, gint n_hours, gint end_hour)
{
  gint first = end_hour - DAY_H, nights = rule == FR_SAP_RULE_NIGHTS ? NIGHTS : 1;
  double low_c, high_c, hours = 0;

  if (rule == FR_SAP_RULE_CONSTANT)
    return 1;
  if (rule == FR_SAP_RULE_THAW_HOURS)
    {
      for (gint h = MAX (first, 0); h < MIN (end_hour, n_hours); h++)
        hours += air_c[h] > 1;
      return hours / DAY_H;
    }
  low_c = extreme_c (air_c, n_hours, end_hour - nights * DAY_H, end_hour, TRUE);
  high_c = extreme_c (air_c, n_hours, first, end_hour, FALSE);
  if (rule == FR_SAP_RULE_FREEZE_THAW)
    return low_c < -1.1 && high_c > 2.2;
  return low_c < 0 && high_c > 0;
}
