/* Mass balance of sap and syrup: mixing, thickening, thinning, taking ice out, and how much sap a litre of
 * syrup needs.
 *
 * Masses in kg, volumes in L, °Brix as everywhere. Sugar and water are neither made nor lost; volumes are not
 * conserved and are taken through the density at a stated temperature. NAN for what cannot be. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double mass_kg;
  double brix;
} FrSolution;

/* A volume at a temperature as mass, and back. */
FrSolution
fr_solution_from_volume (double volume_l, double brix, double temp_c);
double
fr_solution_volume_l (FrSolution solution, double temp_c);

double
fr_solution_sugar_kg (FrSolution solution);

/* Two together. */
FrSolution
fr_solution_mix (FrSolution a, FrSolution b);

/* Water to boil off (or press out) to reach @target_brix; NAN when it is thinner than @solution. */
double
fr_solution_water_off_kg (FrSolution solution, double target_brix);

/**
 * fr_solution_to_add_kg:
 * @solution: what there is
 * @with_brix: what is added, 0 for water
 * @target_brix: wanted
 *
 * How much to stir in (Pearson's square by mass).
 *
 * Returns: NAN unless @target_brix lies between the two, @with_brix excluded.
 */
double
fr_solution_to_add_kg (FrSolution solution, double with_brix, double target_brix);

/* What stays when ice is thrown away; the ice's °Bx is what it melts to. Mass NAN when the ice holds more
 * water or sugar than there was. */
FrSolution
fr_solution_without_ice (FrSolution solution, FrSolution ice);

/* Share of the mass that must go as water from @brix to @target_brix: 1 − X / X_target. */
double
fr_solution_water_share (double brix, double target_brix);

/* Litres of sap for a litre of syrup, both measured at @temp_c, nothing lost. */
double
fr_sap_per_syrup (double sap_brix, double syrup_brix, double temp_c);

/* Litres of water off for a litre of syrup, all at @temp_c. */
double
fr_water_per_syrup (double sap_brix, double syrup_brix, double temp_c);

/* The trade's rules, for comparison only: 86/X (syrup of 65.5 °Bx) and 87.1/X − 0.32 (66.0 °Bx). */
double
fr_sap_per_syrup_rule_86 (double sap_brix);
double
fr_sap_per_syrup_rule_87 (double sap_brix);

G_END_DECLS
