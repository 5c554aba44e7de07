/* Steam and water, and the air pressure it boils under.
 *
 * Pressures in Pa, temperatures in °C, densities in kg/m³, heats in J/kg. NAN outside the stated range. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Saturation pressure of water, 0 to 373.9 °C. */
double fr_saturation_pressure_pa (double temp_c);

/* Boiling temperature of plain water at a pressure, 611.213 Pa to 22.064 MPa. */
double fr_saturation_temp_c (double pressure_pa);

/* Heat of evaporation at the boiling point for a pressure, 30 to 115 kPa; within 0.1 kJ/kg of IF97 over 70–110 kPa. */
double fr_latent_heat_j_per_kg (double pressure_pa);

/* Density of liquid water at about one atmosphere, −1.5 to 115 °C (Kell, 0 to 110 °C as published). */
double fr_water_density_kg_m3 (double temp_c);

/* Slope of that density with temperature, kg/m³ per K. */
double fr_water_density_slope (double temp_c);

/* Specific heat of liquid water, 0 to 110 °C, J/(kg K); within 2 J of IF97 (a fit to the table in docs). */
double fr_water_specific_heat (double temp_c);

/* Air pressure at an altitude by the 1976 standard atmosphere, −500 to 11,000 m. */
double fr_pressure_from_altitude_pa (double altitude_m);

/* Air pressure at the place from a weather report's pressure reduced to sea level (hypsometric), 87–108.5 kPa. */
double fr_pressure_from_sea_level_pa (double sea_level_pa, double altitude_m, double air_c);

G_END_DECLS
