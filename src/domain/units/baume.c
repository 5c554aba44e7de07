/* Baumé degrees and degrees Brix.
 *
 * Baumé for liquids heavier than water, modulus 145: °Bé = 145 − 145 / SG (the trade's scale in North
 * America; from memory: NBS Circular C440, 1942). SG is the true specific gravity 20 °C / 20 °C of a pure
 * sucrose solution: water's density at 20 °C (Kell, J. Chem. Eng. Data 20 (1975) 97) plus the 20 °C row of
 * the density polynomial in Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual, 1995, p. 164. Only
 * that row is kept here, because the whole polynomial stands a floor higher. Published for 0–75 °Bx; against
 * C440, 66.0 °Bx = 35.55 and 66.9 °Bx = 36.0 within 0.03 °Bé. A little below zero the polynomial runs on
 * smoothly, which serves differences and instruments off by a little. */
#include "domain/units/baume.h"

#include <math.h>

#define MODULUS 145.0
#define WATER_20C_KG_M3 998.203
#define BRIX_LOW (-5.0)
#define BRIX_HIGH 100.0

/* Powers of the mass fraction, from the first. */
static const double density_20c[6] = { 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890 };

double
fr_gravity_ratio_from_brix (double brix)
{
  double w = brix / 100, sum = 0;

  if (!(brix >= BRIX_LOW && brix <= BRIX_HIGH))
    return NAN;
  for (int j = 5; j >= 0; j--)
    sum = (sum + density_20c[j]) * w;
  return 1 + sum / WATER_20C_KG_M3;
}

double
fr_baume_from_brix (double brix)
{
  return MODULUS - MODULUS / fr_gravity_ratio_from_brix (brix);
}

double
fr_brix_from_baume (double baume)
{
  double low = BRIX_LOW, high = BRIX_HIGH;

  if (!(baume >= fr_baume_from_brix (low) && baume <= fr_baume_from_brix (high)))
    return NAN;
  if (baume == 0)
    return 0;
  /* Density rises with sugar all the way, so halving cannot miss; 60 halvings of 105 leave less than 1e-15.
   */
  for (int i = 0; i < 60; i++)
    {
      double middle = (low + high) / 2;

      if (fr_baume_from_brix (middle) < baume)
        low = middle;
      else
        high = middle;
    }
  return (low + high) / 2;
}
