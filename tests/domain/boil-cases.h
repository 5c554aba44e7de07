/* Random boils from a seed, over every shape of vessel and kind of feed, for the checks that follow many of
 * them. */
#pragma once

#include "domain/maths/boil-run.h"
#include "domain/maths/sucrose.h"
#include "domain/maths/vessel.h"
#include "domain/maths/water.h"

#include <math.h>

static inline double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

static inline gboolean
one_in (GRand *rand, gint n)
{
  return g_rand_int_range (rand, 0, n) == 0;
}

/* A vessel of a random shape that holds @capacity_l. */
static inline FrVessel
case_vessel (GRand *rand, double capacity_l)
{
  FrVessel v = { .shape = (FrShape)g_rand_int_range (rand, 0, FR_N_SHAPES) };
  double scale;

  v.a_m = between (rand, 0.1, 0.3);
  v.height_m = between (rand, 0.1, 0.3);
  if (v.shape == FR_SHAPE_CONE)
    v.b_m = between (rand, 0.1, 0.3);
  if (v.shape == FR_SHAPE_CAP)
    v.b_m = one_in (rand, 2) ? 0 : v.a_m * between (rand, 0.2, 0.9);
  if (v.shape == FR_SHAPE_BOX)
    {
      v.b_m = between (rand, 0.1, 0.3);
      v.c_m = MIN (v.a_m, v.b_m) / 2 * between (rand, 0, 1);
    }
  if (v.shape == FR_SHAPE_TABLE)
    {
      v.n_rows = (guint)g_rand_int_range (rand, 2, 12);
      for (guint i = 0; i < v.n_rows; i++)
        {
          v.row_depth_m[i] = (i > 0 ? v.row_depth_m[i - 1] : 0) + between (rand, 0.01, 0.05);
          v.row_l[i] = (i > 0 ? v.row_l[i - 1] : 0) + between (rand, 0.3, 2);
        }
    }
  scale = cbrt (capacity_l / fr_vessel_capacity_l (&v));
  v.a_m *= scale;
  v.b_m *= scale;
  v.c_m *= scale;
  v.height_m *= scale;
  for (guint i = 0; i < v.n_rows; i++)
    {
      v.row_depth_m[i] *= scale;
      v.row_l[i] *= scale * scale * scale;
    }
  return v;
}

/* 300–3000 W, ratio 0.4–0.95, 0.5–20 L, feed 0–100 L at 0.5–12 °Bx, 0–3000 m, −25–25 °C; every stop may be
 * absent. @table is filled; @kind FR_N_FEEDS takes any. */
static inline FrBoil
case_boil (GRand *rand, FrFeedKind kind, FrBoilTable *table)
{
  double hold_l = exp (between (rand, log (0.5), log (20)));
  FrVessel vessel = case_vessel (rand, hold_l * between (rand, 1.3, 3));
  FrBoil boil = {
    .table = table,
    .air_c = between (rand, -25, 25),
    .power_w = between (rand, 300, 3000),
    .heat_ratio = between (rand, 0.4, 0.95),
    .wall_w_per_k = one_in (rand, 4)
                        ? 0
                        : fr_vessel_wall_w_per_k (&vessel, (FrCover)g_rand_int_range (rand, 0, FR_N_COVERS)),
    .reflux_ratio = one_in (rand, 4) ? between (rand, 0, 0.3) : 0,
    .start_l = one_in (rand, 3) ? hold_l : hold_l * between (rand, 0.2, 1.2),
    .start_brix = one_in (rand, 5) ? between (rand, 12, 50) : between (rand, 0.5, 12),
    .start_c = one_in (rand, 6) ? between (rand, 60, 85) : between (rand, -1, 25),
    .feed_kind = kind < FR_N_FEEDS ? kind : (FrFeedKind)g_rand_int_range (rand, 0, FR_N_FEEDS),
    .feed_l = one_in (rand, 10) ? 0 : between (rand, 0, 100),
    .feed_brix = between (rand, 0.5, 12),
    .feed_c = between (rand, -1, 25),
    .hold_l = hold_l,
    .stream_l_per_s = between (rand, 0.1, 3) / 3600,
    .hole_m2 = 0.62 * G_PI / 4 * pow (between (rand, 0.3e-3, 1e-3), 2),
    .head_m = between (rand, 0, 0.3),
    .bucket_m2 = between (rand, 0.04, 0.1),
    .cutoff_l = one_in (rand, 4) ? NAN : hold_l * between (rand, 0.15, 0.95),
    .after_s = one_in (rand, 3) ? NAN : between (rand, 600, 40 * 3600.0),
    .stop_brix = one_in (rand, 3) ? between (rand, 5, 72) : NAN,
    .trip_s = NAN,
    .rim_l = one_in (rand, 2) ? fr_vessel_capacity_l (&vessel) : NAN,
    .foam_l = one_in (rand, 2) ? fr_vessel_capacity_l (&vessel) * 0.6 : NAN,
    .min_l = one_in (rand, 2) ? hold_l * between (rand, 0.1, 0.9) : NAN,
  };

  if (!fr_boil_table_init (table, fr_pressure_from_altitude_pa (between (rand, 0, 3000))))
    g_error ("no table");
  if (one_in (rand, 10))
    {
      boil.trip_s = between (rand, 0, 12 * 3600.0);
      boil.after_s = boil.trip_s + between (rand, 0, 12 * 3600.0);
    }
  return boil;
}

static inline double
mass_kg (double litres, double brix, double temp_c)
{
  return 1e-3 * litres * fr_sucrose_density_kg_m3 (brix, temp_c);
}

/* A plain evening, to be varied: the example of the conventions. */
static inline FrBoil
evening (void)
{
  static FrBoilTable table;

  if (!fr_boil_table_init (&table, fr_pressure_from_altitude_pa (250)))
    g_error ("no table");
  return (FrBoil){
    .table = &table,
    .air_c = -3,
    .power_w = 1800,
    .heat_ratio = 0.85,
    .wall_w_per_k = 0.9,
    .start_l = 1.5,
    .start_brix = 2,
    .start_c = 3,
    .feed_kind = FR_FEED_LEVEL,
    .feed_l = 12,
    .feed_brix = 2,
    .feed_c = 3,
    .hold_l = 1.5,
    .cutoff_l = 0.8,
    .after_s = NAN,
    .stop_brix = NAN,
    .trip_s = NAN,
    .rim_l = NAN,
    .foam_l = NAN,
    .min_l = NAN,
  };
}
