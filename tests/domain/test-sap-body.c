/* Sap in a container against hand calculation, closed forms of cooling and freezing, and conservation. */
#include "domain/maths/sap-body.h"
#include "domain/maths/sucrose.h"

#include "found.h"
#include "table.h"

#define NO_ICE_LAYER NAN

/* 3 kg of water at 20 °C and 1 kg of ice at 0 °C, by hand: (3 × 4.1868 × 20 − 333.6) / (4 × 4.1868) = −4.92 < 0, so ice
 * is left: 1 − 3 × 4.1868 × 20 / 333.6 = 0.24698 kg at 0 °C. Half a kilogram of it would melt: (251.208 − 166.8) /
 * (3.5 × 4.1868) = 5.7602 °C. */
static void
test_mix_water (void)
{
  FrSapBody water = fr_sap_body_at (3, 0, 20), ice = { 1, 0, 0, 1 }, less = { 0.5, 0, 0, 0.5 }, more = water;

  fr_sap_body_mix (&water, &ice);
  found_near ("water on ice: ice left, kg", water.ice_kg, 0.24698, 1e-5);
  found_near ("water on ice: temperature, K", water.temp_c, 0, 1e-12);
  fr_sap_body_mix (&more, &less);
  found_near ("water on less ice: temperature, K", more.temp_c, 5.7602, 1e-4);
  g_assert_cmpfloat (more.ice_kg, ==, 0);
}

/* Newton's cooling, T = air + (T0 − air) exp (−t loss / (m c)), (Incropera and DeWitt, lumped capacitance, from memory);
 * water, whose specific heat here does not change. */
static void
test_cooling (void)
{
  const FrSapHold hold = { 2.5, NO_ICE_LAYER };
  const FrAirKnot air[] = { { 0, 3 } };
  g_autoptr (GArray) trace = g_array_new (FALSE, FALSE, sizeof (FrSapBodyMoment));
  FrSapBody body = fr_sap_body_at (10, 0, 25);

  fr_sap_body_run (&body, &hold, air, 1, 0, 100000, 1000, trace);
  g_assert_cmpuint (trace->len, ==, 101);
  for (guint i = 0; i < trace->len; i++)
    {
      const FrSapBodyMoment *moment = &g_array_index (trace, FrSapBodyMoment, i);

      found_near ("lumped cooling, K", moment->temp_c,
                  3 + 22 * exp (-(double)moment->utc_s * 2.5 / (10 * 4186.8)), 1e-6);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-body/mix/water", test_mix_water);
  g_test_add_func ("/sap-body/cooling", test_cooling);
  return found_run ();
}
