/* The household's choices as the units every entry and sentence takes. */
#include "domain/records/household-units.h"

FrUnits
fr_household_units (const FrHousehold *household, char decimal_mark, FrMeasure **measures_out, guint *n_measures_out)
{
  FrUnits units = { .system = FR_SYSTEM_METRIC, .decimal_mark = decimal_mark };
  guint bad_line;

  *measures_out = NULL;
  *n_measures_out = 0;
  if (household == NULL)
    return units;
  if (g_strcmp0 (household->units, "us") == 0)
    units.system = FR_SYSTEM_US;
  else if (g_strcmp0 (household->units, "imperial") == 0)
    units.system = FR_SYSTEM_IMPERIAL;
  units.baume = g_strcmp0 (household->sweetness, "baume") == 0;
  if (household->measures != NULL
      && fr_measures_parse (household->measures, measures_out, n_measures_out, &bad_line))
    {
      units.measures = *measures_out;
      units.n_measures = *n_measures_out;
    }
  return units;
}
