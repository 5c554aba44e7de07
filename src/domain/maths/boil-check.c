/* What a boil may be asked: every member of FrBoil with the range in which the model holds or a mistake is certain.
 *
 * The limits only keep nonsense out (a pan of 100 m³, a megawatt); whether a value suits a household is for its records.
 * Common sense, without a source, except that sap below −1 °C is ice and above its boiling point steam. */
#include "domain/maths/boil-run.h"

#include <math.h>

gboolean
fr_boil_check (const FrBoil *boil, FrBoilFault *fault_out)
{
  const double boil_c = boil->table->water_boils_c;
  gboolean level = boil->feed_kind == FR_FEED_LEVEL, hole = boil->feed_kind == FR_FEED_HOLE;
  const struct
  {
    const char *name;
    double value, min, max;
    gboolean may_miss; /* NAN is fine */
    gboolean counts;
  } rules[] = {
    { "air_c", boil->air_c, -60, 60, FALSE, TRUE },
    { "power_w", boil->power_w, 1, 1e6, FALSE, TRUE },
    { "heat_ratio", boil->heat_ratio, 0.01, 1, FALSE, TRUE },
    { "wall_w_per_k", boil->wall_w_per_k, 0, 1000, FALSE, TRUE },
    { "reflux_ratio", boil->reflux_ratio, 0, 0.99, FALSE, TRUE },
    { "start_l", boil->start_l, boil->feed_l > 0 && level ? 0 : FR_DRY_LIMIT_L, 100000, FALSE, TRUE },
    { "start_brix", boil->start_brix, 0, FR_DRY_LIMIT_BRIX, FALSE, TRUE },
    { "start_c", boil->start_c, -1, fr_boil_table_temp_c (boil->table, CLAMP (boil->start_brix, 0, 75), NULL), FALSE,
      TRUE },
    { "feed_l", boil->feed_l, 0, 100000, FALSE, TRUE },
    { "feed_brix", boil->feed_brix, 0, 70, FALSE, TRUE },
    { "feed_c", boil->feed_c, -1, boil_c, FALSE, TRUE },
    { "hold_l", boil->hold_l, FR_DRY_LIMIT_L, 100000, FALSE, level && boil->feed_l > 0 },
    { "stream_l_per_s", boil->stream_l_per_s, 1e-9, 10, FALSE, boil->feed_kind == FR_FEED_STREAM },
    { "hole_m2", boil->hole_m2, 1e-12, 0.1, FALSE, hole },
    { "head_m", boil->head_m, 0, 20, FALSE, hole },
    { "bucket_m2", boil->bucket_m2, 1e-5, 100, FALSE, hole },
    { "cutoff_l", boil->cutoff_l, 0, 100000, TRUE, TRUE },
    { "after_s", boil->after_s, 0, 30 * 86400.0, TRUE, TRUE },
    { "stop_brix", boil->stop_brix, 0, 100, TRUE, TRUE },
    { "trip_s", boil->trip_s, 0, 30 * 86400.0, TRUE, TRUE },
    { "rim_l", boil->rim_l, 0, 1e6, TRUE, TRUE },
    { "foam_l", boil->foam_l, 0, 1e6, TRUE, TRUE },
    { "min_l", boil->min_l, 0, 1e6, TRUE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    if (rules[i].counts && !(rules[i].may_miss && isnan (rules[i].value))
        && !(rules[i].value >= rules[i].min && rules[i].value <= rules[i].max))
      {
        *fault_out = (FrBoilFault){ rules[i].name, rules[i].value, rules[i].min, rules[i].max };
        return FALSE;
      }
  return TRUE;
}
