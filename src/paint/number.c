/* An expected amount is no better known than to a tenth below ten, and a bucket is not read off better. */
#include "paint/number.h"

#include <math.h>
#include <string.h>

char *
fr_number_litres (double volume_l, const FrUnits *units)
{
  double shown = fr_quantity_to_shown (volume_l, FR_QUANTITY_VOLUME, units);
  char *number;
  const char *unit;

  fr_quantity_format (volume_l, FR_QUANTITY_VOLUME, units, fabs (shown) < 9.95 ? 1 : 0, &number, &unit);
  /* "9" rather than "9.0". */
  gsize n = strlen (number);
  if (n > 2 && number[n - 1] == '0' && (number[n - 2] == '.' || number[n - 2] == ','))
    number[n - 2] = '\0';
  return number;
}
