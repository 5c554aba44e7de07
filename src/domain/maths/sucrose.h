/* Sugar solution: what sap and syrup weigh, hold and boil at. Sap and syrup are taken as sucrose in water.
 *
 * °Brix is grams of sugar in 100 g of solution. Range 0 to 80 °Bx unless said; NAN outside. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_BRIX_MAX 80.0

/* Density in vacuum, kg/m³; 0–80 °Bx, −1 to 115 °C. As published 0–75 °Bx and 0–100 °C; beyond that extrapolated. */
double fr_sucrose_density_kg_m3 (double brix, double temp_c);

/* Density and its slopes with °Bx and temperature in one go (kg/m³, per °Bx, per K). */
void fr_sucrose_density_slopes (double brix, double temp_c, double *density_out, double *per_brix_out,
                                double *per_kelvin_out);

/* TRUE when a density at this point rests on extrapolation beyond the published range. */
gboolean fr_sucrose_density_is_extrapolated (double brix, double temp_c);

/* Boiling temperature at a pressure (30–115 kPa), °C. */
double fr_sucrose_boil_temp_c (double brix, double pressure_pa);

/* How much higher than plain water that is, K. */
double fr_sucrose_elevation_k (double brix, double pressure_pa);

/* The °Bx that boils @elevation_k above plain water at a pressure; NAN outside 0–80 °Bx. */
double fr_sucrose_brix_from_elevation (double elevation_k, double pressure_pa);

/* Specific heat, J/(kg K). */
double fr_sucrose_specific_heat (double brix, double temp_c);

/* Heat held above 0 °C by a kilogram of water, and of sugar, in solution (J/kg): integrals of the specific heat, which is
 * linear in °Bx so that the two add up without a term for mixing. */
double fr_water_enthalpy_j_per_kg (double temp_c);
double fr_sugar_enthalpy_j_per_kg (double temp_c);
double fr_water_heat_slope (double temp_c);
double fr_sugar_heat_slope (double temp_c);

/* What ice takes to melt at 0 °C, and its specific heat near it (2097 at 0 °C, 2020 at −10 °C: IAPWS, from memory). */
#define FR_ICE_FUSION_J_PER_KG 333.6e3
#define FR_ICE_J_PER_KG_K 2060.0

/* Freezing point, °C; −43 at 80 °Bx. */
double fr_sucrose_freezing_c (double brix);

/* Sugar that water can hold at a temperature, °Bx, 0–100 °C. */
double fr_sucrose_saturation_brix (double temp_c);

G_END_DECLS
