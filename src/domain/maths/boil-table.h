/* What boiling needs to know of water and sugar at one air pressure, tabulated once and handed in: the boiling temperature
 * over °Bx with its slope, and the heat of evaporation. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_BOIL_TABLE_NODES 161

typedef struct
{
  double pressure_pa;
  double water_boils_c;
  double latent_j_per_kg;
  double boil_c[FR_BOIL_TABLE_NODES]; /* every half °Bx from 0 to 80 */
  double slope[FR_BOIL_TABLE_NODES];  /* K per node step */
} FrBoilTable;

/* Fills @table for a pressure of 30 to 115 kPa; FALSE outside. */
gboolean fr_boil_table_init (FrBoilTable *table, double pressure_pa);

/* Boiling temperature and its slope in K per °Bx, 0–80 °Bx; within 1e-6 K of fr_sucrose_boil_temp_c. NAN outside. */
double fr_boil_table_temp_c (const FrBoilTable *table, double brix, double *slope_out);

G_END_DECLS
