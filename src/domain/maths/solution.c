/* Mass balance. Exact; what is left of doubt is the density's (sucrose.c: 0.02 kg/m³ of ICUMSA).
 * Sources: conservation of mass. Rule of 86: C. H. Jones, Vermont 1946, made for syrup of 65.5 °Bx. Its
 * revision for 66.0 °Bx: Perkins and Isselhardt, The Jones Rule of 86 revisited, Maple Syrup Digest 2013 (the
 * −0.32 from memory). Against the balance the first is 1 % low for 66.0 °Bx, the second 0.4 % low at 1 °Bx.
 */
#include "domain/maths/solution.h"

#include "domain/maths/sucrose.h"

#include <math.h>

static gboolean
is_brix (double brix)
{
  return brix >= 0 && brix <= FR_BRIX_MAX;
}

FrSolution
fr_solution_from_volume (double volume_l, double brix, double temp_c)
{
  return (FrSolution){ volume_l >= 0 ? 1e-3 * volume_l * fr_sucrose_density_kg_m3 (brix, temp_c) : NAN,
                       brix };
}

double
fr_solution_volume_l (FrSolution solution, double temp_c)
{
  return 1e3 * solution.mass_kg / fr_sucrose_density_kg_m3 (solution.brix, temp_c);
}

double
fr_solution_sugar_kg (FrSolution solution)
{
  return solution.mass_kg * solution.brix / 100;
}

FrSolution
fr_solution_mix (FrSolution a, FrSolution b)
{
  double mass_kg = a.mass_kg + b.mass_kg;

  if (!(a.mass_kg >= 0 && b.mass_kg >= 0 && mass_kg > 0))
    return (FrSolution){ mass_kg == 0 ? 0 : NAN, NAN };
  return (FrSolution){ mass_kg, (a.mass_kg * a.brix + b.mass_kg * b.brix) / mass_kg };
}

double
fr_solution_water_off_kg (FrSolution solution, double target_brix)
{
  return solution.mass_kg * fr_solution_water_share (solution.brix, target_brix);
}

double
fr_solution_to_add_kg (FrSolution solution, double with_brix, double target_brix)
{
  double needs = solution.brix - target_brix, brings = target_brix - with_brix;

  if (!is_brix (solution.brix) || !is_brix (with_brix) || !is_brix (target_brix) || !(needs * brings >= 0)
      || brings == 0)
    return NAN;
  return solution.mass_kg * needs / brings;
}

FrSolution
fr_solution_without_ice (FrSolution solution, FrSolution ice)
{
  double mass_kg = solution.mass_kg - ice.mass_kg;
  double sugar_kg = fr_solution_sugar_kg (solution) - fr_solution_sugar_kg (ice);

  if (!(ice.mass_kg >= 0 && mass_kg > 0 && sugar_kg >= 0 && sugar_kg <= mass_kg))
    return (FrSolution){ NAN, NAN };
  return (FrSolution){ mass_kg, 100 * sugar_kg / mass_kg };
}

double
fr_solution_water_share (double brix, double target_brix)
{
  if (!is_brix (brix) || !is_brix (target_brix) || !(target_brix >= brix) || target_brix == 0)
    return NAN;
  return 1 - brix / target_brix;
}

double
fr_sap_per_syrup (double sap_brix, double syrup_brix, double temp_c)
{
  if (!(sap_brix > 0 && syrup_brix >= sap_brix))
    return NAN;
  return syrup_brix * fr_sucrose_density_kg_m3 (syrup_brix, temp_c)
         / (sap_brix * fr_sucrose_density_kg_m3 (sap_brix, temp_c));
}

double
fr_water_per_syrup (double sap_brix, double syrup_brix, double temp_c)
{
  if (!(sap_brix > 0 && syrup_brix >= sap_brix))
    return NAN;
  return fr_sucrose_density_kg_m3 (syrup_brix, temp_c) * (syrup_brix / sap_brix - 1)
         / fr_sucrose_density_kg_m3 (0, temp_c);
}

double
fr_sap_per_syrup_rule_86 (double sap_brix)
{
  return sap_brix > 0 ? 86 / sap_brix : NAN;
}

double
fr_sap_per_syrup_rule_87 (double sap_brix)
{
  return sap_brix > 0 ? 87.1 / sap_brix - 0.32 : NAN;
}
